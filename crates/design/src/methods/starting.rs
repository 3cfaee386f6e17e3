//! What happens in the first moment: whether a device stays closed while a motor starts, what a start asks of a battery and of an
//! inverter, and what fills the capacitors of inverters gently.

use super::controller::of_start;
use super::opening::banded;
use super::{amperes, bank, fact_of, is_said, no_solution, parts, show};
use crate::binding::{Bindings, Method};
use crate::circuitry::{End, Piece, Side};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::time_current::{OpeningTime, opening_time};
use quantity::Dimension;
use vocabulary::{fact as f, fact::battery as b, fact::device as d, fact::supply as s, kind};

/// The facts of starts.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (d::START_KNOWN, Each(start_known)),
        (d::STARTING_CURRENT, Each(starting_current)),
        (d::OPENS_AFTER, Each(opens_after)),
        (b::STARTING_CURRENT, Each(battery_start)),
        (s::HEAVY_STARTS, Each(heavy_starts)),
        (s::SURGE, Each(surge)),
    ]
}

/// The run of a device, when it carries direct current.
fn run_of(reader: &Reader<'_>, device: PartId) -> Option<PartId> {
    reader.build().circuitry().run(device).filter(|run| !run.alternating).map(|run| run.part)
}

/// When the device opens at the current of the start, as far as the bands of its class reach.
fn band(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome<Option<(f64, OpeningTime)>> {
    let Some(run) = run_of(reader, device) else { return Ok(None) };
    let rating = reader.need(device, d::RATING, case)?;
    let Some(own) = banded(reader, device, case)? else { return Ok(None) };
    // A class without any band says nothing at twice its rating either: then no start needs to be asked for.
    if opening_time(own, rating * 2.0).least.is_none() && opening_time(own, rating).least.is_none() {
        return Ok(None);
    }
    // Between two batteries, or an alternator and a battery, a start is fed by the one on the motor's own side.
    let index = super::run::number(reader, run);
    let charged = reader.charged_places();
    let circuitry = reader.build().circuitry();
    let battery_behind = |end| circuitry.any_behind(index, end, &charged);
    if End::BOTH.into_iter().all(battery_behind) {
        return Ok(None);
    }
    let steady = reader.need(run, f::run::DESIGN_CURRENT, case)?;
    let starting = reader.need(run, f::run::STARTING_CURRENT, case)?;
    if starting <= steady {
        return Ok(None);
    }
    Ok(Some((starting, opening_time(own, starting))))
}

/// Whether a motor starts beyond it, and it is known how long it surely stands that.
fn start_known(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(band(reader, device, case)?.is_some_and(|(_, time)| time.least.is_some() || time.most.is_some())))
}

