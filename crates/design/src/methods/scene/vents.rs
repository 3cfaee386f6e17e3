//! Vents: of gas lockers against openings, flames and the hot exhaust below; of spaces in which people are against what covers them.

use super::engine_exhaust::hot_pieces;
use super::{every, filtered, length, nearest};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, is_said, no_solution, regions, space};
use crate::reader::Reader;
use crate::scene::Hole;
use crate::working::Step;
use calc::space::{Cuboid, Reach, Skin, is_above};
use vocabulary::{fact as f, fact::vent as v, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (v::PLACED, Each(placed)),
        (v::OF_GAS_LOCKER, Each(of_gas_locker)),
        (v::OPENINGS, Each(openings)),
        (v::OPENING_DISTANCE, Each(opening_distance)),
        (v::SPARKS, Each(sparks)),
        (v::SPARK_DISTANCE, Each(spark_distance)),
        (v::ENGINE_EXHAUSTS, Each(engine_exhausts)),
        (v::ENGINE_EXHAUST_DISTANCE, Each(engine_exhaust_distance)),
        (v::OVER_ENGINE_EXHAUST, Each(over_engine_exhaust)),
        (v::COVERED_BY, Each(covered_by)),
        (v::BERTHS_BESIDE, Each(berths_beside)),
        (v::ABOVE_MATTRESS, Each(above_mattress)),
    ]
}

/// What stands nearer to a vent than this covers it, m. Chosen: no air passes such a slit.
const COVERS: f64 = 0.02;

fn placed(reader: &mut Reader<'_>, vent: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(is_said(reader, vent, v::AT)?))
}

