//! The facts that the solved network answers: voltages, currents, losses, shares, and the power that a load can have at most.

use super::groups::is_meshed;
use super::load::behaves;
use super::piece::{Bound, resistance_of_run};
use super::{Drawn, Solved, State, of};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Run, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::drop::{supply_if_any, things};
use crate::methods::run::{number, run};
use crate::methods::{amperes, bank, can_be_told, no_solution, ohms, show, volts};
use crate::reader::Reader;
use crate::working::Step;
use calc::nodal::Standing;
use quantity::Dimension;
use std::sync::Arc;
use vocabulary::{FactId, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::run::MESHED, Each(meshed)),
        (f::run::SOLVED, Each(solved)),
        (f::run::SOLVED_CURRENT, Each(current)),
        (f::run::END_VOLTAGE, Each(end_voltage)),
        (f::run::ASKS_POWER, Each(asks_power)),
        (f::run::POWER_ASKED, Each(power_asked)),
        (f::run::POWER_BROUGHT, Each(power_brought)),
        (f::network::LOSSES, Each(losses)),
        (f::battery::SHARE, Each(share)),
    ]
}

fn meshed(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(is_meshed(reader.build().circuitry(), number(reader, part))))
}

fn in_use(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Arc<Solved>> {
    let run = run(reader, part, fact)?;
    of(reader, run, State::InUse, (part, fact, case))
}

fn solved(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    // What nothing feeds in a mode has no voltage in it.
    Ok(Fact::Flag(can_be_told(end_voltage(reader, part, case))?.is_some()))
}

/// The current in a run, A.
fn current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::run::SOLVED_CURRENT;
    let solved = in_use(reader, part, fact, case)?;
    let index = number(reader, part);
    let Some(current) = solved.current(index) else { return no_solution(part, fact) };
    tell_state(reader, &solved);
    Ok(Fact::Number(current.abs()))
}

/// What feeds the group and what it feeds, in the working.
fn tell_state(reader: &mut Reader<'_>, solved: &Solved) {
    if !reader.is_recording() {
        return;
    }
    let build = reader.build();
    for (terminal, current) in solved.given() {
        let title = &build.part(terminal.thing).title;
        reader.step(|| Step::of(format!("{title} gives {}", amperes(current))));
    }
    let running = solved.drawn().iter().filter(|load| !is_left_off(solved, **load)).count();
    let load = solved.load_watts();
    reader.step(|| Step::of(format!("{running} things in use at once take {}", show(load, Dimension::POWER))));
}

fn is_left_off(solved: &Solved, load: Drawn) -> bool {
    solved.state(load).is_none_or(|state| state.standing != Standing::Normal)
}

/// Tells how a run loses its voltage: with its assumed resistances.
fn tell_run(reader: &mut Reader<'_>, solved: &Solved, run: &Run, index: usize, case: CaseId) {
    if !reader.is_recording() {
        return;
    }
    let Some(current) = solved.current(index) else { return };
    let Ok(resistance) = resistance_of_run(reader, run, Bound::Usual, case) else { return };
    let title = reader.build().part(run.part).title.clone();
    let (current, lost) = (current.abs(), current.abs() * resistance);
    reader.step(|| Step::of(format!("{title}: {} × {} = {}", amperes(current), ohms(resistance), volts(lost))));
}

/// The voltage at the far end of a run, V.
fn end_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::run::END_VOLTAGE;
    let own = run(reader, part, fact)?;
    let Some(supply) = supply_if_any(reader, part, fact)? else { return no_solution(part, fact) };
    let solved = in_use(reader, part, fact, case)?;
    let voltage = own.node(supply.end.other()).and_then(|node| solved.volts(node));
    let Some(voltage) = voltage else { return no_solution(part, fact) };
    tell_state(reader, &solved);
    let circuitry = reader.build().circuitry();
    let source = circuitry.node_at.get(&supply.source()).and_then(|node| solved.volts(*node));
    if let Some(source) = source {
        let title = reader.build().part(supply.source().thing).title.clone();
        reader.step(|| Step::of(format!("{} at {title}", volts(source))));
    }
    for before in supply.runs().iter().rev().copied().chain([part]) {
        let Some(before_run) = circuitry.run(before) else { continue };
        let index = number(reader, before);
        tell_run(reader, &solved, before_run, index, case);
    }
    reader.step(|| Step::of(format!("{} left at the end", volts(voltage))));
    Ok(Fact::Number(voltage))
}