/// What it carries while the largest motor beyond it starts.
fn starting_current(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome {
    match run_of(reader, device) {
        Some(run) => reader.fact(run, f::run::STARTING_CURRENT, case),
        None => no_solution(device, d::STARTING_CURRENT),
    }
}

/// How long it surely stands the start, s.
fn opens_after(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome {
    let Some((current, time)) = band(reader, device, case)? else { return no_solution(device, d::OPENS_AFTER) };
    let Some(least) = time.least else {
        // Above the points of its standard it opens faster still, and nothing is promised.
        reader.step(|| Step::of(format!("at {} its standard promises nothing", amperes(current))));
        return Ok(Fact::Number(0.0));
    };
    reader.step(|| {
        let text =
            format!("at {} it stays closed for at least {}", amperes(current), show(least.seconds, Dimension::TIME));
        Step::cited(text, least.citation)
    });
    Ok(Fact::Number(least.seconds))
}

/// What is asked of a battery while the load on its bank starts whose start is the heaviest, A: its part, by capacity.
fn battery_start(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let steady = reader.need(battery, b::DISCHARGE_CURRENT, case);
    let (nodes, mut gaps) = bank::joined(reader, battery);
    let build = reader.build();
    let mut heaviest: Option<(PartId, f64)> = None;
    for terminal in build.circuitry().terminals(&nodes) {
        if terminal.side != Side::Input || fact_of(build, terminal.thing, "surge").is_none() {
            continue;
        }
        let Some(load) = fact_of(build, terminal.thing, "load-current") else { continue };
        match super::battery::both(of_start(reader, terminal.thing, case), reader.need(terminal.thing, load, case)) {
            Ok((start, runs)) if heaviest.is_none_or(|(_, most)| start - runs > most) => {
                heaviest = Some((terminal.thing, start - runs));
            }
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    let steady = steady?;
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let Some((load, more)) = heaviest else { return Ok(Fact::Number(steady)) };
    let share = bank::part_of_bank(reader, battery, case)?;
    let title = build.part(load).title.clone();
    reader.step(|| Step::of(format!("{title} takes {} more while it starts", amperes(more))));
    Ok(Fact::Number(steady + more * share))
}

/// The surge power of an inverter, VA.
fn surge(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> Outcome {
    let thing = reader.build().circuitry().written(supply);
    match fact_of(reader.build(), thing, "surge") {
        Some(fact) => Ok(Fact::Number(reader.need(thing, fact, case)?)),
        None => no_solution(supply, s::SURGE),
    }
}

/// What an inverter feeds whose start alone is more than its surge.
fn heavy_starts(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let walks = reader.walks();
    let Some(walk) = walks.iter().find(|walk| walk.supply.part == supply) else {
        return no_solution(supply, s::HEAVY_STARTS);
    };
    let mut gaps = walk.gaps.clone();
    let mut heavy = Vec::new();
    let met: Vec<_> = walk.terminals(reader).map(|(_, terminal)| terminal).collect();
    for terminal in met {
        let thing = terminal.thing;
        let facts = ["surge", "load-current", "motor"].map(|name| fact_of(build, thing, name));
        let [Some(surge), Some(_), Some(motor)] = facts else { continue };
        // What says neither a surge nor that it is a motor starts as it runs.
        let starts = is_said(reader, thing, surge) != Ok(false) || is_said(reader, thing, motor) != Ok(false);
        if !starts {
            continue;
        }
        let legs = fact_of(build, thing, "legs").map_or(Ok(1.0), |legs| reader.need(thing, legs, case));
        let own = walk.supply.source;
        let volts = super::source::highest_voltage(reader, own, case).unwrap_or_else(|| no_solution(supply, s::SURGE));
        let asked = super::battery::both(of_start(reader, thing, case), super::battery::both(legs, volts))
            .map(|(current, (legs, volts))| current * legs * volts);
        match super::battery::both(asked, reader.need(supply, s::SURGE, case)) {
            Ok((asked, surge)) => {
                let title = build.part(thing).title.clone();
                reader.step(|| Step::of(format!("{title} takes {} to start", show(asked, Dimension::POWER))));
                if asked > surge {
                    heavy.push(thing);
                }
            }
            Err(more) => gaps.add(&more),
        }
    }
    if heavy.is_empty() && !gaps.is_empty() { Err(gaps) } else { Ok(parts(heavy, gaps.is_empty())) }
}

/// Whether every inverter of a list is filled gently by itself, or by a switch or relay on its way: as said.
pub fn inverters_fill_gently(reader: &mut Reader<'_>, inverters: &[PartId], case: CaseId) -> Outcome<bool> {
    let build = reader.build();
    let circuitry = build.circuitry();
    let mut gaps = Gaps::default();
    for &inverter in inverters {
        let own = fact_of(build, inverter, "pre-charge").map(|fact| (inverter, fact));
        let node = circuitry.node_of(inverter, Side::Input);
        let runs = node.and_then(|node| circuitry.meeting.get(node)).into_iter().flatten();
        let on_way =
            runs.filter_map(|run| circuitry.runs.get(*run)).flat_map(|run| &run.pieces).filter_map(
                |piece| match piece {
                    Piece::Switch(switch) => fact_of(build, *switch, "pre-charge").map(|fact| (*switch, fact)),
                    _ => None,
                },
            );
        let mut gently = false;
        for (part, fact) in own.into_iter().chain(on_way) {
            if reader.silent(part, fact) {
                continue;
            }
            match reader.need_flag(part, fact, case) {
                Ok(yes) => gently |= yes,
                Err(more) => gaps.add(&more),
            }
        }
        if !gently {
            return if gaps.is_empty() { Ok(false) } else { Err(gaps) };
        }
    }
    Ok(!inverters.is_empty())
}

/// The inverters that a battery's bank feeds.
pub fn inverters_on(reader: &Reader<'_>, build: &Build, battery: PartId) -> Vec<PartId> {
    let (nodes, _) = bank::joined(reader, battery);
    let is_inverter = |kind| matches!(kind, kind::INVERTER | kind::INVERTER_CHARGER);
    build
        .circuitry()
        .terminals(&nodes)
        .filter(|terminal| terminal.side == Side::Input && is_inverter(build.part(terminal.thing).kind))
        .map(|terminal| terminal.thing)
        .collect()
}
