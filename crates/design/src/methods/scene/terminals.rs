//! Ends of exhausts and intakes: against openings, against each other, and against the edge of the vehicle.

use super::{every, filtered, length, nearest, shapes};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution};
use crate::reader::Reader;
use crate::working::Step;
use calc::space::{Cuboid, Reach, is_above, same_side};
use vocabulary::{fact as f, fact::exhaust as x, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (x::BURNS, Each(burns)),
        (x::OPENINGS, Each(openings)),
        (x::OPENING_DISTANCE, Each(opening_distance)),
        (x::OPENING_ABOVE, Each(opening_above)),
        (x::INSIDE_EDGE, Each(inside_edge)),
        (x::INTAKES, Each(intakes)),
        (x::INTAKE_DISTANCE, Each(intake_distance)),
        (x::INTAKE_ON_ITS_SIDE, Each(intake_on_its_side)),
        (x::PETROL_TANKS, Each(petrol_tanks)),
        (x::PETROL_DISTANCE, Each(petrol_distance)),
    ]
}

/// How far above a mouth an opening counts, m: chosen in the fact book of this trade, where no text gives one.
pub(super) const ABOVE: f64 = 1.5;

/// How far a mouth may stand out from, or back under, the wall below an opening and still be straight below it, m. Chosen.
pub(super) const ASIDE: f64 = 0.15;

/// The fuel of what the exhaust belongs to.
fn burns(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let Some(owner) = build.part(exhaust).outer else { return no_solution(exhaust, x::BURNS) };
    let fact = if build.part(owner).kind == kind::HEATER { f::heater::FUEL } else { f::generator::FUEL };
    let fuel = reader.need_word(owner, fact, case)?;
    let words = vocabulary::fact_spec(x::BURNS).choices();
    match words.iter().position(|word| *word == fuel).and_then(|place| u16::try_from(place).ok()) {
        Some(place) => Ok(Fact::Choice(place)),
        None => no_solution(exhaust, x::BURNS),
    }
}

fn mouth(reader: &mut Reader<'_>, part: PartId) -> Outcome<Cuboid> {
    reader.scene().shape(part)
}

/// The openings with their holes and the skin.
fn around(reader: &mut Reader<'_>) -> Outcome<(calc::space::Skin, Vec<(PartId, crate::scene::Hole)>)> {
    let (build, scene) = (reader.build(), reader.scene());
    let skin = scene.skin(build)?.with_underside();
    let holes = scene.holes(build, &skin)?;
    Ok((skin, holes))
}

fn openings(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(all(around(reader)?.1.into_iter().map(|(part, _)| part)))
}

fn opening_distance(reader: &mut Reader<'_>, exhaust: PartId, _: CaseId) -> Outcome {
    let (mouth, (skin, holes)) = both(mouth(reader, exhaust), around(reader))?;
    let build = reader.build();
    let least = holes
        .iter()
        .filter_map(|(part, hole)| Some((hole.distance(&skin, mouth.centre())?, *part)))
        .min_by(|one, other| one.0.total_cmp(&other.0));
    let Some((distance, part)) = least else { return no_solution(exhaust, x::OPENING_DISTANCE) };
    reader.step(|| Step::of(format!("nearest: {}, {} along the skin", build.part(part).title, length(distance))));
    Ok(Fact::Number(distance))
}

fn opening_above(reader: &mut Reader<'_>, exhaust: PartId, _: CaseId) -> Outcome {
    let (mouth, (_, holes)) = both(mouth(reader, exhaust), around(reader))?;
    let build = reader.build();
    let over = holes.iter().find(|(_, hole)| {
        let bounds = hole.bounds();
        is_above(&bounds, &mouth, Reach::Horizontal(ASIDE)) && bounds.vertical_gap(&mouth) <= ABOVE
    });
    if let Some((part, _)) = over {
        reader.step(|| Step::of(format!("{} is straight above it", build.part(*part).title)));
    }
    Ok(Fact::Flag(over.is_some()))
}

/// How far inside the edge of the vehicle a mouth below the floor is, m; 0 where it is not below the floor or sticks out.
fn under(reader: &mut Reader<'_>, exhaust: PartId) -> Outcome<f64> {
    let (build, scene) = (reader.build(), reader.scene());
    let (mouth, skin) = both(mouth(reader, exhaust), scene.skin(build))?;
    let body = skin.body();
    let (least, most, at) = (body.least(), body.most(), mouth.centre());
    if at[2] >= least[2] {
        return Ok(0.0);
    }
    Ok([at[0] - least[0], most[0] - at[0], at[1] - least[1], most[1] - at[1]]
        .into_iter()
        .fold(f64::INFINITY, f64::min)
        .max(0.0))
}

fn inside_edge(reader: &mut Reader<'_>, exhaust: PartId, _: CaseId) -> Outcome {
    let inside = under(reader, exhaust)?;
    reader.step(|| Step::of(format!("{} inside the edge of the vehicle, below its floor", length(inside))));
    Ok(Fact::Number(inside))
}

/// The intakes of the same heater.
fn own_intakes(reader: &Reader<'_>, exhaust: PartId) -> Outcome<Vec<PartId>> {
    let build = reader.build();
    let Some(owner) = build.part(exhaust).outer else { return Ok(Vec::new()) };
    let intakes = build.inside(owner, kind::INTAKE);
    if intakes.complete { Ok(intakes.members.to_vec()) } else { Err(Gaps::one(Gap::Unread(owner))) }
}

fn intakes(reader: &mut Reader<'_>, exhaust: PartId, _: CaseId) -> Outcome {
    Ok(all(own_intakes(reader, exhaust)?))
}

fn intake_distance(reader: &mut Reader<'_>, exhaust: PartId, _: CaseId) -> Outcome {
    let own = own_intakes(reader, exhaust)?;
    let (mouth, intakes) = both(mouth(reader, exhaust), shapes(reader, &own))?;
    match nearest(&intakes, |intake| intake.distance(&mouth)) {
        Some((distance, _)) => Ok(Fact::Number(distance)),
        None => no_solution(exhaust, x::INTAKE_DISTANCE),
    }
}

fn intake_on_its_side(reader: &mut Reader<'_>, exhaust: PartId, _: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let own = own_intakes(reader, exhaust)?;
    let placed = both(mouth(reader, exhaust), shapes(reader, &own));
    let (skin, (mouth, intakes)) = both(scene.skin(build), placed)?;
    // What hangs below the floor is at the wall that it is nearest to.
    let middle = skin.body().centre()[2];
    let raised = |thing: &Cuboid| {
        let [x, y, z] = thing.centre();
        let z = if z < skin.body().least()[2] { middle } else { z };
        Cuboid::point([x, y, z]).unwrap_or(*thing)
    };
    let mouth = raised(&mouth);
    Ok(Fact::Flag(intakes.iter().all(|(_, intake)| same_side(&skin, &mouth, &raised(intake)).is_some())))
}

/// The tanks for petrol.
fn petrol(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<PartId>> {
    let tanks = every(reader, &[kind::TANK])?;
    filtered(tanks, |tank| Ok(reader.need_word(tank, f::tank::HOLDS, case)? == "petrol"))
}

fn petrol_tanks(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(all(petrol(reader, case)?))
}

fn petrol_distance(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    let tanks = petrol(reader, case)?;
    let (mouth, tanks) = both(mouth(reader, exhaust), shapes(reader, &tanks))?;
    match nearest(&tanks, |tank| tank.distance(&mouth)) {
        Some((distance, _)) => Ok(Fact::Number(distance)),
        None => no_solution(exhaust, x::PETROL_DISTANCE),
    }
}
