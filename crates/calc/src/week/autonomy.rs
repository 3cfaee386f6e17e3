//! How long the battery lasts from full without any source, and which load decides it.
//!
//! The loads are the same every day, so the first cut is found in closed form: the first day on which some step cannot be carried any more,
//! and the first such step of that day.

use super::outcome::{Cause, Deciding, Lasting};
use super::profile::{STEP_SECONDS, STEPS_PER_DAY};
use super::settle::Settled;

type Course = [f64; STEPS_PER_DAY];

/// How long the battery lasts from full, beginning at the week's time of the day.
pub(crate) fn autonomy(settled: &Settled) -> Lasting {
    lasting(settled, &falls(settled, &demand(settled)))
}

/// The load or inverter without which it lasts longest.
///
/// Peukert's law makes each reckoning without a load dear. A fall is a convex function of the power, so its tangent gives cheaply the longest
/// time that there can be without a load; only those that may still beat the best are reckoned in full.
pub(crate) fn deciding(settled: &Settled, with_all: Lasting) -> Option<Deciding> {
    if with_all == Lasting::Endless {
        return None;
    }
    let demand = demand(settled);
    let falls_of_all = falls(settled, &demand);
    let mut slopes = [0.0; STEPS_PER_DAY];
    for ((slope, &watts), &fall) in slopes.iter_mut().zip(&demand).zip(&falls_of_all) {
        if watts > 0.0 {
            *slope = fall / watts * settled.store.exponent_at(watts);
        }
    }
    let loads = settled.loads.iter().enumerate().map(|(index, load)| (Cause::Load(index), &load.at_battery));
    let idle = settled.idle.iter().enumerate().map(|(index, idle)| (Cause::Idle(index), idle));
    let mut candidates: Vec<(f64, Cause, &Course)> = loads
        .chain(idle)
        .filter(|(_, course)| course.iter().any(|&watts| watts > 0.0))
        .map(|(cause, course)| {
            let mut at_least = falls_of_all;
            for ((fall, slope), own) in at_least.iter_mut().zip(&slopes).zip(course) {
                let rest = *fall - slope * own;
                *fall = if rest > *fall * ROUNDING { rest } else { 0.0 };
            }
            (lasting(settled, &at_least).seconds(), cause, course)
        })
        .collect();
    candidates.sort_by(|one, other| other.0.total_cmp(&one.0));
    let mut best: Option<Deciding> = None;
    for (at_most, cause, course) in candidates {
        if best.is_some_and(|best| best.without.seconds() >= at_most) {
            break;
        }
        let mut rest = demand;
        for (watts, own) in rest.iter_mut().zip(course) {
            // What is left of a sum after its largest part is rounding.
            *watts = if *watts - own > *watts * ROUNDING { *watts - own } else { 0.0 };
        }
        let without = lasting(settled, &falls(settled, &rest));
        if best.is_none_or(|best| without.seconds() > best.without.seconds()) {
            best = Some(Deciding { cause, without });
        }
    }
    best
}

/// Differences below this part of a sum are rounding. Chosen, far above the rounding of some hundred loads.
const ROUNDING: f64 = 1e-12;

/// What the loads want of the battery's terminals, W.
fn demand(settled: &Settled) -> Course {
    let mut demand = settled.direct;
    for (watts, more) in demand.iter_mut().zip(&settled.alternating) {
        *watts += more;
    }
    demand
}

/// How far the state of charge falls in each step.
fn falls(settled: &Settled, demand: &Course) -> Course {
    let mut last = (0.0, 0.0);
    demand.map(|watts| {
        if watts != last.0 {
            last = (watts, settled.store.fall(watts) * STEP_SECONDS);
        }
        last.1
    })
}

/// How long the battery lasts with these falls.
fn lasting(settled: &Settled, falls: &Course) -> Lasting {
    let a_day: f64 = falls.iter().sum();
    if a_day <= 0.0 {
        return Lasting::Endless;
    }
    // A step fails on the first day n with n·a_day + before + fall + floor > 1; the step with the largest sum decides the day, the first such
    // step of that day the time.
    let mut sums = [f64::NEG_INFINITY; STEPS_PER_DAY];
    let mut before = 0.0;
    let mut largest = f64::NEG_INFINITY;
    let turned = || (settled.begins..STEPS_PER_DAY).chain(0..settled.begins);
    for (sum, step) in sums.iter_mut().zip(turned()) {
        let (Some(&fall), Some(&floor)) = (falls.get(step), settled.floor.get(step)) else { continue };
        if fall > 0.0 {
            before += fall;
            *sum = before + floor;
            largest = largest.max(*sum);
        }
    }
    let days = (1.0 - largest) / a_day;
    let days = if days < 0.0 { 0.0 } else { days.floor() + 1.0 };
    let gone = days * a_day;
    // By rounding no sum may be above 1; then the largest is the one.
    let limit = (1.0 - gone).min(largest * (1.0 - f64::EPSILON));
    for ((position, &sum), step) in sums.iter().enumerate().zip(turned()) {
        if sum > limit {
            let fall = falls.get(step).copied().unwrap_or(0.0);
            let part = (1.0 - (sum - 1.0 + gone) / fall).clamp(0.0, 1.0);
            return Lasting::Seconds(days * crate::energy::DAY_SECONDS + (position as f64 + part) * STEP_SECONDS);
        }
    }
    Lasting::Endless
}
