//! The open questions: the entries that would settle most.

use super::{Made, made, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Value, column};
use crate::system::System;
use crate::words::{column as heading, questions as words};

const COLUMNS: &[Column] = &[
    column("entry", words::ENTRY, Kind::Text),
    column("place", heading::PLACE, Kind::Text),
    column("checks", words::CHECKS, Kind::Count),
    column("answer", words::ANSWER, Kind::ByHand),
];

/// What would settle most of what cannot be told.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("questions", words::TITLE, words::PURPOSE, COLUMNS);
    let review = desk.review;
    for settles in &review.settle {
        let name = |file: u32| review.files.get(file as usize).map_or("", |file| file.name.as_str());
        let place = desk.line_of(&settles.place).map_or_else(Cell::empty, |(file, line)| {
            Cell::text(format!("{}:{line}", name(file).rsplit(['/', '\\']).next().unwrap_or_default()))
        });
        let checks = Cell::of(Value::Count(u32::try_from(settles.checks).map_or(0.0, f64::from)));
        let cells = vec![Cell::text(settles.entry.clone()), place, checks, Cell::by_hand()];
        sheet.rows.push(desk.plain(System::Whole, cells));
    }
    made(sheet, words::NOTHING)
}
