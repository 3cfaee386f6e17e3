//! The circuits of a build as a network: nodes where things are joined, runs between them, and what is attached where.

mod sides;

use crate::known::{Gap, PartId};
use rustc_hash::{FxHashMap, FxHashSet};
use sides::Sides;
use std::collections::VecDeque;

/// A piece of a run, in the order in which it is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Piece {
    /// A length of conductor.
    Conductor(PartId),
    /// A protective device.
    Device(PartId),
    /// A disconnect, a switch or a relay.
    Switch(PartId),
    /// A part that the current only passes through: a shunt, a connector.
    Through(PartId),
}

impl Piece {
    /// The part that stands for it.
    pub const fn part(self) -> PartId {
        match self {
            Self::Conductor(part) | Self::Device(part) | Self::Switch(part) | Self::Through(part) => part,
        }
    }
}

/// One of a run's two ends.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
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

/// Which side of a thing is meant.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Side {
    /// The side at which a converter takes current, the battery side of an inverter and of an inverter-charger, and the only
    /// side of everything else.
    Input,
    /// The side at which a converter, an inverter or a transformer gives current.
    Output,
    /// A side at which an inverter-charger or a transfer switch takes alternating current; a transfer switch has several, in
    /// the order in which they are joined.
    Supply(u8),
}

/// A design week: its part, the batteries of its bank, and what is joined with them without a relay between.
#[derive(Clone, PartialEq, Debug)]
pub struct WeekOf {
    /// The worked part.
    pub part: PartId,
    /// The batteries, in the order of the text.
    pub batteries: Vec<PartId>,
    /// The nodes.
    pub nodes: FxHashSet<usize>,
}

impl Side {
    /// The sides by which a thing may be joined at all.
    pub const ALL: [Self; 3] = [Self::Input, Self::Output, Self::Supply(0)];
}

/// What is attached to a node: a thing, and of a converter which side.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Terminal {
    /// The thing.
    pub thing: PartId,
    /// Which of its sides.
    pub side: Side,
}

/// Something that is said to be joined to the network, and cannot be told to what: a name that is written as unknown or
/// that nothing has. It may be joined to any node.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct OpenEnd {
    /// The node from which it leads away, as far as that is known.
    pub node: Option<usize>,
    /// What would settle it.
    pub gap: Gap,
    /// Whether it carries alternating current.
    pub alternating: bool,
}

/// All that runs of direct current join without a converter between.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Network {
    /// The worked part that stands for it.
    pub part: PartId,
    /// Its nodes.
    pub nodes: Vec<usize>,
}

/// A source of alternating current and the worked part that stands for all that it can feed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Supply {
    /// The worked part.
    pub part: PartId,
    /// Where the source gives its current.
    pub source: Terminal,
}

