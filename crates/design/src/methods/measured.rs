//! What tests of the finished vehicle showed, beside what the design expects of them.

use super::mass::axle::kilograms;
use super::mass::{ANY, AS_BUILT};
use super::{can_be_told, fact_of, is_said, no_solution};
use crate::binding::{Bindings, Method};
use crate::circuitry::Run;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::commissioning::{
    INSULATION_SOURCE, LEAST_INSULATION, LONGEST_TRIP, PRESSURE_LOST, SUPPLY_BAND, SUPPLY_SOURCE, TRIP_SOURCE,
    VOLUME_BAND, band,
};
use std::sync::Arc;
use vocabulary::{FactId, Family, PartKind, fact as f, fact::measured as m, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (m::FITS, Each(fits)),
        (m::LAST, Each(last)),
        (m::BY_EYE, Each(by_eye)),
        (m::AS_EXPECTED, Each(as_expected)),
        (m::MOST_VOLTAGE, Each(most_voltage)),
        (m::LEAST_VOLTAGE, Each(least_voltage)),
        (m::MOST_CURRENT, Each(most_current)),
        (m::LEAST_RESISTANCE, Each(least_resistance)),
        (m::MOST_TIME, Each(most_time)),
        (m::MOST_LOST, Each(most_lost)),
        (m::MOST_MASS, Each(most_mass)),
        (m::LEAST_VOLUME, Each(least_volume)),
        (m::MOST_VOLUME, Each(most_volume)),
        (m::WEIGHED_BESIDE_MODEL, Each(weighed_beside_model)),
        (m::MASS_OFF, Each(mass_off)),
        (m::MASS_TOLERANCE, Each(mass_tolerance)),
    ]
}

/// The kinds of parts that charge.
const CHARGERS: [PartKind; 4] = [kind::CHARGER, kind::SOLAR_CONTROLLER, kind::INVERTER_CHARGER, kind::CONVERTER];

