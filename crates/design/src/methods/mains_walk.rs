//! What each source of alternating current can feed: outward from it, through boards, transfer switches and inverter-chargers,
//! with the way back to the source from each node.

use super::legs::{self, On};
use crate::circuitry::{Side, Supply, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use rustc_hash::FxHashMap;
use vocabulary::{fact as f, kind};

/// How many nodes all walks of a build may meet together: chosen, far beyond any vehicle, so that thousands of sources on one
/// board cost no more than this.
const MOST_STOPS: usize = 500_000;

/// The word for the shore connection in `fed-by`.
const SHORE: &str = "shore";

/// A node on the way out of a source.
#[derive(Clone, Copy, Debug)]
pub struct Stop {
    /// The node.
    pub node: usize,
    /// The stop before it; nothing at the source.
    pub(super) before: Option<usize>,
    /// The run by which it was reached; nothing at the source and behind a thing that passes current on.
    pub(super) run: Option<usize>,
    /// The thing that passes current on to it.
    pub(super) through: Option<PartId>,
}

/// What a source can feed.
#[derive(Clone, Debug)]
pub struct Walk {
    /// The source.
    pub supply: Supply,
    /// The nodes that it feeds, nearest first.
    pub stops: Vec<Stop>,
    /// The stop at each node.
    at: FxHashMap<usize, usize>,
    /// What is not known of how far it reaches.
    pub gaps: Gaps,
}

impl Walk {
    /// The stop at which it meets a terminal.
    pub fn stop_at(&self, reader: &Reader<'_>, terminal: Terminal) -> Option<usize> {
        self.at.get(&reader.build().circuitry().node_of(terminal.thing, terminal.side)?).copied()
    }

    /// The stop at a node.
    pub fn stop_of(&self, node: usize) -> Option<usize> {
        self.at.get(&node).copied()
    }

    /// The stops from one back to the source.
    pub fn back(&self, stop: usize) -> impl Iterator<Item = Stop> + '_ {
        let mut next = Some(stop);
        std::iter::from_fn(move || {
            let stop = *self.stops.get(next?)?;
            next = stop.before;
            Some(stop)
        })
    }

    /// The runs from the source to a stop, nearest to the source first.
    pub fn runs_to(&self, stop: usize) -> Vec<usize> {
        let mut runs: Vec<usize> = self.back(stop).filter_map(|stop| stop.run).collect();
        runs.reverse();
        runs
    }

    /// The things that pass current on to a stop, the nearest to it first.
    pub fn passed(&self, stop: usize) -> impl Iterator<Item = PartId> + '_ {
        self.back(stop).filter_map(|stop| stop.through)
    }

    /// Every terminal that it feeds, with its stop; the source itself left out.
    pub fn terminals<'r>(&'r self, reader: &Reader<'r>) -> impl Iterator<Item = (usize, Terminal)> + 'r {
        let circuitry = reader.build().circuitry();
        self.stops.iter().enumerate().flat_map(move |(number, stop)| {
            let own = self.supply.source;
            let met = circuitry.attached.get(stop.node).into_iter().flatten().copied();
            met.filter(move |terminal| *terminal != own).map(move |terminal| (number, terminal))
        })
    }

    /// The boards that it feeds, each with the stop.
    pub fn boards(&self, reader: &Reader<'_>) -> Vec<(usize, PartId)> {
        let is_board = |thing: PartId| reader.build().part(thing).kind == kind::AC_BOARD;
        self.terminals(reader).filter(|(_, met)| is_board(met.thing)).map(|(stop, met)| (stop, met.thing)).collect()
    }

    /// The legs on which it comes to a stop, and how many these are.
    pub(super) fn legs(&self, reader: &mut Reader<'_>, stop: usize, case: CaseId) -> Outcome<(On, f64)> {
        let brought = legs::of_source(reader, self.supply.source, case)?;
        if brought <= 1.0 {
            return Ok((On::Both, 1.0));
        }
        let mut on = On::Both;
        for run in self.runs_to(stop) {
            on = legs::on(reader, run, on, case)?;
        }
        Ok((on, if on == On::Both { brought } else { 1.0 }))
    }
}

/// The walks of all sources.
pub fn walks(reader: &mut Reader<'_>) -> Vec<Walk> {
    let build = reader.build();
    let mut left = MOST_STOPS;
    let mut listed = Listed::default();
    for way in build.of_kind(kind::WAY).members.iter() {
        listed.read(reader, *way);
    }
    build.circuitry().mains.iter().map(|supply| walk(reader, *supply, &listed, &mut left)).collect()
}

