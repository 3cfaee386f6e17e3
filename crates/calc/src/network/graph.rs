//! The network as a graph: islands, twigs, what a fault reaches, dead ends and joints.

use std::collections::BTreeMap;

use super::mesh::{Mesh, Terminals};
use super::{Network, SMALLEST_OHMS, Source};
use crate::disjoint::Sets;

/// A branch between two positions in [`Graph::ids`].
#[derive(Debug, Clone, Copy)]
struct Edge {
    ends: [usize; 2],
    ohms: f64,
    tag: u32,
}

/// A node that leads to no source but by one branch: the branch's place in the network, and the node at its other end.
#[derive(Debug, Clone, Copy)]
pub(super) struct Twig {
    pub(super) branch: usize,
    pub(super) toward: u32,
}

/// The network with its nodes numbered from zero and the branches listed at their nodes.
#[derive(Debug, Clone)]
pub(super) struct Graph {
    /// Node names, rising.
    ids: Vec<u32>,
    edges: Vec<Edge>,
    /// For each node the edges that meet there.
    meeting: Vec<Vec<usize>>,
    /// For each source its node.
    source_nodes: Vec<usize>,
}

impl Graph {
    pub(super) fn new(network: &Network) -> Self {
        let branch_ends = network.branches.iter().flat_map(|branch| [branch.from, branch.to]);
        let mut ids: Vec<u32> = branch_ends.chain(network.sources.iter().map(|source| source.node)).collect();
        ids.sort_unstable();
        ids.dedup();
        // Every name is in the list, so the position that binary search gives is the node itself.
        let position = |id: u32| ids.partition_point(|&other| other < id);

        let mut meeting = vec![Vec::new(); ids.len()];
        let mut edges = Vec::with_capacity(network.branches.len());
        for branch in &network.branches {
            let open = branch.ohms == f64::INFINITY;
            if branch.from == branch.to || open {
                continue;
            }
            let ends = [position(branch.from), position(branch.to)];
            for end in ends {
                if let Some(list) = meeting.get_mut(end) {
                    list.push(edges.len());
                }
            }
            edges.push(Edge { ends, ohms: branch.ohms, tag: branch.tag });
        }
        let source_nodes = network.sources.iter().map(|source| position(source.node)).collect();
        Self { ids, edges, meeting, source_nodes }
    }

    fn position(&self, node: u32) -> Option<usize> {
        self.ids.binary_search(&node).ok()
    }

    /// The neighbours of a node, with the edge to each, the branches with tag `without` left out.
    fn neighbours(&self, node: usize, without: Option<u32>) -> impl Iterator<Item = (usize, &Edge)> {
        let list = self.meeting.get(node).map_or(&[][..], Vec::as_slice);
        list.iter().filter_map(move |&index| {
            let edge = self.edges.get(index)?;
            let [one, other] = edge.ends;
            (Some(edge.tag) != without).then_some((if one == node { other } else { one }, edge))
        })
    }

    /// Each node's name with the number of its island (the nodes that branches join), rising by name.
    pub(super) fn islands(&self) -> Vec<(u32, usize)> {
        let mut island_of: Vec<Option<usize>> = vec![None; self.ids.len()];
        let mut count = 0;
        for start in 0..self.ids.len() {
            let mut stack = vec![start];
            let mut found = false;
            while let Some(node) = stack.pop() {
                if let Some(label @ None) = island_of.get_mut(node) {
                    *label = Some(count);
                    found = true;
                    stack.extend(self.neighbours(node, None).map(|(next, _)| next));
                }
            }
            count += usize::from(found);
        }
        self.ids.iter().zip(island_of).map(|(&id, island)| (id, island.unwrap_or(0))).collect()
    }

    /// The branches that are no twigs, rising, and the nodes of twigs, rising by name. Only for a network all of whose branches join two
    /// nodes, so that its branches and the edges here have one numbering.
    pub(super) fn core_and_twigs(&self) -> (Vec<usize>, Vec<(u32, Twig)>) {
        let mut fixed = vec![false; self.ids.len()];
        for &position in &self.source_nodes {
            set(&mut fixed, position);
        }
        let mut degree: Vec<usize> = self.meeting.iter().map(Vec::len).collect();
        let mut ends: Vec<usize> =
            (0..self.ids.len()).filter(|&node| !holds(&fixed, node) && degree.get(node) == Some(&1)).collect();
        let mut gone = vec![false; self.edges.len()];
        let mut twigs = Vec::new();
        while let Some(end) = ends.pop() {
            let meeting = self.meeting.get(end).map_or(&[][..], Vec::as_slice);
            let Some((branch, edge)) = meeting
                .iter()
                .filter(|&&edge| !holds(&gone, edge))
                .find_map(|&edge| Some((edge, self.edges.get(edge)?)))
            else {
                continue;
            };
            set(&mut gone, branch);
            let [one, other] = edge.ends;
            let next = if one == end { other } else { one };
            if let (Some(&id), Some(&toward)) = (self.ids.get(end), self.ids.get(next)) {
                twigs.push((id, Twig { branch, toward }));
            }
            if let Some(count) = degree.get_mut(next) {
                *count = count.saturating_sub(1);
                if *count == 1 && !holds(&fixed, next) {
                    ends.push(next);
                }
            }
        }
        twigs.sort_unstable_by_key(|&(id, _)| id);
        ((0..self.edges.len()).filter(|&edge| !holds(&gone, edge)).collect(), twigs)
    }

