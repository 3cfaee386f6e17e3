//! Lockers for gas cylinders: what stands in them, and their openings.

use super::super::space::{self, Space};
use super::super::{no_solution, parts, show};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::gas::Openings;
use quantity::Dimension;
use vocabulary::{PartKind, fact as f, fact::zone as z, kind};

/// What sparks, glows or burns.
const SPARKS: [PartKind; 15] = [
    kind::BATTERY,
    kind::CHARGER,
    kind::CONVERTER,
    kind::INVERTER,
    kind::INVERTER_CHARGER,
    kind::SOLAR_CONTROLLER,
    kind::HEATER,
    kind::COOKER,
    kind::ABSORPTION_FRIDGE,
    kind::CONTROLLER,
    kind::FAN,
    kind::LAMP,
    kind::OUTLETS,
    kind::APPLIANCE,
    kind::GENERATOR,
];

fn cylinders(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (found, gaps) = space::standing_in(reader, Space::Zone(zone), &[kind::CYLINDER], case);
    Ok(parts(found, gaps.is_empty()))
}

/// Whether it is a closed space for gas cylinders with one in it.
fn gas_locker(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if reader.need_word(zone, z::KIND, case)? != "gas" {
        return Ok(Fact::Flag(false));
    }
    let (found, gaps) = space::standing_in(reader, Space::Zone(zone), &[kind::CYLINDER], case);
    match (found.is_empty(), gaps.is_empty()) {
        (false, _) => Ok(Fact::Flag(true)),
        (true, true) => Ok(Fact::Flag(false)),
        (true, false) => Err(gaps),
    }
}

/// Length × width, m².
fn floor_area(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    match reader.fact(zone, z::SIZE, case)? {
        Fact::Lengths([length, width, _]) => Ok(Fact::Number(length * width)),
        _ => no_solution(zone, z::FLOOR_AREA),
    }
}

/// The free area of openings at these heights that lead to the open air and cannot be closed, m².
pub fn fixed(reader: &mut Reader<'_>, zone: PartId, heights: &[&str], case: CaseId) -> Outcome<f64> {
    let vents = reader.build().inside(zone, kind::VENT);
    if !vents.complete {
        return Err(Gaps::one(Gap::Unread(zone)));
    }
    let mut areas = Vec::new();
    for &vent in vents.members.iter() {
        match counts(reader, vent, heights, case) {
            Ok(true) => areas.push(reader.need(vent, f::vent::FREE_AREA, case)),
            Ok(false) => {}
            Err(more) => areas.push(Err(more)),
        }
    }
    super::super::sum(areas)
}

/// Whether a vent at one of these heights leads to the open air and cannot be closed.
pub fn counts(reader: &mut Reader<'_>, vent: PartId, heights: &[&str], case: CaseId) -> Outcome<bool> {
    let height = reader.need_word(vent, f::vent::HEIGHT, case);
    if height.as_ref().is_ok_and(|height| !heights.contains(height)) {
        return Ok(false);
    }
    let to = space::named(reader, vent, f::vent::TO, case).and_then(|to| space::word(reader, to, case));
    if to.as_ref().is_ok_and(|word| !space::airy(word)) {
        return Ok(false);
    }
    let closable = reader.need_flag(vent, f::vent::CLOSABLE, case);
    if closable == Ok(true) {
        return Ok(false);
    }
    let mut gaps = Gaps::default();
    for more in [height.err(), to.err(), closable.err()].into_iter().flatten() {
        gaps.add(&more);
    }
    if gaps.is_empty() { Ok(true) } else { Err(gaps) }
}

fn drained(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(fixed(reader, zone, &["low"], case)? > 0.0))
}

/// Areas that differ by less than this share are the same.
const SAME_AREA: f64 = 1e-9;