/// Whether a vent leads to the open air.
pub(super) fn leads_out(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome<bool> {
    let to = space::named(reader, vent, v::TO, case)?;
    Ok(space::airy(space::word(reader, to, case)?))
}

fn of_gas_locker(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome {
    let Some(zone) = reader.build().part(vent).outer else { return no_solution(vent, v::OF_GAS_LOCKER) };
    if !reader.need_flag(zone, f::zone::GAS_LOCKER, case)? {
        return Ok(Fact::Flag(false));
    }
    Ok(Fact::Flag(leads_out(reader, vent, case)?))
}

fn at(reader: &mut Reader<'_>, vent: PartId) -> Outcome<Cuboid> {
    reader.scene().shape(vent)
}

/// The openings that gas from a vent could enter.
fn holes(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome<(Skin, Vec<(PartId, Hole)>)> {
    let (build, scene) = (reader.build(), reader.scene());
    let skin = scene.skin(build)?.with_underside();
    let mut holes = scene.holes(build, &skin)?;
    let regions = regions(reader, case)?;
    if regions.us && !regions.outside_us() && !holes.is_empty() {
        let height = at(reader, vent)?.centre()[2];
        holes.retain(|(_, hole)| hole.bounds().least()[2] < height);
    }
    Ok((skin, holes))
}

fn openings(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome {
    Ok(all(holes(reader, vent, case)?.1.into_iter().map(|(part, _)| part)))
}

fn opening_distance(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome {
    let (own, (skin, holes)) = both(at(reader, vent), holes(reader, vent, case))?;
    let build = reader.build();
    let least = holes
        .iter()
        .filter_map(|(part, hole)| Some((hole.distance(&skin, own.centre())?, *part)))
        .min_by(|one, other| one.0.total_cmp(&other.0));
    let Some((distance, part)) = least else { return no_solution(vent, v::OPENING_DISTANCE) };
    reader.step(|| Step::of(format!("nearest: {}, {} along the skin", build.part(part).title, length(distance))));
    Ok(Fact::Number(distance))
}

/// What may light gas outside, with its place.
fn lighters(reader: &mut Reader<'_>) -> Outcome<Vec<(PartId, Cuboid)>> {
    let scene = reader.scene();
    let mut found = every(reader, &[kind::EXHAUST, kind::GENERATOR, kind::INLET])?;
    let build = reader.build();
    // A generator may stand anywhere until its place is said; the mouth of an exhaust is always outside.
    found.retain(|part| build.part(*part).kind == kind::EXHAUST || scene.stand(*part).is_some_and(|stand| stand.said));
    super::shapes(reader, &found)
}

fn sparks(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(all(lighters(reader)?.into_iter().map(|(part, _)| part)))
}

fn spark_distance(reader: &mut Reader<'_>, vent: PartId, _: CaseId) -> Outcome {
    let (own, lighters) = both(at(reader, vent), lighters(reader))?;
    match nearest(&lighters, |thing| thing.distance(&own)) {
        Some((distance, part)) => {
            let build = reader.build();
            reader.step(|| Step::of(format!("nearest: {}, {}", build.part(part).title, length(distance))));
            Ok(Fact::Number(distance))
        }
        None => no_solution(vent, v::SPARK_DISTANCE),
    }
}

fn engine_exhausts(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Parts(reader.build().of_kind(kind::ENGINE_EXHAUST).clone()))
}

/// Every hot piece of the engine's exhaust.
fn hot(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<(PartId, Cuboid)>> {
    let exhausts = every(reader, &[kind::ENGINE_EXHAUST])?;
    let mut hot = Vec::new();
    let mut gaps = Gaps::default();
    for exhaust in exhausts {
        match hot_pieces(reader, exhaust, case) {
            Ok(pieces) => hot.extend(pieces.into_iter().map(|piece| (exhaust, piece))),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(hot) } else { Err(gaps) }
}

fn engine_exhaust_distance(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome {
    let (own, hot) = both(at(reader, vent), hot(reader, case))?;
    match nearest(&hot, |piece| piece.distance(&own)) {
        Some((distance, _)) => Ok(Fact::Number(distance)),
        None => no_solution(vent, v::ENGINE_EXHAUST_DISTANCE),
    }
}

fn over_engine_exhaust(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome {
    let (own, hot) = both(at(reader, vent), hot(reader, case))?;
    Ok(Fact::Flag(hot.iter().any(|(_, piece)| is_above(&own, piece, Reach::Horizontal(0.0)))))
}

fn covered_by(reader: &mut Reader<'_>, vent: PartId, _: CaseId) -> Outcome {
    let (own, solids) = both(at(reader, vent), super::solids(reader).all())?;
    // A vent deep in a cupboard is that of the cupboard.
    let covering = solids.into_iter().filter(|(_, shape)| {
        let (least, most, at) = (shape.least(), shape.most(), own.centre());
        let deep = |axis: usize| (at[axis] - least[axis]).min(most[axis] - at[axis]);
        shape.distance(&own) <= COVERS && (0..3).map(deep).fold(f64::INFINITY, f64::min) <= COVERS
    });
    Ok(all(covering.map(|(part, _)| part)))
}

/// The berths in the space of a vent.
fn beside(reader: &mut Reader<'_>, vent: PartId) -> Outcome<Vec<PartId>> {
    let (build, scene) = (reader.build(), reader.scene());
    let zone = build.part(vent).outer;
    let berths = every(reader, &[kind::BERTH])?;
    filtered(berths, |berth| Ok(scene.zone(build, berth)? == zone))
}

fn berths_beside(reader: &mut Reader<'_>, vent: PartId, _: CaseId) -> Outcome {
    Ok(all(beside(reader, vent)?))
}

/// The height of a vent's lower edge above the living floor, m: from the floor or the ceiling of its space as said, else its middle.
fn lower_edge(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome<f64> {
    let (build, scene) = (reader.build(), reader.scene());
    let Some(zone) = build.part(vent).outer else { return no_solution(vent, v::ABOVE_MATTRESS) };
    if !reader.silent(vent, v::ABOVE_FLOOR) {
        let (up, room) = both(reader.need(vent, v::ABOVE_FLOOR, case), scene.shape(zone))?;
        return Ok(room.least()[2] + up);
    }
    if !reader.silent(vent, v::BELOW_CEILING) {
        let (down, room) = both(reader.need(vent, v::BELOW_CEILING, case), scene.solid(build, zone))?;
        return Ok(room.most()[2] - down);
    }
    if reader.silent(vent, v::AT) {
        return Err(Gaps(vec![crate::known::AnyOf(vec![
            Gap::Entry(vent, v::BELOW_CEILING),
            Gap::Entry(vent, v::ABOVE_FLOOR),
            Gap::Entry(vent, v::AT),
        ])]));
    }
    Ok(at(reader, vent)?.centre()[2])
}

fn above_mattress(reader: &mut Reader<'_>, vent: PartId, case: CaseId) -> Outcome {
    let berths = beside(reader, vent)?;
    let (edge, berths) = both(lower_edge(reader, vent, case), super::shapes(reader, &berths))?;
    let highest = berths.iter().map(|(_, berth)| berth.most()[2]).max_by(f64::total_cmp);
    match highest {
        Some(top) => Ok(Fact::Number(edge - top)),
        None => no_solution(vent, v::ABOVE_MATTRESS),
    }
}
