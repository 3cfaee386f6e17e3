//! What a registry looks for on the outside of a motor caravan.

use super::checklist::Checklist;
use super::{any_that, is_any, one_holds};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use vocabulary::{FactId, PartKind, fact as f, fact::build as b, kind};

/// The features in words, and how each is told.
const FEATURES: Checklist = Checklist {
    items: &[
        ("two windows of the living space on one side", has_windows),
        ("a door of its own to the living space", has_door),
        ("graphics on both sides", has_graphics),
        ("an awning or a bar for one", has_awning),
        ("a fixed high roof", has_high_roof),
    ],
    answers: ["there", "not there"],
    step: |text| Step { source: Some(LIST.to_owned()), ..Step::of(text) },
};

/// Where the list comes from, for the working.
const LIST: &str = "guidance of the registry of the United Kingdom, features of the outside (second-hand)";

/// This many windows on one side are looked for.
const WINDOWS: usize = 2;

/// Whether the vehicle says this of its outside.
fn said(reader: &mut Reader<'_>, word: &str, case: CaseId) -> Outcome<bool> {
    let Some(vehicle) = reader.build().only(kind::VEHICLE) else {
        return Err(Gaps::one(Gap::Absent(Build::ROOT, kind::VEHICLE)));
    };
    super::has_word(reader, vehicle, f::vehicle::OUTSIDE, word, case)
}

fn has_graphics(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    said(reader, "graphics", case)
}

fn has_high_roof(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    said(reader, "high-roof", case)
}

fn has_awning(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    one_holds([is_any(reader, kind::AWNING), said(reader, "awning-bar", case)])
}

/// Whether a window or an exit is that of the cab, as its zone says.
fn of_cab(reader: &mut Reader<'_>, part: PartId, zone: FactId, case: CaseId) -> Outcome<bool> {
    match reader.silent(part, zone) {
        true => Ok(false),
        false => {
            let space = super::space::named(reader, part, zone, case)?;
            Ok(super::space::word(reader, space, case)? == "cab")
        }
    }
}

/// Every part of a kind, and what may be missing of them.
fn listed(reader: &Reader<'_>, kind: PartKind) -> (Vec<PartId>, Option<Gap>) {
    let parts = reader.build().of_kind(kind);
    let unread = (!parts.complete).then(|| Gap::Unread(reader.unread_part(Build::ROOT)));
    (parts.members.to_vec(), unread)
}

/// The side of a window of the living space, in its word; nothing for an exit that is no window, and for one of the cab.
fn window_side(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Option<&'static str>> {
    let exit = reader.build().part(part).kind == kind::EXIT;
    let (side, zone) = if exit { (f::exit::SIDE, f::exit::ZONE) } else { (f::window::SIDE, f::window::ZONE) };
    if exit && reader.need_word(part, f::exit::KIND, case)? != "window" || of_cab(reader, part, zone, case)? {
        return Ok(None);
    }
    Ok(Some(reader.need_word(part, side, case)?))
}

/// Whether so many windows are on one side; windows to climb through count.
fn has_windows(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    let mut sides = [("left", 0), ("right", 0)];
    let mut open: Vec<Gap> = Vec::new();
    for kind in [kind::WINDOW, kind::EXIT] {
        let (parts, unread) = listed(reader, kind);
        open.extend(unread);
        for part in parts {
            match window_side(reader, part, case) {
                Ok(Some(side)) => {
                    sides.iter_mut().filter(|(word, _)| *word == side).for_each(|(_, count)| *count += 1);
                }
                Ok(None) => {}
                Err(gaps) => open.extend(gaps.0.into_iter().flat_map(|any| any.0)),
            }
        }
    }
    let most = sides.into_iter().map(|(_, count)| count).max().unwrap_or(0);
    match most >= WINDOWS {
        true => Ok(true),
        false if most + open.len() < WINDOWS => Ok(false),
        false => Err(Gaps(vec![AnyOf(open)])),
    }
}

/// Whether a door that is used every day leads to the living space.
fn has_door(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    any_that(reader, kind::EXIT, |reader, exit| {
        if matches!(reader.need_word(exit, f::exit::SIDE, case), Ok("roof" | "floor")) {
            return Ok(false);
        }
        Ok(reader.need_word(exit, f::exit::KIND, case)? == "door" && !of_cab(reader, exit, f::exit::ZONE, case)?)
    })
}

/// Whether all are there: no as soon as one is certainly not.
fn outside_whole(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    FEATURES.any(reader, false, case).map(|lacks| Fact::Flag(!lacks))
}

fn outside_lacking(reader: &mut Reader<'_>, root: PartId, case: CaseId) -> Outcome {
    FEATURES.those(reader, false, (root, b::OUTSIDE_LACKING_AT_BEST), case)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    vec![(b::OUTSIDE_WHOLE, Method::Each(outside_whole)), (b::OUTSIDE_LACKING_AT_BEST, Method::Each(outside_lacking))]
}
