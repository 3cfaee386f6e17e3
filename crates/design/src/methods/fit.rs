//! Whether people fit, and what a motor caravan must have.

use super::{is_any, no_solution, one_holds};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use vocabulary::{FactId, fact as f, fact::build as b, kind};

/// The height of the highest living space, m; a washroom does not count.
fn headroom(reader: &mut Reader<'_>, brief: PartId, case: CaseId) -> Outcome {
    let zones = reader.build().of_kind(kind::ZONE).clone();
    let mut highest: Option<f64> = None;
    let mut settles = Vec::new();
    for &zone in zones.members.iter() {
        if reader.need_word(zone, f::zone::KIND, case)? != "living" || reader.need_flag(zone, f::zone::WET, case)? {
            continue;
        }
        match reader.fact(zone, f::zone::SIZE, case) {
            Ok(Fact::Lengths(size)) => highest = Some(highest.map_or(size[2], |most| most.max(size[2]))),
            _ => settles.push(Gap::Entry(zone, f::zone::SIZE)),
        }
    }
    match highest {
        Some(highest) if zones.complete && settles.is_empty() => Ok(Fact::Number(highest)),
        Some(_) if settles.is_empty() => Err(Gaps::one(Gap::Unread(reader.unread_part(brief)))),
        _ if settles.is_empty() => Err(Gaps::one(Gap::Absent(Build::ROOT, kind::ZONE))),
        _ => Err(Gaps(settles.into_iter().map(|settles| AnyOf(vec![settles])).collect())),
    }
}

/// The longer side of a berth, m.
fn lying_length(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    match reader.fact(berth, f::berth::SIZE, case)? {
        Fact::Lengths(size) => Ok(Fact::Number(size[0].max(size[1]))),
        _ => no_solution(berth, f::berth::LYING_LENGTH),
    }
}

/// The height of the person that a berth is for, m.
fn person_height(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    if !reader.silent(berth, f::berth::PERSON) {
        return reader.fact(berth, f::berth::PERSON, case);
    }
    match reader.build().only(kind::BRIEF) {
        Some(brief) => reader.fact(brief, f::brief::TALLEST, case),
        None => Err(Gaps::one(Gap::Entry(berth, f::berth::PERSON))),
    }
}

/// Whether any furniture is said to be for this; what would tell otherwise.
fn furniture_for(reader: &mut Reader<'_>, word: &str, case: CaseId) -> Outcome<bool> {
    let furniture = reader.build().of_kind(kind::FURNISHING).clone();
    let mut gaps = Gaps::default();
    for &piece in furniture.members.iter() {
        match super::has_word(reader, piece, f::furnishing::USE, word, case) {
            Ok(true) => return Ok(true),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !furniture.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    if gaps.is_empty() { Ok(false) } else { Err(Gaps(vec![AnyOf(gaps.0.into_iter().flat_map(|any| any.0).collect())])) }
}

fn has_sleeping(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let sleeps = one_holds([is_any(reader, kind::BERTH), furniture_for(reader, "sleeping", case)])?;
    Ok(Fact::Flag(sleeps))
}

fn has_cooking(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let appliances = reader.build().of_kind(kind::APPLIANCE).clone();
    let mut ways: Vec<Outcome<bool>> =
        appliances.members.iter().map(|one| reader.need_flag(*one, f::appliance::COOKS, case)).collect();
    if !appliances.complete {
        ways.push(Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))));
    }
    ways.extend([is_any(reader, kind::COOKER), furniture_for(reader, "cooking", case)]);
    Ok(Fact::Flag(one_holds(ways)?))
}

fn is_motor_caravan(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    match reader.build().only(kind::VEHICLE) {
        Some(vehicle) => Ok(Fact::Flag(reader.need_word(vehicle, f::vehicle::CLASS, case)? == "motor-caravan")),
        None => Err(Gaps::one(Gap::Absent(Build::ROOT, kind::VEHICLE))),
    }
}

/// How many of the four kinds of equipment of a motor caravan are described.
fn living_equipment(reader: &mut Reader<'_>, build: PartId, case: CaseId) -> Outcome {
    let kinds = [b::HAS_SEATS_AND_TABLE, b::HAS_SLEEPING, b::HAS_COOKING, b::HAS_STORAGE];
    let counts: Vec<Outcome<f64>> =
        kinds.into_iter().map(|kind| reader.need_flag(build, kind, case).map(|has| f64::from(u8::from(has)))).collect();
    Ok(Fact::Number(super::sum(counts)?))
}

fn has_storage(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(furniture_for(reader, "storage", case)?))
}

fn has_seats_and_table(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let table = furniture_for(reader, "table", case);
    let seats = one_holds([is_any(reader, kind::SEAT), furniture_for(reader, "seats", case)]);
    match (table, seats) {
        (Ok(false), _) | (_, Ok(false)) => Ok(Fact::Flag(false)),
        (table, seats) => {
            super::battery::both(table, seats)?;
            Ok(Fact::Flag(true))
        }
    }
}

/// Whether people are described: yes as soon as one line of them is read.
fn people_described(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(is_any(reader, kind::PERSONS)?))
}

fn people(reader: &mut Reader<'_>, brief: PartId, case: CaseId) -> Outcome {
    let described = reader.build().of_kind(kind::PERSONS).clone();
    if !described.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(brief))));
    }
    let counts: Vec<_> =
        described.members.iter().map(|persons| reader.need(*persons, f::persons::COUNT, case)).collect();
    Ok(Fact::Number(super::sum(counts)?))
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    let own: [(FactId, crate::binding::Method); 11] = [
        (f::brief::HEADROOM, Each(headroom)),
        (f::brief::PEOPLE_DESCRIBED, Each(people_described)),
        (f::brief::PEOPLE, Each(people)),
        (f::berth::LYING_LENGTH, Each(lying_length)),
        (f::berth::PERSON_HEIGHT, Each(person_height)),
        (b::VEHICLE_IS_MOTOR_CARAVAN, Each(is_motor_caravan)),
        (b::LIVING_EQUIPMENT, Each(living_equipment)),
        (b::HAS_SLEEPING, Each(has_sleeping)),
        (b::HAS_COOKING, Each(has_cooking)),
        (b::HAS_STORAGE, Each(has_storage)),
        (b::HAS_SEATS_AND_TABLE, Each(has_seats_and_table)),
    ];
    own.to_vec()
}
