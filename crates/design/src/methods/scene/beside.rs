//! What stands beside the vehicle and beside what burns: awnings, ramps, fuel tanks, extinguishers, inlets of air, stowed things.

use super::vents::leads_out;
use super::{engine_exhaust, every, filtered, length, nearest, shapes};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution, ventilation};
use crate::reader::Reader;
use crate::scene::{IN_SKIN, ROUNDING};
use crate::working::Step;
use calc::gas::{FAN_INTAKE, FLUE_NEAR_FAN_INTAKE};
use calc::space::Cuboid;
use vocabulary::{FactId, fact as f, fact::exhaust as x, fact::heater as h, fact::ramp as r, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (x::FLOOR_OPENINGS, Each(floor_openings)),
        (x::AWNINGS_OVER, Each(awnings_over)),
        (x::MOST_CLOSED_AWNING, Each(most_closed_awning)),
        (x::FAN_INTAKES, Each(fan_intakes)),
        (x::FAN_INTAKES_NEAR, Each(fan_intakes_near)),
        (h::STOWAGE_AROUND, Each(stowage_around)),
        (h::STOWAGE_GAP, Each(stowage_gap)),
        (r::SLOPE, Each(slope)),
        (f::kept_free::THINGS_INSIDE, Each(things_inside)),
        (f::air_inlet::NEAR_EXHAUSTS, Each(mouths)),
        (f::air_inlet::EXHAUST_DISTANCE, Each(mouth_distance)),
        (f::tank::IN_LIVING_SPACE, Each(ventilation::in_living_space)),
        (f::tank::EXITS_OF_ALL, Each(exits)),
        (f::tank::EXIT_DISTANCE, Each(tank_to_exit)),
        (f::extinguisher::EXITS_OF_ALL, Each(exits)),
        (f::extinguisher::EXIT_DISTANCE, Each(extinguisher_to_exit)),
    ]
}

/// Openings in the floor, of the spaces where people are and of gas lockers.
fn floor_openings(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let vents = every(reader, &[kind::VENT])?;
    let build = reader.build();
    Ok(all(filtered(vents, |vent| {
        let Some(zone) = build.part(vent).outer else { return Ok(false) };
        if reader.need_word(vent, f::vent::HEIGHT, case)? != "low" {
            return Ok(false);
        }
        let word = reader.need_word(zone, f::zone::KIND, case)?;
        if !matches!(word, "living" | "cab" | "gas") || !leads_out(reader, vent, case)? {
            return Ok(false);
        }
        let scene = reader.scene();
        let (own, room) = both(scene.shape(vent), scene.shape(zone))?;
        Ok(own.centre()[2] <= room.least()[2] + ROUNDING)
    })?))
}

/// The awnings in whose space a mouth is.
fn over(reader: &mut Reader<'_>, exhaust: PartId) -> Outcome<Vec<PartId>> {
    let awnings = every(reader, &[kind::AWNING])?;
    if awnings.is_empty() {
        return Ok(Vec::new());
    }
    let scene = reader.scene();
    let build = reader.build();
    let mouth = scene.shape(exhaust)?;
    filtered(awnings, |awning| {
        let room = scene.solid(build, awning)?;
        // A mouth in the wall touches the space before it.
        Ok(room.distance(&mouth) <= IN_SKIN)
    })
}

fn awnings_over(reader: &mut Reader<'_>, exhaust: PartId, _: CaseId) -> Outcome {
    Ok(all(over(reader, exhaust)?))
}

fn most_closed_awning(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    let awnings = over(reader, exhaust)?;
    let open: Vec<Outcome<f64>> =
        awnings.into_iter().map(|awning| reader.need(awning, f::awning::OPEN_SIDES, case)).collect();
    match crate::methods::least(open)? {
        Some(sides) => Ok(Fact::Number(sides)),
        None => no_solution(exhaust, x::MOST_CLOSED_AWNING),
    }
}

