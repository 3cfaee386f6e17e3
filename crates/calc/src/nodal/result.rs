//! The solved network.

use super::input::{Network, Part};

/// The voltage of a node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NodeState {
    /// Fed: volts against the reference of its island.
    Live(f64),
    /// No source reaches it.
    Dead,
}

/// How an element stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Standing {
    /// As its numbers say.
    Normal,
    /// No source reaches it, or it is open.
    Dead,
    /// A one-way element that blocks, or a source that gives nothing since the others stand higher.
    Blocking,
    /// A source at its limit.
    AtLimit,
    /// A load left off: with it running its voltage would fall below its least one.
    BelowLeastVoltage {
        /// Its voltage with it running, V; about zero where it cannot run at any.
        volts: f64,
        /// Most that the network can give it at its least voltage or above, W; only for constant power.
        largest_watts: Option<f64>,
    },
    /// A constant-power load left off: the network cannot give that power at any voltage.
    TooLarge {
        /// Most that the network can give it beside the loads that run, W.
        largest_watts: f64,
    },
}

/// One solved element.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElementState {
    /// Voltage of its first node against its second, V; zero where dead.
    pub volts: f64,
    /// Current from its first node through it to its second, A. A source that gives has it below zero.
    pub amperes: f64,
    /// How it stands.
    pub standing: Standing,
}

impl ElementState {
    /// Power that the element takes, W; below zero for what it gives.
    #[must_use]
    pub fn watts(&self) -> f64 {
        self.volts * self.amperes
    }
}

/// A solved network.
#[derive(Debug, Clone, PartialEq)]
pub struct Solution {
    pub(super) nodes: Vec<(u32, NodeState)>,
    pub(super) elements: Vec<ElementState>,
    /// Newton steps taken, over all attempts.
    pub iterations: usize,
}

impl Solution {
    /// Every node with its state, rising by its number.
    #[must_use]
    pub fn nodes(&self) -> &[(u32, NodeState)] {
        &self.nodes
    }

    /// Volts of a node; `None` for a dead one and for one that no element names.
    #[must_use]
    pub fn volts(&self, node: u32) -> Option<f64> {
        let place = self.nodes.binary_search_by_key(&node, |&(id, _)| id).ok()?;
        match self.nodes.get(place)?.1 {
            NodeState::Live(volts) => Some(volts),
            NodeState::Dead => None,
        }
    }

    /// Every element, in the network's order.
    #[must_use]
    pub fn elements(&self) -> &[ElementState] {
        &self.elements
    }

    /// One element; `None` beyond the list.
    #[must_use]
    pub fn element(&self, place: usize) -> Option<&ElementState> {
        self.elements.get(place)
    }

    /// What conductors and one-way elements turn into heat, W; `network` is the solved one.
    #[must_use]
    pub fn losses_watts(&self, network: &Network) -> f64 {
        self.sum(network, |part| matches!(part, Part::Conductor { .. } | Part::OneWay { .. }))
    }

    /// What all loads take, W.
    #[must_use]
    pub fn load_watts(&self, network: &Network) -> f64 {
        self.sum(network, |part| matches!(part, Part::Load { .. }))
    }

    /// What all sources give at their terminals, W; what one takes counts below zero.
    #[must_use]
    pub fn source_watts(&self, network: &Network) -> f64 {
        -self.sum(network, |part| matches!(part, Part::Source { .. }))
    }

    fn sum(&self, network: &Network, wanted: impl Fn(&Part) -> bool) -> f64 {
        let pairs = self.elements.iter().zip(&network.elements);
        pairs.filter(|(_, element)| wanted(&element.part)).map(|(state, _)| state.watts()).sum()
    }
}