/// The circuits of a build.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Circuitry {
    /// The sources of alternating current, in the order of the text.
    pub mains: Vec<Supply>,
    /// The things of each set that runs together; nothing where one of them cannot be told.
    pub sets: FxHashMap<PartId, Option<Vec<PartId>>>,
    /// The runs, in the order of the text.
    pub runs: Vec<Run>,
    /// What is attached to each node.
    pub attached: Vec<Vec<Terminal>>,
    /// The run of each worked part that belongs to one: the run itself, its ends, conductors and devices.
    pub run_of: FxHashMap<PartId, usize>,
    /// The part by which a worked part is written.
    pub written: FxHashMap<PartId, PartId>,
    /// The runs that meet at each node.
    pub meeting: Vec<Vec<usize>>,
    /// The node at which each terminal is attached.
    pub node_at: FxHashMap<Terminal, usize>,
    /// The group of each node: nodes joined by runs are of one group, called after the first of them.
    pub group: Vec<usize>,
    /// Whatever leads to somewhere that cannot be told.
    pub open_ends: Vec<OpenEnd>,
    /// The sources with their nodes.
    pub sources: Vec<(usize, Terminal)>,
    /// The networks of direct current.
    pub networks: Vec<Network>,
    /// The design weeks, one for each bank of batteries.
    pub weeks: Vec<WeekOf>,
    /// What lies at either side of each run.
    sides: Sides,
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
        let at = self.runs.get(run).and_then(|run| run.node(end));
        at.map_or_else(Vec::new, |at| self.sides.nodes(run, end, at))
    }

    /// Whether a node is reached from an end of a run without passing through the run itself.
    pub fn lies_behind(&self, run: usize, end: End, node: usize) -> bool {
        let at = self.runs.get(run).and_then(|run| run.node(end));
        at.is_some_and(|at| self.sides.holds(run, end, at, node))
    }

    /// The sources behind an end of a run, in the order of the nodes.
    pub fn sources_behind(&self, run: usize, end: End) -> impl Iterator<Item = (usize, Terminal)> + '_ {
        let at = self.runs.get(run).and_then(|run| run.node(end));
        let behind = move |node: usize| at.is_some_and(|at| self.sides.holds(run, end, at, node));
        self.sources.iter().copied().filter(move |(node, _)| behind(*node))
    }

    /// The places in the network of the sources of which this holds, for [`Circuitry::any_behind`].
    pub fn places_of_sources(&self, holds: impl Fn(Terminal) -> bool) -> Vec<usize> {
        self.sides.places(self.sources.iter().filter(|(_, terminal)| holds(*terminal)).map(|(node, _)| *node))
    }

    /// Whether a source of these places is behind an end of a run.
    pub fn any_behind(&self, run: usize, end: End, places: &[usize]) -> bool {
        let at = self.runs.get(run).and_then(|run| run.node(end));
        at.is_some_and(|at| self.sides.holds_any(run, end, at, places))
    }

    /// The sources of the group of any of these nodes.
    pub fn sources_joined<'a>(&'a self, nodes: &'a [Option<usize>]) -> impl Iterator<Item = Terminal> + 'a {
        let group = |node: &usize| self.group.get(*node).copied();
        let joined = move |node: &usize| nodes.iter().flatten().any(|other| group(other) == group(node));
        self.sources.iter().filter(move |(node, _)| joined(node)).map(|(_, terminal)| *terminal)
    }

    /// Every node that is joined to this one by runs.
    pub fn reached(&self, start: usize) -> Vec<usize> {
        let mut seen: FxHashSet<usize> = FxHashSet::from_iter([start]);
        let mut order = vec![start];
        let mut next = 0;
        while let Some(&node) = order.get(next) {
            next += 1;
            for &run in self.meeting.get(node).into_iter().flatten() {
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

    /// Whether a thing is attached to a network of direct current, on any side.
    pub fn is_joined(&self, network: PartId, thing: PartId) -> bool {
        let own = self.networks.iter().find(|own| own.part == network);
        own.is_some_and(|own| self.terminals(&own.nodes).any(|terminal| terminal.thing == thing))
    }

    /// The node at which a thing is attached on a side.
    pub fn node_of(&self, thing: PartId, side: Side) -> Option<usize> {
        self.node_at.get(&Terminal { thing, side }).copied()
    }

    /// The nodes at which a transfer switch takes what it passes on, in the order in which they are joined.
    pub fn supplies(&self, switch: PartId) -> impl Iterator<Item = usize> + '_ {
        (0..=u8::MAX).map_while(move |number| self.node_of(switch, Side::Supply(number)))
    }

    /// Settles which nodes are joined by runs, and what lies at either side of each.
    pub(crate) fn find_groups(&mut self, sources: Vec<(usize, Terminal)>) {
        self.sources = sources;
        self.sides = Sides::of(&self.runs, &self.meeting, &self.sources);
        let mut group = vec![usize::MAX; self.attached.len()];
        for node in 0..self.attached.len() {
            if group[node] == usize::MAX {
                for joined in self.reached(node) {
                    group[joined] = node;
                }
            }
        }
        self.group = group;
    }

    /// The most current, A, that sources drive to a node through the devices on the way, the run `without` left out: each
    /// source gives at most its limit, each run lets through at most its rating. Several ways and several sources add, so
    /// this is the greatest flow of the network (found by shortest augmenting paths); infinite where nothing limits it.
    /// `rating` is by run, `limits` the source limits by node; what is not among them has no limit, and gives nothing.
    pub fn most_driven(&self, to: usize, without: usize, rating: &[f64], limits: &FxHashMap<usize, f64>) -> f64 {
        let mut left = limits.clone();
        let mut flow: FxHashMap<usize, f64> = FxHashMap::default();
        let mut driven = 0.0;
        // Each round uses up a source or a run, or turns a flow back; the bound only guards against rounding.
        for _ in 0..=2 * (self.runs.len() + limits.len()) {
            let Some((source, path)) = self.way_to_source(to, without, rating, &flow, &left) else { break };
            let spare = path.iter().map(|(run, toward)| spare(rating, &flow, *run, *toward));
            let most = spare.fold(left.get(&source).copied().unwrap_or(0.0), f64::min);
            if most == f64::INFINITY {
                return most;
            }
            driven += most;
            if let Some(left) = left.get_mut(&source) {
                *left -= most;
            }
            for (run, toward) in path {
                *flow.entry(run).or_insert(0.0) += if toward { most } else { -most };
            }
        }
        driven
    }

    /// The runs at a node that lead on to a source.
    pub fn toward_sources(&self, node: usize) -> &[usize] {
        self.sides.to_sources(node)
    }

    /// The runs on any way from a node to a source, the run `without` left out.
    pub fn ways_to_sources(&self, from: usize, without: usize) -> Vec<usize> {
        let mut seen: FxHashSet<usize> = FxHashSet::from_iter([from]);
        let mut open = vec![from];
        let mut runs = Vec::new();
        while let Some(node) = open.pop() {
            for &index in self.sides.to_sources(node).iter().filter(|run| **run != without) {
                if !runs.contains(&index) {
                    runs.push(index);
                }
                let nodes = self.runs.get(index).into_iter().flat_map(|run| run.nodes.into_iter().flatten());
                open.extend(nodes.filter(|node| seen.insert(*node)));
            }
        }
        runs
    }

    /// The shortest way from a node to a source that can still give, over runs that let more through; each run with whether
    /// the current flows along it from its finish to its start.
    fn way_to_source(
        &self,
        to: usize,
        without: usize,
        rating: &[f64],
        flow: &FxHashMap<usize, f64>,
        left: &FxHashMap<usize, f64>,
    ) -> Option<(usize, Vec<(usize, bool)>)> {
        let mut came: FxHashMap<usize, Option<(usize, usize, bool)>> = FxHashMap::from_iter([(to, None)]);
        let mut open = VecDeque::from([to]);
        while let Some(node) = open.pop_front() {
            if left.get(&node).is_some_and(|left| *left > SMALLEST_FLOW) {
                let mut path = Vec::new();
                let mut here = node;
                while let Some(Some((before, run, toward))) = came.get(&here) {
                    path.push((*run, *toward));
                    here = *before;
                }
                return Some((node, path));
            }
            for &index in self.sides.to_sources(node).iter().filter(|run| **run != without) {
                let Some([Some(start), Some(finish)]) = self.runs.get(index).map(|run| run.nodes) else { continue };
                let (other, toward) = if start == node { (finish, true) } else { (start, false) };
                if spare(rating, flow, index, toward) > SMALLEST_FLOW && !came.contains_key(&other) {
                    came.insert(other, Some((node, index, toward)));
                    open.push_back(other);
                }
            }
        }
        None
    }
}

/// A flow that counts as none, A: chosen, far below the rating of any device.
const SMALLEST_FLOW: f64 = 1e-9;

/// How much more current a run lets through in a direction, A.
fn spare(rating: &[f64], flow: &FxHashMap<usize, f64>, run: usize, toward: bool) -> f64 {
    let flows = flow.get(&run).copied().unwrap_or(0.0);
    rating.get(run).copied().unwrap_or(f64::INFINITY) - if toward { flows } else { -flows }
}