/// What the ways say of the sources that feed them.
#[derive(Default)]
struct Listed {
    /// By way: the names, or what would settle them.
    ways: FxHashMap<PartId, Outcome<Vec<String>>>,
}

impl Listed {
    fn read(&mut self, reader: &mut Reader<'_>, way: PartId) {
        if reader.silent(way, f::way::FED_BY) {
            return;
        }
        let names = match reader.fact(way, f::way::FED_BY, CaseId(0)) {
            Ok(Fact::Text(list)) => Ok(list.split(',').map(|name| name.trim().to_owned()).collect()),
            Ok(_) => Ok(Vec::new()),
            Err(gaps) => Err(gaps),
        };
        self.ways.insert(way, names);
    }
}

fn walk(reader: &Reader<'_>, supply: Supply, listed: &Listed, left: &mut usize) -> Walk {
    let build = reader.build();
    let circuitry = build.circuitry();
    let thing = build.part(supply.source.thing);
    let mut walk = Walk { supply, stops: Vec::new(), at: FxHashMap::default(), gaps: Gaps::default() };
    let Some(start) = circuitry.node_of(supply.source.thing, supply.source.side) else { return walk };
    walk.at.insert(start, 0);
    walk.stops.push(Stop { node: start, before: None, run: None, through: None });
    let named = |names: &[String], word: &str| names.iter().any(|name| name == word);
    let own_name = |names: &[String]| thing.name.as_deref().is_some_and(|own| named(names, own));
    // A source that only the words of a way join to its board feeds that way alone.
    let meeting = |node: usize| circuitry.meeting.get(node).into_iter().flatten().copied();
    let way_at = |node: usize, run: usize| {
        let run = circuitry.runs.get(run)?;
        (run.nodes[0] == Some(node) && build.part(run.written).kind == kind::WAY).then_some(run.written)
    };
    let by_words = thing.kind != kind::SHORE
        && meeting(start).any(|run| way_at(start, run).is_some_and(|way| listed.ways.contains_key(&way)))
        && !meeting(start)
            .any(|run| circuitry.runs.get(run).is_some_and(|run| comes_from(reader, run.written, supply)));
    let mut next = 0;
    while let Some(&stop) = walk.stops.get(next) {
        let mut reached: Vec<Stop> = Vec::new();
        for terminal in circuitry.terminals(&[stop.node]) {
            let passes = matches!(build.part(terminal.thing).kind, kind::TRANSFER_SWITCH | kind::INVERTER_CHARGER)
                && matches!(terminal.side, Side::Supply(_));
            if passes && let Some(node) = circuitry.node_of(terminal.thing, Side::Output) {
                reached.push(Stop { node, before: Some(next), run: None, through: Some(terminal.thing) });
            }
        }
        for run in meeting(stop.node) {
            let way = way_at(stop.node, run);
            let fed = match way.and_then(|way| listed.ways.get(&way)) {
                Some(Ok(names)) => own_name(names) || ((next > 0 || !by_words) && named(names, SHORE)),
                Some(Err(gaps)) => {
                    walk.gaps.add(gaps);
                    false
                }
                None => next > 0 || !by_words,
            };
            let nodes = circuitry.runs.get(run).filter(|run| fed && run.alternating).map(|run| run.nodes);
            let across = nodes.into_iter().flatten().flatten().filter(|node| *node != stop.node);
            reached.extend(across.map(|node| Stop { node, before: Some(next), run: Some(run), through: None }));
        }
        for stop in reached {
            if walk.at.contains_key(&stop.node) {
                continue;
            }
            if *left == 0 {
                walk.gaps.add(&Gaps::one(Gap::NoSolution(supply.part, f::supply::FEEDS)));
                return walk;
            }
            *left -= 1;
            walk.at.insert(stop.node, walk.stops.len());
            walk.stops.push(stop);
        }
        next += 1;
    }
    walk.gaps.add(&super::doubt::of_anything(reader, start));
    walk
}

/// Whether a circuit is written as coming from a source.
fn comes_from(reader: &Reader<'_>, written: PartId, supply: Supply) -> bool {
    reader.build().references.get(&(written, f::circuit::FROM))
        == Some(&crate::part::Reference::To(supply.source.thing))
}
