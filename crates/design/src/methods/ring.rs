//! Converters and chargers in a ring: what one gives comes back to its own input; and circuits that nothing feeds.

use super::run::run;
use super::{doubt, fact_of, no_solution, parts, solved};
use crate::binding::{Bindings, Method};
use crate::circuitry::Side;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use rustc_hash::FxHashMap;
use std::collections::VecDeque;
use std::collections::hash_map::Entry;
use vocabulary::{FactId, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::run::ISLAND_TAKES, Each(island_takes)),
        (f::run::ISLAND_FED, Each(island_fed)),
        (f::run::ISLAND_FIRST, Each(island_first)),
    ]
}

/// The converters and chargers of direct current, each with the group that it takes from and the group that it gives to.
fn links(build: &Build) -> Vec<(PartId, usize, usize)> {
    let circuitry = build.circuitry();
    let things = [kind::CONVERTER, kind::CHARGER].into_iter().flat_map(|kind| build.of_kind(kind).members.to_vec());
    let group = |thing, side| circuitry.node_of(thing, side).and_then(|node| circuitry.group.get(node)).copied();
    let direct = |thing: PartId| {
        let choices = vocabulary::fact_spec(f::charger::KIND).choices();
        build.part(thing).kind == kind::CONVERTER
            || match build.part(thing).given(f::charger::KIND).map(|given| &given.value) {
                Some(spec::Value::Choice(number)) => choices.get(usize::from(*number)) == Some(&"dc-to-dc"),
                _ => false,
            }
    };
    things
        .filter(|thing| direct(*thing))
        .filter_map(|thing| Some((thing, group(thing, Side::Input)?, group(thing, Side::Output)?)))
        .collect()
}

/// The shortest way from what a thing gives back to what it takes, itself first; nothing where there is none.
fn way_back(links: &[(PartId, usize, usize)], thing: PartId) -> Option<Vec<PartId>> {
    let &(_, from, to) = links.iter().find(|(own, ..)| *own == thing)?;
    let mut came: FxHashMap<usize, Option<(PartId, usize)>> = FxHashMap::from_iter([(to, None)]);
    let mut open = VecDeque::from([to]);
    while let Some(group) = open.pop_front() {
        if group == from {
            let mut way = Vec::new();
            let mut here = group;
            while let Some(Some((by, before))) = came.get(&here) {
                way.push(*by);
                here = *before;
            }
            way.push(thing);
            way.reverse();
            return Some(way);
        }
        for &(by, _, next) in links.iter().filter(|(_, takes, _)| *takes == group) {
            if let Entry::Vacant(entry) = came.entry(next) {
                entry.insert(Some((by, group)));
                open.push_back(next);
            }
        }
    }
    None
}

/// Whether what a thing gives can come back to its own input, whatever is switched on.
pub fn comes_back(build: &Build, thing: PartId) -> bool {
    way_back(&links(build), thing).is_some()
}

/// Whether what a thing gives comes back to its own input through converters and chargers that stay on: one that the ignition or a hand
/// switches on breaks the ring when it is off, and is switched on to charge, not to go round. The first of the ring speaks for all of it.
pub fn feeds_itself(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let Some(way) = way_back(&links(reader.build()), part) else {
        // What leads to somewhere that nobody knows may close a ring.
        let gaps = doubt::of_unreached(reader);
        return if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) };
    };
    if way.iter().any(|other| *other < part) {
        return Ok(Fact::Flag(false));
    }
    let mut gaps = Gaps::default();
    for thing in way {
        let Some(enable) = fact_of(reader.build(), thing, "enable") else { continue };
        match reader.need_word(thing, enable, case) {
            Ok("always") => {}
            Ok(_) => return Ok(Fact::Flag(false)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(true)) } else { Err(gaps) }
}

/// The converters and chargers of the ring of a thing, itself first.
pub fn ring(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(parts(way_back(&links(reader.build()), part).unwrap_or_default(), true))
}

/// The group of a run of direct current.
fn island(reader: &Reader<'_>, part: PartId, fact: FactId) -> Outcome<usize> {
    let run = run(reader, part, fact)?;
    solved::group_of(reader, run).map_or_else(|| no_solution(part, fact), Ok)
}

/// What may be joined to a group besides what is known.
fn doubt_of(reader: &mut Reader<'_>, group: usize) -> Gaps {
    let node = reader.groups().nodes(group).first().copied();
    node.map(|node| doubt::of_anything(reader, node)).unwrap_or_default()
}

fn island_takes(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    if run(reader, part, f::run::ISLAND_TAKES)?.alternating {
        return Ok(Fact::Flag(false));
    }
    let group = island(reader, part, f::run::ISLAND_TAKES)?;
    if reader.groups().takes(group) {
        return Ok(Fact::Flag(true));
    }
    let gaps = doubt_of(reader, group);
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn island_fed(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let group = island(reader, part, f::run::ISLAND_FED)?;
    if reader.groups().is_fed(group) {
        return Ok(Fact::Flag(true));
    }
    let gaps = reader.groups().nodes(group).first().map(|node| doubt::of_sources(reader, *node)).unwrap_or_default();
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn island_first(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let fact = f::run::ISLAND_FIRST;
    let group = island(reader, part, fact)?;
    let gaps = doubt_of(reader, group);
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let first = reader.groups().runs(group).first().copied();
    match first.and_then(|run| reader.build().circuitry().runs.get(run)) {
        Some(run) => Ok(Fact::Part(run.part)),
        None => no_solution(part, fact),
    }
}
