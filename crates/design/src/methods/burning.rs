//! Heaters and cookers: whether they burn, and where their air comes from and their gas goes.

use super::{all, brief, no_solution, parts};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use vocabulary::{FactId, PartKind, fact as f, fact::heater as h, kind};

fn burns(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(super::gas::appliances::fuel(reader, part, case)? != "none"))
}

fn warms_space(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(reader.need_word(heater, h::KIND, case)? != "tank-pad"))
}

fn warmed_by_water(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    let gives_off = matches!(reader.need_word(heater, h::KIND, case)?, "radiator" | "floor");
    if !gives_off || super::gas::appliances::fuel(reader, heater, case)? != "none" {
        return Ok(Fact::Flag(false));
    }
    let electric = super::is_said(reader, heater, h::POWER)? || super::is_said(reader, heater, h::CURRENT)?;
    Ok(Fact::Flag(!electric))
}

fn of_kind_inside(reader: &mut Reader<'_>, part: PartId, kind: PartKind) -> Outcome {
    let found = reader.build().inside(part, kind);
    Ok(parts(found.members.iter().copied(), found.complete))
}

fn exhausts(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    of_kind_inside(reader, part, kind::EXHAUST)
}

fn intakes(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    of_kind_inside(reader, part, kind::INTAKE)
}

fn fuel_lines(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    of_kind_inside(reader, part, kind::FUEL_LINE)
}

fn hoods(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    of_kind_inside(reader, part, kind::HOOD)
}

fn altitude_asked(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    brief::says(reader, f::brief::ALTITUDE)
}

fn altitude(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let brief = brief::due(reader)?;
    Ok(Fact::Number(reader.need(brief, f::brief::ALTITUDE, case)?))
}

/// The zones that have an inside.
const CLOSED: [&str; 6] = ["living", "cab", "battery", "gas", "garage", "locker"];

/// Where a mouth is by its position: inside a zone, straight below the floor of a space for people, or outside.
fn by_position(
    reader: &mut Reader<'_>,
    part: PartId,
    said: FactId,
    at: [f64; 3],
    case: CaseId,
) -> Outcome<&'static str> {
    let zones = reader.build().of_kind(kind::ZONE);
    if !zones.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    let mut under_floor = false;
    let mut unplaced = Gaps::default();
    for &zone in zones.members.iter() {
        let word = reader.need_word(zone, f::zone::KIND, case)?;
        let place = (reader.fact(zone, f::zone::FROM, case), reader.fact(zone, f::zone::SIZE, case));
        let (Ok(Fact::Lengths(corner)), Ok(Fact::Lengths(extent))) = place else {
            // A closed space without a place may hold the mouth; one inside another is asked for by that.
            if CLOSED.contains(&word) && reader.silent(zone, f::zone::INSIDE) {
                unplaced.add(&crate::reader::either((part, said), (zone, f::zone::FROM)));
            }
            continue;
        };
        let along = |axis: usize| at[axis] > corner[axis] && at[axis] < corner[axis] + extent[axis];
        if CLOSED.contains(&word) && along(0) && along(1) && along(2) {
            return Ok("inside");
        }
        under_floor |= matches!(word, "living" | "cab") && along(0) && along(1) && at[2] <= corner[2];
    }
    if !unplaced.is_empty() {
        return Err(unplaced);
    }
    Ok(if under_floor { "under-floor" } else { "outside" })
}

/// Where a mouth is: as said, else by its position.
fn mouth(reader: &mut Reader<'_>, part: PartId, [said, at, answer]: [FactId; 3], case: CaseId) -> Outcome {
    let word = if !reader.silent(part, said) {
        reader.need_word(part, said, case)?
    } else if !reader.silent(part, at) {
        match reader.fact(part, at, case)? {
            Fact::Lengths(point) => by_position(reader, part, said, point, case)?,
            _ => return no_solution(part, answer),
        }
    } else {
        return Err(crate::reader::either((part, said), (part, at)));
    };
    let words = vocabulary::fact_spec(answer).choices();
    match words.iter().position(|known| *known == word).and_then(|index| u16::try_from(index).ok()) {
        Some(index) => Ok(Fact::Choice(index)),
        None => no_solution(part, answer),
    }
}

fn exhaust_mouth(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    mouth(reader, part, [f::exhaust::ENDS, f::exhaust::AT, f::exhaust::MOUTH], case)
}

fn intake_mouth(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    mouth(reader, part, [f::intake::DRAWS, f::intake::AT, f::intake::MOUTH], case)
}

/// Whether what it belongs to burns gas.
fn of_gas(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    match reader.build().part(exhaust).outer {
        Some(owner) => Ok(Fact::Flag(super::gas::appliances::fuel(reader, owner, case)? == "gas")),
        None => no_solution(exhaust, f::exhaust::OF_GAS),
    }
}

/// Whether anything aboard cooks with a flame.
fn cooking_flame(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let cookers = reader.build().of_kind(kind::COOKER);
    let mut gaps = Gaps::default();
    for &cooker in cookers.members.iter() {
        match reader.need_flag(cooker, f::cooker::BURNS, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !cookers.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn listed(reader: &mut Reader<'_>, kind: PartKind) -> Outcome {
    let list = reader.build().of_kind(kind);
    Ok(if list.complete { all(list.members.iter().copied()) } else { parts(list.members.iter().copied(), false) })
}

fn extinguishers(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    listed(reader, kind::EXTINGUISHER)
}

fn fire_blankets(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    listed(reader, kind::FIRE_BLANKET)
}

/// Whether there is an electrical system: a battery, a circuit or a connection to the mains of a site.
fn electrics(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let kinds = [kind::BATTERY, kind::CIRCUIT, kind::SHORE];
    if kinds.iter().any(|kind| !reader.build().of_kind(*kind).members.is_empty()) {
        return Ok(Fact::Flag(true));
    }
    if super::complete(reader, &kinds) {
        Ok(Fact::Flag(false))
    } else {
        Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))))
    }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (h::BURNS, Each(burns)),
        (f::cooker::BURNS, Each(burns)),
        (h::WARMS_SPACE, Each(warms_space)),
        (h::WARMED_BY_WATER, Each(warmed_by_water)),
        (h::IN_LIVING_SPACE, Each(super::ventilation::in_living_space)),
        (h::EXHAUSTS, Each(exhausts)),
        (f::generator::EXHAUSTS, Each(exhausts)),
        (h::INTAKES, Each(intakes)),
        (h::FUEL_LINES, Each(fuel_lines)),
        (f::cooker::HOODS, Each(hoods)),
        (h::ALTITUDE_ASKED, Each(altitude_asked)),
        (h::ALTITUDE, Each(altitude)),
        (f::exhaust::MOUTH, Each(exhaust_mouth)),
        (f::intake::MOUTH, Each(intake_mouth)),
        (f::exhaust::OF_GAS, Each(of_gas)),
        (f::build::COOKING_FLAME, Each(cooking_flame)),
        (f::build::EXTINGUISHERS, Each(extinguishers)),
        (f::build::FIRE_BLANKETS, Each(fire_blankets)),
        (f::build::ELECTRICS, Each(electrics)),
    ]
}
