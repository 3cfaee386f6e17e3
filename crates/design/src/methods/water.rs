//! Water: what is aboard and used, what flows, hot water, and where used water goes.

use super::battery::both;
use super::{brief, heat, listed_inside, no_solution, show, sum};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::water::Water;
use quantity::Dimension;
use std::f64::consts::PI;
use vocabulary::{
    FactId, PartKind, fact as f, fact::boiler as o, fact::brief as b, fact::pipe as p, fact::pressure_vessel as a,
    fact::shower as s, fact::tank as t, kind,
};

/// How deep branches stand in one another: as deep as a text may nest.
const DEEPEST: usize = 32;

/// Cold water, K: 10 °C.
const COLD: f64 = heat::FREEZING + 10.0;

/// The water line that a part stands in, branches included.
pub fn line_of(reader: &Reader<'_>, part: PartId) -> Option<PartId> {
    let build = reader.build();
    let mut at = build.part(part).outer;
    for _ in 0..DEEPEST {
        let outer = at?;
        match build.part(outer).kind {
            kind::WATER_LINE => return Some(outer),
            kind::BRANCH => at = build.part(outer).outer,
            _ => return None,
        }
    }
    None
}

/// What stands before a part in its line, the nearest first; an error where some of it could not be read.
pub fn before(reader: &Reader<'_>, part: PartId) -> Outcome<Vec<PartId>> {
    let build = reader.build();
    let mut found = Vec::new();
    let mut at = part;
    for _ in 0..DEEPEST {
        let Some(outer) = build.part(at).outer else { break };
        let held = build.part(outer);
        if !matches!(held.kind, kind::WATER_LINE | kind::BRANCH) {
            break;
        }
        if held.leaves_open() {
            return Err(Gaps::one(Gap::Unread(outer)));
        }
        let place = held.inside.iter().position(|inner| *inner == at).unwrap_or(0);
        found.extend(held.inside.iter().take(place).rev().filter(|inner| build.part(**inner).kind != kind::BRANCH));
        at = outer;
    }
    Ok(found)
}

/// What stands behind a part in its line, branches included.
fn behind(reader: &Reader<'_>, part: PartId) -> Outcome<Vec<PartId>> {
    let build = reader.build();
    let Some(outer) = build.part(part).outer else { return Ok(Vec::new()) };
    let held = build.part(outer);
    if held.leaves_open() {
        return Err(Gaps::one(Gap::Unread(outer)));
    }
    let place = held.inside.iter().position(|inner| *inner == part).unwrap_or(0);
    let mut open: Vec<PartId> = held.inside.iter().skip(place + 1).copied().collect();
    let mut found = Vec::new();
    while let Some(next) = open.pop() {
        let own = build.part(next);
        if own.kind == kind::BRANCH {
            if own.leaves_open() {
                return Err(Gaps::one(Gap::Unread(next)));
            }
            open.extend(own.inside.iter().copied());
        }
        found.push(next);
    }
    Ok(found)
}

fn pumps(reader: &mut Reader<'_>, line: PartId, _: CaseId) -> Outcome {
    let (found, complete) = listed_inside(reader, line, kind::PUMP);
    Ok(super::parts(found, complete))
}

fn in_line(reader: &mut Reader<'_>, pump: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(line_of(reader, pump).is_some()))
}

fn strained(reader: &mut Reader<'_>, pump: PartId, _: CaseId) -> Outcome {
    let before = before(reader, pump)?;
    Ok(Fact::Flag(before.iter().any(|part| reader.build().part(*part).kind == kind::STRAINER)))
}

/// The wall of plastic pipe where it is not said, m: 2 mm (usual of 12 and 15 mm pipe).
const USUAL_WALL: f64 = 0.002;

fn bore(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    let size = reader.need(pipe, p::SIZE, case)?;
    let wall = if reader.silent(pipe, p::WALL) {
        reader.step(|| {
            Step::assumed(
                format!("wall {}", show(USUAL_WALL, Dimension::LENGTH)),
                "usual plastic pipe (common practice)",
            )
        });
        USUAL_WALL
    } else {
        reader.need(pipe, p::WALL, case)?
    };
    if size > 2.0 * wall {
        Ok(Fact::Number(size - 2.0 * wall))
    } else {
        Err(heat::any_of([(pipe, p::SIZE), (pipe, p::WALL)]))
    }
}

