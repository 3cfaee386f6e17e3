//! Hydrogen of lead batteries: the openings that it needs, those that there are, and what sparks near it.

use super::battery::both;
use super::space::{self, Space};
use super::{no_solution, show};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::ChargeStage;
use quantity::Dimension;
use vocabulary::{fact as f, fact::battery as b, kind};

/// Whether the battery stands in a closed space.
pub fn enclosed(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let space = space::of(reader, battery, case)?;
    Ok(Fact::Flag(!space::airy(space::word(reader, space, case)?)))
}

/// The spaces where people are.
fn lived_in(word: &str) -> bool {
    matches!(word, "living" | "cab")
}

/// Whether it stands in a space where people are.
pub fn in_living_space(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let space = space::of(reader, battery, case)?;
    Ok(Fact::Flag(lived_in(space::word(reader, space, case)?)))
}

/// Whether its compartment is sealed from the space where people are.
pub fn sealed_from_living(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let space = space::of(reader, battery, case)?;
    let word = space::word(reader, space, case)?;
    Ok(Fact::Flag(match space {
        _ if space::airy(word) => true,
        _ if lived_in(word) => false,
        Space::Zone(zone) => reader.need_flag(zone, f::zone::SEALED, case)?,
        Space::Outside => true,
    }))
}

