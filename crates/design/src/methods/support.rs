//! Inverter-chargers on their supply: what it gives, what they take from it, and whether they feed themselves.

use super::supply::{reaches_own_battery, supplies_at, unread_sources};
use super::{amperes, no_solution, source};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, fact::inverter_charger as i, kind};

/// The facts of inverter-chargers on their supply.
pub fn bindings() -> Bindings {
    vec![
        (i::SUPPLIED, Method::Each(supplied)),
        (i::LIMIT_SAID, Method::Each(limit_said)),
        (i::SUPPLY_RATING, Method::Each(supply_rating)),
        (i::FED_BY_OWN_BATTERY, Method::Each(fed_by_own_battery)),
    ]
}

/// The terminal at which it takes alternating current.
const fn taking(thing: PartId) -> Terminal {
    Terminal { thing, side: Side::Supply(0) }
}

/// Whether any run brings alternating current to it.
fn supplied(reader: &mut Reader<'_>, thing: PartId, _: CaseId) -> Outcome {
    let circuitry = reader.build().circuitry();
    if circuitry.node_of(thing, Side::Supply(0)).is_some() {
        return Ok(Fact::Flag(true));
    }
    let gaps = super::doubt::of_unreached(reader);
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn limit_said(reader: &mut Reader<'_>, thing: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(super::is_said(reader, thing, i::INPUT_LIMIT)?))
}

/// The least that a supply gives through what stands before it, A: the source's own limit, the plug of the cord, and each device.
fn supply_rating(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome {
    let walks = reader.walks();
    let mut least: Option<f64> = None;
    let mut gaps = unread_sources(reader);
    for (walk, stop) in supplies_at(reader, taking(thing))? {
        let Some(walk) = walks.get(walk) else { continue };
        let own = walk.supply.source;
        // What its own output brings back is a ring and no supply.
        if own.thing == thing {
            continue;
        }
        let mut ratings = vec![source::own_limit(reader, own, case)];
        ratings.extend(cords(reader, own.thing).into_iter().map(|cord| reader.need(cord, f::cord::RATING, case)));
        let circuitry = reader.build().circuitry();
        let runs = walk.runs_to(stop);
        let devices: Vec<PartId> =
            runs.into_iter().filter_map(|run| circuitry.runs.get(run)).flat_map(|run| run.devices()).collect();
        ratings.extend(devices.into_iter().map(|device| reader.need(device, f::device::RATING, case)));
        match super::least(ratings) {
            Ok(Some(gives)) => {
                let title = reader.build().part(own.thing).title.clone();
                reader.step(|| Step::of(format!("{title} gives {} through what stands before", amperes(gives))));
                least = Some(least.map_or(gives, |so_far| so_far.min(gives)));
            }
            Ok(None) => {}
            Err(more) => gaps.add(&more),
        }
    }
    match least {
        _ if !gaps.is_empty() => Err(gaps),
        Some(least) => Ok(Fact::Number(least)),
        None => Err(Gaps::one(Gap::Absent(thing, kind::CIRCUIT))),
    }
}

/// The cords of a shore connection whose plug says its rating.
fn cords(reader: &Reader<'_>, shore: PartId) -> Vec<PartId> {
    let cords = reader.build().inside(shore, kind::CORD);
    cords.members.iter().copied().filter(|cord| !reader.silent(*cord, f::cord::RATING)).collect()
}

/// What it takes from its supply at most, A; nothing of one that passes on whatever is asked of it.
pub fn held_to(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<Option<f64>> {
    if !reader.need_flag(thing, i::SUPPORTS, case)? {
        return Ok(None);
    }
    reader.need(thing, i::INPUT_LIMIT, case).map(Some)
}

/// Whether its supply comes from its own battery: by another inverter, or by its own output.
fn fed_by_own_battery(reader: &mut Reader<'_>, thing: PartId, _: CaseId) -> Outcome {
    if reader.build().part(thing).kind != kind::INVERTER_CHARGER {
        return no_solution(thing, i::FED_BY_OWN_BATTERY);
    }
    reaches_own_battery(reader, taking(thing), Terminal { thing, side: Side::Input })
}
