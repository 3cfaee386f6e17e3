//! The ways on foot from a berth or seat to every exit, past the furniture, and what they pass that burns.

use super::exits::free_exits;
use super::{filtered, length, shapes, solids};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution};
use crate::reader::Reader;
use crate::working::Step;
use calc::space::way::{Exit, Floor, Person, Place, Ways};
use calc::space::{Cuboid, SpaceError};
use vocabulary::{FactId, fact as f, kind};

/// The height up to which a way is clear, m. Chosen: of a person who bends.
const PERSON: f64 = 1.2;

/// What one steps over or onto, m. Chosen: two steps of a stair.
const STEP: f64 = 0.3;

/// Clear height above a berth or seat to get off it, m. Chosen.
const OVER_BERTH: f64 = 0.4;

/// An exit whose lower edge is higher above the floor than a step is reached from this distance, m. Chosen: an arm's length.
const ARM: f64 = 0.6;

/// The side of a cell, m; in builds with many places and exits the coarser one. Chosen, for the time that a search takes.
const CELL: f64 = 0.05;
const COARSE_CELL: f64 = 0.08;
const MANY_WAYS: usize = 12;

/// A way that keeps away from fire need be no wider than this, m: NFPA 1192 6.2.3.1 (second-hand), the least way to an exit.
const NARROWEST: f64 = 0.330;

/// To what distances from fire are rounded, m, and by how many of it binary numbers may be off.
const MILLIMETRE: f64 = 0.001;
const ROUNDING: f64 = 1e-6;

/// Rooms whose floors differ by no more than this are one floor, m. Chosen: a step.
const ONE_FLOOR: f64 = STEP;

/// One exit that is reached.
#[derive(Clone, Copy, Debug)]
pub struct WayOut {
    /// The exit.
    pub exit: PartId,
    /// Clear width of the widest way to it, m.
    pub width: f64,
    /// How far a way to it can keep from what burns, m; infinite where it meets nothing of that.
    pub from_fire: Option<f64>,
}

/// The ways out of one place, the widest first.
#[derive(Debug)]
pub struct WaysOut {
    /// The exits that are reached; what would settle them.
    pub reached: Outcome<Vec<WayOut>>,
    /// What would settle where fire can break out.
    pub fire: Gaps,
}

impl WaysOut {
    /// The ways out of a berth or seat.
    pub fn of(reader: &mut Reader<'_>, from: PartId, case: CaseId) -> Self {
        let (fires, fire) = match fires(reader, case) {
            Ok(fires) => (Some(fires), Gaps::default()),
            Err(gaps) => (None, gaps),
        };
        Self { reached: reached(reader, from, fires.as_deref(), case), fire }
    }
}

