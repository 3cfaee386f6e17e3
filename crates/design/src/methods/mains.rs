//! What feeds a board of alternating current, and what keeps its sources apart.

use super::run::run;
use crate::binding::{Bindings, Method};
use crate::circuitry::{Piece, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, kind};

/// The facts of boards, inlets and cords.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::ac_board::SUPPLIES, Each(supplies)),
        (f::ac_board::ON_SHORE, Each(on_shore)),
        (f::ac_board::KEPT_APART, Each(kept_apart)),
        (f::ac_board::HAS_MAIN, Each(has_main)),
        (f::ac_board::MAINS_CIRCUITS, Each(circuits)),
        (f::inlet::FIRST_DEVICE, Each(first_device)),
        (f::inlet::TO_FIRST_DEVICE, Each(to_first_device)),
        (f::cord::AREA, Each(cord_area)),
        (f::cord::INLET_RATING, Each(inlet_rating)),
        (f::cord::LEAST_AREA, Each(least_area)),
        (f::cord::WOUND_AMPACITY, Each(wound_ampacity)),
    ]
}

/// The sources that feed a node directly or through what passes them on: transfer switches and inverter-chargers.
pub fn sources_of(reader: &Reader<'_>, node: usize) -> Vec<Terminal> {
    let circuitry = reader.build().circuitry();
    let mut nodes = vec![node];
    let mut found: Vec<Terminal> = Vec::new();
    let mut next = 0;
    while let Some(&node) = nodes.get(next) {
        next += 1;
        for source in circuitry.sources_joined(&[Some(node)]) {
            let kind = reader.build().part(source.thing).kind;
            let passed_on: Vec<usize> = match kind {
                kind::TRANSFER_SWITCH => circuitry.supplies(source.thing).collect(),
                kind::INVERTER_CHARGER => circuitry.node_of(source.thing, Side::Supply(0)).into_iter().collect(),
                _ => Vec::new(),
            };
            nodes.extend(passed_on.into_iter().filter(|node| !nodes.contains(node)).collect::<Vec<_>>());
            if kind != kind::TRANSFER_SWITCH && !found.contains(&source) {
                found.push(source);
            }
        }
    }
    found
}

/// The node of a board, with what would settle what else is joined there.
fn node(reader: &Reader<'_>, board: PartId) -> (Option<usize>, Gaps) {
    let node = reader.build().circuitry().node_of(board, Side::Input);
    (node, node.map_or_else(Gaps::default, |node| super::doubt::of_sources(reader, node)))
}

fn supplies(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let (node, gaps) = node(reader, part);
    let found = node.map(|node| sources_of(reader, node)).unwrap_or_default();
    Ok(super::parts(found.into_iter().map(|source| source.thing), gaps.is_empty()))
}

