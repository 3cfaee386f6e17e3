//! What is live over closed runs: direct current in islands that runs join, alternating current along the walks of its
//! sources, and things between that pass it on.

use super::super::mains_walk::Walk;
use crate::circuitry::{Circuitry, Side};
use crate::known::PartId;
use crate::part::Build;
use rustc_hash::{FxHashMap, FxHashSet};
use vocabulary::kind;

/// A thing that passes current on from one node to another.
#[derive(Clone, Copy, Debug)]
struct Pass {
    thing: PartId,
    from: usize,
    to: usize,
}

/// What is live, with one answer for every switch and every source.
#[derive(Debug)]
pub struct Islands {
    /// The island of each node: nodes of direct current joined by closed runs are of one, called after one of them.
    island: Vec<usize>,
    /// By island, whether direct current is on it.
    live: Vec<bool>,
    /// The sources that feed an island themselves.
    own: FxHashMap<usize, Vec<PartId>>,
    /// What passes current on into an island, by island.
    into: FxHashMap<usize, Vec<Pass>>,
    /// The things that give alternating current at a node, each with whether it is a source itself.
    alternating: FxHashMap<usize, Vec<PartId>>,
}

/// The things that make the current that they give, rather than pass it on.
const SOURCES: [vocabulary::PartKind; 6] =
    [kind::BATTERY, kind::ALTERNATOR, kind::SHORE, kind::GENERATOR, kind::SOLAR, kind::TRAILER_PLUG];

impl Islands {
    /// Follows the current. `closed` says of a run, `feeds` of a source and of what passes current on, whether it does.
    pub fn of(build: &Build, walks: &[Walk], closed: impl Fn(usize) -> bool, feeds: impl Fn(PartId) -> bool) -> Self {
        let circuitry = build.circuitry();
        let mut islands = Self {
            island: joined(circuitry, &closed),
            live: vec![false; circuitry.attached.len()],
            own: FxHashMap::default(),
            into: FxHashMap::default(),
            alternating: FxHashMap::default(),
        };
        let mut passes = Vec::new();
        for (node, terminals) in circuitry.attached.iter().enumerate() {
            for terminal in terminals.iter().filter(|terminal| feeds(terminal.thing)) {
                let part = build.part(terminal.thing);
                let alternating = matches!(part.kind, kind::SHORE | kind::GENERATOR);
                if SOURCES.contains(&part.kind) && !alternating {
                    let island = islands.island_of(node);
                    islands.own.entry(island).or_default().push(terminal.thing);
                    islands.make_live(island);
                }
                let to = match (part.kind, terminal.side) {
                    (kind::CHARGER | kind::CONVERTER | kind::SOLAR_CONTROLLER, Side::Input) => Side::Output,
                    (kind::INVERTER_CHARGER, Side::Supply(_)) => Side::Input,
                    _ => continue,
                };
                if let Some(to) = circuitry.node_of(terminal.thing, to) {
                    passes.push(Pass { thing: terminal.thing, from: node, to });
                }
            }
        }
        for pass in &passes {
            let island = islands.island_of(pass.to);
            islands.into.entry(island).or_default().push(*pass);
        }
        islands.settle(build, walks, &passes, &closed, &feeds);
        islands
    }

    /// Passes current on until nothing new becomes live: each round makes something live, so there are no more rounds than
    /// things that pass it on.
    fn settle(
        &mut self,
        build: &Build,
        walks: &[Walk],
        passes: &[Pass],
        closed: &impl Fn(usize) -> bool,
        feeds: &impl Fn(PartId) -> bool,
    ) {
        let mut walked = vec![false; walks.len()];
        for _ in 0..=passes.len() + walks.len() {
            let mut changed = false;
            for (walk, done) in walks.iter().zip(&mut walked) {
                if !*done && self.gives(build, walk, feeds) {
                    *done = true;
                    changed = true;
                    self.follow(walk, closed, feeds);
                }
            }
            for pass in passes {
                let island = self.island_of(pass.to);
                if self.is_live(pass.from) && !self.live.get(island).copied().unwrap_or(true) {
                    self.make_live(island);
                    changed = true;
                }
            }
            if !changed {
                break;
            }
        }
    }

