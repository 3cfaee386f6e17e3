//! The shore connection: its inlet, its cord, and the way to the first protective device.

use super::{amperes, board, show, transfer};
use crate::binding::{Bindings, Method};
use crate::circuitry::{End, Piece, Run};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use quantity::Dimension;
use spec::Value;
use vocabulary::{fact as f, fact::cord as c, fact::inlet as i, kind};

/// The largest circuit that counts among those of an inlet, A (NEC 551.42: circuits of 15 and 20 A).
const LARGEST_SMALL_CIRCUIT: f64 = 20.0;

/// A neutral and a protective conductor go with the legs.
const BESIDE_THE_LEGS: f64 = 2.0;

/// The facts of inlets and cords.
pub fn bindings() -> Bindings {
    vec![
        (i::HAS_DEVICE, Method::Each(has_device)),
        (i::LENGTH_BEFORE_DEVICE, Method::Each(length_before_device)),
        (i::FIRST_DEVICE_RATING, Method::Each(first_device_rating)),
        (i::CIRCUITS, Method::Each(circuits)),
        (i::MOST_CIRCUITS, Method::Each(most_circuits)),
        (c::INLET_RATING, Method::Each(inlet_rating)),
        (c::LEAST_AREA, Method::Each(least_area)),
        (c::WOUND_AMPACITY, Method::Each(wound_ampacity)),
        (c::AREA, Method::Each(area)),
        (c::CORES_NEEDED, Method::Each(cores_needed)),
        (c::CORES_COUNT, Method::Each(cores_count)),
    ]
}

/// The shore connection that a piece belongs to.
fn shore(reader: &Reader<'_>, piece: PartId) -> Outcome<PartId> {
    reader.build().part(piece).outer.ok_or_else(|| Gaps::one(Gap::Unread(piece)))
}

/// The inlet of the shore connection that a piece belongs to.
fn inlet(reader: &Reader<'_>, piece: PartId) -> Outcome<PartId> {
    let shore = shore(reader, piece)?;
    let inlets = reader.build().inside(shore, kind::INLET);
    inlets.members.first().copied().ok_or_else(|| Gaps::one(Gap::Absent(shore, kind::INLET)))
}

/// The first device behind an inlet, and the length of conductor before it; nothing where the current reaches a board or an
/// end without meeting one.
fn first_device(reader: &mut Reader<'_>, inlet: PartId, case: CaseId) -> Outcome<Option<(PartId, f64)>> {
    let circuitry = reader.build().circuitry();
    let shore = shore(reader, inlet)?;
    if reader.build().inside(shore, kind::TO).members.is_empty() {
        return Err(Gaps::one(Gap::Absent(shore, kind::TO)));
    }
    let mut length = 0.0;
    let mut next = circuitry.runs.iter().find(|run| run.written == shore);
    // A switch may feed a switch; more of them in a row than there are runs would be a ring.
    for _ in 0..=circuitry.runs.len() {
        let Some(run) = next else { break };
        let (before, device) = before_device(reader, run, case)?;
        length += before;
        if device.is_some() {
            reader.step(|| Step::of(format!("{} of conductor before it", show(length, Dimension::LENGTH))));
            return Ok(device.map(|device| (device, length)));
        }
        let end = run.node(End::Finish);
        let switch = end.and_then(|end| circuitry.terminals(&[end]).find_map(|met| transfer::beyond(reader, met)));
        next = switch.and_then(|output| circuitry.runs.iter().find(|run| run.node(End::Start) == Some(output)));
    }
    Ok(None)
}

/// The length of conductor aboard before the first device of a run, and that device.
fn before_device(reader: &mut Reader<'_>, run: &Run, case: CaseId) -> Outcome<(f64, Option<PartId>)> {
    if !run.complete {
        return Err(Gaps::one(Gap::Unread(run.written)));
    }
    let mut length = 0.0;
    for piece in run.pieces_from(End::Start) {
        match piece {
            Piece::Device(device) => return Ok((length, Some(device))),
            Piece::Conductor(conductor) => {
                let written = reader.build().circuitry().written(conductor);
                // The site's device protects the cord; the length counts from the inlet.
                if reader.build().part(written).kind != kind::CORD {
                    length += reader.need(conductor, f::conductor::ONE_WAY, case)?;
                }
            }
            _ => {}
        }
    }
    Ok((length, None))
}

fn has_device(reader: &mut Reader<'_>, inlet: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Flag(first_device(reader, inlet, case)?.is_some()))
}

