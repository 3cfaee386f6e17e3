//! What makes up the energy of a day: the share of each load, and of each inverter for being switched on.

use super::told::Told;
use crate::known::Gaps;
use crate::shares::EnergyShare;
use calc::week::{DayProfile, Entry, Supply};

/// The shares of a week, loads first.
pub(super) fn of(told: &Told) -> Vec<EnergyShare> {
    let entries = told.entries();
    let missing = |known: &[(bool, Entry)]| {
        let mut gaps = Gaps::default();
        known.iter().filter(|(known, _)| !known).for_each(|(_, entry)| gaps.add(&told.missing(*entry)));
        gaps
    };
    let mut shares = Vec::new();
    for (place, (load, part)) in entries.loads.iter().zip(&told.loads).enumerate() {
        let efficiency = match load.supply {
            Supply::Direct => Some(1.0),
            Supply::Converter(efficiency) => efficiency,
            Supply::Inverter(inverter) => entries.inverters.get(inverter).and_then(|inverter| inverter.efficiency),
        };
        let taken = match (load.watts, &load.running, efficiency) {
            (Some(watts), Some(running), Some(efficiency)) => Ok(watts * running.over_day() / efficiency),
            _ => Err(missing(&[
                (load.watts.is_some(), Entry::LoadPower(place)),
                (load.running.is_some(), Entry::LoadRunning(place)),
                (efficiency.is_some(), Entry::LoadConverter(place)),
            ])),
        };
        let seconds = load.running.as_ref().map(DayProfile::over_day);
        shares.push(EnergyShare { part: *part, idle: false, watts: load.watts, seconds, taken });
    }
    for (place, (inverter, part)) in entries.inverters.iter().zip(&told.inverters).enumerate() {
        let running = |load: &calc::week::Load| match (load.supply, &load.running) {
            (Supply::Inverter(own), Some(running)) if own == place => Some(running.clone()),
            _ => None,
        };
        // While a load of its runs, it is switched on.
        let seconds = inverter.on.as_ref().map(|on| {
            entries.loads.iter().filter_map(running).fold(on.clone(), |on, load| larger(&on, &load)).over_day()
        });
        let taken = match (inverter.idle_watts, seconds) {
            (Some(watts), Some(seconds)) => Ok(watts * seconds),
            _ => Err(missing(&[
                (inverter.idle_watts.is_some(), Entry::InverterIdle(place)),
                (inverter.on.is_some(), Entry::InverterOn(place)),
            ])),
        };
        shares.push(EnergyShare { part: *part, idle: true, watts: inverter.idle_watts, seconds, taken });
    }
    shares
}

fn larger(one: &DayProfile, other: &DayProfile) -> DayProfile {
    let mut steps = *one.steps();
    for (step, other) in steps.iter_mut().zip(other.steps()) {
        *step = step.max(*other);
    }
    DayProfile::by_step(steps)
}
