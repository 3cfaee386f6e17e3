//! What stands behind each end of a run, and what a fault current from there meets first.

use super::run::{number, run};
use super::source::own_limit;
use super::{amperes, doubt, no_solution, parts};
use crate::circuitry::{End, Piece, Run, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use rustc_hash::FxHashMap;
use vocabulary::{FactId, fact as f, kind};

fn end(reader: &Reader<'_>, part: PartId, fact: FactId) -> Outcome<End> {
    reader.build().circuitry().end_of(part).map_or_else(|| no_solution(part, fact), Ok)
}

/// Its title: the run and the thing at this end.
pub fn title(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Text(reader.build().part(part).title.clone()))
}

/// The sources behind an end of a run.
pub fn sources_behind(reader: &Reader<'_>, run: usize, end: End) -> Vec<Terminal> {
    reader.build().circuitry().sources_behind(run, end).map(|(_, terminal)| terminal).collect()
}

/// What would have to be said for the end to be joined to something; nothing when it is.
pub fn open_end(reader: &Reader<'_>, run: &Run, end: End) -> Option<Gaps> {
    if run.node(end).is_some() {
        return None;
    }
    let written = reader.build().part(run.written);
    let gap = match (written.kind, end) {
        _ if written.unread => Gap::Unread(run.written),
        (kind::CIRCUIT, End::Start) => Gap::Entry(run.written, f::circuit::FROM),
        (kind::CIRCUIT, End::Finish) => Gap::Entry(run.written, f::circuit::TO),
        (kind::SHORE, _) => Gap::Absent(run.written, kind::TO),
        _ => Gap::Unread(run.written),
    };
    Some(Gaps::one(gap))
}

/// The sources behind the end, as a list.
pub fn sources(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let end = end(reader, part, f::run_end::SOURCES)?;
    let run = run(reader, part, f::run_end::SOURCES)?;
    let sources = sources_behind(reader, number(reader, part), end);
    let certain = run.node(end).is_some_and(|node| doubt::of_sources(reader, node).is_empty());
    Ok(parts(sources.into_iter().map(|terminal| terminal.thing), certain))
}

/// Whether a source stands behind it.
pub fn fed(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let end = end(reader, part, f::run_end::FED)?;
    let run = run(reader, part, f::run_end::FED)?;
    if !sources_behind(reader, number(reader, part), end).is_empty() {
        return Ok(Fact::Flag(true));
    }
    let Some(node) = run.node(end) else {
        return Err(open_end(reader, run, end).unwrap_or_default());
    };
    let doubt = doubt::of_sources(reader, node);
    if doubt.is_empty() { Ok(Fact::Flag(false)) } else { Err(doubt) }
}

/// Whether a battery itself stands at this end.
pub fn battery_adjacent(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let end = end(reader, part, f::run_end::BATTERY_ADJACENT)?;
    let run = run(reader, part, f::run_end::BATTERY_ADJACENT)?;
    let Some(node) = run.node(end) else {
        return Err(open_end(reader, run, end).unwrap_or_default());
    };
    let at_battery = reader
        .build()
        .circuitry()
        .terminals(&[node])
        .any(|terminal| reader.build().part(terminal.thing).kind == kind::BATTERY);
    Ok(Fact::Flag(at_battery))
}

/// Whether the run holds a protective device.
pub fn has_device(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let run = run(reader, part, f::run_end::HAS_DEVICE)?;
    if run.devices().next().is_some() {
        return Ok(Fact::Flag(true));
    }
    if run.complete { Ok(Fact::Flag(false)) } else { Err(Gaps::one(Gap::Unread(run.written))) }
}

/// The least rating in each run, A: infinite in a run without a device; and what is not known in which run, which counts
/// as `unknown`.
pub fn least_ratings(reader: &mut Reader<'_>, case: CaseId, unknown: f64) -> (Vec<f64>, FxHashMap<usize, Gaps>) {
    let mut open = FxHashMap::default();
    let mut ratings = Vec::new();
    for (index, run) in reader.build().circuitry().runs.iter().enumerate() {
        let mut least = f64::INFINITY;
        let mut gaps = Gaps::default();
        if !run.complete {
            least = least.min(unknown);
            gaps.add(&Gaps::one(Gap::Unread(run.written)));
        }
        for device in run.devices() {
            match reader.need(device, f::device::RATING, case) {
                Ok(rating) => least = least.min(rating),
                Err(more) => {
                    least = least.min(unknown);
                    gaps.add(&more);
                }
            }
        }
        ratings.push(least);
        if !gaps.is_empty() {
            open.insert(index, gaps);
        }
    }
    (ratings, open)
}

