//! Liquid fuel: how long the intakes of burners may be, petrol in closed spaces, and cupboards in which something burns.

use super::space::{self, Space};
use super::{gas, no_solution, parts, show};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{FactId, fact as f, fact::zone as z, kind};

/// What the maker of the heater round an intake names.
fn of_heater(reader: &mut Reader<'_>, intake: PartId, fact: FactId, case: CaseId) -> Outcome {
    match reader.build().part(intake).outer {
        Some(heater) => Ok(Fact::Number(reader.need(heater, fact, case)?)),
        None => Err(Gaps::one(Gap::Unread(intake))),
    }
}

fn longest_way(reader: &mut Reader<'_>, intake: PartId, case: CaseId) -> Outcome {
    of_heater(reader, intake, f::heater::LONGEST_INTAKE, case)
}

fn most_bends(reader: &mut Reader<'_>, intake: PartId, case: CaseId) -> Outcome {
    of_heater(reader, intake, f::heater::MOST_INTAKE_BENDS, case)
}

fn petrol_tanks(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (tanks, gaps) = space::standing_in(reader, Space::Zone(zone), &[kind::TANK], case);
    let mut found = Vec::new();
    let mut complete = gaps.is_empty();
    for tank in tanks {
        match reader.need_word(tank, f::tank::HOLDS, case) {
            Ok("petrol") => found.push(tank),
            Ok(_) => {}
            Err(_) => complete = false,
        }
    }
    Ok(parts(found, complete))
}

fn closed_space(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(!space::airy(reader.need_word(zone, z::KIND, case)?)))
}

/// The heights of openings at the top of a space.
const TOP: [&str; 2] = ["high", "roof"];

fn vented_low_and_high(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let low = gas::locker::fixed(reader, zone, &["low"], case);
    let high = gas::locker::fixed(reader, zone, &TOP, case);
    if low == Ok(0.0) || high == Ok(0.0) {
        return Ok(Fact::Flag(false));
    }
    let (low, high) = super::battery::both(low, high)?;
    Ok(Fact::Flag(low > 0.0 && high > 0.0))
}

fn free_high(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    gas::locker::fixed(reader, zone, &TOP, case).map(Fact::Number)
}

/// The least area of each opening of a space with petrol, m².
fn petrol_opening(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let Fact::Lengths([length, width, height]) = reader.fact(zone, z::SIZE, case)? else {
        return no_solution(zone, z::PETROL_OPENING);
    };
    let volume = length * width * height;
    match calc::fuel_space::petrol_opening(volume) {
        Some(area) => {
            reader.step(|| {
                let text = format!(
                    "a space of {}: each opening at least {}",
                    show(volume, Dimension::VOLUME),
                    show(area, Dimension::AREA)
                );
                Step::cited(text, &calc::fuel_space::PETROL_OPENING)
            });
            Ok(Fact::Number(area))
        }
        None => no_solution(zone, z::PETROL_OPENING),
    }
}

/// Whether a zone is a locker in which a heater burns or water is heated.
fn heat_cupboard(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if reader.need_word(zone, z::KIND, case)? != "locker" {
        return Ok(Fact::Flag(false));
    }
    let (found, mut gaps) = space::standing_in(reader, Space::Zone(zone), &[kind::HEATER, kind::BOILER], case);
    for thing in found {
        if reader.build().part(thing).kind == kind::BOILER {
            return Ok(Fact::Flag(true));
        }
        match gas::appliances::fuel(reader, thing, case) {
            Ok("none") => {}
            Ok(_) => return Ok(Fact::Flag(true)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::intake::LONGEST_WAY, Each(longest_way)),
        (f::intake::MOST_BENDS, Each(most_bends)),
        (z::PETROL_TANKS, Each(petrol_tanks)),
        (z::CLOSED_SPACE, Each(closed_space)),
        (z::VENTED_LOW_AND_HIGH, Each(vented_low_and_high)),
        (z::FREE_HIGH, Each(free_high)),
        (z::PETROL_OPENING, Each(petrol_opening)),
        (z::HEAT_CUPBOARD, Each(heat_cupboard)),
    ]
}