/// What cooks or burns fuel in the space in which people are.
fn fires(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<Cuboid>> {
    let (build, scene) = (reader.build(), reader.scene());
    let all = super::every(reader, &[kind::COOKER, kind::HEATER])?;
    let burning = filtered(all, |part| {
        if build.part(part).kind == kind::HEATER && reader.need_word(part, f::heater::FUEL, case)? == "none" {
            return Ok(false);
        }
        // What is said to stand outside, or in a space of its own, is not met on the way.
        match scene.zone(build, part) {
            Ok(Some(zone)) => Ok(matches!(reader.need_word(zone, f::zone::KIND, case)?, "living" | "cab")),
            Ok(None) => Ok(scene.stand(part).is_none_or(|stand| stand.shape.is_none())),
            Err(gaps) => Err(gaps),
        }
    })?;
    Ok(shapes(reader, &burning)?.into_iter().map(|(_, shape)| shape).collect())
}

/// The rooms that one walks through at one level.
fn floor(reader: &mut Reader<'_>) -> Outcome<(Floor, f64)> {
    let interior = reader.scene().interior(reader.build())?;
    let level = interior.around.least()[2];
    let plans: Vec<_> = interior
        .rooms
        .iter()
        .filter(|(_, room)| room.least()[2] <= level + ONE_FLOOR)
        .map(|(_, room)| room.plan())
        .collect();
    let broken = || {
        Gaps::one(Gap::NoSolution(
            interior.rooms.first().map_or(crate::part::Build::ROOT, |room| room.0),
            f::zone::SIZE,
        ))
    };
    Floor::new(&plans, level).map(|floor| (floor, level)).map_err(|_| broken())
}

/// The spaces that are closed off within the rooms: lockers and washrooms.
fn closed(reader: &mut Reader<'_>, from: &Cuboid, case: CaseId) -> Outcome<Vec<Cuboid>> {
    let (build, scene) = (reader.build(), reader.scene());
    let rooms = scene.interior(build)?;
    if !scene.doubt().is_empty() {
        return Err(scene.doubt().clone());
    }
    let mut closed = Vec::new();
    for (zone, shape) in scene.zones() {
        if rooms.rooms.iter().any(|(room, _)| room == zone) || shape.contains(from, 0.0) {
            continue;
        }
        match reader.need_word(*zone, f::zone::KIND, case)? {
            "outside" | "engine" => {}
            "living" if !reader.need_flag(*zone, f::zone::WET, case)? => {}
            _ => closed.push(*shape),
        }
    }
    Ok(closed)
}

/// Whole millimetres, on the short side: a grid knows no more. What is infinite stays so.
fn whole(metres: f64) -> f64 {
    (metres / MILLIMETRE + ROUNDING).floor() * MILLIMETRE
}

fn reached(reader: &mut Reader<'_>, from: PartId, fires: Option<&[Cuboid]>, case: CaseId) -> Outcome<Vec<WayOut>> {
    let (build, scene) = (reader.build(), reader.scene());
    let own = both(scene.solid(build, from), both(floor(reader), free_exits(reader, case)));
    let solids = solids(reader);
    let (own, ((floor, level), exits)) = match own {
        Ok(own) if solids.gaps.is_empty() => own,
        Ok(_) => return Err(solids.gaps),
        Err(mut gaps) => {
            gaps.add(&solids.gaps);
            return Err(gaps);
        }
    };
    // The own berth hides no exit: one reaches out from on top of it.
    let mut furniture: Vec<Cuboid> =
        solids.boxes.into_iter().filter(|(part, _)| *part != from).map(|(_, shape)| shape).collect();
    furniture.extend(closed(reader, &own, case)?);
    let broken = |fact: FactId| Gaps::one(Gap::NoSolution(from, fact));
    let fact =
        vocabulary::part(build.part(from).kind).fact("exits-reached").map_or(f::berth::EXITS_REACHED, |spec| spec.id);
    let (Ok(place), Ok(person)) = (Place::new(own, OVER_BERTH), Person::new(PERSON, STEP)) else {
        return Err(broken(fact));
    };
    let places = build.of_kind(kind::BERTH).members.len() + build.of_kind(kind::SEAT).members.len();
    let cell = if places * exits.len() > MANY_WAYS { COARSE_CELL } else { CELL };
    let mut reached = Vec::new();
    let mut gaps = Gaps::default();
    for exit in exits {
        let opening = match scene.opening(build, exit) {
            Ok(opening) => opening,
            Err(more) => {
                gaps.add(&more);
                continue;
            }
        };
        let mut out = Exit::through(&opening);
        if !opening.side().is_wall() || opening.sill() > level + STEP {
            out = out.within(ARM).unwrap_or(out);
        }
        match Ways::new(&floor, &furniture, &place, &out, &person, cell) {
            Ok(ways) => {
                let Some(route) = ways.widest() else { continue };
                // Where no two obstacles limit it, the grid's benefit is given.
                let benefit = if route.narrowest.is_none() { ways.least_width() } else { 0.0 };
                let width = (route.clear_width + benefit).min(opening.outline().width());
                let asked = NARROWEST.min(width).max(ways.least_width());
                let from_fire = fires.and_then(|fires| ways.farthest_from(fires, asked).ok().flatten()).map(whole);
                reached.push(WayOut { exit, width, from_fire });
            }
            Err(SpaceError::NotInWall { .. }) => gaps.add(&Gaps::one(Gap::Entry(exit, f::exit::AT))),
            Err(_) => gaps.add(&broken(fact)),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    reached.sort_by(|one, other| other.width.total_cmp(&one.width));
    Ok(reached)
}

/// How many exits nothing blocks.
pub fn exits_there(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let exits = free_exits(reader, case)?;
    Ok(Fact::Number(f64::from(u32::try_from(exits.len()).unwrap_or(u32::MAX))))
}

/// The exits that are reached.
pub fn exits_reached(reader: &mut Reader<'_>, from: PartId, case: CaseId) -> Outcome {
    let ways = reader.ways_out(from, case);
    let reached = ways.reached.clone()?;
    let build = reader.build();
    for way in &reached {
        reader.step(|| Step::of(format!("{}: {} clear", build.part(way.exit).title, length(way.width))));
    }
    Ok(all(reached.iter().map(|way| way.exit)))
}

fn width(reader: &mut Reader<'_>, from: PartId, case: CaseId, place: usize, name: &str) -> Outcome {
    let ways = reader.ways_out(from, case);
    let reached = ways.reached.clone()?;
    let build = reader.build();
    let Some(way) = reached.get(place) else {
        return match crate::methods::fact_of(build, from, name) {
            Some(fact) => no_solution(from, fact),
            None => Err(Gaps::one(Gap::Unread(from))),
        };
    };
    reader.step(|| {
        Step::of(format!(
            "to {}, past everything up to {} above the floor: {} at the narrowest place",
            build.part(way.exit).title,
            length(PERSON),
            length(way.width)
        ))
    });
    Ok(Fact::Number(way.width))
}

/// Clear width of the widest way.
pub fn way_width(reader: &mut Reader<'_>, from: PartId, case: CaseId) -> Outcome {
    width(reader, from, case, 0, "way-width")
}

/// Clear width of the widest way to another exit.
pub fn second_way_width(reader: &mut Reader<'_>, from: PartId, case: CaseId) -> Outcome {
    width(reader, from, case, 1, "second-way-width")
}

/// How far the best way keeps from fire, m; infinite where it meets none.
fn best_from_fire(reader: &mut Reader<'_>, from: PartId, case: CaseId) -> Outcome<Option<f64>> {
    let ways = reader.ways_out(from, case);
    let reached = ways.reached.clone()?;
    if !ways.fire.is_empty() {
        return Err(ways.fire.clone());
    }
    Ok(reached.iter().filter_map(|way| way.from_fire).max_by(f64::total_cmp))
}

/// Whether a way out meets nothing that burns.
pub fn free_of_fire(reader: &mut Reader<'_>, from: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(best_from_fire(reader, from, case)? == Some(f64::INFINITY)))
}

/// How far the way that keeps farthest stays from what burns.
pub fn fire_clearance(reader: &mut Reader<'_>, from: PartId, case: CaseId) -> Outcome {
    match best_from_fire(reader, from, case)? {
        Some(distance) => {
            reader.step(|| Step::of(format!("the middle of the way keeps {} away", length(distance))));
            Ok(Fact::Number(distance))
        }
        None => Err(Gaps::one(Gap::NoSolution(from, f::berth::FIRE_CLEARANCE))),
    }
}
