//! Boards of alternating current: what feeds them, what keeps their sources apart, and what they open.

use super::mains_walk::Walk;
use super::supply::{list_supplies, supplies_of, unfed};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{PartKind, fact as f, fact::ac_board as b, kind};

/// What gives alternating current to the node at which it is joined.
const GIVE: [(PartKind, Side); 6] = [
    (kind::SHORE, Side::Input),
    (kind::GENERATOR, Side::Input),
    (kind::INVERTER, Side::Output),
    (kind::INVERTER_CHARGER, Side::Output),
    (kind::ISOLATING_TRANSFORMER, Side::Output),
    (kind::TRANSFER_SWITCH, Side::Output),
];

/// The facts of boards.
pub fn bindings() -> Bindings {
    vec![
        (b::SUPPLIES, Method::Each(list_supplies)),
        (b::FIRST, Method::Each(first)),
        (b::SUPPLY_LEGS, Method::Each(supply_legs)),
        (b::JOINED_SOURCES, Method::Each(joined_sources)),
        (b::KEPT_APART, Method::Each(kept_apart)),
        (b::GROUP_BOARD, Method::Each(group_board)),
        (b::LEAST_POLES, Method::Each(least_poles)),
        (b::HAS_MAIN, Method::Each(has_main)),
        (b::WAY_COUNT, Method::Each(way_count)),
        (b::LEAST_INTERRUPTING, Method::Each(least_interrupting)),
        (b::CLEAR_WIDTH, Method::Each(clear_width)),
        (b::CLEAR_DEPTH, Method::Each(clear_depth)),
    ]
}

/// The boards between a source and a stop, the stop's own left out.
pub fn boards_before(reader: &Reader<'_>, walk: &Walk, stop: usize) -> Vec<PartId> {
    let build = reader.build();
    let ways = walk.runs_to(stop).into_iter().filter_map(|run| build.circuitry().runs.get(run));
    ways.filter(|run| build.part(run.written).kind == kind::WAY)
        .filter_map(|run| build.part(run.written).outer)
        .filter(|board| build.part(*board).kind == kind::AC_BOARD)
        .collect()
}

fn first(reader: &mut Reader<'_>, board: PartId, _: CaseId) -> Outcome {
    let walks = reader.walks();
    let supplies = supplies_of(reader, board)?;
    let behind = |(number, stop): &(usize, usize)| {
        walks.get(*number).is_some_and(|walk| !boards_before(reader, walk, *stop).is_empty())
    };
    Ok(Fact::Flag(!supplies.iter().any(behind)))
}

/// The most legs that come to a board from any of its sources.
fn supply_legs(reader: &mut Reader<'_>, board: PartId, case: CaseId) -> Outcome {
    let walks = reader.walks();
    let mut most: Option<f64> = None;
    for (number, stop) in supplies_of(reader, board)? {
        let Some(walk) = walks.get(number) else { continue };
        let (_, legs) = walk.legs(reader, stop, case)?;
        let legs = passed_legs(reader, walk, stop, legs, case)?;
        let title = reader.build().part(walk.supply.part).title.clone();
        reader.step(|| Step::of(format!("{title} brings {legs} of alternating current's legs")));
        most = Some(most.map_or(legs, |so_far| so_far.max(legs)));
    }
    most.map_or_else(|| unfed(board), |most| Ok(Fact::Number(most)))
}

/// An inverter-charger passes on no more legs than it has.
fn passed_legs(reader: &mut Reader<'_>, walk: &Walk, stop: usize, legs: f64, case: CaseId) -> Outcome<f64> {
    let mut least = legs;
    for thing in walk.passed(stop) {
        if reader.build().part(thing).kind == kind::INVERTER_CHARGER {
            least = least.min(reader.need(thing, f::inverter_charger::LEGS, case)?);
        }
    }
    Ok(least)
}

/// The sources that come together where a board is joined.
fn joined_sources(reader: &mut Reader<'_>, board: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let Some(node) = build.circuitry().node_of(board, Side::Input) else { return unfed(board) };
    let gaps = super::doubt::of_sources(reader, node);
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let gives = |terminal: &Terminal| GIVE.contains(&(build.part(terminal.thing).kind, terminal.side));
    let joined: Vec<Terminal> = build.circuitry().sources_joined(&[Some(node)]).filter(gives).collect();
    for terminal in &joined {
        let title = build.part(terminal.thing).title.clone();
        reader.step(|| Step::of(format!("{title} is joined to it")));
    }
    Ok(Fact::Number(f64::from(u32::try_from(joined.len()).unwrap_or(u32::MAX))))
}

/// The boards that are joined to one by runs, in the order of the text.
fn group(reader: &Reader<'_>, board: PartId) -> Vec<PartId> {
    let circuitry = reader.build().circuitry();
    let group = |board: PartId| circuitry.node_of(board, Side::Input).and_then(|node| circuitry.group.get(node));
    let own = group(board);
    let boards = reader.build().of_kind(kind::AC_BOARD).members.iter().copied();
    boards.filter(|other| *other == board || (own.is_some() && group(*other) == own)).collect()
}

fn group_board(reader: &mut Reader<'_>, board: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Part(group(reader, board).first().copied().unwrap_or(board)))
}

