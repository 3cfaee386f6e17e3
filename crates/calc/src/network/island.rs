//! A part of a network that no branch joins to the rest, and the currents of a fault in it.

use super::graph::{Graph, Twig};
use super::mesh::Terminals;
use super::{Branch, FaultCurrent, Network, Source};

/// A part of a network that no branch joins to the rest.
///
/// Most of a build is twigs: branches that lead to no source. They are found once; a question takes the core that is left, and of the
/// twigs only the one way to its node.
#[derive(Debug, Clone)]
pub(super) struct Island {
    /// The branches of the island that carry current, in the order of the whole network.
    branches: Vec<Branch>,
    sources: Vec<Source>,
    /// For each source its index in the whole network, rising.
    indices: Vec<usize>,
    /// The branches that are no twigs, rising.
    core: Vec<usize>,
    /// Each node of a twig with the way toward the core, rising by node.
    twigs: Vec<(u32, Twig)>,
}

impl Island {
    /// An island of branches that all [`super::joins`], and for each source its index in the whole network.
    pub(super) fn new(network: Network, indices: Vec<usize>) -> Self {
        let (core, twigs) = Graph::new(&network).core_and_twigs();
        Self { branches: network.branches, sources: network.sources, indices, core, twigs }
    }

    /// See [`super::Network::largest_fault_current`].
    pub(super) fn largest_fault_current(&self, node: u32, without_branch: Option<u32>) -> FaultCurrent {
        if self.sources.is_empty() {
            return FaultCurrent::default();
        }
        Question { graph: self.graph_for(node), sources: &self.sources, indices: &self.indices }
            .answer(node, without_branch)
    }

    /// The core and the way from it to a node.
    fn graph_for(&self, node: u32) -> Graph {
        let mut kept = self.core.clone();
        let mut here = node;
        while let Ok(place) = self.twigs.binary_search_by_key(&here, |&(id, _)| id) {
            let Some(&(_, Twig { branch, toward })) = self.twigs.get(place) else {
                break;
            };
            kept.push(branch);
            here = toward;
        }
        // The order of the branches decides how the last figures round, so it is always that of the whole network.
        kept.sort_unstable();
        let branches = kept.into_iter().filter_map(|index| self.branches.get(index).copied()).collect();
        Graph::new(&Network { branches, sources: self.sources.clone() })
    }
}

/// What can carry current to one fault.
pub(super) struct Question<'a> {
    pub(super) graph: Graph,
    pub(super) sources: &'a [Source],
    pub(super) indices: &'a [usize],
}

impl Question<'_> {
    pub(super) fn answer(&self, node: u32, without_branch: Option<u32>) -> FaultCurrent {
        let reaching = self.graph.sources_reaching(node, without_branch);
        let mut fault = FaultCurrent::default();
        let mut resistive = Vec::new();
        for index in reaching {
            let Some(source) = self.sources.get(index) else {
                continue;
            };
            let limit = usable_limit(source);
            if source.volts.is_finite() {
                if source.volts > 0.0 && limit != Some(0.0) {
                    resistive.push(index);
                }
            } else {
                // The voltage is unknown: only a limit can bound the current.
                let amperes = limit.unwrap_or(f64::INFINITY);
                fault.contributions.push((index, amperes, f64::NAN));
            }
        }
        self.add_resistive(node, without_branch, resistive, &mut fault.contributions);
        fault.contributions.sort_by_key(|&(index, _, _)| index);
        for contribution in &mut fault.contributions {
            contribution.0 = self.indices.get(contribution.0).copied().unwrap_or(contribution.0);
        }
        // Not `sum`, which gives −0 where there is nothing to add.
        fault.amperes = fault.contributions.iter().fold(0.0, |sum, &(_, amperes, _)| sum + amperes);
        fault
    }

    /// Adds what the sources with a known voltage give.
    ///
    /// A source found beyond its limit is counted with its limit, and the others are reckoned anew from the network without it: its
    /// unlimited current may have made another source seem to take current in. A source beyond its limit stays so as others go, since
    /// the node voltages then fall; so the loop ends after at most one round for each limited source.
    fn add_resistive(
        &self,
        node: u32,
        without_branch: Option<u32>,
        mut active: Vec<usize>,
        contributions: &mut Vec<(usize, f64, f64)>,
    ) {
        while !active.is_empty() {
            let network = self.graph.reduced(node, without_branch, &active, self.sources);
            let currents = currents_of(network, &active, self.sources);
            let over = |&(index, own, _, _): &(usize, f64, f64, f64)| {
                self.sources.get(index).and_then(usable_limit).is_some_and(|limit| own > limit)
            };
            if !currents.iter().any(over) {
                contributions.extend(
                    currents
                        .iter()
                        .filter(|&&(_, _, conductance, _)| conductance > 0.0)
                        .map(|&(index, _, conductance, volts)| (index, volts * conductance, 1.0 / conductance)),
                );
                return;
            }
            for current in currents.iter().filter(|&current| over(current)) {
                let limit = self.sources.get(current.0).and_then(usable_limit).unwrap_or(f64::INFINITY);
                contributions.push((current.0, limit, 1.0 / current.2));
                active.retain(|&index| index != current.0);
            }
        }
    }
}

fn usable_limit(source: &Source) -> Option<f64> {
    source.limit.filter(|limit| !limit.is_nan()).map(|limit| limit.max(0.0))
}

/// For each source that gives current: its index, its own current A, the conductance to the fault S and its voltage V.
///
/// Sources that take current in are left out. Without them the other voltages rise, so that such a source stays one as others go.
fn currents_of(mut network: Terminals, active: &[usize], sources: &[Source]) -> Vec<(usize, f64, f64, f64)> {
    let volts: Vec<f64> = active.iter().map(|&index| sources.get(index).map_or(0.0, |source| source.volts)).collect();
    let mut present: Vec<usize> = (0..active.len()).collect();
    loop {
        let (absorbing, giving): (Vec<usize>, Vec<usize>) =
            present.iter().partition(|&&terminal| network.own_current(terminal, &volts) < 0.0);
        if absorbing.is_empty() {
            break;
        }
        for terminal in absorbing {
            network.take_out(terminal);
        }
        present = giving;
    }
    present
        .into_iter()
        .filter_map(|terminal| {
            let index = *active.get(terminal)?;
            let own = network.own_current(terminal, &volts);
            Some((index, own, network.to_fault(terminal), *volts.get(terminal)?))
        })
        .collect()
}
