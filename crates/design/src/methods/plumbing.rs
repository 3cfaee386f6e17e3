//! The suction side of pumps, heating cables and tank pads, and batteries that are left over winter.

use super::battery::both;
use super::{brief, can_be_told, doubt, heat, is_said, no_solution, show, sum, water};
use crate::binding::{Bindings, Method};
use crate::circuitry::Side;
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Reference;
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{
    fact as f, fact::battery, fact::brief as b, fact::heater as h, fact::pipe as p, fact::pump as u, fact::tank as t,
    kind,
};

/// The parts of a kind before a pump in its line.
fn before(reader: &Reader<'_>, pump: PartId, kind: vocabulary::PartKind) -> Outcome<Vec<PartId>> {
    let mut found = water::before(reader, pump)?;
    found.retain(|part| reader.build().part(*part).kind == kind);
    Ok(found)
}

fn suction_pipes(reader: &mut Reader<'_>, pump: PartId, _: CaseId) -> Outcome {
    Ok(super::all(before(reader, pump, kind::PIPE)?))
}

fn suction_asked(reader: &mut Reader<'_>, pump: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(water::line_of(reader, pump).is_some() && is_said(reader, pump, u::SUCTION_LIMIT)?))
}

fn suction_loss(reader: &mut Reader<'_>, pump: PartId, case: CaseId) -> Outcome {
    let wrong = || Gaps::one(Gap::NoSolution(pump, u::SUCTION_LOSS));
    let (flow, lift) = both(reader.need(pump, u::OPEN_FLOW, case), reader.need(pump, u::LIFT, case))?;
    let Some(cold) = water::cold_water() else { return Err(wrong()) };
    let height = calc::water::static_pressure(lift, &cold).map_err(|_| wrong())?;
    let mut pipes = Vec::new();
    for pipe in before(reader, pump, kind::PIPE)? {
        let size = both(reader.need(pipe, p::BORE, case), reader.need(pipe, p::ONE_WAY, case));
        pipes.push(size.and_then(|(bore, length)| water::pipe_loss(pipe, flow, bore, length, &cold)));
    }
    let mut strainers = Vec::new();
    for strainer in before(reader, pump, kind::STRAINER)? {
        strainers.push(reader.need(strainer, f::strainer::TAKES, case));
    }
    let (pipes, strainers) = both(sum(pipes), sum(strainers))?;
    reader.step(|| {
        let pressure = |value: f64| show(value, Dimension::PRESSURE);
        Step::of(format!(
            "at {}: {} of height {}, pipes {}, strainer {}",
            show(flow, Dimension::FLOW),
            show(lift, Dimension::LENGTH),
            pressure(height),
            pressure(pipes),
            pressure(strainers)
        ))
    });
    Ok(Fact::Number(height + pipes + strainers))
}

fn trace_asked(reader: &mut Reader<'_>, pipe: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(is_said(reader, pipe, p::TRACE)? && reader.need_flag(pipe, p::MEETS_FROST, case)?))
}

/// What stands for the heating cable of a pipe.
pub fn trace_load(reader: &Reader<'_>, pipe: PartId) -> Outcome<Option<PartId>> {
    match reader.build().references.get(&(pipe, p::TRACE_LOAD)) {
        Some(Reference::To(load)) => Ok(Some(*load)),
        _ if reader.silent(pipe, p::TRACE_LOAD) => Ok(None),
        _ => Err(Gaps::one(Gap::Entry(pipe, p::TRACE_LOAD))),
    }
}

fn trace_fed(reader: &mut Reader<'_>, pipe: PartId, _: CaseId) -> Outcome {
    let load = trace_load(reader, pipe)?;
    let Some(load) = load else { return Ok(Fact::Flag(false)) };
    if reader.build().circuitry().node_of(load, Side::Input).is_some() {
        return Ok(Fact::Flag(true));
    }
    let doubt = doubt::of_unreached(reader);
    if doubt.is_empty() { Ok(Fact::Flag(false)) } else { Err(doubt) }
}

/// The tank that a pad warms.
fn warmed_tank(reader: &Reader<'_>, heater: PartId) -> Outcome<Option<PartId>> {
    match reader.build().references.get(&(heater, h::FOR)) {
        Some(Reference::To(thing)) => Ok((reader.build().part(*thing).kind == kind::TANK).then_some(*thing)),
        _ if reader.silent(heater, h::FOR) => Ok(None),
        _ => Err(Gaps::one(Gap::Entry(heater, h::FOR))),
    }
}