/// The air that one battery needs, m³/s.
fn flow(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome<f64> {
    let chemistry = super::battery::chemistry(reader, battery, case);
    let (nominal, capacity) = both(reader.need(battery, b::VOLTAGE, case), reader.need(battery, b::CAPACITY, case))?;
    let chemistry = chemistry?;
    let (sources, gaps) = super::charging::sources(reader, battery);
    let stage = match (sources.is_empty(), gaps.is_empty()) {
        (false, _) => ChargeStage::Boost,
        (true, true) => ChargeStage::Float,
        (true, false) => return Err(gaps),
    };
    let Some((milliamperes, citation)) = calc::gas_current_milliamperes_per_ampere_hour(chemistry, stage) else {
        return Ok(0.0);
    };
    let found = calc::full_charge_voltage(chemistry, nominal)
        .and_then(|(_, cells)| Some((cells, calc::hydrogen_ventilation_flow(cells, milliamperes, capacity)?)));
    let Some((cells, flow)) = found else { return no_solution(battery, b::HYDROGEN_OPENING) };
    let title = reader.build().part(battery).title.clone();
    reader.step(|| {
        Step::cited(
            format!(
                "{title}: 0.05 × {cells} cells × {milliamperes} mA/Ah × {} = {}",
                show(capacity, Dimension::CHARGE),
                show(flow, Dimension::FLOW)
            ),
            citation,
        )
    });
    Ok(flow)
}

/// The free area that each of the two openings needs, m².
pub fn hydrogen_opening(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let space = space::of(reader, battery, case)?;
    let (batteries, gaps) = space::standing_in(reader, space, &[kind::BATTERY], case);
    let flows: Vec<_> = batteries.iter().map(|other| flow(reader, *other, case)).collect();
    let flow = super::sum(flows)?;
    if !gaps.is_empty() {
        return Err(gaps);
    }
    match calc::free_opening_area(flow) {
        Some(area) => {
            reader.step(|| {
                Step::cited(
                    format!("28 cm² for each m³/h of {}: {}", show(flow, Dimension::FLOW), show(area, Dimension::AREA)),
                    &calc::VENTILATION,
                )
            });
            Ok(Fact::Number(area))
        }
        None => no_solution(battery, b::HYDROGEN_OPENING),
    }
}

/// The openings of the compartment of a battery: height in its word, where they lead, and the part.
fn vents(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome<Vec<(PartId, Outcome<Space>)>> {
    let zone = match space::of(reader, battery, case)? {
        Space::Zone(zone) => zone,
        Space::Outside => return no_solution(battery, b::LOW_OPENING),
    };
    let vents = reader.build().inside(zone, kind::VENT);
    if !vents.complete {
        return Err(Gaps::one(Gap::Unread(zone)));
    }
    Ok(vents.members.iter().map(|vent| (*vent, space::named(reader, *vent, f::vent::TO, case))).collect())
}

/// Whether a vent that leads to a space leads to the open air.
fn to_open_air(reader: &mut Reader<'_>, to: Outcome<Space>, case: CaseId) -> Outcome<bool> {
    let space = to?;
    Ok(space::airy(space::word(reader, space, case)?))
}

/// The free area of the openings at these heights that lead to the open air, m².
fn opening(reader: &mut Reader<'_>, battery: PartId, heights: &[&str], case: CaseId) -> Outcome {
    let mut sum = 0.0;
    let mut gaps = Gaps::default();
    for (vent, to) in vents(reader, battery, case)? {
        match reader.need_word(vent, f::vent::HEIGHT, case) {
            Ok(height) if !heights.contains(&height) => continue,
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
        match to_open_air(reader, to, case) {
            Ok(true) => match reader.need(vent, f::vent::FREE_AREA, case) {
                Ok(area) => sum += area,
                Err(more) => gaps.add(&more),
            },
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Number(sum)) } else { Err(gaps) }
}

/// The low openings.
pub fn low_opening(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    opening(reader, battery, &["low"], case)
}

/// The high openings.
pub fn high_opening(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    opening(reader, battery, &["high", "roof"], case)
}

/// Whether an opening leads to another space than the open air.
pub fn opens_inside(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let mut gaps = Gaps::default();
    for (_, to) in vents(reader, battery, case)? {
        match to_open_air(reader, to, case) {
            Ok(true) => {}
            Ok(false) => return Ok(Fact::Flag(true)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// What sparks, glows or burns.
const SPARKS: [vocabulary::PartKind; 9] = [
    kind::CHARGER,
    kind::CONVERTER,
    kind::INVERTER,
    kind::INVERTER_CHARGER,
    kind::SOLAR_CONTROLLER,
    kind::HEATER,
    kind::COOKER,
    kind::CONTROLLER,
    kind::FAN,
];

/// What sparks within the distance in which the gas of a battery may be ignited.
pub fn sparks_near(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let chemistry = super::battery::chemistry(reader, battery, case)?;
    let capacity = reader.need(battery, b::CAPACITY, case)?;
    let reach = calc::gas_current_milliamperes_per_ampere_hour(chemistry, ChargeStage::Boost)
        .and_then(|(milliamperes, _)| calc::spark_distance(milliamperes, capacity));
    let Some(reach) = reach else { return Ok(super::all([])) };
    reader.step(|| {
        Step::cited(format!("nothing may spark within {}", show(reach, Dimension::LENGTH)), &calc::SPARK_DISTANCE)
    });
    let build = reader.build();
    let mut complete = super::complete(reader, &SPARKS);
    let Some(own) = space::extent(reader, battery, case)? else { return Ok(super::parts([], complete)) };
    let mut near = Vec::new();
    for kind in SPARKS {
        for &thing in build.of_kind(kind).members.iter() {
            match space::extent(reader, thing, case) {
                Ok(Some(other)) if space::distance(&own, &other) < reach => near.push(thing),
                Ok(_) => {}
                Err(_) => complete = false,
            }
        }
    }
    Ok(super::parts(near, complete))
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (b::ENCLOSED, Each(enclosed)),
        (b::IN_LIVING_SPACE, Each(in_living_space)),
        (b::SEALED_FROM_LIVING, Each(sealed_from_living)),
        (b::HYDROGEN_OPENING, Each(hydrogen_opening)),
        (b::LOW_OPENING, Each(low_opening)),
        (b::HIGH_OPENING, Each(high_opening)),
        (b::OPENS_INSIDE, Each(opens_inside)),
        (b::SPARKS_NEAR, Each(sparks_near)),
    ]
}
