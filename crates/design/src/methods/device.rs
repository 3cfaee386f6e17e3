//! What is said of a protective device, wherever it is written, and what it has to protect and to open.

use super::run::run;
use super::run_end::open_end;
use super::{Strength, amperes, fact_of, least, no_solution, volts};
use crate::circuitry::{End, Piece, Run};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId, Tri};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::{ClassRating, DeviceClass};
use vocabulary::{FactId, fact as f, kind};

/// The part by which it is written.
pub(super) fn written(reader: &Reader<'_>, part: PartId) -> PartId {
    reader.build().circuitry().written(part)
}

/// Its title.
pub fn title(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Text(reader.build().part(part).title.clone()))
}

/// Direct or alternating current.
pub fn current_kind(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Choice(u16::from(run(reader, part, f::device::CURRENT_KIND)?.alternating)))
}

/// Rated current, A.
pub fn rating(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let from = written(reader, part);
    match reader.build().part(from).kind {
        kind::FUSE => reader.fact(from, f::fuse::RATING, case),
        kind::BREAKER => reader.fact(from, f::breaker::RATING, case),
        kind::AC_BOARD => reader.fact(from, f::ac_board::MAIN, case),
        kind::TO => reader.fact(from, f::to::BREAKER, case),
        kind::WAY => {
            // A way's fuse and its breaker are two devices, written at two places.
            let head = &reader.build().part(part).head;
            let is_fuse = reader.build().part(from).given(f::way::FUSE).is_some_and(|given| given.at == *head);
            reader.fact(from, if is_fuse { f::way::FUSE } else { f::way::BREAKER }, case)
        }
        _ => no_solution(part, f::device::RATING),
    }
}

/// Where a property of the device may be said: on itself, else on its panel under the panel's name for it.
pub(super) fn places(reader: &Reader<'_>, part: PartId, own: &str, on_panel: &str) -> Vec<(PartId, FactId)> {
    let from = written(reader, part);
    let mut places: Vec<(PartId, FactId)> = Vec::new();
    if reader.build().part(from).kind != kind::AC_BOARD {
        places.extend(fact_of(reader.build(), from, own).map(|fact| (from, fact)));
    }
    let way = reader.build().part(from);
    // A way with a device of another class than its panel's has none of what the panel says of its devices.
    let as_panel = way.kind == kind::WAY && way.given(f::way::CLASS).is_none();
    if let Some(panel) = way.outer.filter(|_| as_panel) {
        places.extend(fact_of(reader.build(), panel, on_panel).map(|fact| (panel, fact)));
    }
    places
}

/// The part on which its class is said, or is to be said: itself, else its panel.
pub fn class_from(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let places = places(reader, part, "class", "fuse-class");
    Ok(Fact::Part(places.last().map_or_else(|| written(reader, part), |(place, _)| *place)))
}

/// The first of these places that says it.
fn first_said(reader: &mut Reader<'_>, places: &[(PartId, FactId)], case: CaseId) -> Option<Outcome> {
    for (place, fact) in places {
        if reader.build().part(*place).given(*fact).is_some() {
            return Some(reader.fact(*place, *fact, case));
        }
    }
    None
}

/// Any of these places settles it; the text itself, where the line of one could not be read; and nothing that can be
/// written, where there is no such place.
fn unsaid(
    reader: &Reader<'_>,
    device: PartId,
    fact: FactId,
    places: &[(PartId, FactId)],
    more: &[(PartId, FactId)],
) -> Gaps {
    let places = || places.iter().chain(more).copied();
    if let Some((unread, _)) = places().find(|(part, _)| reader.build().part(*part).unread) {
        return Gaps::one(Gap::Unread(unread));
    }
    let entries: Vec<Gap> = places().map(|(part, fact)| Gap::Entry(part, fact)).collect();
    if entries.is_empty() { Gaps::one(Gap::NoSolution(device, fact)) } else { Gaps(vec![AnyOf(entries)]) }
}

