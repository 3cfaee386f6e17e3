//! What follows from where things stand: ways out, clearances, ends of exhausts, alarms. One file for each subject.

mod alarms;
mod berths;
mod beside;
mod burnable;
mod cookers;
mod counted;
mod engine_exhaust;
mod exits;
mod heaters;
mod leaves;
mod seats;
mod terminals;
mod vents;
mod ways;

pub use ways::WaysOut;

use crate::binding::Bindings;
use crate::fact::Outcome;
use crate::known::{Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use calc::space::Cuboid;
use quantity::Dimension;
use vocabulary::{PartKind, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    [
        exits::bindings(),
        berths::bindings(),
        terminals::bindings(),
        cookers::bindings(),
        heaters::bindings(),
        alarms::bindings(),
        seats::bindings(),
        engine_exhaust::bindings(),
        vents::bindings(),
        counted::bindings(),
        beside::bindings(),
        leaves::bindings(),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Every part of these kinds, where it is certain that these are all.
fn every(reader: &Reader<'_>, kinds: &[PartKind]) -> Outcome<Vec<PartId>> {
    if !super::complete(reader, kinds) {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    Ok(kinds.iter().flat_map(|kind| reader.build().of_kind(*kind).members.iter().copied()).collect())
}

/// The parts that pass a test; the gaps of all of which it cannot be told.
fn filtered(
    parts: impl IntoIterator<Item = PartId>,
    mut test: impl FnMut(PartId) -> Outcome<bool>,
) -> Outcome<Vec<PartId>> {
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    for part in parts {
        match test(part) {
            Ok(true) => found.push(part),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

/// The boxes or points of some parts; the gaps of all that have none.
fn shapes(reader: &mut Reader<'_>, parts: &[PartId]) -> Outcome<Vec<(PartId, Cuboid)>> {
    let scene = reader.scene();
    let mut shapes = Vec::new();
    let mut gaps = Gaps::default();
    for part in parts {
        match scene.shape(*part) {
            Ok(shape) => shapes.push((*part, shape)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(shapes) } else { Err(gaps) }
}

/// The boxes around the openings of some ways out and windows; the gaps of all whose place or size is not known.
fn openings(reader: &mut Reader<'_>, parts: &[PartId]) -> Outcome<Vec<(PartId, Cuboid)>> {
    let (build, scene) = (reader.build(), reader.scene());
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    for part in parts {
        match scene.opening(build, *part) {
            Ok(opening) => found.push((*part, opening.bounds())),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

/// The least of a distance to some parts, with the part.
fn nearest(shapes: &[(PartId, Cuboid)], distance: impl Fn(&Cuboid) -> f64) -> Option<(f64, PartId)> {
    shapes.iter().map(|(part, shape)| (distance(shape), *part)).min_by(|one, other| one.0.total_cmp(&other.0))
}

/// A length for the working.
fn length(value: f64) -> String {
    super::show(value, Dimension::LENGTH)
}

/// What is in the way of people and covers openings: where it is known to stand, and what has to be known of it.
struct Solids {
    boxes: Vec<(PartId, Cuboid)>,
    gaps: Gaps,
}

/// What is large enough to be in the way, so that a way out cannot be told while its place is not known.
const FURNITURE: [PartKind; 3] = [kind::FURNISHING, kind::BERTH, kind::TABLE];

/// What is in the way where it has a box of its own; built into furniture, or in the cab, it needs no place.
const FITTINGS: [PartKind; 9] = [
    kind::SEAT,
    kind::COOKER,
    kind::HEATER,
    kind::APPLIANCE,
    kind::BATTERY,
    kind::TANK,
    kind::TOILET,
    kind::CYLINDER,
    kind::INVERTER,
];

impl Solids {
    /// All of them, where none may be missing.
    fn all(self) -> Outcome<Vec<(PartId, Cuboid)>> {
        if self.gaps.is_empty() { Ok(self.boxes) } else { Err(self.gaps) }
    }
}

/// The solids of a build. A table that folds is put away at night.
fn solids(reader: &mut Reader<'_>) -> Solids {
    let (build, scene) = (reader.build(), reader.scene());
    let mut solids = Solids { boxes: Vec::new(), gaps: Gaps::default() };
    let kinds: Vec<PartKind> = FURNITURE.into_iter().chain(FITTINGS).collect();
    if !super::complete(reader, &kinds) {
        solids.gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    for kind in kinds {
        for &part in build.of_kind(kind).members.iter() {
            if kind == kind::TABLE {
                match reader.need_flag(part, vocabulary::fact::table::FOLDS, crate::known::CaseId(0)) {
                    Ok(true) => continue,
                    Ok(false) => {}
                    Err(more) => solids.gaps.add(&more),
                }
            }
            let furniture = FURNITURE.contains(&kind);
            let said = scene.stand(part).is_some_and(|stand| stand.said);
            match scene.shape(part) {
                Ok(_) | Err(_) if !furniture && !said && build.part(part).unread => {
                    solids.gaps.add(&Gaps::one(Gap::Unread(part)));
                }
                Ok(shape) if !furniture && shape.size().iter().any(|size| *size <= 0.0) => {}
                Err(_) if !furniture && !said => {}
                Err(more) => solids.gaps.add(&more),
                Ok(_) => match scene.solid(build, part) {
                    Ok(shape) => solids.boxes.push((part, shape)),
                    Err(more) => solids.gaps.add(&more),
                },
            }
        }
    }
    solids
}
