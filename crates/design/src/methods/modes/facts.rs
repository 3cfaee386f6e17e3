//! What modes make of loads, alarms, disconnects and alternators.

use super::switches::cut_off;
use super::{Islands, ModeState, storage};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Piece, Run, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId, Tri};
use crate::methods::{all, doubt, fact_of, no_solution, parts};
use crate::modes::{Mode, Sort};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, PartKind, fact as f, fact::operating_mode as o, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (o::TITLE, Each(title)),
        (o::SORT, Each(sort)),
        (o::DESCRIBED, Each(described)),
        (o::FEEDING, Each(feeding)),
        (o::OPENED, Each(opened)),
        (o::TRIPPED, Each(tripped)),
        (o::DEAD, Each(dead)),
        (o::EXCLUSIVE, Each(exclusive)),
        (f::alarm::LOST_TO_MANAGEMENT, Each(lost_to_management)),
        (f::breakaway::LOST_TO_MANAGEMENT, Each(lost_to_management)),
        (f::heater::LOST_TO_SERVICE, Each(lost_to_service)),
        (f::disconnect::LEAVES_FED, Each(leaves_fed)),
        (f::disconnect::FED_BEHIND_BY, Each(fed_behind_by)),
        (f::alternator::LEFT_ALONE, Each(left_alone)),
        (f::battery::STORAGE_POWER, Each(storage::power)),
        (f::battery::STORAGE_TIME, Each(storage::time)),
    ]
}

/// A list as far as it is known: what would settle it where nothing of it is.
fn so_far(found: Vec<PartId>, gaps: Gaps) -> Outcome {
    if found.is_empty() && !gaps.is_empty() { Err(gaps) } else { Ok(parts(found, gaps.is_empty())) }
}

/// The mode of a worked part, with its number.
fn mode<'a>(reader: &Reader<'a>, part: PartId, fact: FactId) -> Outcome<(usize, &'a Mode)> {
    let mut modes = reader.build().modes().iter().enumerate();
    modes.find(|(_, mode)| mode.part == part).map_or_else(|| no_solution(part, fact), Ok)
}

/// The number of the mode in which only this disconnect is opened.
fn mode_of_disconnect(reader: &Reader<'_>, disconnect: PartId, fact: FactId) -> Outcome<usize> {
    let mut modes = reader.build().modes().iter();
    let opened = |mode: &Mode| mode.sort == Sort::Opened(disconnect);
    modes.position(opened).map_or_else(|| no_solution(disconnect, fact), Ok)
}

fn title(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Text(mode(reader, part, o::TITLE)?.1.name.clone()))
}

/// The word of a sort.
pub fn word(sort: &Sort) -> &'static str {
    match sort {
        Sort::Parked => "parked",
        Sort::Driving => "driving",
        Sort::Shore => "shore",
        Sort::Generator(_) => "generator",
        Sort::Solar => "solar",
        Sort::Opened(_) => "disconnect",
        Sort::Tripped(_) => "management",
        Sort::Storage => "storage",
    }
}

fn sort(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let own = word(&mode(reader, part, o::SORT)?.1.sort);
    let words = vocabulary::fact_spec(o::SORT).choices();
    let place = words.iter().position(|word| *word == own).and_then(|place| u16::try_from(place).ok());
    place.map_or_else(|| no_solution(part, o::SORT), |place| Ok(Fact::Choice(place)))
}

fn described(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(Fact::Flag(mode(reader, part, o::DESCRIBED)?.1.written.is_some()))
}

/// What makes current and does not only pass it on.
pub const SOURCES: [PartKind; 6] =
    [kind::BATTERY, kind::ALTERNATOR, kind::SHORE, kind::GENERATOR, kind::SOLAR, kind::TRAILER_PLUG];

/// The sources of a build in the order of the text.
pub fn sources(build: &Build) -> Vec<PartId> {
    let mut sources: Vec<PartId> =
        SOURCES.iter().flat_map(|kind| build.of_kind(*kind).members.iter().copied()).collect();
    sources.sort_unstable();
    sources
}

fn feeding(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let (number, mode) = mode(reader, part, o::FEEDING)?;
    let state = reader.mode_state(reader.cases().of_mode(number));
    let feed = sources(reader.build()).into_iter().filter(|source| state.feeds(*source) == Tri::Yes);
    so_far(feed.collect(), mode.gaps.clone())
}

