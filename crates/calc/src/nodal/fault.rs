//! Fault currents in the solved network.

use super::input::{Network, Part, SolveError};

/// The current of a fault between two nodes.
#[derive(Debug, Clone, PartialEq)]
pub struct NodeFault {
    /// Current through the fault, A; zero where no source reaches it.
    pub amperes: f64,
    /// For each source that gives current while the fault stands: its place in the network and its amperes at its terminals.
    pub sources: Vec<(usize, f64)>,
}

/// Largest current of a dead short between `node` and `back`, A: all sources on, no load beside it.
///
/// `network` has its conductors cold and its sources full. Loads are left out, since they only take from the fault; a source that would
/// take current in is left out too, since it may be switched off, and without it the fault gets more.
///
/// # Errors
/// As [`Network::solve`].
pub fn largest_fault(network: &Network, node: u32, back: u32) -> Result<NodeFault, SolveError> {
    network.check()?;
    let mut shorted = network.clone();
    for element in &mut shorted.elements {
        match &mut element.part {
            part @ Part::Load { .. } => *part = Part::Open,
            Part::Source { gives_only, .. } => *gives_only = true,
            Part::Conductor { .. } | Part::Open | Part::OneWay { .. } => {}
        }
    }
    fault(shorted, node, back, 0.0)
}

/// Smallest current of a fault of `fault_ohms` between `node` and `back`, A: of the sources only those of `surely_on`, no load beside it.
///
/// `network` has its conductors hot and its sources as weak as they can be. The caller names the sources that are surely there (their
/// places in the list); to find the weakest single one, ask for each alone. Loads are left out: what they take lowers the current through
/// the fault but not what the device upstream sees by more than they take themselves.
///
/// # Errors
/// As [`Network::solve`]; `fault_ohms` is named as the number of the element after the last.
pub fn smallest_fault(
    network: &Network,
    node: u32,
    back: u32,
    fault_ohms: f64,
    surely_on: &[usize],
) -> Result<NodeFault, SolveError> {
    network.check()?;
    let mut weak = network.clone();
    for (place, element) in weak.elements.iter_mut().enumerate() {
        let off = matches!(element.part, Part::Source { .. }) && !surely_on.contains(&place);
        if off || matches!(element.part, Part::Load { .. }) {
            element.part = Part::Open;
        }
    }
    fault(weak, node, back, fault_ohms)
}

fn fault(mut network: Network, node: u32, back: u32, ohms: f64) -> Result<NodeFault, SolveError> {
    let place = network.add(node, back, Part::Conductor { ohms });
    let solution = network.solve()?;
    let amperes = solution.element(place).map_or(0.0, |fault| fault.amperes.abs());
    let sources = network
        .elements
        .iter()
        .zip(solution.elements())
        .enumerate()
        .filter(|(_, (element, state))| matches!(element.part, Part::Source { .. }) && state.amperes < 0.0)
        .map(|(place, (_, state))| (place, -state.amperes))
        .collect();
    Ok(NodeFault { amperes, sources })
}
