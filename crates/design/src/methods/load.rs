//! The currents that things take.

use super::{amperes, fact_of, no_solution, volts};
use crate::circuitry::{Circuitry, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::{Reader, either};
use crate::working::Step;
use vocabulary::{fact as f, kind};

/// The lowest of the voltages of the sources that are joined to a node, V, each at its lowest; and what is not known of them.
pub fn lowest_joined(reader: &mut Reader<'_>, node: usize, case: CaseId) -> (Option<f64>, Gaps) {
    let mut lowest: Option<f64> = None;
    let mut gaps = Gaps::default();
    for source in reader.build().circuitry().sources_joined(&[Some(node)]) {
        let Some(voltage) = super::source::lowest_voltage(reader, source, case) else { continue };
        match voltage {
            Ok(voltage) => lowest = Some(lowest.map_or(voltage, |so_far: f64| so_far.min(voltage))),
            Err(more) => gaps.add(&more),
        }
    }
    (lowest, gaps)
}

/// The lowest voltage of the supply of a terminal, V: its batteries nearly empty, or its mains.
pub fn supply_voltage(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<f64> {
    let circuitry: &Circuitry = reader.build().circuitry();
    let Some(node) = circuitry.node_of(terminal.thing, terminal.side) else {
        return Err(Gaps::one(Gap::Absent(terminal.thing, kind::CIRCUIT)));
    };
    let mut gaps = super::doubt::of_sources(reader, node);
    let (lowest, more) = reader.lowest_joined(node, case);
    gaps.add(&more);
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
    let nodes = circuitry.node_of(part, Side::Output).map(|node| circuitry.reached(node)).unwrap_or_default();
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
    // Between two legs lies twice the voltage of one.
    let legs = match fact_of(build, part, "legs") {
        Some(legs) => reader.need(part, legs, case)?,
        None => 1.0,
    };
    let voltage = legs * supply_voltage(reader, Terminal { thing: part, side: Side::Input }, case)?;
    let factor = power_factor(reader, part, case)?;
    let taken = power / voltage / factor;
    reader.step(|| {
        let by_factor = if factor < 1.0 { format!(" ÷ power factor {factor}") } else { String::new() };
        Step::of(format!(
            "{} ÷ {}{by_factor} = {}",
            super::show(power, quantity::Dimension::POWER),
            volts(voltage),
            amperes(taken)
        ))
    });
    Ok(Fact::Number(taken))
}

/// The power factor of a load; 1 where none is said. What is said to be a motor on alternating current takes more than its
/// power asks for: how much, its power factor or its current says.
fn power_factor(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let Some(fact) = fact_of(build, part, "power-factor") else { return Ok(1.0) };
    if !reader.silent(part, fact) {
        return reader.need(part, fact, case);
    }
    let (Some(motor), Some(current)) = (fact_of(build, part, "motor"), fact_of(build, part, "current")) else {
        return Ok(1.0);
    };
    let is_motor = !reader.silent(part, motor) && reader.need_flag(part, motor, case)?;
    if is_motor && on_mains(reader, part) { Err(either((part, fact), (part, current))) } else { Ok(1.0) }
}

/// Whether a run of alternating current meets a thing.
fn on_mains(reader: &Reader<'_>, part: PartId) -> bool {
    let circuitry = reader.build().circuitry();
    let node = circuitry.node_of(part, Side::Input);
    let mut runs = node.and_then(|node| circuitry.meeting.get(node)).into_iter().flatten();
    runs.any(|run| circuitry.runs.get(*run).is_some_and(|run| run.alternating))
}

/// The current expected of outlets, A: as said, else what the device of their way lets through.
pub fn outlets(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    if let Ok(said) = reader.need(part, f::outlets::LOAD, case) {
        return Ok(Fact::Number(said));
    }
    let circuitry = reader.build().circuitry();
    let node = circuitry.node_of(part, Side::Input);
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
