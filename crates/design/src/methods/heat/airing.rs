//! What airs a space: its windows that open, fans and openings in the roof; and the face on which an alarm hangs.

use super::room::{belongs, living_spaces, of_space};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::no_solution;
use crate::part::Reference;
use crate::reader::Reader;
use vocabulary::{fact as f, fact::alarm as a, fact::zone as z, kind};

/// The windows of a space.
fn windows(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<Vec<PartId>> {
    let (windows, gaps) = of_space(reader, kind::WINDOW, zone, case);
    if gaps.is_empty() { Ok(windows) } else { Err(gaps) }
}

fn count(number: usize) -> Fact {
    Fact::Number(number as f64)
}

fn windows_here(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    Ok(count(windows(reader, zone, case)?.len()))
}

/// How many windows open, how many there are, and what is not known of the others.
fn opening(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<(usize, usize, Gaps)> {
    let windows = windows(reader, zone, case)?;
    let mut gaps = Gaps::default();
    let mut open = 0;
    for &window in &windows {
        match reader.need_flag(window, f::window::OPENS, case) {
            Ok(opens) => open += usize::from(opens),
            Err(more) => gaps.add(&more),
        }
    }
    Ok((open, windows.len(), gaps))
}

fn windows_opening(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (open, _, gaps) = opening(reader, zone, case)?;
    if gaps.is_empty() { Ok(count(open)) } else { Err(gaps) }
}

fn half_open(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (open, all, gaps) = opening(reader, zone, case)?;
    if 2 * open >= all || gaps.is_empty() { Ok(Fact::Flag(2 * open >= all)) } else { Err(gaps) }
}

/// Whether a fan, or an opening in the roof, airs a space.
fn aired_otherwise(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let vents = reader.build().inside(zone, kind::VENT);
    let mut gaps = Gaps::default();
    if !vents.complete {
        gaps.add(&Gaps::one(Gap::Unread(zone)));
    }
    for &vent in vents.members.iter() {
        match reader.need_word(vent, f::vent::HEIGHT, case) {
            Ok("roof") => return Ok(Fact::Flag(true)),
            Ok(_) => {}
            Err(more) => gaps.add(&more),
        }
    }
    let fans = reader.build().of_kind(kind::FAN).clone();
    let alone = living_spaces(reader, case).is_ok_and(|spaces| spaces[..] == [zone]);
    for &fan in fans.members.iter() {
        let here = if alone { Ok(true) } else { belongs(reader, fan, zone, case) };
        match here {
            Ok(true) => return Ok(Fact::Flag(true)),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    if !fans.complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(crate::part::Build::ROOT))));
    }
    if gaps.is_empty() { Ok(Fact::Flag(false)) } else { Err(gaps) }
}

fn face_u(reader: &mut Reader<'_>, alarm: PartId, case: CaseId) -> Outcome {
    match reader.build().references.get(&(alarm, a::ON_FACE)) {
        Some(Reference::To(shell)) => reader.fact(*shell, f::shell::U_LIKELY, case),
        _ if reader.silent(alarm, a::ON_FACE) => no_solution(alarm, a::FACE_U),
        _ => Err(Gaps::one(Gap::Entry(alarm, a::ON_FACE))),
    }
}

fn freezing_nights_aboard(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let aboard = super::whole(reader, zone, case)?
        && reader.need(zone, z::SLEEPERS_HERE, case)? > 0.0
        && super::freezing_night(reader, case)?;
    Ok(Fact::Flag(aboard))
}

fn fuel_cookers(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome {
    let (cookers, mut gaps) = of_space(reader, kind::COOKER, zone, case);
    let mut burning = Vec::new();
    for cooker in cookers {
        match reader.need_flag(cooker, f::cooker::BURNS, case) {
            Ok(true) => burning.push(cooker),
            Ok(false) => {}
            Err(more) => gaps.add(&more),
        }
    }
    super::listed(burning, &gaps)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (z::WINDOWS_HERE, Each(windows_here)),
        (z::WINDOWS_OPENING, Each(windows_opening)),
        (z::HALF_OPEN, Each(half_open)),
        (z::AIRED_OTHERWISE, Each(aired_otherwise)),
        (a::FACE_U, Each(face_u)),
        (z::FREEZING_NIGHTS_ABOARD, Each(freezing_nights_aboard)),
        (z::FUEL_COOKERS, Each(fuel_cookers)),
    ]
}