/// The things at the far end of a run that hold their power, each with the power that it asks for and that it can have, W.
fn powers(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Vec<(Drawn, f64, f64)>> {
    let solved = in_use(reader, part, fact, case)?;
    let own = run(reader, part, fact)?;
    let Some(supply) = supply_if_any(reader, part, fact)? else { return Ok(Vec::new()) };
    let Some(node) = own.node(supply.end.other()).filter(|node| solved.volts(*node).is_some()) else {
        return Ok(Vec::new());
    };
    Ok(solved
        .drawn_at(node)
        .filter_map(|load| {
            let asked = load.watts?;
            let brought = match solved.state(load)?.standing {
                Standing::Normal => asked,
                Standing::TooLarge { largest_watts } => largest_watts,
                Standing::BelowLeastVoltage { largest_watts, .. } => largest_watts.unwrap_or(0.0),
                Standing::Dead | Standing::Blocking | Standing::AtLimit => 0.0,
            };
            Some((load, asked, brought))
        })
        .collect())
}

fn asks_power(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::run::ASKS_POWER;
    if can_be_told(things(reader, part, fact))?.is_none_or(|things| things.is_empty()) {
        return Ok(Fact::Flag(false));
    }
    let powers = can_be_told(powers(reader, part, fact, case))?.unwrap_or_default();
    Ok(Fact::Flag(powers.iter().any(|(_, asked, _)| *asked > 0.0)))
}

fn power_asked(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let powers = powers(reader, part, f::run::POWER_ASKED, case)?;
    for (load, asked, _) in &powers {
        let title = reader.build().part(load.terminal.thing).title.clone();
        let asked = *asked;
        let law = behaves(reader, load.terminal, case)?;
        reader.step(|| {
            Step::assumed(
                format!("{title} asks for {}, and holds its {law}", show(asked, Dimension::POWER)),
                "by its kind, where it does not say how it behaves (common practice, no source)",
            )
        });
    }
    Ok(Fact::Number(powers.iter().fold(0.0, |sum, (_, asked, _)| sum + asked)))
}

fn power_brought(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let powers = powers(reader, part, f::run::POWER_BROUGHT, case)?;
    for (load, asked, brought) in &powers {
        let title = reader.build().part(load.terminal.thing).title.clone();
        let (asked, brought) = (*asked, *brought);
        let show = |watts| show(watts, Dimension::POWER);
        reader.step(|| {
            Step::of(if brought < asked {
                format!("{title} can have at most {}: more pulls its own voltage away", show(brought))
            } else {
                format!("{title} has its {}", show(asked))
            })
        });
    }
    Ok(Fact::Number(powers.iter().fold(0.0, |sum, (_, _, brought)| sum + brought)))
}

/// What the runs of a network turn into heat, W.
fn losses(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::network::LOSSES;
    let circuitry = reader.build().circuitry();
    let Some(network) = circuitry.networks.iter().find(|network| network.part == part) else {
        return no_solution(part, fact);
    };
    let Some(&group) = network.nodes.first().and_then(|node| circuitry.group.get(*node)) else {
        return no_solution(part, fact);
    };
    let solved = match reader.solved(group, State::InUse, case) {
        Ok(solved) => solved,
        Err(gaps) if gaps.is_empty() => return no_solution(part, fact),
        Err(gaps) => return Err(gaps),
    };
    let own: Vec<usize> =
        network.nodes.iter().flat_map(|node| circuitry.meeting.get(*node)).flatten().copied().collect();
    let mut runs = own;
    runs.sort_unstable();
    runs.dedup();
    let lost = solved.losses(runs.iter().copied());
    tell_state(reader, &solved);
    reader.step(|| Step::of(format!("its {} runs lose {}", runs.len(), show(lost, Dimension::POWER))));
    Ok(Fact::Number(lost))
}

/// The voltage at which a thing takes direct current, V.
pub fn terminal_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = crate::methods::fact_of(reader.build(), part, "terminal-voltage").unwrap_or(f::lamp::TERMINAL_VOLTAGE);
    let circuitry = reader.build().circuitry();
    let Some(node) = circuitry.node_of(part, Side::Input) else {
        return Err(Gaps::one(Gap::Absent(part, kind::CIRCUIT)));
    };
    let own = circuitry.meeting.get(node).into_iter().flatten().filter_map(|run| circuitry.runs.get(*run));
    let Some(run) = own.into_iter().find(|run| !run.alternating) else { return no_solution(part, fact) };
    let solved = of(reader, run, State::InUse, (part, fact, case))?;
    let Some(voltage) = solved.volts(node) else { return no_solution(part, fact) };
    tell_state(reader, &solved);
    let index = number(reader, run.part);
    tell_run(reader, &solved, run, index, case);
    if let Some(load) = solved.drawn_at(node).find(|load| load.terminal == Terminal { thing: part, side: Side::Input })
        && let Some(state) = solved.state(load)
    {
        let current = state.amperes;
        reader.step(|| Step::of(format!("it takes {} at {}", amperes(current), volts(voltage))));
    }
    Ok(Fact::Number(voltage))
}

/// The part of the current of a bank that a battery gives, 0 to 1.
fn share(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let fact = f::battery::SHARE;
    let members = bank::certain(reader, battery)?;
    let circuitry = reader.build().circuitry();
    let node = circuitry.node_of(battery, Side::Input);
    let Some(&group) = node.and_then(|node| circuitry.group.get(node)) else {
        return Err(Gaps::one(Gap::Absent(battery, kind::CIRCUIT)));
    };
    let solved = match reader.solved(group, State::InUse, case) {
        Ok(solved) => solved,
        Err(gaps) if gaps.is_empty() => return no_solution(battery, fact),
        Err(gaps) => return Err(gaps),
    };
    let bank: Vec<(PartId, f64)> = solved
        .given()
        .map(|(terminal, current)| (terminal.thing, current))
        .filter(|(thing, _)| members.contains(thing))
        .collect();
    let all: f64 = bank.iter().map(|(_, current)| current.max(0.0)).sum();
    let own = bank.iter().find(|(thing, _)| *thing == battery).map_or(0.0, |(_, current)| current.max(0.0));
    if all <= 0.0 {
        return no_solution(battery, fact);
    }
    for (thing, current) in bank {
        let title = reader.build().part(thing).title.clone();
        reader.step(|| Step::of(format!("{title} gives {}", amperes(current))));
    }
    Ok(Fact::Number(own / all))
}