/// What its class's standard gives, when the class is said.
fn class(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Option<(DeviceClass, ClassRating)> {
    let places = places(reader, part, "class", "fuse-class");
    let (place, fact) = *places.iter().find(|(place, fact)| reader.build().part(*place).given(*fact).is_some())?;
    let word = reader.need_word(place, fact, case).ok()?;
    let class = DeviceClass::from_word(word)?;
    Some((class, calc::class_rating(class)))
}

/// The value that the device or its panel says, else its class's for its kind of current.
fn said_or_class(
    reader: &mut Reader<'_>,
    part: PartId,
    (fact, case): (FactId, CaseId),
    names: (&str, &str),
    of_class: impl Fn(&ClassRating, bool) -> Option<f64>,
    show: fn(f64) -> String,
) -> Outcome {
    let said = places(reader, part, names.0, names.1);
    if let Some(said) = first_said(reader, &said, case) {
        if let Ok(Fact::Number(value)) = &said {
            let value = *value;
            reader.step(|| Step::of(format!("{}, from its data sheet", show(value))));
        }
        return said;
    }
    let alternating = reader.build().circuitry().run(part).is_some_and(|run| run.alternating);
    let classes = places(reader, part, "class", "fuse-class");
    match class(reader, part, case) {
        Some((class, rating)) => match of_class(&rating, alternating) {
            Some(value) => {
                reader.step(|| Step::cited(format!("class {}: {}", class.word(), show(value)), rating.citation));
                Ok(Fact::Number(value))
            }
            None => Err(unsaid(reader, part, fact, &said, &[])),
        },
        None => Err(unsaid(reader, part, fact, &said, &classes)),
    }
}

/// The largest current that it opens safely, A.
pub fn interrupting(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let of_class = |rating: &ClassRating, alternating| {
        if alternating { rating.alternating_interrupting } else { rating.interrupting }
    };
    said_or_class(reader, part, (f::device::INTERRUPTING, case), ("interrupting", "interrupting"), of_class, amperes)
}

/// Rated voltage, V.
pub fn voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let of_class = |rating: &ClassRating, alternating| {
        if alternating { rating.alternating_voltage } else { rating.direct_voltage }
    };
    said_or_class(reader, part, (f::device::VOLTAGE, case), ("voltage", "device-voltage"), of_class, volts)
}

/// The highest voltage on its circuit, V.
pub fn circuit_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::device::CIRCUIT_VOLTAGE)?.part;
    reader.fact(run, f::run::HIGHEST_VOLTAGE, case)
}

/// The ends of its run behind which sources stand; what would settle it, as soon as it is open for one of them.
pub(super) fn fed_ends(reader: &mut Reader<'_>, run: &Run, case: CaseId) -> Outcome<Vec<End>> {
    let mut fed = Vec::new();
    let mut gaps = Gaps::default();
    for (end, part) in End::BOTH.into_iter().zip(run.ends) {
        match reader.need_flag(part, f::run_end::FED, case) {
            Ok(true) => fed.push(end),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(fed) } else { Err(gaps) }
}

/// Whether a source can drive a fault current through it.
pub fn protects(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::device::PROTECTS)?;
    let fed = fed_ends(reader, run, case);
    // One end that is fed decides, whatever is not known of the other.
    let decided = run.ends.iter().any(|end| reader.flag(*end, f::run_end::FED, case) == Tri::Yes);
    Ok(Fact::Flag(decided || !fed?.is_empty()))
}

/// The conductors that a device protects against sources behind an end: those beyond it up to the next device, and, where
/// it is the first that the current meets, those before it too, since it limits their load.
fn covered(run: &Run, device: PartId, end: End) -> Vec<PartId> {
    let mut covered = Vec::new();
    let mut before = Vec::new();
    let mut first = true;
    let mut beyond = false;
    for piece in run.pieces_from(end) {
        match piece {
            Piece::Device(other) if other == device => {
                beyond = true;
                if first {
                    covered.append(&mut before);
                }
            }
            Piece::Device(_) if beyond => break,
            Piece::Device(_) => first = false,
            Piece::Conductor(conductor) if beyond => covered.push(conductor),
            Piece::Conductor(conductor) => before.push(conductor),
            Piece::Switch(_) | Piece::Through(_) => {}
        }
    }
    covered
}