fn on_shore(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let (node, gaps) = node(reader, part);
    let found = node.map(|node| sources_of(reader, node)).unwrap_or_default();
    if found.iter().any(|source| reader.build().part(source.thing).kind == kind::SHORE) {
        return Ok(Fact::Flag(true));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// Whether an interlock word keeps sources apart.
fn parts_them(reader: &mut Reader<'_>, part: PartId, fact: vocabulary::FactId, case: CaseId) -> Outcome<bool> {
    Ok(reader.need_word(part, fact, case)? != "none")
}

/// Whether something keeps its sources from feeding it at the same time: of the sources that are joined to it without a
/// transfer switch between there is only one, or a board among them has an interlock; and each transfer switch has one.
fn kept_apart(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (node, mut gaps) = node(reader, part);
    let Some(node) = node else { return Ok(Fact::Flag(true)) };
    let build = reader.build();
    let circuitry = build.circuitry();
    let joined: Vec<Terminal> = circuitry.sources_joined(&[Some(node)]).collect();
    let mut apart = joined.len() <= 1;
    let mut open = Vec::new();
    if !apart {
        let nodes = circuitry.reached(node);
        let boards: Vec<PartId> = circuitry
            .terminals(&nodes)
            .map(|own| own.thing)
            .filter(|own| build.part(*own).kind == kind::AC_BOARD)
            .collect();
        for board in boards {
            match parts_them(reader, board, f::ac_board::INTERLOCK, case) {
                Ok(true) => {
                    let title = build.part(board).title.clone();
                    reader.step(|| Step::of(format!("the interlock of {title} keeps its sources apart")));
                    apart = true;
                }
                Ok(false) => {}
                Err(_) => open.push(Gap::Entry(board, f::ac_board::INTERLOCK)),
            }
        }
        if !apart && !open.is_empty() {
            gaps.add(&Gaps(vec![AnyOf(open)]));
        }
    }
    for switch in joined.iter().filter(|own| build.part(own.thing).kind == kind::TRANSFER_SWITCH) {
        match parts_them(reader, switch.thing, f::transfer_switch::INTERLOCK, case) {
            Ok(parted) => apart &= parted,
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(apart)) } else { Err(gaps) }
}

/// Whether one device takes everything off: its main breaker, or a main switch.
fn has_main(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if !reader.silent(part, f::ac_board::MAIN) {
        return reader.need(part, f::ac_board::MAIN, case).map(|_| Fact::Flag(true));
    }
    reader.need_flag(part, f::ac_board::MAIN_SWITCH, case).map(Fact::Flag)
}

fn circuits(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let ways = reader.build().inside(part, kind::WAY);
    if !ways.complete {
        return Err(Gaps::one(Gap::Unread(part)));
    }
    #[expect(clippy::cast_precision_loss, reason = "a board has few ways")]
    Ok(Fact::Number(ways.members.len() as f64))
}

/// The shore run behind an inlet, with the conductors between the inlet and its first device.
fn behind_inlet(reader: &Reader<'_>, inlet: PartId) -> Outcome<(Vec<PartId>, Option<PartId>)> {
    let build = reader.build();
    let Some(shore) = build.part(inlet).outer else { return Err(Gaps::one(Gap::Unread(inlet))) };
    let Some(run) = build.circuitry().runs.iter().find(|run| run.written == shore) else {
        return Err(Gaps::one(Gap::Absent(shore, kind::TO)));
    };
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(shore)));
    }
    let mut before = Vec::new();
    for piece in &run.pieces {
        match piece {
            // The cord lies before the inlet, at the site's own device.
            Piece::Conductor(own) if build.part(build.circuitry().written(*own)).kind == kind::CORD => {}
            Piece::Conductor(own) => before.push(*own),
            Piece::Device(device) => return Ok((before, Some(*device))),
            Piece::Switch(_) | Piece::Through(_) => {}
        }
    }
    Ok((before, None))
}

fn first_device(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    match behind_inlet(reader, part)?.1 {
        Some(device) => reader.fact(device, f::device::RATING, case),
        None => Err(Gaps::one(Gap::Absent(part, kind::BREAKER))),
    }
}

fn to_first_device(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (before, _) = behind_inlet(reader, part)?;
    let lengths: Vec<_> = before.iter().map(|own| reader.need(*own, f::conductor::ONE_WAY, case)).collect();
    Ok(Fact::Number(super::sum(lengths)?))
}

/// The worked conductor of a cord.
fn conductor(reader: &Reader<'_>, cord: PartId) -> Outcome<PartId> {
    let circuitry = reader.build().circuitry();
    let found = circuitry.runs.iter().flat_map(|run| run.conductors()).find(|own| circuitry.written(*own) == cord);
    found.ok_or_else(|| Gaps::one(Gap::Unread(cord)))
}

fn cord_area(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let conductor = conductor(reader, part)?;
    run(reader, conductor, f::cord::AREA)?;
    reader.fact(conductor, f::conductor::AREA, case)
}

fn inlet_rating(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let inlet = build.part(part).outer.and_then(|shore| build.inside(shore, kind::INLET).members.first().copied());
    match inlet {
        Some(inlet) => reader.fact(inlet, f::inlet::RATING, case),
        None => Err(Gaps::one(Gap::Absent(part, kind::INLET))),
    }
}

fn least_area(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let rating = reader.need(part, f::cord::INLET_RATING, case)?;
    match calc::supply_lead_area(rating) {
        Some((area, citation)) => {
            reader.step(|| {
                Step::cited(
                    format!("for {} at least {}", super::amperes(rating), super::show(area, quantity::Dimension::AREA)),
                    citation,
                )
            });
            Ok(Fact::Number(area))
        }
        None => super::no_solution(part, f::cord::LEAST_AREA),
    }
}

/// The ampacity of a cord on its reel, A; laid out, its whole ampacity.
fn wound_ampacity(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let conductor = conductor(reader, part)?;
    let ampacity = reader.need(conductor, f::conductor::AMPACITY, case)?;
    let layers = reader.need(part, f::cord::LAYERS, case)?;
    // A count of layers is a small whole number.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of layers is small")]
    let layers = layers.round().max(0.0) as u32;
    if layers == 0 {
        return Ok(Fact::Number(ampacity));
    }
    match calc::reel_factor(layers) {
        Some((factor, citation)) => {
            reader.step(|| {
                Step::cited(format!("{} × {factor} for {layers} layers on a reel", super::amperes(ampacity)), citation)
            });
            Ok(Fact::Number(ampacity * factor))
        }
        None => super::no_solution(part, f::cord::WOUND_AMPACITY),
    }
}
