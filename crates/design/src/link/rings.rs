//! Rings of circuits and cables side by side, in direct current: where a current has two ways, no device by itself says how
//! much a conductor carries.

use super::loose::{is_end_use, order};
use crate::circuitry::{Circuitry, Run};
use crate::part::Build;
use rustc_hash::FxHashMap;
use spec::Slip;
use std::collections::VecDeque;
use vocabulary::kind;

/// The most rings that are told one by one: beyond it a text is no wiring of a vehicle, and each needs a walk.
const MOST_RINGS: usize = 50;

/// Reports rings and cables side by side, each at the run that is written last.
pub fn find(build: &mut Build) {
    let circuitry = &build.circuitry;
    let mut runs: Vec<(&Run, usize, usize)> = circuitry
        .runs
        .iter()
        .filter(|run| !run.alternating)
        .filter_map(|run| Some((run, run.nodes[0]?, run.nodes[1]?)))
        .filter(|(_, start, finish)| {
            start != finish && ![start, finish].iter().any(|node| is_end_use(build, circuitry, **node))
        })
        .collect();
    runs.sort_by_key(|(run, ..)| order(build, run));
    let mut slips: Vec<Slip> = Vec::new();
    let mut untold = 0_usize;
    let mut between: FxHashMap<(usize, usize), &Run> = FxHashMap::default();
    let mut forest = Forest::new(circuitry.attached.len());
    for (run, start, finish) in runs {
        let pair = (start.min(finish), start.max(finish));
        if let Some(first) = between.get(&pair) {
            if !(only_batteries(build, circuitry, start) && only_batteries(build, circuitry, finish)) {
                slips.push(side_by_side(build, first, run));
            }
            continue;
        }
        between.insert(pair, run);
        if forest.join(start, finish, run) {
            continue;
        }
        if slips.len() >= MOST_RINGS {
            untold += 1;
            continue;
        }
        let way = forest.way(start, finish);
        let nodes: Vec<usize> = way.iter().map(|(node, _)| *node).chain([start, finish]).collect();
        // The links of a bank of batteries, positive and negative, are no ring.
        if nodes.iter().all(|node| only_batteries(build, circuitry, *node)) {
            continue;
        }
        slips.push(ring(build, circuitry, run, start, &way));
    }
    if let Some(last) = slips.last_mut().filter(|_| untold > 0) {
        last.message.push_str(&format!("; {untold} more circuits close rings and are not told one by one"));
    }
    build.slips.append(&mut slips);
}

fn only_batteries(build: &Build, circuitry: &Circuitry, node: usize) -> bool {
    circuitry
        .terminals(&[node])
        .all(|terminal| matches!(build.part(terminal.thing).kind, kind::BATTERY | kind::ALTERNATOR))
}

fn side_by_side(build: &Build, first: &Run, run: &Run) -> Slip {
    let (first, part) = (build.part(first.written), build.part(run.written));
    Slip::new(
        "names/cables-side-by-side",
        part.head.clone(),
        format!("{} lies side by side with {}: both join the same two things", part.title, first.title),
    )
    .help("one larger cable; or two of one size and length, each with a device that protects it alone")
    .related(first.head.clone(), "the other of the two")
}

fn ring(build: &Build, circuitry: &Circuitry, run: &Run, start: usize, way: &[(usize, &Run)]) -> Slip {
    let name = |node: usize| {
        circuitry.terminals(&[node]).next().map_or("…".to_owned(), |terminal| {
            let part = build.part(terminal.thing);
            part.name.as_deref().unwrap_or(&part.title).to_owned()
        })
    };
    let part = build.part(run.written);
    let names: Vec<String> = std::iter::once(start).chain(way.iter().map(|(node, _)| *node)).map(name).collect();
    let mut slip = Slip::new(
        "names/ring-of-circuits",
        part.head.clone(),
        format!("{} closes a ring: {}, and back to {}", part.title, names.join(", "), name(start)),
    )
    .help("take out the circuit of the ring that is not meant, or name another thing at its end");
    for (_, other) in way {
        let other = build.part(other.written);
        slip = slip.related(other.head.clone(), "part of the ring");
    }
    slip
}

/// The runs that close no ring, and what they join.
struct Forest<'a> {
    leader: Vec<usize>,
    joined: Vec<Vec<(usize, &'a Run)>>,
}

impl<'a> Forest<'a> {
    fn new(nodes: usize) -> Self {
        Self { leader: (0..nodes).collect(), joined: vec![Vec::new(); nodes] }
    }

    fn lead(&mut self, mut node: usize) -> usize {
        while self.leader[node] != node {
            self.leader[node] = self.leader[self.leader[node]];
            node = self.leader[node];
        }
        node
    }

    /// Takes in a run; says whether it joins what was apart.
    fn join(&mut self, start: usize, finish: usize, run: &'a Run) -> bool {
        let (one, other) = (self.lead(start), self.lead(finish));
        if one == other {
            return false;
        }
        self.leader[other] = one;
        self.joined[start].push((finish, run));
        self.joined[finish].push((start, run));
        true
    }

    /// The way between two nodes: each node behind the first, with the run that leads to it.
    fn way(&self, from: usize, to: usize) -> Vec<(usize, &'a Run)> {
        let mut came: FxHashMap<usize, (usize, &'a Run)> = FxHashMap::default();
        let mut open = VecDeque::from([from]);
        while let Some(node) = open.pop_front() {
            if node == to {
                break;
            }
            for &(next, run) in &self.joined[node] {
                if next != from && !came.contains_key(&next) {
                    came.insert(next, (node, run));
                    open.push_back(next);
                }
            }
        }
        let mut way = Vec::new();
        let mut here = to;
        while let Some(&(before, run)) = came.get(&here) {
            way.push((here, run));
            here = before;
        }
        way.reverse();
        way
    }
}