/// The most that the sources behind an end can drive through the devices before it, A; infinite where nothing limits it.
pub fn upstream(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
    let fact = f::run_end::UPSTREAM_RATING;
    let end = end(reader, part, fact)?;
    let index = number(reader, part);
    let run = run(reader, part, fact)?;
    let Some(start) = run.node(end) else {
        return Err(open_end(reader, run, end).unwrap_or_default());
    };
    let circuitry = reader.build().circuitry();
    let sources: Vec<(usize, Terminal)> = circuitry.sources_behind(index, end).collect();
    let doubt = doubt::of_sources(reader, start);
    let mut gaps = Gaps::default();
    let own: Vec<Option<f64>> = sources
        .iter()
        .map(|(_, terminal)| own_limit(reader, *terminal, case).map_err(|more| gaps.add(&more)).ok())
        .collect();
    let driven = |unknown: f64, ratings: &[f64]| {
        let mut most = 0.0;
        let mut limits: FxHashMap<usize, f64> = FxHashMap::default();
        for ((node, _), own) in sources.iter().zip(&own) {
            let limit = own.unwrap_or(unknown);
            // Of the sources of alternating current one at a time is switched on: the largest counts, and not their sum.
            if run.alternating {
                let only = FxHashMap::from_iter([(*node, limit)]);
                most = f64::max(most, circuitry.most_driven(start, index, ratings, &only));
            }
            *limits.entry(*node).or_insert(0.0) += limit;
        }
        if run.alternating { most } else { circuitry.most_driven(start, index, ratings, &limits) }
    };
    // Between these two lies the truth, whatever is not known of the sources and devices.
    let ratings = reader.least_ratings(case, true);
    let least = driven(0.0, &ratings.0);
    let most = if gaps.is_empty() && ratings.1.is_empty() {
        least
    } else {
        driven(f64::INFINITY, &reader.least_ratings(case, false).0)
    };
    // One source without a limit decides, whatever else is not known; and what makes no difference need not be known.
    if least != f64::INFINITY {
        if least < most {
            for more in circuitry.ways_to_sources(start, index).iter().filter_map(|run| ratings.1.get(run)) {
                gaps.add(more);
            }
        }
        if !doubt.is_empty() || least < most {
            gaps.add(&doubt);
            return Err(gaps);
        }
    }
    Ok(most)
}

/// Whether something limits every source behind it.
pub fn limited_upstream(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(reader.upstream(part, case)?.is_finite()))
}

/// The most that the sources behind it can drive, A.
pub fn upstream_rating(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let most = reader.upstream(part, case)?;
    tell_sources(reader, part, most, case)?;
    Ok(Fact::Number(most))
}

/// Tells which sources drive so much to an end.
fn tell_sources(reader: &mut Reader<'_>, part: PartId, most: f64, case: CaseId) -> Outcome<()> {
    if !reader.is_recording() {
        return Ok(());
    }
    let end = end(reader, part, f::run_end::UPSTREAM_RATING)?;
    let build = reader.build();
    let sources: Vec<(usize, Terminal)> = build.circuitry().sources_behind(number(reader, part), end).collect();
    if most.is_finite() && !sources.is_empty() {
        // One source that gives all of it by itself says enough.
        let title = |source: &(usize, Terminal)| &*build.part(source.1.thing).title;
        let enough = sources.iter().find(|source| own_limit(reader, source.1, case).is_ok_and(|limit| limit >= most));
        let titles = enough.map_or_else(
            || sources.iter().map(title).collect::<Vec<_>>().join(", "),
            |source| title(source).to_owned(),
        );
        reader.step(|| Step::of(format!("{titles} can drive up to {} to this end", amperes(most))));
    }
    Ok(())
}

/// The pieces before the first protective device, as met from an end.
fn before_device(run: &Run, end: End) -> Option<Vec<PartId>> {
    let mut before = Vec::new();
    for piece in run.pieces_from(end) {
        match piece {
            Piece::Device(_) => return Some(before),
            Piece::Conductor(conductor) => before.push(conductor),
            Piece::Switch(_) | Piece::Through(_) => {}
        }
    }
    None
}

/// The length of conductor before the first device, m.
pub fn distance_to_device(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::run_end::DISTANCE_TO_DEVICE;
    let end = end(reader, part, fact)?;
    let run = run(reader, part, fact)?;
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(run.written)));
    }
    let Some(before) = before_device(run, end) else { return no_solution(part, fact) };
    let lengths: Vec<_> = before.iter().map(|conductor| reader.need(*conductor, f::conductor::ONE_WAY, case)).collect();
    let distance = super::sum(lengths)?;
    reader.step(|| {
        Step::of(format!("{} of conductor before the first device", super::show(distance, quantity::Dimension::LENGTH)))
    });
    Ok(Fact::Number(distance))
}

/// Whether all of that length is enclosed.
pub fn enclosed(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::run_end::ENCLOSED;
    let end = end(reader, part, fact)?;
    let run = run(reader, part, fact)?;
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(run.written)));
    }
    let Some(before) = before_device(run, end) else { return no_solution(part, fact) };
    for conductor in before {
        let written = reader.build().circuitry().written(conductor);
        if reader.build().part(written).kind != kind::WIRE {
            // Ways and shore wires do not say it.
            return Ok(Fact::Flag(false));
        }
        if !reader.need_flag(written, f::wire::ENCLOSED, case)? {
            return Ok(Fact::Flag(false));
        }
    }
    Ok(Fact::Flag(true))
}