    /// Whether a source of alternating current gives any.
    fn gives(&self, build: &Build, walk: &Walk, feeds: &impl Fn(PartId) -> bool) -> bool {
        let thing = walk.supply.source.thing;
        feeds(thing)
            && (matches!(build.part(thing).kind, kind::SHORE | kind::GENERATOR)
                || build.circuitry().node_of(thing, Side::Input).is_some_and(|input| self.is_live(input)))
    }

    /// Makes the stops of a walk live, as far as its runs are closed and what stands between passes it on.
    fn follow(&mut self, walk: &Walk, closed: &impl Fn(usize) -> bool, feeds: &impl Fn(PartId) -> bool) {
        let mut reached = vec![false; walk.stops.len()];
        for (number, stop) in walk.stops.iter().enumerate() {
            let before = stop.before.is_none_or(|before| reached.get(before).copied().unwrap_or(false));
            if before && stop.run.is_none_or(closed) && stop.through.is_none_or(feeds) {
                if let Some(here) = reached.get_mut(number) {
                    *here = true;
                }
                self.alternating.entry(stop.node).or_default().push(walk.supply.source.thing);
            }
        }
    }

    fn island_of(&self, node: usize) -> usize {
        self.island.get(node).copied().unwrap_or(node)
    }

    fn make_live(&mut self, island: usize) {
        if let Some(live) = self.live.get_mut(island) {
            *live = true;
        }
    }

    /// Whether current reaches a node.
    pub fn is_live(&self, node: usize) -> bool {
        self.live.get(self.island_of(node)).copied().unwrap_or(false) || self.alternating.contains_key(&node)
    }

    /// Whether direct current reaches a node.
    pub fn is_live_direct(&self, node: usize) -> bool {
        self.live.get(self.island_of(node)).copied().unwrap_or(false)
    }

    /// Whether two nodes of direct current are joined.
    pub fn are_joined(&self, one: usize, other: usize) -> bool {
        self.island_of(one) == self.island_of(other)
    }

    /// The sources whose current reaches a node, through whatever passes it on; in the order of the text.
    pub fn sources(&self, build: &Build, node: usize) -> Vec<PartId> {
        let mut found = Vec::new();
        let mut seen: FxHashSet<usize> = FxHashSet::default();
        let mut open = vec![node];
        while let Some(node) = open.pop() {
            for &thing in self.alternating.get(&node).into_iter().flatten() {
                match build.circuitry().node_of(thing, Side::Input) {
                    _ if SOURCES.contains(&build.part(thing).kind) => found.push(thing),
                    Some(input) => open.push(input),
                    None => {}
                }
            }
            let island = self.island_of(node);
            if !seen.insert(island) {
                continue;
            }
            found.extend(self.own.get(&island).into_iter().flatten());
            let into = self.into.get(&island).into_iter().flatten();
            open.extend(into.filter(|pass| self.is_live(pass.from)).map(|pass| pass.from));
        }
        found.sort_unstable();
        found.dedup();
        found
    }

    /// The things that charge an island at a node: what passes current on into it, and what makes it there without storing.
    pub fn charges(&self, build: &Build, node: usize) -> bool {
        let island = self.island_of(node);
        let own = self.own.get(&island).into_iter().flatten();
        let made = own.clone().any(|thing| build.part(*thing).kind != kind::BATTERY);
        made || self
            .into
            .get(&island)
            .into_iter()
            .flatten()
            .any(|pass| build.part(pass.thing).kind != kind::CONVERTER && self.is_live(pass.from))
    }
}

/// The island of each node: those that closed runs of direct current join.
fn joined(circuitry: &Circuitry, closed: &impl Fn(usize) -> bool) -> Vec<usize> {
    fn lead(leader: &mut [usize], mut node: usize) -> usize {
        while let Some(&next) = leader.get(node) {
            if next == node {
                break;
            }
            let over = leader.get(next).copied().unwrap_or(next);
            if let Some(own) = leader.get_mut(node) {
                *own = over;
            }
            node = next;
        }
        node
    }
    let mut leader: Vec<usize> = (0..circuitry.attached.len()).collect();
    for (index, run) in circuitry.runs.iter().enumerate() {
        let [Some(start), Some(finish)] = run.nodes else { continue };
        if run.alternating || !closed(index) {
            continue;
        }
        let (one, other) = (lead(&mut leader, start), lead(&mut leader, finish));
        if let Some(own) = leader.get_mut(other) {
            *own = one;
        }
    }
    (0..leader.len()).map(|node| lead(&mut leader, node)).collect()
}