/// The conductors that it protects against any source.
pub(super) fn guarded(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Vec<PartId>> {
    let run = run(reader, part, fact)?;
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(run.written)));
    }
    let mut conductors: Vec<PartId> = Vec::new();
    for end in fed_ends(reader, run, case)? {
        conductors.extend(covered(run, part, end));
    }
    Ok(conductors)
}

/// Whether it protects any conductor of its run against a source. A run without any conductor does not yet say what it is made
/// of, so that its devices count as guards of what is missing.
pub fn guards_conductor(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::GUARDS_CONDUCTOR;
    if run(reader, part, fact)?.conductors().next().is_none() {
        return protects(reader, part, case);
    }
    Ok(Fact::Flag(!guarded(reader, part, fact, case)?.is_empty()))
}

/// The ampacity of the weakest conductor that it protects, A.
pub fn protected_ampacity(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::PROTECTED_AMPACITY;
    let conductors = guarded(reader, part, fact, case)?;
    let run = run(reader, part, fact)?;
    let values: Vec<_> =
        conductors.iter().map(|conductor| reader.need(*conductor, f::conductor::AMPACITY, case)).collect();
    match least(values)? {
        Some(weakest) => {
            reader.step(|| Step::of(format!("the weakest conductor that it protects carries {}", amperes(weakest))));
            Ok(Fact::Number(weakest))
        }
        None => Err(Gaps::one(Gap::Absent(run.written, kind::WIRE))),
    }
}

/// The largest current that can flow through it, A.
pub fn fault_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    through(reader, part, case, Strength::Most, "largest fault current")
}

/// The fault current that the device is judged by, A. The largest that can flow decides for it. Against it decides the
/// largest only when every battery's resistance is said; else the current that the weakest of such batteries still drive.
/// Where neither decides, the resistances are what is missing: an assumption can show that a device is enough, and not that
/// it is too little.
pub fn decisive_fault_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let most = reader.need(part, f::device::FAULT_CURRENT, case)?;
    let network = reader.fault_network(Strength::Most);
    let (Some(assumed), Ok(interrupting)) = (network.assumed(part), reader.need(part, f::device::INTERRUPTING, case))
    else {
        return Ok(Fact::Number(most));
    };
    if most <= interrupting {
        return Ok(Fact::Number(most));
    }
    let (least, _) = reader.fault_network(Strength::Least).through(part)?;
    if least <= interrupting {
        return Err(assumed.clone());
    }
    through(reader, part, case, Strength::Least, "fault current with the weakest such batteries")
}

fn through(reader: &mut Reader<'_>, part: PartId, case: CaseId, strength: Strength, what: &str) -> Outcome {
    let run = run(reader, part, f::device::FAULT_CURRENT)?;
    if run.alternating {
        // The network of direct current does not hold it.
        return no_solution(part, f::device::FAULT_CURRENT);
    }
    let open: Vec<Gaps> = End::BOTH.into_iter().filter_map(|end| open_end(reader, run, end)).collect();
    if let Some(gaps) = open.first() {
        return Err(gaps.clone());
    }
    let faults = reader.fault_network(strength);
    let (current, contributions) = faults.through(part)?;
    if current <= 0.0 {
        // Nothing drives a current here: what would is missing, and no device is enough for that.
        return Err(Gaps::one(Gap::Absent(Build::ROOT, kind::BATTERY)));
    }
    for line in contributions {
        reader.step(|| Step::of(line));
    }
    let assumed = faults.assumed(part).is_some();
    // Read again, so that the working shows what is assumed of each battery.
    for gap in faults.assumed(part).iter().flat_map(|gaps| &gaps.0).flat_map(|any| &any.0) {
        if let Gap::Entry(battery, _) = gap {
            let resistance = match strength {
                Strength::Most => f::battery::RESISTANCE,
                Strength::Least => f::battery::RESISTANCE_AT_MOST,
            };
            let _ = reader.need(*battery, resistance, case);
        }
    }
    reader.step(|| Step {
        assumed,
        ..Step::of(format!(
            "{what} {}: copper at 20 °C, full charge, every source in parallel, no management system relied on",
            amperes(current)
        ))
    });
    Ok(Fact::Number(current))
}
