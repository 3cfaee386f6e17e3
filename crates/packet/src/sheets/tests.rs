//! The commissioning test sheet: expected values, and room for measured ones.

use super::{Made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, Value, column};
use crate::system::System;
use crate::words::{column as heading, tests as words};
use design::{PartId, Run};
use vocabulary::{fact, kind};

const COLUMNS: &[Column] = &[
    column("test", words::TEST, Kind::Text),
    column("part", heading::PART, Kind::Part),
    column("expected", words::EXPECTED, Kind::Text),
    column("expected-value", words::UNIT, Kind::Text),
    column("measured", words::MEASURED, Kind::ByHand),
    column("passed", words::PASSED, Kind::ByHand),
];

/// Every test that follows from what is described.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("tests", words::TITLE, words::PURPOSE, COLUMNS);
    let rows = &mut sheet.rows;
    for alternating in [false, true] {
        let group = if alternating { words::ALTERNATING } else { words::DIRECT };
        let runs: Vec<&Run> = desk.circuitry().runs.iter().filter(|run| run.alternating == alternating).collect();
        for run in runs {
            of_run(desk, run, group, rows);
        }
    }
    boards(desk, rows);
    charging(desk, rows);
    for (of, group, text, expected) in [
        (kind::OUTLETS, words::ALTERNATING, words::MAINS_POLARITY, words::AS_SCHEDULE),
        (kind::ALARM, words::SAFETY, words::ALARM, words::SOUNDS),
        (kind::EXIT, words::SAFETY, words::EXIT, words::OPENS),
        (kind::WATER_LINE, words::WATER, words::LEAK, words::DRY),
    ] {
        let parts: Vec<PartId> = desk.of_kind(of).to_vec();
        for part in parts {
            rows.push(test(desk, group, Some(part), text, expected, Cell::empty()));
        }
    }
    let tanks: Vec<PartId> = desk.of_kind(kind::TANK).to_vec();
    for tank in tanks {
        let volume = desk.said(tank, "volume");
        rows.push(test(desk, words::WATER, Some(tank), words::VOLUME, "", volume));
    }
    for heater in super::labels::burners(desk) {
        rows.push(test(desk, words::WATER, Some(heater), words::HEATER, words::NO_MONOXIDE, Cell::empty()));
    }
    vehicle(desk, rows);
    sheet.notes = Vec::new();
    sheet.sources =
        vec![words::SOURCE_COMPUTED.to_owned(), words::SOURCE_PRACTICE.to_owned(), words::SOURCE_MAINS.to_owned()];
    Made::Sheet(sheet)
}

fn test(desk: &Desk<'_, '_>, group: &str, part: Option<PartId>, text: &str, expected: &str, value: Cell) -> Row {
    let named = part.map_or_else(Cell::empty, |part| desk.part(desk.circuitry().written(part)));
    let expected = if expected.is_empty() { Cell::empty() } else { Cell::text(expected) };
    let cells = vec![Cell::text(text), named, expected, value, Cell::by_hand(), Cell::by_hand()];
    let row = match part {
        Some(part) => desk.row(desk.circuitry().written(part), cells),
        None => desk.plain(System::Whole, cells),
    };
    under(group, row)
}

fn of_run(desk: &mut Desk<'_, '_>, run: &Run, group: &str, rows: &mut Vec<Row>) {
    let part = run.part;
    rows.push(test(desk, group, Some(part), words::POLARITY, words::AS_SCHEDULE, Cell::empty()));
    let devices: Vec<PartId> = run.devices().collect();
    for device in devices {
        let rating = desk.fact(device, fact::device::RATING);
        let title = super::devices::title(desk, device);
        rows.push(test(desk, group, Some(part), words::FITTED, &title, rating));
    }
    if run.alternating {
        rows.push(test(desk, group, Some(part), words::EARTH, words::CONTINUOUS, Cell::empty()));
        rows.push(test(desk, group, Some(part), words::INSULATION, words::AT_LEAST, Cell::text(words::MEGOHM)));
    } else {
        let drop = desk.fact(part, fact::run::DROP);
        // Without a current in normal use there is no drop to measure.
        if !matches!(&drop.value, Value::Quantity(drop) if drop.value <= 0.0) {
            rows.push(test(desk, group, Some(part), words::DROP, words::AT_MOST, drop));
        }
    }
    for piece in &run.pieces {
        let written = desk.circuitry().written(piece.part());
        if desk.build.part(written).kind == kind::DISCONNECT {
            rows.push(test(desk, group, Some(written), words::SWITCH_OFF, words::DEAD, Cell::empty()));
        }
    }
}

fn boards(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    let boards: Vec<PartId> = desk.of_kind(kind::AC_BOARD).to_vec();
    for board in boards {
        if !desk.said(board, "rcd").is_empty() {
            rows.push(test(
                desk,
                words::ALTERNATING,
                Some(board),
                words::RCD,
                words::AT_MOST,
                Cell::text(words::RCD_TIME),
            ));
            rows.push(test(desk, words::ALTERNATING, Some(board), words::RCD_BUTTON, words::TRIPS, Cell::empty()));
        }
    }
    let inlets: Vec<PartId> = desk.of_kind(kind::INLET).to_vec();
    for inlet in inlets {
        let voltage = desk.said(inlet, "voltage");
        rows.push(test(desk, words::ALTERNATING, Some(inlet), words::VOLTAGE, "", voltage));
    }
}

fn charging(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    for of in [kind::CHARGER, kind::SOLAR_CONTROLLER, kind::INVERTER_CHARGER, kind::CONVERTER] {
        let chargers: Vec<PartId> = desk.of_kind(of).to_vec();
        for charger in chargers {
            let is_combined = of == kind::INVERTER_CHARGER;
            let (volts, amps) = if is_combined { ("charge-voltage", "charge") } else { ("voltage", "output") };
            for (text, name) in
                [(words::OUTPUT_VOLTAGE, volts), (words::OUTPUT_CURRENT, amps), (words::INPUT_CURRENT, "input")]
            {
                let value = desk.said(charger, name);
                if !value.is_empty() {
                    rows.push(test(desk, words::CHARGING, Some(charger), text, words::AT_MOST, value));
                }
            }
        }
    }
}

fn vehicle(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    for (text, expected) in
        [(words::TORQUE, words::EVERY), (words::HOT, words::HOT_EXPECTED), (words::ROAD, words::NOTHING_LOOSE)]
    {
        rows.push(test(desk, words::VEHICLE, None, text, expected, Cell::empty()));
    }
    let axles: Vec<PartId> = desk.of_kind(kind::AXLE).to_vec();
    for axle in axles {
        let limit = desk.said(axle, "limit");
        rows.push(test(desk, words::VEHICLE, Some(axle), words::WEIGH, words::AT_MOST, limit));
    }
    if let Some(vehicle) = desk.build.only(kind::VEHICLE) {
        let mass = desk.said(vehicle, "gross-mass");
        rows.push(test(desk, words::VEHICLE, Some(vehicle), words::TOTAL, words::AT_MOST, mass));
    }
}
