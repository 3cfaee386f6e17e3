//! What each kind of source gives: its voltages, what it holds itself to, what it gives in use and what it drives into a
//! fault.

use super::battery::both;
use super::faults::Strength;
use crate::circuitry::{Side, Terminal};
use crate::fact::Outcome;
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use vocabulary::{FactId, fact as f, kind};

/// Whether what is attached here can drive current into the network.
pub fn is_source(kind: vocabulary::PartKind, side: Side) -> bool {
    match kind {
        kind::BATTERY | kind::ALTERNATOR | kind::SHORE | kind::SOLAR | kind::GENERATOR | kind::TRAILER_PLUG => true,
        kind::CHARGER | kind::CONVERTER | kind::SOLAR_CONTROLLER | kind::INVERTER | kind::ISOLATING_TRANSFORMER => {
            side == Side::Output
        }
        // Its battery side charges; the side at which it takes alternating current gives none back.
        kind::INVERTER_CHARGER => !matches!(side, Side::Supply(_)),
        // What stands behind a transfer switch does not reach its other supplies.
        kind::TRANSFER_SWITCH => side == Side::Output,
        _ => false,
    }
}

/// A fact of the inlet of a shore connection.
fn inlet(reader: &mut Reader<'_>, shore: PartId, fact: FactId, case: CaseId) -> Outcome<f64> {
    match reader.build().inside(shore, kind::INLET).members.first() {
        Some(inlet) => reader.need(*inlet, fact, case),
        None => Err(Gaps::one(Gap::Absent(shore, kind::INLET))),
    }
}

/// The highest voltage that a source brings to its node, V; nothing for what is no source.
pub fn highest_voltage(reader: &mut Reader<'_>, source: Terminal, case: CaseId) -> Option<Outcome<f64>> {
    let thing = source.thing;
    let fact = match (reader.build().part(thing).kind, source.side) {
        (kind::BATTERY, _) => f::battery::HIGHEST_VOLTAGE,
        (kind::CHARGER, Side::Output) => f::charger::VOLTAGE,
        (kind::CONVERTER, Side::Output) => f::converter::VOLTAGE,
        (kind::ALTERNATOR, _) => f::alternator::VOLTAGE,
        (kind::SOLAR, _) => f::solar::HIGHEST_VOLTAGE,
        (kind::SOLAR_CONTROLLER, Side::Output) => f::solar_controller::VOLTAGE,
        (kind::TRAILER_PLUG, _) => f::trailer_plug::VOLTAGE,
        (kind::INVERTER, Side::Output) => f::inverter::MAINS_VOLTAGE,
        (kind::INVERTER_CHARGER, Side::Input) => f::inverter_charger::CHARGE_VOLTAGE,
        (kind::INVERTER_CHARGER, Side::Output) => f::inverter_charger::VOLTAGE,
        (kind::GENERATOR, _) => f::generator::VOLTAGE,
        (kind::ISOLATING_TRANSFORMER, Side::Output) => f::isolating_transformer::VOLTAGE,
        (kind::TRANSFER_SWITCH, Side::Output) => f::transfer_switch::SUPPLY_VOLTAGE,
        (kind::SHORE, _) => return Some(inlet(reader, thing, f::inlet::VOLTAGE, case)),
        _ => return None,
    };
    Some(reader.need(thing, fact, case))
}

/// The lowest voltage at which a source still feeds its node, V: batteries nearly empty; nothing for what does not hold up a
/// voltage of its own.
pub fn lowest_voltage(reader: &mut Reader<'_>, source: Terminal, case: CaseId) -> Option<Outcome<f64>> {
    match (reader.build().part(source.thing).kind, source.side) {
        (kind::BATTERY, _) => Some(reader.need(source.thing, f::battery::LOWEST_VOLTAGE, case)),
        (
            kind::CONVERTER
            | kind::INVERTER
            | kind::INVERTER_CHARGER
            | kind::ISOLATING_TRANSFORMER
            | kind::TRANSFER_SWITCH,
            Side::Output,
        )
        | (kind::SHORE | kind::GENERATOR, _) => highest_voltage(reader, source, case),
        _ => None,
    }
}

/// Power over voltage and legs, A: what a source of alternating current gives on each leg.
fn of_power(
    reader: &mut Reader<'_>,
    thing: PartId,
    facts: [FactId; 2],
    legs: Option<FactId>,
    case: CaseId,
) -> Outcome<f64> {
    let (power, voltage) = both(reader.need(thing, facts[0], case), reader.need(thing, facts[1], case))?;
    let legs = legs.map_or(Ok(1.0), |legs| reader.need(thing, legs, case))?;
    Ok(power / voltage / legs)
}

