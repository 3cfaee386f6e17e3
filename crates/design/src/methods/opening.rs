//! Whether a protective device opens on the smallest fault at the end of its run, when, and whether its conductors stand it until then.

use super::device::{fed_ends, guarded, written};
use super::drop::Toward;
use super::run::{number, run};
use super::solved::{self, Bound, Weakest, resistance_of_run};
use super::window::class;
use super::{amperes, can_be_told, fact_of, no_solution, ohms, show, sum, volts};
use crate::binding::{Bindings, Method};
use crate::circuitry::{End, Piece, Run, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::BreakerCurve;
use calc::time_current::{Device, area_between, current_that_is_carried, current_that_opens, opens_within};
use quantity::Dimension;
use vocabulary::{FactId, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::device::OPENING_KNOWN, Each(opening_known)),
        (f::device::OPENING_CURRENT, Each(opening_current)),
        (f::device::OPENING_TIME, Each(opening_time)),
        (f::device::SMALLEST_FAULT_CURRENT, Each(smallest_fault_current)),
        (f::device::WITHSTAND_KNOWN, Each(withstand_known)),
        (f::device::AREA_FOR_FAULT, Each(area_for_fault)),
        (f::device::GUARDED_AREA, Each(guarded_area)),
        (f::device::STANDS_FAULT, Each(stands_fault)),
    ]
}

/// The time in which a fault is to be cleared, s. Chosen: a conductor at its full fault current is then still far from burning.
const IN_TIME: f64 = 10.0;

