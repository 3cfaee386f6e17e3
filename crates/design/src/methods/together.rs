//! Sets of things that run together: what they take from the shore, a generator and an inverter.

use super::legs::On;
use super::mains_walk::Walk;
use super::supply::unread_sources;
use super::{amperes, battery::both, fact_of, flow, source};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, PartKind, fact as f, fact::together as t, kind};

/// What counts of a load that runs for three hours or longer where a device is sized for it (NEC 210.20(A), from memory).
const CONTINUOUS_MARGIN: f64 = 1.25;

/// The facts of sets.
pub fn bindings() -> Bindings {
    vec![
        (t::ON_SHORE, Method::Each(on_shore)),
        (t::SHORE_CURRENT, Method::Each(shore_current)),
        (t::SHORE_CURRENT_WITH_MARGIN, Method::Each(shore_current_with_margin)),
        (t::SHORE_RATING, Method::Each(shore_rating)),
        (t::ON_GENERATOR, Method::Each(on_generator)),
        (t::GENERATOR_CURRENT, Method::Each(generator_current)),
        (t::GENERATOR_RATING, Method::Each(generator_rating)),
        (t::ON_INVERTER, Method::Each(on_inverter)),
        (t::INVERTER_POWER, Method::Each(inverter_power)),
        (t::INVERTER_RATING, Method::Each(inverter_rating)),
        (t::STARTING_POWER, Method::Each(starting_power)),
        (t::INVERTER_SURGE, Method::Each(inverter_surge)),
    ]
}

const SHORES: &[PartKind] = &[kind::SHORE];
const GENERATORS: &[PartKind] = &[kind::GENERATOR, kind::ISOLATING_TRANSFORMER];
const INVERTERS: &[PartKind] = &[kind::INVERTER, kind::INVERTER_CHARGER];

/// A thing of a set that a source feeds.
struct Member {
    thing: PartId,
    terminal: Terminal,
    on: On,
}

/// The things of a set.
fn named(reader: &Reader<'_>, set: PartId) -> Outcome<Vec<PartId>> {
    match reader.build().circuitry().sets.get(&set) {
        Some(Some(members)) => Ok(members.clone()),
        _ => Err(Gaps::one(Gap::Entry(set, t::THINGS))),
    }
}