fn length_before_device(reader: &mut Reader<'_>, inlet: PartId, case: CaseId) -> Outcome {
    match first_device(reader, inlet, case)? {
        Some((_, length)) => Ok(Fact::Number(length)),
        None => super::no_solution(inlet, i::LENGTH_BEFORE_DEVICE),
    }
}

fn first_device_rating(reader: &mut Reader<'_>, inlet: PartId, case: CaseId) -> Outcome {
    match first_device(reader, inlet, case)? {
        Some((device, _)) => Ok(Fact::Number(reader.need(device, f::device::RATING, case)?)),
        None => super::no_solution(inlet, i::FIRST_DEVICE_RATING),
    }
}

fn circuits(reader: &mut Reader<'_>, inlet: PartId, case: CaseId) -> Outcome {
    let shore = shore(reader, inlet)?;
    let walks = reader.walks();
    match walks.iter().find(|walk| walk.supply.source.thing == shore) {
        Some(walk) => Ok(Fact::Number(board::small_circuits(reader, walk, LARGEST_SMALL_CIRCUIT, case)?)),
        None => super::no_solution(inlet, i::CIRCUITS),
    }
}

fn most_circuits(reader: &mut Reader<'_>, inlet: PartId, case: CaseId) -> Outcome {
    let rating = reader.need(inlet, i::RATING, case)?;
    match calc::most_circuits_on_inlet(rating) {
        Some((most, citation)) => {
            reader.step(|| Step::cited(format!("an inlet of {}: {most}", amperes(rating)), citation));
            Ok(Fact::Number(f64::from(most)))
        }
        None => super::no_solution(inlet, i::MOST_CIRCUITS),
    }
}

fn inlet_rating(reader: &mut Reader<'_>, cord: PartId, case: CaseId) -> Outcome {
    let inlet = inlet(reader, cord)?;
    Ok(Fact::Number(reader.need(inlet, i::RATING, case)?))
}

fn least_area(reader: &mut Reader<'_>, cord: PartId, case: CaseId) -> Outcome {
    let rating = reader.need(cord, c::INLET_RATING, case)?;
    match calc::supply_lead_area(rating) {
        Some((area, citation)) => {
            reader.step(|| {
                let text = format!("a cord for {}: {}", amperes(rating), show(area, Dimension::AREA));
                Step::cited(text, citation)
            });
            Ok(Fact::Number(area))
        }
        None => super::no_solution(cord, c::LEAST_AREA),
    }
}

/// The ampacity of a cord × the factor of the layers that stay on its reel.
fn wound_ampacity(reader: &mut Reader<'_>, cord: PartId, case: CaseId) -> Outcome {
    let circuitry = reader.build().circuitry();
    let conductors = circuitry.runs.iter().flat_map(|run| run.conductors());
    let Some(conductor) = conductors.into_iter().find(|conductor| circuitry.written(*conductor) == cord) else {
        return super::no_solution(cord, c::WOUND_AMPACITY);
    };
    let ampacity = reader.need(conductor, f::conductor::AMPACITY, case)?;
    let layers = reader.need(cord, c::LAYERS, case)?;
    let counted = (0..=u32::from(u8::MAX)).find(|count| f64::from(*count) >= layers);
    match counted.and_then(calc::reel_factor) {
        Some((factor, citation)) => {
            let left = ampacity * factor;
            reader.step(|| Step::cited(format!("{} × {factor} = {}", amperes(ampacity), amperes(left)), citation));
            Ok(Fact::Number(left))
        }
        None => super::no_solution(cord, c::WOUND_AMPACITY),
    }
}

fn area(reader: &mut Reader<'_>, cord: PartId, case: CaseId) -> Outcome {
    Ok(Fact::Number(reader.need(cord, c::CORES, case)?))
}

fn cores_needed(reader: &mut Reader<'_>, cord: PartId, case: CaseId) -> Outcome {
    let inlet = inlet(reader, cord)?;
    Ok(Fact::Number(reader.need(inlet, i::LEGS, case)? + BESIDE_THE_LEGS))
}

fn cores_count(reader: &mut Reader<'_>, cord: PartId, _: CaseId) -> Outcome {
    match reader.written(cord, c::CORES) {
        Some(Value::Cores(cores)) => Ok(Fact::Number(f64::from(cores.count))),
        _ => Err(Gaps::one(Gap::Entry(cord, c::CORES))),
    }
}
