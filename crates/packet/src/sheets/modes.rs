//! What each mode feeds, what stays live with a disconnect open, and what dies when a battery's management cuts it off.

use super::{Made, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, RowKind, Sheet, Value, column};
use crate::system::System;
use crate::words::modes as words;
use design::{Gaps, ModeOverview};
use vocabulary::kind;

const COLUMNS: &[Column] = &[
    column("mode", words::MODE, Kind::Text),
    column("described", words::DESCRIBED, Kind::Flag),
    column("feeding", words::FEEDING, Kind::Part),
    column("at-times", words::AT_TIMES, Kind::Part),
    column("open", words::OPEN, Kind::Part),
    column("either", words::EITHER, Kind::Part),
    column("dead", words::DEAD, Kind::Part),
    column("open-question", words::UNSAID, Kind::Text),
];

const LIVE_COLUMNS: &[Column] = &[
    column("state", words::STATE, Kind::Text),
    column("things", words::THINGS, Kind::Part),
    column("always", words::FROM, Kind::Part),
    column("at-times", words::FROM_AT_TIMES, Kind::Part),
    column("open-question", words::UNSAID, Kind::Text),
];

/// Every mode.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("modes", words::TITLE, words::PURPOSE, COLUMNS);
    if desk.circuitry().runs.is_empty() {
        return Made::Nothing(words::TITLE, words::NOTHING);
    }
    for mode in desk.reader.mode_overviews() {
        let cells = vec![
            Cell::text(&*mode.name),
            Cell::of(Value::Flag(mode.described)),
            desk.parts(&mode.feeding),
            desk.parts(&mode.at_times),
            desk.parts(&mode.open),
            desk.parts(&mode.either),
            desk.parts(&mode.lost),
            unsaid(desk, &mode.unsaid),
        ];
        sheet.rows.push(row(desk, &mode, cells));
    }
    sheet.notes = vec![words::NOTE.to_owned(), words::NOTE_DEAD.to_owned()];
    made(sheet, words::NOTHING)
}

/// What stays live with each disconnect open.
pub fn live(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("live-when-off", words::LIVE_TITLE, words::LIVE_PURPOSE, LIVE_COLUMNS);
    states(desk, "disconnect", &mut sheet);
    sheet.notes = vec![words::NOTE_LIVE.to_owned()];
    made(sheet, words::NO_DISCONNECT)
}

/// What dies when the management of a battery cuts it off.
pub fn cut(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("management-trips", words::CUT_TITLE, words::CUT_PURPOSE, LIVE_COLUMNS);
    states(desk, "management", &mut sheet);
    sheet.notes = vec![words::NOTE_CUT.to_owned()];
    made(sheet, words::NO_MANAGEMENT)
}

fn states(desk: &mut Desk<'_, '_>, sort: &str, sheet: &mut Sheet) {
    for mode in desk.reader.mode_overviews().into_iter().filter(|mode| mode.sort == sort) {
        let mut rows = Vec::new();
        // What some other source feeds at times is not dead.
        let mut dead = mode.lost.clone();
        dead.retain(|thing| !mode.fed.iter().any(|fed| fed.things.contains(thing)));
        if !dead.is_empty() {
            rows.push((words::DIES, desk.parts(&dead), Cell::empty(), Cell::empty()));
        }
        for fed in &mode.fed {
            let state = if fed.always.is_empty() { words::LIVE_AT_TIMES } else { words::LIVE };
            rows.push((state, desk.parts(&fed.things), desk.parts(&fed.always), desk.parts(&fed.at_times)));
        }
        if mode.fed.is_empty() {
            rows.push((words::LIVE, Cell::text(crate::words::NONE), Cell::empty(), Cell::empty()));
        }
        for (place, (state, things, always, at_times)) in rows.into_iter().enumerate() {
            let open = if place == 0 { unsaid(desk, &mode.unsaid) } else { Cell::empty() };
            let cells = vec![Cell::text(state), things, always, at_times, open];
            sheet.rows.push(under(&mode.name, row(desk, &mode, cells)));
        }
    }
}

/// A row about what makes the mode: its disconnect, or what the build says of it.
fn row(desk: &Desk<'_, '_>, mode: &ModeOverview, cells: Vec<Cell>) -> Row {
    let own = desk.build.of_kind(kind::MODE).members.iter().copied();
    let written =
        own.filter(|_| mode.described).find(|part| desk.build.part(*part).name.as_deref() == Some(&*mode.name));
    let row = match written {
        Some(part) => desk.row(part, cells),
        None => desk.plain(System::Direct, cells),
    };
    Row { system: System::Direct, kind: RowKind::Item, ..row }
}

/// What is not said and may change this.
fn unsaid(desk: &Desk<'_, '_>, gaps: &Gaps) -> Cell {
    match desk.unknown(gaps).value {
        Value::Unknown { settle } if !settle.is_empty() => Cell::text(settle.join("; ")),
        _ => Cell::empty(),
    }
}
