//! What the base vehicle's alternator is asked for, and what stands in its output.

use super::bank::is_base;
use super::charging::base_or;
use super::{amperes, doubt, no_solution};
use crate::circuitry::{Run, Side, Terminal};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{fact as f, fact::alternator as a, kind};

/// What is joined to an alternator without a charger between, relays closed; and what would settle whether that is all.
fn joined(reader: &Reader<'_>, alternator: PartId) -> (Vec<Terminal>, Gaps) {
    let circuitry = reader.build().circuitry();
    let Some(node) = circuitry.node_of(alternator, Side::Input) else { return (Vec::new(), Gaps::default()) };
    let nodes = circuitry.reached(node);
    (circuitry.terminals(&nodes).collect(), doubt::of_anything(reader, node))
}

/// The batteries that it charges, those of the base vehicle left out.
pub fn charges(reader: &mut Reader<'_>, alternator: PartId, case: CaseId) -> Outcome {
    let (terminals, mut gaps) = joined(reader, alternator);
    let mut batteries = Vec::new();
    let build = reader.build();
    for terminal in terminals.iter().filter(|terminal| build.part(terminal.thing).kind == kind::BATTERY) {
        match is_base(reader, terminal.thing, case) {
            Ok(true) => {}
            Ok(false) => batteries.push(terminal.thing),
            Err(more) => gaps.add(&more),
        }
    }
    Ok(super::parts(batteries, gaps.is_empty()))
}

/// What the conversion draws from it, A.
pub fn drawn(reader: &mut Reader<'_>, alternator: PartId, case: CaseId) -> Outcome {
    let (terminals, mut gaps) = joined(reader, alternator);
    let mut sum = 0.0;
    for terminal in terminals {
        let current = match (reader.build().part(terminal.thing).kind, terminal.side) {
            (kind::CHARGER | kind::CONVERTER, Side::Input) => super::flow::taken(reader, terminal, case),
            (kind::BATTERY, _) if !base_or(reader, terminal.thing, &mut gaps, case) => {
                match reader.need_word(terminal.thing, f::battery::CHEMISTRY, case) {
                    // A lithium battery takes whatever it is given: a rule of its own speaks of that.
                    Ok("LFP") => None,
                    Ok(_) => Some(reader.need(terminal.thing, f::battery::USUAL_CHARGE_CURRENT, case)),
                    Err(more) => Some(Err(more)),
                }
            }
            _ => None,
        };
        match current {
            Some(Ok(current)) => {
                let title = reader.build().part(terminal.thing).title.clone();
                reader.step(|| Step::of(format!("{title} takes up to {}", amperes(current))));
                sum += current;
            }
            Some(Err(more)) => gaps.add(&more),
            None => {}
        }
    }
    if gaps.is_empty() { Ok(Fact::Number(sum)) } else { Err(gaps) }
}

/// What it leaves over for the conversion, A.
pub fn leaves(reader: &mut Reader<'_>, alternator: PartId, case: CaseId) -> Outcome {
    if !reader.silent(alternator, a::SPARE) {
        return Ok(Fact::Number(reader.need(alternator, a::SPARE, case)?));
    }
    let output = reader
        .need(alternator, a::OUTPUT, case)
        .map_err(|_| Gaps(vec![AnyOf(vec![Gap::Entry(alternator, a::SPARE), Gap::Entry(alternator, a::OUTPUT)])]))?;
    match calc::alternator_continuous_limit(output) {
        Some(half) => {
            reader.step(|| Step {
                assumed: true,
                ..Step::cited(format!("what it leaves over is not said: {}", amperes(half)), &calc::CONTINUOUS_DRAW)
            });
            Ok(Fact::Number(half))
        }
        None => no_solution(alternator, a::LEAVES),
    }
}

/// The runs that are written as the alternator's own.
fn own_runs<'a>(reader: &mut Reader<'a>, alternator: PartId, case: CaseId) -> Outcome<Vec<&'a Run>> {
    let build = reader.build();
    let mut own = Vec::new();
    for run in build.circuitry().runs.iter().filter(|run| build.part(run.written).kind == kind::CIRCUIT) {
        for end in [f::circuit::FROM, f::circuit::TO] {
            if reader.silent(run.written, end) {
                continue;
            }
            match reader.fact(run.written, end, case) {
                Ok(Fact::Part(part)) if part == alternator => own.push(run),
                Ok(_) => {}
                Err(more) => return Err(more),
            }
        }
    }
    if super::complete(reader, &[kind::CIRCUIT]) {
        Ok(own)
    } else {
        Err(Gaps::one(Gap::Unread(reader.unread_part(crate::part::Build::ROOT))))
    }
}

/// Whether a circuit of its own holds a device.
pub fn output_fused(reader: &mut Reader<'_>, alternator: PartId, case: CaseId) -> Outcome {
    let runs = own_runs(reader, alternator, case)?;
    Ok(Fact::Flag(runs.iter().any(|run| run.devices().next().is_some())))
}

/// The least rating of the devices of its own circuits, A.
pub fn output_device(reader: &mut Reader<'_>, alternator: PartId, case: CaseId) -> Outcome {
    let runs = own_runs(reader, alternator, case)?;
    let devices: Vec<PartId> = runs.iter().flat_map(|run| run.devices()).collect();
    let ratings: Vec<_> = devices.iter().map(|device| reader.need(*device, f::device::RATING, case)).collect();
    match super::least(ratings)? {
        Some(least) => Ok(Fact::Number(least)),
        None => no_solution(alternator, a::OUTPUT_DEVICE),
    }
}

/// The alternators that feed a relay, as a list.
pub fn of_relay(reader: &mut Reader<'_>, relay: PartId, _: CaseId) -> Outcome {
    let build = reader.build();
    let circuitry = build.circuitry();
    let holds = |run: &&Run| run.pieces.iter().any(|piece| circuitry.written(piece.part()) == relay);
    let Some(run) = circuitry.runs.iter().find(holds) else { return Ok(super::all([])) };
    let alternators = circuitry
        .sources_joined(&run.nodes)
        .map(|terminal| terminal.thing)
        .filter(|thing| build.part(*thing).kind == kind::ALTERNATOR);
    let certain = run.nodes.iter().all(|node| node.is_some_and(|node| doubt::of_sources(reader, node).is_empty()));
    Ok(super::parts(alternators, certain))
}

/// The methods of this subject.
pub fn bindings() -> crate::binding::Bindings {
    use crate::binding::Method::Each;
    vec![
        (a::CHARGES, Each(charges)),
        (a::DRAWN, Each(drawn)),
        (a::LEAVES, Each(leaves)),
        (a::OUTPUT_FUSED, Each(output_fused)),
        (a::OUTPUT_DEVICE, Each(output_device)),
        (f::relay::ALTERNATORS, Each(of_relay)),
    ]
}
