//! How a protective device is made: for which kind of current, one way or both, holder, reset; and the tables of the United
//! States that ask for more than its conductor's ampacity does.

use super::device::{fed_ends, guarded, written};
use super::run::{number, run};
use super::window::class;
use super::{amperes, fact_of, no_solution, sum};
use crate::binding::{Bindings, Method};
use crate::circuitry::Terminal;
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::{Citation, DeviceClass};
use vocabulary::{FactId, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::device::OPENS_DIRECT, Each(opens_direct)),
        (f::device::POLARISED, Each(polarised)),
        (f::device::TWO_WAY, Each(two_way)),
        (f::device::RESETS_ITSELF, Each(resets_itself)),
        (f::device::HOLDER_SAID, Each(holder_said)),
        (f::device::HOLDER, Each(holder)),
        (f::device::IS_BREAKER, Each(breaker)),
        (f::device::CRANKING_KNOWN, Each(cranking_known)),
        (f::device::CRANKING_NEED, Each(cranking_need)),
        (f::device::PARK_TRAILER_KNOWN, Each(park_trailer_known)),
        (f::device::PARK_TRAILER_LIMIT, Each(park_trailer_limit)),
    ]
}

/// A fact of the part by which a device is written, when anything is written of it.
fn said(reader: &Reader<'_>, part: PartId, name: &str) -> Option<(PartId, FactId)> {
    let from = written(reader, part);
    fact_of(reader.build(), from, name).filter(|fact| !reader.silent(from, *fact)).map(|fact| (from, fact))
}

/// Whether a device is a breaker, and not a fuse.
fn is_breaker(reader: &Reader<'_>, part: PartId) -> bool {
    let from = reader.build().part(written(reader, part));
    match from.kind {
        kind::FUSE => false,
        // A way's fuse and its breaker are two devices, written at two places.
        kind::WAY => !from.given(f::way::FUSE).is_some_and(|given| given.at == reader.build().part(part).head),
        _ => true,
    }
}

fn breaker(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(is_breaker(reader, part)))
}

/// Whether a device is made to open direct current: as said, else by its class. How far, its rated voltage says.
fn opens_direct(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if !is_breaker(reader, part) {
        return Ok(Fact::Flag(true));
    }
    if let Some((from, fact)) = said(reader, part, "for") {
        return Ok(Fact::Flag(reader.need_word(from, fact, case)? != "alternating"));
    }
    let from = written(reader, part);
    let entry = fact_of(reader.build(), from, "for").map(|fact| Gap::Entry(from, fact));
    match class(reader, part, case)? {
        Some(DeviceClass::Breaker60898) => {
            reader.step(|| Step::of("class mcb: made for alternating current (IEC 60898-1, second-hand)"));
            Ok(Fact::Flag(false))
        }
        Some(DeviceClass::BreakerMouldedCase) => match entry {
            Some(entry) => Err(Gaps::one(entry)),
            None => no_solution(part, f::device::OPENS_DIRECT),
        },
        Some(_) => Ok(Fact::Flag(true)),
        None => {
            let class = fact_of(reader.build(), from, "class").map(|fact| Gap::Entry(from, fact));
            let gaps: Vec<Gap> = entry.into_iter().chain(class).collect();
            if gaps.is_empty() { no_solution(part, f::device::OPENS_DIRECT) } else { Err(Gaps(vec![AnyOf(gaps)])) }
        }
    }
}

/// The classes of breakers that are often polarised, so that it must be said of them.
const OFTEN_POLARISED: [DeviceClass; 3] =
    [DeviceClass::Breaker60898, DeviceClass::Breaker60898Direct, DeviceClass::BreakerMouldedCase];

/// Whether the terminals of a device must not be changed: as said; of the classes that are often made so it must be said.
fn polarised(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if !is_breaker(reader, part) {
        return Ok(Fact::Flag(false));
    }
    if let Some((from, fact)) = said(reader, part, "polarised") {
        return reader.fact(from, fact, case);
    }
    let from = written(reader, part);
    match (class(reader, part, case)?, fact_of(reader.build(), from, "polarised")) {
        (Some(class), Some(fact)) if OFTEN_POLARISED.contains(&class) => Err(Gaps::one(Gap::Entry(from, fact))),
        _ => {
            reader.step(|| Step::assumed("not said to be polarised", "panel breakers seldom are (common practice)"));
            Ok(Fact::Flag(false))
        }
    }
}

/// Whether current can come to a device from both sides.
fn two_way(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::device::TWO_WAY)?;
    Ok(Fact::Flag(fed_ends(reader, run, case)?.len() > 1))
}

fn resets_itself(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    match said(reader, part, "reset") {
        Some((from, fact)) => Ok(Fact::Flag(reader.need_word(from, fact, case)? == "automatic")),
        None => Ok(Fact::Flag(false)),
    }
}