/// The flow of a tap or shower.
fn outlet(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Option<Outcome<f64>> {
    match reader.build().part(part).kind {
        kind::TAP => Some(reader.need(part, f::tap::FLOW, case)),
        kind::SHOWER => Some(reader.need(part, s::FLOW, case)),
        _ => None,
    }
}

fn most_flow(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    if line_of(reader, pipe).is_none() {
        return no_solution(pipe, p::MOST_FLOW);
    }
    let mut most: Option<f64> = None;
    let mut gaps = Gaps::default();
    for part in behind(reader, pipe)? {
        match outlet(reader, part, case) {
            Some(Ok(flow)) => most = Some(most.map_or(flow, |so_far| so_far.max(flow))),
            Some(Err(more)) => gaps.add(&more),
            None => {}
        }
    }
    match most {
        _ if !gaps.is_empty() => Err(gaps),
        Some(most) => Ok(Fact::Number(most)),
        None => no_solution(pipe, p::MOST_FLOW),
    }
}

/// Cold water.
pub fn cold_water() -> Option<Water> {
    calc::water::water(COLD).ok()
}

fn speed(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    let (flow, bore) = both(reader.need(pipe, p::MOST_FLOW, case), reader.need(pipe, p::BORE, case))?;
    let Some(Ok(moving)) = cold_water().map(|water| calc::water::pipe_flow(flow, bore, &water)) else {
        return no_solution(pipe, p::SPEED);
    };
    reader.step(|| Step::of(format!("{} through {}", show(flow, Dimension::FLOW), show(bore, Dimension::LENGTH))));
    Ok(Fact::Number(moving.speed))
}

/// The pressure that is left before a tap at its flow, Pa.
fn pressure_left(reader: &mut Reader<'_>, tap: PartId, case: CaseId) -> Outcome {
    use f::pump as u;
    let path = before(reader, tap)?;
    let kinds = |part: &PartId| reader.build().part(*part).kind;
    let Some(place) = path.iter().position(|part| kinds(part) == kind::PUMP) else {
        return Err(Gaps(vec![AnyOf(vec![Gap::Absent(line_of(reader, tap).unwrap_or(tap), kind::PUMP)])]));
    };
    let pump = path[place];
    let pipes: Vec<PartId> = path[..place].iter().copied().filter(|part| kinds(part) == kind::PIPE).collect();
    let given = both(reader.need(pump, u::OPEN_FLOW, case), reader.need(pump, u::CUT_OUT, case));
    let ((flow, rise), (open, cut_out)) =
        both(both(reader.need(tap, f::tap::FLOW, case), reader.need(tap, f::tap::RISE, case)), given)?;
    let Some(water) = cold_water() else { return no_solution(tap, f::tap::PRESSURE_LEFT) };
    let mut lost = Vec::new();
    for pipe in pipes {
        let size = both(reader.need(pipe, p::BORE, case), reader.need(pipe, p::ONE_WAY, case));
        lost.push(size.and_then(|(bore, length)| pipe_loss(pipe, flow, bore, length, &water)));
    }
    let lost = sum(lost)?;
    let height = calc::water::static_pressure(rise, &water).unwrap_or(0.0);
    // A pressure pump's line, from open flow to the pressure at which it stops.
    let gives = cut_out * (1.0 - flow / open);
    reader.step(|| {
        let pressure = |value: f64| show(value, Dimension::PRESSURE);
        Step::of(format!(
            "at {} the pump gives {}, pipes take {}, {} of height {}",
            show(flow, Dimension::FLOW),
            pressure(gives),
            pressure(lost),
            show(rise, Dimension::LENGTH),
            pressure(height)
        ))
    });
    Ok(Fact::Number(gives - lost - height))
}

/// The pressure that a pipe of that bore and length m with its fittings takes at a flow m³/s, Pa.
pub fn pipe_loss(pipe: PartId, flow: f64, bore: f64, length: f64, water: &Water) -> Outcome<f64> {
    calc::water::friction_loss(flow, bore, length, calc::water::PLASTIC_ROUGHNESS, FITTINGS, water)
        .map(|loss| loss.most())
        .map_err(|_| Gaps::one(Gap::Entry(pipe, p::SIZE)))
}

/// Loss coefficient of the elbows and fittings of one length of pipe (from memory: about four elbows).
const FITTINGS: f64 = 4.0;

/// The filling of a tank from a hose, m³/s: 20 l/min (chosen).
const FILLING: f64 = 20e-3 / 60.0;

fn air_speed(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    let vent = reader.need(tank, t::VENT, case)?;
    match calc::water::vent_speed(FILLING, PI / 4.0 * vent * vent) {
        Ok(speed) => Ok(Fact::Number(speed)),
        Err(_) => Err(Gaps::one(Gap::Entry(tank, t::VENT))),
    }
}

/// What water must not drip on.
const ELECTRICS: [PartKind; 6] =
    [kind::BATTERY, kind::CHARGER, kind::CONVERTER, kind::INVERTER, kind::INVERTER_CHARGER, kind::SOLAR_CONTROLLER];

/// The batteries and converters straight below a tank. What has no coordinates is not known to be below.
fn electrics_below(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    let Some(own) = super::space::extent(reader, tank, case)? else { return Ok(super::all([])) };
    let mut gaps = Gaps::default();
    if !super::complete(reader, &ELECTRICS) {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    let build = reader.build();
    let mut found = Vec::new();
    for &thing in ELECTRICS.iter().flat_map(|kind| build.of_kind(*kind).members.iter()) {
        let box_of = match super::space::extent(reader, thing, case) {
            Ok(Some(extent)) => extent,
            Ok(None) => continue,
            Err(more) => {
                gaps.add(&more);
                continue;
            }
        };
        if !super::space::in_line(&own, &box_of) || box_of[1][2] > own[0][2] {
            continue;
        }
        // A floor between them keeps the water off.
        match both(super::space::of(reader, tank, case), super::space::of(reader, thing, case)) {
            Ok((one, other)) if one == other || !apart(reader, one, other, case) => found.push(thing),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    found.sort_unstable();
    Ok(super::parts(found, gaps.is_empty()))
}

/// Whether two spaces are certainly apart: neither is part of the other.
fn apart(reader: &mut Reader<'_>, one: super::space::Space, other: super::space::Space, case: CaseId) -> bool {
    use super::space::Space::Zone;
    let (Zone(one), Zone(other)) = (one, other) else { return true };
    let within = |reader: &mut Reader<'_>, inner, outer| super::air::within(reader, inner, outer, case) == Ok(false);
    within(reader, one, other) && within(reader, other, one)
}

fn box_volume(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    match reader.fact(tank, t::SIZE, case)? {
        Fact::Lengths(size) => Ok(Fact::Number(size.iter().product())),
        _ => no_solution(tank, t::BOX_VOLUME),
    }
}

/// What the tanks hold that hold one of these, m³.
fn aboard(reader: &mut Reader<'_>, words: &[&str], case: CaseId) -> Outcome {
    let tanks = reader.build().of_kind(kind::TANK).clone();
    let mut each = Vec::new();
    if !tanks.complete {
        each.push(Err(Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))));
    }
    for &tank in tanks.members.iter() {
        match reader.need_word(tank, t::HOLDS, case) {
            Ok(word) if words.contains(&word) => each.push(reader.need(tank, t::VOLUME, case)),
            Ok(_) => {}
            Err(more) => each.push(Err(more)),
        }
    }
    Ok(Fact::Number(sum(each)?))
}

fn all_fresh(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    aboard(reader, &["fresh"], case)
}

fn all_grey(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    aboard(reader, &["grey"], case)
}

fn used_aboard(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    aboard(reader, &["grey", "black"], case)
}

fn sleeps(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    reader.fact(Build::ROOT, f::build::SLEEPERS, case)
}

/// Whether no tank before it in the text holds the same.
fn first_alike(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    let own = reader.need_word(tank, t::HOLDS, case)?;
    let tanks = reader.build().of_kind(kind::TANK).clone();
    let mut gaps = Gaps::default();
    for &other in tanks.members.iter().take_while(|other| **other != tank) {
        match reader.need_word(other, t::HOLDS, case) {
            Ok(word) if word == own => return Ok(Fact::Flag(false)),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(true)) } else { Err(gaps) }
}

fn water_asked(reader: &mut Reader<'_>, tank: PartId, case: CaseId) -> Outcome {
    if reader.need_word(tank, t::HOLDS, case)? != "fresh" || !reader.need_flag(tank, t::FIRST_ALIKE, case)? {
        return Ok(Fact::Flag(false));
    }
    let Some(brief) = brief::found(reader)? else { return Ok(Fact::Flag(false)) };
    let asked =
        super::is_said(reader, brief, b::OFF_GRID)? && reader.need(Build::ROOT, f::build::SLEEPERS, case)? > 0.0;
    Ok(Fact::Flag(asked))
}

/// Water to drink and cook with for each person, m³/s: 2.5 l a day, the least of the Sphere Handbook (read).
const TO_SURVIVE: f64 = 2.5e-3 / 86_400.0;

/// Water that those who sleep aboard use while they live on the stores, at so much each m³/s.
fn used_at(reader: &mut Reader<'_>, each: Outcome<f64>, case: CaseId) -> Outcome {
    let brief = brief::due(reader)?;
    let people = reader.need(Build::ROOT, f::build::SLEEPERS, case);
    let ((people, time), each) = both(both(people, reader.need(brief, b::OFF_GRID, case)), each)?;
    reader.step(|| {
        let each_day = show(each * calc::DAY_SECONDS, Dimension::VOLUME);
        Step::of(format!("{people:.0} for {} with {each_day} each a day", show(time, Dimension::TIME)))
    });
    Ok(Fact::Number(people * time * each))
}

fn wanted(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let each = brief::due(reader).and_then(|brief| reader.need(brief, b::WATER_EACH, case));
    used_at(reader, each, case)
}

fn survival(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    used_at(reader, Ok(TO_SURVIVE), case)
}

/// The parts of a kind in the whole build, and what is not known of them.
fn every(reader: &Reader<'_>, kind: PartKind) -> (Vec<PartId>, Gaps) {
    let all = reader.build().of_kind(kind);
    let mut gaps = Gaps::default();
    if !all.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    (all.members.to_vec(), gaps)
}

fn hot_growth(reader: &mut Reader<'_>, boiler: PartId, case: CaseId) -> Outcome {
    let (volume, hot) = both(reader.need(boiler, o::VOLUME, case), reader.need(boiler, o::TEMPERATURE, case))?;
    match calc::water::closed_expansion(volume, COLD, hot) {
        Ok(growth) => Ok(Fact::Number(growth.max(0.0))),
        Err(_) => Err(Gaps::one(Gap::Entry(boiler, o::TEMPERATURE))),
    }
}

/// The pump of the line that a vessel stands in.
fn pump_of(reader: &Reader<'_>, vessel: PartId) -> Outcome<PartId> {
    let Some(line) = line_of(reader, vessel) else { return Err(Gaps::one(Gap::Unread(vessel))) };
    match listed_inside(reader, line, kind::PUMP) {
        (pumps, true) => pumps.first().copied().ok_or_else(|| Gaps(vec![AnyOf(vec![Gap::Absent(line, kind::PUMP)])])),
        (_, false) => Err(Gaps::one(Gap::Unread(line))),
    }
}

fn cut_in(reader: &mut Reader<'_>, vessel: PartId, case: CaseId) -> Outcome {
    let pump = pump_of(reader, vessel)?;
    reader.fact(pump, f::pump::CUT_IN, case)
}

fn gives(reader: &mut Reader<'_>, vessel: PartId, case: CaseId) -> Outcome {
    let pump = pump_of(reader, vessel)?;
    let switched = both(reader.need(pump, f::pump::CUT_IN, case), reader.need(pump, f::pump::CUT_OUT, case));
    let own = both(reader.need(vessel, a::VOLUME, case), reader.need(vessel, a::CHARGE, case));
    let ((volume, charge), (cut_in, cut_out)) = both(own, switched)?;
    match calc::water::accumulator_drawdown(volume, charge, cut_in, cut_out) {
        Ok(given) => Ok(Fact::Number(given)),
        Err(_) => Err(heat::any_of([(pump, f::pump::CUT_IN), (pump, f::pump::CUT_OUT)])),
    }
}

/// Half of the air that vessels hold when the pump has stopped: the pressure has then doubled.
fn room_to_grow(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let (vessels, gaps) = every(reader, kind::PRESSURE_VESSEL);
    let mut each = Vec::new();
    if !gaps.is_empty() {
        each.push(Err(gaps));
    }
    for one in vessels {
        let pressure = pump_of(reader, one).and_then(|pump| reader.need(pump, f::pump::CUT_OUT, case));
        let own = both(reader.need(one, a::VOLUME, case), reader.need(one, a::CHARGE, case));
        each.push(both(own, pressure).map(|((volume, charge), cut_out)| {
            let air = calc::water::ATMOSPHERE;
            volume * (charge + air) / (cut_out.max(charge) + air) / 2.0
        }));
    }
    Ok(Fact::Number(sum(each)?))
}

fn lukewarm(reader: &mut Reader<'_>, boiler: PartId, case: CaseId) -> Outcome {
    /// A week, s: what guidance on stored hot water asks at the most (read, HSE).
    const WEEK: f64 = 7.0 * 86_400.0;
    let hot = reader.need(boiler, o::TEMPERATURE, case)?;
    let (from, _) = calc::water::LEGIONELLA_GROWTH;
    // 60 °C written as 140 °F is the same.
    const SAME: f64 = 1e-6;
    if hot >= calc::water::LEGIONELLA_STORAGE - SAME || hot <= from {
        return Ok(Fact::Flag(false));
    }
    if reader.silent(boiler, o::PASTEURISED) {
        return Ok(Fact::Flag(true));
    }
    Ok(Fact::Flag(reader.need(boiler, o::PASTEURISED, case)? > WEEK + SAME))
}

fn hot_water(reader: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome {
    let (boilers, gaps) = every(reader, kind::BOILER);
    if boilers.is_empty() && !gaps.is_empty() { Err(gaps) } else { Ok(Fact::Flag(!boilers.is_empty())) }
}

fn hottest(reader: &mut Reader<'_>, shower: PartId, case: CaseId) -> Outcome {
    if !reader.silent(shower, s::MIXED_TO) {
        return reader.fact(shower, s::MIXED_TO, case);
    }
    let (boilers, gaps) = every(reader, kind::BOILER);
    let mut most: Option<f64> = None;
    let mut all = gaps;
    for boiler in boilers {
        match reader.need(boiler, o::TEMPERATURE, case) {
            Ok(hot) => most = Some(most.map_or(hot, |so_far| so_far.max(hot))),
            Err(mut more) => {
                // A mixer settles it too.
                for AnyOf(any) in &mut more.0 {
                    any.push(Gap::Entry(shower, s::MIXED_TO));
                }
                all.add(&more);
            }
        }
    }
    match most {
        _ if !all.is_empty() => Err(all),
        Some(most) => Ok(Fact::Number(most)),
        None => no_solution(shower, s::HOTTEST),
    }
}

fn burns_in(reader: &mut Reader<'_>, shower: PartId, case: CaseId) -> Outcome {
    let hot = reader.need(shower, s::HOTTEST, case)?;
    match calc::water::scald_seconds(hot) {
        Ok(Some(seconds)) => {
            reader.step(|| {
                let text = format!("{}: {}", super::celsius(hot), show(seconds, Dimension::TIME));
                Step::cited(text, &calc::water::SCALD)
            });
            Ok(Fact::Number(seconds))
        }
        _ => no_solution(shower, s::BURNS_IN),
    }
}

fn slope_leaning(reader: &mut Reader<'_>, shower: PartId, case: CaseId) -> Outcome {
    let lean = brief::due(reader).and_then(|brief| reader.need(brief, b::LEAN, case));
    let (slope, lean) = both(reader.need(shower, s::SLOPE, case), lean)?;
    match calc::water::slope_when_tilted(slope, lean) {
        Ok(left) => Ok(Fact::Number(left)),
        Err(_) => Err(Gaps::one(Gap::Entry(shower, s::SLOPE))),
    }
}

fn waste_slope(reader: &mut Reader<'_>, waste: PartId, case: CaseId) -> Outcome {
    use f::waste_line as w;
    let (fall, length) = both(reader.need(waste, w::FALL, case), reader.need(waste, w::ONE_WAY, case))?;
    if length > 0.0 { Ok(Fact::Number(fall / length)) } else { no_solution(waste, w::SLOPE) }
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    let own: Vec<(FactId, Method)> = vec![
        (f::water_line::PUMPS, Each(pumps)),
        (f::pump::IN_LINE, Each(in_line)),
        (f::pump::STRAINED, Each(strained)),
        (p::BORE, Each(bore)),
        (p::MOST_FLOW, Each(most_flow)),
        (p::SPEED, Each(speed)),
        (f::tap::PRESSURE_LEFT, Each(pressure_left)),
        (t::AIR_SPEED, Each(air_speed)),
        (t::BOX_VOLUME, Each(box_volume)),
        (t::ELECTRICS_BELOW, Each(electrics_below)),
        (t::ALL_FRESH, Each(all_fresh)),
        (t::ALL_USED, Each(all_grey)),
        (b::FRESH_ABOARD, Each(all_fresh)),
        (b::USED_ABOARD, Each(used_aboard)),
        (b::SLEEPS, Each(sleeps)),
        (t::FIRST_ALIKE, Each(first_alike)),
        (t::WATER_ASKED, Each(water_asked)),
        (t::WANTED, Each(wanted)),
        (t::SURVIVAL, Each(survival)),
        (o::HOT_GROWTH, Each(hot_growth)),
        (o::ROOM_TO_GROW, Each(room_to_grow)),
        (o::LUKEWARM, Each(lukewarm)),
        (a::CUT_IN, Each(cut_in)),
        (a::GIVES, Each(gives)),
        (s::HOT_WATER, Each(hot_water)),
        (s::HOTTEST, Each(hottest)),
        (s::BURNS_IN, Each(burns_in)),
        (s::SLOPE_LEANING, Each(slope_leaning)),
        (f::waste_line::SLOPE, Each(waste_slope)),
    ];
    own
}
