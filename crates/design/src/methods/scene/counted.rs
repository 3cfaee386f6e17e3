//! Ways out as buses and units are asked for them: how many people, doors and hatches, how far apart, how high above the road, and
//! behind which locks.

use super::{every, filtered, length};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution};
use crate::part::Build;
use crate::reader::Reader;
use crate::scene;
use crate::working::Step;
use calc::space::{BUS_EXITS, exits_for_people};
use vocabulary::{fact as f, fact::build as b, fact::exit as e, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (b::DOORS, Each(doors)),
        (b::DOORS_APART, Each(doors_apart)),
        (b::EXITS_IN_WALLS, Each(exits_in_walls)),
        (b::HATCHES, Each(hatches)),
        (b::EXITS_FOR_PEOPLE, Each(exits_asked)),
        (b::PEOPLE_ABOARD, Each(people_aboard)),
        (b::OVERALL_LENGTH, Each(overall_length)),
        (e::IS_DOOR, Each(is_door)),
        (e::OF_COMMERCIAL_UNIT, Each(of_commercial_unit)),
        (e::ABOVE_ROAD, Each(above_road)),
        (e::IN_LOCKED_ROOM, Each(in_locked_room)),
        (f::berth::PASSES_EXIT, Each(passes_exit)),
        (f::berth::PASSED_AT, Each(passed_at)),
    ]
}

/// A way out is in the wall of the room that is this far inside of it, m. Chosen: beyond a lined wall.
const INSIDE: f64 = 0.30;

/// More people than this travel in no vehicle.
const MOST_PEOPLE: f64 = 1_000.0;

fn vehicle(reader: &Reader<'_>) -> Outcome<PartId> {
    let absent = || Gaps::one(Gap::Absent(Build::ROOT, kind::VEHICLE));
    reader.build().only(kind::VEHICLE).ok_or_else(absent)
}

fn is_door(reader: &mut Reader<'_>, exit: PartId, case: CaseId) -> Outcome {
    // What is in roof and floor is no door, whatever nobody says of it.
    if matches!(reader.need_word(exit, e::SIDE, case), Ok("roof" | "floor")) {
        return Ok(Fact::Flag(false));
    }
    Ok(Fact::Flag(matches!(reader.need_word(exit, e::KIND, case)?, "door" | "emergency-door")))
}

fn of_commercial_unit(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let vehicle = vehicle(reader)?;
    Ok(Fact::Flag(reader.need_word(vehicle, f::vehicle::CLASS, case)? == "commercial-unit"))
}

fn with_a_leaf(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<PartId>> {
    let exits = every(reader, &[kind::EXIT])?;
    filtered(exits, |exit| {
        Ok(reader.need_flag(exit, e::IS_DOOR, case)? && reader.need_word(exit, e::LEAF, case)? != "roll-up")
    })
}

fn doors(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(all(with_a_leaf(reader, case)?))
}

fn doors_apart(reader: &mut Reader<'_>, root: PartId, case: CaseId) -> Outcome {
    let doors = with_a_leaf(reader, case)?;
    let shapes = super::shapes(reader, &doors)?;
    let pairs = shapes
        .iter()
        .enumerate()
        .flat_map(|(index, (_, one))| shapes.iter().skip(index + 1).map(move |(_, other)| one.horizontal_gap(other)));
    match pairs.max_by(f64::total_cmp) {
        Some(apart) => Ok(Fact::Number(apart)),
        None => no_solution(root, b::DOORS_APART),
    }
}

fn count(parts: &[PartId]) -> Fact {
    Fact::Number(f64::from(u32::try_from(parts.len()).unwrap_or(u32::MAX)))
}

/// The ways out in roof and floor, or those in the walls.
fn exits(reader: &mut Reader<'_>, in_walls: bool, case: CaseId) -> Outcome<Vec<PartId>> {
    let exits = every(reader, &[kind::EXIT])?;
    filtered(exits, |exit| Ok(matches!(reader.need_word(exit, e::SIDE, case)?, "roof" | "floor") != in_walls))
}

fn exits_in_walls(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(count(&exits(reader, true, case)?))
}

fn hatches(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(count(&exits(reader, false, case)?))
}

fn people(reader: &mut Reader<'_>, case: CaseId) -> Outcome<f64> {
    let vehicle = vehicle(reader)?;
    reader.need(vehicle, f::vehicle::TRAVELLERS, case)
}

fn people_aboard(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(people(reader, case)?))
}

