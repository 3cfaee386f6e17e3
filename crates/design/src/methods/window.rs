//! The window in which the rating of a protective device must lie, and how it is made.

use super::device::{fed_ends, places, written};
use super::run::{number, run};
use super::{amperes, doubt, fact_of, no_solution};
use crate::binding::{Bindings, Method};
use crate::circuitry::Terminal;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::{Citation, DeviceClass};
use vocabulary::{FactId, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::run::CONTINUOUS, Each(continuous)),
        (f::device::LOAD, Each(load)),
        (f::device::NEEDED_RATING, Each(needed_rating)),
        (f::device::SMALLEST_FITTING, Each(smallest_fitting)),
        (f::device::LARGEST_FITTING, Each(largest_fitting)),
        (f::device::LARGEST_ALLOWED, Each(largest_allowed)),
        (f::device::MOTOR_PROOF, Each(motor_proof)),
    ]
}

/// What takes current beyond a run, seen from any end that is fed.
fn beyond(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Vec<Terminal>> {
    let run = run(reader, part, fact)?;
    let index = number(reader, part);
    let mut things: Vec<Terminal> = Vec::new();
    for end in fed_ends(reader, run, case)? {
        let nodes = reader.build().circuitry().behind(index, end.other());
        if let Some(node) = nodes.first() {
            let gaps = doubt::of_anything(reader, *node);
            if !gaps.is_empty() {
                return Err(gaps);
            }
        }
        things.extend(reader.build().circuitry().terminals(&nodes));
    }
    things.dedup();
    Ok(things)
}

/// Whether a thing beyond a run is said to run at full current for three hours or more.
fn continuous(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let mut gaps = Gaps::default();
    for terminal in beyond(reader, part, f::run::CONTINUOUS, case)? {
        let Some(fact) = fact_of(reader.build(), terminal.thing, "continuous") else { continue };
        if reader.silent(terminal.thing, fact) {
            continue;
        }
        match reader.need_flag(terminal.thing, fact, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// The largest current of the run of a device, A.
fn load(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::device::LOAD)?.part;
    reader.fact(run, f::run::DESIGN_CURRENT, case)
}

/// The load of a device and whether it is continuous.
fn burden(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<(f64, bool)> {
    let run = run(reader, part, fact)?.part;
    let load = reader.need(part, f::device::LOAD, case);
    super::battery::both(load, reader.need_flag(run, f::run::CONTINUOUS, case))
}

/// What a device must be rated for its load, A (NEC 210.20 and 215.3, 125 % of a continuous load).
fn needed_rating(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (load, continuous) = burden(reader, part, f::device::NEEDED_RATING, case)?;
    let needed = calc::minimum_rating(load, continuous);
    if continuous {
        reader.step(|| Step::of(format!("125 % of {} for three hours or more: {}", amperes(load), amperes(needed))));
    }
    Ok(Fact::Number(needed))
}

/// The smallest usual rating that carries the load, A.
fn smallest_fitting(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let (load, continuous) = burden(reader, part, f::device::SMALLEST_FITTING, case)?;
    let nec = super::regions(reader, case)?.us;
    usual(reader, part, f::device::SMALLEST_FITTING, calc::smallest_rating_for_load(nec, load, continuous))
}

/// A rating from the list of usual ones.
fn usual(reader: &mut Reader<'_>, part: PartId, fact: FactId, rating: Option<f64>) -> Outcome {
    let Some(rating) = rating else { return no_solution(part, fact) };
    let citation = calc::standard_ratings_citation(reader.build().regions.us);
    reader.step(|| Step::cited(format!("usual rating {}", amperes(rating)), citation));
    Ok(Fact::Number(rating))
}

/// The largest usual rating that every region of the build allows for the conductor, A.
fn largest_fitting(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let most = reader.need(part, f::device::LARGEST_ALLOWED, case)?;
    let nec = super::regions(reader, case)?.us;
    usual(reader, part, f::device::LARGEST_FITTING, calc::largest_rating_within(nec, most))
}

/// The largest device that every region of the build allows, A: the ampacity; where only texts of the United States count, of
/// direct current by 33 CFR 183.455(c), of alternating current the next standard size (NEC 240.4(B)).
fn largest_allowed(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::LARGEST_ALLOWED;
    let ampacity = reader.need(part, f::device::PROTECTED_AMPACITY, case)?;
    if super::regions(reader, case)?.outside_us() {
        return Ok(Fact::Number(ampacity));
    }
    let (most, citation): (Option<f64>, &Citation) = if run(reader, part, fact)?.alternating {
        let several = several_outlets(reader, part, case)?;
        (Some(calc::next_size_up(ampacity, several).unwrap_or(ampacity)), &calc::NEXT_SIZE_UP)
    } else {
        let voltage = reader.need(part, f::device::CIRCUIT_VOLTAGE, case)?;
        (calc::largest_device_boat(ampacity, voltage), &calc::BOAT_DEVICE)
    };
    let Some(most) = most else { return no_solution(part, fact) };
    reader.step(|| Step::cited(format!("at most {} for {}", amperes(most), amperes(ampacity)), citation));
    Ok(Fact::Number(most))
}

/// Whether the run of a device leads to more than one outlet for portable loads; not said counts as several.
fn several_outlets(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<bool> {
    let run = run(reader, part, f::device::LARGEST_ALLOWED)?;
    let nodes: Vec<usize> = run.nodes.into_iter().flatten().collect();
    let outlets: Vec<PartId> = reader.build().circuitry().terminals(&nodes).map(|terminal| terminal.thing).collect();
    for thing in outlets {
        if reader.build().part(thing).kind == kind::OUTLETS
            && (reader.silent(thing, f::outlets::COUNT) || reader.need(thing, f::outlets::COUNT, case)? > 1.0)
        {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Whether only motors lie beyond a device, and a paper shows that they open it when they cannot turn.
fn motor_proof(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let from = written(reader, part);
    let Some(proof) = fact_of(reader.build(), from, "locked-rotor-proof") else { return Ok(Fact::Flag(false)) };
    if reader.silent(from, proof) {
        return Ok(Fact::Flag(false));
    }
    reader.fact(from, proof, case)?;
    let mut gaps = Gaps::default();
    let mut motors = 0;
    for terminal in beyond(reader, part, f::device::MOTOR_PROOF, case)? {
        let Some(taken) = super::flow::taken(reader, terminal, case) else { continue };
        let motor = fact_of(reader.build(), terminal.thing, "motor");
        let is_motor = match motor {
            Some(motor) if !reader.silent(terminal.thing, motor) => reader.need_flag(terminal.thing, motor, case),
            _ => Ok(reader.build().part(terminal.thing).kind == kind::PUMP),
        };
        let _ = taken;
        match is_motor {
            Ok(true) => motors += 1,
            Ok(false) => return Ok(Fact::Flag(false)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(motors > 0)) } else { Err(gaps) }
}

/// The class of a device, when it is said.
pub(super) fn class(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Option<DeviceClass>> {
    for (place, fact) in places(reader, part, "class", "fuse-class") {
        if !reader.silent(place, fact) {
            return Ok(DeviceClass::from_word(reader.need_word(place, fact, case)?));
        }
    }
    Ok(None)
}
