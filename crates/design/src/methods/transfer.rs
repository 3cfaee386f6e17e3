//! Transfer switches: one supply at a time is passed on, and none reaches another.

use super::{amperes, legs, source};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use rustc_hash::FxHashMap;
use vocabulary::{fact as f, kind};

/// The facts of transfer switches.
pub fn bindings() -> Bindings {
    vec![
        (f::transfer_switch::PASSES, Method::Each(passes)),
        (f::inverter_charger::PASSES, Method::Each(passes)),
        (f::transfer_switch::SUPPLY_VOLTAGE, Method::Each(supply_voltage)),
        (f::transfer_switch::SUPPLY_LEGS, Method::Each(supply_legs)),
    ]
}

/// The node beyond a transfer switch, when this is one of the terminals by which it is fed.
pub fn beyond(reader: &Reader<'_>, terminal: Terminal) -> Option<usize> {
    let fed =
        reader.build().part(terminal.thing).kind == kind::TRANSFER_SWITCH && matches!(terminal.side, Side::Supply(_));
    if fed { reader.build().circuitry().node_of(terminal.thing, Side::Output) } else { None }
}

/// These nodes with all that lies beyond the transfer switches at them.
pub fn with_what_is_passed_on(reader: &Reader<'_>, nodes: &[usize]) -> Vec<usize> {
    let circuitry = reader.build().circuitry();
    let mut all = nodes.to_vec();
    let mut next = 0;
    while let Some(&node) = all.get(next) {
        next += 1;
        for output in circuitry.terminals(&[node]).filter_map(|terminal| beyond(reader, terminal)).collect::<Vec<_>>() {
            for reached in circuitry.reached(output) {
                if !all.contains(&reached) {
                    all.push(reached);
                }
            }
        }
    }
    all
}

/// The sources at the supplies of a transfer switch or an inverter-charger, each with the node of the supply and its own.
fn supplies(reader: &Reader<'_>, switch: PartId) -> Vec<(usize, usize, Terminal)> {
    let circuitry = reader.build().circuitry();
    let mut all = Vec::new();
    for supply in circuitry.supplies(switch) {
        let group = circuitry.group.get(supply);
        let joined = circuitry.sources.iter().filter(|(node, _)| circuitry.group.get(*node) == group);
        all.extend(joined.map(|(node, source)| (supply, *node, *source)));
    }
    all
}

/// The most of what the sources at its supplies say, or what would settle it.
fn most_of(
    reader: &mut Reader<'_>,
    switch: PartId,
    mut of: impl FnMut(&mut Reader<'_>, (usize, usize, Terminal)) -> Option<Outcome<f64>>,
) -> Outcome {
    let mut most: Option<f64> = None;
    let mut gaps = Gaps::default();
    for supply in supplies(reader, switch) {
        match of(reader, supply) {
            Some(Ok(value)) => most = Some(most.map_or(value, |so_far| so_far.max(value))),
            Some(Err(more)) => gaps.add(&more),
            None => {}
        }
    }
    match most {
        Some(most) if gaps.is_empty() => Ok(Fact::Number(most)),
        None if gaps.is_empty() => Err(Gaps::one(Gap::Absent(switch, kind::CIRCUIT))),
        _ => Err(gaps),
    }
}

/// The most that it passes on, A: what the strongest source drives through the devices before it.
fn passes(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let ratings = reader.least_ratings(case, false);
    most_of(reader, part, |reader, (supply, node, own)| {
        let limit = match source::own_limit(reader, own, case) {
            Ok(limit) => limit,
            Err(gaps) => return Some(Err(gaps)),
        };
        let circuitry = reader.build().circuitry();
        let driven = circuitry.most_driven(supply, usize::MAX, &ratings.0, &FxHashMap::from_iter([(node, limit)]));
        let title = reader.build().part(own.thing).title.clone();
        reader.step(|| Step::of(format!("{title} gives up to {}", amperes(driven))));
        Some(Ok(driven))
    })
}

/// The highest voltage among its supplies, V.
fn supply_voltage(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    most_of(reader, part, |reader, (_, _, own)| source::highest_voltage(reader, own, case))
}

/// How many legs its supplies bring.
fn supply_legs(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    most_of(reader, part, |reader, (_, _, own)| Some(legs::of_source(reader, own, case)))
}
