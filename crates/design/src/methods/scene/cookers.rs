//! What stands, hangs and opens around a cooker.

use super::burnable::burnables;
use super::{every, filtered, nearest, shapes};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution};
use crate::reader::Reader;
use calc::space::Cuboid;
use vocabulary::{FactId, fact as f, fact::cooker as c, fact::curtain as u, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (c::BURNABLES_ABOVE, Each(burnables_above)),
        (c::CLEAR_ABOVE, Each(clear_above)),
        (c::BURNABLES_BESIDE, Each(burnables_beside)),
        (c::CLEAR_BESIDE, Each(clear_beside)),
        (c::WINDOWS, Each(windows)),
        (c::WINDOW_BESIDE, Each(window_beside)),
        (u::COOKERS, Each(cookers)),
        (u::BESIDE_COOKER, Each(beside_cooker)),
        (u::ABOVE_COOKER, Each(above_cooker)),
        (f::alarm::COOKERS, Each(cookers)),
    ]
}

/// The worktop that a cooker is let into may stand this much above its top, m. Chosen.
const WORKTOP: f64 = 0.02;

/// Beside a cooker counts what reaches into this height above its top, m: AS/NZS 5601.1 protects the wall so far (second-hand).
const BESIDE: f64 = 0.15;

type Shapes = Vec<(PartId, Cuboid)>;

fn above(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome<(Cuboid, Shapes)> {
    let all = burnables(reader, case)?;
    let own = reader.scene().solid(reader.build(), cooker);
    let (own, mut things) = both(own, shapes(reader, &all))?;
    things
        .retain(|(_, thing)| thing.plan().intersects(&own.plan(), 0.0) && thing.least()[2] >= own.most()[2] - WORKTOP);
    Ok((own, things))
}

fn beside(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome<(Cuboid, Shapes)> {
    let all = burnables(reader, case)?;
    // What is over the cooker is judged by the height, and curtains by rules of their own.
    let build = reader.build();
    let own = reader.scene().solid(build, cooker);
    let (own, mut things) = both(own, shapes(reader, &all))?;
    let top = own.most()[2];
    things.retain(|(part, thing)| {
        build.part(*part).kind != kind::CURTAIN
            && !thing.plan().intersects(&own.plan(), 0.0)
            && thing.most()[2] > top + WORKTOP
            && thing.least()[2] < top + BESIDE
    });
    Ok((own, things))
}

fn parts_of((_, things): (Cuboid, Shapes)) -> Fact {
    all(things.into_iter().map(|(part, _)| part))
}

fn burnables_above(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome {
    Ok(parts_of(above(reader, cooker, case)?))
}

fn burnables_beside(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome {
    Ok(parts_of(beside(reader, cooker, case)?))
}

fn least_of(found: Option<(f64, PartId)>, part: PartId, fact: FactId) -> Outcome {
    found.map_or_else(|| no_solution(part, fact), |(distance, _)| Ok(Fact::Number(distance)))
}

fn clear_above(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome {
    let (own, things) = above(reader, cooker, case)?;
    least_of(nearest(&things, |thing| thing.vertical_gap(&own)), cooker, c::CLEAR_ABOVE)
}

fn clear_beside(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome {
    let (own, things) = beside(reader, cooker, case)?;
    least_of(nearest(&things, |thing| thing.horizontal_gap(&own)), cooker, c::CLEAR_BESIDE)
}

/// The windows that open and reach above the top of a cooker, each as its flat box.
fn opening_windows(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome<(Cuboid, Shapes)> {
    let (build, scene) = (reader.build(), reader.scene());
    let own = scene.solid(build, cooker)?;
    let windows = every(reader, &[kind::WINDOW])?;
    let opening = filtered(windows, |window| reader.need_flag(window, f::window::OPENS, case))?;
    let mut found = Vec::new();
    let mut gaps = Gaps::default();
    for window in opening {
        match scene.opening(build, window) {
            Ok(opening) if opening.head() > own.most()[2] => found.push((window, opening.bounds())),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok((own, found)) } else { Err(gaps) }
}

fn windows(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome {
    Ok(parts_of(opening_windows(reader, cooker, case)?))
}

fn window_beside(reader: &mut Reader<'_>, cooker: PartId, case: CaseId) -> Outcome {
    let (own, windows) = opening_windows(reader, cooker, case)?;
    least_of(nearest(&windows, |window| window.horizontal_gap(&own)), cooker, c::WINDOW_BESIDE)
}

/// Every cooker.
fn cookers(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Parts(reader.build().of_kind(kind::COOKER).clone()))
}

/// A curtain and the cooker that is nearest to it.
fn nearest_cooker(reader: &mut Reader<'_>, curtain: PartId, fact: FactId) -> Outcome<(Cuboid, Cuboid)> {
    let all = every(reader, &[kind::COOKER])?;
    let own = reader.scene().solid(reader.build(), curtain);
    let (own, cookers) = both(own, shapes(reader, &all))?;
    let found = nearest(&cookers, |cooker| cooker.distance(&own));
    match found.and_then(|(_, near)| cookers.into_iter().find(|(part, _)| *part == near)) {
        Some((_, cooker)) => Ok((own, cooker)),
        None => Err(Gaps::one(Gap::NoSolution(curtain, fact))),
    }
}

fn beside_cooker(reader: &mut Reader<'_>, curtain: PartId, _: CaseId) -> Outcome {
    let (own, cooker) = nearest_cooker(reader, curtain, u::BESIDE_COOKER)?;
    Ok(Fact::Number(own.horizontal_gap(&cooker)))
}

fn above_cooker(reader: &mut Reader<'_>, curtain: PartId, _: CaseId) -> Outcome {
    let (own, cooker) = nearest_cooker(reader, curtain, u::ABOVE_COOKER)?;
    Ok(Fact::Number((own.least()[2] - cooker.most()[2]).max(0.0)))
}
