//! The space that a thing stands in, and where its box lies in the vehicle.

use super::{fact_of, no_solution};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use spec::Value;
use vocabulary::{FactId, fact as f, kind};

/// Where a thing stands or an opening leads.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Space {
    /// The open air.
    Outside,
    /// A zone.
    Zone(PartId),
}

/// The word for the open air, which is there without being defined.
const OUTSIDE: &str = "outside";

/// The space that a fact names.
pub fn named(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Space> {
    let zone = reader.fact(part, fact, case);
    match (zone, reader.written(part, fact)) {
        (Ok(Fact::Part(zone)), _) => Ok(Space::Zone(zone)),
        (_, Some(Value::Name(name))) if &**name == OUTSIDE => Ok(Space::Outside),
        (Err(gaps), _) => Err(gaps),
        (Ok(_), _) => no_solution(part, fact),
    }
}

/// The space that a thing stands in: as said, else by its position.
pub fn of(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Space> {
    let build = reader.build();
    let (Some(zone), Some(standing)) = (fact_of(build, part, "zone"), fact_of(build, part, "standing-zone")) else {
        return Err(Gaps::one(Gap::Unread(part)));
    };
    if let Ok(space) = named(reader, part, zone, case) {
        return Ok(space);
    }
    named(reader, part, standing, case)
}

/// The kind of a space in its word; `outside` for the open air.
pub fn word(reader: &mut Reader<'_>, space: Space, case: CaseId) -> Outcome<&'static str> {
    match space {
        Space::Outside => Ok(OUTSIDE),
        Space::Zone(zone) => reader.need_word(zone, f::zone::KIND, case),
    }
}

/// Whether a space is open to the air of itself: the open air, the roof and the space of the engine.
pub fn airy(word: &str) -> bool {
    matches!(word, "outside" | "engine" | "roof")
}

/// The things of these kinds that stand in a space; those whose space cannot be told leave the list open when their space
/// is said in some way, and are passed over when nothing at all is said of it.
pub fn standing_in(
    reader: &mut Reader<'_>,
    space: Space,
    kinds: &[vocabulary::PartKind],
    case: CaseId,
) -> (Vec<PartId>, Gaps) {
    let build = reader.build();
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    if !super::complete(reader, kinds) {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    for kind in kinds {
        for &thing in build.of_kind(*kind).members.iter() {
            match of(reader, thing, case) {
                Ok(own) if own == space => found.push(thing),
                Ok(_) => {}
                Err(more) if !placeless(reader, thing) => gaps.add(&more),
                Err(_) => {}
            }
        }
    }
    (found, gaps)
}

/// The properties that say where a thing is.
const PLACES: [&str; 7] = ["zone", "at", "from", "beside", "wall", "raised", "below-ceiling"];

/// Whether nothing at all is said of where a thing is.
pub fn placeless(reader: &Reader<'_>, part: PartId) -> bool {
    let build = reader.build();
    let silent = |name: &str| fact_of(build, part, name).is_none_or(|fact| reader.silent(part, fact));
    PLACES.into_iter().all(silent)
}

/// The least and the greatest corner of a thing, m.
pub type Extent = [[f64; 3]; 2];

/// The box of a thing; nothing where nothing is said of its position.
pub fn extent(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Option<Extent>> {
    let build = reader.build();
    let (Some(at), Some(from), Some(size)) =
        (fact_of(build, part, "at"), fact_of(build, part, "from"), fact_of(build, part, "size"))
    else {
        return Ok(None);
    };
    if !reader.silent(part, from) {
        let corner = lengths(reader, part, from, case)?;
        let size = if reader.silent(part, size) { [0.0; 3] } else { lengths(reader, part, size, case)? };
        return Ok(Some([corner, [0, 1, 2].map(|axis| corner[axis] + size[axis])]));
    }
    if !reader.silent(part, at) {
        let point = lengths(reader, part, at, case)?;
        return Ok(Some([point, point]));
    }
    // It may stand beside something, or at a wall.
    let scene = reader.scene();
    match scene.stand(part) {
        Some(stand) if stand.said => match stand.shape {
            Some(shape) => Ok(Some([shape.least(), shape.most()])),
            None => Err(stand.gaps.clone()),
        },
        _ if build.part(part).unread => Err(Gaps::one(Gap::Unread(part))),
        _ => Ok(None),
    }
}

fn lengths(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<[f64; 3]> {
    match reader.fact(part, fact, case)? {
        Fact::Lengths(lengths) => Ok(lengths),
        _ => no_solution(part, fact),
    }
}

/// The distance between two boxes, m; 0 where they touch.
pub fn distance(one: &Extent, other: &Extent) -> f64 {
    let apart = |axis: usize| (one[0][axis] - other[1][axis]).max(other[0][axis] - one[1][axis]).max(0.0);
    [0, 1, 2].map(|axis| apart(axis) * apart(axis)).iter().sum::<f64>().sqrt()
}

/// Whether two boxes overlap as seen from above.
pub fn in_line(one: &Extent, other: &Extent) -> bool {
    [0, 1].into_iter().all(|axis| one[0][axis] <= other[1][axis] && other[0][axis] <= one[1][axis])
}

/// The converters that stand in a zone.
pub fn converters(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    const CONVERTERS: [vocabulary::PartKind; 5] =
        [kind::CHARGER, kind::CONVERTER, kind::INVERTER, kind::INVERTER_CHARGER, kind::SOLAR_CONTROLLER];
    let (found, gaps) = standing_in(reader, Space::Zone(zone), &CONVERTERS, case);
    Ok(super::parts(found, gaps.is_empty()))
}

/// The free area of all openings of a zone, m².
pub fn free_area(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let vents = reader.build().inside(zone, kind::VENT);
    if !vents.complete {
        return Err(Gaps::one(Gap::Unread(zone)));
    }
    let areas: Vec<_> = vents.members.iter().map(|vent| reader.need(*vent, f::vent::FREE_AREA, case)).collect();
    Ok(Fact::Number(super::sum(areas)?))
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![(f::zone::CONVERTERS, Each(converters)), (f::zone::FREE_AREA, Each(free_area))]
}
