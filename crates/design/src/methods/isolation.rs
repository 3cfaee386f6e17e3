//! Disconnects: whether one stands before whatever takes current from a battery, and what it carries.

use super::bank::{is_base, joined, reached};
use super::{doubt, no_solution};
use crate::circuitry::{Piece, Run, Side};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, kind};

/// What takes current and is needed in a fire or costs nothing, so that no disconnect need stand before it. A heater that burns
/// fuel is another such: it needs power to cool down, and is to stand before a disconnect for service.
const ALWAYS_ON: [vocabulary::PartKind; 2] = [kind::MONITOR, kind::ALARM];

/// Whether a disconnect stands between a battery and everything that takes current from it.
pub fn isolated(reader: &mut Reader<'_>, battery: PartId, case: CaseId) -> Outcome {
    let Some(node) = reader.build().circuitry().node_of(battery, Side::Input) else { return Ok(Fact::Flag(true)) };
    if let Some(thing) = not_to_stay_on(reader, node, &mut Vec::new(), case) {
        let title = reader.build().part(thing).title.clone();
        reader.step(|| Step::of(format!("{title} is joined without a disconnect between")));
        return Ok(Fact::Flag(false));
    }
    let (_, gaps) = joined(reader, battery);
    if gaps.is_empty() { Ok(Fact::Flag(true)) } else { Err(gaps) }
}

/// The first thing that takes current from a node without a disconnect between, and is none of those that have to: what is always on,
/// a burner that cools down, and a converter that feeds nothing but such.
fn not_to_stay_on(reader: &mut Reader<'_>, node: usize, seen: &mut Vec<PartId>, case: CaseId) -> Option<PartId> {
    let build = reader.build();
    let circuitry = build.circuitry();
    let disconnects = |run: &Run| {
        run.pieces
            .iter()
            .any(|piece| matches!(piece, Piece::Switch(part) if build.part(*part).kind == kind::DISCONNECT))
    };
    let live = reached(circuitry, node, |run| !disconnects(run));
    for terminal in circuitry.terminals(&live) {
        let own = build.part(terminal.thing).kind;
        let cools_down =
            own == kind::HEATER && !matches!(reader.need_word(terminal.thing, f::heater::FUEL, case), Ok("none"));
        if ALWAYS_ON.contains(&own) || cools_down || super::flow::taken(reader, terminal, case).is_none() {
            continue;
        }
        let output = circuitry.node_of(terminal.thing, Side::Output).filter(|_| own == kind::CONVERTER);
        match output {
            Some(_) if seen.contains(&terminal.thing) => {}
            Some(output) => {
                seen.push(terminal.thing);
                if let Some(thing) = not_to_stay_on(reader, output, seen, case) {
                    return Some(thing);
                }
            }
            None => return Some(terminal.thing),
        }
    }
    None
}

/// The run that a disconnect stands in.
fn run_of_disconnect<'a>(reader: &Reader<'a>, disconnect: PartId) -> Option<&'a Run> {
    let build = reader.build();
    let holds = |run: &&Run| run.pieces.iter().any(|piece| build.circuitry().written(piece.part()) == disconnect);
    build.circuitry().runs.iter().find(holds)
}

/// The largest current of the circuit of a disconnect, A.
pub fn carries(reader: &mut Reader<'_>, disconnect: PartId, case: CaseId) -> Outcome {
    match run_of_disconnect(reader, disconnect) {
        Some(run) => Ok(Fact::Number(reader.need(run.part, f::run::DESIGN_CURRENT, case)?)),
        None => no_solution(disconnect, f::disconnect::CARRIES),
    }
}

/// Whether a fitted battery stands at an end of the circuit of a disconnect.
pub fn battery_side(reader: &mut Reader<'_>, disconnect: PartId, case: CaseId) -> Outcome {
    let build = reader.build();
    let Some(run) = run_of_disconnect(reader, disconnect) else { return Ok(Fact::Flag(false)) };
    let nodes: Vec<usize> = run.nodes.into_iter().flatten().collect();
    let batteries: Vec<PartId> = build
        .circuitry()
        .terminals(&nodes)
        .map(|terminal| terminal.thing)
        .filter(|thing| build.part(*thing).kind == kind::BATTERY)
        .collect();
    let mut gaps = Gaps::default();
    for battery in batteries {
        match is_base(reader, battery, case) {
            Ok(false) => return Ok(Fact::Flag(true)),
            Ok(true) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if let Some(node) = nodes.first() {
        gaps.add(&doubt::of_sources(reader, *node));
    }
    if nodes.len() < 2 {
        gaps.add(&Gaps::one(Gap::Unread(run.written)));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (f::battery::ISOLATED, Each(isolated)),
        (f::disconnect::CARRIES, Each(carries)),
        (f::disconnect::BATTERY_SIDE, Each(battery_side)),
    ]
}
