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
        (t::ON_SUPPORT, Method::Each(on_support)),
        (t::HOURS_CURRENT, Method::Each(hours_current)),
        (t::SUPPORT_LIMIT, Method::Each(support_limit)),
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
    /// The inverter-charger on the way that adds to a weak supply; the thing itself where it is one.
    helped: Option<PartId>,
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
        match both(walk.legs(reader, stop, case), helper(reader, walk, stop, terminal, case)) {
            Ok(((on, _), helped)) => members.push(Member { thing, terminal, on, helped }),
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(members) } else { Err(gaps) }
}

/// The inverter-charger nearest to the source through which it feeds a terminal, where that one adds to a weak supply.
fn helper(
    reader: &mut Reader<'_>,
    walk: &Walk,
    stop: usize,
    terminal: Terminal,
    case: CaseId,
) -> Outcome<Option<PartId>> {
    let is_one = |thing: &PartId| reader.build().part(*thing).kind == kind::INVERTER_CHARGER;
    let own = matches!(terminal.side, Side::Supply(_)).then_some(terminal.thing);
    let on_way: Vec<PartId> = own.into_iter().chain(walk.passed(stop)).filter(is_one).collect();
    let mut helper = None;
    for thing in on_way {
        if reader.need_flag(thing, f::inverter_charger::SUPPORTS, case)? {
            helper = Some(thing);
        }
    }
    Ok(helper)
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

/// The current that members take on the leg that carries more, A; `counted` says how much of each member's counts. What stands
/// behind an inverter-charger that adds to the supply takes no more from it than that is set to.
fn on_fuller_leg(
    reader: &mut Reader<'_>,
    walk: &Walk,
    set: PartId,
    case: CaseId,
    counted: fn(&mut Reader<'_>, PartId, CaseId) -> Outcome<f64>,
) -> Outcome<f64> {
    let mut groups: Vec<(Option<PartId>, [f64; 2])> = Vec::new();
    let mut gaps = Gaps::default();
    for member in members(reader, walk, set, case)? {
        match both(running(reader, walk, &member, case), counted(reader, member.thing, case)) {
            Ok((current, factor)) => {
                let title = reader.build().part(member.thing).title.clone();
                reader.step(|| Step::of(format!("{title}: {}", amperes(current * factor))));
                let place = groups.iter().position(|(helper, _)| *helper == member.helped).unwrap_or_else(|| {
                    groups.push((member.helped, [0.0; 2]));
                    groups.len() - 1
                });
                if let Some((_, legs)) = groups.get_mut(place) {
                    member.on.add(legs, current * factor);
                }
            }
            Err(more) => gaps.add(&more),
        }
    }
    let [mut one, mut two] = [0.0; 2];
    for (helper, [first, second]) in groups {
        let limit = match helper {
            Some(helper) => reader.need(helper, f::inverter_charger::INPUT_LIMIT, case),
            None => Ok(f64::INFINITY),
        };
        match limit {
            Ok(limit) => {
                if let (true, Some(helper)) = (first.max(second) > limit, helper) {
                    let title = reader.build().part(helper).title.clone();
                    reader
                        .step(|| Step::of(format!("{title} takes no more than {} and adds the rest", amperes(limit))));
                }
                one += first.min(limit);
                two += second.min(limit);
            }
            Err(more) => gaps.add(&more),
        }
    }
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

/// What a member takes from an inverter on each leg that it is on, VA: while it runs, and how much more while it starts.
struct Load {
    on: On,
    runs: f64,
    more: f64,
}

/// The voltage between the legs that a member is joined to, over that of one.
fn spans(reader: &mut Reader<'_>, walk: &Walk, member: &Member, case: CaseId) -> Outcome<f64> {
    // On two legs each of them carries its part; of one that is all there is.
    match fact_of(reader.build(), member.thing, "legs") {
        Some(fact) if super::legs::of_source(reader, walk.supply.source, case)? <= 1.0 => {
            reader.need(member.thing, fact, case)
        }
        _ => Ok(1.0),
    }
}

/// What the members that a walk feeds take on each leg.
fn loads(reader: &mut Reader<'_>, walk: &Walk, set: PartId, starts: bool, case: CaseId) -> Outcome<Vec<Load>> {
    let mut loads = Vec::new();
    let mut gaps = Gaps::default();
    for member in members(reader, walk, set, case)? {
        let taken = running(reader, walk, &member, case).and_then(|current| {
            let more = if starts { (start(reader, &member, current, case)? - current).max(0.0) } else { 0.0 };
            let volts = both(voltage(reader, walk, case), spans(reader, walk, &member, case))?;
            Ok((current * volts.0 * volts.1, more * volts.0 * volts.1))
        });
        match taken {
            Ok((runs, more)) => {
                let title = reader.build().part(member.thing).title.clone();
                let in_words = |power: f64| super::show(power, quantity::Dimension::POWER);
                let on = member.on.in_words();
                reader.step(|| {
                    let starting =
                        if more > 0.0 { format!(", starting {}", in_words(runs + more)) } else { String::new() };
                    Step::of(format!("{title}{on}: {}{starting}", in_words(runs)))
                });
                loads.push(Load { on: member.on, runs, more });
            }
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(loads) } else { Err(gaps) }
}

/// The power that an inverter must be able to give for these loads, VA: on the leg that carries more, with the largest start
/// there on top, times its legs, since it gives each of them an equal part of its rating.
fn asked(reader: &mut Reader<'_>, walk: &Walk, loads: &[Load], case: CaseId) -> Outcome<f64> {
    let legs = super::legs::of_source(reader, walk.supply.source, case)?.max(1.0);
    let (mut runs, mut more) = ([0.0; 2], [0.0_f64; 2]);
    for load in loads {
        load.on.add(&mut runs, load.runs);
        let mut own = [0.0; 2];
        load.on.add(&mut own, load.more);
        for (most, own) in more.iter_mut().zip(own) {
            *most = most.max(own);
        }
    }
    let fuller = runs.iter().zip(more).map(|(runs, more)| runs + more).fold(0.0, f64::max);
    if legs > 1.0 {
        reader.step(|| {
            let fuller = super::show(fuller, quantity::Dimension::POWER);
            Step::of(format!("the fuller of {legs} legs carries {fuller}, and each gives an equal part"))
        });
    }
    Ok(fuller * legs)
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
        let takes = loads(reader, walk, set, false, case).and_then(|loads| asked(reader, walk, &loads, case));
        both(takes, rated_power(reader, walk, case))
    })
}

/// The running sum, with the largest start on top, and what the inverter gives for a moment.
fn momentary(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome<(f64, f64)> {
    fullest(reader, set, INVERTERS, |reader, walk| {
        let takes = loads(reader, walk, set, true, case).and_then(|loads| asked(reader, walk, &loads, case));
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

/// The inverter-chargers that add to a supply which feeds a set through them, each with the number of the walk.
fn helpers(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome<Vec<(usize, PartId)>> {
    let kinds: Vec<PartKind> = SHORES.iter().chain(GENERATORS).copied().collect();
    let walks = reader.walks();
    let mut found: Vec<(usize, PartId)> = Vec::new();
    for number in feeding(reader, set, &kinds)? {
        let Some(walk) = walks.get(number) else { continue };
        for member in members(reader, walk, set, case)? {
            if let Some(helper) = member.helped.filter(|helper| *helper != member.thing)
                && !found.contains(&(number, helper))
            {
                found.push((number, helper));
            }
        }
    }
    Ok(found)
}

fn on_support(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(!helpers(reader, set, case)?.is_empty()))
}

/// What runs for hours behind the inverter-charger of which it asks the largest part, and what that takes at most, A.
fn for_hours(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome<(f64, f64)> {
    let walks = reader.walks();
    let mut fullest: Option<(f64, f64)> = None;
    let mut gaps = Gaps::default();
    for (number, helper) in helpers(reader, set, case)? {
        let Some(walk) = walks.get(number) else { continue };
        let mut legs = [0.0; 2];
        for member in members(reader, walk, set, case)? {
            if member.helped != Some(helper) || member.thing == helper {
                continue;
            }
            match both(load_flag(reader, member.thing, "continuous", case), running(reader, walk, &member, case)) {
                Ok((true, current)) => {
                    let title = reader.build().part(member.thing).title.clone();
                    reader.step(|| Step::of(format!("{title} runs for hours: {}", amperes(current))));
                    member.on.add(&mut legs, current);
                }
                Ok((false, _)) => {}
                Err(more) => gaps.add(&more),
            }
        }
        let [one, two] = legs;
        match reader.need(helper, f::inverter_charger::INPUT_LIMIT, case) {
            Ok(limit) if fullest.is_none_or(|(most, of)| one.max(two) * of > most * limit) => {
                fullest = Some((one.max(two), limit));
            }
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    match fullest {
        _ if !gaps.is_empty() => Err(gaps),
        Some(fullest) => Ok(fullest),
        None => super::no_solution(set, t::HOURS_CURRENT),
    }
}

fn hours_current(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(for_hours(reader, set, case)?.0))
}

fn support_limit(reader: &mut Reader<'_>, set: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(for_hours(reader, set, case)?.1))
}
