//! Protection from shock: residual-current devices before outlets, and the joints of neutral and earth.

use super::mains::sources_of;
use super::{fact_of, least};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Piece, Side};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, kind};

/// The facts of outlets and of sources of alternating current.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::outlets::ALTERNATING, Each(alternating)),
        (f::outlets::RESIDUAL_PROTECTED, Each(residual_protected)),
        (f::outlets::RESIDUAL_CURRENT, Each(residual_current)),
        (f::inverter::BONDS, Each(bonds)),
        (f::inverter_charger::BONDS, Each(bonds)),
        (f::generator::BONDS, Each(bonds)),
        (f::inverter::SINGLE_OUTLET, Each(single_outlet)),
        (f::inverter_charger::SINGLE_OUTLET, Each(single_outlet)),
        (f::generator::SINGLE_OUTLET, Each(single_outlet)),
        (f::inverter::BESIDE_SHORE, Each(beside_shore)),
        (f::inverter_charger::BESIDE_SHORE, Each(beside_shore)),
    ]
}

/// The runs that end at a thing, up to the boards and sources that feed them.
fn runs_to(reader: &Reader<'_>, part: PartId) -> Vec<usize> {
    let circuitry = reader.build().circuitry();
    let node = circuitry.node_of(part, Side::Input);
    node.and_then(|node| circuitry.meeting.get(node)).cloned().unwrap_or_default()
}

fn alternating(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let circuitry = reader.build().circuitry();
    let fed = runs_to(reader, part);
    if fed.is_empty() {
        let gaps = match circuitry.node_of(part, Side::Input) {
            Some(node) => super::doubt::of_anything(reader, node),
            None => Gaps::default(),
        };
        return if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) };
    }
    Ok(Fact::Flag(fed.iter().filter_map(|run| circuitry.runs.get(*run)).any(|run| run.alternating)))
}

/// What stands before a thing and may trip on a residual current, with the fact that says at how much: a device that is not
/// written is none.
fn residual_devices(reader: &Reader<'_>, part: PartId) -> Vec<(PartId, vocabulary::FactId)> {
    let build = reader.build();
    let circuitry = build.circuitry();
    let mut places: Vec<PartId> = vec![part];
    let mut nodes: Vec<usize> = Vec::new();
    for run in runs_to(reader, part).into_iter().filter_map(|run| circuitry.runs.get(run)) {
        places.push(run.written);
        places.extend(run.pieces.iter().filter_map(|piece| match piece {
            Piece::Device(device) => Some(circuitry.written(*device)),
            _ => None,
        }));
        nodes.extend(run.nodes[0]);
    }
    for terminal in circuitry.terminals(&nodes) {
        places.push(terminal.thing);
    }
    for node in nodes {
        // An inverter's own device guards only while it is the only source.
        let sources = sources_of(reader, node);
        if let [only] = sources.as_slice() {
            places.push(only.thing);
        }
    }
    let mut found = Vec::new();
    for place in places {
        if let Some(fact) = fact_of(build, place, "rcd")
            && build.part(place).given(fact).is_some()
            && !found.contains(&(place, fact))
        {
            found.push((place, fact));
        }
    }
    found
}

fn residual_protected(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let mut gaps = Gaps::default();
    for (place, fact) in residual_devices(reader, part) {
        match reader.need(place, fact, case) {
            Ok(_) => return Ok(Fact::Flag(true)),
            Err(more) => gaps.add(&more),
        }
    }
    if let Some(node) = reader.build().circuitry().node_of(part, Side::Input) {
        gaps.add(&super::doubt::of_sources(reader, node));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn residual_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let values: Vec<_> = residual_devices(reader, part)
        .into_iter()
        .map(|(place, fact)| {
            let value = reader.need(place, fact, case)?;
            let title = reader.build().part(place).title.clone();
            reader.step(|| Step::of(format!("{title} trips at {}", super::amperes(value))));
            Ok(value)
        })
        .collect();
    match least(values)? {
        Some(least) => Ok(Fact::Number(least)),
        None => super::no_solution(part, f::outlets::RESIDUAL_CURRENT),
    }
}

/// The boards that a source of alternating current feeds: at its own node and through transfer switches.
fn boards_fed(reader: &Reader<'_>, source: PartId) -> Vec<PartId> {
    let circuitry = reader.build().circuitry();
    let side = if reader.build().part(source).kind == kind::GENERATOR { Side::Input } else { Side::Output };
    let Some(node) = circuitry.node_of(source, side) else { return Vec::new() };
    let nodes = super::transfer::with_what_is_passed_on(reader, &circuitry.reached(node));
    circuitry
        .terminals(&nodes)
        .map(|own| own.thing)
        .filter(|own| reader.build().part(*own).kind == kind::AC_BOARD)
        .collect()
}

/// The joints of neutral and earth while a source is the one that feeds. A board that does not say has none to count.
fn bonds(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let Some(own) = fact_of(reader.build(), part, "neutral-bond") else {
        return super::no_solution(part, f::inverter::BONDS);
    };
    let mut count = if reader.need_word(part, own, case)? == "none" { 0.0 } else { 1.0 };
    let mut gaps = Gaps::default();
    for board in boards_fed(reader, part) {
        if reader.silent(board, f::ac_board::NEUTRAL_BOND) {
            continue;
        }
        match reader.need_flag(board, f::ac_board::NEUTRAL_BOND, case) {
            Ok(true) => {
                let title = reader.build().part(board).title.clone();
                reader.step(|| Step::of(format!("{title} joins neutral and earth")));
                count += 1.0;
            }
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Number(count)) } else { Err(gaps) }
}

/// Whether a source feeds one outlet for one thing and nothing else: then it is separated, and may float (IEC 60364-4-41,
/// 413; from memory).
fn single_outlet(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let circuitry = build.circuitry();
    let side = if build.part(part).kind == kind::GENERATOR { Side::Input } else { Side::Output };
    let Some(node) = circuitry.node_of(part, side) else { return Ok(Fact::Flag(false)) };
    let nodes = super::transfer::with_what_is_passed_on(reader, &circuitry.reached(node));
    let fed: Vec<PartId> = circuitry.terminals(&nodes).map(|own| own.thing).filter(|own| *own != part).collect();
    match fed.as_slice() {
        [only] if build.part(*only).kind == kind::OUTLETS => {
            if reader.silent(*only, f::outlets::COUNT) {
                return Err(Gaps::one(Gap::Entry(*only, f::outlets::COUNT)));
            }
            Ok(Fact::Flag(reader.need(*only, f::outlets::COUNT, case)? <= 1.0))
        }
        _ => Ok(Fact::Flag(false)),
    }
}

/// Whether shore feeds the same boards, without an isolating transformer between.
fn beside_shore(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let circuitry = reader.build().circuitry();
    let Some(node) = circuitry.node_of(part, Side::Output) else { return Ok(Fact::Flag(false)) };
    let shore = |source: &crate::circuitry::Terminal| reader.build().part(source.thing).kind == kind::SHORE;
    if sources_of(reader, node).iter().any(shore) {
        return Ok(Fact::Flag(true));
    }
    let gaps = super::doubt::of_sources(reader, node);
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}