fn exits_asked(reader: &mut Reader<'_>, root: PartId, case: CaseId) -> Outcome {
    let people = people(reader, case)?;
    if !(0.0..=MOST_PEOPLE).contains(&people) {
        return no_solution(root, b::EXITS_FOR_PEOPLE);
    }
    let asked = exits_for_people(people.ceil() as u32);
    reader.step(|| Step::cited(format!("{people} people: {asked} exits"), &BUS_EXITS));
    Ok(Fact::Number(f64::from(asked)))
}

fn overall_length(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let vehicle = vehicle(reader)?;
    Ok(Fact::Number(reader.need(vehicle, f::vehicle::LENGTH, case)?))
}

fn above_road(reader: &mut Reader<'_>, exit: PartId, case: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let vehicle = vehicle(reader)?;
    let (floor, opening) = both(reader.need(vehicle, f::vehicle::FLOOR_HEIGHT, case), scene.opening(build, exit))?;
    reader.step(|| Step::of(format!("the floor is {} above the road", length(floor))));
    Ok(Fact::Number(floor + opening.sill()))
}

fn in_locked_room(reader: &mut Reader<'_>, exit: PartId, case: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let zones = every(reader, &[kind::ZONE])?;
    let locked = filtered(zones, |zone| {
        Ok(!reader.silent(zone, f::zone::INSIDE) && reader.need_flag(zone, f::zone::LOCKS, case)?)
    })?;
    if locked.is_empty() {
        return Ok(Fact::Flag(false));
    }
    let (opening, rooms) = both(scene.opening(build, exit), super::shapes(reader, &locked))?;
    let broken = || Gaps::one(Gap::NoSolution(exit, e::IN_LOCKED_ROOM));
    let before = opening.space_inside(INSIDE).map_err(|_| broken())?.centre();
    let room = rooms.into_iter().find(|(_, room)| scene::holds(room, before));
    if let Some((room, _)) = room {
        reader.step(|| Step::of(format!("it is in the wall of {}", build.part(room).title)));
    }
    Ok(Fact::Flag(room.is_some()))
}

/// The exit that is passed on the way to every other one, with the distance of the berth from its plane, m.
fn passed(reader: &mut Reader<'_>, berth: PartId) -> Outcome<Option<(PartId, f64)>> {
    let exits = every(reader, &[kind::EXIT])?;
    let own = reader.scene().solid(reader.build(), berth);
    let (own, openings) = both(own, super::openings(reader, &exits))?;
    let planes: Vec<(PartId, f64)> = openings.into_iter().map(|(exit, bounds)| (exit, bounds.centre()[0])).collect();
    let (front, rear) = (own.least()[0], own.most()[0]);
    // How far a plane is behind the berth, or (negative) before it; nothing where it crosses the berth.
    let behind = |plane: f64| if plane > rear { plane - rear } else { (plane - front).min(0.0) };
    let passed = planes.iter().find(|(exit, plane)| {
        let own = behind(*plane);
        let mut others = planes.iter().filter(|(other, _)| other != exit).peekable();
        own != 0.0
            && others.peek().is_some()
            && others.all(|(_, other)| {
                let other = behind(*other);
                other.signum() == own.signum() && other.abs() > own.abs()
            })
    });
    Ok(passed.map(|(exit, plane)| (*exit, behind(*plane).abs())))
}

fn passes_exit(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    Ok(all(passed(reader, berth)?.map(|(exit, _)| exit)))
}

fn passed_at(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    match passed(reader, berth)? {
        Some((_, distance)) => Ok(Fact::Number(distance)),
        None => no_solution(berth, f::berth::PASSED_AT),
    }
}
