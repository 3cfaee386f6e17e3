//! Berths: their height, what keeps a sleeper from falling out, and the clear height over them.

use super::{every, length, solids, ways};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::{least, no_solution};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::space::{Cuboid, clear_share};
use vocabulary::{FactId, fact as f, fact::berth as b, fact::guard as g, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (b::UNDERSIDE, Each(underside)),
        (b::TOP, Each(top)),
        (b::OPEN_SIDES, Each(open_sides)),
        (b::GUARDED, Each(guarded)),
        (b::GUARD_HEIGHT, Each(guard_height)),
        (b::GUARD_GAP, Each(guard_gap)),
        (b::CLEAR_PART, Each(clear_part)),
        (b::CLEAR_HEIGHT_ASKED, Each(clear_height_asked)),
        (b::CLEAR_PART_ASKED, Each(clear_part_asked)),
        (b::WIDTH_EACH, Each(width_each)),
        (b::SLEEP_LENGTH, Each(sleep_length)),
        (b::LEAST_CLEAR, Each(least_clear)),
        (b::MONOXIDE_ALARMS, Each(monoxide_alarms)),
        (b::MONOXIDE_ALARM_DISTANCE, Each(monoxide_alarm_distance)),
        (b::EXITS_THERE, Each(ways::exits_there)),
        (b::EXITS_REACHED, Each(ways::exits_reached)),
        (b::WAY_WIDTH, Each(ways::way_width)),
        (b::SECOND_WAY_WIDTH, Each(ways::second_way_width)),
        (b::FREE_OF_FIRE, Each(ways::free_of_fire)),
        (b::FIRE_CLEARANCE, Each(ways::fire_clearance)),
    ]
}

/// A wall or a piece of furniture within this distance of a berth keeps a sleeper from falling between, m. Chosen.
const AGAINST: f64 = 0.05;

/// Furniture beside a berth keeps a sleeper where it rises as high above the mattress as a guard has to, m: 16 CFR 1213.3(a), 5 in
/// (read).
const AS_A_GUARD: f64 = 0.127;

/// Over a bunk EN 1646-1 asks for 500 mm clear over two thirds of it; in a vehicle whose overall length × width is no more than
/// 13.5 m² for 400 mm over half of it (second-hand, one copy; 12 m² in the edition of 2004).
const SMALL_VEHICLE: f64 = 13.5;
const CLEAR: [f64; 2] = [0.5, 2.0 / 3.0];
const CLEAR_WHEN_SMALL: [f64; 2] = [0.4, 0.5];

fn solid(reader: &mut Reader<'_>, berth: PartId) -> Outcome<Cuboid> {
    reader.scene().solid(reader.build(), berth)
}

/// Above the floor of the space that it stands in.
fn floor(reader: &mut Reader<'_>) -> f64 {
    reader.scene().interior(reader.build()).map_or(0.0, |interior| interior.around.least()[2])
}

fn underside(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(solid(reader, berth)?.least()[2] - floor(reader)))
}

fn top(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Number(solid(reader, berth)?.most()[2] - floor(reader)))
}

/// The guards of a berth.
fn guards(reader: &Reader<'_>, berth: PartId) -> Outcome<Vec<PartId>> {
    let guards = reader.build().inside(berth, kind::GUARD);
    if guards.complete { Ok(guards.members.to_vec()) } else { Err(Gaps::one(Gap::Unread(berth))) }
}

fn guarded(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(!guards(reader, berth)?.is_empty()))
}

fn of_guards(reader: &mut Reader<'_>, berth: PartId, fact: FactId, case: CaseId) -> Outcome<Vec<Outcome<f64>>> {
    Ok(guards(reader, berth)?.into_iter().map(|guard| reader.need(guard, fact, case)).collect())
}

fn guard_height(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    match least(of_guards(reader, berth, g::HEIGHT, case)?)? {
        Some(height) => Ok(Fact::Number(height)),
        None => no_solution(berth, b::GUARD_HEIGHT),
    }
}

fn guard_gap(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    let gaps = of_guards(reader, berth, g::END_GAP, case)?;
    match least(gaps.into_iter().map(|gap| gap.map(|gap| -gap)))? {
        Some(gap) => Ok(Fact::Number(-gap)),
        None => no_solution(berth, b::GUARD_GAP),
    }
}

/// The sides of a berth: the word, the axis across it, and whether it is the side of the greater coordinate.
const SIDES: [(&str, usize, bool); 4] =
    [("left", 1, false), ("right", 1, true), ("front", 0, false), ("rear", 0, true)];

/// Whether a box stands against a side of a berth, along nearly all of it, and rises as high as a guard.
fn keeps(berth: &Cuboid, (_, axis, far): (&str, usize, bool), thing: &Cuboid) -> bool {
    let along = 1 - axis;
    let gap = if far { thing.least()[axis] - berth.most()[axis] } else { berth.least()[axis] - thing.most()[axis] };
    gap.abs() <= AGAINST
        && thing.least()[along] <= berth.least()[along] + AGAINST
        && thing.most()[along] >= berth.most()[along] - AGAINST
        && thing.most()[2] >= berth.most()[2] + AS_A_GUARD
}

