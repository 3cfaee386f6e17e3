//! How long each source takes to fill the battery from the cut, alone and without loads.

use super::assumed::RECHARGED;
use super::outcome::Recharge;
use super::profile::{STEP_SECONDS, STEPS};
use super::settle::Settled;
use super::settle_sources::SettledSource;

/// A charge that takes longer than this is no charge for a traveller, s: a fortnight. Chosen.
const FORTNIGHT: f64 = 2.0 * 7.0 * crate::energy::DAY_SECONDS;

/// The time of each source.
pub(crate) fn recharge(settled: &Settled) -> Vec<Recharge> {
    // The cut lies highest in the coldest hour; from the lowest the way is longest.
    let cut = settled.floor.iter().copied().fold(f64::INFINITY, f64::min);
    settled.sources.iter().map(|source| one(settled, source, cut)).collect()
}

fn one(settled: &Settled, source: &SettledSource, cut: f64) -> Recharge {
    let brings = source.working.map_or_else(|| source.watts.iter().any(|&watts| watts > 0.0), |watts| watts > 0.0);
    if !brings || settled.store.limit <= 0.0 {
        return Recharge::Nothing;
    }
    if !settled.charges.contains(&true) {
        return Recharge::WrongTemperature;
    }
    let seconds = match source.working {
        Some(watts) => settled.store.charging_time(cut, RECHARGED, watts),
        None => by_sun(settled, source, cut),
    };
    if seconds <= FORTNIGHT { Recharge::Seconds(seconds) } else { Recharge::NotWithinFortnight }
}

/// Time from the sun's first light after the week's beginning until the battery is full, s; infinite where a fortnight is not enough.
fn by_sun(settled: &Settled, source: &SettledSource, cut: f64) -> f64 {
    let mut state = cut;
    let mut first = None;
    for index in 0..2 * STEPS {
        let week = (settled.begins + index) % STEPS;
        let watts = source.watts.get(week).copied().unwrap_or(0.0);
        if watts <= 0.0 {
            continue;
        }
        let first = *first.get_or_insert(index);
        if !settled.charges.get(week % settled.charges.len()).copied().unwrap_or(false) {
            continue;
        }
        let (after, _) = settled.store.charge(state, watts, STEP_SECONDS);
        if after >= RECHARGED {
            let within = settled.store.charging_time(state, RECHARGED, watts);
            return (index - first) as f64 * STEP_SECONDS + within;
        }
        state = after;
    }
    f64::INFINITY
}
