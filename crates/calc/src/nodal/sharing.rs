//! How parallel batteries with unequal leads share a load.

use super::input::{Load, Network, Part, SolveError};
use super::result::Standing;

/// A battery of a parallel bank, with its own leads to the bars.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ParallelBattery {
    /// Open-circuit voltage, V.
    pub volts: f64,
    /// Internal resistance, Ω.
    pub internal_ohms: f64,
    /// Plus and minus lead, lugs and fuse together, Ω.
    pub lead_ohms: f64,
}

const MINUS: u32 = 0;
const PLUS: u32 = 1;
const FIRST_BATTERY: u32 = 2;

/// What each battery gives to the load at the bars, A, in their order; below zero for one that the others charge.
///
/// `Ok(None)` where the batteries cannot give the load what it asks.
///
/// # Errors
/// As [`Network::solve`]; the battery k is the elements 2k (source) and 2k + 1 (leads), the load is the last.
pub fn battery_sharing(batteries: &[ParallelBattery], load: Load) -> Result<Option<Vec<f64>>, SolveError> {
    let mut network = Network { reference: Some(MINUS), ..Network::default() };
    let mut sources = Vec::new();
    for (battery, post) in batteries.iter().zip(FIRST_BATTERY..) {
        let ParallelBattery { volts, internal_ohms, lead_ohms } = *battery;
        let source = Part::Source { volts, ohms: internal_ohms, limit: None, gives_only: false };
        sources.push(network.add(post, MINUS, source));
        network.add(post, PLUS, Part::Conductor { ohms: lead_ohms });
    }
    let load = network.add(PLUS, MINUS, Part::Load { load, least_volts: 0.0 });
    let solution = network.solve()?;
    if solution.element(load).is_none_or(|load| load.standing != Standing::Normal) {
        return Ok(None);
    }
    Ok(Some(sources.into_iter().map(|place| solution.element(place).map_or(0.0, |one| -one.amperes)).collect()))
}
