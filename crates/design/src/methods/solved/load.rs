//! How each thing takes direct current: the law that it follows when its voltage falls, and how much it takes.

use super::{DEEPEST, State};
use crate::circuitry::{Side, Terminal};
use crate::fact::Outcome;
use crate::known::CaseId;
use crate::methods::{fact_of, flow, ring};
use crate::reader::Reader;
use calc::nodal::Load;
use vocabulary::{fact as f, kind};

/// What a thing takes at a terminal when its group stands at `nominal` volts; nothing for what takes none there, or all that it is given.
///
/// # Errors
/// What is not known of it.
pub fn of(
    reader: &mut Reader<'_>,
    terminal: Terminal,
    nominal: f64,
    state: State,
    case: CaseId,
) -> Option<Outcome<Load>> {
    if state == State::Charging {
        return None;
    }
    let taken = flow::taken(reader, terminal, case)?;
    if taken == Ok(f64::INFINITY) {
        return None;
    }
    if state == State::Largest {
        return Some(taken.map(Load::Current));
    }
    Some(taken.and_then(|taken| in_use(reader, terminal, taken, nominal, case)))
}

fn in_use(reader: &mut Reader<'_>, terminal: Terminal, taken: f64, nominal: f64, case: CaseId) -> Outcome<Load> {
    let part = terminal.thing;
    let own = reader.build().part(part).kind;
    let said = |reader: &Reader<'_>, name: &str| {
        fact_of(reader.build(), part, name).is_some_and(|fact| !reader.silent(part, fact))
    };
    if own == kind::CONVERTER
        && let Some(watts) = through_converter(reader, terminal, case)?
    {
        return Ok(Load::Power(watts));
    }
    // A current that is said holds at the nominal voltage; a power gave its current at the lowest voltage of the supply.
    let by_current = said(reader, "current") || (own == kind::CHARGER && said(reader, "input"));
    let watts = if by_current {
        taken * nominal
    } else {
        taken * crate::methods::load::supply_voltage(reader, terminal, case)?
    };
    Ok(match behaves(reader, terminal, case)? {
        "resistance" if watts > 0.0 => Load::Resistance(nominal * nominal / watts),
        "current" => Load::Current(watts / nominal),
        _ => Load::Power(watts),
    })
}

/// The law that a thing follows: as said, else by its kind. A plain motor at one torque keeps its current, a heating pad its resistance; whatever
/// holds electronics keeps its power (common practice, no source).
///
/// # Errors
/// What is not known of it, where it is written as unknown.
pub fn behaves(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<&'static str> {
    let part = terminal.thing;
    if let Some(fact) = fact_of(reader.build(), part, "behaves")
        && !reader.silent(part, fact)
    {
        return reader.need_word(part, fact, case);
    }
    let own = reader.build().part(part).kind;
    let pad = own == kind::HEATER
        && !reader.silent(part, f::heater::KIND)
        && reader.need_word(part, f::heater::KIND, case)? == "tank-pad";
    Ok(match own {
        kind::PUMP | kind::FAN | kind::BREAKAWAY => "current",
        kind::HEATER if pad => "resistance",
        _ => "power",
    })
}

/// The power at the input of a converter for what hangs on its output, W; nothing where that network cannot be told: then its largest output
/// stands for it.
fn through_converter(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<Option<f64>> {
    let part = terminal.thing;
    if reader.networks.depth >= DEEPEST || ring::comes_back(reader.build(), part) {
        return Ok(None);
    }
    let circuitry = reader.build().circuitry();
    let Some(node) = circuitry.node_of(part, Side::Output) else { return Ok(None) };
    let Some(&group) = circuitry.group.get(node) else { return Ok(None) };
    let solved = match reader.solved(group, State::InUse, case) {
        Ok(solved) => solved,
        Err(gaps) if gaps.is_empty() => return Ok(None),
        Err(gaps) => return Err(gaps),
    };
    let output = Terminal { thing: part, side: Side::Output };
    let current = solved.given().find(|(terminal, _)| *terminal == output).map(|(_, current)| current.max(0.0));
    let (Some(current), Some(volts)) = (current, solved.volts(node)) else { return Ok(None) };
    let efficiency = reader.need(part, f::converter::EFFICIENCY, case)?;
    let watts = current * volts / efficiency;
    Ok(watts.is_finite().then_some(watts))
}
