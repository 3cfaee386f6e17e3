//! The smallest fault current in a mesh: where the current has several ways, the sum along one is not what flows.

use super::grid::{BACK, number};
use super::piece::{Bound, resistance_of_run};
use crate::circuitry::End;
use crate::fact::Outcome;
use crate::known::{CaseId, Gaps};
use crate::reader::Reader;
use calc::nodal::{Network, Part};

/// The weakest source of a fault: a battery at a node.
#[derive(Clone, Copy, Debug)]
pub struct Weakest {
    /// The node at which it is joined.
    pub node: usize,
    /// Its voltage, V.
    pub volts: f64,
    /// Its internal resistance, Ω.
    pub ohms: f64,
}

/// The current through a run when its end lies in a dead short, A: hot copper, contacts at their worst, one source alone.
///
/// # Errors
/// What is not known of the runs; an empty list where the numbers have no solution.
pub fn smallest(reader: &mut Reader<'_>, run: usize, end: End, source: Weakest, case: CaseId) -> Outcome<f64> {
    let circuitry = reader.build().circuitry();
    let Some(node) = circuitry.runs.get(run).and_then(|run| run.node(end)) else { return Err(Gaps::default()) };
    let Some(&group) = circuitry.group.get(node) else { return Err(Gaps::default()) };
    let groups = reader.groups();
    let mut network = Network { reference: Some(BACK), ..Network::default() };
    let mut own = None;
    let mut gaps = Gaps::default();
    for &index in groups.runs(group) {
        let Some(other) = circuitry.runs.get(index) else { continue };
        let [Some(start), Some(finish)] = other.nodes else { continue };
        match resistance_of_run(reader, other, Bound::Most, case) {
            Ok(ohms) => {
                let place = network.add(number(start), number(finish), Part::Conductor { ohms });
                if index == run {
                    own = Some(place);
                }
            }
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let Weakest { node: at, volts, ohms } = source;
    network.add(number(at), BACK, Part::Source { volts, ohms, limit: None, gives_only: true });
    network.add(number(node), BACK, Part::Conductor { ohms: 0.0 });
    let solution = network.solve().map_err(|_| Gaps::default())?;
    let current = own.and_then(|place| solution.element(place)).map(|state| state.amperes.abs());
    current.ok_or_else(Gaps::default)
}
