//! Where parts stand, and what lies along a route.

use super::{fact_of, parts};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use vocabulary::{fact as f, kind};

/// The zone that a part stands in: as said, else the smallest zone that holds its position.
pub fn standing_zone(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let (Some(zone), Some(at), Some(from), Some(size)) = (
        fact_of(build, part, "zone"),
        fact_of(build, part, "at"),
        fact_of(build, part, "from"),
        fact_of(build, part, "size"),
    ) else {
        return Err(Gaps::one(Gap::Unread(part)));
    };
    if let Fact::Part(zone) = reader.fact(part, zone, case).or_else(|gaps| {
        // A zone that is written and not understood stays unknown; one that is not written is worked out.
        if build.part(part).given(zone).is_some() { Err(gaps) } else { Ok(Fact::Flag(false)) }
    })? {
        return Ok(Fact::Part(zone));
    }
    let settles = || Gaps(vec![AnyOf(vec![Gap::Entry(part, zone), Gap::Entry(part, at)])]);
    let Some(point) = position(reader, part, at, from, size, case) else { return Err(settles()) };
    match smallest_holding(reader, point, case)? {
        Some(zone) => Ok(Fact::Part(zone)),
        None => Err(settles()),
    }
}

/// The smallest zone that holds a point.
pub fn smallest_holding(reader: &mut Reader<'_>, point: [f64; 3], case: CaseId) -> Outcome<Option<PartId>> {
    let build = reader.build();
    let mut smallest: Option<(f64, PartId)> = None;
    if !build.of_kind(kind::ZONE).complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(crate::part::Build::ROOT))));
    }
    for &candidate in build.of_kind(kind::ZONE).members.iter() {
        let (Ok(Fact::Lengths(corner)), Ok(Fact::Lengths(extent))) =
            (reader.fact(candidate, f::zone::FROM, case), reader.fact(candidate, f::zone::SIZE, case))
        else {
            // A zone without a place holds nothing; one whose place is not known may hold it.
            for fact in [f::zone::FROM, f::zone::SIZE] {
                if !reader.silent(candidate, fact) {
                    reader.fact(candidate, fact, case)?;
                }
            }
            continue;
        };
        let holds = point.iter().zip(corner).zip(extent).all(|((at, from), size)| *at >= from && *at <= from + size);
        let volume: f64 = extent.iter().product();
        if holds && smallest.is_none_or(|(least, _)| volume < least) {
            smallest = Some((volume, candidate));
        }
    }
    Ok(smallest.map(|(_, zone)| zone))
}

/// The point that stands for a part: as said, else the middle of its box.
fn position(
    reader: &mut Reader<'_>,
    part: PartId,
    at: vocabulary::FactId,
    from: vocabulary::FactId,
    size: vocabulary::FactId,
    case: CaseId,
) -> Option<[f64; 3]> {
    if let Ok(Fact::Lengths(point)) = reader.fact(part, at, case) {
        return Some(point);
    }
    if reader.silent(part, at) && reader.silent(part, from) {
        // It may stand beside something, or at a wall.
        return reader.scene().shape(part).ok().map(|shape| shape.centre());
    }
    let Ok(Fact::Lengths(corner)) = reader.fact(part, from, case) else { return None };
    let extent = match reader.fact(part, size, case) {
        Ok(Fact::Lengths(extent)) => extent,
        _ => [0.0; 3],
    };
    Some([0, 1, 2].map(|axis| corner[axis] + extent[axis] / 2.0))
}

/// The kinds whose lists decide which conductors there are.
const CONDUCTORS: [vocabulary::PartKind; 4] = [kind::CIRCUIT, kind::PANEL, kind::WAY, kind::WIRE];

/// The conductors whose route this is.
fn along(reader: &mut Reader<'_>, route: PartId, case: CaseId) -> Outcome<Vec<PartId>> {
    let mut along = Vec::new();
    let conductors: Vec<PartId> = reader.build().circuitry().runs.iter().flat_map(|run| run.conductors()).collect();
    let mut gaps = Gaps::default();
    for conductor in conductors {
        match super::conductor::route(reader, conductor, case) {
            Ok(Some(own)) if own == route => along.push(conductor),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(along) } else { Err(gaps) }
}

/// The runs that use the route.
pub fn runs_on_route(reader: &mut Reader<'_>, route: PartId, case: CaseId) -> Outcome {
    let conductors = along(reader, route, case)?;
    let mut runs: Vec<PartId> = Vec::new();
    for run in conductors.into_iter().filter_map(|conductor| reader.build().circuitry().run(conductor)) {
        if !runs.contains(&run.part) {
            runs.push(run.part);
        }
    }
    let complete = super::complete(reader, &CONDUCTORS);
    Ok(parts(runs, complete))
}

/// The current-carrying conductors along the route.
pub fn current_carrying(reader: &mut Reader<'_>, route: PartId, case: CaseId) -> Outcome {
    let conductors = along(reader, route, case)?;
    if !super::complete(reader, &CONDUCTORS) {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(crate::part::Build::ROOT))));
    }
    let mut counts = Vec::new();
    for conductor in conductors {
        match super::conductor::runs_beside(reader, conductor, case) {
            Ok(true) => counts.push(super::conductor::carried(reader, conductor, case)),
            Ok(false) => {}
            Err(gaps) => counts.push(Err(gaps)),
        }
    }
    Ok(Fact::Number(super::sum(counts)?))
}
