//! The circuit schedule.

use super::{Made, grouped, made, runs, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Value, column};
use crate::words::{circuits as words, column as heading};
use design::{End, PartId, Piece, Run};
use quantity::Dimension;
use vocabulary::{fact::run as f, fact::run_end};

const COLUMNS: &[Column] = &[
    column("number", heading::NUMBER, Kind::Count),
    column("circuit", heading::CIRCUIT, Kind::Part),
    column("to", heading::TO, Kind::Part),
    column("current-kind", heading::CURRENT_KIND, Kind::Text),
    column("nominal-voltage", heading::VOLTAGE, Kind::Quantity(Dimension::VOLTAGE)),
    column("largest-current", heading::DESIGN_CURRENT, Kind::Quantity(Dimension::CURRENT)),
    column("devices", heading::DEVICES, Kind::Text),
    column("in-line", words::IN_LINE, Kind::Part),
    column("conductor", heading::SIZE, Kind::Text),
    column("length", heading::LENGTH, Kind::Quantity(Dimension::LENGTH)),
    column("ampacity", heading::AMPACITY, Kind::Quantity(Dimension::CURRENT)),
    column("drop", words::DROP, Kind::Quantity(Dimension::VOLTAGE)),
    column("drop-from-source", words::SUPPLY_DROP, Kind::Quantity(Dimension::VOLTAGE)),
    column("share-of-nominal", words::SHARE, Kind::Quantity(Dimension::RATIO)),
    column("sources-at-start", words::SOURCES_FROM, Kind::Part),
    column("sources-at-end", words::SOURCES_TO, Kind::Part),
];

/// Every run, grouped by what feeds it.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("circuits", words::TITLE, words::PURPOSE, COLUMNS);
    for run in &desk.circuitry().runs {
        let cells = cells(desk, run);
        let mut row = under(&runs::group(desk, run), desk.row(run.written, cells));
        row.system = crate::system::System::of(desk.build, run.part);
        sheet.rows.push(row);
    }
    sheet.rows = grouped(sheet.rows);
    sheet.notes = vec![words::NOTE_DROP.to_owned(), words::NOTE_SOURCES.to_owned()];
    made(sheet, words::NOTHING)
}

fn cells(desk: &mut Desk<'_, '_>, run: &Run) -> Vec<Cell> {
    let in_line: Vec<PartId> = run
        .pieces
        .iter()
        .filter(|piece| matches!(piece, Piece::Switch(_) | Piece::Through(_)))
        .map(|piece| desk.circuitry().written(piece.part()))
        .collect();
    let drop = desk.fact(run.part, f::SUPPLY_DROP);
    let nominal = desk.fact(run.part, f::NOMINAL_VOLTAGE);
    vec![
        runs::number(desk, run),
        desk.part(run.written),
        desk.parts(&runs::at(desk, run, End::Finish)),
        desk.fact(run.part, f::CURRENT_KIND),
        nominal.clone(),
        desk.fact(run.part, f::DESIGN_CURRENT),
        devices(desk, run),
        desk.parts(&in_line),
        sizes(desk, run),
        desk.fact(run.part, f::LENGTH),
        desk.fact(run.part, f::AMPACITY),
        desk.fact(run.part, f::DROP),
        drop.clone(),
        share(&drop, &nominal),
        desk.fact(run.ends[0], run_end::SOURCES),
        desk.fact(run.ends[1], run_end::SOURCES),
    ]
}

/// The titles of the devices in their order.
fn devices(desk: &mut Desk<'_, '_>, run: &Run) -> Cell {
    let devices: Vec<PartId> = run.devices().collect();
    let titles: Vec<String> = devices.into_iter().map(|device| super::devices::title(desk, device)).collect();
    if titles.is_empty() { Cell::empty() } else { Cell::text(titles.join(", ")) }
}

/// The sizes of the conductors in their order, each named once.
fn sizes(desk: &mut Desk<'_, '_>, run: &Run) -> Cell {
    let conductors: Vec<PartId> = run.conductors().collect();
    let mut sizes: Vec<String> = Vec::new();
    for conductor in conductors {
        let cell = super::conductors::size(desk, conductor);
        let shown = crate::show::shown(&cell, desk.review.units);
        if !sizes.contains(&shown) {
            sizes.push(shown);
        }
    }
    if sizes.is_empty() { Cell::empty() } else { Cell::text(sizes.join(", ")) }
}

fn share(drop: &Cell, nominal: &Cell) -> Cell {
    match (&drop.value, &nominal.value) {
        (Value::Quantity(drop_of), Value::Quantity(nominal_of)) if nominal_of.value > 0.0 => Cell {
            assumed: drop.assumed || nominal.assumed,
            ..Cell::quantity(drop_of.value / nominal_of.value, Dimension::RATIO)
        },
        (Value::Unknown { .. }, _) => drop.clone(),
        _ => nominal_or_empty(nominal),
    }
}

fn nominal_or_empty(nominal: &Cell) -> Cell {
    if matches!(nominal.value, Value::Unknown { .. }) { nominal.clone() } else { Cell::empty() }
}
