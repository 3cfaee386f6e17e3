//! What the floor carries: how heavy a thing is on it, over which area, and whether a paper proves the floor.

use super::heavy::{filling, itself, thing};
use super::mass::own_mass;
use super::{fact_of, is_said, no_solution, show, space};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::{FLOOR_LOAD, PLAN_LIMITS};
use quantity::Dimension;
use vocabulary::{fact::floor_thing as t, kind};

/// Its mass, of a tank the full one.
fn standing_mass(reader: &mut Reader<'_>, floor: PartId, case: CaseId) -> Outcome {
    let thing = thing(reader, floor);
    let own = own_mass(reader, thing).0?.value();
    if reader.build().part(thing).kind != kind::TANK {
        return Ok(Fact::Number(own));
    }
    let held = filling(reader, thing, case)?;
    reader
        .step(|| Step::of(format!("{} and {} that fill it", show(own, Dimension::MASS), show(held, Dimension::MASS))));
    Ok(Fact::Number(own + held))
}

/// Whether it stands in a space that has a floor of the vehicle.
fn on_floor(reader: &mut Reader<'_>, floor: PartId, case: CaseId) -> Outcome {
    let thing = thing(reader, floor);
    let space = space::of(reader, thing, case)?;
    let word = space::word(reader, space, case)?;
    Ok(Fact::Flag(!space::airy(word)))
}

fn footprint(reader: &mut Reader<'_>, floor: PartId, case: CaseId) -> Outcome {
    let thing = thing(reader, floor);
    let Some(size) = fact_of(reader.build(), thing, "size") else { return no_solution(floor, t::FOOTPRINT) };
    match reader.fact(thing, size, case)? {
        Fact::Lengths([length, width, _]) => Ok(Fact::Number(length * width)),
        _ => no_solution(floor, t::FOOTPRINT),
    }
}

fn load_by_area(reader: &mut Reader<'_>, floor: PartId, case: CaseId) -> Outcome {
    let (mass, area) =
        super::battery::both(reader.need(floor, t::STANDING_MASS, case), reader.need(floor, t::FOOTPRINT, case))?;
    reader.step(|| Step::of(format!("{} ÷ {}", show(mass, Dimension::MASS), show(area, Dimension::AREA))));
    match calc::load_by_area(mass, area) {
        Some(load) => Ok(Fact::Number(load)),
        None => no_solution(floor, t::LOAD_BY_AREA),
    }
}

fn floor_proven(reader: &mut Reader<'_>, floor: PartId, _: CaseId) -> Outcome {
    let thing = thing(reader, floor);
    match fact_of(reader.build(), thing, "floor-proof") {
        Some(proof) => is_said(reader, thing, proof).map(Fact::Flag),
        None => no_solution(floor, t::FLOOR_PROVEN),
    }
}

/// Whether a thing loads a small part of the floor with more than a unit may without its plans being approved.
pub fn is_concentrated(reader: &mut Reader<'_>, floor: PartId, case: CaseId) -> Outcome<bool> {
    let mass = reader.need(floor, t::STANDING_MASS, case);
    if mass.as_ref().is_ok_and(|mass| *mass <= PLAN_LIMITS.load) || !reader.need_flag(floor, t::ON_FLOOR, case)? {
        return Ok(false);
    }
    let area = reader.need(floor, t::FOOTPRINT, case);
    if area.as_ref().is_ok_and(|area| *area > PLAN_LIMITS.load_area) {
        return Ok(false);
    }
    let (mass, area) = super::battery::both(mass, area)?;
    let title = reader.build().part(floor).title.clone();
    reader.step(|| {
        let text = format!("{title}: {} on {}", show(mass, Dimension::MASS), show(area, Dimension::AREA));
        Step::cited(text, &FLOOR_LOAD)
    });
    Ok(true)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (t::THING, Each(itself)),
        (t::STANDING_MASS, Each(standing_mass)),
        (t::ON_FLOOR, Each(on_floor)),
        (t::FOOTPRINT, Each(footprint)),
        (t::LOAD_BY_AREA, Each(load_by_area)),
        (t::FLOOR_PROVEN, Each(floor_proven)),
    ]
}
