//! The schedule of fuses and breakers.

use super::{Made, made, runs, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Value, column};
use crate::words::{column as heading, devices as words};
use design::{PartId, Run};
use quantity::Dimension;
use vocabulary::{fact::device as f, fact::run_end, kind};

const COLUMNS: &[Column] = &[
    column("device", words::DEVICE, Kind::Text),
    column("circuit", heading::CIRCUIT, Kind::Part),
    column("rating", heading::RATING, Kind::Quantity(Dimension::CURRENT)),
    column("current-kind", heading::CURRENT_KIND, Kind::Text),
    column("voltage", words::VOLTAGE, Kind::Quantity(Dimension::VOLTAGE)),
    column("circuit-voltage", words::CIRCUIT_VOLTAGE, Kind::Quantity(Dimension::VOLTAGE)),
    column("interrupting", words::INTERRUPTING, Kind::Quantity(Dimension::CURRENT)),
    column("fault-current", words::FAULT, Kind::Quantity(Dimension::CURRENT)),
    column("load", words::LOAD, Kind::Quantity(Dimension::CURRENT)),
    column("needed", words::NEEDED, Kind::Quantity(Dimension::CURRENT)),
    column("conductor-carries", words::PROTECTED, Kind::Quantity(Dimension::CURRENT)),
    column("largest-allowed", words::ALLOWED, Kind::Quantity(Dimension::CURRENT)),
    column("distance", words::DISTANCE, Kind::Quantity(Dimension::LENGTH)),
    column("evidence", heading::EVIDENCE, Kind::Text),
    column("spares", words::SPARE, Kind::ByHand),
];

/// Every device, grouped by what feeds its run.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("devices", words::TITLE, words::PURPOSE, COLUMNS);
    sheet.rows = runs::rows(desk, |desk, run| run.devices().map(|device| (device, cells(desk, run, device))).collect());
    sheet.notes = vec![words::NOTE_FAULT.to_owned(), words::NOTE_DISTANCE.to_owned()];
    made(sheet, words::NOTHING)
}

fn cells(desk: &mut Desk<'_, '_>, run: &Run, device: PartId) -> Vec<Cell> {
    let written = desk.circuitry().written(device);
    vec![
        Cell::text(title(desk, device)),
        desk.part(run.written),
        desk.fact(device, f::RATING),
        desk.fact(device, f::CURRENT_KIND),
        desk.fact(device, f::VOLTAGE),
        desk.fact(device, f::CIRCUIT_VOLTAGE),
        desk.fact(device, f::INTERRUPTING),
        desk.fact(device, f::FAULT_CURRENT),
        desk.fact(device, f::LOAD),
        desk.fact(device, f::NEEDED_RATING),
        desk.fact(device, f::PROTECTED_AMPACITY),
        desk.fact(device, f::LARGEST_ALLOWED),
        distance(desk, run),
        desk.said(written, "evidence"),
        Cell::by_hand(),
    ]
}

/// Rating and class, as findings call it.
pub fn title(desk: &mut Desk<'_, '_>, device: PartId) -> String {
    let written = desk.circuitry().written(device);
    let sort = match desk.build.part(written).kind {
        kind::FUSE => super::super::words::materials::FUSE,
        kind::BREAKER => super::super::words::materials::BREAKER,
        _ if matches!(desk.fact(device, f::IS_BREAKER).value, Value::Flag(true)) => {
            super::super::words::materials::BREAKER
        }
        _ => super::super::words::materials::FUSE,
    };
    let cell = desk.fact(device, f::RATING);
    let rating = crate::show::shown(&cell, desk.review.units);
    let from = desk.reader.part(device, f::CLASS_FROM, design::CaseId(0));
    let class = from.and_then(|part| {
        let name =
            if vocabulary::part(desk.build.part(part).kind).fact("class").is_some() { "class" } else { "fuse-class" };
        match desk.said(part, name).value {
            Value::Text(class) => Some(class),
            _ => None,
        }
    });
    match class {
        Some(class) => format!("{sort} {rating}, {class}"),
        None => format!("{sort} {rating}"),
    }
}

/// The longer of the ways from the ends at which a source stands to the first device.
fn distance(desk: &mut Desk<'_, '_>, run: &Run) -> Cell {
    let mut longest = Cell::empty();
    for end in run.ends {
        if !matches!(desk.fact(end, run_end::FED).value, Value::Flag(true)) {
            continue;
        }
        let cell = desk.fact(end, run_end::DISTANCE_TO_DEVICE);
        match (&longest.value, &cell.value) {
            (_, Value::Unknown { .. }) => return cell,
            (Value::Quantity(before), Value::Quantity(now)) if now.value <= before.value => {}
            _ => longest = cell,
        }
    }
    longest
}