/// A device as its bands know it; nothing where its class is not said.
pub(super) fn banded(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Option<Device>> {
    let Some(class) = class(reader, part, case)? else { return Ok(None) };
    let from = written(reader, part);
    let curve = match fact_of(reader.build(), from, "curve") {
        Some(curve) if !reader.silent(from, curve) => BreakerCurve::from_word(reader.need_word(from, curve, case)?),
        _ => None,
    };
    let rating = reader.need(part, f::device::RATING, case)?;
    Ok(Some(Device { class, curve, rating }))
}

/// The current from which a device surely opens in time, A, with its step; nothing where its class promises none.
fn opens_from(device: Device) -> Option<(f64, Step)> {
    if let Some(found) = current_that_opens(device, IN_TIME) {
        let text = format!("opens within {IN_TIME} s from {} on", amperes(found.amperes));
        return Some((found.amperes, Step::cited(text, found.citation)));
    }
    let (multiple, citation) = calc::opening_multiple(device.class, device.curve)?;
    let opening = multiple * device.rating;
    let text = format!("{multiple} × {} = {}", amperes(device.rating), amperes(opening));
    Some((opening, Step::cited(text, citation)))
}

/// The current that a device without such a promise carries for longer, A, with its step.
fn carries_up_to(device: Device) -> Option<(f64, Step)> {
    let found = current_that_is_carried(device, IN_TIME)?;
    let text = format!("carries {} for longer than {IN_TIME} s", amperes(found.amperes));
    Some((found.amperes, Step::cited(text, found.citation)))
}

/// Whether a battery drives the fault current of a device.
fn by_battery(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<bool> {
    let run = run(reader, part, fact)?;
    if run.alternating {
        return Ok(false);
    }
    let index = number(reader, part);
    let ends = fed_ends(reader, run, case)?;
    Ok(ends.into_iter().any(|end| reader.way_back(index, end, Toward::Battery).is_some()))
}

/// Whether it can be told that a device opens in time, or that it does not.
fn opening_known(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::OPENING_KNOWN;
    if run(reader, part, fact)?.alternating {
        return Ok(Fact::Flag(false));
    }
    let Some(device) = banded(reader, part, case)? else { return Ok(Fact::Flag(false)) };
    let promised = opens_from(device).is_some();
    let carried = carries_up_to(device).map(|(carried, _)| carried);
    if !promised && carried.is_none() || !by_battery(reader, part, fact, case)? {
        return Ok(Fact::Flag(false));
    }
    // Without a promise only a fault that it surely carries decides.
    let smallest = |reader: &mut Reader<'_>| reader.need(part, f::device::SMALLEST_FAULT_CURRENT, case);
    Ok(Fact::Flag(promised || smallest(reader).is_ok_and(|fault| carried.is_some_and(|carried| fault < carried))))
}

fn opening_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let device = banded(reader, part, case)?;
    let Some((current, step)) = device.and_then(|device| opens_from(device).or_else(|| carries_up_to(device))) else {
        return no_solution(part, f::device::OPENING_CURRENT);
    };
    reader.step(|| step);
    Ok(Fact::Number(current))
}

/// The longest time in which a device opens on the smallest fault, s.
fn opening_time(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::OPENING_TIME;
    let Some(device) = banded(reader, part, case)? else { return no_solution(part, fact) };
    let fault = reader.need(part, f::device::SMALLEST_FAULT_CURRENT, case)?;
    let Some(time) = opens_within(device, fault) else { return no_solution(part, fact) };
    reader.step(|| {
        let seconds = show(time.seconds, Dimension::TIME);
        Step::cited(format!("at {} it has opened after {seconds}", amperes(fault)), time.citation)
    });
    Ok(Fact::Number(time.seconds))
}

/// A battery as the weakest source of a fault: nearly empty, at the most that its resistance can be.
fn weakest(reader: &mut Reader<'_>, battery: Terminal, case: CaseId) -> Outcome<Weakest> {
    let part = battery.thing;
    let voltage = reader.need(part, f::battery::LOWEST_VOLTAGE, case);
    let inside = reader.need(part, f::battery::RESISTANCE_AT_MOST, case);
    let (volts, ohms) = super::battery::both(voltage, inside)?;
    let node = reader.build().circuitry().node_at.get(&battery).copied().unwrap_or(usize::MAX);
    Ok(Weakest { node, volts, ohms })
}

/// The current of a dead short at the end of the run of a device, A: hot copper, contacts at their worst, one battery alone and empty;
/// the least of the ends from which a battery drives it. Along one way it is the sum of the way; in a mesh the network is solved.
fn smallest_fault_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::SMALLEST_FAULT_CURRENT;
    let own = run(reader, part, fact)?;
    let index = number(reader, part);
    let mut least: Option<f64> = None;
    for end in fed_ends(reader, own, case)? {
        let Some(back) = reader.way_back(index, end, Toward::Battery) else { continue };
        let (way, battery) = &*back;
        let circuitry = reader.build().circuitry();
        let runs: Vec<&Run> = way.iter().rev().chain([&own.part]).filter_map(|part| circuitry.run(*part)).collect();
        let meshed = runs.iter().any(|run| solved::is_meshed(circuitry, number(reader, run.part)));
        let source = weakest(reader, *battery, case);
        let copper: Vec<_> = runs.iter().map(|run| resistance_of_run(reader, run, Bound::Most, case)).collect();
        let (source, resistance) = super::battery::both(source, sum(copper))?;
        let Weakest { volts: voltage, ohms: inside, .. } = source;
        let current = if meshed {
            match solved::smallest(reader, index, end.other(), source, case) {
                Ok(current) => current,
                Err(gaps) if gaps.is_empty() => return no_solution(part, fact),
                Err(gaps) => return Err(gaps),
            }
        } else {
            match calc::smallest_fault_current(voltage, inside, resistance) {
                Some(current) => current,
                None => return no_solution(part, fact),
            }
        };
        reader.step(|| {
            let (voltage, inside, resistance) = (volts(voltage), ohms(inside), ohms(resistance));
            Step::of(if meshed {
                format!("{voltage} behind {inside} in the battery, over all ways of the mesh: {}", amperes(current))
            } else {
                format!("{voltage} ÷ ({inside} in the battery + {resistance} on the way) = {}", amperes(current))
            })
        });
        // A mesh feeds a run from both of its ends: the short that concerns it is at the end from which it is the way, where it carries more.
        let in_mesh = solved::is_meshed(circuitry, index);
        let pick = if in_mesh { f64::max } else { f64::min };
        least = Some(least.map_or(current, |least: f64| pick(least, current)));
    }
    match least {
        Some(least) => Ok(Fact::Number(least)),
        None => Err(Gaps::one(Gap::Absent(Build::ROOT, kind::BATTERY))),
    }
}