/// The switches of the build's runs, in order.
pub fn switches(build: &Build) -> impl Iterator<Item = PartId> + '_ {
    let pieces = build.circuitry().runs.iter().flat_map(|run| &run.pieces);
    pieces.filter_map(|piece| match piece {
        Piece::Switch(switch) => Some(*switch),
        _ => None,
    })
}

fn opened(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let (number, mode) = mode(reader, part, o::OPENED)?;
    let state = reader.mode_state(reader.cases().of_mode(number));
    let open = switches(reader.build()).filter(|switch| state.closed(*switch) == Tri::No);
    so_far(open.collect(), mode.gaps.clone())
}

fn tripped(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    Ok(match &mode(reader, part, o::TRIPPED)?.1.sort {
        Sort::Tripped(batteries) => all(batteries.iter().copied()),
        _ => all([]),
    })
}

/// Whether a thing takes current to do something for those aboard.
fn is_load(build: &Build, thing: PartId) -> bool {
    build.part(thing).kind == kind::ALARM || fact_of(build, thing, "load-current").is_some()
}

fn dead(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let (number, mode) = mode(reader, part, o::DEAD)?;
    let (parked, here) = (reader.mode_state(CaseId(0)), reader.mode_state(reader.cases().of_mode(number)));
    let build = reader.build();
    let mut dead = Vec::new();
    let mut gaps = mode.gaps.clone();
    for (node, terminals) in build.circuitry().attached.iter().enumerate() {
        if here.live(node) == Tri::Yes {
            continue;
        }
        for terminal in terminals.iter().filter(|terminal| is_load(build, terminal.thing)) {
            if parked.live(node) != Tri::Yes {
                gaps.add(&parked.doubt(reader, node));
                continue;
            }
            let doubt = here.doubt(reader, node);
            if doubt.is_empty() {
                dead.push(terminal.thing);
            }
            gaps.add(&doubt);
        }
    }
    dead.sort_unstable();
    dead.dedup();
    so_far(dead, gaps)
}

/// The sources of alternating current that feed at once and meet at one board or transfer switch. An inverter counts where
/// the mode names it: one that is there whenever its battery is gives way to a supply.
fn exclusive(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let (number, mode) = mode(reader, part, o::EXCLUSIVE)?;
    let state = reader.mode_state(reader.cases().of_mode(number));
    let walks = reader.walks();
    let build = reader.build();
    let feeds = |thing: PartId| match build.part(thing).kind {
        kind::SHORE | kind::GENERATOR => state.feeds(thing) == Tri::Yes,
        // It passes its supply on, and adds to it.
        kind::INVERTER_CHARGER => false,
        _ => mode.feeding.contains(&thing),
    };
    let mut met: Vec<(PartId, PartId)> = Vec::new();
    for walk in walks.iter().filter(|walk| feeds(walk.supply.source.thing)) {
        let joints = walk.terminals(reader).map(|(_, terminal)| terminal.thing);
        let joints = joints.filter(|thing| matches!(build.part(*thing).kind, kind::AC_BOARD | kind::TRANSFER_SWITCH));
        met.extend(joints.map(|thing| (thing, walk.supply.source.thing)));
    }
    let mut sources: Vec<PartId> = Vec::new();
    for (joint, source) in &met {
        if met.iter().any(|(other, another)| other == joint && another != source) && !sources.contains(source) {
            sources.push(*source);
        }
    }
    so_far(sources, mode.gaps.clone())
}

/// The node at which a thing takes its current.
fn node_of(reader: &Reader<'_>, part: PartId) -> Option<usize> {
    reader.build().circuitry().node_of(part, Side::Input)
}

/// Whether a source that feeds all the time reaches a thing.
pub fn fed(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let Some(node) = node_of(reader, part) else {
        let gaps = doubt::of_unreached(reader);
        return if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) };
    };
    let state = reader.mode_state(case);
    if state.live(node) == Tri::Yes {
        let build = reader.build();
        let titles: Vec<&str> =
            state.certain().sources(build, node).iter().map(|source| &*build.part(*source).title).collect();
        reader.step(|| Step::of(format!("fed by {}", titles.join(", "))));
        return Ok(Fact::Flag(true));
    }
    let gaps = state.doubt(reader, node);
    if !gaps.is_empty() {
        return Err(gaps);
    }
    if state.live(node) == Tri::Unknown {
        let build = reader.build();
        let sources = state.possible().sources(build, node);
        let titles: Vec<&str> = sources.iter().map(|source| &*build.part(*source).title).collect();
        reader.step(|| Step::of(format!("fed at times only, by {}", titles.join(", "))));
    }
    Ok(Fact::Flag(false))
}

