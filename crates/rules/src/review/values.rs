//! Values of facts in words, in the reader's units, with their working.

use crate::expression::{Shown, UNKNOWN};
use crate::finding::{FactUsed, WorkingStep};
use design::{Build, CaseId, Fact, PartId, Reader};
use quantity::{Dimension, Quantity, System};
use spec::Value;
use vocabulary::{FactId, FactKind, FactSpec};

/// The deepest that the working of a fact goes into the workings of those it rests on.
const DEEPEST: usize = 3;

/// The most members of a list that are named.
const MOST_MEMBERS: usize = 8;

/// The dimension of a fact that is a number.
pub fn dimension(spec: &FactSpec) -> Option<Dimension> {
    match spec.kind {
        FactKind::Quantity(dimension) => Some(dimension),
        FactKind::Count => Some(Dimension::RATIO),
        FactKind::WireSize | FactKind::Cores => Some(Dimension::AREA),
        _ => None,
    }
}

/// A count in figures.
fn counted(value: f64) -> String {
    format!("{value}")
}

/// A number in words.
pub fn number(value: f64, dimension: Dimension, units: System) -> String {
    if value >= f64::MAX {
        return "no limit".to_owned();
    }
    if dimension == Dimension::AREA && units == System::UsCustomary && value < LARGEST_CONDUCTOR {
        return quantity::show_conductor_area(value, units);
    }
    quantity::show(Quantity { value, dimension, currency: None }, units)
}

/// An area below that of the largest usual conductor (4/0 AWG, 107 mm²), in square metres, is one of conductors: in square
/// inches nobody knows them, and the few small openings among them are read in mm² as well.
const LARGEST_CONDUCTOR: f64 = 110e-6;

/// A value of a sentence in words.
pub fn shown(build: &Build, shown: Shown, units: System) -> String {
    match shown {
        Shown::Count(value) => counted(value),
        Shown::Number { value, dimension } => number(value, dimension, units),
        Shown::WireSize { area, of: (part, fact) } => {
            written_size(build, part, fact, units).unwrap_or_else(|| number(area, Dimension::AREA, units))
        }
        Shown::Choice(word) => word.to_owned(),
        Shown::Choices(words) => words.join(", "),
        Shown::Flag(true) => "yes".to_owned(),
        Shown::Flag(false) => "no".to_owned(),
        Shown::Text(text) => text.to_string(),
        Shown::Part(part) => build.part(part).title.to_string(),
        Shown::Parts(parts) => titles(build, &parts),
        Shown::Unknown => UNKNOWN.to_owned(),
    }
}

/// A conductor size as the builder wrote it, in the reader's system.
fn written_size(build: &Build, part: PartId, fact: FactId, units: System) -> Option<String> {
    match &build.part(part).given(fact)?.value {
        Value::WireSize(size) => Some(quantity::show_wire_size(*size, units)),
        Value::Cores(cores) => Some(format!("{} × {}", cores.count, quantity::show_wire_size(cores.size, units))),
        _ => None,
    }
}

fn titles(build: &Build, parts: &[PartId]) -> String {
    if parts.is_empty() {
        return "none".to_owned();
    }
    let mut titles: Vec<String> =
        parts.iter().take(MOST_MEMBERS).map(|part| build.part(*part).title.to_string()).collect();
    if let Some(more) = parts.len().checked_sub(MOST_MEMBERS).filter(|more| *more > 0) {
        titles.push(format!("and {more} more"));
    }
    titles.join(", ")
}

/// A fact with its value, and its working when it is worked out.
pub fn fact_used(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId, units: System) -> FactUsed {
    let build = reader.build();
    let spec = vocabulary::fact_spec(fact);
    let value = reader.fact(part, fact, case);
    let dimension = dimension(spec);
    let as_number = match &value {
        Ok(Fact::Number(value)) => Some(*value),
        _ => None,
    };
    let mut working = Vec::new();
    add_working(reader, part, fact, case, 0, &mut working, &mut Vec::new());
    FactUsed {
        part: build.part(part).title.to_string(),
        fact: spec.name.to_owned(),
        value: value.ok().map(|value| in_words(build, part, spec, &value, units)),
        number: as_number,
        dimension: dimension.map(Dimension::name),
        working,
    }
}

fn in_words(build: &Build, part: PartId, spec: &FactSpec, value: &Fact, units: System) -> String {
    let length = |value: f64| number(value, Dimension::LENGTH, units);
    match value {
        Fact::Number(value) if spec.kind == FactKind::Count => counted(*value),
        Fact::Number(value) => written_size(build, part, spec.id, units)
            .unwrap_or_else(|| number(*value, dimension(spec).unwrap_or(Dimension::RATIO), units)),
        Fact::Flag(flag) => if *flag { "yes" } else { "no" }.to_owned(),
        Fact::Choice(index) => spec.choices().get(usize::from(*index)).copied().unwrap_or(UNKNOWN).to_owned(),
        Fact::ChoiceSet(set) => spec
            .choices()
            .iter()
            .enumerate()
            .filter(|(index, _)| set & (1 << index) != 0)
            .map(|(_, word)| *word)
            .collect::<Vec<_>>()
            .join(", "),
        Fact::Text(text) => text.to_string(),
        Fact::Part(other) => build.part(*other).title.to_string(),
        Fact::Parts(parts) => {
            let mut text = titles(build, &parts.members);
            if !parts.complete {
                text.push_str(" (perhaps more: something could not be read)");
            }
            text
        }
        Fact::Lengths([a, b, c]) if spec.kind == FactKind::Box => {
            format!("{} × {} × {}", length(*a), length(*b), length(*c))
        }
        Fact::Lengths([a, b, c]) => format!("{}, {}, {}", length(*a), length(*b), length(*c)),
        Fact::Opening([a, b]) => format!("{} × {}", length(*a), length(*b)),
    }
}

/// Adds the steps of a fact, and below them those of the worked-out facts that it rests on.
fn add_working(
    reader: &mut Reader<'_>,
    part: PartId,
    fact: FactId,
    case: CaseId,
    depth: usize,
    steps: &mut Vec<WorkingStep>,
    seen: &mut Vec<(PartId, FactId)>,
) {
    if seen.contains(&(part, fact)) || depth > DEEPEST {
        return;
    }
    seen.push((part, fact));
    let working = reader.working(part, fact, case);
    steps.extend(working.steps.into_iter().filter(|step| !step.text.is_empty()).map(|step| WorkingStep {
        text: step.text,
        source: step.source,
        assumed: step.assumed,
        depth,
    }));
    for (part, fact) in working.read {
        let assumed = matches!(vocabulary::fact_spec(fact).absent, vocabulary::Absent::Assume { .. });
        if !vocabulary::fact_spec(fact).given || assumed {
            add_working(reader, part, fact, case, depth + 1, steps, seen);
        }
    }
}