    /// Which nodes the fault reaches.
    fn region(&self, fault: usize, without: Option<u32>) -> Vec<bool> {
        let mut seen = vec![false; self.ids.len()];
        set(&mut seen, fault);
        let mut stack = vec![fault];
        while let Some(node) = stack.pop() {
            for (next, _) in self.neighbours(node, without) {
                if !holds(&seen, next) {
                    set(&mut seen, next);
                    stack.push(next);
                }
            }
        }
        seen
    }

    /// The sources with a path to the node, by index.
    pub(super) fn sources_reaching(&self, node: u32, without: Option<u32>) -> Vec<usize> {
        let Some(fault) = self.position(node) else {
            return Vec::new();
        };
        let seen = self.region(fault, without);
        self.source_nodes
            .iter()
            .enumerate()
            .filter_map(|(index, &position)| holds(&seen, position).then_some(index))
            .collect()
    }

    /// The nodes that carry fault current: those the fault reaches, without the dead ends that hold no source.
    fn carrying(&self, fault: usize, without: Option<u32>, active: &[usize]) -> Vec<bool> {
        let mut kept = self.region(fault, without);
        let mut fixed = vec![false; self.ids.len()];
        set(&mut fixed, fault);
        for &index in active {
            if let Some(&position) = self.source_nodes.get(index) {
                set(&mut fixed, position);
            }
        }
        let mut degree: Vec<usize> = (0..self.ids.len())
            .map(|node| if holds(&kept, node) { self.neighbours(node, without).count() } else { 0 })
            .collect();
        let mut ends: Vec<usize> = (0..self.ids.len())
            .filter(|&node| holds(&kept, node) && !holds(&fixed, node) && degree.get(node).is_some_and(|&d| d <= 1))
            .collect();
        while let Some(end) = ends.pop() {
            if let Some(flag) = kept.get_mut(end) {
                *flag = false;
            }
            for (next, _) in self.neighbours(end, without) {
                if !holds(&kept, next) {
                    continue;
                }
                if let Some(count) = degree.get_mut(next) {
                    *count = count.saturating_sub(1);
                    if *count == 1 && !holds(&fixed, next) {
                        ends.push(next);
                    }
                }
            }
        }
        kept
    }

    /// The network between the fault and the terminals of the `active` sources, all other nodes taken out.
    pub(super) fn reduced(&self, node: u32, without: Option<u32>, active: &[usize], sources: &[Source]) -> Terminals {
        let Some(fault) = self.position(node) else {
            return Terminals::new(active.len());
        };
        let kept = self.carrying(fault, without, active);
        let mut joints = self.joints(&kept, without);

        // Mesh node 0 is the fault, 1 to n are the terminals of the sources, then come the nodes between them.
        let mut mesh = Mesh::new(active.len() + 1);
        let mut numbers = BTreeMap::from([(joints.find(fault), 0)]);
        let mut number =
            |mesh: &mut Mesh, position: usize| *numbers.entry(joints.find(position)).or_insert_with(|| mesh.add_node());
        for edge in &self.edges {
            let [one, other] = edge.ends;
            if Some(edge.tag) == without || !holds(&kept, one) || !holds(&kept, other) || is_joint(edge.ohms) {
                continue;
            }
            let (one, other) = (number(&mut mesh, one), number(&mut mesh, other));
            mesh.connect(one, other, 1.0 / edge.ohms);
        }
        for (terminal, &index) in active.iter().enumerate() {
            let (Some(source), Some(&position)) = (sources.get(index), self.source_nodes.get(index)) else {
                continue;
            };
            let ohms = if source.ohms > SMALLEST_OHMS { source.ohms } else { SMALLEST_OHMS };
            let place = number(&mut mesh, position);
            mesh.connect(terminal + 1, place, 1.0 / ohms);
        }
        mesh.reduced()
    }

    /// Which nodes are one because a branch without resistance joins them.
    fn joints(&self, kept: &[bool], without: Option<u32>) -> Sets {
        let mut joints = Sets::new(self.ids.len());
        for edge in &self.edges {
            let [one, other] = edge.ends;
            if Some(edge.tag) != without && is_joint(edge.ohms) && holds(kept, one) && holds(kept, other) {
                joints.join(one, other);
            }
        }
        joints
    }
}

/// True where a resistance counts as none: see [`super::Branch::ohms`].
fn is_joint(ohms: f64) -> bool {
    ohms.is_nan() || ohms <= SMALLEST_OHMS
}

fn holds(flags: &[bool], index: usize) -> bool {
    flags.get(index).copied().unwrap_or(false)
}

fn set(flags: &mut [bool], index: usize) {
    if let Some(flag) = flags.get_mut(index) {
        *flag = true;
    }
}
