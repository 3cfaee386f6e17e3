//! Ways out of the vehicle: how large, where, and what stands before them.

use super::{every, length, solids};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{all, battery::both, no_solution, regions};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::space::{self, Cuboid, ExitGauge, Opening, Outline, Side, height_above_standing, passes};
use vocabulary::{fact as f, fact::exit as e, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::build::EXITS, Each(exits)),
        (f::build::EXIT_SIDES, Each(exit_sides)),
        (f::build::EXITS_APART, Each(exits_apart)),
        (f::build::INSIDE_LENGTH, Each(inside_length)),
        (f::zone::SLEEPS_HERE, Each(sleeps_here)),
        (f::zone::EXITS_OF, Each(exits_of)),
        (e::CLEAR_WIDTH, Each(clear_width)),
        (e::CLEAR_HEIGHT, Each(clear_height)),
        (e::CLEAR_AREA, Each(clear_area)),
        (e::GAUGE, Each(gauge)),
        (e::PASSES_GAUGE, Each(passes_gauge)),
        (e::BLOCKED_BY, Each(blocked_by)),
        (e::STEP_UP, Each(step_up)),
    ]
}

/// What stands nearer to an exit than this is before it, m. Chosen: a hand's breadth and a half.
const BEFORE: f64 = 0.15;

/// What is fixed outside within this distance of an exit keeps it from opening, m. Chosen.
const OUTSIDE: f64 = 0.30;

/// What covers an opening by no more than this does not count, m. Chosen: an edge trim.
const TRIM: f64 = 0.02;

/// One steps up to an exit from what is no farther from it than this, m. Chosen: a stride.
const STRIDE: f64 = 0.6;

/// An exit belongs to a space whose wall it is no farther from than this, m: `calc`'s thickness of a lined wall.
const IN_WALL: f64 = space::way::WALL_TOLERANCE;

fn exits(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Parts(reader.build().of_kind(kind::EXIT).clone()))
}