/// The test, by its word.
fn test(reader: &mut Reader<'_>, part: PartId) -> Outcome<&'static str> {
    match reader.fact(part, m::TEST, ANY)? {
        Fact::Choice(word) => {
            vocabulary::fact_spec(m::TEST).choices().get(usize::from(word)).copied().ok_or_else(Gaps::default)
        }
        _ => no_solution(part, m::TEST),
    }
}

/// What it names as tested; nothing where it names nothing.
fn named(reader: &mut Reader<'_>, part: PartId) -> Outcome<Option<Arc<str>>> {
    if !is_said(reader, part, m::ON)? {
        return Ok(None);
    }
    match reader.fact(part, m::ON, ANY)? {
        Fact::Text(name) => Ok(Some(name)),
        _ => no_solution(part, m::ON),
    }
}

/// Whether a part is called so, by its name or its title.
fn is_called(build: &Build, part: PartId, name: &str) -> bool {
    let own = build.part(part);
    let spec = vocabulary::part(own.kind);
    spec.family != Family::Worked && (own.name.as_deref() == Some(name) || *own.title == *name)
}

/// The run that is written by a part.
fn run_of(build: &Build, part: PartId) -> Option<&Run> {
    build.circuitry().runs.iter().find(|run| run.written == part)
}

/// Whether a test can be made of this part.
fn suits(build: &Build, test: &str, part: PartId) -> bool {
    let of = build.part(part).kind;
    match test {
        "voltage-drop" => run_of(build, part).is_some_and(|run| !run.alternating),
        "insulation" | "earth" => run_of(build, part).is_some_and(|run| run.alternating),
        "trip-time" | "trip-button" => of == kind::AC_BOARD,
        "supply-voltage" => of == kind::INLET,
        "tightness" => of == kind::GAS_LINE,
        "volume" => of == kind::TANK,
        "axle-mass" | "wheel-mass" => of == kind::AXLE || of == kind::COUPLING,
        "vehicle-mass" => of == kind::VEHICLE,
        "charge-voltage" | "charge-current" | "input-current" => CHARGERS.contains(&of),
        _ => true,
    }
}

/// The part that was tested; nothing where none has the name, or the test is of the vehicle as a whole.
fn tested(reader: &mut Reader<'_>, part: PartId) -> Outcome<Option<PartId>> {
    let test = test(reader, part)?;
    let build = reader.build();
    let name = named(reader, part)?;
    let Some(name) = name else {
        return Ok(if test == "vehicle-mass" { build.only(kind::VEHICLE) } else { None });
    };
    Ok(build.parts().map(|(number, _)| number).find(|own| is_called(build, *own, &name) && suits(build, test, *own)))
}

/// Tests of the vehicle as a whole.
const OF_THE_WHOLE: [&str; 4] = ["torque", "heat-picture", "road", "vehicle-mass"];

fn fits(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let test = test(reader, part)?;
    let found = tested(reader, part)?.is_some();
    Ok(Fact::Flag(found || (named(reader, part)?.is_none() && OF_THE_WHOLE.contains(&test))))
}

/// What tells of the same test: its word, what it names, and the side.
type Same = (&'static str, Option<Arc<str>>, Option<u16>);

fn same_test(reader: &mut Reader<'_>, part: PartId) -> Outcome<Same> {
    let side = is_said(reader, part, m::SIDE)?;
    let side = if side { reader.choice(part, m::SIDE, ANY) } else { None };
    Ok((test(reader, part)?, named(reader, part)?, side))
}

fn last(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let own = same_test(reader, part)?;
    let later = reader.build().of_kind(kind::MEASURED).members.clone();
    let later = later.iter().copied().skip_while(|other| *other != part).skip(1);
    Ok(Fact::Flag(!later.into_iter().any(|other| same_test(reader, other).is_ok_and(|other| other == own))))
}

/// The part that was tested, for a test of this word; no solution for another.
fn of_test(reader: &mut Reader<'_>, part: PartId, tests: &[&str], fact: FactId) -> Outcome<(PartId, &'static str)> {
    let test = test(reader, part)?;
    match tested(reader, part)? {
        Some(tested) if tests.contains(&test) => Ok((tested, test)),
        _ => no_solution(part, fact),
    }
}

/// A property of what was tested, by name.
fn entry(
    reader: &mut Reader<'_>,
    tested: PartId,
    name: &str,
    part: PartId,
    fact: FactId,
    case: CaseId,
) -> Outcome<f64> {
    match fact_of(reader.build(), tested, name) {
        Some(entry) => reader.need(tested, entry, case),
        None => no_solution(part, fact),
    }
}

fn most_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = m::MOST_VOLTAGE;
    let (tested, test) = of_test(reader, part, &["voltage-drop", "supply-voltage", "charge-voltage"], fact)?;
    Ok(Fact::Number(match test {
        "voltage-drop" => {
            let Some(run) = run_of(reader.build(), tested) else { return no_solution(part, fact) };
            let drop = reader.need(run.part, f::run::DROP, case)?;
            // Nothing is expected of what carries nothing in normal use.
            if drop <= 0.0 {
                return no_solution(part, fact);
            }
            drop
        }
        "supply-voltage" => {
            let voltage = entry(reader, tested, "voltage", part, fact, case)?;
            reader.step(|| Step::cited("the band of a public supply", &SUPPLY_SOURCE));
            band(voltage, SUPPLY_BAND)[1]
        }
        _ => {
            let combined = reader.build().part(tested).kind == kind::INVERTER_CHARGER;
            entry(reader, tested, if combined { "charge-voltage" } else { "voltage" }, part, fact, case)?
        }
    }))
}

fn least_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (tested, _) = of_test(reader, part, &["supply-voltage"], m::LEAST_VOLTAGE)?;
    let voltage = entry(reader, tested, "voltage", part, m::LEAST_VOLTAGE, case)?;
    reader.step(|| Step::cited("the band of a public supply", &SUPPLY_SOURCE));
    Ok(Fact::Number(band(voltage, SUPPLY_BAND)[0]))
}

fn most_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = m::MOST_CURRENT;
    let (tested, test) = of_test(reader, part, &["charge-current", "input-current"], fact)?;
    let combined = reader.build().part(tested).kind == kind::INVERTER_CHARGER;
    let name = match test {
        "input-current" => "input",
        _ if combined => "charge",
        _ => "output",
    };
    Ok(Fact::Number(entry(reader, tested, name, part, fact, case)?))
}

fn least_resistance(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    of_test(reader, part, &["insulation"], m::LEAST_RESISTANCE)?;
    reader.step(|| Step::cited("the least insulation to earth", &INSULATION_SOURCE));
    Ok(Fact::Number(LEAST_INSULATION))
}

fn most_time(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    of_test(reader, part, &["trip-time"], m::MOST_TIME)?;
    reader.step(|| Step::cited("the longest trip time at the rated current", &TRIP_SOURCE));
    Ok(Fact::Number(LONGEST_TRIP))
}

fn most_lost(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    of_test(reader, part, &["tightness"], m::MOST_LOST)?;
    Ok(Fact::Number(PRESSURE_LOST))
}

