//! The circuits of a build as a network: nodes where things are joined, runs between them, and what is attached where.

use crate::known::PartId;
use std::collections::{HashMap, HashSet};

/// A piece of a run, in the order in which it is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Piece {
    /// A length of conductor.
    Conductor(PartId),
    /// A protective device.
    Device(PartId),
    /// A switch.
    Disconnect(PartId),
}

/// One of a run's two ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum End {
    /// Where it begins in the text.
    Start,
    /// Where it ends in the text.
    Finish,
}

impl End {
    /// Both ends.
    pub const BOTH: [Self; 2] = [Self::Start, Self::Finish];

    /// The end across.
    pub const fn other(self) -> Self {
        match self {
            Self::Start => Self::Finish,
            Self::Finish => Self::Start,
        }
    }
}

/// A run: a circuit, a way or a shore cable.
#[derive(Clone, PartialEq, Debug)]
pub struct Run {
    /// The worked part that stands for it.
    pub part: PartId,
    /// The part by which it is written.
    pub written: PartId,
    /// Its pieces, from start to finish.
    pub pieces: Vec<Piece>,
    /// Whether these are certainly all of its pieces.
    pub complete: bool,
    /// Whether it carries alternating current.
    pub alternating: bool,
    /// The worked parts that stand for its ends, start first.
    pub ends: [PartId; 2],
    /// The nodes at its ends; nothing where the text does not say what is there.
    pub nodes: [Option<usize>; 2],
}

impl Run {
    /// The node at an end.
    pub fn node(&self, end: End) -> Option<usize> {
        self.nodes[usize::from(end == End::Finish)]
    }

    /// The pieces as they are met from an end.
    pub fn pieces_from(&self, end: End) -> Vec<Piece> {
        let mut pieces = self.pieces.clone();
        if end == End::Finish {
            pieces.reverse();
        }
        pieces
    }

    /// Its protective devices, from start to finish.
    pub fn devices(&self) -> impl Iterator<Item = PartId> {
        self.pieces.iter().filter_map(|piece| match piece {
            Piece::Device(device) => Some(*device),
            _ => None,
        })
    }

    /// Its conductors, from start to finish.
    pub fn conductors(&self) -> impl Iterator<Item = PartId> {
        self.pieces.iter().filter_map(|piece| match piece {
            Piece::Conductor(conductor) => Some(*conductor),
            _ => None,
        })
    }
}

/// What is attached to a node: a thing, and of a converter which side.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Terminal {
    /// The thing.
    pub thing: PartId,
    /// Whether this is the side at which a converter gives current.
    pub output: bool,
}

/// The network.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Circuitry {
    /// The runs, in the order of the text.
    pub runs: Vec<Run>,
    /// What is attached to each node.
    pub attached: Vec<Vec<Terminal>>,
    /// The run of each worked part that belongs to one: the run itself, its ends, conductors and devices.
    pub run_of: HashMap<PartId, usize>,
    /// The part by which a worked part is written.
    pub written: HashMap<PartId, PartId>,
    /// The runs that meet at each node.
    pub meeting: Vec<Vec<usize>>,
}

impl Circuitry {
    /// The run that a worked part belongs to.
    pub fn run(&self, part: PartId) -> Option<&Run> {
        self.run_of.get(&part).and_then(|run| self.runs.get(*run))
    }

    /// The part by which a worked part is written.
    pub fn written(&self, part: PartId) -> PartId {
        self.written.get(&part).copied().unwrap_or(part)
    }

    /// Which end a worked part of kind `run-end` is.
    pub fn end_of(&self, part: PartId) -> Option<End> {
        let run = self.run(part)?;
        End::BOTH.into_iter().find(|end| run.ends[usize::from(*end == End::Finish)] == part)
    }

    /// Every node that is reached from an end of a run without passing through the run itself.
    pub fn behind(&self, run: usize, end: End) -> Vec<usize> {
        let start = self.runs.get(run).and_then(|run| run.node(end));
        start.map_or_else(Vec::new, |start| self.reached(start, Some(run)))
    }

    /// Every node that is joined to this one by runs, one run left out.
    pub fn reached(&self, start: usize, without: Option<usize>) -> Vec<usize> {
        let mut seen: HashSet<usize> = HashSet::from([start]);
        let mut order = vec![start];
        let mut next = 0;
        while let Some(&node) = order.get(next) {
            next += 1;
            for &run in self.meeting.get(node).into_iter().flatten().filter(|run| Some(**run) != without) {
                for &other in self.runs.get(run).into_iter().flat_map(|run| run.nodes.iter().flatten()) {
                    if seen.insert(other) {
                        order.push(other);
                    }
                }
            }
        }
        order
    }

    /// What is attached to any of these nodes.
    pub fn terminals<'a>(&'a self, nodes: &'a [usize]) -> impl Iterator<Item = Terminal> + 'a {
        nodes.iter().flat_map(|node| self.attached.get(*node).into_iter().flatten().copied())
    }

    /// The node at which a thing is attached on a side.
    pub fn node_of(&self, thing: PartId, output: bool) -> Option<usize> {
        self.attached.iter().position(|terminals| terminals.contains(&Terminal { thing, output }))
    }

    /// The least rating met on the way from a node to each node that it reaches, along the way where that is largest:
    /// the most current that the devices in between let through. `rating` gives the least rating in a run.
    pub fn widest(&self, start: usize, without: usize, rating: &[f64]) -> HashMap<usize, f64> {
        let mut widest: HashMap<usize, f64> = HashMap::from([(start, f64::INFINITY)]);
        let mut open = vec![start];
        // Each node may be widened again by a better way; a width only grows and takes one of the runs' ratings, so this
        // ends.
        while let Some(node) = open.pop() {
            let so_far = widest.get(&node).copied().unwrap_or(0.0);
            for &run in self.meeting.get(node).into_iter().flatten().filter(|run| **run != without) {
                let width = rating.get(run).copied().unwrap_or(f64::INFINITY).min(so_far);
                for &other in self.runs.get(run).into_iter().flat_map(|run| run.nodes.iter().flatten()) {
                    let known = widest.entry(other).or_insert(f64::NEG_INFINITY);
                    if width > *known {
                        *known = width;
                        open.push(other);
                    }
                }
            }
        }
        widest
    }
}
