//! Circuits with a loose end, way numbers that stand twice, and things that several runs feed.

use crate::circuitry::{Circuitry, Run};
use crate::known::PartId;
use crate::part::{Build, Part, Reference};
use rustc_hash::FxHashMap;
use spec::{Slip, Span, Value};
use vocabulary::{fact, kind};

/// Reports what is loose or doubled in the paths of direct and alternating current.
pub fn find(build: &mut Build) {
    let mut slips = loose_circuits(build);
    slips.extend(numbers_twice(build));
    slips.extend(fed_twice(build));
    build.slips.append(&mut slips);
}

/// Circuits that begin or end nowhere, and those that end where they begin.
fn loose_circuits(build: &Build) -> Vec<Slip> {
    let mut slips = Vec::new();
    for run in build.circuitry.runs.iter() {
        let part = build.part(run.written);
        if ends_where_it_begins(build, run) {
            slips.push(
                Slip::new("names/circuit-to-itself", part.head.clone(), format!("{} ends where it begins", part.title))
                    .help("name another thing at its end, or take it out"),
            );
            continue;
        }
        // What could not be read may say the other end.
        if part.kind != kind::CIRCUIT || part.unread || part.incomplete.concerns(kind::SERVES) {
            continue;
        }
        let serves = |inner: &PartId| build.part(*inner).kind == kind::SERVES;
        let begins = part.given(fact::circuit::FROM).is_some();
        let ends = part.given(fact::circuit::TO).is_some() || part.inside.iter().any(serves);
        let (what, help) = match (begins, ends) {
            (false, false) => {
                ("joins nothing to nothing", "write from= with what feeds it, and to= with what it feeds")
            }
            (false, true) => ("begins nowhere", "write from= with the battery, busbar or panel that feeds it"),
            (true, false) => ("ends nowhere", "write to= with what it feeds, or `serves` and the things at its end"),
            (true, true) => continue,
        };
        slips.push(Slip::new("names/loose-circuit", part.head.clone(), format!("{} {what}", part.title)).help(help));
    }
    slips
}

/// Whether a run leads from a thing to the same thing: to its own terminal, or from what a converter gives to what it takes.
fn ends_where_it_begins(build: &Build, run: &Run) -> bool {
    let [Some(start), Some(finish)] = run.nodes else { return false };
    let referred = |fact| build.references.get(&(run.written, fact));
    let circuit = build.part(run.written).kind == kind::CIRCUIT;
    let same = match (referred(fact::circuit::FROM), referred(fact::circuit::TO)) {
        (Some(Reference::To(from)), Some(Reference::To(to))) => circuit && from == to,
        _ => false,
    };
    start == finish || same
}

/// Numbers that two ways of one board have.
fn numbers_twice(build: &Build) -> Vec<Slip> {
    let mut slips = Vec::new();
    for board in [kind::PANEL, kind::AC_BOARD].iter().flat_map(|kind| build.of_kind(*kind).members.iter()) {
        let mut first: FxHashMap<u64, Span> = FxHashMap::default();
        for way in build.inside(*board, kind::WAY).members.iter() {
            let Some(given) = build.part(*way).given(fact::way::NUMBER) else { continue };
            let Value::Quantity(number) = &given.value else { continue };
            match first.get(&number.value.to_bits()) {
                Some(before) => slips.push(
                    Slip::new(
                        "names/way-number-twice",
                        given.at.clone(),
                        format!("{} has a way {} already", build.part(*board).title, number.value),
                    )
                    .help("number the ways as they are marked on the board")
                    .related(before.clone(), "the number stands here first"),
                ),
                None => {
                    first.insert(number.value.to_bits(), given.at.clone());
                }
            }
        }
    }
    slips
}

/// Loads to which more than one run of direct current leads.
fn fed_twice(build: &Build) -> Vec<Slip> {
    let circuitry = &build.circuitry;
    let mut slips = Vec::new();
    for node in 0..circuitry.attached.len() {
        if !is_end_use(build, circuitry, node) || has(build, circuitry, node, kind::OUTLETS) {
            continue;
        }
        let mut runs: Vec<&Run> = circuitry.meeting[node]
            .iter()
            .filter_map(|run| circuitry.runs.get(*run))
            .filter(|run| !run.alternating && run.nodes[1] == Some(node) && run.nodes[0] != Some(node))
            .collect();
        runs.sort_by_key(|run| order(build, run));
        let Some((first, more)) = runs.split_first() else { continue };
        let title = circuitry.attached[node].first().map_or("the thing", |terminal| &build.part(terminal.thing).title);
        for run in more {
            let part = build.part(run.written);
            let before = build.part(first.written);
            slips.push(
                Slip::new("names/fed-twice", part.head.clone(), format!("{title} is fed by {} already", before.title))
                    .help("take one of the two out, or give the second thing a name of its own")
                    .related(before.head.clone(), "fed here first"),
            );
        }
    }
    slips
}

fn has(build: &Build, circuitry: &Circuitry, node: usize, kind: vocabulary::PartKind) -> bool {
    circuitry.terminals(&[node]).any(|terminal| build.part(terminal.thing).kind == kind)
}

/// Whether nothing but loads is attached to a node: a path ends there.
pub(super) fn is_end_use(build: &Build, circuitry: &Circuitry, node: usize) -> bool {
    let takes = |part: &Part| vocabulary::part(part.kind).fact("load-current").is_some();
    let nodes = [node];
    let mut terminals = circuitry.terminals(&nodes).peekable();
    terminals.peek().is_some() && terminals.all(|terminal| takes(build.part(terminal.thing)))
}

/// The order of the text.
pub(super) fn order(build: &Build, run: &Run) -> (u32, u32) {
    let head = &build.part(run.written).head;
    (head.file, head.bytes.start)
}
