//! What each run carries in normal use.

use super::load::supply_voltage;
use super::run::{number, run};
use super::run_end::open_end;
use super::solved::{self, State};
use super::source::gives;
use super::{amperes, fact_of, legs, no_solution, volts};
use crate::circuitry::{End, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, fact as f, kind};

/// The current that a thing takes at a terminal, A; nothing for what takes none there. What takes all that is given, as a
/// solar controller does, takes an infinite current.
pub fn taken(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Option<Outcome<f64>> {
    let thing = terminal.thing;
    match (reader.build().part(thing).kind, terminal.side) {
        (kind::CHARGER, Side::Input) => Some(charger_input(reader, terminal, case)),
        (kind::CONVERTER, Side::Input) => Some(converter_input(reader, terminal, case)),
        (kind::INVERTER, Side::Input) => {
            Some(inverter_input(reader, terminal, f::inverter::POWER, f::inverter::EFFICIENCY, case))
        }
        (kind::INVERTER_CHARGER, Side::Input) => {
            Some(inverter_input(reader, terminal, f::inverter_charger::POWER, f::inverter_charger::EFFICIENCY, case))
        }
        (kind::INVERTER_CHARGER, Side::Supply(_)) => Some(passed_through(reader, terminal, case)),
        (kind::SOLAR_CONTROLLER, Side::Input) => Some(Ok(f64::INFINITY)),
        (kind::ISOLATING_TRANSFORMER, Side::Input) => {
            let power = reader.need(thing, f::isolating_transformer::POWER, case);
            let voltage = supply_voltage(reader, terminal, case);
            Some(super::battery::both(power, voltage).map(|(power, voltage)| power / voltage))
        }
        (
            kind::CHARGER
            | kind::CONVERTER
            | kind::INVERTER
            | kind::INVERTER_CHARGER
            | kind::SOLAR_CONTROLLER
            | kind::ISOLATING_TRANSFORMER,
            _,
        ) => None,
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

/// The input current of a converter of direct current, A: as said, else its output at the lowest voltage of its supply.
fn converter_input(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<f64> {
    let thing = terminal.thing;
    if !reader.silent(thing, f::converter::INPUT) {
        return reader.need(thing, f::converter::INPUT, case);
    }
    let (current, voltage) = super::battery::both(
        reader.need(thing, f::converter::OUTPUT, case),
        reader.need(thing, f::converter::VOLTAGE, case),
    )?;
    let efficiency = reader.need(thing, f::converter::EFFICIENCY, case)?;
    let lowest = supply_voltage(reader, terminal, case)?;
    match calc::converter_input_current(current, voltage, efficiency, lowest) {
        Some(current) => Ok(current),
        None => no_solution(thing, f::converter::INPUT),
    }
}

/// What an inverter-charger takes from its supply on each leg, A: its set limit, else what it can pass through.
fn passed_through(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<f64> {
    if reader.silent(terminal.thing, f::inverter_charger::INPUT_LIMIT) {
        return reader.need(terminal.thing, f::inverter_charger::TRANSFER, case);
    }
    reader.need(terminal.thing, f::inverter_charger::INPUT_LIMIT, case)
}

/// The input current of an inverter at the lowest voltage of its battery, A.
fn inverter_input(
    reader: &mut Reader<'_>,
    terminal: Terminal,
    power: FactId,
    efficiency: FactId,
    case: CaseId,
) -> Outcome<f64> {
    let thing = terminal.thing;
    let (power, efficiency) =
        super::battery::both(reader.need(thing, power, case), reader.need(thing, efficiency, case))?;
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
    if let Some(current) = in_mesh(reader, part, index, case) {
        return Ok(Fact::Number(current));
    }
    if most.is_infinite() {
        // Only what gives without a limit into what takes all of it comes to this: the text is at odds with itself.
        return no_solution(part, fact);
    }
    Ok(Fact::Number(most))
}

/// The current of a run that has a way around it, A: what flows in it with every load on, or with every charger on, in the solved network. Without a
/// solution, nothing: then all that its two ends have on either side is the bound, as for a run that alone joins them.
fn in_mesh(reader: &mut Reader<'_>, part: PartId, index: usize, case: CaseId) -> Option<f64> {
    let circuitry = reader.build().circuitry();
    if !solved::is_meshed(circuitry, index) {
        return None;
    }
    let run = circuitry.runs.get(index)?;
    let asked = (part, f::run::DESIGN_CURRENT, case);
    let mut most: Option<f64> = None;
    for (state, what) in [(State::Largest, "with every load on"), (State::Charging, "with every charger on")] {
        let Ok(solved) = solved::of(reader, run, state, asked) else { continue };
        let current = solved.current(index)?.abs();
        reader.step(|| Step::of(format!("{what}, in the solved mesh: {}", amperes(current))));
        most = Some(most.map_or(current, |most| most.max(current)));
    }
    most
}

/// The current that flows from an end through the run, A.
fn flow(reader: &mut Reader<'_>, run: usize, from: End, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let circuitry = build.circuitry();
    let sources: Vec<Terminal> = circuitry.sources_behind(run, from).map(|(_, terminal)| terminal).collect();
    if sources.is_empty() {
        return Ok(0.0);
    }
    let is_battery = |terminal: &Terminal| build.part(terminal.thing).kind == kind::BATTERY;
    let mut gaps = Gaps::default();
    let mut limited = 0.0;
    for source in sources.iter().filter(|source| !is_battery(source)) {
        match gives(reader, *source, case) {
            Ok(output) => limited += output,
            Err(more) => gaps.add(&more),
        }
    }
    let stores: Vec<PartId> = sources.iter().filter(|source| is_battery(source)).map(|source| source.thing).collect();
    let beyond = circuitry.behind(run, from.other());
    let stores_beyond: Vec<PartId> =
        circuitry.terminals(&beyond).filter(is_battery).map(|terminal| terminal.thing).collect();
    let wanted = match wanted(reader, run, from, &beyond, case) {
        Ok(wanted) => wanted,
        Err(more) => {
            gaps.add(&more);
            0.0
        }
    };
    if !gaps.is_empty() {
        return Err(gaps);
    }
    Ok(match (stores.is_empty(), stores_beyond.is_empty()) {
        (false, true) => wanted,
        // Between two stores: what the things beyond take, or what the chargers before give to the store beyond; the
        // batteries of one bank each give and take their part.
        (false, false) => match share_of_bank(reader, &stores, &stores_beyond, case)? {
            Some(share) => (wanted * share).max(limited * (1.0 - share)),
            None => wanted.max(limited),
        },
        // Chargers give what they can; a store beyond takes all of it.
        (true, false) => limited,
        (true, true) => wanted.min(limited),
    })
}

/// What the things beyond a run take, A; on a supply of two legs, on the leg that carries more.
fn wanted(reader: &mut Reader<'_>, run: usize, from: End, beyond: &[usize], case: CaseId) -> Outcome<f64> {
    if legs::of_supply(reader, run, case)? > 1.0 {
        return legs::wanted(reader, run, from, case);
    }
    let circuitry = reader.build().circuitry();
    let mut wanted = 0.0;
    let mut gaps = Gaps::default();
    for terminal in circuitry.terminals(&super::transfer::with_what_is_passed_on(reader, beyond)) {
        match taken(reader, terminal, case) {
            Some(Ok(current)) => {
                let title = reader.build().part(terminal.thing).title.clone();
                if current.is_finite() {
                    reader.step(|| Step::of(format!("{title} takes {}", amperes(current))));
                } else {
                    reader.step(|| Step::of(format!("{title} takes all that it is given")));
                }
                wanted += current;
            }
            Some(Err(more)) => gaps.add(&more),
            None => {}
        }
    }
    if gaps.is_empty() { Ok(wanted) } else { Err(gaps) }
}

/// The part of the current that the batteries before a run give, 0 to 1, where they are of one bank with those beyond: by
/// capacity, as equal leads share it. Nothing for batteries that are not alike.
fn share_of_bank(reader: &mut Reader<'_>, before: &[PartId], beyond: &[PartId], case: CaseId) -> Outcome<Option<f64>> {
    if !alike(reader, before.iter().chain(beyond).copied(), case) {
        return Ok(None);
    }
    let mut sums = [0.0; 2];
    for (sum, batteries) in sums.iter_mut().zip([before, beyond]) {
        let capacities: Vec<_> =
            batteries.iter().map(|battery| reader.need(*battery, f::battery::CAPACITY, case)).collect();
        *sum = super::sum(capacities)?;
    }
    let [own, other] = sums;
    let share = own / (own + other);
    if share.is_finite() {
        reader.step(|| {
            Step::assumed(
                format!("the batteries of one bank share by capacity: {:.0} % from this end", share * 100.0),
                "equal leads (computed)",
            )
        });
        Ok(Some(share))
    } else {
        Ok(None)
    }
}

/// Whether batteries are of one chemistry, voltage and role; what is not said of them counts as different.
fn alike(reader: &mut Reader<'_>, batteries: impl Iterator<Item = PartId>, case: CaseId) -> bool {
    let mut first = None;
    for battery in batteries {
        let chemistry = reader.choice(battery, f::battery::CHEMISTRY, case);
        let role = reader.choice(battery, f::battery::ROLE, case);
        let voltage = reader.number(battery, f::battery::VOLTAGE, case);
        if chemistry.is_none() || !voltage.is_finite() {
            return false;
        }
        let own = (chemistry, role, voltage.to_bits());
        if *first.get_or_insert(own) != own {
            return false;
        }
    }
    true
}
