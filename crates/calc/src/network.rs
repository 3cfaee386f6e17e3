//! Fault current in a direct-current network with several sources and loops.
//!
//! **Model.** A branch is a resistance between two nodes (there and back: the resistance of the whole loop belongs in it). A source is an
//! open-circuit voltage behind a resistance, between its node and the common return. A fault is a dead short from a node to the return.
//!
//! **Method.** Each source becomes a terminal that stands at its voltage. All other nodes are taken out one by one with the star-mesh
//! transform (node i with conductances g gives its neighbours j, k the conductance g_j·g_k/Σg), which is nodal elimination without a
//! single subtraction. What is left between the source terminals and the fault gives each current by Ohm's law. Loops and parallel
//! paths are therefore reckoned in full.
//!
//! **Why the result is never below the true current.**
//! * Resistive sources: the solution is exact by superposition. A source that would take current in (a flat battery beside a full one)
//!   is left out, since it may be switched off, and without it the other voltages only rise. Raising any voltage raises every node's
//!   voltage (all conductances are positive), so the set without such sources gives the most that any set of connected sources can.
//! * Self-limited sources: a source that would exceed its limit is left out and its whole limit added. The part of an injected current
//!   that reaches the fault is at most 1, and an injected current only lowers what the other sources give, so the sum is not too low.
//! * Inductance only delays the rise; a battery's voltage sags with time.

mod graph;
mod island;
mod mesh;
#[cfg(test)]
mod tests;

use graph::Graph;
use island::Island;

/// A resistance between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Branch {
    /// Node at one end.
    pub from: u32,
    /// Node at the other end.
    pub to: u32,
    /// Resistance of the loop, Ω. [`SMALLEST_OHMS`] or less (zero and below too) or not a number: a joint without resistance, which gives
    /// the largest current. Infinite: open.
    pub ohms: f64,
    /// The caller's own mark, by which the branch can be left out.
    pub tag: u32,
}

/// A source between a node and the common return.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Source {
    /// Where it is connected.
    pub node: u32,
    /// Open-circuit voltage, V. Zero or below: it drives nothing. Not a number: see [`FaultCurrent::amperes`].
    pub volts: f64,
    /// Internal resistance, Ω. Zero, below zero or not a number: [`SMALLEST_OHMS`] is used, which gives the largest current.
    pub ohms: f64,
    /// Greatest current it can give, A, where it limits itself (a charger, a converter); below zero counts as zero, not a number as none.
    pub limit: Option<f64>,
}

/// A network of branches and sources. The nodes are whatever numbers the branches and sources name.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Network {
    /// The resistances.
    pub branches: Vec<Branch>,
    /// The sources.
    pub sources: Vec<Source>,
}

/// The fault current at a node.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct FaultCurrent {
    /// Upper bound of the fault current, A. Zero at a node that no source reaches. Infinite where a source that reaches the node has a
    /// voltage that is not a finite number and no limit: no device can be shown to be enough.
    pub amperes: f64,
    /// For each source that drives the fault: its index, its amperes at the fault, and its path resistance in Ω.
    ///
    /// The path resistance is the transfer resistance, own resistance included and sharing with the other sources reckoned in: for a
    /// source that stays within its limit, amperes = volts/ohms. For one at its limit it is the same resistance without the limit. Not a
    /// number where the voltage is not known.
    pub contributions: Vec<(usize, f64, f64)>,
}

/// A source without internal resistance is reckoned with this, Ω. Chosen: a millionth of the resistance of any battery of a vehicle.
pub const SMALLEST_OHMS: f64 = 1e-9;

impl Network {
    /// Upper bound of the current that a dead short at `node` draws from all sources, the branches with the tag `without_branch` left out.
    ///
    /// For many nodes of one network call [`Network::prepared`] once.
    #[must_use]
    pub fn largest_fault_current(&self, node: u32, without_branch: Option<u32>) -> FaultCurrent {
        self.prepared().largest_fault_current(node, without_branch)
    }

    /// The network made ready for many questions.
    #[must_use]
    pub fn prepared(&self) -> PreparedNetwork {
        let labels = Graph::new(self).islands();
        let island_of = |node: u32| find(&labels, node).unwrap_or(0);
        let count = labels.iter().map(|&(_, island)| island + 1).max().unwrap_or(0);
        let mut networks = vec![(Network::default(), Vec::new()); count];
        for branch in self.branches.iter().filter(|branch| joins(branch)) {
            if let Some((network, _)) = networks.get_mut(island_of(branch.from)) {
                network.branches.push(*branch);
            }
        }
        for (index, source) in self.sources.iter().enumerate() {
            if let Some((network, indices)) = networks.get_mut(island_of(source.node)) {
                network.sources.push(*source);
                indices.push(index);
            }
        }
        let islands = networks.into_iter().map(|(network, indices)| Island::new(network, indices)).collect();
        PreparedNetwork { labels, islands }
    }
}

/// True for a branch that can carry current between two nodes.
fn joins(branch: &Branch) -> bool {
    branch.from != branch.to && branch.ohms != f64::INFINITY
}

/// The island of a node in a list that rises by node.
fn find(labels: &[(u32, usize)], node: u32) -> Option<usize> {
    let place = labels.binary_search_by_key(&node, |&(id, _)| id).ok()?;
    labels.get(place).map(|&(_, island)| island)
}

/// A [`Network`] made ready for many questions.
///
/// It is held as its islands, the parts that no branch joins: a question reckons only with the island of its node, and there only with what
/// can carry current to it. A build of many small circuits, on one bar or on many, takes time in proportion to their number.
#[derive(Debug, Clone)]
pub struct PreparedNetwork {
    /// Each node with its island, rising.
    labels: Vec<(u32, usize)>,
    islands: Vec<Island>,
}

impl PreparedNetwork {
    /// See [`Network::largest_fault_current`].
    #[must_use]
    pub fn largest_fault_current(&self, node: u32, without_branch: Option<u32>) -> FaultCurrent {
        find(&self.labels, node)
            .and_then(|island| self.islands.get(island))
            .map(|island| island.largest_fault_current(node, without_branch))
            .unwrap_or_default()
    }
}