fn open_sides(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    let (build, scene) = (reader.build(), reader.scene());
    let own = solid(reader, berth)?;
    let interior = scene.interior(build)?;
    let solids = solids(reader).all()?;
    let mut guarded = Vec::new();
    for guard in guards(reader, berth)? {
        guarded.push(reader.need_word(guard, g::SIDE, case)?);
    }
    let room = scene.zone(build, berth)?.and_then(|zone| scene.shape(zone).ok()).unwrap_or(interior.around);
    let open: Vec<&str> = SIDES
        .into_iter()
        .filter(|side @ (word, axis, far)| {
            let wall =
                if *far { room.most()[*axis] - own.most()[*axis] } else { own.least()[*axis] - room.least()[*axis] };
            wall > AGAINST
                && !guarded.contains(word)
                && !solids.iter().any(|(part, thing)| *part != berth && keeps(&own, *side, thing))
        })
        .map(|(word, ..)| word)
        .collect();
    reader.step(|| {
        let sides = if open.is_empty() { "none".to_owned() } else { open.join(", ") };
        Step::of(format!("without a wall, furniture or a guard: {sides}"))
    });
    Ok(Fact::Number(f64::from(u32::try_from(open.len()).unwrap_or(u32::MAX))))
}

/// A berth, what may reach over it, and the height of the ceiling over it, m.
fn overhead(reader: &mut Reader<'_>, berth: PartId) -> Outcome<(Cuboid, Vec<Cuboid>, f64)> {
    let (build, scene) = (reader.build(), reader.scene());
    let own = solid(reader, berth)?;
    let solids = solids(reader).all()?;
    let above: Vec<Cuboid> = solids.into_iter().filter(|(part, _)| *part != berth).map(|(_, shape)| shape).collect();
    let room = match scene.zone(build, berth)?.and_then(|zone| scene.shape(zone).ok()) {
        Some(room) => room,
        None => scene.interior(build)?.around,
    };
    Ok((own, above, room.most()[2]))
}

fn share(reader: &mut Reader<'_>, berth: PartId, height: f64) -> Outcome {
    let (own, mut above, ceiling) = overhead(reader, berth)?;
    // The ceiling lies over all of it.
    let [x, y, _] = own.least();
    let [length_of, width, _] = own.size();
    above.extend(Cuboid::new([x, y, ceiling], [length_of, width, height]));
    let share = clear_share(&own, &above, height);
    reader.step(|| Step::of(format!("{} clear over {:.0} % of it", length(height), share * 100.0)));
    Ok(Fact::Number(share))
}

fn least_clear(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    let (own, above, ceiling) = overhead(reader, berth)?;
    let top = own.most()[2];
    let over = |thing: &&Cuboid| {
        thing.most()[2] > top
            && [0, 1]
                .into_iter()
                .all(|axis| thing.least()[axis] < own.most()[axis] && thing.most()[axis] > own.least()[axis])
    };
    let clear = above.iter().filter(over).map(|thing| thing.least()[2] - top);
    let least = clear.fold(ceiling - top, f64::min).max(0.0);
    Ok(Fact::Number(least))
}

/// The clear height and the part of the berth over which it is asked.
fn asked(reader: &mut Reader<'_>, case: CaseId) -> Outcome<[f64; 2]> {
    let area = reader.need(Build::ROOT, f::build::PLAN_AREA, case)?;
    let small = area <= SMALL_VEHICLE;
    let asked = if small { CLEAR_WHEN_SMALL } else { CLEAR };
    reader.step(|| Step {
        source: Some("EN 1646-1, bunks (second-hand)".to_owned()),
        ..Step::of(format!(
            "{} over {:.0} % of it in a vehicle of {}",
            length(asked[0]),
            asked[1] * 100.0,
            crate::methods::show(area, quantity::Dimension::AREA)
        ))
    });
    Ok(asked)
}

fn clear_height_asked(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(asked(reader, case)?[0]))
}

fn clear_part_asked(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(asked(reader, case)?[1]))
}

fn clear_part(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    let height = asked(reader, case)?[0];
    share(reader, berth, height)
}

fn width_each(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    let [along, across, _] = solid(reader, berth)?.size();
    let sleeps = reader.need(berth, b::SLEEPS, case)?;
    Ok(Fact::Number(along.min(across) / sleeps.max(1.0)))
}

fn sleep_length(reader: &mut Reader<'_>, berth: PartId, _: CaseId) -> Outcome {
    let [along, across, _] = solid(reader, berth)?.size();
    Ok(Fact::Number(along.max(across)))
}

/// The alarms that sense carbon monoxide and hang in the space of a berth; whether there is one at all is another matter.
fn sensing(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome<Vec<PartId>> {
    let space = reader.fact(berth, b::STANDING_ZONE, case)?;
    let alarms = every(reader, &[kind::ALARM])?;
    let words = vocabulary::fact_spec(f::alarm::SENSES).choices();
    let place = words.iter().position(|word| *word == "carbon-monoxide").unwrap_or(0);
    super::filtered(alarms, |alarm| match reader.fact(alarm, f::alarm::SENSES, case)? {
        Fact::ChoiceSet(bits) if bits & (1 << place) == 0 => Ok(false),
        Fact::ChoiceSet(_) => Ok(reader.fact(alarm, f::alarm::STANDING_ZONE, case)? == space),
        _ => no_solution(alarm, f::alarm::SENSES),
    })
}

fn monoxide_alarms(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    Ok(crate::methods::all(sensing(reader, berth, case)?))
}

fn monoxide_alarm_distance(reader: &mut Reader<'_>, berth: PartId, case: CaseId) -> Outcome {
    let own = reader.scene().shape(berth)?;
    let alarms = sensing(reader, berth, case)?;
    let shapes = super::shapes(reader, &alarms)?;
    match super::nearest(&shapes, |alarm| alarm.distance(&own)) {
        Some((distance, _)) => Ok(Fact::Number(distance)),
        None => no_solution(berth, b::MONOXIDE_ALARM_DISTANCE),
    }
}
