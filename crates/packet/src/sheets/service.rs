//! The service calendar.

use super::{Made, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, column};
use crate::system::System;
use crate::words::{column as heading, service as words};
use design::PartId;
use vocabulary::{PartKind, kind};

const COLUMNS: &[Column] = &[
    column("task", words::TASK, Kind::Text),
    column("part", heading::PART, Kind::Part),
    column("every", words::EVERY, Kind::Text),
    column("due", words::DUE, Kind::Text),
    column("done", words::DONE, Kind::ByHand),
];

/// What is due on each part of a kind: common practice, no source.
const DUE: &[(PartKind, (&str, &str))] = &[
    (kind::ALARM, words::ALARM),
    (kind::EXTINGUISHER, words::EXTINGUISHER),
    (kind::EXIT, words::EXITS),
    (kind::BATTERY, words::BATTERY),
    (kind::SOLAR, words::SOLAR),
    (kind::CORD, words::CORD),
    (kind::STRAINER, words::STRAINER),
];

/// The parts on which a day is written, and what is due on it.
const ENDS: &[(PartKind, &str, &str)] = &[
    (kind::CERTIFICATE, "due", words::CERTIFICATE),
    (kind::GAS_LINE, "test-due", words::GAS_TEST),
    (kind::HOSE, "replace-by", words::HOSE),
    (kind::ALARM, "replace-by", words::ALARM_END),
];

/// What is due, and when.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("service", words::TITLE, words::PURPOSE, COLUMNS);
    sheet.rows.push(task(desk, None, words::TIGHTEN));
    for (of, due) in DUE {
        let parts: Vec<PartId> = desk.of_kind(*of).to_vec();
        for part in parts {
            sheet.rows.push(task(desk, Some(part), *due));
        }
    }
    let boards: Vec<PartId> = desk.of_kind(kind::AC_BOARD).to_vec();
    for board in boards {
        if !desk.said(board, "rcd").is_empty() {
            sheet.rows.push(task(desk, Some(board), words::RCD));
        }
    }
    for heater in super::labels::burners(desk) {
        sheet.rows.push(task(desk, Some(heater), words::HEATER));
    }
    let tanks: Vec<PartId> = desk.of_kind(kind::TANK).to_vec();
    for tank in tanks {
        if desk.is(tank, "holds", "fresh") {
            sheet.rows.push(task(desk, Some(tank), words::WATER));
        }
    }
    if let Some(&line) = desk.of_kind(kind::WATER_LINE).first() {
        sheet.rows.push(task(desk, Some(line), words::DRAIN));
    }
    if let Some(&cylinder) = desk.of_kind(kind::CYLINDER).first() {
        sheet.rows.push(task(desk, Some(cylinder), words::GAS));
    }
    for (of, date, text) in ENDS {
        let parts: Vec<PartId> = desk.of_kind(*of).to_vec();
        for part in parts {
            let due = desk.said(part, date);
            if !due.is_empty() {
                let cells = vec![Cell::text(*text), desk.part(part), Cell::text(words::ONCE), due, Cell::by_hand()];
                let row = desk.row(part, cells);
                sheet.rows.push(row);
            }
        }
    }
    let waivers: Vec<PartId> = desk.of_kind(kind::WAIVE).to_vec();
    for waiver in waivers {
        let until = desk.said(waiver, "until");
        if !until.is_empty() {
            let rule = desk.said(waiver, "rule");
            let text = format!("{}: {}", words::WAIVER, crate::show::shown(&rule, desk.review.units));
            let cells = vec![Cell::text(text), desk.part(waiver), Cell::text(words::ONCE), until, Cell::by_hand()];
            let row = desk.row(waiver, cells);
            sheet.rows.push(row);
        }
    }
    sheet.sources = vec![words::SOURCE.to_owned()];
    Made::Sheet(sheet)
}

fn task(desk: &Desk<'_, '_>, part: Option<PartId>, (text, every): (&str, &str)) -> Row {
    let named = part.map_or_else(Cell::empty, |part| desk.part(part));
    let cells = vec![Cell::text(text), named, Cell::text(every), Cell::by_hand(), Cell::by_hand()];
    match part {
        Some(part) => desk.row(part, cells),
        None => desk.plain(System::Whole, cells),
    }
}
