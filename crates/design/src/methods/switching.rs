//! What can cut a thing off from every battery, and which device feeds it.

use super::run_end::open_end;
use super::{all, doubt};
use crate::binding::{Bindings, Method};
use crate::circuitry::{Circuitry, End, Piece, Run, Side};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use rustc_hash::FxHashSet;
use vocabulary::{fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::alarm::REACHED, Each(reached)),
        (f::alarm::SWITCHED_BY, Each(switched_by)),
        (f::breakaway::SWITCHED_BY, Each(switched_by)),
        (f::controller::ALARMS_ON_ITS_DEVICE, Each(alarms_on_its_device)),
    ]
}

/// Whether a run leads to the part.
fn reached(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let circuitry = reader.build().circuitry();
    if meeting(circuitry, part).is_some_and(|runs| !runs.is_empty()) {
        return Ok(Fact::Flag(true));
    }
    let gaps = doubt::of_unreached(reader);
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn meeting(circuitry: &Circuitry, part: PartId) -> Option<&Vec<usize>> {
    circuitry.node_of(part, Side::Input).and_then(|node| circuitry.meeting.get(node))
}

/// What a walk from a thing reached: its nodes, whether a battery is among them, and where it was stopped.
struct Walk {
    nodes: FxHashSet<usize>,
    battery: bool,
    /// The runs that it did not go through, each with the node beyond.
    stopped: Vec<(usize, usize)>,
    /// The runs of which it is not said where they lead.
    loose: Vec<usize>,
}

/// Walks from a node over the runs that `passes` lets through, and through converters from what they give to what they
/// take; nodes of `without` are left out.
fn walk(build: &Build, from: usize, without: &FxHashSet<usize>, passes: impl Fn(&Run) -> bool) -> Walk {
    let circuitry = build.circuitry();
    let mut walk = Walk { nodes: FxHashSet::from_iter([from]), battery: false, stopped: Vec::new(), loose: Vec::new() };
    let mut open = vec![from];
    while let Some(node) = open.pop() {
        let mut next = Vec::new();
        for terminal in circuitry.terminals(&[node]) {
            let kind = build.part(terminal.thing).kind;
            walk.battery |= kind == kind::BATTERY;
            if kind == kind::CONVERTER && terminal.side == Side::Output {
                next.extend(circuitry.node_of(terminal.thing, Side::Input));
            }
        }
        for &index in circuitry.meeting.get(node).into_iter().flatten() {
            let Some(run) = circuitry.runs.get(index) else { continue };
            let [Some(start), Some(finish)] = run.nodes else {
                walk.loose.push(index);
                continue;
            };
            let other = if start == node { finish } else { start };
            if passes(run) {
                next.push(other);
            } else {
                walk.stopped.push((index, other));
            }
        }
        open.extend(next.into_iter().filter(|next| !without.contains(next) && walk.nodes.insert(*next)));
    }
    walk
}

fn switches(run: &Run) -> impl Iterator<Item = PartId> + '_ {
    run.pieces.iter().filter_map(|piece| match piece {
        Piece::Switch(switch) => Some(*switch),
        _ => None,
    })
}

/// The nearest switches on the ways of a thing to a battery; none where one way has no switch, or where there is no way.
fn switched_by(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let circuitry = build.circuitry();
    let Some(node) = circuitry.node_of(part, Side::Input) else {
        let gaps = doubt::of_unreached(reader);
        return if gaps.is_empty() { Ok(all([])) } else { Err(gaps) };
    };
    let nothing = FxHashSet::default();
    let certain = |run: &Run| run.complete && switches(run).next().is_none();
    let near = walk(build, node, &nothing, certain);
    if near.battery {
        return Ok(all([]));
    }
    let mut gaps = doubt::of_anything(reader, node);
    let whole = walk(build, node, &nothing, |_| true);
    for run in whole.loose.iter().filter_map(|run| circuitry.runs.get(*run)) {
        for end in End::BOTH {
            gaps.add(&open_end(reader, run, end).unwrap_or_default());
        }
    }
    if gaps.is_empty() && !whole.battery {
        return Ok(all([]));
    }
    if walk(build, node, &nothing, |run| switches(run).next().is_none()).battery {
        // Only a run that could not be read in full leads there: it may hold a switch.
        for (run, _) in &near.stopped {
            if let Some(run) = circuitry.runs.get(*run).filter(|run| !run.complete) {
                gaps.add(&Gaps::one(Gap::Unread(run.written)));
            }
        }
    }
    if !gaps.is_empty() {
        return Err(gaps);
    }
    let mut found: Vec<PartId> = Vec::new();
    for (index, beyond) in near.stopped.iter().filter(|(_, beyond)| !near.nodes.contains(beyond)) {
        // A switch on the way to another load is none of this thing's.
        if walk(build, *beyond, &near.nodes, |_| true).battery
            && let Some(run) = circuitry.runs.get(*index)
        {
            found.extend(switches(run).filter(|switch| !found.contains(switch)).collect::<Vec<_>>());
        }
    }
    Ok(all(found))
}

/// The devices that feed a thing last: those of the runs that end at it, else of the runs before these.
fn feeding_devices(circuitry: &Circuitry, thing: PartId) -> Outcome<Vec<PartId>> {
    let mut devices = Vec::new();
    let Some(node) = circuitry.node_of(thing, Side::Input) else { return Ok(devices) };
    let mut seen = FxHashSet::from_iter([node]);
    let mut open = vec![node];
    while let Some(node) = open.pop() {
        let ending = circuitry.meeting.get(node).into_iter().flatten().filter_map(|run| circuitry.runs.get(*run));
        for run in ending.filter(|run| !run.alternating && run.nodes[1] == Some(node)) {
            if !run.complete {
                return Err(Gaps::one(Gap::Unread(run.written)));
            }
            let before = devices.len();
            devices.extend(run.devices());
            if devices.len() == before {
                open.extend(run.nodes[0].filter(|start| seen.insert(*start)));
            }
        }
    }
    Ok(devices)
}

/// The alarms that a fuse or breaker of the controller feeds too.
fn alarms_on_its_device(reader: &mut Reader<'_>, part: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let circuitry = build.circuitry();
    let own = feeding_devices(circuitry, part)?;
    let gaps = doubt::of_unreached(reader);
    let mut alarms = Vec::new();
    for &alarm in build.of_kind(kind::ALARM).members.iter() {
        if feeding_devices(circuitry, alarm)?.iter().any(|device| own.contains(device)) {
            alarms.push(alarm);
        }
    }
    if alarms.is_empty() && !gaps.is_empty() {
        return Err(gaps);
    }
    Ok(super::parts(alarms, gaps.is_empty() && super::complete(reader, &[kind::ALARM])))
}
