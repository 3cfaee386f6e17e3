//! Sources of alternating current: what they feed, the joints of neutral and earth while they do, and whether they drive
//! enough into a fault.

use super::mains_walk::Walk;
use super::{all, amperes, battery::both, fact_of, no_solution, parts};
use crate::binding::{Bindings, Method};
use crate::circuitry::{End, Piece, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::BreakerCurve;
use vocabulary::{FactId, PartKind, fact as f, fact::supply as s, kind};

/// What an inverter of which no surge is said drives into a fault for less than a second, as a multiple of what it is rated
/// for (from memory; no published figure was seen).
const FAULT_MULTIPLE: f64 = 2.0;

/// The facts of sources of alternating current.
pub fn bindings() -> Bindings {
    vec![
        (s::THING, Method::Each(thing)),
        (s::TITLE, Method::Each(title)),
        (s::SORT, Method::Each(sort)),
        (s::BOARDS, Method::Each(boards)),
        (s::OUTLETS, Method::Each(outlets)),
        (s::FEEDS, Method::Each(feeds)),
        (s::NEUTRAL_BONDS, Method::Each(neutral_bonds)),
        (s::OUTLETS_PROTECTED, Method::Each(outlets_protected)),
        (s::SHUTS_DOWN, Method::Each(shuts_down)),
        (s::FAULT_CURRENT, Method::Each(fault_current)),
        (s::OPENING_CURRENT, Method::Each(opening_current)),
        (f::charger::FEEDS_ITS_INVERTER, Method::Each(feeds_its_inverter)),
    ]
}

/// The walk of a supply.
fn with_walk<T>(
    reader: &mut Reader<'_>,
    supply: PartId,
    fact: FactId,
    of: impl FnOnce(&mut Reader<'_>, &Walk) -> Outcome<T>,
) -> Outcome<T> {
    let walks = reader.walks();
    match walks.iter().find(|walk| walk.supply.part == supply) {
        Some(walk) => of(reader, walk),
        None => no_solution(supply, fact),
    }
}

fn source(reader: &Reader<'_>, supply: PartId) -> PartId {
    reader.build().circuitry().written(supply)
}

fn thing(reader: &mut Reader<'_>, supply: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Part(source(reader, supply)))
}

fn title(reader: &mut Reader<'_>, supply: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Text(reader.build().part(supply).title.clone()))
}

fn sort(reader: &mut Reader<'_>, supply: PartId, _: CaseId) -> Outcome {
    let word = match reader.build().part(source(reader, supply)).kind {
        kind::SHORE => "shore",
        kind::GENERATOR => "generator",
        kind::ISOLATING_TRANSFORMER => "transformer",
        _ => "inverter",
    };
    let words = vocabulary::fact_spec(s::SORT).choices();
    match words.iter().position(|own| *own == word).and_then(|place| u16::try_from(place).ok()) {
        Some(place) => Ok(Fact::Choice(place)),
        None => no_solution(supply, s::SORT),
    }
}

fn boards(reader: &mut Reader<'_>, supply: PartId, _: CaseId) -> Outcome {
    with_walk(reader, supply, s::BOARDS, |reader, walk| {
        Ok(parts(walk.boards(reader).into_iter().map(|(_, board)| board), walk.gaps.is_empty()))
    })
}

/// The outlets that a walk meets.
fn outlets_of(reader: &Reader<'_>, walk: &Walk) -> Vec<PartId> {
    let is_outlets = |thing: PartId| reader.build().part(thing).kind == kind::OUTLETS;
    walk.terminals(reader).filter(|(_, met)| is_outlets(met.thing)).map(|(_, met)| met.thing).collect()
}

fn outlets(reader: &mut Reader<'_>, supply: PartId, _: CaseId) -> Outcome {
    with_walk(reader, supply, s::OUTLETS, |reader, walk| Ok(parts(outlets_of(reader, walk), walk.gaps.is_empty())))
}

/// How many things it feeds, each outlet counted.
fn feeds(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> Outcome {
    with_walk(reader, supply, s::FEEDS, |reader, walk| {
        let met: Vec<PartId> = walk.terminals(reader).map(|(_, met)| met.thing).collect();
        let mut counts = vec![];
        for thing in met {
            match reader.build().part(thing).kind {
                kind::AC_BOARD | kind::SHORE | kind::GENERATOR | kind::INVERTER | kind::TRANSFER_SWITCH => {}
                kind::OUTLETS => counts.push(reader.need(thing, f::outlets::COUNT, case)),
                _ => counts.push(Ok(1.0)),
            }
        }
        known(walk)?;
        Ok(Fact::Number(super::sum(counts)?))
    })
}

/// What would settle how far a walk reaches.
fn known(walk: &Walk) -> Outcome<()> {
    if walk.gaps.is_empty() { Ok(()) } else { Err(walk.gaps.clone()) }
}

/// The joint of neutral and earth of a source: its word, nothing for the shore, whose joint stands ashore.
fn own_bond(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<Option<&'static str>> {
    match fact_of(reader.build(), thing, "neutral-bond") {
        Some(fact) if reader.build().part(thing).kind != kind::AC_BOARD => {
            reader.need_word(thing, fact, case).map(Some)
        }
        _ => Ok(None),
    }
}

/// The joints of neutral and earth aboard that stand while a source feeds: its own, those of the boards, and the fixed ones
/// of other sources whose neutral stays joined to the same boards.
fn neutral_bonds(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> Outcome {
    with_walk(reader, supply, s::NEUTRAL_BONDS, |reader, walk| {
        let own = walk.supply.source.thing;
        let mut gaps = walk.gaps.clone();
        let mut bonds = Vec::new();
        match own_bond(reader, own, case) {
            Ok(Some("automatic" | "fixed")) => bonds.push(own),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
        let mut others: Vec<PartId> = Vec::new();
        let met: Vec<_> = walk.terminals(reader).collect();
        for (_, terminal) in met {
            match reader.build().part(terminal.thing).kind {
                kind::AC_BOARD => match reader.need_flag(terminal.thing, f::ac_board::NEUTRAL_BOND, case) {
                    Ok(true) => bonds.push(terminal.thing),
                    Ok(false) => {}
                    Err(more) => gaps.add(&more),
                },
                kind::TRANSFER_SWITCH if matches!(terminal.side, Side::Supply(_)) => {
                    match left_joined(reader, terminal.thing, terminal.side, case) {
                        Ok(more) => others.extend(more),
                        Err(more) => gaps.add(&more),
                    }
                }
                kind::GENERATOR | kind::INVERTER => others.push(terminal.thing),
                kind::INVERTER_CHARGER | kind::ISOLATING_TRANSFORMER if terminal.side == Side::Output => {
                    others.push(terminal.thing);
                }
                _ => {}
            }
        }
        others.sort_unstable();
        others.dedup();
        for other in others.into_iter().filter(|other| *other != own) {
            match own_bond(reader, other, case) {
                Ok(Some("fixed")) => bonds.push(other),
                Ok(_) => {}
                Err(more) => gaps.add(&more),
            }
        }
        if !gaps.is_empty() {
            return Err(gaps);
        }
        for bond in &bonds {
            let title = reader.build().part(*bond).title.clone();
            reader.step(|| Step::of(format!("neutral and earth are joined in {title}")));
        }
        Ok(Fact::Number(f64::from(u32::try_from(bonds.len()).unwrap_or(u32::MAX))))
    })
}

/// The sources at the other supplies of a transfer switch whose neutral it does not part.
fn left_joined(reader: &mut Reader<'_>, switch: PartId, side: Side, case: CaseId) -> Outcome<Vec<PartId>> {
    let circuitry = reader.build().circuitry();
    let own = circuitry.node_of(switch, side);
    let groups: Vec<usize> = circuitry
        .supplies(switch)
        .filter(|node| Some(*node) != own)
        .filter_map(|node| circuitry.group.get(node).copied())
        .collect();
    let mut joined = Vec::new();
    for (node, terminal) in &circuitry.sources {
        let there = circuitry.group.get(*node).is_some_and(|group| groups.contains(group));
        if there && own_bond(reader, terminal.thing, case)? == Some("fixed") {
            joined.push(terminal.thing);
        }
    }
    if joined.is_empty() {
        return Ok(joined);
    }
    let (poles, legs) = both(
        reader.need(switch, f::transfer_switch::POLES, case),
        reader.need(switch, f::transfer_switch::SUPPLY_LEGS, case),
    )?;
    // One pole for each leg; a further one changes over the neutral.
    Ok(if poles > legs { Vec::new() } else { joined })
}

/// The outlets and appliances whose metal a fault can make live: each outlet, and each appliance of class I. Of an appliance
/// that says no class it is not known, unless a residual-current device guards it anyway.
fn exposed(reader: &mut Reader<'_>, walk: &Walk, case: CaseId) -> (Vec<PartId>, Gaps) {
    let mut gaps = Gaps::default();
    let met: Vec<PartId> = walk.terminals(reader).map(|(_, met)| met.thing).collect();
    let mut exposed = Vec::new();
    for thing in met {
        if reader.build().part(thing).kind == kind::OUTLETS {
            exposed.push(thing);
            continue;
        }
        let Some(class) = fact_of(reader.build(), thing, "protective-class") else { continue };
        match reader.need_word(thing, class, case) {
            Ok("I") => exposed.push(thing),
            Ok(_) => {}
            Err(more) => {
                if !matches!(super::shock::residual_on_way(reader, walk, thing, case), Ok(Some(_))) {
                    gaps.add(&more);
                }
            }
        }
    }
    (exposed, gaps)
}

/// Whether each outlet and each appliance of class I that it can feed has a residual-current device on the way.
fn outlets_protected(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> Outcome {
    with_walk(reader, supply, s::OUTLETS_PROTECTED, |reader, walk| {
        let mut gaps = walk.gaps.clone();
        let (exposed, unsettled) = exposed(reader, walk, case);
        for thing in exposed {
            match super::shock::residual_on_way(reader, walk, thing, case) {
                Ok(Some(_)) => {}
                Ok(None) => return Ok(Fact::Flag(false)),
                Err(more) => gaps.add(&more),
            }
        }
        gaps.add(&unsettled);
        if gaps.is_empty() { Ok(Fact::Flag(true)) } else { Err(gaps) }
    })
}

fn shuts_down(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> Outcome {
    let thing = source(reader, supply);
    match fact_of(reader.build(), thing, "shutdown") {
        Some(fact) => Ok(Fact::Flag(reader.need_flag(thing, fact, case)?)),
        None => Ok(Fact::Flag(false)),
    }
}

/// The facts of an inverter by name: power and voltage of each leg.
pub fn rated_current(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<f64> {
    let (power, voltage, legs) = match reader.build().part(thing).kind {
        kind::INVERTER => (f::inverter::POWER, f::inverter::MAINS_VOLTAGE, None),
        kind::INVERTER_CHARGER => {
            (f::inverter_charger::POWER, f::inverter_charger::VOLTAGE, Some(f::inverter_charger::LEGS))
        }
        _ => return no_solution(thing, s::FAULT_CURRENT),
    };
    let (power, voltage) = both(reader.need(thing, power, case), reader.need(thing, voltage, case))?;
    let legs = legs.map_or(Ok(1.0), |legs| reader.need(thing, legs, case))?;
    Ok(power / voltage / legs)
}

/// The current that it drives into a fault, A: as said, else its surge, else a multiple of what it is rated for.
fn fault_current(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> Outcome {
    let thing = source(reader, supply);
    let build = reader.build();
    if let Some(said) = fact_of(build, thing, "fault-current")
        && !reader.silent(thing, said)
    {
        return Ok(Fact::Number(reader.need(thing, said, case)?));
    }
    let rated = rated_current(reader, thing, case)?;
    if let (Some(surge), Some(power)) = (fact_of(build, thing, "surge"), fact_of(build, thing, "power"))
        && !reader.silent(thing, surge)
    {
        let (surge, power) = both(reader.need(thing, surge, case), reader.need(thing, power, case))?;
        let driven = rated * surge / power;
        reader.step(|| {
            let surge = super::show(surge, quantity::Dimension::POWER);
            Step::assumed(
                format!("its surge of {surge}: {}", amperes(driven)),
                "what an inverter drives into a fault is about its surge (common practice)",
            )
        });
        return Ok(Fact::Number(driven));
    }
    reader.step(|| {
        Step::assumed(
            format!("{FAULT_MULTIPLE} × {} = {}", amperes(rated), amperes(FAULT_MULTIPLE * rated)),
            "inverters give about twice what they are rated for, for less than a second (memory)",
        )
    });
    Ok(Fact::Number(FAULT_MULTIPLE * rated))
}

/// The largest current at which a breaker behind it surely trips at once: the upper end of its curve's range.
fn opening_current(reader: &mut Reader<'_>, supply: PartId, case: CaseId) -> Outcome {
    with_walk(reader, supply, s::OPENING_CURRENT, |reader, walk| {
        let mut most = 0.0_f64;
        let mut gaps = walk.gaps.clone();
        let (exposed, unsettled) = exposed(reader, walk, case);
        gaps.add(&unsettled);
        for thing in exposed {
            let terminal = Terminal { thing, side: Side::Input };
            let Some(stop) = walk.stop_at(reader, terminal) else { continue };
            // The last breaker before the outlets is the one that a fault in what is plugged in has to open.
            let circuitry = reader.build().circuitry();
            let run = walk.runs_to(stop).into_iter().rev().filter_map(|run| circuitry.runs.get(run));
            let last = run.flat_map(|run| run.pieces_from(End::Finish)).find_map(|piece| match piece {
                Piece::Device(device) => Some(device),
                _ => None,
            });
            let Some(device) = last else { continue };
            match opens_at(reader, device, case) {
                Ok(current) => most = most.max(current),
                Err(more) => gaps.add(&more),
            }
        }
        if gaps.is_empty() { Ok(Fact::Number(most)) } else { Err(gaps) }
    })
}

/// The current at which a breaker surely trips at once, A.
fn opens_at(reader: &mut Reader<'_>, device: PartId, case: CaseId) -> Outcome<f64> {
    let written = reader.build().circuitry().written(device);
    let Some(curve) = fact_of(reader.build(), written, "curve") else {
        return Err(Gaps::one(Gap::NoSolution(device, s::OPENING_CURRENT)));
    };
    let (rating, word) = both(reader.need(device, f::device::RATING, case), reader.need_word(written, curve, case))?;
    match BreakerCurve::from_word(word) {
        Some(curve) => Ok(rating * curve.instantaneous_range().1),
        None => no_solution(device, s::OPENING_CURRENT),
    }
}

/// Whether a mains charger charges the battery of an inverter that can feed it.
fn feeds_its_inverter(reader: &mut Reader<'_>, charger: PartId, _: CaseId) -> Outcome {
    let side = |side: Side| Terminal { thing: charger, side };
    reaches_own_battery(reader, side(Side::Input), side(Side::Output))
}

/// Whether an inverter can feed the terminal at which a thing takes alternating current, and hangs on the battery that the
/// thing charges at its other one.
pub fn reaches_own_battery(reader: &mut Reader<'_>, taking: Terminal, charging: Terminal) -> Outcome {
    let walks = reader.walks();
    let circuitry = reader.build().circuitry();
    let group = |met: Terminal| circuitry.node_of(met.thing, met.side).and_then(|node| circuitry.group.get(node));
    let mut gaps = unread_sources(reader);
    for walk in walks.iter() {
        let inverter = walk.supply.source.thing;
        if !matches!(reader.build().part(inverter).kind, kind::INVERTER | kind::INVERTER_CHARGER) {
            continue;
        }
        let own = group(charging);
        let fed = walk.stop_at(reader, taking).is_some();
        if own.is_some() && own == group(Terminal { thing: inverter, side: Side::Input }) {
            if fed {
                return Ok(Fact::Flag(true));
            }
            gaps.add(&walk.gaps);
        }
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// What gives alternating current.
const SOURCES: [PartKind; 5] =
    [kind::SHORE, kind::GENERATOR, kind::INVERTER, kind::INVERTER_CHARGER, kind::ISOLATING_TRANSFORMER];

/// What would settle whether there are sources of alternating current besides those that are known.
pub fn unread_sources(reader: &Reader<'_>) -> Gaps {
    if super::complete(reader, &SOURCES) {
        Gaps::default()
    } else {
        Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT)))
    }
}

/// The supplies that can feed a thing, each with its walk's stop.
pub fn supplies_of(reader: &mut Reader<'_>, thing: PartId) -> Outcome<Vec<(usize, usize)>> {
    supplies_at(reader, Terminal { thing, side: Side::Input })
}

/// The supplies that can feed a terminal, each with its walk's stop.
pub fn supplies_at(reader: &mut Reader<'_>, terminal: Terminal) -> Outcome<Vec<(usize, usize)>> {
    let walks = reader.walks();
    let mut found = Vec::new();
    let mut gaps = unread_sources(reader);
    for (number, walk) in walks.iter().enumerate() {
        match walk.stop_at(reader, terminal) {
            Some(stop) => found.push((number, stop)),
            None => gaps.add(&walk.gaps),
        }
    }
    if gaps.is_empty() { Ok(found) } else { Err(gaps) }
}

/// The supplies that can feed a thing, as a list.
pub fn list_supplies(reader: &mut Reader<'_>, thing: PartId, _: CaseId) -> Outcome {
    let walks = reader.walks();
    let found = supplies_of(reader, thing)?;
    Ok(all(found.into_iter().filter_map(|(number, _)| walks.get(number)).map(|walk| walk.supply.part)))
}

/// What would settle that nothing feeds a thing.
pub fn unfed<T>(thing: PartId) -> Outcome<T> {
    Err(Gaps(vec![AnyOf(vec![Gap::Absent(Build::ROOT, kind::SHORE), Gap::Absent(thing, kind::CIRCUIT)])]))
}
