//! What feeds a group: batteries, converters and plugs hold up its voltage; chargers and alternators give what they can.

use super::{State, standing};
use crate::circuitry::{Side, Terminal};
use crate::fact::Outcome;
use crate::known::{CaseId, Gaps};
use crate::methods::battery::both;
use crate::methods::ring;
use crate::methods::source::{gives, highest_voltage, is_source};
use crate::reader::Reader;
use calc::nodal::{LEAST_INNER_OHMS, Part};
use vocabulary::{FactId, fact as f, kind};

/// The sources of these terminals that feed in a state, each as an element between its node and the way back.
///
/// # Errors
/// What is not known of them.
pub fn of(
    reader: &mut Reader<'_>,
    terminals: &[Terminal],
    state: State,
    case: CaseId,
) -> Outcome<Vec<(Terminal, Part)>> {
    let mut sources = holding(reader, terminals, case)?;
    let build = reader.build();
    let is_store = |terminal: &Terminal| build.part(terminal.thing).kind == kind::BATTERY;
    match state {
        State::Charging => {
            // Batteries take what is given, all at one voltage: how far each is charged is not described.
            sources.retain(|(terminal, _)| is_store(terminal));
            let least = sources.iter().map(|(_, part)| volts_of(part)).fold(f64::INFINITY, f64::min);
            for (_, part) in &mut sources {
                if let Part::Source { volts, gives_only, .. } = part {
                    *volts = least;
                    *gives_only = false;
                }
            }
            sources.extend(giving(reader, terminals, case)?);
        }
        // Chargers alone are never meant to carry all that may be in use: with the battery cut off nothing is told of it.
        State::Largest if sources.is_empty() => sources = giving(reader, terminals, case)?,
        State::InUse | State::Largest => {}
    }
    Ok(sources)
}

fn volts_of(part: &Part) -> f64 {
    match part {
        Part::Source { volts, .. } => *volts,
        _ => 0.0,
    }
}

/// What holds up a voltage. A battery gives only: that one charges another through the network is no matter of use, and their nominal voltages
/// are names, not what they stand at.
fn holding(reader: &mut Reader<'_>, terminals: &[Terminal], case: CaseId) -> Outcome<Vec<(Terminal, Part)>> {
    let mut sources = Vec::new();
    let mut gaps = Gaps::default();
    for &terminal in terminals {
        if !standing::feeds(reader, terminal, case) {
            continue;
        }
        let part = terminal.thing;
        // What a converter gives that feeds itself is taken from what it is to hold up.
        if reader.build().part(part).kind == kind::CONVERTER && ring::comes_back(reader.build(), part) {
            continue;
        }
        let (voltage, inner, limit): (FactId, _, Option<FactId>) = match reader.build().part(part).kind {
            kind::BATTERY => (f::battery::VOLTAGE, reader.need(part, f::battery::RESISTANCE_AT_MOST, case), None),
            kind::CONVERTER => (f::converter::VOLTAGE, Ok(LEAST_INNER_OHMS), Some(f::converter::OUTPUT)),
            _ => (f::trailer_plug::VOLTAGE, Ok(LEAST_INNER_OHMS), None),
        };
        let limit = limit.map(|limit| reader.need(part, limit, case)).transpose();
        match both(both(reader.need(part, voltage, case), inner), limit) {
            Ok(((volts, ohms), limit)) => {
                sources.push((terminal, Part::Source { volts, ohms, limit, gives_only: true }));
            }
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(sources) } else { Err(gaps) }
}

/// What limits itself, giving all that it can.
fn giving(reader: &mut Reader<'_>, terminals: &[Terminal], case: CaseId) -> Outcome<Vec<(Terminal, Part)>> {
    let mut sources = Vec::new();
    let mut gaps = Gaps::default();
    for &terminal in terminals {
        let own = reader.build().part(terminal.thing).kind;
        let charges = match own {
            kind::CHARGER | kind::SOLAR_CONTROLLER | kind::CONVERTER => terminal.side == Side::Output,
            kind::INVERTER_CHARGER => terminal.side == Side::Input,
            kind::ALTERNATOR | kind::TRAILER_PLUG => true,
            _ => false,
        };
        if !charges || !is_source(own, terminal.side) || !standing::gives(reader, terminal, case) {
            continue;
        }
        let Some(voltage) = highest_voltage(reader, terminal, case) else { continue };
        match both(voltage, gives(reader, terminal, case)) {
            Ok((volts, limit)) => {
                let limit = limit.is_finite().then_some(limit);
                sources.push((terminal, Part::Source { volts, ohms: LEAST_INNER_OHMS, limit, gives_only: true }));
            }
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(sources) } else { Err(gaps) }
}