/// The most that a source gives by itself even into an overload, A; infinite for one that does not limit itself.
pub fn own_limit(reader: &mut Reader<'_>, source: Terminal, case: CaseId) -> Outcome<f64> {
    let thing = source.thing;
    match (reader.build().part(thing).kind, source.side) {
        (kind::CHARGER, _) => reader.need(thing, f::charger::OUTPUT, case),
        (kind::CONVERTER, _) => reader.need(thing, f::converter::OUTPUT, case),
        (kind::SOLAR, _) => reader.need(thing, f::solar::SHORT_CIRCUIT_CURRENT, case),
        (kind::SOLAR_CONTROLLER, _) => reader.need(thing, f::solar_controller::OUTPUT, case),
        (kind::INVERTER, _) => of_power(reader, thing, [f::inverter::POWER, f::inverter::MAINS_VOLTAGE], None, case),
        (kind::INVERTER_CHARGER, Side::Input) => reader.need(thing, f::inverter_charger::CHARGE, case),
        (kind::INVERTER_CHARGER, _) => passed_on(reader, thing, case),
        (kind::GENERATOR, _) => {
            let facts = [f::generator::POWER, f::generator::VOLTAGE];
            of_power(reader, thing, facts, Some(f::generator::LEGS), case)
        }
        (kind::ISOLATING_TRANSFORMER, _) => {
            let facts = [f::isolating_transformer::POWER, f::isolating_transformer::VOLTAGE];
            of_power(reader, thing, facts, None, case)
        }
        (kind::TRANSFER_SWITCH, _) => reader.need(thing, f::transfer_switch::PASSES, case),
        // The site's own device is no larger than the inlet's rating (IEC 60364-7-708: each pitch has its own).
        (kind::SHORE, _) => inlet(reader, thing, f::inlet::RATING, case),
        (kind::TRAILER_PLUG, _) if !reader.silent(thing, f::trailer_plug::FUSE) => {
            reader.need(thing, f::trailer_plug::FUSE, case)
        }
        // 33 CFR 183.460(b) leaves out machines that limit themselves.
        (kind::ALTERNATOR, _) if !reader.silent(thing, f::alternator::SELF_LIMITING) => {
            if reader.need_flag(thing, f::alternator::SELF_LIMITING, case)? {
                reader.need(thing, f::alternator::OUTPUT, case)
            } else {
                Ok(f64::INFINITY)
            }
        }
        _ => Ok(f64::INFINITY),
    }
}

/// What an inverter-charger gives on each leg of its output, A: from its battery, or passed on from its supply; both together
/// where it supports the supply.
fn passed_on(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<f64> {
    let facts = [f::inverter_charger::POWER, f::inverter_charger::VOLTAGE];
    let own = of_power(reader, thing, facts, Some(f::inverter_charger::LEGS), case)?;
    let supplied = reader.build().circuitry().node_of(thing, Side::Supply(0)).is_some();
    if !supplied {
        return Ok(own);
    }
    if let Some(limit) = super::support::held_to(reader, thing, case)? {
        return Ok(own + limit);
    }
    Ok(own.max(reader.need(thing, f::inverter_charger::TRANSFER, case)?))
}

/// The most that a source gives in normal use, A; infinite for a store.
pub fn gives(reader: &mut Reader<'_>, source: Terminal, case: CaseId) -> Outcome<f64> {
    match reader.build().part(source.thing).kind {
        kind::ALTERNATOR => reader.need(source.thing, f::alternator::OUTPUT, case),
        _ => own_limit(reader, source, case),
    }
}

/// What a source drives into a direct-current fault: voltage V, resistance Ω, and its own limit A; nothing for a source of
/// alternating current.
pub fn drives(
    reader: &mut Reader<'_>,
    source: Terminal,
    strength: Strength,
    case: CaseId,
) -> Outcome<Option<(f64, f64, Option<f64>)>> {
    let thing = source.thing;
    let limited = |reader: &mut Reader<'_>, limit: FactId| {
        let voltage = highest_voltage(reader, source, case).unwrap_or_else(|| super::no_solution(thing, limit));
        let (voltage, limit) = both(voltage, reader.need(thing, limit, case))?;
        Ok(Some((voltage, 0.0, Some(limit))))
    };
    match (reader.build().part(thing).kind, source.side) {
        (kind::BATTERY, _) => {
            let resistance = match strength {
                Strength::Most => f::battery::RESISTANCE,
                Strength::Least => f::battery::RESISTANCE_AT_MOST,
            };
            let (voltage, resistance) =
                both(reader.need(thing, f::battery::HIGHEST_VOLTAGE, case), reader.need(thing, resistance, case))?;
            Ok(Some((voltage, resistance, None)))
        }
        (kind::CHARGER, _) => limited(reader, f::charger::OUTPUT),
        (kind::CONVERTER, _) => limited(reader, f::converter::OUTPUT),
        (kind::SOLAR, _) => limited(reader, f::solar::SHORT_CIRCUIT_CURRENT),
        (kind::SOLAR_CONTROLLER, _) => limited(reader, f::solar_controller::OUTPUT),
        (kind::INVERTER_CHARGER, Side::Input) => limited(reader, f::inverter_charger::CHARGE),
        (kind::TRAILER_PLUG, _) => limited(reader, f::trailer_plug::FAULT_CURRENT),
        // Taken at its rated output, as a machine that limits itself near it; the battery beside it drives far more.
        (kind::ALTERNATOR, _) => limited(reader, f::alternator::OUTPUT),
        _ => Ok(None),
    }
}
