//! The exhaust of the base vehicle's engine: its mouth against doors and windows, and its hot pipe against gas.

use super::terminals::{ABOVE, ASIDE};
use super::{every, filtered, length};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution};
use crate::reader::Reader;
use crate::working::Step;
use calc::gas::{ENGINE_EXHAUST, ENGINE_EXHAUST_NEAR_GAS};
use calc::space::{Cuboid, Reach, is_above};
use vocabulary::{fact as f, fact::engine_exhaust as x, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (x::OPENINGS_ABOVE, Each(openings_above)),
        (x::AHEAD_OF_REAR, Each(ahead_of_rear)),
        (x::OPENINGS_BEHIND, Each(openings_behind)),
        (x::GAS_NEAR, Each(gas_near)),
    ]
}

/// The mouth, m.
pub(super) fn mouth(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome<Cuboid> {
    match reader.fact(exhaust, x::MOUTH, case)? {
        Fact::Lengths(at) => Cuboid::point(at).map_err(|_| Gaps::one(Gap::Entry(exhaust, x::MOUTH))),
        _ => no_solution(exhaust, x::MOUTH),
    }
}

/// The doors and windows that open, with the boxes around them; of windows that are ways out, too.
fn opening(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<(PartId, Cuboid)>> {
    let build = reader.build();
    let of_skin = every(reader, &[kind::EXIT, kind::WINDOW])?;
    let opening = filtered(of_skin, |part| match build.part(part).kind {
        kind::WINDOW => reader.need_flag(part, f::window::OPENS, case),
        _ => Ok(true),
    })?;
    super::openings(reader, &opening)
}

/// The word of the side that an exit or window is on.
fn side(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<&'static str> {
    let fact = if reader.build().part(part).kind == kind::EXIT { f::exit::SIDE } else { f::window::SIDE };
    reader.need_word(part, fact, case)
}

fn openings_above(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    let (mouth, openings) = both(mouth(reader, exhaust, case), opening(reader, case))?;
    let over = openings.into_iter().filter(|(_, bounds)| {
        is_above(bounds, &mouth, Reach::Horizontal(ASIDE)) && bounds.vertical_gap(&mouth) <= ABOVE
    });
    let over: Vec<PartId> = over.map(|(part, _)| part).collect();
    Ok(all(filtered(over, |part| Ok(matches!(side(reader, part, case)?, "left" | "right")))?))
}

fn ahead_of_rear(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    let scene = reader.scene();
    let (mouth, skin) = both(mouth(reader, exhaust, case), scene.skin(reader.build()))?;
    let rear = skin.body().most()[0];
    let ahead = (rear - mouth.centre()[0]).max(0.0);
    reader.step(|| Step::of(format!("the vehicle ends at x = {}", length(rear))));
    Ok(Fact::Number(ahead))
}

fn openings_behind(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    let (mouth, openings) = both(mouth(reader, exhaust, case), opening(reader, case))?;
    let behind = openings.into_iter().filter(|(_, bounds)| bounds.most()[0] > mouth.centre()[0]);
    let behind: Vec<PartId> = behind.map(|(part, _)| part).collect();
    let build = reader.build();
    Ok(all(filtered(behind, |part| {
        if build.part(part).kind != kind::EXIT {
            return Ok(true);
        }
        // Windows and hatches that are ways out are for emergencies alone.
        Ok(reader.need_word(part, f::exit::KIND, case)? == "door")
    })?))
}

/// The pipe and silencer as drawn, and the mouth.
pub(super) fn hot_pieces(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome<Vec<Cuboid>> {
    let scene = reader.scene();
    let drawn = scene.stand(exhaust).is_some_and(|stand| stand.said);
    let mut pieces = Vec::new();
    let mut gaps = Gaps::default();
    if drawn {
        match scene.shape(exhaust) {
            Ok(shape) => pieces.push(shape),
            Err(more) => gaps.add(&more),
        }
    }
    if !drawn || !reader.silent(exhaust, x::MOUTH) {
        match mouth(reader, exhaust, case) {
            Ok(mouth) => pieces.push(mouth),
            Err(more) if drawn => gaps.add(&more),
            Err(_) => gaps.add(&crate::reader::either((exhaust, x::FROM), (exhaust, x::MOUTH))),
        }
    }
    if gaps.is_empty() { Ok(pieces) } else { Err(gaps) }
}

/// Gas lockers with a cylinder, and cylinders that stand in none.
fn gas(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<(PartId, Cuboid)>> {
    let (build, scene) = (reader.build(), reader.scene());
    let things = every(reader, &[kind::ZONE, kind::CYLINDER])?;
    let holding = filtered(things, |part| {
        if build.part(part).kind == kind::ZONE {
            return reader.need_flag(part, f::zone::GAS_LOCKER, case);
        }
        match scene.zone(build, part)? {
            Some(zone) => Ok(!reader.need_flag(zone, f::zone::GAS_LOCKER, case)?),
            None => Ok(true),
        }
    })?;
    super::shapes(reader, &holding)
}

fn gas_near(reader: &mut Reader<'_>, exhaust: PartId, case: CaseId) -> Outcome {
    let (pieces, gas) = both(hot_pieces(reader, exhaust, case), gas(reader, case))?;
    let build = reader.build();
    let mut near = Vec::new();
    for (part, shape) in gas {
        let close = |piece: &&Cuboid| ENGINE_EXHAUST.holds(piece.horizontal_gap(&shape), piece.vertical_gap(&shape));
        if let Some(piece) = pieces.iter().find(close) {
            let (beside, above) = (piece.horizontal_gap(&shape), piece.vertical_gap(&shape));
            reader.step(|| {
                let title = &build.part(part).title;
                let text = format!("{title}: {} to the side, {} in height", length(beside), length(above));
                Step::cited(text, &ENGINE_EXHAUST_NEAR_GAS)
            });
            near.push(part);
        }
    }
    Ok(all(near))
}
