//! What one load or inverter takes from the fitted batteries in a day.

use crate::circuitry::Side;
use crate::fact::Outcome;
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::bank::is_base;
use crate::methods::battery::both;
use crate::methods::{doubt, fact_of, no_solution, show};
use crate::reader::{Reader, either};
use crate::working::Step;
use quantity::Dimension;
use vocabulary::{fact as f, kind};

/// How the fitted batteries feed a node: the voltage there, V, and the part of the energy that arrives; nothing when they do
/// not.
fn fed(reader: &mut Reader<'_>, node: usize, case: CaseId) -> Outcome<Option<(Outcome<f64>, f64)>> {
    let build = reader.build();
    let mut gaps = doubt::of_sources(reader, node);
    let mut found = None;
    for source in build.circuitry().sources_joined(&[Some(node)]) {
        let way = match (build.part(source.thing).kind, source.side) {
            (kind::BATTERY, _) => match is_base(reader, source.thing, case) {
                Ok(true) => continue,
                Ok(false) => Ok((f::battery::VOLTAGE, None)),
                Err(more) => Err(more),
            },
            (kind::CONVERTER, Side::Output) => Ok((f::converter::VOLTAGE, Some(f::converter::EFFICIENCY))),
            (kind::INVERTER, Side::Output) => Ok((f::inverter::MAINS_VOLTAGE, Some(f::inverter::EFFICIENCY))),
            (kind::INVERTER_CHARGER, Side::Output) => {
                Ok((f::inverter_charger::VOLTAGE, Some(f::inverter_charger::EFFICIENCY)))
            }
            _ => continue,
        };
        let arrives = way.and_then(|(voltage, efficiency)| {
            let efficiency = efficiency.map_or(Ok(1.0), |fact| reader.need(source.thing, fact, case))?;
            Ok((reader.need(source.thing, voltage, case), efficiency))
        });
        match arrives {
            Ok(way) => found = found.or(Some(way)),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

/// What a load takes from the fitted batteries in a day, J; nothing when they do not feed it.
pub(super) fn of_load(reader: &mut Reader<'_>, load: PartId, case: CaseId) -> Outcome<Option<f64>> {
    let build = reader.build();
    let facts = ["power", "current", "duty"].map(|name| fact_of(build, load, name));
    let [Some(power), Some(current), Some(duty)] = facts else { return Ok(None) };
    let Some(node) = build.circuitry().node_of(load, Side::Input) else { return Ok(None) };
    let Some((voltage, efficiency)) = fed(reader, node, case)? else { return Ok(None) };
    let watts = if !reader.silent(load, power) {
        reader.need(load, power, case)
    } else if !reader.silent(load, current) {
        let apparent = both(reader.need(load, current, case), voltage);
        both(apparent, power_factor(reader, load, case)).map(|((current, voltage), factor)| current * voltage * factor)
    } else {
        Err(either((load, power), (load, current)))
    };
    let (watts, share) = both(watts, reader.need(load, duty, case))?;
    let Some(energy) = calc::energy_per_day(watts, calc::DAY_SECONDS, share) else {
        return Err(Gaps::one(Gap::NoSolution(load, duty)));
    };
    let taken = energy / efficiency;
    let title = build.part(load).title.clone();
    reader.step(|| {
        let through = if efficiency < 1.0 { format!(" ÷ {:.0} %", efficiency * 100.0) } else { String::new() };
        Step::of(format!(
            "{title}: {} × {:.1} h a day{through} = {}",
            show(watts, Dimension::POWER),
            share * HOURS_OF_DAY,
            show(taken, Dimension::ENERGY)
        ))
    });
    Ok(Some(taken))
}

/// The part of the apparent power of a load that does work, and so comes out of the battery; 1 where nothing is said.
pub(in crate::methods) fn power_factor(reader: &mut Reader<'_>, load: PartId, case: CaseId) -> Outcome<f64> {
    match fact_of(reader.build(), load, "power-factor") {
        Some(factor) if !reader.silent(load, factor) => reader.need(load, factor, case),
        _ => Ok(1.0),
    }
}

/// Hours of a day.
const HOURS_OF_DAY: f64 = 24.0;

/// What one inverter takes in a day for being switched on, J.
pub(super) fn idle_of(reader: &mut Reader<'_>, inverter: PartId, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let facts = ["idle", "on", "power"].map(|name| fact_of(build, inverter, name));
    let [Some(idle), Some(on), Some(power)] = facts else { return Ok(0.0) };
    let watts = if reader.silent(inverter, idle) {
        match calc::inverter_idle_power(reader.need(inverter, power, case)?) {
            Some((watts, citation)) => {
                reader.step(|| Step {
                    assumed: true,
                    ..Step::cited(format!("idle power not said: {}", show(watts, Dimension::POWER)), citation)
                });
                watts
            }
            None => return no_solution(inverter, idle),
        }
    } else {
        reader.need(inverter, idle, case)?
    };
    let share = reader.need(inverter, on, case)?;
    match calc::energy_per_day(watts, calc::DAY_SECONDS, share) {
        Some(energy) => {
            let title = build.part(inverter).title.clone();
            reader.step(|| {
                Step::of(format!(
                    "{title}, idle: {} × {:.1} h a day = {}",
                    show(watts, Dimension::POWER),
                    share * HOURS_OF_DAY,
                    show(energy, Dimension::ENERGY)
                ))
            });
            Ok(energy)
        }
        None => no_solution(inverter, on),
    }
}
