//! What a build costs: parts with waste, and hours of work.

use super::{brief, fact_of, no_solution, sum};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use spec::Value;
use vocabulary::{FactId, Family, fact as f, fact::build as b, kind};

/// The facts that are money: of the build, the brief, and every part.
fn money(reader: &Reader<'_>) -> Vec<(PartId, FactId)> {
    let build = reader.build();
    let mut all = vec![(Build::ROOT, b::HOUR_COST), (Build::ROOT, b::OTHER_COST)];
    all.extend(build.only(kind::BRIEF).map(|brief| (brief, f::brief::BUDGET)));
    all.extend(priced_parts(build).into_iter().filter_map(|part| Some((part, fact_of(build, part, "cost")?))));
    all
}

/// The parts that a builder wrote and that can have a price.
fn priced_parts(build: &Build) -> Vec<PartId> {
    let able = |kind: vocabulary::PartKind| vocabulary::part(kind).fact("cost").is_some();
    build.parts().filter(|(_, part)| able(part.kind)).map(|(number, _)| number).collect()
}

fn said(reader: &Reader<'_>, part: PartId, name: &str) -> Option<FactId> {
    fact_of(reader.build(), part, name).filter(|fact| !reader.silent(part, *fact))
}

fn priced(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let mut gaps = Gaps::default();
    for part in priced_parts(reader.build()) {
        let Some(cost) = fact_of(reader.build(), part, "cost") else { continue };
        match super::is_said(reader, part, cost) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    gaps.add(&incomplete(reader));
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// In how many currencies money is written.
fn currencies(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let mut seen = Vec::new();
    let mut gaps = incomplete(reader);
    for (part, fact) in money(reader) {
        match reader.written(part, fact) {
            Some(Value::Quantity(quantity)) => {
                if let Some(currency) = quantity.currency.filter(|currency| !seen.contains(currency)) {
                    seen.push(currency);
                }
            }
            _ if reader.silent(part, fact) => {}
            _ => gaps.add(&reader.gaps(part, fact, case)),
        }
    }
    if gaps.is_empty() { Ok(Fact::Number(seen.len() as f64)) } else { Err(gaps) }
}

/// What could not be read and may have a price.
fn incomplete(reader: &Reader<'_>) -> Gaps {
    let able = vocabulary::parts().iter().filter(|part| part.fact("cost").is_some());
    match able.into_iter().all(|part| reader.build().of_kind(part.kind).complete) {
        true => Gaps::default(),
        false => Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))),
    }
}

/// What one part costs, with waste.
fn of_part(reader: &mut Reader<'_>, part: PartId, cost: FactId, case: CaseId) -> Outcome<f64> {
    let cost = reader.need(part, cost, case)?;
    match said(reader, part, "waste") {
        Some(waste) => Ok(cost * (1.0 + reader.need(part, waste, case)?)),
        None => Ok(cost),
    }
}

/// Whether a price is due of a part: of every thing that the conversion brings in.
fn due(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> bool {
    let kind = reader.build().part(part).kind;
    let base = match kind {
        kind::BATTERY => reader.need_flag(part, f::battery::BASE_VEHICLE, case) == Ok(true),
        kind::TANK => reader.need_flag(part, f::tank::ORIGINAL, case) == Ok(true),
        kind::SEAT => reader.flag(part, f::seat::ORIGINAL, case) == crate::Tri::Yes,
        kind::VEHICLE | kind::PERSONS | kind::CARGO | kind::ALTERNATOR | kind::ALLOWANCE => true,
        _ => false,
    };
    vocabulary::part(kind).family == Family::Thing && !base
}

/// What the parts cost that have a price, and which have none.
fn parts(reader: &mut Reader<'_>, case: CaseId) -> (f64, Gaps) {
    let mut known = 0.0;
    let mut gaps = incomplete(reader);
    let rest = !reader.silent(Build::ROOT, b::OTHER_COST);
    if rest {
        match reader.need(Build::ROOT, b::OTHER_COST, case) {
            Ok(cost) => known += cost,
            Err(more) => gaps.add(&more),
        }
    }
    for part in priced_parts(reader.build()) {
        let Some(cost) = fact_of(reader.build(), part, "cost") else { continue };
        if reader.silent(part, cost) {
            if !rest && due(reader, part, case) {
                gaps.add(&Gaps::one(Gap::Entry(part, cost)));
            }
            continue;
        }
        match of_part(reader, part, cost, case) {
            Ok(cost) => {
                let title = reader.build().part(part).title.clone();
                reader.step(|| Step::of(format!("{title}: {cost:.2}")));
                known += cost;
            }
            Err(more) => gaps.add(&more),
        }
    }
    (known, gaps)
}

fn parts_cost(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let (known, gaps) = parts(reader, case);
    if gaps.is_empty() { Ok(Fact::Number(known)) } else { Err(gaps) }
}

/// The hours of all parts of which any are said.
fn work_hours(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let parts = priced_parts(reader.build());
    let said: Vec<(PartId, FactId)> =
        parts.into_iter().filter_map(|part| Some((part, said(reader, part, "hours")?))).collect();
    let hours: Vec<_> = said.into_iter().map(|(part, hours)| reader.need(part, hours, case)).collect();
    let gaps = incomplete(reader);
    let hours = sum(hours)?;
    if gaps.is_empty() { Ok(Fact::Number(hours)) } else { Err(gaps) }
}

/// What parts and work cost; when some prices are missing, what is said where that alone is above the budget.
fn total_cost(reader: &mut Reader<'_>, build: PartId, case: CaseId) -> Outcome {
    /// One hour, s.
    const HOUR: f64 = 3_600.0;
    if reader.need(build, b::CURRENCIES, case)? > 1.0 {
        return no_solution(build, b::TOTAL_COST);
    }
    let (mut known, mut gaps) = parts(reader, case);
    match reader.need(build, b::WORK_HOURS, case) {
        Ok(seconds) if seconds > 0.0 => match reader.need(build, b::HOUR_COST, case) {
            Ok(each) => {
                let hours = seconds / HOUR;
                reader.step(|| Step::of(format!("{hours:.1} hours of work at {each:.2}")));
                known += hours * each;
            }
            Err(more) => gaps.add(&more),
        },
        Ok(_) => {}
        Err(more) => gaps.add(&more),
    }
    match reader.need(build, b::BUDGET, case) {
        _ if gaps.is_empty() => Ok(Fact::Number(known)),
        Ok(budget) if known > budget => Ok(Fact::Number(known)),
        _ => Err(gaps),
    }
}

fn budget_said(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    brief::says(reader, f::brief::BUDGET)
}

fn budget(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let brief = brief::due(reader)?;
    reader.fact(brief, f::brief::BUDGET, case)
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (b::PRICED, Each(priced)),
        (b::CURRENCIES, Each(currencies)),
        (b::PARTS_COST, Each(parts_cost)),
        (b::WORK_HOURS, Each(work_hours)),
        (b::TOTAL_COST, Each(total_cost)),
        (b::BUDGET_SAID, Each(budget_said)),
        (b::BUDGET, Each(budget)),
    ]
}
