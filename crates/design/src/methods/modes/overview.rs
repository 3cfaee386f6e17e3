//! The modes at a glance, for tables: what feeds, what is open, what is live from where, and what is dead.

use super::facts::{sources, switches, word};
use crate::circuitry::Side;
use crate::known::{CaseId, Gaps, PartId, Tri};
use crate::reader::Reader;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Things that are live from the same sources.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fed {
    /// The things, in the order of the text.
    pub things: Vec<PartId>,
    /// The sources that feed them all the time.
    pub always: Vec<PartId>,
    /// The sources that feed them at times.
    pub at_times: Vec<PartId>,
}

/// One mode at a glance.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ModeOverview {
    /// Its name.
    pub name: Arc<str>,
    /// The word of its sort, as the vocabulary has it.
    pub sort: &'static str,
    /// Whether the build describes it.
    pub described: bool,
    /// The sources that feed all the time.
    pub feeding: Vec<PartId>,
    /// The sources that feed at times.
    pub at_times: Vec<PartId>,
    /// The switches that are open.
    pub open: Vec<PartId>,
    /// The switches that may stand either way.
    pub either: Vec<PartId>,
    /// What is live, by its sources.
    pub fed: Vec<Fed>,
    /// What is fed while parked and not all the time in this mode.
    pub lost: Vec<PartId>,
    /// What is not said and may change this.
    pub unsaid: Gaps,
}

impl Reader<'_> {
    /// Every mode at a glance, in their order.
    pub fn mode_overviews(&mut self) -> Vec<ModeOverview> {
        (0..self.build().modes().len()).map(|mode| self.mode_overview(mode)).collect()
    }

    fn mode_overview(&mut self, number: usize) -> ModeOverview {
        let build = self.build();
        let (parked, state) = (self.mode_state(CaseId(0)), self.mode_state(self.cases().of_mode(number)));
        let mut unsaid = Gaps::default();
        let mut fed: Vec<Fed> = Vec::new();
        let mut lost: BTreeSet<PartId> = BTreeSet::new();
        let mut live: BTreeSet<PartId> = BTreeSet::new();
        for (node, terminals) in build.circuitry().attached.iter().enumerate() {
            let taking: Vec<PartId> = terminals
                .iter()
                .filter(|terminal| terminal.side != Side::Output && !is_source(build.part(terminal.thing).kind))
                .map(|terminal| terminal.thing)
                .collect();
            if taking.is_empty() {
                continue;
            }
            unsaid.add(&state.unsaid(self, node));
            let here = state.live(node);
            if here != Tri::Yes && parked.live(node) == Tri::Yes {
                lost.extend(taking.iter().copied());
            }
            if here == Tri::No {
                continue;
            }
            let always = state.certain().sources(build, node);
            let mut at_times = state.possible().sources(build, node);
            at_times.retain(|source| !always.contains(source));
            let things: Vec<PartId> = taking.into_iter().filter(|thing| live.insert(*thing)).collect();
            match fed.iter_mut().find(|row| row.always == always && row.at_times == at_times) {
                Some(row) => row.things.extend(things),
                None => fed.push(Fed { things, always, at_times }),
            }
        }
        for row in &mut fed {
            row.things.sort_unstable();
        }
        fed.retain(|row| !row.things.is_empty());
        let of = |value: Tri, what: &dyn Fn(PartId) -> Tri, all: &[PartId]| -> Vec<PartId> {
            all.iter().copied().filter(|part| what(*part) == value).collect()
        };
        let (sources, switches) = (sources(build), switches(build).collect::<Vec<_>>());
        let (feeds, closed) = (|part| state.feeds(part), |part| state.closed(part));
        let mode = build.modes().get(number);
        ModeOverview {
            name: mode.map_or_else(|| "".into(), |mode| mode.name.clone()),
            sort: mode.map_or("", |mode| word(&mode.sort)),
            described: mode.is_some_and(|mode| mode.written.is_some()),
            feeding: of(Tri::Yes, &feeds, &sources),
            at_times: of(Tri::Unknown, &feeds, &sources),
            open: of(Tri::No, &closed, &switches),
            either: of(Tri::Unknown, &closed, &switches),
            fed,
            lost: lost.into_iter().collect(),
            unsaid,
        }
    }
}

/// What is not fed but feeds.
fn is_source(own: vocabulary::PartKind) -> bool {
    super::facts::SOURCES.contains(&own)
}
