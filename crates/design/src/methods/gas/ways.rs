//! Where the pieces of gas lines lie, and what stands before and behind each besides hand valves and regulators.

use super::super::{listed_inside, no_solution, parts, space};
use super::{appliances, line};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use vocabulary::{FactId, PartKind, fact as f, kind};

fn has_union(reader: &mut Reader<'_>, feeds: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    line::whole(build, feeds)?;
    Ok(Fact::Flag(line::before(build, feeds).into_iter().any(|own| build.part(own).kind == kind::UNION)))
}

/// Whether a hand valve stands before the nearest union of what a line feeds.
fn valve_before_union(reader: &mut Reader<'_>, feeds: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    line::whole(build, feeds)?;
    let before = line::before(build, feeds);
    match before.iter().position(|own| build.part(*own).kind == kind::UNION) {
        Some(union) => Ok(Fact::Flag(before.iter().skip(union).any(|own| build.part(*own).kind == kind::VALVE))),
        None => no_solution(feeds, f::feeds::VALVE_BEFORE_UNION),
    }
}

/// Whether a hose, or a pipe that begins with a loop, stands straight behind a regulator.
fn flexible_behind(reader: &mut Reader<'_>, regulator: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    line::whole(build, regulator)?;
    let Some(mut outer) = build.part(regulator).outer else {
        return no_solution(regulator, f::regulator::FLEXIBLE_BEHIND);
    };
    let mut next = build.part(outer).inside.iter().position(|own| *own == regulator).map_or(0, |place| place + 1);
    // A branch right behind it begins with its own first piece.
    while let Some(&piece) = build.part(outer).inside.get(next) {
        match build.part(piece).kind {
            kind::HOSE => return Ok(Fact::Flag(true)),
            kind::PIPE => return Ok(Fact::Flag(reader.need_flag(piece, f::pipe::LOOP, case)?)),
            kind::BRANCH => (outer, next) = (piece, 0),
            _ => next += 1,
        }
    }
    Ok(Fact::Flag(false))
}

/// Whether no hose and no pipe stands between a hose and the cylinder that its line starts from.
fn at_cylinder(reader: &mut Reader<'_>, hose: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    line::whole(build, hose)?;
    let Some(own) = line::of_piece(build, hose) else { return no_solution(hose, f::hose::AT_CYLINDER) };
    if line::before(build, hose).iter().any(|piece| matches!(build.part(*piece).kind, kind::HOSE | kind::PIPE)) {
        return Ok(Fact::Flag(false));
    }
    Ok(Fact::Flag(reader.need_flag(own, f::gas_line::FROM_CYLINDER, case)?))
}

fn of_gas(reader: &mut Reader<'_>, branch: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(line::of_piece(reader.build(), branch).is_some()))
}

/// Whether a piece lies in a space of a kind; unknown where nothing is said of its space.
fn lies_in(reader: &mut Reader<'_>, piece: PartId, zone: FactId, word: &str, case: CaseId) -> Outcome {
    let space = space::named(reader, piece, zone, case)?;
    Ok(Fact::Flag(space::word(reader, space, case)? == word))
}

fn in_battery_space(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    lies_in(reader, pipe, f::pipe::ZONE, "battery", case)
}

fn solenoid_in_gas_locker(reader: &mut Reader<'_>, solenoid: PartId, case: CaseId) -> Outcome {
    lies_in(reader, solenoid, f::solenoid::ZONE, "gas", case)
}

/// Whether a heater that the line feeds is used while driving.
fn used_on_the_road(reader: &mut Reader<'_>, own: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let mut gaps = line::unread(build, own);
    for feeds in line::fed(build, own) {
        let Some(heater) = appliances::named(build, feeds).filter(|one| build.part(*one).kind == kind::HEATER) else {
            continue;
        };
        match reader.need_flag(heater, f::heater::WHILE_DRIVING, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn solenoids(reader: &mut Reader<'_>, own: PartId, _: CaseId) -> Outcome {
    let (found, complete) = listed_inside(reader, own, kind::SOLENOID);
    Ok(parts(found, complete))
}

/// The pieces of gas lines that may leak.
const FITTINGS: [PartKind; 6] = [kind::REGULATOR, kind::HOSE, kind::PIPE, kind::VALVE, kind::UNION, kind::SOLENOID];

/// The pieces of gas lines that lie in a zone. Of a piece of which nobody says where it lies nothing is asked here.
fn gas_fittings(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let mut found = Vec::new();
    let mut complete = super::super::complete(reader, &FITTINGS);
    for kind in FITTINGS {
        let Some(fact) = vocabulary::part(kind).fact("zone").map(|spec| spec.id) else { continue };
        for &piece in build.of_kind(kind).members.iter() {
            if line::of_piece(build, piece).is_none() || reader.silent(piece, fact) {
                continue;
            }
            match space::named(reader, piece, fact, case) {
                Ok(own) if own == space::Space::Zone(zone) => found.push(piece),
                Ok(_) => {}
                Err(_) => complete = false,
            }
        }
    }
    found.sort_unstable();
    Ok(parts(found, complete))
}

/// The least clearance of the vehicle above the road.
fn road_clearance(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    match reader.build().only(kind::VEHICLE) {
        Some(vehicle) => Ok(Fact::Number(reader.need(vehicle, f::vehicle::ROAD_CLEARANCE, case)?)),
        None => Err(Gaps::one(Gap::Absent(crate::part::Build::ROOT, kind::VEHICLE))),
    }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::feeds::HAS_UNION, Each(has_union)),
        (f::feeds::VALVE_BEFORE_UNION, Each(valve_before_union)),
        (f::regulator::FLEXIBLE_BEHIND, Each(flexible_behind)),
        (f::hose::AT_CYLINDER, Each(at_cylinder)),
        (f::branch::OF_GAS, Each(of_gas)),
        (f::pipe::IN_BATTERY_SPACE, Each(in_battery_space)),
        (f::solenoid::IN_GAS_LOCKER, Each(solenoid_in_gas_locker)),
        (f::gas_line::USED_ON_THE_ROAD, Each(used_on_the_road)),
        (f::gas_line::SOLENOIDS, Each(solenoids)),
        (f::zone::GAS_FITTINGS, Each(gas_fittings)),
        (f::tank::ROAD_CLEARANCE, Each(road_clearance)),
    ]
}