fn most_mass(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (tested, test) = of_test(reader, part, &["axle-mass", "vehicle-mass"], m::MOST_MASS)?;
    let name = if test == "axle-mass" { "limit" } else { "gross-mass" };
    Ok(Fact::Number(entry(reader, tested, name, part, m::MOST_MASS, case)?))
}

fn volume(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<[f64; 2]> {
    let (tested, _) = of_test(reader, part, &["volume"], fact)?;
    Ok(band(reader.need(tested, f::tank::VOLUME, case)?, VOLUME_BAND))
}

fn least_volume(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(volume(reader, part, m::LEAST_VOLUME, case)?[0]))
}

fn most_volume(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(volume(reader, part, m::MOST_VOLUME, case)?[1]))
}

/// The bounds of a test: the entry that holds its number, and what that is held against.
fn bounds(test: &str) -> Option<(FactId, Option<FactId>, Option<FactId>)> {
    Some(match test {
        "voltage-drop" | "charge-voltage" => (m::VOLTAGE, None, Some(m::MOST_VOLTAGE)),
        "supply-voltage" => (m::VOLTAGE, Some(m::LEAST_VOLTAGE), Some(m::MOST_VOLTAGE)),
        "charge-current" | "input-current" => (m::CURRENT, None, Some(m::MOST_CURRENT)),
        "insulation" => (m::RESISTANCE, Some(m::LEAST_RESISTANCE), None),
        "trip-time" => (m::TIME, None, Some(m::MOST_TIME)),
        "axle-mass" | "vehicle-mass" => (m::SCALE, None, Some(m::MOST_MASS)),
        "volume" => (m::VOLUME, Some(m::LEAST_VOLUME), Some(m::MOST_VOLUME)),
        "tightness" => (m::LOST, None, Some(m::MOST_LOST)),
        _ => return None,
    })
}

/// Whether it shows no number: its test has none, or only passed or not is written.
fn by_eye(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(match (test(reader, part)?, bounds(test(reader, part)?)) {
        ("wheel-mass", _) => false,
        (_, None) => true,
        (_, Some((entry, ..))) => !is_said(reader, part, entry)? && is_said(reader, part, m::PASSED)?,
    }))
}

/// Whether it is what was expected: its number within its bounds, else what the tester says.
fn as_expected(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let test = test(reader, part)?;
    let said = |reader: &mut Reader<'_>| Ok(Fact::Flag(reader.need_flag(part, m::PASSED, case)?));
    let Some((entry, least, most)) = bounds(test).filter(|(entry, ..)| !reader.silent(part, *entry)) else {
        return said(reader);
    };
    let number = reader.need(part, entry, case)?;
    let mut held = Vec::new();
    for (bound, sign) in [(least, -1.0), (most, 1.0)] {
        let Some(bound) = bound else { continue };
        if let Some(bound) = can_be_told(reader.need(part, bound, case))? {
            held.push(sign * (number - bound) <= ROUNDING * bound.abs());
        }
    }
    if held.is_empty() { said(reader) } else { Ok(Fact::Flag(held.into_iter().all(|held| held))) }
}

/// Values closer to a bound than this part of it are at it: what a reading in other units rounds to.
const ROUNDING: f64 = 1e-9;

fn weighed_beside_model(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(test(reader, part)? == "axle-mass" && tested(reader, part)?.is_some()))
}

/// What was reckoned for an axle as built, kg, and how far that can be off.
fn reckoned(reader: &mut Reader<'_>, part: PartId, fact: FactId) -> Outcome<[f64; 2]> {
    let (axle, _) = of_test(reader, part, &["axle-mass"], fact)?;
    let supports = reader.supports();
    let Some(place) = supports.iter().position(|support| *support == axle) else { return no_solution(part, fact) };
    let loads = reader.loads(AS_BUILT);
    let Some(sum) = loads.supports.get(place) else { return no_solution(part, fact) };
    let value = sum.value.clone()?;
    Ok([value.value, value.bounds.most() - value.value])
}

fn mass_off(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let [reckoned, _] = reckoned(reader, part, m::MASS_OFF)?;
    let weighed = reader.need(part, m::SCALE, case)?;
    reader.step(|| Step::of(format!("weighed {}, reckoned {}", kilograms(weighed), kilograms(reckoned))));
    Ok(Fact::Number((weighed - reckoned).abs()))
}

fn mass_tolerance(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(reckoned(reader, part, m::MASS_TOLERANCE)?[1]))
}
