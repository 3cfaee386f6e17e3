//! Nodes that grow together where things are joined without a conductor.

use crate::circuitry::{Circuitry, Terminal};
use rustc_hash::FxHashMap;

/// Nodes that grow together where things are joined without a conductor.
#[derive(Default)]
pub struct Joints {
    /// The terminals, by the number of their nodes.
    pub terminals: Vec<Terminal>,
    numbers: FxHashMap<Terminal, usize>,
    leader: Vec<usize>,
}

impl Joints {
    /// The number of a terminal's node.
    pub fn node(&mut self, terminal: Terminal) -> usize {
        let next = self.terminals.len();
        let number = *self.numbers.entry(terminal).or_insert(next);
        if number == next {
            self.terminals.push(terminal);
            self.leader.push(next);
        }
        number
    }

    fn lead(&self, mut node: usize) -> usize {
        while let Some(&leader) = self.leader.get(node) {
            if leader == node {
                break;
            }
            node = leader;
        }
        node
    }

    /// Joins two nodes without a conductor.
    pub fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.lead(one), self.lead(other));
        if one != other
            && let Some(leader) = self.leader.get_mut(other)
        {
            *leader = one;
        }
    }

    /// Numbers the nodes anew, one for each group, and writes them into the runs.
    pub fn settle(self, circuitry: &mut Circuitry) {
        let mut numbers: FxHashMap<usize, usize> = FxHashMap::default();
        for (index, terminal) in self.terminals.iter().enumerate() {
            let next = numbers.len();
            let number = *numbers.entry(self.lead(index)).or_insert(next);
            if number == circuitry.attached.len() {
                circuitry.attached.push(Vec::new());
            }
            circuitry.attached[number].push(*terminal);
            circuitry.node_at.insert(*terminal, number);
        }
        circuitry.meeting = vec![Vec::new(); circuitry.attached.len()];
        let renumber = |node: Option<usize>| node.and_then(|node| numbers.get(&self.lead(node)).copied());
        for (index, run) in circuitry.runs.iter_mut().enumerate() {
            run.nodes = [renumber(run.nodes[0]), renumber(run.nodes[1])];
            for node in run.nodes.into_iter().flatten() {
                circuitry.meeting[node].push(index);
            }
        }
        for end in &mut circuitry.open_ends {
            end.node = renumber(end.node);
        }
    }
}
