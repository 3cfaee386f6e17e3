//! Alternating current of two legs: what is taken on each.

use super::flow::taken;
use super::{amperes, fact_of};
use crate::circuitry::{End, Side, Terminal};
use crate::fact::Outcome;
use crate::known::{CaseId, Gap, Gaps};
use crate::reader::Reader;
use crate::working::Step;
use rustc_hash::FxHashSet;
use std::collections::VecDeque;
use vocabulary::{fact as f, kind};

/// The legs that a way is on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum On {
    One,
    Two,
    Both,
}

impl On {
    /// Adds what is taken to the legs that this is on.
    pub(super) fn add(self, legs: &mut [f64; 2], taken: f64) {
        let [one, two] = legs;
        *one += if self == Self::Two { 0.0 } else { taken };
        *two += if self == Self::One { 0.0 } else { taken };
    }

    /// The words for it in a working; nothing where it is on all that there are.
    pub(super) const fn in_words(self) -> &'static str {
        match self {
            Self::One => " on leg one",
            Self::Two => " on leg two",
            Self::Both => "",
        }
    }
}

/// How many legs the sources that a run is joined to bring; 1 for direct current.
pub fn of_supply(reader: &mut Reader<'_>, run: usize, case: CaseId) -> Outcome<f64> {
    let circuitry = reader.build().circuitry();
    let Some(run) = circuitry.runs.get(run).filter(|run| run.alternating) else { return Ok(1.0) };
    let mut most = 1.0_f64;
    for source in circuitry.sources_joined(&run.nodes) {
        most = most.max(of_source(reader, source, case)?);
    }
    Ok(most)
}

/// How many legs a source brings.
pub fn of_source(reader: &mut Reader<'_>, source: Terminal, case: CaseId) -> Outcome<f64> {
    let thing = source.thing;
    match (reader.build().part(thing).kind, source.side) {
        (kind::SHORE, _) => match reader.build().inside(thing, kind::INLET).members.first() {
            Some(inlet) => reader.need(*inlet, f::inlet::LEGS, case),
            None => Ok(1.0),
        },
        (kind::GENERATOR, _) => reader.need(thing, f::generator::LEGS, case),
        (kind::INVERTER_CHARGER, Side::Output) => reader.need(thing, f::inverter_charger::LEGS, case),
        (kind::TRANSFER_SWITCH, Side::Output) => reader.need(thing, f::transfer_switch::SUPPLY_LEGS, case),
        _ => Ok(1.0),
    }
}

/// What the things beyond a run take on the leg that carries more, A. A thing of which it is not said on which leg it is
/// counts on both.
pub fn wanted(reader: &mut Reader<'_>, run: usize, from: End, case: CaseId) -> Outcome<f64> {
    let circuitry = reader.build().circuitry();
    let Some(own) = circuitry.runs.get(run) else { return Ok(0.0) };
    let Some(start) = own.node(from.other()) else { return Ok(0.0) };
    let mut gaps = Gaps::default();
    let mut legs = [0.0_f64; 2];
    let mut seen: FxHashSet<usize> = FxHashSet::from_iter([start]);
    let first = on(reader, run, On::Both, case).unwrap_or(On::Both);
    let mut open = VecDeque::from([(start, first)]);
    while let Some((node, leg)) = open.pop_front() {
        for terminal in circuitry.terminals(&[node]) {
            if let Some(output) = super::transfer::beyond(reader, terminal).filter(|output| seen.insert(*output)) {
                open.push_back((output, leg));
            }
            let current = match taken(reader, terminal, case) {
                Some(Ok(current)) => current,
                Some(Err(more)) => {
                    gaps.add(&more);
                    continue;
                }
                None => continue,
            };
            if leg != On::Two {
                legs[0] += current;
            }
            if leg != On::One {
                legs[1] += current;
            }
        }
        for &next in circuitry.meeting.get(node).into_iter().flatten().filter(|next| **next != run) {
            let nodes = circuitry.runs.get(next).into_iter().flat_map(|run| run.nodes.into_iter().flatten());
            let across: Vec<usize> = nodes.filter(|other| seen.insert(*other)).collect();
            if across.is_empty() {
                continue;
            }
            match on(reader, next, leg, case) {
                Ok(leg) => open.extend(across.into_iter().map(|other| (other, leg))),
                Err(more) => gaps.add(&more),
            }
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let [one, two] = legs;
    reader.step(|| Step::of(format!("leg one {}, leg two {}", amperes(one), amperes(two))));
    Ok(one.max(two))
}

/// The legs that a run is on, when it comes from a board on these legs.
pub(super) fn on(reader: &mut Reader<'_>, run: usize, before: On, case: CaseId) -> Outcome<On> {
    let Some(run) = reader.build().circuitry().runs.get(run) else { return Ok(before) };
    if reader.build().part(run.written).kind != kind::WAY || before != On::Both {
        return Ok(before);
    }
    // A thing that is joined to both legs says so itself.
    let build = reader.build();
    let served = run.nodes[1].and_then(|node| build.circuitry().attached.get(node));
    for terminal in served.into_iter().flatten() {
        if let Some(legs) = fact_of(build, terminal.thing, "legs")
            && reader.number(terminal.thing, legs, case) > 1.0
        {
            return Ok(On::Both);
        }
    }
    if reader.silent(run.written, f::way::LEG) {
        return Err(Gaps::one(Gap::Entry(run.written, f::way::LEG)));
    }
    Ok(match reader.need_word(run.written, f::way::LEG, case)? {
        "one" => On::One,
        "two" => On::Two,
        _ => On::Both,
    })
}