/// The tank that a pad keeps from freezing; none where it is no pad, or its tank meets no frost.
pub fn kept_from_freezing(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome<Option<PartId>> {
    if reader.need_word(heater, h::KIND, case)? != "tank-pad" {
        return Ok(None);
    }
    let Some(tank) = warmed_tank(reader, heater)? else { return Ok(None) };
    Ok(reader.need_flag(tank, t::MEETS_FROST, case)?.then_some(tank))
}

fn pad_asked(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    if !is_said(reader, heater, h::DUTY)? {
        return Ok(Fact::Flag(false));
    }
    let Some(tank) = kept_from_freezing(reader, heater, case)? else { return Ok(Fact::Flag(false)) };
    // What is too weak runs all night and is told of as that.
    let (needed, given) = both(reader.need(tank, t::HOLDING_POWER, case), reader.need(tank, t::PAD_POWER, case))?;
    Ok(Fact::Flag(given >= needed))
}

fn pad_duty(reader: &mut Reader<'_>, heater: PartId, case: CaseId) -> Outcome {
    let Some(tank) = kept_from_freezing(reader, heater, case)? else { return no_solution(heater, h::PAD_DUTY) };
    let (needed, given) = both(reader.need(tank, t::HOLDING_POWER, case), reader.need(tank, t::PAD_POWER, case))?;
    if given <= 0.0 {
        return no_solution(heater, h::PAD_DUTY);
    }
    Ok(Fact::Number((needed / given).min(1.0)))
}

/// How long a heating cable must run in the coldest night, as a share of the time: the longest of the pipes that it lies along. Nothing where a
/// load stands for none.
pub fn trace_share(reader: &mut Reader<'_>, load: PartId, case: CaseId) -> Outcome<Option<f64>> {
    let pipes = reader.build().of_kind(kind::PIPE).clone();
    if !pipes.complete {
        return Err(Gaps::one(Gap::Unread(reader.unread_part(crate::part::Build::ROOT))));
    }
    let mut most: Option<f64> = None;
    for &pipe in pipes.members.iter() {
        if trace_load(reader, pipe)? != Some(load) || !reader.need_flag(pipe, p::TRACE_ASKED, case)? {
            continue;
        }
        let (needed, fitted) = both(reader.need(pipe, p::TRACE_NEEDED, case), reader.need(pipe, p::TRACE, case))?;
        if fitted > 0.0 {
            let share = (needed / fitted).min(1.0);
            most = Some(most.map_or(share, |so_far| so_far.max(share)));
        }
    }
    Ok(most)
}

/// How long what heats runs in the coldest day, as a share of the time; nothing for what does not heat or cannot be reckoned.
pub fn heating_share(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<Option<f64>> {
    match reader.build().part(thing).kind {
        kind::HEATER if kept_from_freezing(reader, thing, case)?.is_some() => {
            reader.need(thing, h::PAD_DUTY, case).map(Some)
        }
        kind::HEATER => {
            if let Some(share) = trace_share(reader, thing, case)? {
                return Ok(Some(share));
            }
            if !reader.need_flag(thing, h::WARMS_SPACE, case)? {
                return Ok(None);
            }
            let needed = reader.need(thing, h::NEEDED_DUTY, case);
            can_be_told(needed)
        }
        // A pump of the heating stands in no line of water.
        kind::PUMP if water::line_of(reader, thing).is_none() => {
            let mut most: Option<f64> = None;
            for zone in heat::living_spaces(reader, case)? {
                if reader.need_flag(zone, f::zone::HEAT_TOLD, case)? {
                    let share = reader.need(zone, f::zone::HEATERS_RUN, case);
                    let share = can_be_told(share)?;
                    most = [most, share].into_iter().flatten().reduce(f64::max);
                }
            }
            Ok(most)
        }
        kind::APPLIANCE => trace_share(reader, thing, case),
        _ => Ok(None),
    }
}

fn left_in(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    let brief = brief::due(reader)?;
    reader.fact(brief, b::COLDEST_NIGHT, case)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (u::SUCTION_PIPES, Each(suction_pipes)),
        (u::SUCTION_ASKED, Each(suction_asked)),
        (u::SUCTION_LOSS, Each(suction_loss)),
        (p::TRACE_ASKED, Each(trace_asked)),
        (p::TRACE_FED, Each(trace_fed)),
        (h::PAD_ASKED, Each(pad_asked)),
        (h::PAD_DUTY, Each(pad_duty)),
        (battery::LEFT_IN, Each(left_in)),
    ]
}