/// The exits that nothing blocks.
pub fn free_exits(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<PartId>> {
    let exits = every(reader, &[kind::EXIT])?;
    super::filtered(exits, |exit| match reader.fact(exit, e::BLOCKED_BY, case)? {
        Fact::Parts(parts) if parts.complete => Ok(parts.members.is_empty()),
        _ => Err(reader.gaps(exit, e::BLOCKED_BY, case)),
    })
}

fn exit_sides(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let mut sides: Vec<&str> = Vec::new();
    let mut gaps = Gaps::default();
    for exit in free_exits(reader, case)? {
        match reader.need_word(exit, e::SIDE, case) {
            Ok(side) if !sides.contains(&side) => sides.push(side),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    reader.step(|| Step::of(sides.join(", ")));
    Ok(Fact::Number(f64::from(u32::try_from(sides.len()).unwrap_or(u32::MAX))))
}

fn exits_apart(reader: &mut Reader<'_>, root: PartId, case: CaseId) -> Outcome {
    let exits = free_exits(reader, case)?;
    let shapes = super::shapes(reader, &exits)?;
    let mut farthest: Option<(f64, PartId, PartId)> = None;
    for (index, (one, at)) in shapes.iter().enumerate() {
        for (other, to) in shapes.iter().skip(index + 1) {
            let apart = at.horizontal_gap(to);
            if farthest.is_none_or(|(most, ..)| apart > most) {
                farthest = Some((apart, *one, *other));
            }
        }
    }
    let Some((apart, one, other)) = farthest else { return no_solution(root, f::build::EXITS_APART) };
    let build = reader.build();
    reader.step(|| Step::of(format!("{} to {}: {}", build.part(one).title, build.part(other).title, length(apart))));
    Ok(Fact::Number(apart))
}

fn inside_length(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let interior = reader.scene().interior(reader.build())?;
    Ok(Fact::Number(interior.around.size()[0]))
}

fn sleeps_here(reader: &mut Reader<'_>, zone: PartId, _: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let berths = every(reader, &[kind::BERTH])?;
    let mut gaps = Gaps::default();
    for berth in berths {
        match scene.zone(build, berth) {
            Ok(Some(own)) if own == zone => return Ok(Fact::Flag(true)),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn exits_of(reader: &mut Reader<'_>, zone: PartId, _: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let exits = every(reader, &[kind::EXIT])?;
    let room = scene.solid(build, zone)?;
    let found = super::filtered(exits, |exit| Ok(scene.opening(build, exit)?.bounds().distance(&room) <= IN_WALL))?;
    Ok(all(found))
}

fn clear(reader: &mut Reader<'_>, exit: PartId, case: CaseId) -> Outcome<[f64; 2]> {
    match reader.fact(exit, e::CLEAR, case)? {
        Fact::Opening(clear) => Ok(clear),
        _ => no_solution(exit, e::CLEAR),
    }
}

fn clear_width(reader: &mut Reader<'_>, exit: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(clear(reader, exit, case)?[0]))
}

fn clear_height(reader: &mut Reader<'_>, exit: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(clear(reader, exit, case)?[1]))
}

fn clear_area(reader: &mut Reader<'_>, exit: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(reader.scene().outline(reader.build(), exit)?.area()))
}

/// The outlines that have to pass through an exit where the build is used.
fn gauges(reader: &mut Reader<'_>, case: CaseId) -> Outcome<Vec<&'static ExitGauge>> {
    let Some(vehicle) = reader.build().only(kind::VEHICLE) else {
        return Err(Gaps::one(Gap::Absent(Build::ROOT, kind::VEHICLE)));
    };
    let bus = reader.need_word(vehicle, f::vehicle::CLASS, case)? == "bus";
    let regions = regions(reader, case)?;
    let us: &ExitGauge = if bus { &space::BUS_EXIT } else { &space::LEISURE_VEHICLE_EXIT };
    let elsewhere: &ExitGauge = if bus { &space::GERMAN_BUS_EXIT } else { &space::BELGIAN_EXIT };
    Ok([(regions.us, us), (regions.outside_us(), elsewhere)]
        .into_iter()
        .filter(|(due, _)| *due)
        .map(|(_, of)| of)
        .collect())
}

fn in_words(gauge: &ExitGauge) -> String {
    let form = if gauge.ellipse { "ellipse" } else { "rectangle" };
    format!("{form} of {} × {}", length(gauge.width), length(gauge.height))
}

fn gauge(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let words: Vec<String> = gauges(reader, case)?.into_iter().map(in_words).collect();
    Ok(Fact::Text(words.join(", ").into()))
}

/// Whether an outline lets a gauge pass. A bus may lie on its side: its roof exits are tried both ways.
fn lets_pass(gauge: &ExitGauge, opening: &Outline, on_roof: bool) -> bool {
    let level = |outline: &Outline| gauge.outline().is_ok_and(|body| passes(&body, outline, gauge.turning));
    let turned = || Outline::rectangle(opening.height(), opening.width()).is_ok_and(|turned| level(&turned));
    level(opening) && (!on_roof || gauge.turning == space::Turning::Any || turned())
}

fn passes_gauge(reader: &mut Reader<'_>, exit: PartId, case: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let side = reader.need_word(exit, e::SIDE, case);
    let (outline, (gauges, side)) = both(scene.outline(build, exit), both(gauges(reader, case), side))?;
    let mut passed = true;
    for gauge in gauges {
        let passes = lets_pass(gauge, &outline, matches!(side, "roof" | "floor"));
        passed &= passes;
        reader.step(|| {
            let text = format!("{} {}", in_words(gauge), if passes { "passes" } else { "does not pass" });
            Step::cited(text, gauge.citation)
        });
    }
    Ok(Fact::Flag(passed))
}

/// The axes along the width and the height of an opening.
fn axes(side: Side) -> [usize; 2] {
    match side {
        Side::Front | Side::Rear => [1, 2],
        Side::Left | Side::Right => [0, 2],
        Side::Roof | Side::Under => [1, 0],
    }
}

/// Whether a gauge passes beside, above or below a thing that stands in the opening.
fn passes_beside(gauge: &ExitGauge, opening: &Opening, thing: &Cuboid) -> bool {
    let (bounds, [width, height]) = (opening.bounds(), axes(opening.side()));
    let (least, most) = (bounds.least(), bounds.most());
    let (low, high) = (thing.least(), thing.most());
    let whole = [most[width] - least[width], most[height] - least[height]];
    [
        [low[width] - least[width], whole[1]],
        [most[width] - high[width], whole[1]],
        [whole[0], low[height] - least[height]],
        [whole[0], most[height] - high[height]],
    ]
    .into_iter()
    .filter_map(|[width, height]| Outline::rectangle(width.min(whole[0]), height.min(whole[1])).ok())
    .any(|strip| lets_pass(gauge, &strip, false))
}

fn blocked_by(reader: &mut Reader<'_>, exit: PartId, case: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let solids = solids(reader);
    let mut blocking = Vec::new();
    let mut gaps = solids.gaps;
    let fixed = every(reader, &[kind::LADDER, kind::RACK])?;
    let opening = scene.opening(build, exit);
    let gauges = gauges(reader, case);
    let blocks = |thing: &Cuboid, space: Option<Cuboid>| -> Outcome<bool> {
        let (opening, gauges) = both(opening.clone(), gauges.clone())?;
        let before = space.is_some_and(|space| space.intersects(thing, TRIM));
        Ok(before && gauges.iter().any(|gauge| !passes_beside(gauge, &opening, thing)))
    };
    let space = |outside: bool| {
        let opening = opening.as_ref().ok()?;
        if outside { opening.space_outside(OUTSIDE).ok() } else { opening.space_inside(BEFORE).ok() }
    };
    for (part, shape) in &solids.boxes {
        match blocks(shape, space(false)) {
            Ok(true) => blocking.push(*part),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    for part in fixed {
        let before = if build.part(part).kind == kind::LADDER { f::ladder::BEFORE } else { f::rack::BEFORE };
        if !reader.silent(part, before) {
            match reader.fact(part, before, case) {
                Ok(Fact::Part(named)) if named == exit => blocking.push(part),
                Ok(_) => {}
                Err(more) => gaps.add(&more),
            }
            continue;
        }
        match scene.shape(part).and_then(|shape| blocks(&shape, space(true))) {
            Ok(true) => blocking.push(part),
            Ok(false) => {}
            Err(_) if scene.stand(part).is_some_and(|stand| !stand.said) => {
                gaps.add(&Gaps::one(Gap::Entry(part, before)));
            }
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(all(blocking)) } else { Err(gaps) }
}

fn step_up(reader: &mut Reader<'_>, exit: PartId, _: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let solids = solids(reader);
    let mut gaps = solids.gaps;
    let interior = scene.interior(build);
    let opening = scene.opening(build, exit);
    for unknown in [interior.as_ref().err(), opening.as_ref().err()].into_iter().flatten() {
        gaps.add(unknown);
    }
    let (Ok(interior), Ok(opening), true) = (interior, opening, gaps.is_empty()) else { return Err(gaps) };
    let stands = |part: PartId| matches!(build.part(part).kind, kind::FURNISHING | kind::BERTH | kind::SEAT);
    let steps: Vec<Cuboid> =
        solids.boxes.into_iter().filter(|(part, _)| stands(*part)).map(|(_, shape)| shape).collect();
    let up = height_above_standing(&opening.bounds(), interior.around.least()[2], &steps, STRIDE);
    reader.step(|| Step::of(format!("lower edge {} above what one can stand on", length(up))));
    Ok(Fact::Number(up))
}
