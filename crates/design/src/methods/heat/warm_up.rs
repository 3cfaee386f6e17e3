//! How long a cold space takes to warm: linings, furniture and what stands in it, as one mass behind its heat loss.

use super::{layers, room};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::battery::both;
use crate::methods::space::{self, Space};
use crate::methods::{air, brief, celsius, fact_of, no_solution, place, show, sum};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::heat::{HeatingGrade, grade_demand};
use quantity::Dimension;
use vocabulary::{fact as f, fact::brief as b, fact::tank as t, fact::zone as z, kind};

/// Specific heats where the material is not said, J/(kg·K): of steel, the least that furniture is made of; likely of things of metal, timber and
/// plastic together (chosen between steel 450 and timber 1,600); of water (all from memory).
const STEEL: f64 = 450.0;
const MIXED: f64 = 1_000.0;
const WATER: f64 = 4_190.0 * 1_000.0;

/// The furniture of a space: it is in there wherever that is not said, since it is made for people.
const FURNITURE: [vocabulary::PartKind; 3] = [kind::FURNISHING, kind::BERTH, kind::TABLE];

/// Whether a thing stands in a space or in a part of it; `otherwise` where nothing is said of its place.
fn stands_in(reader: &mut Reader<'_>, thing: PartId, zone: PartId, otherwise: bool, case: CaseId) -> Outcome<bool> {
    if space::placeless(reader, thing) {
        return Ok(otherwise);
    }
    match space::of(reader, thing, case) {
        Ok(Space::Zone(own)) => air::within(reader, own, zone, case),
        Ok(Space::Outside) => Ok(false),
        Err(gaps) => {
            // A place that no zone holds is none of this space.
            let named = fact_of(reader.build(), thing, "zone").is_none_or(|zone| !reader.silent(thing, zone));
            let extent = space::extent(reader, thing, case)?;
            match extent.filter(|_| !named) {
                Some([least, most]) => {
                    let middle = [0, 1, 2].map(|axis| f64::midpoint(least[axis], most[axis]));
                    match place::smallest_holding(reader, middle, case)? {
                        None => Ok(false),
                        Some(own) => air::within(reader, own, zone, case),
                    }
                }
                None => Err(gaps),
            }
        }
    }
}

/// Heat that the linings of a space hold, J/K: at the least and at the most.
fn linings(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<(f64, f64)> {
    let (shells, mut gaps) = room::of_space(reader, kind::SHELL, zone, case);
    let mut sum = (0.0, 0.0);
    for shell in shells {
        match both(reader.need(shell, f::shell::AREA, case), layers::stored(reader, shell, case)) {
            Ok((area, (least, most))) => {
                sum.0 += area * least;
                sum.1 += area * most;
            }
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(sum) } else { Err(gaps) }
}

/// The mass of a thing, kg; nothing of one of which nobody wrote what it weighs.
fn mass(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<f64> {
    match fact_of(reader.build(), thing, "mass") {
        Some(mass) if !reader.silent(thing, mass) => reader.need(thing, mass, case),
        _ => Ok(0.0),
    }
}

/// The specific heat of a piece of furniture, J/(kg·K): by its material, else as of steel.
fn specific_heat(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<f64> {
    match fact_of(reader.build(), thing, "material") {
        Some(material) if !reader.silent(thing, material) => match reader.fact(thing, material, case)? {
            Fact::Text(word) => Ok(layers::specific_heat(&word).unwrap_or(STEEL)),
            _ => Ok(STEEL),
        },
        _ => Ok(STEEL),
    }
}

/// Heat that a space holds at the least, J/K: linings, and the furniture of which the mass is said.
fn at_least(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<f64> {
    let (linings, _) = linings(reader, zone, case)?;
    let alone = room::living_spaces(reader, case)?[..] == [zone];
    let mut each = Vec::new();
    for kind in FURNITURE {
        let all = reader.build().of_kind(kind).clone();
        if !all.complete {
            each.push(Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))));
        }
        for &thing in all.members.iter() {
            match stands_in(reader, thing, zone, alone, case) {
                Ok(true) => {
                    let of = both(mass(reader, thing, case), specific_heat(reader, thing, case));
                    each.push(of.map(|(mass, heat)| mass * heat));
                }
                Ok(false) => {}
                Err(more) => each.push(Err(more)),
            }
        }
    }
    let furniture = sum(each)?;
    reader.step(|| {
        let text = format!("linings {:.0} kJ/K, furniture {:.0} kJ/K", linings / 1e3, furniture / 1e3);
        Step::assumed(
            text,
            "densities and specific heats from memory; furniture of unknown material as steel, 450 J/kgK",
        )
    });
    Ok(linings + furniture)
}

/// Heat that a space likely holds, J/K: linings, whatever weighs and stands in it, and water.
fn likely(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<f64> {
    let (_, linings) = linings(reader, zone, case)?;
    let build = reader.build();
    let weighs = || vocabulary::parts().iter().filter(|spec| spec.fact("mass").is_some());
    let mut masses = Vec::new();
    if weighs().any(|spec| !build.of_kind(spec.kind).complete) {
        masses.push(Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))));
    }
    let mut waters = Vec::new();
    // The mass of a face is counted by its layers.
    for spec in weighs().filter(|spec| spec.kind != kind::SHELL) {
        for &part in build.of_kind(spec.kind).members.iter() {
            match stands_in(reader, part, zone, false, case) {
                Ok(true) => {
                    masses.push(mass(reader, part, case));
                    if spec.kind == kind::TANK && !reader.silent(part, t::VOLUME) {
                        let full = both(reader.need_flag(part, t::IS_WATER, case), reader.need(part, t::VOLUME, case));
                        waters.push(full.map(|(water, volume)| if water { volume } else { 0.0 }));
                    }
                }
                Ok(false) => {}
                Err(more) => masses.push(Err(more)),
            }
        }
    }
    let (things, water) = both(sum(masses), sum(waters))?;
    reader.step(|| {
        let text = format!(
            "linings {:.0} kJ/K, {} of things {:.0} kJ/K, {} of water {:.0} kJ/K",
            linings / 1e3,
            show(things, Dimension::MASS),
            things * MIXED / 1e3,
            show(water, Dimension::VOLUME),
            water * WATER / 1e3
        );
        Step::assumed(text, "1,000 J/kgK for things of metal, timber and plastic (chosen)")
    });
    Ok(linings + things * MIXED + water * WATER)
}

