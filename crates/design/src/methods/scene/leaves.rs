//! Leaves on upright hinges: what they meet while they open, and whose clearance they enter.

use super::{every, filtered};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution, show};
use crate::reader::Reader;
use crate::working::Step;
use calc::space::{Cuboid, Swing};
use quantity::Dimension;
use vocabulary::{FactId, fact as f, fact::door_leaf as l, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![(l::THINGS_MET, Each(things_met)), (l::OPENS_TO, Each(opens_to)), (l::HEATERS_SWEPT, Each(heaters_swept))]
}

/// What a leaf enters by no more than this it passes, m. Chosen: fronts lie beside one another with such gaps.
const PASSES: f64 = 0.02;

fn point(reader: &mut Reader<'_>, leaf: PartId, fact: FactId, case: CaseId) -> Outcome<[f64; 3]> {
    match reader.fact(leaf, fact, case)? {
        Fact::Lengths(at) => Ok(at),
        _ => no_solution(leaf, fact),
    }
}

/// The leaf as it turns.
fn swing(reader: &mut Reader<'_>, leaf: PartId, case: CaseId) -> Outcome<Swing> {
    let ends = both(point(reader, leaf, l::HINGE, case), point(reader, leaf, l::EDGE, case));
    let sizes = both(reader.need(leaf, l::HEIGHT, case), reader.need(leaf, l::OPENS, case));
    let ((hinge, edge), (height, angle)) = both(ends, sizes)?;
    Swing::new([hinge[0], hinge[1]], [edge[0], edge[1]], angle, hinge[2], height)
        .map_err(|_| Gaps::one(Gap::Entry(leaf, l::EDGE)))
}

/// What it meets, each with the angle at which it does, rad: but for what it belongs to.
fn met(reader: &mut Reader<'_>, leaf: PartId, case: CaseId) -> Outcome<Vec<(f64, PartId)>> {
    let (swing, solids) = both(swing(reader, leaf, case), super::solids(reader).all())?;
    let owner = reader.build().part(leaf).outer;
    let others = solids.into_iter().filter(|(part, _)| Some(*part) != owner);
    Ok(others.filter_map(|(part, shape)| Some((swing.first_contact(&shape, PASSES)?, part))).collect())
}

fn things_met(reader: &mut Reader<'_>, leaf: PartId, case: CaseId) -> Outcome {
    Ok(all(met(reader, leaf, case)?.into_iter().map(|(_, part)| part)))
}

fn opens_to(reader: &mut Reader<'_>, leaf: PartId, case: CaseId) -> Outcome {
    let met = met(reader, leaf, case)?;
    let Some((angle, part)) = met.into_iter().min_by(|one, other| one.0.total_cmp(&other.0)) else {
        return no_solution(leaf, l::OPENS_TO);
    };
    let title = reader.build().part(part).title.clone();
    reader.step(|| Step::of(format!("it meets {title} at {}", show(angle, Dimension::ANGLE))));
    Ok(Fact::Number(angle))
}

/// A heater with the space that its maker keeps free around it; nothing where none is said.
fn kept_free(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome<Option<Cuboid>> {
    if !reader.need_flag(heater, f::heater::HOT_CLEARANCE_SAID, case)? {
        return Ok(None);
    }
    let shape = reader.scene().shape(heater);
    let (shape, clear) = both(shape, reader.need(heater, f::heater::HOT_CLEARANCE, case))?;
    let (least, size) = (shape.least(), shape.size());
    Cuboid::new(least.map(|low| low - clear), size.map(|size| size + 2.0 * clear))
        .map(Some)
        .map_err(|_| Gaps::one(Gap::Entry(heater, f::heater::HOT_CLEARANCE)))
}

fn heaters_swept(reader: &mut Reader<'_>, leaf: PartId, case: CaseId) -> Outcome {
    let heaters = every(reader, &[kind::HEATER])?;
    if heaters.is_empty() {
        return Ok(all([]));
    }
    let swing = swing(reader, leaf, case)?;
    let swept = filtered(heaters, |heater| {
        let space = kept_free(reader, heater, case)?;
        Ok(space.is_some_and(|space| swing.first_contact(&space, 0.0).is_some()))
    })?;
    Ok(all(swept))
}
