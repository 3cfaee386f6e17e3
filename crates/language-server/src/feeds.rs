//! Which part of a build feeds which: each thing the circuits that lead away from it, each circuit the things at its far end.

use crate::check::Checked;
use design::{Build, End, PartId};
use std::collections::BTreeMap;

/// The network as steps from part to part, in the order of the text.
#[derive(Default)]
pub struct Feeds {
    fed_by: BTreeMap<PartId, Vec<PartId>>,
    feeds: BTreeMap<PartId, Vec<PartId>>,
}

impl Feeds {
    /// The steps of a finished check.
    ///
    /// A circuit leads away from the end behind which its sources are. With sources behind both ends, or behind none, it leads
    /// as it is written: from its `from` to its `to`.
    pub fn of_check(checked: &Checked) -> Self {
        let circuitry = checked.build.circuitry();
        let mut feeds = Self::default();
        for (number, run) in circuitry.runs.iter().enumerate() {
            let fed = |end| circuitry.sources_behind(number, end).next().is_some();
            let near = if fed(End::Finish) && !fed(End::Start) { End::Finish } else { End::Start };
            let things = |end: End| {
                let attached = run.node(end).and_then(|node| circuitry.attached.get(node));
                attached.into_iter().flatten().map(|terminal| terminal.thing).collect::<Vec<_>>()
            };
            for thing in things(near) {
                feeds.step(thing, run.written);
            }
            for thing in things(near.other()) {
                feeds.step(run.written, thing);
            }
        }
        let place = |part: &PartId| {
            let head = &checked.build.part(*part).head;
            (head.file, head.bytes.start)
        };
        for steps in feeds.feeds.values_mut().chain(feeds.fed_by.values_mut()) {
            steps.sort_by_key(place);
        }
        feeds
    }

    fn step(&mut self, from: PartId, to: PartId) {
        if from == to {
            // A shore connection is its own cable.
            return;
        }
        for (steps, one, other) in [(&mut self.feeds, from, to), (&mut self.fed_by, to, from)] {
            let steps = steps.entry(one).or_default();
            if !steps.contains(&other) {
                steps.push(other);
            }
        }
    }

    /// Whether a part stands in the network.
    pub fn has(&self, part: PartId) -> bool {
        self.feeds.contains_key(&part) || self.fed_by.contains_key(&part)
    }

    /// What feeds a part, one step back.
    pub fn fed_by(&self, part: PartId) -> &[PartId] {
        self.fed_by.get(&part).map_or(&[], Vec::as_slice)
    }

    /// What a part feeds, one step on.
    pub fn feeds(&self, part: PartId) -> &[PartId] {
        self.feeds.get(&part).map_or(&[], Vec::as_slice)
    }

    /// The part that stands for another in the network: itself, else the first that it stands in.
    pub fn standing_for(&self, build: &Build, part: PartId) -> Option<PartId> {
        let mut here = Some(part);
        // A part stands in no more parts than a text can nest.
        while let Some(part) = here {
            if self.has(part) {
                return Some(part);
            }
            here = build.part(part).outer.filter(|outer| *outer != part);
        }
        None
    }
}