/// Time for a rise K with a loss W at the end of that rise, s.
fn time(
    reader: &mut Reader<'_>,
    zone: PartId,
    fact: vocabulary::FactId,
    capacity: Outcome<f64>,
    (loss, inside, outside): (f64, f64, f64),
    case: CaseId,
) -> Outcome {
    let (capacity, heating) = both(capacity, reader.need(zone, z::HEATING, case))?;
    let rise = inside - outside;
    if rise <= 0.0 {
        return Ok(Fact::Number(0.0));
    }
    // Nothing that is known holds heat: at the least it warms at once.
    if capacity <= 0.0 && fact != z::WARM_UP_LIKELY {
        return Ok(Fact::Number(0.0));
    }
    match calc::heat::warm_up_seconds(heating, loss / rise, capacity, rise) {
        Ok(Some(seconds)) => {
            reader.step(|| {
                Step::of(format!(
                    "{:.0} kJ/K from {} to {} with {}, of which {} is lost at the end: {}",
                    capacity / 1e3,
                    celsius(outside),
                    celsius(inside),
                    show(heating, Dimension::POWER),
                    show(loss, Dimension::POWER),
                    show(seconds, Dimension::TIME)
                ))
            });
            Ok(Fact::Number(seconds))
        }
        _ => no_solution(zone, fact),
    }
}

fn warm_up_at_least(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (inside, outside) = room::on_the_coldest_night(reader, case)?;
    let loss = room::lost(reader, zone, inside, outside, case)?.all()?.0.least();
    let capacity = at_least(reader, zone, case);
    time(reader, zone, z::WARM_UP_AT_LEAST, capacity, (loss, inside, outside), case)
}

fn warm_up_likely(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (inside, outside) = room::on_the_coldest_night(reader, case)?;
    let loss = room::lost(reader, zone, inside, outside, case)?.all()?.1;
    let capacity = likely(reader, zone, case);
    time(reader, zone, z::WARM_UP_LIKELY, capacity, (loss, inside, outside), case)
}

fn grade_warm_up(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let demand = grade_demand(HeatingGrade::Three);
    let (inside, outside) = (demand.inside, demand.outside);
    let loss = room::lost(reader, zone, inside, outside, case)?.all()?.0.least();
    let capacity = at_least(reader, zone, case);
    reader.step(|| Step::cited("the test of grade 3".to_owned(), demand.citation));
    time(reader, zone, z::GRADE_WARM_UP, capacity, (loss, inside, outside), case)
}

fn warm_up_asked(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if !reader.need_flag(zone, z::HEAT_TOLD, case)? {
        return Ok(Fact::Flag(false));
    }
    let (heating, loss) = both(reader.need(zone, z::HEATING, case), reader.need(zone, z::HEAT_LOSS_AT_LEAST, case))?;
    Ok(Fact::Flag(heating > loss))
}

fn grade_3_asked(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    if !reader.need_flag(zone, z::HEAT_TOLD, case)? {
        return Ok(Fact::Flag(false));
    }
    let Some(brief) = brief::found(reader)? else { return Ok(Fact::Flag(false)) };
    if reader.silent(brief, b::GRADE) || reader.need_word(brief, b::GRADE, case)? != "grade-3" {
        return Ok(Fact::Flag(false));
    }
    let (heating, loss) = both(reader.need(zone, z::HEATING, case), reader.need(zone, z::GRADE_LOSS, case))?;
    Ok(Fact::Flag(heating > loss))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (z::WARM_UP_AT_LEAST, Each(warm_up_at_least)),
        (z::WARM_UP_LIKELY, Each(warm_up_likely)),
        (z::GRADE_WARM_UP, Each(grade_warm_up)),
        (z::WARM_UP_ASKED, Each(warm_up_asked)),
        (z::GRADE_3_ASKED, Each(grade_3_asked)),
    ]
}