/// Whether a board of the group keeps its sources apart; where several are silent, an entry on any of them settles it.
fn kept_apart(reader: &mut Reader<'_>, board: PartId, case: CaseId) -> Outcome {
    let mut silent = Vec::new();
    for other in group(reader, board) {
        match reader.need_word(other, b::INTERLOCK, case) {
            Ok("none") => {}
            Ok(_) => return Ok(Fact::Flag(true)),
            Err(_) => silent.push(Gap::Entry(other, b::INTERLOCK)),
        }
    }
    if silent.is_empty() { Ok(Fact::Flag(false)) } else { Err(Gaps(vec![AnyOf(silent)])) }
}

/// The fewest conductors that its main or one of its ways opens; a way that says nothing is as its board.
fn least_poles(reader: &mut Reader<'_>, board: PartId, case: CaseId) -> Outcome {
    let ways = reader.build().inside(board, kind::WAY);
    let mut poles = vec![reader.need(board, b::POLES, case)];
    for &way in ways.members.iter() {
        if !reader.silent(way, f::way::POLES) {
            poles.push(reader.need(way, f::way::POLES, case));
        }
    }
    if !ways.complete {
        poles.push(Err(Gaps::one(Gap::Unread(board))));
    }
    match super::least(poles)? {
        Some(least) => Ok(Fact::Number(least)),
        None => super::no_solution(board, b::LEAST_POLES),
    }
}

/// Whether one switch or breaker takes off all of it: as said, else by its main breaker.
fn has_main(reader: &mut Reader<'_>, board: PartId, case: CaseId) -> Outcome {
    if reader.build().part(board).given(b::MAIN).is_some() {
        return Ok(Fact::Flag(true));
    }
    Ok(Fact::Flag(reader.need_flag(board, b::MAIN_SWITCH, case)?))
}

fn way_count(reader: &mut Reader<'_>, board: PartId, _: CaseId) -> Outcome {
    let ways = reader.build().inside(board, kind::WAY);
    if !ways.complete {
        return Err(Gaps::one(Gap::Unread(board)));
    }
    Ok(Fact::Number(f64::from(u32::try_from(ways.members.len()).unwrap_or(u32::MAX))))
}

/// What the main breaker must open on the shore connections that feed the board (small-craft guidance, by the inlet's rating).
fn least_interrupting(reader: &mut Reader<'_>, board: PartId, case: CaseId) -> Outcome {
    let walks = reader.walks();
    let mut most: Option<f64> = None;
    for (number, _) in supplies_of(reader, board)? {
        let Some(walk) = walks.get(number) else { continue };
        let shore = walk.supply.source.thing;
        if reader.build().part(shore).kind != kind::SHORE {
            continue;
        }
        let Some(inlet) = reader.build().inside(shore, kind::INLET).members.first().copied() else { continue };
        let rating = reader.need(inlet, f::inlet::RATING, case)?;
        let Some(table) = calc::breaker_capacity_on_shore(rating) else { continue };
        reader.step(|| {
            let (rating, main) = (super::amperes(rating), super::amperes(table.main));
            Step::cited(format!("on a shore supply of {rating}: {main}"), table.citation)
        });
        most = Some(most.map_or(table.main, |so_far| so_far.max(table.main)));
    }
    match most {
        Some(most) => Ok(Fact::Number(most)),
        None => super::no_solution(board, b::LEAST_INTERRUPTING),
    }
}

fn clear(reader: &mut Reader<'_>, board: PartId, side: usize, case: CaseId) -> Outcome {
    match reader.fact(board, b::WORKING_SPACE, case)? {
        Fact::Opening(size) => match size.get(side) {
            Some(length) => Ok(Fact::Number(*length)),
            None => super::no_solution(board, b::WORKING_SPACE),
        },
        _ => super::no_solution(board, b::WORKING_SPACE),
    }
}

fn clear_width(reader: &mut Reader<'_>, board: PartId, case: CaseId) -> Outcome {
    clear(reader, board, 0, case)
}

fn clear_depth(reader: &mut Reader<'_>, board: PartId, case: CaseId) -> Outcome {
    clear(reader, board, 1, case)
}

/// How many circuits of at most this rating, A, leave the boards of a walk.
pub fn small_circuits(reader: &mut Reader<'_>, walk: &Walk, largest: f64, case: CaseId) -> Outcome<f64> {
    let boards: Vec<PartId> = walk.boards(reader).into_iter().map(|(_, board)| board).collect();
    let build = reader.build();
    let mut count = 0.0;
    let mut gaps = walk.gaps.clone();
    for &board in &boards {
        if !build.inside(board, kind::WAY).complete {
            gaps.add(&Gaps::one(Gap::Unread(board)));
        }
    }
    let leaves = |written: PartId| {
        let way = build.part(written);
        way.kind == kind::WAY && way.outer.is_some_and(|board| boards.contains(&board))
    };
    for run in build.circuitry().runs.iter().filter(|run| leaves(run.written)) {
        let ratings: Vec<_> = run.devices().map(|device| reader.need(device, f::device::RATING, case)).collect();
        match super::least(ratings) {
            Ok(Some(rating)) if rating <= largest => count += 1.0,
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if gaps.is_empty() { Ok(count) } else { Err(gaps) }
}
