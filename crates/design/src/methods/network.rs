//! Networks of direct current: what gives current into them, at which voltages, and whether the current finds its way home.

use super::controller::of_start;
use super::run::{number, run};
use super::source::own_limit;
use super::{doubt, fact_of, no_solution, parts, volts};
use crate::binding::{Bindings, Method};
use crate::circuitry::{End, Network, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::network::TITLE, Each(title)),
        (f::network::SOURCES, Each(sources)),
        (f::network::LOWEST_GIVEN, Each(lowest_given)),
        (f::network::HIGHEST_GIVEN, Each(highest_given)),
        (f::run::BY_CHASSIS, Each(by_chassis)),
        (f::run::CHASSIS_HOME, Each(chassis_home)),
        (f::run::FIRST_BY_CHASSIS, Each(first_by_chassis)),
        (f::run::STARTING_CURRENT, Each(starting_current)),
        (f::panel::PAIR_WAYS, Each(pair_ways)),
        (f::panel::RETURNS_HOME, Each(returns_home)),
        (f::trailer_plug::BATTERIES, Each(plug_batteries)),
        (f::trailer_plug::DRAWN_CURRENT, Each(drawn_current)),
    ]
}

fn network<'a>(reader: &Reader<'a>, part: PartId, fact: FactId) -> Outcome<&'a Network> {
    let mut networks = reader.build().circuitry().networks.iter();
    networks.find(|network| network.part == part).map_or_else(|| no_solution(part, fact), Ok)
}

fn title(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let shown = reader.build().circuitry().written(part);
    Ok(Fact::Text(reader.build().part(shown).title.clone()))
}

/// The voltage that a source of direct current is made for; nothing for what is none.
fn made_for(reader: &Reader<'_>, source: Terminal) -> Option<FactId> {
    match (reader.build().part(source.thing).kind, source.side) {
        (kind::BATTERY, _) => Some(f::battery::VOLTAGE),
        (kind::ALTERNATOR, _) => Some(f::alternator::VOLTAGE),
        (kind::CHARGER, Side::Output) => Some(f::charger::VOLTAGE),
        (kind::CONVERTER, Side::Output) => Some(f::converter::VOLTAGE),
        (kind::SOLAR_CONTROLLER, Side::Output) => Some(f::solar_controller::VOLTAGE),
        (kind::INVERTER_CHARGER, Side::Input) => Some(f::inverter_charger::CHARGE_VOLTAGE),
        (kind::TRAILER_PLUG, _) => Some(f::trailer_plug::VOLTAGE),
        _ => None,
    }
}

fn giving(reader: &Reader<'_>, network: &Network) -> Vec<(PartId, FactId)> {
    let terminals = reader.build().circuitry().terminals(&network.nodes);
    terminals.filter_map(|terminal| made_for(reader, terminal).map(|fact| (terminal.thing, fact))).collect()
}

fn sources(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let network = network(reader, part, f::network::SOURCES)?;
    let things = giving(reader, network).into_iter().map(|(thing, _)| thing);
    Ok(parts(things.collect::<Vec<_>>(), in_doubt(reader, network).is_empty()))
}

/// What may bring further sources into a network.
fn in_doubt(reader: &Reader<'_>, network: &Network) -> Gaps {
    let mut gaps = Gaps::default();
    for &node in &network.nodes {
        gaps.add(&doubt::of_sources(reader, node));
    }
    gaps
}

