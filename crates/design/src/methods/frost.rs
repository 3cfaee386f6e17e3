//! Frost: which water stands in the cold, how soon it freezes, and what holds it warm.

use super::battery::both;
use super::heat::{self, layers};
use super::space::{self, Space};
use super::system::says_none;
use super::{air, celsius, listed_inside, no_solution, show, water};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::{Build, Reference};
use crate::reader::Reader;
use crate::working::Step;
use calc::water::{FilledPipe, Insulation};
use quantity::Dimension;
use vocabulary::{FactId, fact as f, fact::brief as b, fact::pipe as p, fact::tank as t, fact::zone as z, kind};

/// How deep zones stand in one another: as deep as a text may nest.
const DEEPEST: usize = 32;

/// The water in tanks and pipes when the night begins, and the temperatures at which tanks and pipes are held, K: 10 °C, 2 °C and
/// 5 °C (the fact book; 5 °C as guides for pipes say, second-hand; the others chosen).
const START: f64 = heat::FREEZING + 10.0;
const HOLD_TANK: f64 = heat::FREEZING + 2.0;
const HOLD_PIPE: f64 = heat::FREEZING + 5.0;

/// Heat to the air round a tank in a closed space and in the wind, and round a pipe, W/(m²·K) (from memory).
const STILL: f64 = 8.0;
const WIND: f64 = 20.0;
const ROUND_PIPE: f64 = 10.0;

/// A quarter more for valves and fittings (chosen).
const FITTINGS: f64 = 1.25;

/// Cross-linked polyethylene: conductivity W/(m·K) and heat capacity J/(m³·K) (from memory).
const PIPE_WALL: (f64, f64) = (0.4, 2.16e6);
/// Foam round pipes, W/(m·K) (elastomeric foam at 0 °C, from memory).
const PIPE_FOAM: f64 = 0.036;

