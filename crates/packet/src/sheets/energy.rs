//! The load and energy budget: daily sums.

use super::{Made, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, RowKind, Value, column};
use crate::system::System;
use crate::words::{column as heading, energy as words};
use design::{Build, CaseId, Fact, PartId};
use quantity::{Dimension, Quantity};
use vocabulary::{FactId, fact::build as f};

/// The case that always exists: the energy of a day has no cases.
const CASE: CaseId = CaseId(0);

/// Seconds in a day: a duty is a share of it.
const DAY: f64 = 86_400.0;

const COLUMNS: &[Column] = &[
    column("load", words::LOAD, Kind::Part),
    column("power", heading::POWER, Kind::Quantity(Dimension::POWER)),
    column("current", words::CURRENT, Kind::Quantity(Dimension::CURRENT)),
    column("on-in-a-day", words::HOURS, Kind::Quantity(Dimension::TIME)),
    column("taken-in-a-day", words::TAKEN, Kind::Quantity(Dimension::ENERGY)),
    column("result", words::RESULTS, Kind::Quantity(Dimension::TIME)),
];

/// What each load takes, what the batteries hold, what comes back.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("energy", words::TITLE, words::PURPOSE, COLUMNS);
    let shares = desk.reader.energy_shares(CASE);
    if shares.is_empty() {
        return Made::Nothing(words::TITLE, words::NOTHING);
    }
    for share in &shares {
        let taken = match &share.taken {
            Ok(energy) => Cell::quantity(*energy, Dimension::ENERGY),
            Err(gaps) => desk.unknown(gaps),
        };
        let row = if share.idle { idle(desk, share.part, taken) } else { load(desk, share.part, taken) };
        sheet.rows.push(row);
    }
    for (title, fact) in [
        (words::SUM, f::ENERGY_A_DAY),
        (words::USABLE, f::USABLE_ENERGY),
        (words::HARVEST, f::HARVEST_A_DAY),
        (words::AUTONOMY, f::AUTONOMY),
        (words::ASKED, f::OFF_GRID),
    ] {
        let row = total(desk, title, fact);
        sheet.rows.push(row);
    }
    sheet.notes = vec![words::NOTE.to_owned(), words::NOTE_DAILY.to_owned()];
    sheet.sources = sources(desk);
    made(sheet, words::NOTHING)
}

fn load(desk: &mut Desk<'_, '_>, load: PartId, taken: Cell) -> Row {
    let cells = vec![
        desk.part(load),
        desk.said(load, "power"),
        desk.said(load, "current"),
        hours(desk.fact_named(load, "duty")),
        taken,
        Cell::empty(),
    ];
    under(words::LOADS, desk.row(load, cells))
}

fn idle(desk: &mut Desk<'_, '_>, inverter: PartId, taken: Cell) -> Row {
    let cells = vec![
        desk.part(inverter),
        desk.said(inverter, "idle"),
        Cell::empty(),
        hours(desk.fact_named(inverter, "on")),
        taken,
        Cell::empty(),
    ];
    under(words::IDLE, desk.row(inverter, cells))
}

/// A share of the day as hours.
fn hours(cell: Cell) -> Cell {
    match cell.value {
        Value::Quantity(share) => Cell {
            value: Value::Quantity(Quantity { value: share.value * DAY, dimension: Dimension::TIME, currency: None }),
            ..cell
        },
        _ => cell,
    }
}

fn total(desk: &mut Desk<'_, '_>, title: &str, fact: FactId) -> Row {
    let cell = desk.fact(Build::ROOT, fact);
    let is_time = vocabulary::fact_spec(fact).kind == vocabulary::FactKind::Quantity(Dimension::TIME);
    let (energy, time) = if is_time { (Cell::empty(), cell) } else { (cell, Cell::empty()) };
    let cells = vec![Cell::text(title), Cell::empty(), Cell::empty(), Cell::empty(), energy, time];
    Row { kind: RowKind::Total, group: words::RESULTS.to_owned(), ..desk.plain(System::Direct, cells) }
}

/// What the sums rest on, from their working.
fn sources(desk: &mut Desk<'_, '_>) -> Vec<String> {
    let mut sources = Vec::new();
    for fact in [f::ENERGY_A_DAY, f::HARVEST_A_DAY] {
        if matches!(desk.reader.fact(Build::ROOT, fact, CASE), Ok(Fact::Number(_))) {
            for step in desk.reader.working(Build::ROOT, fact, CASE).steps {
                if let Some(source) = step.source.filter(|source| !sources.contains(source)) {
                    sources.push(source);
                }
            }
        }
    }
    sources
}
