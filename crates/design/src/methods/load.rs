//! The currents that things take, and what each run carries in normal use.

use super::run::{number, run};
use super::run_end::open_end;
use super::{amperes, fact_of, no_solution, volts};
use crate::circuitry::{Circuitry, End, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::{Reader, either};
use crate::working::Step;
use vocabulary::{fact as f, kind};

/// The lowest voltage of the supply of a terminal, V: its batteries nearly empty, or its mains.
fn supply_voltage(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<f64> {
    let circuitry: &Circuitry = reader.build().circuitry();
    let Some(node) = circuitry.node_of(terminal.thing, terminal.output) else {
        return Err(Gaps::one(Gap::Absent(terminal.thing, kind::CIRCUIT)));
    };
    let mut lowest: Option<f64> = None;
    let mut gaps = super::doubt::of_sources(reader, node);
    for source in circuitry.sources_joined(&[Some(node)]) {
        let voltage = match (reader.build().part(source.thing).kind, source.output) {
            (kind::BATTERY, _) => reader.need(source.thing, f::battery::LOWEST_VOLTAGE, case),
            (kind::INVERTER, true) => reader.need(source.thing, f::inverter::MAINS_VOLTAGE, case),
            (kind::SHORE, _) => match reader.build().inside(source.thing, kind::INLET).members.first() {
                Some(inlet) => reader.need(*inlet, f::inlet::VOLTAGE, case),
                None => Err(Gaps::one(Gap::Absent(source.thing, kind::INLET))),
            },
            _ => continue,
        };
        match voltage {
            Ok(voltage) => lowest = Some(lowest.map_or(voltage, |so_far: f64| so_far.min(voltage))),
            Err(more) => gaps.add(&more),
        }
    }
    match lowest {
        Some(lowest) if gaps.is_empty() => Ok(lowest),
        None if gaps.is_empty() => Err(Gaps::one(Gap::Absent(crate::part::Build::ROOT, kind::BATTERY))),
        _ => Err(gaps),
    }
}

/// The output voltage of an inverter, V: as said, else that of the board or the inlet that it is joined to.
pub fn mains_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let said = reader.need(part, f::inverter::VOLTAGE, case);
    if let Ok(said) = said {
        return Ok(Fact::Number(said));
    }
    let build = reader.build();
    let circuitry = build.circuitry();
    let nodes = circuitry.node_of(part, true).map(|node| circuitry.reached(node)).unwrap_or_default();
    for terminal in circuitry.terminals(&nodes) {
        let voltage = match build.part(terminal.thing).kind {
            kind::AC_BOARD => reader.need(terminal.thing, f::ac_board::VOLTAGE, case),
            kind::SHORE => match build.inside(terminal.thing, kind::INLET).members.first() {
                Some(inlet) => reader.need(*inlet, f::inlet::VOLTAGE, case),
                None => continue,
            },
            _ => continue,
        };
        if let Ok(voltage) = voltage {
            let title = build.part(terminal.thing).title.clone();
            reader.step(|| {
                Step::assumed(
                    format!("voltage not said: {} as {title}", volts(voltage)),
                    "both feed the same board (computed)",
                )
            });
            return Ok(Fact::Number(voltage));
        }
    }
    said.map(Fact::Number)
}

/// The current of a load, A: as said, else its power over the lowest voltage of its supply.
pub fn load_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let (Some(current), Some(power)) = (fact_of(build, part, "current"), fact_of(build, part, "power")) else {
        return no_solution(part, f::lamp::LOAD_CURRENT);
    };
    if let Ok(said) = reader.need(part, current, case) {
        return Ok(Fact::Number(said));
    }
    let power = reader.need(part, power, case).map_err(|_| either((part, current), (part, power)))?;
    let voltage = supply_voltage(reader, Terminal { thing: part, output: false }, case)?;
    let taken = power / voltage;
    reader.step(|| {
        Step::of(format!(
            "{} ÷ {} = {}",
            super::show(power, quantity::Dimension::POWER),
            volts(voltage),
            amperes(taken)
        ))
    });
    Ok(Fact::Number(taken))
}

/// The current expected of outlets, A: as said, else what the device of their way lets through.
pub fn outlets(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if let Ok(said) = reader.need(part, f::outlets::LOAD, case) {
        return Ok(Fact::Number(said));
    }
    let circuitry = reader.build().circuitry();
    let node = circuitry.node_of(part, false);
    let runs = node.and_then(|node| circuitry.meeting.get(node)).into_iter().flatten();
    let devices: Vec<PartId> = runs.filter_map(|run| circuitry.runs.get(*run)).flat_map(|run| run.devices()).collect();
    let Some(device) = devices.first() else {
        return Err(Gaps::one(Gap::Entry(part, f::outlets::LOAD)));
    };
    let rating = reader.need(*device, f::device::RATING, case)?;
    let title = reader.build().part(*device).title.clone();
    reader.step(|| Step::of(format!("no load said: what {title} lets through, {}", amperes(rating))));
    Ok(Fact::Number(rating))
}

