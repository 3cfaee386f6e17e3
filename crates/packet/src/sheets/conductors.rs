//! The conductor schedule.

use super::{Made, made, runs, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Value, column};
use crate::words::{column as heading, conductors as words};
use design::{End, PartId, Run};
use quantity::Dimension;
use vocabulary::fact::conductor as f;

/// What is cut longer at each end of a conductor for its service loop, m: 150 mm, common practice, no source.
const SERVICE_LOOP: f64 = 0.15;

const COLUMNS: &[Column] = &[
    column("label", words::LABEL, Kind::Text),
    column("conductor", heading::PART, Kind::Part),
    column("from", heading::FROM, Kind::Part),
    column("to", heading::TO, Kind::Part),
    column("size", heading::SIZE, Kind::Size),
    column("one-way", heading::LENGTH, Kind::Quantity(Dimension::LENGTH)),
    column("cut-length", words::CUT, Kind::Quantity(Dimension::LENGTH)),
    column("return", words::RETURN, Kind::Text),
    column("route", heading::ROUTE, Kind::Part),
    column("insulation", words::INSULATION, Kind::Quantity(Dimension::TEMPERATURE)),
    column("strands", words::STRANDS, Kind::Text),
    column("together", words::BUNDLED, Kind::Count),
    column("air", words::AIR, Kind::Quantity(Dimension::TEMPERATURE)),
    column("ampacity", heading::AMPACITY, Kind::Quantity(Dimension::CURRENT)),
    column("passes", words::PASSES, Kind::Text),
    column("edge", words::EDGE, Kind::Text),
    column("devices", heading::DEVICES, Kind::Text),
    column("lug-at-start", words::LUG_A, Kind::ByHand),
    column("lug-at-end", words::LUG_B, Kind::ByHand),
];

/// Every conductor, grouped by what feeds its run.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("conductors", words::TITLE, words::PURPOSE, COLUMNS);
    sheet.rows = runs::rows(desk, |desk, run| {
        let conductors: Vec<PartId> = run.conductors().collect();
        let numbered = (1..).zip(conductors.iter().copied());
        numbered.map(|(place, one)| (one, cells(desk, run, one, (place, conductors.len())))).collect()
    });
    sheet.notes = vec![words::NOTE_CUT.to_owned(), words::NOTE_LABEL.to_owned(), words::NOTE_LUG.to_owned()];
    made(sheet, words::NOTHING)
}

fn cells(desk: &mut Desk<'_, '_>, run: &Run, conductor: PartId, place: (usize, usize)) -> Vec<Cell> {
    let written = desk.circuitry().written(conductor);
    let devices: Vec<PartId> = run.devices().collect();
    let devices: Vec<String> = devices.into_iter().map(|device| super::devices::title(desk, device)).collect();
    vec![
        label(desk, run, written, place),
        desk.part(written),
        desk.parts(&runs::at(desk, run, End::Start)),
        desk.parts(&runs::at(desk, run, End::Finish)),
        size(desk, conductor),
        desk.fact(conductor, f::ONE_WAY),
        cut_length(desk, conductor),
        desk.fact_named(written, "return"),
        desk.said(written, "route"),
        desk.fact(conductor, f::INSULATION),
        desk.fact(conductor, f::STRANDS),
        desk.fact(conductor, f::BUNDLED),
        desk.fact(conductor, f::AMBIENT),
        desk.fact(conductor, f::AMPACITY),
        desk.fact(conductor, f::PASSES),
        desk.fact(conductor, f::EDGE),
        Cell::text(devices.join(", ")),
        Cell::by_hand(),
        Cell::by_hand(),
    ]
}

/// The size of a conductor as it is written.
pub fn size(desk: &mut Desk<'_, '_>, conductor: PartId) -> Cell {
    let written = desk.circuitry().written(conductor);
    for name in ["size", "wire", "cores"] {
        let Some(spec) = vocabulary::part(desk.build.part(written).kind).fact(name) else { continue };
        if desk.is_written(written, spec.id) {
            return desk.fact(written, spec.id);
        }
    }
    desk.fact(conductor, f::AREA)
}

/// What is cut of a conductor, one way: its length with a service loop at each end.
pub fn cut_length(desk: &mut Desk<'_, '_>, conductor: PartId) -> Cell {
    let cell = desk.fact(conductor, f::ONE_WAY);
    match cell.value {
        Value::Quantity(length) => Cell {
            value: Value::Quantity(quantity::Quantity { value: length.value + 2.0 * SERVICE_LOOP, ..length }),
            ..cell
        },
        _ => cell,
    }
}

/// The text of the label: as written, else the circuit and the number of the length.
fn label(desk: &mut Desk<'_, '_>, run: &Run, written: PartId, (place, of): (usize, usize)) -> Cell {
    let said = desk.said(written, "label");
    if !said.is_empty() {
        return said;
    }
    let name = runs::name(desk, run);
    Cell::text(if of > 1 { format!("{name} {place}/{of}") } else { name })
}
