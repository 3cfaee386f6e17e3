//! What on the roof throws its shade on solar modules.

use super::mass::{ANY, vehicle};
use super::{fact_of, is_said, no_solution, show, space};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{fact::solar as s, kind};

/// The box of a thing, which a point is not: its height is not known.
fn solid(reader: &mut Reader<'_>, thing: PartId) -> Outcome<space::Extent> {
    let entry = |reader: &Reader<'_>, name: &str| match fact_of(reader.build(), thing, name) {
        Some(fact) => Gaps::one(Gap::Entry(thing, fact)),
        None => Gaps::one(Gap::Unread(thing)),
    };
    match space::extent(reader, thing, ANY)? {
        Some(extent) if extent[0][2] < extent[1][2] => Ok(extent),
        Some(_) => Err(entry(reader, "size")),
        None => Err(entry(reader, "from")),
    }
}

/// The thing on the roof over which the sun has to climb highest to reach all of the modules, and how high, rad; nothing where nothing
/// rises above them.
fn highest(reader: &mut Reader<'_>, modules: PartId) -> Outcome<Option<(PartId, f64)>> {
    let mut gaps = reader.burdens().unread.clone();
    let mut others = Vec::new();
    for thing in vehicle::weighing(reader) {
        if thing == modules || matches!(reader.build().part(thing).kind, kind::SHELL | kind::ALLOWANCE) {
            continue;
        }
        match vehicle::on_roof(reader, thing) {
            Ok(true) => others.push(thing),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    let own = match others.is_empty() {
        true => None,
        false => Some(solid(reader, modules)),
    };
    let mut highest: Option<(PartId, f64)> = None;
    for thing in others {
        match super::battery::both(solid(reader, thing), own.clone().unwrap_or_else(|| Err(gaps.clone()))) {
            Ok((other, own)) => {
                let height = other[1][2] - own[1][2];
                let gap = |axis: usize| (other[0][axis] - own[1][axis]).max(own[0][axis] - other[1][axis]).max(0.0);
                let distance = gap(0).hypot(gap(1));
                let Some(angle) = calc::sun::clearing_angle(height, distance).filter(|angle| *angle > 0.0) else {
                    continue;
                };
                let title = reader.build().part(thing).title.clone();
                reader.step(|| {
                    let (height, distance) = (show(height, Dimension::LENGTH), show(distance, Dimension::LENGTH));
                    Step::of(format!("{title}: {height} higher, {distance} away: {}", show(angle, Dimension::ANGLE)))
                });
                if highest.is_none_or(|(_, most)| angle > most) {
                    highest = Some((thing, angle));
                }
            }
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(highest) } else { Err(gaps) }
}

fn shaded_up_to(reader: &mut Reader<'_>, modules: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(highest(reader, modules)?.map_or(0.0, |(_, angle)| angle)))
}

fn shaded_by(reader: &mut Reader<'_>, modules: PartId, _: CaseId) -> Outcome {
    match highest(reader, modules)? {
        Some((thing, _)) => Ok(Fact::Part(thing)),
        None => no_solution(modules, s::SHADED_BY),
    }
}

fn shading_said(reader: &mut Reader<'_>, modules: PartId, _: CaseId) -> Outcome {
    is_said(reader, modules, s::SHADING).map(Fact::Flag)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![(s::SHADED_UP_TO, Each(shaded_up_to)), (s::SHADED_BY, Each(shaded_by)), (s::SHADING_SAID, Each(shading_said))]
}
