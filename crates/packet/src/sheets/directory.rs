//! The panel directory, for the lid.

use super::{Made, grouped, made, runs, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, Value, column};
use crate::words::{column as heading, directory as words};
use design::{End, PartId, Run};
use quantity::Dimension;
use vocabulary::{fact::device, kind};

const COLUMNS: &[Column] = &[
    column("position", words::POSITION, Kind::Text),
    column("feeds", words::NAME, Kind::Text),
    column("rating", heading::RATING, Kind::Quantity(Dimension::CURRENT)),
    column("goes-dead", words::DEAD, Kind::Part),
    column("largest", words::LIMIT, Kind::Quantity(Dimension::CURRENT)),
    column("place", heading::PLACE, Kind::Text),
    column("note", heading::NOTE, Kind::Text),
];

/// Every way of every panel and board, and what leaves them by a circuit.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("panel-directory", words::TITLE, words::PURPOSE, COLUMNS);
    let panels: Vec<PartId> =
        [kind::PANEL, kind::AC_BOARD].into_iter().flat_map(|kind| desk.of_kind(kind)).copied().collect();
    for panel in panels {
        if desk.build.part(panel).kind == kind::AC_BOARD {
            sheet.rows.push(main(desk, panel));
        }
        for run in &desk.circuitry().runs {
            if runs::at(desk, run, End::Start).contains(&panel) {
                let row = way(desk, run);
                sheet.rows.push(under(&desk.build.part(panel).title, row));
            }
        }
    }
    sheet.rows = grouped(sheet.rows);
    sheet.notes = vec![words::NOTE.to_owned()];
    made(sheet, words::NOTHING)
}

fn main(desk: &mut Desk<'_, '_>, board: PartId) -> Row {
    let ways: Vec<PartId> = desk
        .circuitry()
        .runs
        .iter()
        .filter(|run| runs::at(desk, run, End::Start).contains(&board))
        .flat_map(|run| runs::fed(desk, run))
        .collect();
    let cells = vec![
        Cell::text(words::MAIN),
        Cell::text(desk.name(board)),
        desk.said(board, "main"),
        desk.parts(&ways),
        desk.said(board, "main"),
        place(desk, board),
        Cell::empty(),
    ];
    under(&desk.build.part(board).title, desk.row(board, cells))
}

fn way(desk: &mut Desk<'_, '_>, run: &Run) -> Row {
    let fed = runs::fed(desk, run);
    let names: Vec<String> = fed.iter().map(|part| desk.name(*part)).collect();
    let devices: Vec<PartId> = run.devices().collect();
    let first = devices.first().copied();
    let position = match runs::number(desk, run).value {
        Value::Count(number) => format!("{number}"),
        _ => desk.name(run.written),
    };
    let cells = vec![
        Cell::text(position),
        Cell::text(names.join(", ")),
        first.map_or_else(Cell::empty, |first| desk.fact(first, device::RATING)),
        desk.parts(&fed),
        first.map_or_else(Cell::empty, |first| desk.fact(first, device::LARGEST_ALLOWED)),
        fed.first().map_or_else(Cell::empty, |first| place(desk, *first)),
        desk.said(run.written, "note"),
    ];
    desk.row(run.written, cells)
}

/// Where a thing stands, in words: its zone, else its position.
pub fn place(desk: &mut Desk<'_, '_>, part: PartId) -> Cell {
    let zone = desk.fact_named(part, "standing-zone");
    if let Value::Parts { parts, .. } = &zone.value
        && let Some(zone) = parts.first()
    {
        return Cell::text(zone.title.clone());
    }
    let zone = desk.said(part, "zone");
    if let Value::Parts { parts, .. } = &zone.value
        && let Some(zone) = parts.first()
    {
        return Cell::text(zone.title.clone());
    }
    for name in ["at", "from"] {
        let cell = desk.said(part, name);
        if matches!(cell.value, Value::Text(_)) {
            return cell;
        }
    }
    Cell::empty()
}