/// Whether the openings are as large as the texts of the build's regions ask. No text for Australia and New Zealand was read:
/// there a drain is asked, and nothing of its size.
fn openings_suffice(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let regions = super::super::regions(reader, case)?;
    let floor = reader.need(zone, z::FLOOR_AREA, case);
    let low = fixed(reader, zone, &["low"], case);
    let high = fixed(reader, zone, &["high", "roof"], case);
    let (low, high) = super::super::battery::both(low, high)?;
    let floor = floor?;
    let mut texts: Vec<(Option<Openings>, &'static calc::Citation)> = Vec::new();
    if regions.eu || regions.uk {
        texts.push((calc::gas::en_1949_openings(floor), &calc::gas::EN_1949_OPENINGS));
    }
    if regions.us {
        texts.push((calc::gas::us_openings(floor), &calc::gas::US_OPENINGS));
    }
    reader.step(|| {
        Step::of(format!("there are {} low and {} high", show(low, Dimension::AREA), show(high, Dimension::AREA)))
    });
    let enough = |has: f64, due: f64| has >= due * (1.0 - SAME_AREA);
    let mut suffice = true;
    for (needed, citation) in texts {
        let Some(needed) = needed else { return no_solution(zone, z::OPENINGS_SUFFICE) };
        reader.step(|| {
            let alone = needed.low_alone.map(|area| format!("low alone {}, or ", show(area, Dimension::AREA)));
            let text = format!(
                "floor {}: {}low and high {} each",
                show(floor, Dimension::AREA),
                alone.unwrap_or_default(),
                show(needed.each, Dimension::AREA)
            );
            Step::cited(text, citation)
        });
        suffice &= needed.low_alone.is_some_and(|due| enough(low, due))
            || (enough(low, needed.each) && enough(high, needed.each));
    }
    Ok(Fact::Flag(suffice))
}

/// Whether a thing whose space is not known certainly stands outside a zone: both say where they are, and they do not overlap.
fn certainly_elsewhere(reader: &mut Reader<'_>, thing: PartId, zone: PartId, case: CaseId) -> bool {
    let Ok(Some(own)) = space::extent(reader, thing, case) else { return false };
    let (Ok(Fact::Lengths(from)), Ok(Fact::Lengths(size))) =
        (reader.fact(zone, z::FROM, case), reader.fact(zone, z::SIZE, case))
    else {
        return false;
    };
    let to = [0, 1, 2].map(|axis| from[axis] + size[axis]);
    space::distance(&own, &[from, to]) > 0.0
}

fn ignition_sources(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let mut complete = super::super::complete(reader, &SPARKS);
    let mut found = Vec::new();
    for &thing in SPARKS.iter().flat_map(|kind| build.of_kind(*kind).members.iter()) {
        match space::of(reader, thing, case) {
            Ok(own) if own == Space::Zone(zone) => found.push(thing),
            Ok(_) => {}
            // Of a thing without any place nothing is asked here; one that stands somewhere must stand elsewhere.
            Err(_) if space::placeless(reader, thing) || certainly_elsewhere(reader, thing, zone, case) => {}
            Err(_) => complete = false,
        }
    }
    found.sort_unstable();
    Ok(parts(found, complete))
}

/// Whether a route runs through a locker for gas cylinders.
fn in_gas_locker(reader: &mut Reader<'_>, route: PartId, case: CaseId) -> Outcome {
    if reader.silent(route, f::route::ZONE) {
        return Ok(Fact::Flag(false));
    }
    let space = space::named(reader, route, f::route::ZONE, case)?;
    Ok(Fact::Flag(space::word(reader, space, case)? == "gas"))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (z::CYLINDERS, Each(cylinders)),
        (z::GAS_LOCKER, Each(gas_locker)),
        (z::FLOOR_AREA, Each(floor_area)),
        (z::DRAINED, Each(drained)),
        (z::OPENINGS_SUFFICE, Each(openings_suffice)),
        (z::IGNITION_SOURCES, Each(ignition_sources)),
        (f::route::IN_GAS_LOCKER, Each(in_gas_locker)),
    ]
}
