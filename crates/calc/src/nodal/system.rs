//! The network made ready to be solved: joints merged, islands found, unknowns numbered.

use super::JOINT_OHMS;
use super::cholesky::{End, Matrix};
use super::input::{Network, Part};
use crate::disjoint::Sets;

/// A network ready to be solved.
pub(super) struct System {
    /// Node names, rising.
    pub(super) ids: Vec<u32>,
    /// For each element its two nodes, as places in `ids`.
    pub(super) nodes_of: Vec<[usize; 2]>,
    /// For each node the node that stands for it after merging.
    pub(super) merged: Vec<usize>,
    /// For each node the unknown: `None` in an island without a source, `Some(None)` at the reference.
    pub(super) unknown_of: Vec<Option<End>>,
    /// The edges: elements between two different merged nodes of an island that has a source.
    pub(super) edges: Vec<usize>,
    /// The ends of each edge.
    pub(super) ends: Vec<[End; 2]>,
    /// For each element its place among the edges.
    pub(super) edge_of: Vec<Option<usize>>,
    pub(super) matrix: Matrix,
    pub(super) unknowns: usize,
    /// The largest voltage of a source, V.
    pub(super) scale: f64,
}

/// True for a conductor that makes its ends one node.
pub(super) fn is_joint(part: &Part) -> bool {
    matches!(part, Part::Conductor { ohms } if *ohms <= JOINT_OHMS)
}

impl System {
    pub(super) fn new(network: &Network) -> Self {
        let mut ids: Vec<u32> = network.elements.iter().flat_map(|element| [element.from, element.to]).collect();
        ids.sort_unstable();
        ids.dedup();
        let position = |id: u32| ids.partition_point(|&other| other < id);
        let nodes_of: Vec<[usize; 2]> =
            network.elements.iter().map(|element| [position(element.from), position(element.to)]).collect();
        let (mut joined, mut islands) = (Sets::new(ids.len()), Sets::new(ids.len()));
        for (element, &[from, to]) in network.elements.iter().zip(&nodes_of) {
            if is_joint(&element.part) {
                joined.join(from, to);
            }
            if element.part != Part::Open {
                islands.join(from, to);
            }
        }
        let merged: Vec<usize> = (0..ids.len()).map(|node| joined.find(node)).collect();
        let stands_for = |node: usize| merged.get(node).copied().unwrap_or(node);

        // The reference of each island with a source, by the island's leading node.
        let mut references: Vec<Option<usize>> = vec![None; ids.len()];
        let mut scale = 0.0_f64;
        for (element, &[_, minus]) in network.elements.iter().zip(&nodes_of) {
            if let Part::Source { volts, .. } = element.part {
                scale = scale.max(volts);
                if let Some(entry) = references.get_mut(islands.find(minus)) {
                    entry.get_or_insert(stands_for(minus));
                }
            }
        }
        if let Some(chosen) = network.reference.and_then(|id| ids.binary_search(&id).ok())
            && let Some(entry @ Some(_)) = references.get_mut(islands.find(chosen))
        {
            *entry = Some(stands_for(chosen));
        }

        let mut unknown_of: Vec<Option<End>> = vec![None; ids.len()];
        let mut unknowns = 0;
        for node in 0..ids.len() {
            let Some(Some(reference)) = references.get(islands.find(node)).copied() else { continue };
            let leader = stands_for(node);
            // The leader is the lowest of its joint, so it is numbered before the others ask.
            let end = if leader == reference {
                Some(None)
            } else if leader == node {
                unknowns += 1;
                Some(Some(unknowns - 1))
            } else {
                unknown_of.get(leader).copied().flatten()
            };
            if let Some(entry) = unknown_of.get_mut(node) {
                *entry = end;
            }
        }

        let (mut edges, mut ends, mut edge_of) = (Vec::new(), Vec::new(), vec![None; network.elements.len()]);
        for (place, (element, &[from, to])) in network.elements.iter().zip(&nodes_of).enumerate() {
            let [Some(one), Some(other)] = [from, to].map(|node| unknown_of.get(node).copied().flatten()) else {
                continue;
            };
            if element.part == Part::Open || stands_for(from) == stands_for(to) {
                continue;
            }
            if let Some(entry) = edge_of.get_mut(place) {
                *entry = Some(edges.len());
            }
            edges.push(place);
            ends.push([one, other]);
        }
        let matrix = Matrix::new(unknowns, &ends);
        Self { ids, nodes_of, merged, unknown_of, edges, ends, edge_of, matrix, unknowns, scale }
    }
}

/// The voltage of an end: the reference has none.
pub(super) fn at(end: End, volts: &[f64]) -> f64 {
    end.and_then(|unknown| volts.get(unknown)).copied().unwrap_or(0.0)
}

/// The voltage from one end to the other.
pub(super) fn across(ends: [End; 2], volts: &[f64]) -> f64 {
    let [one, other] = ends;
    at(one, volts) - at(other, volts)
}
