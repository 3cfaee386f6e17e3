//! What stands near a heater, and before its warm air.

use super::burnable::burnables;
use super::{every, nearest, shapes};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, is_said, no_solution};
use crate::reader::Reader;
use calc::space::Cuboid;
use vocabulary::{PartKind, fact as f, fact::heater as h, fact::warm_air as w, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (h::HOT_CLEARANCE, Each(hot_clearance)),
        (h::HOT_CLEARANCE_SAID, Each(hot_clearance_said)),
        (h::BURNABLES, Each(near)),
        (h::BURNABLE_DISTANCE, Each(near_distance)),
        (h::TEXTILES, Each(textiles)),
        (h::TEXTILE_DISTANCE, Each(textile_distance)),
        (w::MEETS, Each(meets)),
        (w::FREE_LENGTH, Each(free_length)),
        (w::BERTHS_MET, Each(berths_met)),
        (w::BERTH_DISTANCE, Each(berth_distance)),
    ]
}

/// What blows out spreads to half this width, m. Chosen: a duct of 90 mm and a hand to either side.
const JET: f64 = 0.3;

/// How far ahead of it warm air is looked after, m. Chosen: beyond this it does no harm.
const AHEAD: f64 = 2.0;

/// What is drawn into another thing by no more than this only touches it, m. Chosen.
const TOUCH: f64 = 0.001;

/// The line that says the maker's clearance.
fn hot_surface(reader: &Reader<'_>, heater: PartId) -> Outcome<Option<PartId>> {
    crate::methods::limits::block(reader, heater, kind::HOT_SURFACE)
}

fn hot_clearance_said(reader: &mut Reader<'_>, heater: PartId, _: CaseId) -> Outcome {
    match hot_surface(reader, heater)? {
        Some(surface) => Ok(Fact::Flag(is_said(reader, surface, f::hot_surface::CLEARANCE)?)),
        None => Ok(Fact::Flag(false)),
    }
}

fn hot_clearance(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    match hot_surface(reader, heater)? {
        Some(surface) => Ok(Fact::Number(reader.need(surface, f::hot_surface::CLEARANCE, case)?)),
        None => Err(Gaps::one(Gap::Absent(heater, kind::HOT_SURFACE))),
    }
}

type Shapes = Vec<(PartId, Cuboid)>;

/// What can burn around a heater, but for what it is built into.
fn around(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome<(Cuboid, Shapes)> {
    let all = burnables(reader, case)?;
    let own = reader.scene().shape(heater);
    let (own, mut things) = both(own, shapes(reader, &all))?;
    things.retain(|(_, thing)| !thing.intersects(&own, TOUCH));
    Ok((own, things))
}

fn near(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    Ok(all(around(reader, heater, case)?.1.into_iter().map(|(part, _)| part)))
}

fn near_distance(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    let (own, things) = around(reader, heater, case)?;
    match nearest(&things, |thing| thing.distance(&own)) {
        Some((distance, _)) => Ok(Fact::Number(distance)),
        None => no_solution(heater, h::BURNABLE_DISTANCE),
    }
}

/// Berths and curtains.
const TEXTILES: [PartKind; 2] = [kind::BERTH, kind::CURTAIN];

fn textiles(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(all(every(reader, &TEXTILES)?))
}

fn textile_distance(reader: &mut Reader<'_>, heater: PartId, _: CaseId) -> Outcome {
    let textiles = every(reader, &TEXTILES)?;
    let own = reader.scene().shape(heater);
    let (own, things) = both(own, shapes(reader, &textiles))?;
    match nearest(&things, |thing| thing.distance(&own)) {
        Some((distance, _)) => Ok(Fact::Number(distance)),
        None => no_solution(heater, h::TEXTILE_DISTANCE),
    }
}

/// What stands in the way of warm air: furniture, berths, curtains, seats and tables.
const OBSTACLES: [PartKind; 5] = [kind::FURNISHING, kind::BERTH, kind::CURTAIN, kind::SEAT, kind::TABLE];

/// What warm air meets, each with how far it has blown until then, m.
fn ahead(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome<Vec<(f64, PartId)>> {
    let all = every(reader, &OBSTACLES)?;
    let (build, scene) = (reader.build(), reader.scene());
    let toward = reader.need_word(outlet, w::TOWARD, case);
    // A seat without a place stands in the cab.
    let is_said = |part: &PartId| scene.stand(*part).is_some_and(|stand| stand.said);
    let standing: Vec<PartId> =
        all.into_iter().filter(|part| build.part(*part).kind != kind::SEAT || is_said(part)).collect();
    let (at, (toward, things)) = both(scene.shape(outlet), both(toward, shapes(reader, &standing)))?;
    let at = at.centre();
    let (axis, forward) = match toward {
        "front" => (0, false),
        "rear" => (0, true),
        "left" => (1, false),
        "right" => (1, true),
        "below" => (2, false),
        _ => (2, true),
    };
    let mut corner = at.map(|coordinate| coordinate - JET / 2.0);
    let mut size = [JET; 3];
    corner[axis] = if forward { at[axis] } else { at[axis] - AHEAD };
    size[axis] = AHEAD;
    let (Ok(jet), Ok(from)) = (Cuboid::new(corner, size), Cuboid::point(at)) else {
        return Err(Gaps::one(Gap::Entry(outlet, w::AT)));
    };
    // What the outlet is let into is not before it.
    let before = things.iter().filter(|(_, thing)| jet.intersects(thing, TOUCH) && !thing.contains(&from, -TOUCH));
    Ok(before
        .map(|(part, thing)| {
            let apart = if forward { thing.least()[axis] - at[axis] } else { at[axis] - thing.most()[axis] };
            (apart.max(0.0), *part)
        })
        .collect())
}

fn meets(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    Ok(all(ahead(reader, outlet, case)?.into_iter().map(|(_, part)| part)))
}

fn free_length(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let met = ahead(reader, outlet, case)?;
    match met.into_iter().map(|(apart, _)| apart).min_by(f64::total_cmp) {
        Some(apart) => Ok(Fact::Number(apart)),
        None => no_solution(outlet, w::FREE_LENGTH),
    }
}

/// The berths before an outlet, each with how far the air has blown until then, m.
fn berths_ahead(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome<Vec<(f64, PartId)>> {
    let mut met = ahead(reader, outlet, case)?;
    met.retain(|(_, part)| reader.build().part(*part).kind == kind::BERTH);
    Ok(met)
}

fn berths_met(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    Ok(all(berths_ahead(reader, outlet, case)?.into_iter().map(|(_, part)| part)))
}

fn berth_distance(reader: &mut Reader<'_>, outlet: PartId, case: CaseId) -> Outcome {
    let met = berths_ahead(reader, outlet, case)?;
    match met.into_iter().map(|(apart, _)| apart).min_by(f64::total_cmp) {
        Some(apart) => Ok(Fact::Number(apart)),
        None => no_solution(outlet, w::BERTH_DISTANCE),
    }
}