/// The fans in the skin that blow in.
fn blowing_in(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<(PartId, Cuboid)>> {
    let (build, scene) = (reader.build(), reader.scene());
    let fans = every(reader, &[kind::FAN])?;
    let inward = filtered(fans, |fan| {
        // A fan of which nothing is said but its zone moves the air inside.
        if scene.stand(fan).is_none_or(|stand| !stand.said) {
            return Ok(false);
        }
        let (shape, skin) = both(scene.shape(fan), scene.skin(build))?;
        let in_skin = skin.onto(shape.centre()).is_ok_and(|on| on.off() <= IN_SKIN);
        // One that draws from elsewhere through a duct has its intake there.
        Ok(in_skin
            && reader.need_word(fan, f::fan::BLOWS_TO, case)? == "space"
            && reader.need_word(fan, f::fan::TAKES_FROM, case)? == "outside")
    })?;
    shapes(reader, &inward)
}

fn fan_intakes(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(all(blowing_in(reader, case)?.into_iter().map(|(part, _)| part)))
}

fn fan_intakes_near(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    let fans = blowing_in(reader, case)?;
    if fans.is_empty() {
        return Ok(all([]));
    }
    let mouth = reader.scene().shape(exhaust)?;
    let build = reader.build();
    let mut near = Vec::new();
    for (fan, shape) in fans {
        let (level, above) = (shape.horizontal_gap(&mouth), mouth.centre()[2] - shape.most()[2]);
        if FAN_INTAKE.holds(level, above) {
            reader.step(|| {
                let title = &build.part(fan).title;
                Step::cited(format!("{title}: {} away, level", length(level)), &FLUE_NEAR_FAN_INTAKE)
            });
            near.push(fan);
        }
    }
    Ok(all(near))
}

/// The furniture for storage that a heater is built into.
fn built_into(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome<Vec<(PartId, Cuboid)>> {
    let (build, scene) = (reader.build(), reader.scene());
    let furniture = every(reader, &[kind::FURNISHING])?;
    let words = vocabulary::fact_spec(f::furnishing::USE).choices();
    let storage = words.iter().position(|word| *word == "storage").map_or(0, |place| 1_u64 << place);
    let own = scene.shape(heater)?;
    let around = filtered(furniture, |piece| {
        let shape = scene.solid(build, piece)?;
        if !shape.contains(&own, ROUNDING) {
            return Ok(false);
        }
        match reader.fact(piece, f::furnishing::USE, case)? {
            Fact::ChoiceSet(set) => Ok(set & storage != 0),
            _ => no_solution(heater, h::STOWAGE_AROUND),
        }
    })?;
    shapes(reader, &around)
}

fn stowage_around(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    Ok(all(built_into(reader, heater, case)?.into_iter().map(|(part, _)| part)))
}

fn stowage_gap(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let (own, around) = both(scene.solid(build, heater), built_into(reader, heater, case))?;
    let gaps = around.iter().flat_map(|(_, room)| {
        [0, 1]
            .into_iter()
            .flat_map(move |axis: usize| [own.least()[axis] - room.least()[axis], room.most()[axis] - own.most()[axis]])
    });
    match gaps.max_by(f64::total_cmp) {
        Some(gap) => Ok(Fact::Number(gap.max(0.0))),
        None => no_solution(heater, h::STOWAGE_GAP),
    }
}

/// What reaches into a space that stays free. Seats are not asked: airbags unfold beside them, and people look over them.
fn things_inside(reader: &mut Reader<'_>, space: PartId, _: CaseId) -> Outcome {
    let (solids, own) = both(super::solids(reader).all(), reader.scene().shape(space))?;
    let build = reader.build();
    let inside = solids
        .into_iter()
        .filter(|(part, shape)| build.part(*part).kind != kind::SEAT && shape.intersects(&own, ROUNDING));
    Ok(all(inside.map(|(part, _)| part)))
}

/// Rise over length in plan: the sloping face is the longest side of the triangle.
fn slope(reader: &mut Reader<'_>, ramp: PartId, case: CaseId) -> Outcome {
    let rise = if reader.silent(ramp, r::RISE) {
        match reader.fact(ramp, r::TO, case) {
            Ok(Fact::Part(door)) => reader.need(door, f::exit::ABOVE_ROAD, case),
            Ok(_) => no_solution(ramp, r::SLOPE),
            Err(_) if reader.silent(ramp, r::TO) => Err(crate::reader::either((ramp, r::RISE), (ramp, r::TO))),
            Err(more) => Err(more),
        }
    } else {
        reader.need(ramp, r::RISE, case)
    };
    let (rise, face) = both(rise, reader.need(ramp, r::LENGTH, case))?;
    if rise >= face {
        return Err(Gaps::one(Gap::Entry(ramp, r::LENGTH)));
    }
    reader.step(|| Step::of(format!("{} up over a face of {}", length(rise), length(face))));
    Ok(Fact::Number(rise / (face * face - rise * rise).sqrt()))
}

/// The mouths of every exhaust.
fn exhausts(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<(PartId, Cuboid)>> {
    let of_burners = every(reader, &[kind::EXHAUST])?;
    let of_engine = every(reader, &[kind::ENGINE_EXHAUST])?;
    let mut found = shapes(reader, &of_burners)?;
    let mut gaps = Gaps::default();
    for exhaust in of_engine {
        // A line that draws a piece of pipe only has no mouth.
        if reader.silent(exhaust, f::engine_exhaust::MOUTH) && !reader.silent(exhaust, f::engine_exhaust::FROM) {
            continue;
        }
        match engine_exhaust::mouth(reader, exhaust, case) {
            Ok(mouth) => found.push((exhaust, mouth)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

fn mouths(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(all(exhausts(reader, case)?.into_iter().map(|(part, _)| part)))
}

fn mouth_distance(reader: &mut Reader<'_>, inlet: PartId, case: CaseId) -> Outcome {
    let own = reader.scene().shape(inlet);
    let (own, mouths) = both(own, exhausts(reader, case))?;
    match nearest(&mouths, |mouth| mouth.distance(&own)) {
        Some((distance, _)) => Ok(Fact::Number(distance)),
        None => no_solution(inlet, f::air_inlet::EXHAUST_DISTANCE),
    }
}

fn exits(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Parts(reader.build().of_kind(kind::EXIT).clone()))
}

/// The distance of a thing from the nearest way out, m.
fn exit_distance(reader: &mut Reader<'_>, thing: PartId, fact: FactId) -> Outcome {
    let exits = every(reader, &[kind::EXIT])?;
    let build = reader.build();
    let (own, found) = both(reader.scene().shape(thing), super::openings(reader, &exits))?;
    match nearest(&found, |exit| exit.distance(&own)) {
        Some((distance, exit)) => {
            reader.step(|| Step::of(format!("nearest: {}, {}", build.part(exit).title, length(distance))));
            Ok(Fact::Number(distance))
        }
        None => no_solution(thing, fact),
    }
}

fn tank_to_exit(reader: &mut Reader<'_>, tank: PartId, _: CaseId) -> Outcome {
    exit_distance(reader, tank, f::tank::EXIT_DISTANCE)
}

fn extinguisher_to_exit(reader: &mut Reader<'_>, extinguisher: PartId, _: CaseId) -> Outcome {
    exit_distance(reader, extinguisher, f::extinguisher::EXIT_DISTANCE)
}
