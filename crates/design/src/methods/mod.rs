//! How each worked-out fact follows from others, by the functions of `calc`. One file for each part kind or subject.

pub mod air;
pub mod alternator;
pub mod ampacity;
pub mod bank;
pub mod bars;
pub mod battery;
pub mod board;
pub mod brief;
pub mod burning;
pub mod charger;
pub mod charging;
pub mod checklist;
pub mod climate;
pub mod compartment;
pub mod conductor;
pub mod controller;
pub mod cost;
pub mod device;
pub mod doubt;
pub mod drop;
pub mod energy;
mod faults;
pub mod fire;
pub mod fit;
pub mod floor;
pub mod flow;
pub mod frost;
pub mod fuel;
pub mod gas;
pub mod heat;
pub mod heavy;
pub mod holes;
pub mod in_line;
pub mod inlet;
pub mod isolation;
pub mod legs;
pub mod limits;
pub mod load;
pub mod mains_drop;
pub mod mains_walk;
pub mod make;
pub mod making;
pub mod mass;
pub mod measured;
pub mod modes;
pub mod moisture;
pub mod network;
pub mod opening;
pub mod order;
pub mod papers;
pub mod place;
pub mod plan_approval;
pub mod plumbing;
pub mod registry;
pub mod restraint;
pub mod ring;
pub mod run;
pub mod run_end;
pub mod scene;
pub mod shade;
pub mod shock;
pub mod solar;
pub mod solved;
pub mod source;
pub mod space;
pub mod starting;
pub mod supply;
pub mod support;
pub mod switching;
pub mod system;
pub mod together;
pub mod transfer;
pub mod ventilation;
pub mod water;
pub mod week;
pub mod whole;
pub mod window;

pub use faults::{FaultNetwork, Strength};
pub use modes::{AlwaysOn, Fed, ModeOverview, ModeState};
pub use scene::WaysOut;
pub use week::{Week, WeekCurve};

use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId, Parts};
use crate::part::Build;
use crate::reader::Reader;
use quantity::{Dimension, Quantity, System};
use vocabulary::{FactId, PartKind};

/// A list that is certainly complete.
pub fn all(members: impl IntoIterator<Item = PartId>) -> Fact {
    parts(members, true)
}

/// A list of parts.
pub fn parts(members: impl IntoIterator<Item = PartId>, complete: bool) -> Fact {
    Fact::Parts(Parts { members: members.into_iter().collect(), complete })
}

/// The fact of this name on a part, whatever its kind.
pub fn fact_of(build: &Build, part: PartId, name: &str) -> Option<FactId> {
    vocabulary::part(build.part(part).kind).fact(name).map(|spec| spec.id)
}

/// A fact that no entry can settle.
pub fn no_solution<T>(part: PartId, fact: FactId) -> Outcome<T> {
    Err(Gaps::one(Gap::NoSolution(part, fact)))
}

/// Whether something can be worked out: no where nothing that can be written would settle it.
///
/// # Errors
/// The entries that would settle it.
pub fn can_be_told<T>(outcome: Outcome<T>) -> Outcome<Option<T>> {
    match outcome {
        Ok(value) => Ok(Some(value)),
        Err(gaps) => {
            let hopeless = |any: &crate::known::AnyOf| any.0.iter().all(|gap| matches!(gap, Gap::NoSolution(..)));
            if gaps.0.iter().all(hopeless) { Ok(None) } else { Err(gaps) }
        }
    }
}

/// Whether every list of these kinds is complete; the missing part otherwise.
pub fn complete(reader: &Reader<'_>, kinds: &[PartKind]) -> bool {
    kinds.iter().all(|kind| reader.build().of_kind(*kind).complete)
}

/// Whether there is any part of this kind.
pub fn is_any(reader: &Reader<'_>, kind: PartKind) -> Outcome<bool> {
    let found = reader.build().of_kind(kind);
    match (found.members.is_empty(), found.complete) {
        (false, _) => Ok(true),
        (true, true) => Ok(false),
        (true, false) => Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))),
    }
}

/// Whether a test holds of one of the parts of a kind.
pub fn any_that(
    reader: &mut Reader<'_>,
    kind: PartKind,
    mut test: impl FnMut(&mut Reader<'_>, PartId) -> Outcome<bool>,
) -> Outcome<bool> {
    let parts = reader.build().of_kind(kind).clone();
    let mut found: Vec<Outcome<bool>> = parts.members.iter().map(|part| test(reader, *part)).collect();
    if !parts.complete {
        found.push(Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))));
    }
    one_holds(found)
}

