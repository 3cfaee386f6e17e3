//! Where alarms hang: their heights and their distance from what cooks and burns.

use super::{every, filtered, nearest, shapes};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution};
use crate::reader::Reader;
use vocabulary::{FactId, fact as f, fact::alarm as a, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (a::COOKER_DISTANCE, Each(cooker_distance)),
        (a::FLAMES, Each(flames)),
        (a::FLAME_DISTANCE, Each(flame_distance)),
        (a::UNDER_CEILING, Each(under_ceiling)),
        (a::WARM_AIR_OUTLETS, Each(warm_air)),
        (a::WARM_AIR_DISTANCE, Each(warm_air_distance)),
    ]
}

fn distance(reader: &mut Reader<'_>, alarm: PartId, things: &[PartId], fact: FactId) -> Outcome {
    let own = reader.scene().shape(alarm);
    let (own, things) = both(own, shapes(reader, things))?;
    match nearest(&things, |thing| thing.distance(&own)) {
        Some((distance, _)) => Ok(Fact::Number(distance)),
        None => no_solution(alarm, fact),
    }
}

fn cooker_distance(reader: &mut Reader<'_>, alarm: PartId, _: CaseId) -> Outcome {
    let cookers = every(reader, &[kind::COOKER])?;
    distance(reader, alarm, &cookers, a::COOKER_DISTANCE)
}

/// Cookers that burn fuel, and heaters whose flame is open to the air that people breathe.
fn open_flames(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<PartId>> {
    let all = every(reader, &[kind::COOKER, kind::HEATER])?;
    filtered(all, |part| {
        if reader.build().part(part).kind == kind::COOKER {
            return Ok(reader.need_word(part, f::cooker::FUEL, case)? != "none");
        }
        if reader.need_word(part, f::heater::FUEL, case)? == "none" {
            return Ok(false);
        }
        Ok(reader.need_word(part, f::heater::COMBUSTION, case)? == "open")
    })
}

fn flames(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(all(open_flames(reader, case)?))
}

fn flame_distance(reader: &mut Reader<'_>, alarm: PartId, case: CaseId) -> Outcome {
    let flames = open_flames(reader, case)?;
    distance(reader, alarm, &flames, a::FLAME_DISTANCE)
}

/// Its heights above the living floor, m; known where only its height is written, too.
fn heights(reader: &mut Reader<'_>, alarm: PartId) -> Outcome<[f64; 2]> {
    let scene = reader.scene();
    match scene.stand(alarm) {
        Some(stand) => stand.heights.ok_or_else(|| {
            // To write its height is enough.
            let mut gaps = stand.gaps.clone();
            for any in &mut gaps.0 {
                any.0.push(Gap::Entry(alarm, a::RAISED));
            }
            gaps
        }),
        None => Err(Gaps::one(Gap::Unread(alarm))),
    }
}

fn under_ceiling(reader: &mut Reader<'_>, alarm: PartId, _: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let top = heights(reader, alarm)?[1];
    let room = match scene.zone(build, alarm)? {
        Some(zone) => scene.shape(zone)?,
        None => scene.interior(build)?.around,
    };
    Ok(Fact::Number(room.most()[2] - top))
}

fn warm_air(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(all(every(reader, &[kind::WARM_AIR])?))
}

fn warm_air_distance(reader: &mut Reader<'_>, alarm: PartId, _: CaseId) -> Outcome {
    let outlets = every(reader, &[kind::WARM_AIR])?;
    distance(reader, alarm, &outlets, a::WARM_AIR_DISTANCE)
}