/// The conductors beyond a device, seen from an end, up to the next device.
fn beyond(run: &Run, device: PartId, end: End) -> Vec<PartId> {
    let pieces = run.pieces_from(end);
    let after = pieces.iter().skip_while(|piece| **piece != Piece::Device(device)).skip(1);
    after
        .take_while(|piece| !matches!(piece, Piece::Device(_)))
        .filter_map(|piece| match piece {
            Piece::Conductor(conductor) => Some(*conductor),
            _ => None,
        })
        .collect()
}

/// The conductor beyond a device that is nearest to failing while a fault flows: what it would have to measure and what it measures, m²; nothing
/// where the time of the device is not known.
fn withstand(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Option<(f64, f64)>> {
    let own = run(reader, part, fact)?;
    if own.alternating || !by_battery(reader, part, fact, case)? {
        return Ok(None);
    }
    let Some(device) = banded(reader, part, case)? else { return Ok(None) };
    let guarded = guarded(reader, part, fact, case)?;
    let ends = fed_ends(reader, own, case)?;
    let conductors = ends.into_iter().flat_map(|end| beyond(own, part, end)).filter(|one| guarded.contains(one));
    let conductors: Vec<PartId> = conductors.collect();
    if conductors.is_empty() {
        return Ok(None);
    }
    let smallest = reader.need(part, f::device::SMALLEST_FAULT_CURRENT, case);
    let (smallest, largest) = super::battery::both(smallest, reader.need(part, f::device::FAULT_CURRENT, case))?;
    let mut worst: Option<(f64, f64)> = None;
    for conductor in conductors {
        let insulation = reader.need(conductor, f::conductor::INSULATION, case);
        let (insulation, area) = super::battery::both(insulation, reader.need(conductor, f::conductor::AREA, case))?;
        let copper = reader.need_word(conductor, f::conductor::MATERIAL, case)? == "copper";
        let Some((k, citation)) = calc::adiabatic_k_by_class(insulation).filter(|_| copper) else { return Ok(None) };
        let Some(needed) = area_between(device, smallest, largest.max(smallest), k) else { return Ok(None) };
        reader.step(|| {
            let text = format!(
                "from {} to {} it lets through what {} stands",
                amperes(smallest),
                amperes(largest),
                show(needed, Dimension::AREA)
            );
            Step::cited(text, citation)
        });
        if worst.is_none_or(|(most, has)| needed * has > most * area) {
            worst = Some((needed, area));
        }
    }
    Ok(worst)
}

fn withstand_known(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let known = can_be_told(withstand(reader, part, f::device::WITHSTAND_KNOWN, case))?;
    Ok(Fact::Flag(known.flatten().is_some()))
}

fn area_for_fault(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::AREA_FOR_FAULT;
    withstand(reader, part, fact, case)?.map_or_else(|| no_solution(part, fact), |(needed, _)| Ok(Fact::Number(needed)))
}

fn guarded_area(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::GUARDED_AREA;
    withstand(reader, part, fact, case)?.map_or_else(|| no_solution(part, fact), |(_, area)| Ok(Fact::Number(area)))
}

fn stands_fault(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::STANDS_FAULT;
    let worst = withstand(reader, part, fact, case)?;
    worst.map_or_else(|| no_solution(part, fact), |(needed, area)| Ok(Fact::Flag(area >= needed)))
}