/// Whether a word is among those that are said of a fact which takes several.
pub fn has_word(reader: &mut Reader<'_>, part: PartId, fact: FactId, word: &str, case: CaseId) -> Outcome<bool> {
    let place = vocabulary::fact_spec(fact).choices().iter().position(|known| *known == word);
    match (reader.fact(part, fact, case)?, place) {
        (Fact::ChoiceSet(set), Some(place)) => Ok(set & (1 << place) != 0),
        _ => no_solution(part, fact),
    }
}

/// Whether one of these holds; what would settle it where none certainly does and one may.
pub fn one_holds(outcomes: impl IntoIterator<Item = Outcome<bool>>) -> Outcome<bool> {
    let mut settles = Vec::new();
    for outcome in outcomes {
        match outcome {
            Ok(true) => return Ok(true),
            Ok(false) => {}
            Err(gaps) => settles.extend(gaps.0.into_iter().flat_map(|any| any.0)),
        }
    }
    if settles.is_empty() { Ok(false) } else { Err(Gaps(vec![AnyOf(settles)])) }
}

/// A value with its unit, for the working; metric, as the published tables are.
pub fn show(value: f64, dimension: Dimension) -> String {
    quantity::show(Quantity { value, dimension, currency: None }, System::Metric)
}

/// Amperes.
pub fn amperes(value: f64) -> String {
    show(value, Dimension::CURRENT)
}

/// Volts.
pub fn volts(value: f64) -> String {
    show(value, Dimension::VOLTAGE)
}

/// Ohms.
pub fn ohms(value: f64) -> String {
    show(value, Dimension::RESISTANCE)
}

/// Degrees Celsius.
pub fn celsius(kelvin: f64) -> String {
    show(kelvin, Dimension::TEMPERATURE)
}

/// The least of the numbers of some parts; the gaps of all that are unknown, unless there is none.
pub fn least(values: impl IntoIterator<Item = Outcome<f64>>) -> Outcome<Option<f64>> {
    let mut least: Option<f64> = None;
    let mut gaps = Gaps::default();
    for value in values {
        match value {
            Ok(value) => least = Some(least.map_or(value, |so_far| so_far.min(value))),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(least) } else { Err(gaps) }
}

/// Whether a value is written of a property; open where it is written that nobody knows.
pub fn is_said(reader: &Reader<'_>, part: PartId, fact: FactId) -> Outcome<bool> {
    let written = reader.build().part(part);
    match written.given(fact) {
        Some(given) if given.value == spec::Value::Unknown => Err(Gaps::one(Gap::Entry(part, fact))),
        Some(_) => Ok(true),
        None if written.unread => Err(Gaps::one(Gap::Unread(part))),
        None => Ok(false),
    }
}

/// The regions of the build; what would settle them where the basis is written and not known.
pub fn regions(reader: &mut Reader<'_>, case: crate::known::CaseId) -> Outcome<crate::regions::Regions> {
    let regions = reader.build().regions;
    if regions == crate::regions::Regions::default() && !reader.silent(Build::ROOT, vocabulary::fact::build::BASIS) {
        reader.fact(Build::ROOT, vocabulary::fact::build::BASIS, case)?;
    }
    Ok(regions)
}

/// The parts of a kind inside a part and its branches, in the order of the text, and whether these are certainly all.
pub fn listed_inside(reader: &Reader<'_>, outer: PartId, kind: PartKind) -> (Vec<PartId>, bool) {
    let build = reader.build();
    let mut found = Vec::new();
    let mut complete = true;
    let mut open = vec![outer];
    while let Some(next) = open.pop() {
        let part = build.part(next);
        complete &= !part.unread && !part.incomplete.concerns(kind);
        for &inner in &part.inside {
            match build.part(inner).kind {
                own if own == kind => found.push(inner),
                vocabulary::kind::BRANCH => open.push(inner),
                _ => {}
            }
        }
        complete &= !part.incomplete.concerns(vocabulary::kind::BRANCH);
    }
    found.sort_unstable();
    (found, complete)
}

/// The sum of the numbers of some parts; the gaps of all that are unknown.
pub fn sum(values: impl IntoIterator<Item = Outcome<f64>>) -> Outcome<f64> {
    let mut sum = 0.0;
    let mut gaps = Gaps::default();
    for value in values {
        match value {
            Ok(value) => sum += value,
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(sum) } else { Err(gaps) }
}
