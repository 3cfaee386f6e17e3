//! How long the battery lasts from full without any source, and which load decides it.
//!
//! The loads are the same every day, so the first cut is found in closed form: for each step of the day the first day on which it cannot be
//! carried any more.

use super::outcome::{Cause, Deciding, Lasting};
use super::profile::{STEP_SECONDS, STEPS_PER_DAY};
use super::settle::Settled;

/// How long the battery lasts from full, beginning at the week's time of the day.
pub(crate) fn autonomy(settled: &Settled) -> Lasting {
    lasting(settled, |_, watts| watts)
}

/// The load or inverter without which it lasts longest.
pub(crate) fn deciding(settled: &Settled, with_all: Lasting) -> Option<Deciding> {
    if with_all == Lasting::Endless {
        return None;
    }
    let loads = settled.loads.iter().enumerate().map(|(index, load)| (Cause::Load(index), &load.at_battery));
    let idle = settled.idle.iter().enumerate().map(|(index, idle)| (Cause::Idle(index), idle));
    let mut best: Option<Deciding> = None;
    for (cause, course) in loads.chain(idle) {
        if course.iter().all(|&watts| watts == 0.0) {
            continue;
        }
        let without = lasting(settled, |step, watts| {
            let own = course.get(step).copied().unwrap_or(0.0);
            // What is left of a sum after its largest part is rounding.
            let rest = watts - own;
            if rest > watts * ROUNDING { rest } else { 0.0 }
        });
        if best.is_none_or(|best| without.seconds() > best.without.seconds()) {
            best = Some(Deciding { cause, without });
        }
    }
    best
}

/// Differences below this part of a sum are rounding. Chosen, far above the rounding of some hundred loads.
const ROUNDING: f64 = 1e-12;

/// How long the battery lasts with the demand of each step changed.
fn lasting(settled: &Settled, change: impl Fn(usize, f64) -> f64) -> Lasting {
    let mut falls = [0.0; STEPS_PER_DAY];
    let mut last = (0.0, 0.0);
    let demand = settled.direct.iter().zip(&settled.alternating);
    for (step, (fall, (direct, alternating))) in falls.iter_mut().zip(demand).enumerate() {
        let watts = change(step, direct + alternating);
        if watts != last.0 {
            last = (watts, settled.store.fall(watts) * STEP_SECONDS);
        }
        *fall = last.1;
    }
    let a_day: f64 = falls.iter().sum();
    if a_day <= 0.0 {
        return Lasting::Endless;
    }
    // (whole days before, steps since the beginning of the day, part of the step)
    let mut first: Option<(f64, f64)> = None;
    let mut before = 0.0;
    for position in 0..STEPS_PER_DAY {
        let step = (settled.begins + position) % STEPS_PER_DAY;
        let (Some(&fall), Some(&floor)) = (falls.get(step), settled.floor.get(step)) else { continue };
        if fall <= 0.0 {
            continue;
        }
        // The step fails on the first day n with 1 − n·a_day − before − fall < floor.
        let days = (1.0 - floor - before - fall) / a_day;
        let days = if days < 0.0 { 0.0 } else { days.floor() + 1.0 };
        let left = 1.0 - floor - days * a_day - before;
        let part = (left / fall).clamp(0.0, 1.0);
        let within = (position as f64 + part) * STEP_SECONDS;
        if first.is_none_or(|(least, at)| (days, within) < (least, at)) {
            first = Some((days, within));
        }
        before += fall;
    }
    first.map_or(Lasting::Endless, |(days, within)| Lasting::Seconds(days * crate::energy::DAY_SECONDS + within))
}