/// The things of a set that a walk feeds, with their legs.
fn members(reader: &mut Reader<'_>, walk: &Walk, set: PartId, case: CaseId) -> Outcome<Vec<Member>> {
    let mut members = Vec::new();
    let mut gaps = walk.gaps.clone();
    for thing in named(reader, set)? {
        let sides = [Side::Input, Side::Supply(0)].map(|side| Terminal { thing, side });
        let found = sides.into_iter().find_map(|terminal| Some((walk.stop_at(reader, terminal)?, terminal)));
        let Some((stop, terminal)) = found else { continue };
        match walk.legs(reader, stop, case) {
            Ok((on, _)) => members.push(Member { thing, terminal, on }),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(members) } else { Err(gaps) }
}

/// The walks from sources of these kinds that feed anything of a set.
fn feeding(reader: &mut Reader<'_>, set: PartId, kinds: &[PartKind]) -> Outcome<Vec<usize>> {
    let walks = reader.walks();
    let named = named(reader, set)?;
    let mut feeding = Vec::new();
    let mut gaps = unread_sources(reader);
    for (number, walk) in walks.iter().enumerate() {
        if !kinds.contains(&reader.build().part(walk.supply.source.thing).kind) {
            continue;
        }
        let meets =
            |side: Side| named.iter().any(|thing| walk.stop_at(reader, Terminal { thing: *thing, side }).is_some());
        if meets(Side::Input) || meets(Side::Supply(0)) {
            feeding.push(number);
        } else {
            gaps.add(&walk.gaps);
        }
    }
    if feeding.is_empty() && !gaps.is_empty() { Err(gaps) } else { Ok(feeding) }
}

fn fed_by(reader: &mut Reader<'_>, set: PartId, kinds: &[PartKind]) -> Outcome {
    Ok(Fact::Flag(!feeding(reader, set, kinds)?.is_empty()))
}

fn on_shore(reader: &mut Reader<'_>, set: PartId, _: CaseId) -> Outcome {
    fed_by(reader, set, SHORES)
}

fn on_generator(reader: &mut Reader<'_>, set: PartId, _: CaseId) -> Outcome {
    fed_by(reader, set, GENERATORS)
}

fn on_inverter(reader: &mut Reader<'_>, set: PartId, _: CaseId) -> Outcome {
    fed_by(reader, set, INVERTERS)
}

/// The current of a member, A: what it takes in use; of an inverter-charger that is named itself, what its charger draws.
fn running(reader: &mut Reader<'_>, walk: &Walk, member: &Member, case: CaseId) -> Outcome<f64> {
    if reader.build().part(member.thing).kind == kind::INVERTER_CHARGER {
        let draw = reader.need(member.thing, f::inverter_charger::DRAW, case);
        let (draw, voltage) = both(draw, voltage(reader, walk, case))?;
        return Ok(draw / voltage);
    }
    match flow::taken(reader, member.terminal, case) {
        Some(current) => current,
        None => Ok(0.0),
    }
}

/// The voltage of one leg of a source, V.
fn voltage(reader: &mut Reader<'_>, walk: &Walk, case: CaseId) -> Outcome<f64> {
    let own = walk.supply.source;
    source::highest_voltage(reader, own, case).unwrap_or_else(|| super::no_solution(own.thing, t::INVERTER_POWER))
}

/// A flag of a load; `no` where its kind has none.
fn load_flag(reader: &mut Reader<'_>, thing: PartId, name: &str, case: CaseId) -> Outcome<bool> {
    fact_of(reader.build(), thing, name).map_or(Ok(false), |fact| reader.need_flag(thing, fact, case))
}

/// The current that members take on the leg that carries more, A; `counted` says how much of each member's counts.
fn on_fuller_leg(
    reader: &mut Reader<'_>,
    walk: &Walk,
    set: PartId,
    case: CaseId,
    counted: fn(&mut Reader<'_>, PartId, CaseId) -> Outcome<f64>,
) -> Outcome<f64> {
    let mut legs = [0.0; 2];
    let mut gaps = Gaps::default();
    for member in members(reader, walk, set, case)? {
        match both(running(reader, walk, &member, case), counted(reader, member.thing, case)) {
            Ok((current, factor)) => {
                let title = reader.build().part(member.thing).title.clone();
                reader.step(|| Step::of(format!("{title}: {}", amperes(current * factor))));
                let [one, two] = &mut legs;
                *one += if member.on == On::Two { 0.0 } else { current * factor };
                *two += if member.on == On::One { 0.0 } else { current * factor };
            }
            Err(more) => gaps.add(&more),
        }
    }
    let [one, two] = legs;
    if gaps.is_empty() { Ok(one.max(two)) } else { Err(gaps) }
}

fn as_it_is(_: &mut Reader<'_>, _: PartId, _: CaseId) -> Outcome<f64> {
    Ok(1.0)
}

fn with_margin(reader: &mut Reader<'_>, thing: PartId, case: CaseId) -> Outcome<f64> {
    Ok(if load_flag(reader, thing, "continuous", case)? { CONTINUOUS_MARGIN } else { 1.0 })
}

/// Of the sources of these kinds the one of which the set takes the largest part, with what it takes and what that gives.
fn fullest(
    reader: &mut Reader<'_>,
    set: PartId,
    kinds: &[PartKind],
    mut of: impl FnMut(&mut Reader<'_>, &Walk) -> Outcome<(f64, f64)>,
) -> Outcome<(f64, f64)> {
    let walks = reader.walks();
    let mut fullest: Option<(f64, f64)> = None;
    let mut gaps = Gaps::default();
    for walk in feeding(reader, set, kinds)?.into_iter().filter_map(|number| walks.get(number)) {
        match of(reader, walk) {
            Ok((takes, gives)) if fullest.is_none_or(|(most, of)| takes * of > most * gives) => {
                fullest = Some((takes, gives));
            }
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    match fullest {
        Some(fullest) if gaps.is_empty() => Ok(fullest),
        _ if !gaps.is_empty() => Err(gaps),
        _ => Err(Gaps(vec![AnyOf(kinds.iter().map(|kind| Gap::Absent(crate::part::Build::ROOT, *kind)).collect())])),
    }
}

/// What a set takes on the fuller leg of the fullest source of these kinds, and what that gives, A.
fn currents(
    reader: &mut Reader<'_>,
    set: PartId,
    kinds: &[PartKind],
    case: CaseId,
    counted: fn(&mut Reader<'_>, PartId, CaseId) -> Outcome<f64>,
) -> Outcome<(f64, f64)> {
    fullest(reader, set, kinds, |reader, walk| {
        let gives = source::own_limit(reader, walk.supply.source, case);
        both(on_fuller_leg(reader, walk, set, case, counted), gives)
    })
}

fn shore_current(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(currents(reader, set, SHORES, case, as_it_is)?.0))
}

fn shore_current_with_margin(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(currents(reader, set, SHORES, case, with_margin)?.0))
}

fn shore_rating(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    rating(reader, set, SHORES, case)
}

/// What the fullest source gives, A; of a single one it is known though what the set takes is not.
fn rating(reader: &mut Reader<'_>, set: PartId, kinds: &[PartKind], case: CaseId) -> Outcome {
    let walks = reader.walks();
    if let [only] = feeding(reader, set, kinds)?[..]
        && let Some(walk) = walks.get(only)
    {
        return Ok(Fact::Number(source::own_limit(reader, walk.supply.source, case)?));
    }
    Ok(Fact::Number(currents(reader, set, kinds, case, as_it_is)?.1))
}

fn generator_current(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(currents(reader, set, GENERATORS, case, as_it_is)?.0))
}

fn generator_rating(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    rating(reader, set, GENERATORS, case)
}

/// The apparent power that a set takes from an inverter, VA: current × voltage of each leg that a member is joined to.
fn apparent(reader: &mut Reader<'_>, walk: &Walk, member: &Member, current: f64, case: CaseId) -> Outcome<f64> {
    let legs = match fact_of(reader.build(), member.thing, "legs") {
        Some(legs) => reader.need(member.thing, legs, case)?,
        None => 1.0,
    };
    Ok(current * legs * voltage(reader, walk, case)?)
}

/// The running powers of the members that a walk feeds, and how much more each takes while it starts, VA.
fn powers(reader: &mut Reader<'_>, walk: &Walk, set: PartId, starts: bool, case: CaseId) -> Outcome<Vec<(f64, f64)>> {
    let mut powers = Vec::new();
    let mut gaps = Gaps::default();
    for member in members(reader, walk, set, case)? {
        let power = running(reader, walk, &member, case).and_then(|current| {
            let more = if starts { (start(reader, &member, current, case)? - current).max(0.0) } else { 0.0 };
            both(apparent(reader, walk, &member, current, case), apparent(reader, walk, &member, more, case))
        });
        match power {
            Ok((runs, more)) => {
                let title = reader.build().part(member.thing).title.clone();
                let in_words = |power: f64| super::show(power, quantity::Dimension::POWER);
                reader.step(|| {
                    let starting =
                        if more > 0.0 { format!(", starting {}", in_words(runs + more)) } else { String::new() };
                    Step::of(format!("{title}: {}{starting}", in_words(runs)))
                });
                powers.push((runs, more));
            }
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(powers) } else { Err(gaps) }
}

/// The current of a member while it starts, A: as said; of a motor nothing else will do.
fn start(reader: &mut Reader<'_>, member: &Member, running: f64, case: CaseId) -> Outcome<f64> {
    let build = reader.build();
    let (Some(surge), Some(motor)) = (fact_of(build, member.thing, "surge"), fact_of(build, member.thing, "motor"))
    else {
        return Ok(running);
    };
    if !reader.silent(member.thing, surge) {
        return reader.need(member.thing, surge, case);
    }
    match reader.need_flag(member.thing, motor, case) {
        Ok(false) => Ok(running),
        Ok(true) => Err(Gaps::one(Gap::Entry(member.thing, surge))),
        Err(_) => Err(crate::reader::either((member.thing, surge), (member.thing, motor))),
    }
}

/// What an inverter gives continuously over all its legs, VA.
fn rated_power(reader: &mut Reader<'_>, walk: &Walk, case: CaseId) -> Outcome<f64> {
    inverter_fact(reader, walk, [f::inverter::POWER, f::inverter_charger::POWER], case)
}

fn inverter_fact(reader: &mut Reader<'_>, walk: &Walk, facts: [FactId; 2], case: CaseId) -> Outcome<f64> {
    let thing = walk.supply.source.thing;
    let [inverter, charger] = facts;
    let fact = if reader.build().part(thing).kind == kind::INVERTER { inverter } else { charger };
    reader.need(thing, fact, case)
}

fn continuous(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome<(f64, f64)> {
    fullest(reader, set, INVERTERS, |reader, walk| {
        let takes = powers(reader, walk, set, false, case).map(|powers| powers.iter().map(|(runs, _)| runs).sum());
        both(takes, rated_power(reader, walk, case))
    })
}

/// The running sum, with the largest start on top, and what the inverter gives for a moment.
fn momentary(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome<(f64, f64)> {
    fullest(reader, set, INVERTERS, |reader, walk| {
        let takes = powers(reader, walk, set, true, case).map(|powers| {
            let runs: f64 = powers.iter().map(|(runs, _)| runs).sum();
            runs + powers.iter().map(|(_, more)| *more).fold(0.0, f64::max)
        });
        both(takes, inverter_fact(reader, walk, [f::inverter::SURGE, f::inverter_charger::SURGE], case))
    })
}

fn inverter_power(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(continuous(reader, set, case)?.0))
}

fn inverter_rating(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(continuous(reader, set, case)?.1))
}

fn starting_power(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(momentary(reader, set, case)?.0))
}

fn inverter_surge(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(momentary(reader, set, case)?.1))
}
