//! The run through the week.

use super::outcome::{Lasting, Report, SourceUse};
use super::profile::{DAYS, STEP_SECONDS, STEPS, STEPS_PER_DAY, STEPS_PER_HOUR};
use super::settle::Settled;

/// States of charge closer than this are one: a level that is just reached must count as reached. Chosen.
const SAME_CHARGE: f64 = 1e-9;

/// How the steps of 24 hours went, by the step of the day.
#[derive(Clone, Copy)]
struct Day {
    /// Share of what was wanted of the battery's terminals that was given.
    served: [f64; STEPS_PER_DAY],
    /// Share of the time in which mains fed the loads behind inverters.
    fed: [f64; STEPS_PER_DAY],
    /// Share of what the loads behind inverters wanted that came from the battery's terminals.
    from_battery: [f64; STEPS_PER_DAY],
}

type Days = [Day; DAYS];

/// The state between steps.
struct State {
    charge: f64,
    /// The loads are cut.
    cut: bool,
    /// The last power out of the battery and how fast it made the state fall: most steps repeat it.
    last: (f64, f64),
}

/// Runs the week; what needs no run is left for the caller.
pub(crate) fn run(settled: &Settled) -> Report {
    let mut report = Report {
        state_of_charge: Vec::with_capacity(STEPS / STEPS_PER_HOUR + 1),
        usable_left: Vec::with_capacity(STEPS / STEPS_PER_HOUR + 1),
        least_state_of_charge: settled.start,
        least_usable_left: f64::INFINITY,
        least_at: 0.0,
        autonomy: Lasting::Endless,
        deciding: None,
        recharge: Vec::new(),
        sources: vec![SourceUse::default(); settled.sources.len()],
        loads: vec![[0.0; DAYS]; settled.loads.len()],
        idle: vec![[0.0; DAYS]; settled.idle.len()],
        conversion_loss: 0.0,
        charge_loss: 0.0,
        discharge_loss: 0.0,
        stored: 0.0,
        unserved_seconds: 0.0,
        unserved_joules: 0.0,
    };
    let mut state = State { charge: settled.start, cut: false, last: (0.0, 0.0) };
    let zero = [0.0; STEPS_PER_DAY];
    let mut days = [Day { served: zero, fed: zero, from_battery: zero }; DAYS];
    note(&mut report, settled, &state, 0, settled.begins);
    for index in 0..STEPS {
        let (served, fed) = one_step(settled, &mut state, &mut report, index);
        let of_day = (settled.begins + index) % STEPS_PER_DAY;
        if let Some(day) = days.get_mut(index / STEPS_PER_DAY) {
            let shares =
                [(&mut day.served, served), (&mut day.fed, fed), (&mut day.from_battery, served * (1.0 - fed))];
            for (course, share) in shares {
                if let Some(step) = course.get_mut(of_day) {
                    *step = share;
                }
            }
        }
        note(&mut report, settled, &state, index + 1, of_day);
    }
    report.stored = (state.charge - settled.start) * settled.store.joules;
    share_out(settled, &days, &mut report);
    report
}

/// Notes the state after a number of steps, in a step of the day.
fn note(report: &mut Report, settled: &Settled, state: &State, steps: usize, of_day: usize) {
    let floor = settled.floor.get(of_day).copied().unwrap_or(0.0);
    let usable = ((state.charge - floor) / (1.0 - floor)).max(0.0);
    report.least_state_of_charge = report.least_state_of_charge.min(state.charge);
    if usable < report.least_usable_left {
        report.least_usable_left = usable;
        report.least_at = steps as f64 * STEP_SECONDS;
    }
    if steps.is_multiple_of(STEPS_PER_HOUR) {
        report.state_of_charge.push(state.charge);
        report.usable_left.push(usable);
    }
}