/// One end of the voltages that the sources are made for, V.
fn given(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId, pick: fn(f64, f64) -> f64) -> Outcome {
    let network = network(reader, part, fact)?;
    let mut voltages = Vec::new();
    let mut gaps = in_doubt(reader, network);
    for (thing, fact) in giving(reader, network) {
        let title = reader.build().part(thing).title.clone();
        match reader.need(thing, fact, case) {
            Ok(voltage) => {
                reader.step(|| Step::of(format!("{title}: {}", volts(voltage))));
                voltages.push(voltage);
            }
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    voltages.into_iter().reduce(pick).map_or_else(|| no_solution(part, fact), |voltage| Ok(Fact::Number(voltage)))
}

fn lowest_given(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    given(reader, part, f::network::LOWEST_GIVEN, case, f64::min)
}

fn highest_given(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    given(reader, part, f::network::HIGHEST_GIVEN, case, f64::max)
}

/// Whether a written conductor comes back by the vehicle's metal; silence on a way means a pair.
pub(super) fn chassis_return(reader: &mut Reader<'_>, written: PartId, case: CaseId) -> Outcome<bool> {
    match fact_of(reader.build(), written, "return") {
        Some(fact) if !reader.silent(written, fact) => Ok(reader.need_word(written, fact, case)? == "chassis"),
        _ => Ok(false),
    }
}

fn by_chassis(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::run::BY_CHASSIS)?;
    let mut gaps = Gaps::default();
    for conductor in run.conductors() {
        let written = reader.build().circuitry().written(conductor);
        match chassis_return(reader, written, case) {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// Whether the vehicle's metal leads back to the run's source. The maker of the base vehicle joins its battery to the metal,
/// and a towing vehicle brings its own return through the plug.
fn chassis_home(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let run = run(reader, part, f::run::CHASSIS_HOME)?;
    let build = reader.build();
    let mut gaps = Gaps::default();
    for source in build.circuitry().sources_joined(&run.nodes) {
        match build.part(source.thing).kind {
            kind::ALTERNATOR | kind::TRAILER_PLUG => return Ok(Fact::Flag(true)),
            kind::BATTERY if !reader.silent(source.thing, f::battery::ROLE) => {
                match reader.need_word(source.thing, f::battery::ROLE, case) {
                    Ok("starter") => return Ok(Fact::Flag(true)),
                    Ok(_) => {}
                    Err(more) => gaps.add(&more),
                }
            }
            _ => {}
        }
    }
    let busbars = build.of_kind(kind::BUSBAR);
    for &busbar in busbars.members.iter() {
        let part = build.part(busbar);
        if part.unread {
            gaps.add(&Gaps::one(Gap::Unread(busbar)));
        } else if part.given(f::busbar::BOND).is_some() || part.given(f::busbar::TO).is_some() {
            return Ok(Fact::Flag(true));
        }
    }
    if !busbars.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn first_by_chassis(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    for run in &reader.build().circuitry().runs {
        if !run.alternating && reader.need_flag(run.part, f::run::BY_CHASSIS, case) == Ok(true) {
            return Ok(Fact::Part(run.part));
        }
    }
    no_solution(part, f::run::FIRST_BY_CHASSIS)
}

/// The current of a run while the largest motor beyond it starts, A.
fn starting_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let steady = reader.need(part, f::run::DESIGN_CURRENT, case);
    run(reader, part, f::run::STARTING_CURRENT)?;
    let index = number(reader, part);
    let circuitry = reader.build().circuitry();
    let mut more = 0.0_f64;
    let mut gaps = Gaps::default();
    for end in End::BOTH {
        if circuitry.sources_behind(index, end.other()).next().is_none() {
            continue;
        }
        let nodes = circuitry.behind(index, end);
        for terminal in circuitry.terminals(&nodes) {
            let Some(load) = fact_of(reader.build(), terminal.thing, "load-current") else { continue };
            let started = of_start(reader, terminal.thing, case);
            match super::battery::both(started, reader.need(terminal.thing, load, case)) {
                Ok((start, steady)) => more = more.max(start - steady),
                Err(other) => gaps.add(&other),
            }
        }
    }
    let steady = steady?;
    if !gaps.is_empty() {
        return Err(gaps);
    }
    Ok(Fact::Number(steady + more))
}

fn pair_ways(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let ways = reader.build().inside(part, kind::WAY);
    let mut gaps = Gaps::default();
    for &way in ways.members.iter() {
        match chassis_return(reader, way, case) {
            Ok(false) => return Ok(Fact::Flag(true)),
            Ok(true) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !ways.complete {
        gaps.add(&Gaps::one(Gap::Unread(part)));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// Whether a busbar is named for the returns. Silence is no home; a name that is not understood may be one.
fn returns_home(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if reader.silent(part, f::panel::NEGATIVE) {
        return Ok(Fact::Flag(false));
    }
    reader.fact(part, f::panel::NEGATIVE, case).map(|_| Fact::Flag(true))
}

/// The batteries that a towing vehicle's plug charges: joined to it, or behind a charger that it feeds.
fn plug_batteries(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let circuitry = build.circuitry();
    let Some(node) = circuitry.node_of(part, Side::Input) else { return Ok(super::all([])) };
    let mut nodes = circuitry.reached(node);
    let chargers: Vec<PartId> = circuitry
        .terminals(&nodes)
        .filter(|terminal| terminal.side == Side::Input && build.part(terminal.thing).kind == kind::CHARGER)
        .map(|terminal| terminal.thing)
        .collect();
    for given in chargers.into_iter().filter_map(|charger| circuitry.node_of(charger, Side::Output)) {
        nodes.extend(circuitry.reached(given));
    }
    let batteries = circuitry.terminals(&nodes).map(|terminal| terminal.thing);
    let batteries: Vec<PartId> = batteries.filter(|thing| build.part(*thing).kind == kind::BATTERY).collect();
    Ok(parts(batteries, doubt::of_anything(reader, node).is_empty()))
}

fn drawn_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let circuitry = reader.build().circuitry();
    let node = circuitry.node_of(part, Side::Input);
    let runs = node.and_then(|node| circuitry.meeting.get(node)).into_iter().flatten();
    let currents: Vec<_> = runs
        .filter_map(|run| circuitry.runs.get(*run))
        .map(|run| reader.need(run.part, f::run::DESIGN_CURRENT, case))
        .collect();
    // Each run has a contact of its own, and none carries for long what its fuse does not let through.
    let negative = currents.into_iter().map(|current| current.map(|amperes| -amperes));
    let most = super::least(negative)?.map_or(0.0, |least| -least);
    let drawn = most.min(own_limit(reader, Terminal { thing: part, side: Side::Input }, case)?);
    let gaps = doubt::of_unreached(reader);
    if gaps.is_empty() { Ok(Fact::Number(drawn)) } else { Err(gaps) }
}