/// Whether anything warms the spaces for people.
fn build_is_heated(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    let build = reader.build();
    let heaters = build.of_kind(kind::HEATER).clone();
    let mut gaps = Gaps::default();
    for &heater in heaters.members.iter() {
        match reader.need_flag(heater, f::heater::WARMS_SPACE, case) {
            Ok(true) => return Ok(true),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !heaters.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    if says_none(build, "heat") { Ok(false) } else { Err(Gaps::one(Gap::Absent(Build::ROOT, kind::HEATER))) }
}

/// Whether a space is kept above freezing: as said; else spaces for people and what is inside them are, where something heats them.
pub fn is_warm(reader: &mut Reader<'_>, space: Space, case: CaseId) -> Outcome<bool> {
    let Space::Zone(mut zone) = space else { return Ok(false) };
    for _ in 0..DEEPEST {
        if !reader.silent(zone, z::HEATED) {
            return reader.need_flag(zone, z::HEATED, case);
        }
        match reader.need_word(zone, z::KIND, case)? {
            "living" => return build_is_heated(reader, case),
            "cab" | "outside" | "engine" | "roof" => return Ok(false),
            _ => {}
        }
        match air::outer(reader, zone, case)? {
            Some(outer) => zone = outer,
            None => return Ok(false),
        }
    }
    Ok(false)
}

/// Whether what stands in a space meets a frost.
fn cold(reader: &mut Reader<'_>, space: Outcome<Space>, case: CaseId) -> Outcome<bool> {
    if !heat::freezing_night(reader, case)? {
        return Ok(false);
    }
    Ok(!is_warm(reader, space?, case)?)
}

/// Whether water stays in a part before a frost, by its own word and that of its line.
fn stays_full(reader: &mut Reader<'_>, part: PartId, own: Option<FactId>, case: CaseId) -> Outcome<bool> {
    if let Some(own) = own
        && reader.need_word(part, own, case)? != "full"
    {
        return Ok(false);
    }
    match water::line_of(reader, part) {
        Some(line) => Ok(reader.need_word(line, f::water_line::IN_FROST, case)? == "full"),
        None => Ok(true),
    }
}

fn is_water(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(matches!(reader.need_word(tank, t::HOLDS, case)?, "fresh" | "grey" | "black")))
}

fn tank_meets(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    if !reader.need_flag(tank, t::IS_WATER, case)? || !stays_full(reader, tank, Some(t::IN_FROST), case)? {
        return Ok(Fact::Flag(false));
    }
    let space = space::of(reader, tank, case);
    cold(reader, space, case).map(Fact::Flag)
}

fn pipe_meets(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    if reader.need_flag(pipe, p::CARRIES_GAS, case)? || !stays_full(reader, pipe, None, case)? {
        return Ok(Fact::Flag(false));
    }
    // Between skin and insulation it is as cold as outside, whatever the space within.
    if reader.need_flag(pipe, p::IN_OUTER_WALL, case)? {
        return heat::freezing_night(reader, case).map(Fact::Flag);
    }
    let space = space::named(reader, pipe, p::ZONE, case);
    cold(reader, space, case).map(Fact::Flag)
}

fn pump_meets(reader: &mut Reader<'_>, pump: PartId, case: CaseId) -> Outcome {
    // A pump of the heating moves what does not freeze.
    if water::line_of(reader, pump).is_none() || !stays_full(reader, pump, Some(f::pump::IN_FROST), case)? {
        return Ok(Fact::Flag(false));
    }
    let space = space::of(reader, pump, case);
    cold(reader, space, case).map(Fact::Flag)
}

fn waste_meets(reader: &mut Reader<'_>, waste: PartId, case: CaseId) -> Outcome {
    use f::waste_line as w;
    if reader.need_word(waste, w::TRAP, case)? != "water" || reader.need_word(waste, w::IN_FROST, case)? != "full" {
        return Ok(Fact::Flag(false));
    }
    let space = space::of(reader, waste, case);
    cold(reader, space, case).map(Fact::Flag)
}

fn line_frosty(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    heat::freezing_night(reader, case).map(Fact::Flag)
}

fn low_drain(reader: &mut Reader<'_>, line: PartId, case: CaseId) -> Outcome {
    let (drains, complete) = listed_inside(reader, line, kind::DRAIN);
    let mut gaps = Gaps::default();
    for drain in drains {
        match reader.need_flag(drain, f::drain::LOWEST, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !complete {
        gaps.add(&Gaps::one(Gap::Unread(line)));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// The area of the faces of a tank, m².
fn face_area(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    match reader.fact(tank, t::SIZE, case)? {
        Fact::Lengths([length, width, height]) => {
            Ok(Fact::Number(2.0 * (length * width + length * height + width * height)))
        }
        _ => no_solution(tank, t::FACE_AREA),
    }
}

/// What a tank loses for each kelvin, W/K.
fn tank_loss(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome<f64> {
    let area = reader.need(tank, t::FACE_AREA, case)?;
    let thickness = reader.need(tank, t::INSULATION, case)?;
    let material = match reader.fact(tank, t::INSULATION_MATERIAL, case)? {
        Fact::Text(material) => material,
        _ => return no_solution(tank, t::HOLDING_POWER),
    };
    let Some(conductivity) = layers::conductivity(&material) else {
        return Err(Gaps::one(Gap::Entry(tank, t::INSULATION_MATERIAL)));
    };
    let space = space::of(reader, tank, case)?;
    let film = if space::airy(space::word(reader, space, case)?) { WIND } else { STILL };
    let insulation = Insulation { thickness, conductivity: conductivity.most() };
    match calc::water::tank_loss(area, insulation, film) {
        Ok(loss) => {
            reader.step(|| {
                Step::assumed(
                    format!(
                        "{} of faces, {film:.0} W/m²K to the air, {} of {material}: {loss:.2} W/K",
                        show(area, Dimension::AREA),
                        show(thickness, Dimension::LENGTH)
                    ),
                    "film in still air 8, in the wind of the road 20 W/m²K (memory)",
                )
            });
            Ok(loss)
        }
        Err(_) => no_solution(tank, t::HOLDING_POWER),
    }
}

fn tank_freezes_after(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    let night = heat::coldest_night(reader, case);
    let ((loss, volume), night) = both(both(tank_loss(reader, tank, case), reader.need(tank, t::VOLUME, case)), night)?;
    let seconds = calc::water::tank_contents(volume)
        .and_then(|(capacity, _)| calc::water::seconds_to_freezing_point(capacity, loss, START, night));
    match seconds {
        Ok(Some(seconds)) => {
            reader.step(|| {
                Step::of(format!(
                    "{} of water from {} to freezing at {}: {}",
                    show(volume, Dimension::VOLUME),
                    celsius(START),
                    celsius(night),
                    show(seconds, Dimension::TIME)
                ))
            });
            Ok(Fact::Number(seconds))
        }
        _ => no_solution(tank, t::FREEZES_AFTER),
    }
}

fn holding_power(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    let (loss, night) = both(tank_loss(reader, tank, case), heat::coldest_night(reader, case))?;
    match calc::water::holding_power(loss, HOLD_TANK, night) {
        Ok(power) => Ok(Fact::Number(power)),
        Err(_) => no_solution(tank, t::HOLDING_POWER),
    }
}

/// The heaters that warm a tank.
fn pads(reader: &mut Reader<'_>, tank: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let heaters = build.of_kind(kind::HEATER);
    let named = |heater: &PartId| build.references.get(&(*heater, f::heater::FOR)) == Some(&Reference::To(tank));
    let found: Vec<PartId> = heaters.members.iter().copied().filter(named).collect();
    // What warms what is not known may warm this one.
    let unsure = heaters.members.iter().any(|heater| {
        let part = build.part(*heater);
        part.unread || part.given(f::heater::FOR).is_some_and(|given| given.value == spec::Value::Unknown)
    });
    Ok(super::parts(found, heaters.complete && !unsure))
}

fn pad_power(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    let pads = reader.parts(tank, t::PADS, case);
    if !pads.complete {
        return Err(reader.gaps(tank, t::PADS, case));
    }
    let mut each = Vec::new();
    for &pad in pads.members.iter() {
        use f::heater as h;
        each.push(if !reader.silent(pad, h::OUTPUT) {
            reader.need(pad, h::OUTPUT, case)
        } else if !reader.silent(pad, h::POWER) {
            reader.need(pad, h::POWER, case)
        } else {
            Err(heat::any_of([(pad, h::OUTPUT), (pad, h::POWER)]))
        });
    }
    Ok(Fact::Number(super::sum(each)?))
}

/// What a metre of pipe resists, m·K/W, and holds.
fn pipe(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome<(f64, f64, f64)> {
    let (outside, inside) = both(reader.need(pipe, p::SIZE, case), reader.need(pipe, p::BORE, case))?;
    let thickness = reader.need(pipe, p::INSULATION, case)?;
    let filled = FilledPipe { outside, inside, wall_conductivity: PIPE_WALL.0, wall_heat: PIPE_WALL.1 };
    let insulation = Insulation { thickness, conductivity: PIPE_FOAM };
    let found = calc::water::pipe_resistance(&filled, insulation, ROUND_PIPE)
        .and_then(|resistance| Ok((resistance, calc::water::pipe_contents(&filled)?)));
    match found {
        Ok((resistance, (capacity, water))) => {
            reader.step(|| {
                let text = format!(
                    "{} with {} of foam: {resistance:.2} mK/W",
                    show(outside, Dimension::LENGTH),
                    show(thickness, Dimension::LENGTH)
                );
                Step::assumed(text, "cross-linked polyethylene 0.4, foam 0.036 W/mK, film 10 W/m²K (memory)")
            });
            Ok((resistance, capacity, water))
        }
        Err(_) => Err(heat::any_of([(pipe, p::SIZE), (pipe, p::WALL)])),
    }
}

fn pipe_freezes_after(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let ((resistance, capacity, water), night) = both(pipe(reader, part, case), heat::coldest_night(reader, case))?;
    let loss = 1.0 / resistance;
    let to_zero = calc::water::seconds_to_freezing_point(capacity, loss, START, night);
    let to_ice = calc::water::seconds_to_freeze(water, loss, night, calc::water::BLOCKED_PIPE_ICE_SHARE);
    match (to_zero, to_ice) {
        (Ok(Some(to_zero)), Ok(Some(to_ice))) => {
            reader.step(|| {
                Step::of(format!(
                    "{} to freezing, {} more until a twentieth is ice",
                    show(to_zero, Dimension::TIME),
                    show(to_ice, Dimension::TIME)
                ))
            });
            Ok(Fact::Number(to_zero + to_ice))
        }
        _ => no_solution(part, p::FREEZES_AFTER),
    }
}

fn trace_needed(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let ((resistance, _, _), night) = both(pipe(reader, part, case), heat::coldest_night(reader, case))?;
    let length = reader.need(part, p::ONE_WAY, case)?;
    match calc::water::holding_power(1.0 / resistance, HOLD_PIPE, night) {
        Ok(each) => Ok(Fact::Number(FITTINGS * each * length)),
        Err(_) => no_solution(part, p::TRACE_NEEDED),
    }
}

/// The tank or pipe that freezes first, and how soon.
fn first(reader: &mut Reader<'_>, case: CaseId) -> Outcome<(PartId, f64)> {
    let mut first: Option<(PartId, f64)> = None;
    let kinds = [(kind::TANK, t::MEETS_FROST, t::FREEZES_AFTER), (kind::PIPE, p::MEETS_FROST, p::FREEZES_AFTER)];
    let mut gaps = Gaps::default();
    if !super::complete(reader, &[kind::TANK, kind::PIPE]) {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    for (kind, meets, after) in kinds {
        let all = reader.build().of_kind(kind).clone();
        for &part in all.members.iter() {
            match reader.need_flag(part, meets, case) {
                Ok(false) => {}
                Ok(true) => match reader.need(part, after, case) {
                    Ok(seconds) if first.is_none_or(|(_, least)| seconds < least) => first = Some((part, seconds)),
                    Ok(_) => {}
                    Err(more) => gaps.add(&more),
                },
                Err(more) => gaps.add(&more),
            }
        }
    }
    match first {
        _ if !gaps.is_empty() => Err(gaps),
        Some(first) => Ok(first),
        None => Err(Gaps(vec![AnyOf(vec![Gap::NoSolution(Build::ROOT, b::FREEZES_FIRST)])])),
    }
}

fn freezes_first(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Part(first(reader, case)?.0))
}

fn first_frost(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(first(reader, case)?.1))
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (t::IS_WATER, Each(is_water)),
        (t::MEETS_FROST, Each(tank_meets)),
        (p::MEETS_FROST, Each(pipe_meets)),
        (f::pump::MEETS_FROST, Each(pump_meets)),
        (f::waste_line::MEETS_FROST, Each(waste_meets)),
        (f::water_line::FROSTY, Each(line_frosty)),
        (f::boiler::FROSTY, Each(line_frosty)),
        (f::water_line::LOW_DRAIN, Each(low_drain)),
        (t::FACE_AREA, Each(face_area)),
        (t::FREEZES_AFTER, Each(tank_freezes_after)),
        (t::HOLDING_POWER, Each(holding_power)),
        (t::PADS, Each(pads)),
        (t::PAD_POWER, Each(pad_power)),
        (p::FREEZES_AFTER, Each(pipe_freezes_after)),
        (p::TRACE_NEEDED, Each(trace_needed)),
        (b::FREEZES_FIRST, Each(freezes_first)),
        (b::FIRST_FROST, Each(first_frost)),
    ]
}