/// Goes one step: the share of what was wanted of the battery's terminals that was given, and the share of the time in which mains fed the loads
/// behind inverters.
fn one_step(settled: &Settled, state: &mut State, report: &mut Report, index: usize) -> (f64, f64) {
    let week = (settled.begins + index) % STEPS;
    let of_day = week % STEPS_PER_DAY;
    let day = index / STEPS_PER_DAY;
    let at = |course: &[f64]| course.get(week).copied().unwrap_or(0.0);
    let by_day = |course: &[f64; STEPS_PER_DAY]| course.get(of_day).copied().unwrap_or(0.0);
    let charges = settled.charges.get(of_day).copied().unwrap_or(false);
    let floor = by_day(&settled.floor);

    // Mains that feed the loads behind inverters take them off the battery, the first that is there all of the time.
    let mut fed: f64 = 0.0;
    let mut offered = 0.0;
    for source in &settled.sources {
        offered += at(source.watts.as_slice());
        if let Some(feeds) = &source.feeds {
            fed = fed.max(at(feeds.steps()));
        }
    }
    let wanted = by_day(&settled.direct) + by_day(&settled.alternating) * (1.0 - fed);

    let mut used = 0.0;
    let mut served = 0.0;
    let mut charging_seconds = 0.0;
    if state.cut {
        charging_seconds = STEP_SECONDS;
        unserved(report, wanted, STEP_SECONDS);
    } else if wanted > offered {
        let lacking = wanted - offered;
        if state.last.0 != lacking {
            state.last = (lacking, settled.store.fall(lacking));
        }
        let fall = state.last.1 * STEP_SECONDS;
        let there = (state.charge - floor).max(0.0);
        let lasts = if fall <= there { 1.0 } else { there / fall };
        let taken = fall.min(there);
        state.charge -= taken;
        report.discharge_loss += taken * settled.store.joules - lacking * lasts * STEP_SECONDS;
        if lasts < 1.0 && settled.reconnects > 0.0 {
            state.cut = true;
            // What the sources bring in the rest of the step must not hide that it was empty.
            report.least_state_of_charge = report.least_state_of_charge.min(state.charge);
            if report.least_usable_left > 0.0 {
                report.least_usable_left = 0.0;
                report.least_at = (index as f64 + lasts) * STEP_SECONDS;
            }
            served = lasts;
            used = offered * lasts * STEP_SECONDS;
            charging_seconds = (1.0 - lasts) * STEP_SECONDS;
            unserved(report, wanted, charging_seconds);
        } else {
            // Without a reconnection level the loads take whatever the sources give.
            let bare = offered / wanted;
            served = lasts + (1.0 - lasts) * bare;
            used = offered * STEP_SECONDS;
            unserved(report, wanted, (1.0 - lasts) * (1.0 - bare) * STEP_SECONDS);
        }
    } else {
        served = 1.0;
        used = wanted * STEP_SECONDS;
        let surplus = offered - wanted;
        if charges && surplus > 0.0 {
            used += put_in(settled, state, report, surplus, STEP_SECONDS);
        }
    }
    if charging_seconds > 0.0 {
        if charges && offered > 0.0 {
            used += put_in(settled, state, report, offered, charging_seconds);
        }
        if state.cut && state.charge - floor >= settled.reconnects * (1.0 - floor) - SAME_CHARGE {
            state.cut = false;
        }
    }

    for (source, sums) in settled.sources.iter().zip(&mut report.sources) {
        let joules = at(source.watts.as_slice()) * STEP_SECONDS;
        let taken = joules.min(used);
        used -= taken;
        if let (Some(offered), Some(sum)) = (sums.offered.get_mut(day), sums.used.get_mut(day)) {
            *offered += joules;
            *sum += taken;
        }
    }
    (served, fed)
}

/// Charges the battery at a power W; the energy that went in at the terminals, J.
fn put_in(settled: &Settled, state: &mut State, report: &mut Report, watts: f64, seconds: f64) -> f64 {
    let (after, joules) = settled.store.charge(state.charge, watts, seconds);
    report.charge_loss += joules - (after - state.charge) * settled.store.joules;
    state.charge = after;
    joules
}

/// Notes that a power W was wanted and not given.
fn unserved(report: &mut Report, watts: f64, seconds: f64) {
    if watts > 0.0 {
        report.unserved_seconds += seconds;
        report.unserved_joules += watts * seconds;
    }
}

/// Shares the energy that was given out among the loads and inverters, and the power of mains that fed loads to these.
fn share_out(settled: &Settled, steps: &Days, report: &mut Report) {
    let feeder = settled.sources.iter().position(|source| source.feeds.is_some());
    for (load, sums) in settled.loads.iter().zip(&mut report.loads) {
        let through_mains = load.inverter.is_some();
        for (day, (joules, steps)) in sums.iter_mut().zip(steps).enumerate() {
            let shares = if through_mains { &steps.from_battery } else { &steps.served };
            *joules = sum_of_products(&load.at_load, shares) * STEP_SECONDS;
            report.conversion_loss += *joules * load.lost;
            if let Some(feeder) = feeder.filter(|_| through_mains) {
                // What mains feed is neither converted nor taken from the battery; it counts for the first that feeds.
                let fed = sum_of_products(&load.at_load, &steps.fed) * STEP_SECONDS;
                *joules += fed;
                if let Some(source) = report.sources.get_mut(feeder) {
                    for sums in [&mut source.offered, &mut source.used] {
                        if let Some(sum) = sums.get_mut(day) {
                            *sum += fed;
                        }
                    }
                }
            }
        }
    }
    for (idle, sums) in settled.idle.iter().zip(&mut report.idle) {
        for (joules, steps) in sums.iter_mut().zip(steps) {
            *joules = sum_of_products(idle, &steps.from_battery) * STEP_SECONDS;
        }
    }
}

/// How many sums run side by side, so that the machine can add them at once.
const LANES: usize = 8;

/// The sum of the products of two courses over a day.
fn sum_of_products(one: &[f64; STEPS_PER_DAY], other: &[f64; STEPS_PER_DAY]) -> f64 {
    let mut sums = [0.0; LANES];
    for (one, other) in one.chunks_exact(LANES).zip(other.chunks_exact(LANES)) {
        for ((sum, a), b) in sums.iter_mut().zip(one).zip(other) {
            *sum += a * b;
        }
    }
    sums.iter().sum()
}
