//! The network as a graph: what a fault reaches, dead ends, joints, and the star-mesh reduction.

use std::collections::{BTreeMap, BTreeSet};

use super::{Network, SMALLEST_OHMS, Source};

/// A branch between two positions in [`Graph::ids`].
#[derive(Debug, Clone, Copy)]
struct Edge {
    ends: [usize; 2],
    ohms: f64,
    tag: u32,
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
        let joints = self.joints(&kept, without);

        // Mesh node 0 is the fault, 1 to n are the terminals of the sources, then come the nodes between them.
        let mut mesh = Mesh::new(active.len() + 1);
        let mut numbers = BTreeMap::from([(joints.root(fault), 0)]);
        let mut number =
            |mesh: &mut Mesh, position: usize| *numbers.entry(joints.root(position)).or_insert_with(|| mesh.add_node());
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
    fn joints(&self, kept: &[bool], without: Option<u32>) -> Joints {
        let mut joints = Joints((0..self.ids.len()).collect());
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

/// Disjoint sets of nodes; each entry points toward the lowest node of its set.
struct Joints(Vec<usize>);

impl Joints {
    /// The root, with every other step on the way to it taken out, so that long chains of joints stay quick.
    fn shortened_root(&mut self, mut node: usize) -> usize {
        while let Some(&parent) = self.0.get(node) {
            if parent == node {
                break;
            }
            let above = self.0.get(parent).copied().unwrap_or(parent);
            if let Some(entry) = self.0.get_mut(node) {
                *entry = above;
            }
            node = above;
        }
        node
    }

    fn root(&self, mut node: usize) -> usize {
        while let Some(&parent) = self.0.get(node) {
            if parent == node {
                break;
            }
            node = parent;
        }
        node
    }

    fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.shortened_root(one), self.shortened_root(other));
        if let Some(parent) = self.0.get_mut(one.max(other)) {
            *parent = one.min(other);
        }
    }
}

/// Conductances between nodes, with the terminals first.
struct Mesh {
    terminals: usize,
    links: Vec<BTreeMap<usize, f64>>,
}

impl Mesh {
    fn new(terminals: usize) -> Self {
        Self { terminals, links: vec![BTreeMap::new(); terminals] }
    }

    fn add_node(&mut self) -> usize {
        self.links.push(BTreeMap::new());
        self.links.len() - 1
    }

    fn connect(&mut self, one: usize, other: usize, siemens: f64) {
        if one == other {
            return;
        }
        for (from, to) in [(one, other), (other, one)] {
            if let Some(links) = self.links.get_mut(from) {
                *links.entry(to).or_insert(0.0) += siemens;
            }
        }
    }

    fn degree(&self, node: usize) -> usize {
        self.links.get(node).map_or(0, BTreeMap::len)
    }

    /// Takes out every node that is no terminal, the one with the fewest neighbours first, which keeps a nearly radial network sparse.
    fn reduced(mut self) -> Terminals {
        let mut queue: BTreeSet<(usize, usize)> =
            (self.terminals..self.links.len()).map(|node| (self.degree(node), node)).collect();
        while let Some((_, node)) = queue.pop_first() {
            let neighbours: Vec<(usize, f64)> =
                self.links.get_mut(node).map(std::mem::take).unwrap_or_default().into_iter().collect();
            let before: Vec<usize> = neighbours.iter().map(|&(next, _)| self.degree(next)).collect();
            for &(next, _) in &neighbours {
                if let Some(links) = self.links.get_mut(next) {
                    links.remove(&node);
                }
            }
            let total: f64 = neighbours.iter().map(|&(_, siemens)| siemens).sum();
            if total > 0.0 {
                for (first, &(one, siemens)) in neighbours.iter().enumerate() {
                    for &(other, other_siemens) in neighbours.iter().skip(first + 1) {
                        self.connect(one, other, siemens * (other_siemens / total));
                    }
                }
            }
            for (&(next, _), degree) in neighbours.iter().zip(before) {
                if next >= self.terminals {
                    queue.remove(&(degree, next));
                    queue.insert((self.degree(next), next));
                }
            }
        }
        let mut terminals = Terminals::new(self.terminals - 1);
        for (one, links) in self.links.iter().take(self.terminals).enumerate() {
            for (&other, &siemens) in links {
                terminals.put(one, other, siemens);
            }
        }
        terminals
    }
}

/// Conductances between the fault (place 0) and the source terminals (places 1 to n), a square table.
pub(super) struct Terminals {
    places: usize,
    siemens: Vec<f64>,
}

impl Terminals {
    fn new(sources: usize) -> Self {
        let places = sources + 1;
        Self { places, siemens: vec![0.0; places * places] }
    }

    fn put(&mut self, one: usize, other: usize, siemens: f64) {
        if let Some(value) = self.siemens.get_mut(one * self.places + other) {
            *value = siemens;
        }
    }

    fn between(&self, one: usize, other: usize) -> f64 {
        self.siemens.get(one * self.places + other).copied().unwrap_or(0.0)
    }

    /// Conductance from a source's terminal to the fault, S.
    pub(super) fn to_fault(&self, terminal: usize) -> f64 {
        self.between(terminal + 1, 0)
    }

    /// Current that a source gives, A; below zero where it takes current in.
    pub(super) fn own_current(&self, terminal: usize, volts: &[f64]) -> f64 {
        let own_volts = volts.get(terminal).copied().unwrap_or(0.0);
        let to_others: f64 = volts
            .iter()
            .enumerate()
            .map(|(other, &other_volts)| {
                let siemens = self.between(terminal + 1, other + 1);
                // A terminal that was taken out has no conductance left; zero times an infinite voltage would be no number.
                if siemens > 0.0 { siemens * (own_volts - other_volts) } else { 0.0 }
            })
            .sum();
        self.to_fault(terminal) * own_volts + to_others
    }

    /// Opens a source: its terminal carries no current any more and is taken out like any node.
    pub(super) fn take_out(&mut self, terminal: usize) {
        let node = terminal + 1;
        let links: Vec<(usize, f64)> =
            (0..self.places).map(|other| (other, self.between(node, other))).filter(|&(_, s)| s > 0.0).collect();
        let total: f64 = links.iter().map(|&(_, siemens)| siemens).sum();
        for &(one, siemens) in &links {
            self.put(node, one, 0.0);
            self.put(one, node, 0.0);
            for &(other, other_siemens) in links.iter().filter(|&&(other, _)| other != one) {
                self.put(one, other, self.between(one, other) + siemens * (other_siemens / total));
            }
        }
    }
}