/// The current that a thing takes at a terminal, A; nothing for what takes none there.
fn taken(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Option<Outcome<f64>> {
    let thing = terminal.thing;
    let kind = reader.build().part(thing).kind;
    match (kind, terminal.output) {
        (kind::CHARGER, false) => Some(charger_input(reader, terminal, case)),
        (kind::INVERTER, false) => Some(inverter_input(reader, terminal, case)),
        (kind::CHARGER | kind::INVERTER, true) => None,
        _ => fact_of(reader.build(), thing, "load-current").map(|fact| reader.need(thing, fact, case)),
    }
}

/// The input current of a charger, A.
fn charger_input(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<f64> {
    let thing = terminal.thing;
    match reader.need_word(thing, f::charger::KIND, case)? {
        "dc-to-dc" => reader.need(thing, f::charger::INPUT, case),
        _ => {
            let draw = reader.need(thing, f::charger::DRAW, case)?;
            Ok(draw / supply_voltage(reader, terminal, case)?)
        }
    }
}

/// The input current of an inverter at the lowest voltage of its battery, A.
fn inverter_input(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<f64> {
    let thing = terminal.thing;
    let power = reader.need(thing, f::inverter::POWER, case);
    let efficiency = reader.need(thing, f::inverter::EFFICIENCY, case);
    let (power, efficiency) = super::battery::both(power, efficiency)?;
    let voltage = supply_voltage(reader, terminal, case)?;
    match calc::inverter_input_current(power, efficiency, voltage) {
        Some(current) => {
            reader.step(|| {
                Step::of(format!(
                    "{} ÷ {:.0} % ÷ {} = {}",
                    super::show(power, quantity::Dimension::POWER),
                    efficiency * 100.0,
                    volts(voltage),
                    amperes(current)
                ))
            });
            Ok(current)
        }
        None => no_solution(thing, f::inverter::POWER),
    }
}

/// The largest current that a run carries in normal use, A: what the things beyond it take, or what the sources before it
/// can give, whichever is less; in the direction in which that is more.
pub fn design_current(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::run::DESIGN_CURRENT;
    let run = run(reader, part, fact)?;
    let index = number(reader, part);
    let mut most = 0.0_f64;
    let mut gaps = Gaps::default();
    for end in End::BOTH {
        match run.node(end) {
            Some(node) => gaps.add(&super::doubt::of_anything(reader, node)),
            None => gaps.add(&open_end(reader, run, end).unwrap_or_default()),
        }
        match flow(reader, index, end, case) {
            Ok(current) => most = most.max(current),
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    Ok(Fact::Number(most))
}

/// The current that flows from an end through the run, A.
fn flow(reader: &mut Reader<'_>, run: usize, from: End, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let circuitry = build.circuitry();
    let sources: Vec<Terminal> = circuitry.sources_behind(run, from).map(|(_, terminal)| terminal).collect();
    if sources.is_empty() {
        return Ok(0.0);
    }
    // What the sources can give: unlimited as soon as a battery or the mains is among them.
    let mut gaps = Gaps::default();
    let mut limited = 0.0;
    let mut unlimited = false;
    for source in &sources {
        match reader.build().part(source.thing).kind {
            kind::CHARGER => match reader.need(source.thing, f::charger::OUTPUT, case) {
                Ok(output) => limited += output,
                Err(more) => gaps.add(&more),
            },
            kind::INVERTER => match super::battery::both(
                reader.need(source.thing, f::inverter::POWER, case),
                reader.need(source.thing, f::inverter::MAINS_VOLTAGE, case),
            ) {
                Ok((power, voltage)) => limited += power / voltage,
                Err(more) => gaps.add(&more),
            },
            _ => unlimited = true,
        }
    }
    let beyond = circuitry.behind(run, from.other());
    let mut wanted = 0.0;
    let mut stores = false;
    for terminal in circuitry.terminals(&beyond) {
        if reader.build().part(terminal.thing).kind == kind::BATTERY {
            stores = true;
            continue;
        }
        match taken(reader, terminal, case) {
            Some(Ok(current)) => {
                let title = reader.build().part(terminal.thing).title.clone();
                reader.step(|| Step::of(format!("{title} takes {}", amperes(current))));
                wanted += current;
            }
            Some(Err(more)) => gaps.add(&more),
            None => {}
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    Ok(match (unlimited, stores) {
        (true, false) => wanted,
        // Between two stores: what the things beyond take, or what the chargers before give to the store beyond.
        (true, true) => wanted.max(limited),
        // Chargers give what they can; a store beyond takes all of it.
        (false, true) => limited,
        (false, false) => wanted.min(limited),
    })
}