/// Whether a thing that is fed while parked is not fed all the time in the mode of a case.
fn lost(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<bool> {
    let Some(node) = node_of(reader, part) else { return Ok(false) };
    let (parked, here) = (reader.mode_state(CaseId(0)), reader.mode_state(case));
    match (parked.live(node), here.live(node)) {
        (_, Tri::Yes) => return Ok(false),
        (Tri::Yes, _) => {}
        (Tri::No | Tri::Unknown, _) => {
            let gaps = parked.unsaid(reader, node);
            return if gaps.is_empty() { Ok(false) } else { Err(gaps) };
        }
    }
    let gaps = here.doubt(reader, node);
    if gaps.is_empty() { Ok(true) } else { Err(gaps) }
}

/// The mode of a case.
fn mode_of<'a>(reader: &Reader<'a>, case: CaseId) -> Option<&'a Mode> {
    reader.build().modes().get(reader.cases().mode(case))
}

/// The batteries whose management cuts a thing off in the mode of a case.
fn lost_to_management(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    match mode_of(reader, case).map(|mode| &mode.sort) {
        Some(Sort::Tripped(batteries)) if lost(reader, part, case)? => Ok(all(batteries.iter().copied())),
        _ => Ok(all([])),
    }
}

/// The disconnects for service that cut a thing off in the mode of a case.
fn lost_to_service(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    match mode_of(reader, case).map(|mode| &mode.sort) {
        Some(Sort::Opened(disconnect)) if lost(reader, part, case)? => {
            let service = reader.need_word(*disconnect, f::disconnect::USE, case)? == "service";
            Ok(all(service.then_some(*disconnect)))
        }
        _ => Ok(all([])),
    }
}

/// The run of direct current that a disconnect stands in; nothing for one of alternating current, or of no run.
fn direct_run<'a>(reader: &Reader<'a>, disconnect: PartId) -> Option<&'a Run> {
    let circuitry = reader.build().circuitry();
    let index = circuitry.run_of.get(&disconnect)?;
    circuitry.runs.get(*index).filter(|run| !run.alternating)
}

/// What may stay fed while an emergency disconnect is open: what warns, and what brakes a trailer.
const MAY_STAY: [PartKind; 3] = [kind::ALARM, kind::MONITOR, kind::BREAKAWAY];

/// Whether a terminal takes direct current that an emergency disconnect has to cut off.
fn is_to_cut(build: &Build, terminal: &Terminal) -> bool {
    let own = build.part(terminal.thing).kind;
    terminal.side == Side::Input
        && !MAY_STAY.contains(&own)
        && (matches!(own, kind::INVERTER | kind::INVERTER_CHARGER | kind::CONVERTER)
            || fact_of(build, terminal.thing, "load-current").is_some())
}

/// What takes direct current where a disconnect stands, and can still be fed while it is open.
fn leaves_fed(reader: &mut Reader<'_>, disconnect: PartId, _: CaseId) -> Outcome {
    let number = mode_of_disconnect(reader, disconnect, f::disconnect::LEAVES_FED)?;
    let Some(run) = direct_run(reader, disconnect) else { return Ok(all([])) };
    let Some(node) = run.nodes.into_iter().flatten().next() else {
        return Err(Gaps::one(Gap::Unread(run.written)));
    };
    let state = reader.mode_state(reader.cases().of_mode(number));
    let build = reader.build();
    let circuitry = build.circuitry();
    let mut left = Vec::new();
    for node in circuitry.reached(node).into_iter().filter(|node| state.possible().is_live_direct(*node)) {
        let met = circuitry.attached.get(node).into_iter().flatten();
        let things: Vec<PartId> = met
            .filter(|terminal| is_to_cut(build, terminal))
            .map(|terminal| terminal.thing)
            .filter(|thing| !left.contains(thing))
            .collect();
        if things.is_empty() {
            continue;
        }
        let sources = state.possible().sources(build, node);
        let by: Vec<&str> = sources.iter().map(|source| &*build.part(*source).title).collect();
        for thing in &things {
            reader.step(|| Step::of(format!("{} can be fed by {}", build.part(*thing).title, by.join(", "))));
        }
        left.extend(things);
    }
    let gaps = state.doubt(reader, node);
    left.sort_unstable();
    so_far(left, gaps)
}

