//! Outlets: what protects from shock there.

use super::mains_walk::Walk;
use super::supply::{list_supplies, supplies_of, unfed};
use super::{fact_of, show};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{FactId, fact as f, kind};

/// The facts of outlets and of protective conductors.
pub fn bindings() -> Bindings {
    vec![
        (f::outlets::ALTERNATING, Method::Each(alternating)),
        (f::outlets::SUPPLIES, Method::Each(list_supplies)),
        (f::outlets::RESIDUAL_PROTECTED, Method::Each(residual_protected)),
        (f::outlets::RESIDUAL_CURRENT, Method::Each(residual_current)),
        (f::outlets::WEAKEST_SUPPLY, Method::Each(weakest_supply)),
        (f::outlets::HAS_EARTH, Method::Each(has_earth)),
        (f::way::LEAST_EARTH, Method::Each(least_earth_of_way)),
        (f::to::LEAST_EARTH, Method::Each(least_earth_of_inlet)),
    ]
}

/// Whether a run of alternating current feeds outlets.
fn alternating(reader: &mut Reader<'_>, outlets: PartId, _: CaseId) -> Outcome {
    let circuitry = reader.build().circuitry();
    let node = circuitry.node_of(outlets, Side::Input);
    let runs = node.and_then(|node| circuitry.meeting.get(node)).into_iter().flatten();
    if runs.filter_map(|run| circuitry.runs.get(*run)).any(|run| run.alternating) {
        return Ok(Fact::Flag(true));
    }
    // What could not be read may join them to any node.
    let node = node.unwrap_or(usize::MAX);
    let gaps = super::doubt::of_anything(reader, node);
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// The entries that say a residual-current device on the way from a source to outlets: their own, the ways' and their boards',
/// breakers', and the source's.
fn entries(reader: &Reader<'_>, walk: &Walk, outlets: PartId) -> Vec<(PartId, FactId)> {
    let build = reader.build();
    // Of the things that are fed only outlets may have a device of their own.
    let own = (build.part(outlets).kind == kind::OUTLETS).then_some((outlets, f::outlets::RCD));
    let mut entries: Vec<(PartId, FactId)> = own.into_iter().collect();
    let stop = walk.stop_at(reader, Terminal { thing: outlets, side: Side::Input });
    let runs = stop.map(|stop| walk.runs_to(stop)).unwrap_or_default();
    for run in runs.into_iter().rev().filter_map(|run| build.circuitry().runs.get(run)) {
        if build.part(run.written).kind == kind::WAY {
            entries.push((run.written, f::way::RCD));
            entries.extend(build.part(run.written).outer.map(|board| (board, f::ac_board::RCD)));
        }
        let breakers = run.devices().map(|device| build.circuitry().written(device));
        entries.extend(breakers.filter(|by| build.part(*by).kind == kind::BREAKER).map(|by| (by, f::breaker::RCD)));
    }
    let source = walk.supply.source.thing;
    entries.extend(fact_of(build, source, "rcd").map(|fact| (source, fact)));
    entries
}

/// The least residual current, A, at which a device on the way from a source to outlets trips; nothing where there is no such
/// device: as with a fuse, one that is not written is not there.
pub fn residual_on_way(
    reader: &mut Reader<'_>,
    walk: &Walk,
    outlets: PartId,
    case: CaseId,
) -> Outcome<Option<(f64, PartId)>> {
    let mut least: Option<(f64, PartId)> = None;
    let mut gaps = Gaps::default();
    for (part, fact) in entries(reader, walk, outlets) {
        if reader.silent(part, fact) {
            continue;
        }
        match reader.need(part, fact, case) {
            Ok(current) if least.is_none_or(|(so_far, _)| current < so_far) => least = Some((current, part)),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if least.is_none() && !gaps.is_empty() { Err(gaps) } else { Ok(least) }
}

/// What trips on the way from a source: at which residual current, and the part that says so.
type Trips = Option<(f64, PartId)>;

/// For each source that can feed outlets, what trips.
fn on_each_way(reader: &mut Reader<'_>, outlets: PartId, case: CaseId) -> Outcome<Vec<(PartId, Trips)>> {
    let walks = reader.walks();
    let supplies = supplies_of(reader, outlets)?;
    if supplies.is_empty() {
        return unfed(outlets);
    }
    let mut all = Vec::new();
    let mut gaps = Gaps::default();
    for walk in supplies.into_iter().filter_map(|(number, _)| walks.get(number)) {
        match residual_on_way(reader, walk, outlets, case) {
            Ok(device) => {
                let from = reader.build().part(walk.supply.part).title.clone();
                let by = device.map(|(current, part)| (current, reader.build().part(part).title.clone()));
                reader.step(|| match by {
                    Some((current, title)) => {
                        Step::of(format!("fed from {from}: {title} trips at {}", show(current, Dimension::CURRENT)))
                    }
                    None => Step::of(format!("fed from {from}: no residual-current device is written on the way")),
                });
                all.push((walk.supply.part, device));
            }
            Err(more) => gaps.add(&more),
        }
    }
    // A way that certainly has none decides whatever the others have.
    if gaps.is_empty() || all.iter().any(|(_, device)| device.is_none()) { Ok(all) } else { Err(gaps) }
}

fn residual_protected(reader: &mut Reader<'_>, outlets: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(on_each_way(reader, outlets, case)?.iter().all(|(_, device)| device.is_some())))
}

/// The source against which outlets are guarded least: the first without a device, else the one with the largest current.
fn weakest_supply(reader: &mut Reader<'_>, outlets: PartId, case: CaseId) -> Outcome {
    let mut weakest: Option<(f64, PartId)> = None;
    for (supply, device) in on_each_way(reader, outlets, case)? {
        let current = device.map_or(f64::INFINITY, |(current, _)| current);
        if weakest.is_none_or(|(most, _)| current > most) {
            weakest = Some((current, supply));
        }
    }
    match weakest {
        Some((_, supply)) => Ok(Fact::Text(reader.build().part(supply).title.clone())),
        None => unfed(outlets),
    }
}

fn residual_current(reader: &mut Reader<'_>, outlets: PartId, case: CaseId) -> Outcome {
    let mut most: Option<f64> = None;
    for (_, device) in on_each_way(reader, outlets, case)? {
        let Some((current, _)) = device else { return Err(Gaps::one(Gap::Entry(outlets, f::outlets::RCD))) };
        most = Some(most.map_or(current, |so_far| so_far.max(current)));
    }
    most.map_or_else(|| unfed(outlets), |most| Ok(Fact::Number(most)))
}

/// Whether their earth contact is joined: as said, else as the board of their way says of all its ways.
fn has_earth(reader: &mut Reader<'_>, outlets: PartId, case: CaseId) -> Outcome {
    if !reader.silent(outlets, f::outlets::EARTHED) {
        return Ok(Fact::Flag(reader.need_flag(outlets, f::outlets::EARTHED, case)?));
    }
    let build = reader.build();
    let circuitry = build.circuitry();
    let node = circuitry.node_of(outlets, Side::Input);
    let runs = node.and_then(|node| circuitry.meeting.get(node)).into_iter().flatten();
    let way = runs.filter_map(|run| circuitry.runs.get(*run)).find(|run| build.part(run.written).kind == kind::WAY);
    let own = Gap::Entry(outlets, f::outlets::EARTHED);
    let Some(board) = way.and_then(|way| build.part(way.written).outer) else { return Err(Gaps::one(own)) };
    if build.part(board).kind != kind::AC_BOARD {
        return Err(Gaps::one(own));
    }
    let settles = |_| Gaps(vec![AnyOf(vec![Gap::Entry(board, f::ac_board::PROTECTIVE_CONDUCTORS), own])]);
    let word = reader.need_word(board, f::ac_board::PROTECTIVE_CONDUCTORS, case).map_err(settles)?;
    Ok(Fact::Flag(word != "none"))
}

fn least_earth(reader: &mut Reader<'_>, part: PartId, facts: [FactId; 2], case: CaseId) -> Outcome {
    let line = reader.need(part, facts[0], case)?;
    match calc::smallest_protective_conductor(line) {
        Some(least) => {
            reader.step(|| {
                Step::cited(
                    format!("line {}: at least {}", show(line, Dimension::AREA), show(least, Dimension::AREA)),
                    &calc::PROTECTIVE_CONDUCTOR,
                )
            });
            Ok(Fact::Number(least))
        }
        None => super::no_solution(part, facts[1]),
    }
}

fn least_earth_of_way(reader: &mut Reader<'_>, way: PartId, case: CaseId) -> Outcome {
    least_earth(reader, way, [f::way::WIRE, f::way::LEAST_EARTH], case)
}

fn least_earth_of_inlet(reader: &mut Reader<'_>, to: PartId, case: CaseId) -> Outcome {
    least_earth(reader, to, [f::to::WIRE, f::to::LEAST_EARTH], case)
}