fn holder_said(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let from = written(reader, part);
    let said = fact_of(reader.build(), from, "holder").map(|holder| super::is_said(reader, from, holder));
    Ok(Fact::Flag(said.transpose()?.unwrap_or(false)))
}

fn holder(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    match said(reader, part, "holder") {
        Some((from, fact)) => reader.fact(from, fact, case),
        None => no_solution(part, f::device::HOLDER),
    }
}

/// The highest nominal voltage of the table of breakers by cold-cranking current, V: it is printed for 12 and 24 V.
const CRANKING_TABLE: f64 = 30.0;

/// The batteries that feed a device.
fn batteries(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Vec<PartId>> {
    let run = run(reader, part, fact)?;
    let index = number(reader, part);
    let mut batteries: Vec<PartId> = Vec::new();
    for end in fed_ends(reader, run, case)? {
        let behind: Vec<(usize, Terminal)> = reader.build().circuitry().sources_behind(index, end).collect();
        for (_, terminal) in behind {
            if reader.build().part(terminal.thing).kind == kind::BATTERY && !batteries.contains(&terminal.thing) {
                batteries.push(terminal.thing);
            }
        }
    }
    Ok(batteries)
}

/// Whether the table by cold-cranking current can be read for a device.
fn cranking_known(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::CRANKING_KNOWN;
    if !is_breaker(reader, part) || run(reader, part, fact)?.alternating {
        return Ok(Fact::Flag(false));
    }
    let batteries = batteries(reader, part, fact, case)?;
    let mut gaps = Gaps::default();
    for battery in &batteries {
        if reader.silent(*battery, f::battery::CRANKING) {
            return Ok(Fact::Flag(false));
        }
        match reader.need(*battery, f::battery::VOLTAGE, case) {
            Ok(volts) if volts > CRANKING_TABLE => return Ok(Fact::Flag(false)),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(!batteries.is_empty())) } else { Err(gaps) }
}

/// The least interrupting rating of a breaker, A, by the cold-cranking current of its batteries: as a main breaker where its run
/// ends at a battery, else as a branch breaker.
fn cranking_need(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::CRANKING_NEED;
    let batteries = batteries(reader, part, fact, case)?;
    let values: Vec<_> = batteries.iter().map(|battery| reader.need(*battery, f::battery::CRANKING, case)).collect();
    let cranking = sum(values)?;
    let ends = run(reader, part, fact)?.ends;
    let mut main = false;
    for end in ends {
        main |= reader.need_flag(end, f::run_end::BATTERY_ADJACENT, case)?;
    }
    let Some(capacity) = calc::breaker_capacity_by_cranking(cranking) else { return no_solution(part, fact) };
    let need = if main { capacity.main } else { capacity.branch };
    reader.step(|| {
        let place = if main { "main" } else { "branch" };
        let text = format!("{} of cold-cranking current: a {place} breaker opens {}", amperes(cranking), amperes(need));
        Step::cited(text, capacity.citation)
    });
    Ok(Fact::Number(need))
}

/// The least limit of the table for park trailers over the conductors that a device protects, A; nothing where the table has
/// none for them.
fn by_park_trailer(
    reader: &mut Reader<'_>,
    part: PartId,
    fact: FactId,
    case: CaseId,
) -> Outcome<Option<(f64, &'static Citation)>> {
    let mut least: Option<(f64, &'static Citation)> = None;
    for conductor in guarded(reader, part, fact, case)? {
        let size = super::conductor::conductor_size(super::conductor::size(reader, conductor)?);
        if let Some(limit) = calc::park_trailer_limit(size)
            && least.is_none_or(|least| limit.0 < least.0)
        {
            least = Some(limit);
        }
    }
    Ok(least)
}

fn park_trailer_known(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::PARK_TRAILER_KNOWN;
    let run = run(reader, part, fact)?;
    let Some(vehicle) = reader.build().only(kind::VEHICLE).filter(|_| !run.alternating) else {
        return Ok(Fact::Flag(false));
    };
    if reader.silent(vehicle, f::vehicle::CLASS) || reader.need_word(vehicle, f::vehicle::CLASS, case)? != "trailer" {
        return Ok(Fact::Flag(false));
    }
    Ok(Fact::Flag(by_park_trailer(reader, part, fact, case)?.is_some()))
}

fn park_trailer_limit(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::PARK_TRAILER_LIMIT;
    let Some((limit, citation)) = by_park_trailer(reader, part, fact, case)? else { return no_solution(part, fact) };
    reader.step(|| Step::cited(format!("at most {}", amperes(limit)), citation));
    Ok(Fact::Number(limit))
}
