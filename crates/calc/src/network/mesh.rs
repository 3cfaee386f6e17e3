//! The star-mesh reduction to the terminals of the sources and the fault.

use std::collections::{BTreeMap, BTreeSet};

/// Conductances between nodes, with the terminals first.
pub(super) struct Mesh {
    terminals: usize,
    links: Vec<BTreeMap<usize, f64>>,
}

impl Mesh {
    pub(super) fn new(terminals: usize) -> Self {
        Self { terminals, links: vec![BTreeMap::new(); terminals] }
    }

    pub(super) fn add_node(&mut self) -> usize {
        self.links.push(BTreeMap::new());
        self.links.len() - 1
    }

    pub(super) fn connect(&mut self, one: usize, other: usize, siemens: f64) {
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
    pub(super) fn reduced(mut self) -> Terminals {
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
    pub(super) fn new(sources: usize) -> Self {
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
