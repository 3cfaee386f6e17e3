//! Disconnects, switches, relays, shunts and connectors of a run: what they may have to carry, and at which voltage.

use super::run::run;
use super::{amperes, fact_of, no_solution, parts, volts};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Piece, Run};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::run::IN_LINE_PARTS, Each(in_line_parts)),
        (f::run::IN_LINE_RATING, Each(rating)),
        (f::run::IN_LINE_WEAKEST, Each(weakest)),
        (f::run::IN_LINE_LIMITED, Each(limited)),
        (f::run::IN_LINE_LIMIT, Each(limit)),
        (f::run::IN_LINE_VOLTAGE, Each(voltage)),
        (f::run::IN_LINE_ALTERNATING, Each(alternating)),
    ]
}

/// Up to which voltage, V, parts of the vehicle trade count as made for it when they do not say: 12 and 24 V systems, charged.
const VEHICLE_PARTS: f64 = 32.0;

fn pieces(run: &Run) -> Vec<PartId> {
    run.pieces
        .iter()
        .filter_map(|piece| match piece {
            Piece::Switch(part) | Piece::Through(part) => Some(*part),
            _ => None,
        })
        .collect()
}

fn in_line_parts(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let run = run(reader, part, f::run::IN_LINE_PARTS)?;
    let kinds = [kind::DISCONNECT, kind::SWITCH, kind::RELAY, kind::SHUNT, kind::CONNECTOR];
    let written = reader.build().part(run.written);
    let complete = !written.unread && !kinds.iter().any(|kind| written.incomplete.concerns(*kind));
    Ok(parts(pieces(run), complete))
}

/// The part with the least rating, and the rating, A.
fn least(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<(PartId, f64)> {
    let run = run(reader, part, fact)?;
    let mut least: Option<(PartId, f64)> = None;
    let mut gaps = Gaps::default();
    for piece in pieces(run) {
        let Some(rating) = fact_of(reader.build(), piece, "rating") else { continue };
        match reader.need(piece, rating, case) {
            Ok(rating) if least.is_none_or(|(_, least)| rating < least) => least = Some((piece, rating)),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    least.map_or_else(|| no_solution(part, fact), Ok)
}

fn rating(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(least(reader, part, f::run::IN_LINE_RATING, case)?.1))
}

fn weakest(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Part(least(reader, part, f::run::IN_LINE_WEAKEST, case)?.0))
}

/// The largest current that the devices of a run, and those before it, let through for long, A; infinite without any.
fn let_through(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<f64> {
    let run = run(reader, part, fact)?;
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(run.written)));
    }
    let ratings: Vec<_> = run.devices().map(|device| reader.need(device, f::device::RATING, case)).collect();
    let own = super::least(ratings)?.unwrap_or(f64::INFINITY);
    let mut driven = 0.0_f64;
    for end in run.ends {
        if !reader.need_flag(end, f::run_end::FED, case)? {
            continue;
        }
        driven = driven.max(if reader.need_flag(end, f::run_end::LIMITED_UPSTREAM, case)? {
            reader.need(end, f::run_end::UPSTREAM_RATING, case)?
        } else {
            f64::INFINITY
        });
    }
    Ok(own.min(driven))
}

fn limited(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(let_through(reader, part, f::run::IN_LINE_LIMITED, case)?.is_finite()))
}

fn limit(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let limit = let_through(reader, part, f::run::IN_LINE_LIMIT, case)?;
    if limit.is_infinite() {
        return no_solution(part, f::run::IN_LINE_LIMIT);
    }
    reader.step(|| Step::of(format!("its devices and those before it let {} through", amperes(limit))));
    Ok(Fact::Number(limit))
}

/// The least rated voltage of the parts, V.
fn voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::run::IN_LINE_VOLTAGE)?;
    let mut least: Option<f64> = None;
    let mut gaps = Gaps::default();
    for piece in pieces(run) {
        let Some(fact) = fact_of(reader.build(), piece, "voltage") else { continue };
        let rated = if reader.silent(piece, fact) {
            match reader.need(run.part, f::run::HIGHEST_VOLTAGE, case) {
                Ok(highest) if highest <= VEHICLE_PARTS => {
                    let what = format!("rated voltage not said: {}", volts(VEHICLE_PARTS));
                    reader.step(|| Step::assumed(what, "parts of the vehicle trade (common practice)"));
                    Ok(VEHICLE_PARTS)
                }
                Ok(_) => Err(Gaps::one(Gap::Entry(piece, fact))),
                Err(more) => Err(more),
            }
        } else {
            reader.need(piece, fact, case)
        };
        match rated {
            Ok(rated) => least = Some(least.map_or(rated, |least: f64| least.min(rated))),
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    // A shunt opens nothing: no voltage is asked of it.
    Ok(Fact::Number(least.unwrap_or(f64::MAX)))
}

/// Whether one of the parts is made for alternating current only.
fn alternating(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::run::IN_LINE_ALTERNATING)?;
    let mut gaps = Gaps::default();
    for piece in pieces(run) {
        let Some(fact) = fact_of(reader.build(), piece, "for").filter(|fact| !reader.silent(piece, *fact)) else {
            continue;
        };
        match reader.need_word(piece, fact, case) {
            Ok("alternating") => return Ok(Fact::Flag(true)),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}
