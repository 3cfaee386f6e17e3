//! A group as a network of `calc::nodal`, and its solution.

use super::piece::{Bound, resistance_of_run};
use super::{Drawn, Solved, State, load, metal, source, standing};
use crate::circuitry::{Circuitry, Piece, Run, Terminal};
use crate::fact::Outcome;
use crate::known::{CaseId, Gaps};
use crate::reader::Reader;
use calc::nodal::{Load, Network, Part};
use rustc_hash::{FxHashMap, FxHashSet};
use std::sync::Arc;
use vocabulary::{fact as f, kind};

/// The way back to the sources.
pub const BACK: u32 = 0;
/// The vehicle's metal.
const METAL: u32 = 1;
/// The first number of a node of the circuits.
const FIRST: usize = 2;

/// The number of a node in the network.
pub fn number(node: usize) -> u32 {
    u32::try_from(node.saturating_add(FIRST)).unwrap_or(u32::MAX)
}

/// Whether every contact of a run is closed.
fn is_closed(reader: &mut Reader<'_>, run: &Run, case: CaseId) -> bool {
    run.pieces.iter().all(|piece| match piece {
        Piece::Switch(part) => standing::is_closed(reader, *part, case),
        Piece::Conductor(_) | Piece::Device(_) | Piece::Through(_) => true,
    })
}

/// Whether a thing runs for moments only, never beside everything else: a starter motor, or what applies a trailer's brakes when it comes loose.
fn is_momentary(reader: &mut Reader<'_>, terminal: Terminal, case: CaseId) -> Outcome<bool> {
    if reader.build().part(terminal.thing).kind == kind::BREAKAWAY {
        return Ok(true);
    }
    let circuitry = reader.build().circuitry();
    let meeting = circuitry.node_at.get(&terminal).and_then(|node| circuitry.meeting.get(*node));
    let Some([only]) = meeting.map(Vec::as_slice) else { return Ok(false) };
    let run = circuitry.runs.get(*only).map(|run| run.part);
    run.map_or(Ok(false), |run| Ok(reader.need_word(run, f::run::PURPOSE, case)? == "starting"))
}

