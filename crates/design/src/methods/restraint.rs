//! How heavy things are held, what a crash asks of that, and where a battery stands in the vehicle.

use super::space::{self, Space};
use super::{fact_of, no_solution, show};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{FactId, fact as f, fact::battery as b, fact::restraint as r, kind};

/// The standard acceleration of free fall, m/s² (CGPM 1901).
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// The restraint of a thing; nothing when there is certainly none.
pub fn restraint(reader: &Reader<'_>, thing: PartId) -> Outcome<Option<PartId>> {
    super::limits::block(reader, thing, kind::RESTRAINT)
}

/// Whether a restraint is described.
pub fn restrained(reader: &mut Reader<'_>, thing: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(restraint(reader, thing)?.is_some()))
}

/// The restraint, or that it is not there.
fn due(reader: &Reader<'_>, thing: PartId) -> Outcome<PartId> {
    restraint(reader, thing)?.ok_or_else(|| Gaps::one(Gap::Absent(thing, kind::RESTRAINT)))
}

/// The mass of a thing, kg.
fn mass(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<f64> {
    match fact_of(reader.build(), thing, "mass") {
        Some(fact) => reader.need(thing, fact, case),
        None => no_solution(thing, r::PULL),
    }
}

/// What the restraint stands in a direction: as said, else the pull in any direction over the mass.
fn holds(reader: &mut Reader<'_>, thing: PartId, direction: FactId, case: CaseId) -> Outcome {
    let restraint = due(reader, thing)?;
    if reader.silent(restraint, direction) && !reader.silent(restraint, r::PULL) {
        let (pull, mass) = super::battery::both(reader.need(restraint, r::PULL, case), mass(reader, thing, case))?;
        reader.step(|| Step::of(format!("{} ÷ {}", show(pull, Dimension::FORCE), show(mass, Dimension::MASS))));
        return Ok(Fact::Number(pull / mass));
    }
    Ok(Fact::Number(reader.need(restraint, direction, case)?))
}

/// What it stands when the vehicle stops.
pub fn holds_forward(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome {
    holds(reader, thing, r::FORWARD, case)
}

/// What it stands to either side.
pub fn holds_sideways(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome {
    holds(reader, thing, r::SIDEWAYS, case)
}

/// The pull that it stands in any direction, N.
pub fn holds_pull(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome {
    let restraint = due(reader, thing)?;
    if !reader.silent(restraint, r::PULL) {
        return Ok(Fact::Number(reader.need(restraint, r::PULL, case)?));
    }
    let directions = [r::FORWARD, r::REARWARD, r::SIDEWAYS, r::UP];
    let said: Vec<FactId> = directions.into_iter().filter(|fact| !reader.silent(restraint, *fact)).collect();
    let known: Vec<_> = said.iter().map(|fact| reader.need(restraint, *fact, case)).collect();
    let (least, mass) = super::battery::both(super::least(known), mass(reader, thing, case))?;
    match least {
        Some(least) => {
            reader.step(|| {
                Step::of(format!(
                    "least acceleration {} × {}",
                    show(least, Dimension::ACCELERATION),
                    show(mass, Dimension::MASS)
                ))
            });
            Ok(Fact::Number(least * mass))
        }
        None => Err(Gaps::one(Gap::Entry(restraint, r::PULL))),
    }
}

/// How far it lets the thing move, m.
pub fn moves(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome {
    let restraint = due(reader, thing)?;
    Ok(Fact::Number(reader.need(restraint, r::MOVEMENT, case)?))
}

/// Accelerations along and across, in g: ISO 12991:2012 Table 1 (read, for fuel tanks; UN R100 asks the same of traction batteries, from
/// memory); by category: M1 and N1, M2 and N2, M3 and N3.
const CRASH: [[f64; 2]; 3] = [[20.0, 8.0], [10.0, 5.0], [6.6, 5.0]];

/// Largest mass of categories N1, N2 and M2, kg: 3.5 t, 12 t and 5 t (Regulation (EU) 2018/858 Article 4; from memory).
const N1: f64 = 3_500.0;
const N2: f64 = 12_000.0;
const M2: f64 = 5_000.0;

/// The accelerations of a crash for the vehicle, in g, along and across.
pub fn crash(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<[f64; 2]> {
    let Some(vehicle) = reader.build().only(kind::VEHICLE) else {
        return Err(Gaps::one(Gap::Absent(Build::ROOT, kind::VEHICLE)));
    };
    let class = reader.need_word(vehicle, f::vehicle::CLASS, case)?;
    let heavier =
        |reader: &mut Reader<'_>, than: f64| reader.need(vehicle, f::vehicle::GROSS_MASS, case).map(|mass| mass > than);
    let row = match class {
        // Motor caravans are of category M1 whatever their mass.
        "motor-caravan" => 0,
        "bus" => 1 + usize::from(heavier(reader, M2)?),
        "trailer" => return no_solution(thing, f::vehicle::CLASS),
        _ if heavier(reader, N2)? => 2,
        _ => usize::from(heavier(reader, N1)?),
    };
    let accelerations = CRASH[row];
    reader.step(|| {
        let text = format!("{class}: {} g along, {} g across", accelerations[0], accelerations[1]);
        Step { source: Some("ISO 12991:2012 Table 1, by analogy (read)".to_owned()), ..Step::of(text) }
    });
    Ok(accelerations)
}

/// The deceleration of a crash, m/s².
pub fn crash_forward(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(crash(reader, thing, case)?[0] * STANDARD_GRAVITY))
}

/// The acceleration across, m/s².
pub fn crash_sideways(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(crash(reader, thing, case)?[1] * STANDARD_GRAVITY))
}

/// The box of a battery, or what would give it one.
fn placed(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome<space::Extent> {
    space::extent(reader, battery, case)?
        .ok_or_else(|| Gaps(vec![AnyOf(vec![Gap::Entry(battery, b::FROM), Gap::Entry(battery, b::AT)])]))
}

/// A length of the vehicle, m.
fn of_vehicle(reader: &mut Reader<'_>, fact: FactId, case: CaseId) -> Outcome<f64> {
    match reader.build().only(kind::VEHICLE) {
        Some(vehicle) => reader.need(vehicle, fact, case),
        None => Err(Gaps::one(Gap::Absent(Build::ROOT, kind::VEHICLE))),
    }
}

/// How far it stands behind the foremost point, m.
pub fn from_front_edge(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let overhang = of_vehicle(reader, f::vehicle::FRONT_OVERHANG, case);
    let (own, overhang) = super::battery::both(placed(reader, battery, case), overhang)?;
    Ok(Fact::Number(own[0][0] + overhang))
}

/// How far it stands before the rearmost point, m.
pub fn from_rear_edge(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let (length, overhang) = super::battery::both(
        of_vehicle(reader, f::vehicle::LENGTH, case),
        of_vehicle(reader, f::vehicle::FRONT_OVERHANG, case),
    )?;
    let own = placed(reader, battery, case)?;
    Ok(Fact::Number(length - overhang - own[1][0]))
}

/// The tanks straight above or below it.
pub fn tanks_in_line(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let tanks = build.of_kind(kind::TANK);
    let Some(own) = space::extent(reader, battery, case)? else { return Ok(super::parts([], tanks.complete)) };
    let mut in_line = Vec::new();
    let mut complete = tanks.complete;
    for &tank in tanks.members.iter() {
        match space::extent(reader, tank, case) {
            Ok(Some(other)) if space::in_line(&own, &other) => in_line.push(tank),
            Ok(_) => {}
            Err(_) => complete = false,
        }
    }
    Ok(super::parts(in_line, complete))
}

/// The tanks, pumps and cylinders in its own compartment; in the open air and where people live there is no such compartment.
pub fn fluids_beside(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let space = space::of(reader, battery, case)?;
    let word = space::word(reader, space, case)?;
    if !matches!(space, Space::Zone(_)) || space::airy(word) || matches!(word, "living" | "cab") {
        return Ok(super::all([]));
    }
    let (found, gaps) = space::standing_in(reader, space, &[kind::TANK, kind::PUMP, kind::CYLINDER], case);
    Ok(super::parts(found, gaps.is_empty()))
}

/// Overall length × width, m².
pub fn plan_area(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let (length, width) = super::battery::both(
        of_vehicle(reader, f::vehicle::LENGTH, case),
        of_vehicle(reader, f::vehicle::WIDTH, case),
    )?;
    Ok(Fact::Number(length * width))
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (b::FROM_FRONT_EDGE, Each(from_front_edge)),
        (b::FROM_REAR_EDGE, Each(from_rear_edge)),
        (b::TANKS_IN_LINE, Each(tanks_in_line)),
        (b::FLUIDS_BESIDE, Each(fluids_beside)),
        (f::build::PLAN_AREA, Each(plan_area)),
    ]
}
