//! The solved network of direct current: one group of nodes that runs join, as a network of `calc::nodal`, in one state of use.
//!
//! Each run is one resistance, out and back together: its conductors at 70 °C, its devices, contacts and plugs. What comes back by the vehicle's
//! metal comes back over the bonds. Batteries stand at their nominal voltage (chosen: a 12 V lead battery at rest is then about half full).

mod facts;
mod fault;
mod grid;
mod groups;
mod load;
mod metal;
mod piece;
mod source;
pub mod standing;

pub use facts::{bindings, terminal_voltage};
pub use fault::{Weakest, smallest};
pub use groups::{Groups, is_meshed};
pub use piece::{Bound, resistance_of_run};

use crate::circuitry::{Run, Terminal};
use crate::fact::Outcome;
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use calc::nodal::{ElementState, Network, Solution};
use rustc_hash::{FxHashMap, FxHashSet};
use std::sync::Arc;
use vocabulary::FactId;

/// What is on.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum State {
    /// Everything is in use, fed by what holds up a voltage; each load takes current by its own law.
    InUse,
    /// The same, with the largest current of each load: what conductors are chosen for.
    Largest,
    /// No load is on, and whatever charges gives all that it can.
    Charging,
}

/// A load of a solved group.
#[derive(Clone, Copy, Debug)]
pub struct Drawn {
    /// Where it is joined.
    pub terminal: Terminal,
    /// Its element of the network.
    pub element: usize,
    /// The power that it holds, W, where it holds its power.
    pub watts: Option<f64>,
}

/// A solved group.
#[derive(Debug)]
pub struct Solved {
    network: Network,
    solution: Arc<Solution>,
    /// The element of each run.
    runs: FxHashMap<usize, usize>,
    /// The nodes that a source reaches over closed runs.
    fed: FxHashSet<usize>,
    /// The nodes whose loads come back by the vehicle's metal, and that of the metal.
    metal: Option<(FxHashSet<usize>, u32)>,
    drawn: Vec<Drawn>,
    /// The places of the loads at each node.
    drawn_at: FxHashMap<usize, Vec<usize>>,
    sources: Vec<(Terminal, usize)>,
}

impl Solved {
    /// The current along a run from its start to its finish, A.
    pub fn current(&self, run: usize) -> Option<f64> {
        self.element(*self.runs.get(&run)?).map(|state| state.amperes)
    }

    fn element(&self, place: usize) -> Option<&ElementState> {
        self.solution.element(place)
    }

    /// The voltage at a node against the way back of what hangs there, V; nothing for one that nothing feeds.
    pub fn volts(&self, node: usize) -> Option<f64> {
        if !self.fed.contains(&node) {
            return None;
        }
        let high = self.solution.volts(grid::number(node))?;
        match &self.metal {
            Some((nodes, metal)) if nodes.contains(&node) => Some(high - self.solution.volts(*metal)?),
            _ => Some(high),
        }
    }

    /// The loads of the group.
    pub fn drawn(&self) -> &[Drawn] {
        &self.drawn
    }

    /// The loads at a node.
    pub fn drawn_at(&self, node: usize) -> impl Iterator<Item = Drawn> + '_ {
        self.drawn_at.get(&node).into_iter().flatten().filter_map(|place| self.drawn.get(*place).copied())
    }

    /// How a load stands.
    pub fn state(&self, load: Drawn) -> Option<&ElementState> {
        self.element(load.element)
    }

    /// What each source gives, A; below zero for one that takes.
    pub fn given(&self) -> impl Iterator<Item = (Terminal, f64)> + '_ {
        self.sources.iter().filter_map(|(terminal, place)| Some((*terminal, -self.element(*place)?.amperes)))
    }

    /// What runs turn into heat, W, those of these numbers.
    pub fn losses(&self, runs: impl IntoIterator<Item = usize>) -> f64 {
        let places = runs.into_iter().filter_map(|run| self.runs.get(&run));
        places.filter_map(|place| self.element(*place)).map(ElementState::watts).sum()
    }

    /// The power that all loads take, W.
    pub fn load_watts(&self) -> f64 {
        self.solution.load_watts(&self.network)
    }
}

/// What is remembered of solved groups.
#[derive(Debug, Default)]
pub struct Memory {
    groups: Option<Arc<Groups>>,
    solved: FxHashMap<(CaseId, usize, State), Result<Arc<Solved>, Gaps>>,
    /// The solved networks of each group that differ: many modes change nothing in a group.
    unlike: FxHashMap<usize, Vec<Arc<Solved>>>,
    /// How many groups are being solved for one another.
    pub depth: u8,
}

impl Memory {
    /// The solution of a network, if a group has had the same one in another case or state.
    fn solution(&self, group: usize, network: &Network) -> Option<Arc<Solution>> {
        let same = self.unlike.get(&group)?.iter().find(|known| known.network == *network)?;
        Some(same.solution.clone())
    }

    fn remember(&mut self, group: usize, solved: &Arc<Solved>) {
        let unlike = self.unlike.entry(group).or_default();
        if !unlike.iter().any(|known| Arc::ptr_eq(&known.solution, &solved.solution)) {
            unlike.push(solved.clone());
        }
    }
}

/// How many groups may wait for one another, each behind a converter: more than any vehicle has. Chosen.
pub const DEEPEST: u8 = 8;

impl Reader<'_> {
    /// The groups of direct current, found once.
    pub(crate) fn groups(&mut self) -> Arc<Groups> {
        if let Some(groups) = &self.networks.groups {
            return groups.clone();
        }
        let groups = Arc::new(Groups::of(self.build()));
        self.networks.groups = Some(groups.clone());
        groups
    }

    /// A group in a state, solved once for each case.
    ///
    /// # Errors
    /// What is not known of it; an empty list of gaps where nothing holds up its voltage or the numbers have no solution.
    pub(crate) fn solved(&mut self, group: usize, state: State, case: CaseId) -> Outcome<Arc<Solved>> {
        let key = (case, group, state);
        if let Some(solved) = self.networks.solved.get(&key) {
            return solved.clone();
        }
        self.networks.depth += 1;
        let solved = self.silently(|reader| grid::solve(reader, group, state, case)).map(Arc::new);
        self.networks.depth -= 1;
        if let Ok(solved) = &solved {
            self.networks.remember(group, solved);
        }
        self.networks.solved.insert(key, solved.clone());
        solved
    }
}

/// The group of a run of direct current; nothing of one that carries alternating current or leads nowhere.
pub fn group_of(reader: &Reader<'_>, run: &Run) -> Option<usize> {
    if run.alternating {
        return None;
    }
    let node = run.nodes.into_iter().flatten().next()?;
    reader.build().circuitry().group.get(node).copied()
}

/// The solved group of a run, for a fact of a part.
///
/// # Errors
/// What is not known of it.
pub fn of(
    reader: &mut Reader<'_>,
    run: &Run,
    state: State,
    (part, fact, case): (PartId, FactId, CaseId),
) -> Outcome<Arc<Solved>> {
    let none = || Gaps::one(Gap::NoSolution(part, fact));
    let group = group_of(reader, run).ok_or_else(none)?;
    reader.solved(group, state, case).map_err(|gaps| if gaps.is_empty() { none() } else { gaps })
}