/// The modules that keep what lies behind a disconnect live while it is open, where no battery feeds it.
fn fed_behind_by(reader: &mut Reader<'_>, disconnect: PartId, _: CaseId) -> Outcome {
    let number = mode_of_disconnect(reader, disconnect, f::disconnect::FED_BEHIND_BY)?;
    let Some(run) = direct_run(reader, disconnect) else { return Ok(all([])) };
    let [Some(start), Some(finish)] = run.nodes else { return Err(Gaps::one(Gap::Unread(run.written))) };
    let state = reader.mode_state(reader.cases().of_mode(number));
    let build = reader.build();
    let circuitry = build.circuitry();
    // By themselves only batteries and the sun feed; whatever else does has been switched on by somebody.
    let by_itself = |thing: PartId| {
        matches!(build.part(thing).kind, kind::BATTERY | kind::SOLAR | kind::SOLAR_CONTROLLER | kind::CONVERTER)
            && state.feeds(thing) != Tri::No
    };
    let closed = |index: usize| {
        circuitry.runs.get(index).is_some_and(|run| {
            run.pieces.iter().all(|piece| match piece {
                Piece::Switch(switch) => state.closed(*switch) != Tri::No,
                _ => true,
            })
        })
    };
    let islands = Islands::of(build, &[], closed, by_itself);
    let of = |node: usize, own: PartKind| {
        let sources = islands.sources(build, node);
        sources.into_iter().filter(|source| build.part(*source).kind == own).collect::<Vec<_>>()
    };
    let [one, other] = [start, finish].map(|node| !of(node, kind::BATTERY).is_empty());
    let behind = match (one, other) {
        (true, false) => finish,
        (false, true) => start,
        _ => return Ok(all([])),
    };
    // A lead to a controller alone is nobody's circuit to work on.
    let worked_on = circuitry.attached.iter().enumerate().filter(|(node, _)| islands.are_joined(*node, behind)).any(
        |(_, terminals)| {
            terminals
                .iter()
                .any(|terminal| build.part(terminal.thing).kind == kind::PANEL || is_to_cut(build, terminal))
        },
    );
    let modules = if worked_on { of(behind, kind::SOLAR) } else { Vec::new() };
    let gaps = state.unsaid(reader, behind);
    so_far(modules, gaps)
}

/// Whether an alternator can run while no battery that takes its current is joined to it, though one is while driving.
fn left_alone(reader: &mut Reader<'_>, alternator: PartId, case: CaseId) -> Outcome {
    let Some(mode) = mode_of(reader, case) else { return Ok(Fact::Flag(false)) };
    let driving = reader.build().modes().iter().position(|mode| mode.sort == Sort::Driving);
    let (Some(node), Some(driving)) = (node_of(reader, alternator), driving) else { return Ok(Fact::Flag(false)) };
    let (usual, here) = (reader.mode_state(reader.cases().of_mode(driving)), reader.mode_state(case));
    if here.feeds(alternator) == Tri::No {
        return Ok(Fact::Flag(false));
    }
    let build = reader.build();
    let joined = |state: &ModeState, battery: PartId| {
        let at = build.circuitry().node_of(battery, Side::Input);
        at.is_some_and(|at| state.possible().are_joined(at, node))
    };
    let mut gaps = Gaps::default();
    let mut lost = Vec::new();
    for &battery in build.of_kind(kind::BATTERY).members.iter() {
        if !joined(&usual, battery) {
            continue;
        }
        let takes = match &mode.sort {
            Sort::Tripped(batteries) if batteries.contains(&battery) => match cut_off(reader, battery, "charge") {
                Ok(cuts) => cuts != Tri::Yes,
                Err(more) => {
                    gaps.add(&more);
                    continue;
                }
            },
            _ => true,
        };
        if takes && joined(&here, battery) {
            return Ok(Fact::Flag(false));
        }
        lost.push(battery);
    }
    if lost.is_empty() && gaps.is_empty() {
        return Ok(Fact::Flag(false));
    }
    gaps.add(&here.doubt(reader, node));
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let titles: Vec<&str> = lost.iter().map(|battery| &*build.part(*battery).title).collect();
    reader.step(|| Step::of(format!("it charges {} and nothing else, and loses that", titles.join(", "))));
    Ok(Fact::Flag(true))
}