/// Solves a group.
///
/// # Errors
/// What is not known of it; an empty list where nothing holds up its voltage or its numbers have no solution.
pub fn solve(reader: &mut Reader<'_>, group: usize, state: State, case: CaseId) -> Outcome<Solved> {
    let groups = reader.groups();
    let circuitry = reader.build().circuitry();
    let nodes = groups.nodes(group);
    let terminals: Vec<Terminal> = circuitry.terminals(nodes).collect();
    let mut gaps = Gaps::default();
    if let Some(&node) = nodes.first() {
        gaps = reader.mode_state(case).doubt(reader, node);
    }
    let sources = source::of(reader, &terminals, state, case).unwrap_or_else(|more| {
        gaps.add(&more);
        Vec::new()
    });
    let mut network = Network { reference: Some(BACK), ..Network::default() };
    let mut runs = FxHashMap::default();
    let mut by_metal: FxHashSet<usize> = FxHashSet::default();
    for &index in groups.runs(group) {
        let Some(run) = circuitry.runs.get(index) else { continue };
        let [Some(start), Some(finish)] = run.nodes else { continue };
        if !is_closed(reader, run, case) {
            runs.insert(index, network.add(number(start), number(finish), Part::Open));
            continue;
        }
        match resistance_of_run(reader, run, Bound::Usual, case) {
            Ok(ohms) => {
                runs.insert(index, network.add(number(start), number(finish), Part::Conductor { ohms }));
            }
            Err(more) => gaps.add(&more),
        }
        for node in [start, finish] {
            let alone = circuitry.meeting.get(node).is_some_and(|meeting| meeting.len() == 1);
            if !alone {
                continue;
            }
            match metal::comes_back_by_metal(reader, run, node, case) {
                Ok(true) => {
                    by_metal.insert(node);
                }
                Ok(false) => {}
                Err(more) => gaps.add(&more),
            }
        }
    }
    if !by_metal.is_empty() {
        match metal::resistance(reader, &groups, group, Bound::Usual, case) {
            Ok(ohms) => {
                network.add(METAL, BACK, Part::Conductor { ohms });
            }
            Err(more) => gaps.add(&more),
        }
    }
    let fed = reached(circuitry, groups.runs(group), &sources, |run| {
        runs.get(&run).and_then(|place| network.elements.get(*place)).is_some_and(|one| one.part != Part::Open)
    });
    // The nominal voltage of the group: that of the highest of what feeds it.
    let nominal = sources.iter().map(|(_, part)| volts(part)).fold(0.0, f64::max);
    let mut drawn: Vec<Drawn> = Vec::new();
    let mut drawn_at: FxHashMap<usize, Vec<usize>> = FxHashMap::default();
    for &terminal in &terminals {
        match is_momentary(reader, terminal, case) {
            Ok(false) => {}
            Ok(true) => continue,
            Err(more) => gaps.add(&more),
        }
        gaps.add(&standing::unsaid(reader, terminal, case));
        if !standing::takes(reader, terminal, case) {
            continue;
        }
        let Some(taken) = load::of(reader, terminal, nominal, state, case) else { continue };
        let Some(&node) = circuitry.node_at.get(&terminal).filter(|node| fed.contains(node)) else { continue };
        match taken {
            Ok(load) => {
                let back = if by_metal.contains(&node) { METAL } else { BACK };
                let element = network.add(number(node), back, Part::Load { load, least_volts: 0.0 });
                let watts = match load {
                    Load::Power(watts) => Some(watts),
                    Load::Resistance(_) | Load::Current(_) => None,
                };
                drawn_at.entry(node).or_default().push(drawn.len());
                drawn.push(Drawn { terminal, element, watts });
            }
            Err(more) => gaps.add(&more),
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    if sources.is_empty() {
        return Err(Gaps::default());
    }
    let mut placed = Vec::new();
    for (terminal, part) in sources {
        let Some(&node) = circuitry.node_at.get(&terminal) else { continue };
        placed.push((terminal, network.add(number(node), BACK, part)));
    }
    let solution = match reader.networks.solution(group, &network) {
        Some(solution) => solution,
        None => Arc::new(network.solve().map_err(|_| Gaps::default())?),
    };
    let metal = (!by_metal.is_empty()).then_some((by_metal, METAL));
    Ok(Solved { network, solution, runs, fed, metal, drawn, drawn_at, sources: placed })
}

/// The nodes that the sources reach over these runs, those that are closed: what hangs beyond an open contact has no voltage, though its loads
/// join it to the way back.
fn reached(
    circuitry: &Circuitry,
    runs: &[usize],
    sources: &[(Terminal, Part)],
    is_closed: impl Fn(usize) -> bool,
) -> FxHashSet<usize> {
    let mut ways: FxHashMap<usize, Vec<usize>> = FxHashMap::default();
    for run in runs.iter().filter(|run| is_closed(**run)).filter_map(|run| circuitry.runs.get(*run)) {
        if let [Some(start), Some(finish)] = run.nodes {
            ways.entry(start).or_default().push(finish);
            ways.entry(finish).or_default().push(start);
        }
    }
    let mut open: Vec<usize> =
        sources.iter().filter_map(|(terminal, _)| circuitry.node_at.get(terminal)).copied().collect();
    let mut seen: FxHashSet<usize> = open.iter().copied().collect();
    while let Some(node) = open.pop() {
        open.extend(ways.get(&node).into_iter().flatten().copied().filter(|other| seen.insert(*other)));
    }
    seen
}

fn volts(part: &Part) -> f64 {
    match part {
        Part::Source { volts, .. } => *volts,
        _ => 0.0,
    }
}
