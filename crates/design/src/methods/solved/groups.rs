//! Which nodes and runs belong to each group of direct current, what stands on it, and which runs lie in a mesh.

use crate::circuitry::{Circuitry, End, Side};
use crate::methods::fact_of;
use crate::methods::source::is_source;
use crate::part::Build;
use rustc_hash::{FxHashMap, FxHashSet};
use vocabulary::kind;

/// The nodes and runs of each group.
#[derive(Debug, Default)]
pub struct Groups {
    nodes: FxHashMap<usize, Vec<usize>>,
    runs: FxHashMap<usize, Vec<usize>>,
    taking: FxHashSet<usize>,
    fed: FxHashSet<usize>,
}

impl Groups {
    /// Sorts them, in the order of the text.
    pub fn of(build: &Build) -> Self {
        let circuitry = build.circuitry();
        let mut groups = Self::default();
        for (node, group) in circuitry.group.iter().enumerate() {
            groups.nodes.entry(*group).or_default().push(node);
            for terminal in circuitry.terminals(&[node]) {
                let own = build.part(terminal.thing).kind;
                if is_source(own, terminal.side) {
                    groups.fed.insert(*group);
                }
                let converts = terminal.side == Side::Input && matches!(own, kind::INVERTER | kind::CONVERTER);
                if converts || fact_of(build, terminal.thing, "load-current").is_some() {
                    groups.taking.insert(*group);
                }
            }
        }
        for (number, run) in circuitry.runs.iter().enumerate().filter(|(_, run)| !run.alternating) {
            let group = run.nodes.into_iter().flatten().next().and_then(|node| circuitry.group.get(node));
            if let Some(group) = group {
                groups.runs.entry(*group).or_default().push(number);
            }
        }
        groups
    }

    /// The nodes of a group.
    pub fn nodes(&self, group: usize) -> &[usize] {
        self.nodes.get(&group).map_or(&[], Vec::as_slice)
    }

    /// The runs of a group.
    pub fn runs(&self, group: usize) -> &[usize] {
        self.runs.get(&group).map_or(&[], Vec::as_slice)
    }

    /// Whether anything takes current on a group.
    pub fn takes(&self, group: usize) -> bool {
        self.taking.contains(&group)
    }

    /// Whether anything gives current on a group.
    pub fn is_fed(&self, group: usize) -> bool {
        self.fed.contains(&group)
    }
}

/// Whether the current has a way around a run: its other end is reached without it.
pub fn is_meshed(circuitry: &Circuitry, run: usize) -> bool {
    let nodes = circuitry.runs.get(run).map(|run| run.nodes);
    match nodes {
        Some([Some(start), Some(finish)]) => start != finish && circuitry.lies_behind(run, End::Start, finish),
        _ => false,
    }
}
