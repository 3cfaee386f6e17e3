//! Which of two protective devices in series opens first: on a fault in one circuit the others behind the same device should stay on.

use super::device::fed_ends;
use super::drop::Toward;
use super::opening::banded;
use super::run::{number, run};
use super::{amperes, can_be_told, no_solution};
use crate::binding::{Bindings, Method};
use crate::circuitry::{End, Piece};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::DeviceClass;
use calc::time_current::{Selectivity, current_that_opens, selectivity};
use vocabulary::{FactId, fact as f, kind};

/// The facts of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (f::device::BEFORE, Each(before)),
        (f::device::ORDER_KNOWN, Each(order_known)),
        (f::device::IN_ORDER, Each(in_order)),
    ]
}

/// The least ratio of ratings at which two fuses of one class open in order: 1.6, as IEC 60269-2 asks of fuses for lines (memory; read for vehicle
/// fuses by analogy).
const RATIO_OF_FUSES: f64 = 1.6;

/// The time within which the order matters, s: what takes longer is an overload. Chosen, as for faults.
const IN_TIME: f64 = 10.0;

/// The nearest device before one toward the one battery that feeds it, that other circuits hang on as well.
fn nearest(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Option<PartId>> {
    let own = run(reader, part, fact)?;
    if own.alternating {
        return Ok(None);
    }
    let index = number(reader, part);
    let ends = fed_ends(reader, own, case)?;
    let [end] = ends.as_slice() else { return Ok(None) };
    let build = reader.build();
    let circuitry = build.circuitry();
    // Of several batteries each gives a part through a device of its own: their ratings are not to be compared with that of the sum.
    let batteries = circuitry.sources_behind(index, *end);
    if batteries.filter(|(_, terminal)| build.part(terminal.thing).kind == kind::BATTERY).count() != 1 {
        return Ok(None);
    }
    let Some(back) = reader.way_back(index, *end, Toward::Battery) else { return Ok(None) };
    let (way, _) = &*back;
    let Some(mut here) = own.node(*end) else { return Ok(None) };
    let mut branches = false;
    // What runs only into the circuit of the device and out of the one before it is one line: nothing else goes dark.
    for run in way.iter().filter_map(|run| circuitry.run(*run)) {
        branches |= circuitry.meeting.get(here).is_some_and(|meeting| meeting.len() > 2);
        let toward = if run.nodes[0] == Some(here) { End::Start } else { End::Finish };
        let device = run.pieces_from(toward).into_iter().find_map(|piece| match piece {
            Piece::Device(device) => Some(device),
            _ => None,
        });
        if let Some(device) = device.filter(|_| branches) {
            return Ok(Some(device));
        }
        match run.node(toward.other()) {
            Some(node) => here = node,
            None => break,
        }
    }
    Ok(None)
}

fn before(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::BEFORE;
    nearest(reader, part, fact, case)?.map_or_else(|| no_solution(part, fact), |device| Ok(Fact::Part(device)))
}

fn order_known(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let known = can_be_told(order(reader, part, f::device::ORDER_KNOWN, case))?;
    Ok(Fact::Flag(known.flatten().is_some()))
}

fn in_order(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome {
    let fact = f::device::IN_ORDER;
    order(reader, part, fact, case)?.map_or_else(|| no_solution(part, fact), |order| Ok(Fact::Flag(order)))
}

/// Whether a device opens before the one before it; nothing where neither bands nor ratings tell. Of two classes whose bands are not known the
/// smaller rating behind the larger one says nothing: a quick large fuse may open before a slow small one.
fn order(reader: &mut Reader<'_>, part: PartId, fact: FactId, case: CaseId) -> Outcome<Option<bool>> {
    let Some(upstream) = nearest(reader, part, fact, case)? else { return Ok(None) };
    let (Some(own), Some(other)) = (banded(reader, part, case)?, banded(reader, upstream, case)?) else {
        return Ok(None);
    };
    let title = reader.build().part(upstream).title.clone();
    if other.rating <= own.rating {
        reader.step(|| {
            Step::of(format!("{title} is rated {}, no more than {}", amperes(other.rating), amperes(own.rating)))
        });
        return Ok(Some(false));
    }
    let largest = reader.need(part, f::device::FAULT_CURRENT, case);
    if let (Some(from), Ok(to)) = (current_that_opens(own, IN_TIME), largest)
        && selectivity(other, own, from.amperes, to) == Some(Selectivity::Selective)
    {
        reader.step(|| Step::cited("by the bands of both it has opened before the other begins to", from.citation));
        return Ok(Some(true));
    }
    let fuses = own.class == other.class && !is_breaker(own.class);
    if fuses && other.rating >= RATIO_OF_FUSES * own.rating {
        reader.step(|| {
            Step::assumed(
                format!("{title} is rated {RATIO_OF_FUSES} times as much or more, and is of the same class"),
                "IEC 60269-2, as remembered, by analogy (memory)",
            )
        });
        return Ok(Some(true));
    }
    Ok(None)
}

fn is_breaker(class: DeviceClass) -> bool {
    matches!(
        class,
        DeviceClass::Breaker60898
            | DeviceClass::Breaker60898Direct
            | DeviceClass::BreakerMouldedCase
            | DeviceClass::BreakerDcHydraulicMagnetic
            | DeviceClass::BreakerDcThermal
    )
}
