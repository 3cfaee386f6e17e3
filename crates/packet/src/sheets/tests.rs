//! The commissioning test sheet: expected values, and room for measured ones.

use super::results::{ResultOf, of, results};
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
    let mut book = Book { rows: Vec::new(), results: results(desk) };
    let rows = &mut book;
    for alternating in [false, true] {
        let group = if alternating { words::ALTERNATING } else { words::DIRECT };
        let runs: Vec<&Run> = desk.circuitry().runs.iter().filter(|run| run.alternating == alternating).collect();
        for run in runs {
            of_run(desk, run, group, rows);
        }
    }
    boards(desk, rows);
    charging(desk, rows);
    for (of, test, group, text, expected) in [
        (kind::OUTLETS, "polarity", words::ALTERNATING, words::MAINS_POLARITY, words::AS_SCHEDULE),
        (kind::ALARM, "alarm", words::SAFETY, words::ALARM, words::SOUNDS),
        (kind::EXIT, "exit", words::SAFETY, words::EXIT, words::OPENS),
        (kind::WATER_LINE, "leak", words::WATER, words::LEAK, words::DRY),
    ] {
        let parts: Vec<PartId> = desk.of_kind(of).to_vec();
        for part in parts {
            rows.push(desk, &Asked { group, test, part: Some(part), text, expected }, Cell::empty());
        }
    }
    let lines: Vec<PartId> = desk.of_kind(kind::GAS_LINE).to_vec();
    for line in lines {
        let told = desk.fact(line, fact::gas_line::TIGHTNESS_TEST);
        rows.push(
            desk,
            &Asked {
                group: words::GAS,
                test: "tightness",
                part: Some(line),
                text: words::TIGHTNESS,
                expected: words::HELD,
            },
            told,
        );
    }
    let tanks: Vec<PartId> = desk.of_kind(kind::TANK).to_vec();
    for tank in tanks {
        let volume = desk.said(tank, "volume");
        rows.push(
            desk,
            &Asked { group: words::WATER, test: "volume", part: Some(tank), text: words::VOLUME, expected: "" },
            volume,
        );
    }
    for heater in super::labels::burners(desk) {
        rows.push(
            desk,
            &Asked {
                group: words::WATER,
                test: "heater",
                part: Some(heater),
                text: words::HEATER,
                expected: words::NO_MONOXIDE,
            },
            Cell::empty(),
        );
    }
    vehicle(desk, rows);
    sheet.rows = book.rows;
    for result in book.results.iter().filter(|result| !result.shown && !ELSEWHERE.contains(&result.test.as_str())) {
        let row = unplaced(desk, result);
        sheet.rows.push(row);
    }
    sheet.notes = vec![words::NOTE_RESULTS.to_owned()];
    sheet.sources =
        vec![words::SOURCE_COMPUTED.to_owned(), words::SOURCE_PRACTICE.to_owned(), words::SOURCE_MAINS.to_owned()];
    Made::Sheet(sheet)
}

/// The rows of the sheet, and the results that have not found theirs yet.
struct Book {
    rows: Vec<Row>,
    results: Vec<ResultOf>,
}

impl Book {
    fn push(&mut self, desk: &mut Desk<'_, '_>, asked: &Asked<'_>, value: Cell) {
        let on = asked.part.map(|part| desk.circuitry().written(part));
        let named = on.map_or_else(Cell::empty, |part| desk.part(part));
        let expected = if asked.expected.is_empty() { Cell::empty() } else { Cell::text(asked.expected) };
        let result = of(desk.build, &mut self.results, asked.test, on).cloned();
        let (measured, passed) = match result {
            Some(result) => {
                let passed = result.judged(desk);
                (result.cell(desk), passed)
            }
            None => (Cell::by_hand(), Cell::by_hand()),
        };
        let cells = vec![Cell::text(asked.text), named, expected, value, measured, passed];
        let row = match on {
            Some(part) => desk.row(part, cells),
            None => desk.plain(System::Whole, cells),
        };
        self.rows.push(under(asked.group, row));
    }
}

/// A test that is asked for.
#[derive(Clone, Copy)]
struct Asked<'a> {
    group: &'a str,
    /// Its word among the results.
    test: &'static str,
    part: Option<PartId>,
    text: &'a str,
    expected: &'a str,
}

/// Results that other sheets show.
const ELSEWHERE: [&str; 2] = ["axle-mass", "wheel-mass"];

/// A result of which no test of the sheet is the one: told all the same.
fn unplaced(desk: &mut Desk<'_, '_>, result: &ResultOf) -> Row {
    let named = result.on.map_or_else(Cell::empty, |part| desk.part(part));
    let expected = if result.on.is_none() && !result.named.is_empty() {
        Cell::text(format!("{}: {}", words::NO_SUCH_PART, result.named))
    } else {
        Cell::empty()
    };
    let passed = result.passed.map_or_else(Cell::by_hand, |passed| Cell::of(Value::Flag(passed)));
    let cells =
        vec![Cell::text(result.test.replace('-', " ")), named, expected, Cell::empty(), result.cell(desk), passed];
    under(words::OTHERS, desk.row(result.part, cells))
}

fn of_run(desk: &mut Desk<'_, '_>, run: &Run, group: &str, rows: &mut Book) {
    let part = run.part;
    rows.push(
        desk,
        &Asked { group, test: "polarity", part: Some(part), text: words::POLARITY, expected: words::AS_SCHEDULE },
        Cell::empty(),
    );
    let devices: Vec<PartId> = run.devices().collect();
    for device in devices {
        let rating = desk.fact(device, fact::device::RATING);
        let title = super::devices::title(desk, device);
        rows.push(
            desk,
            &Asked { group, test: "device", part: Some(part), text: words::FITTED, expected: &title },
            rating,
        );
    }
    if run.alternating {
        rows.push(
            desk,
            &Asked { group, test: "earth", part: Some(part), text: words::EARTH, expected: words::CONTINUOUS },
            Cell::empty(),
        );
        rows.push(
            desk,
            &Asked { group, test: "insulation", part: Some(part), text: words::INSULATION, expected: words::AT_LEAST },
            Cell::text(words::MEGOHM),
        );
    } else {
        let drop = desk.fact(part, fact::run::DROP);
        // Without a current in normal use there is no drop to measure.
        if !matches!(&drop.value, Value::Quantity(drop) if drop.value <= 0.0) {
            rows.push(
                desk,
                &Asked { group, test: "voltage-drop", part: Some(part), text: words::DROP, expected: words::AT_MOST },
                drop,
            );
        }
    }
    for piece in &run.pieces {
        let written = desk.circuitry().written(piece.part());
        if desk.build.part(written).kind == kind::DISCONNECT {
            rows.push(
                desk,
                &Asked { group, test: "switch", part: Some(written), text: words::SWITCH_OFF, expected: words::DEAD },
                Cell::empty(),
            );
        }
    }
}

fn boards(desk: &mut Desk<'_, '_>, rows: &mut Book) {
    let boards: Vec<PartId> = desk.of_kind(kind::AC_BOARD).to_vec();
    for board in boards {
        if !desk.said(board, "rcd").is_empty() {
            rows.push(
                desk,
                &Asked {
                    group: words::ALTERNATING,
                    test: "trip-time",
                    part: Some(board),
                    text: words::RCD,
                    expected: words::AT_MOST,
                },
                Cell::text(words::RCD_TIME),
            );
            rows.push(
                desk,
                &Asked {
                    group: words::ALTERNATING,
                    test: "trip-button",
                    part: Some(board),
                    text: words::RCD_BUTTON,
                    expected: words::TRIPS,
                },
                Cell::empty(),
            );
        }
    }
    let inlets: Vec<PartId> = desk.of_kind(kind::INLET).to_vec();
    for inlet in inlets {
        let voltage = desk.said(inlet, "voltage");
        rows.push(
            desk,
            &Asked {
                group: words::ALTERNATING,
                test: "supply-voltage",
                part: Some(inlet),
                text: words::VOLTAGE,
                expected: "",
            },
            voltage,
        );
    }
}

fn charging(desk: &mut Desk<'_, '_>, rows: &mut Book) {
    for of in [kind::CHARGER, kind::SOLAR_CONTROLLER, kind::INVERTER_CHARGER, kind::CONVERTER] {
        let chargers: Vec<PartId> = desk.of_kind(of).to_vec();
        for charger in chargers {
            let is_combined = of == kind::INVERTER_CHARGER;
            let (volts, amps) = if is_combined { ("charge-voltage", "charge") } else { ("voltage", "output") };
            for (text, test, name) in [
                (words::OUTPUT_VOLTAGE, "charge-voltage", volts),
                (words::OUTPUT_CURRENT, "charge-current", amps),
                (words::INPUT_CURRENT, "input-current", "input"),
            ] {
                let value = desk.said(charger, name);
                if !value.is_empty() {
                    rows.push(
                        desk,
                        &Asked { group: words::CHARGING, test, part: Some(charger), text, expected: words::AT_MOST },
                        value,
                    );
                }
            }
        }
    }
}

fn vehicle(desk: &mut Desk<'_, '_>, rows: &mut Book) {
    for (test, text, expected) in [
        ("torque", words::TORQUE, words::EVERY),
        ("heat-picture", words::HOT, words::HOT_EXPECTED),
        ("road", words::ROAD, words::NOTHING_LOOSE),
    ] {
        rows.push(desk, &Asked { group: words::VEHICLE, test, part: None, text, expected }, Cell::empty());
    }
    let axles: Vec<PartId> = desk.of_kind(kind::AXLE).to_vec();
    for axle in axles {
        let limit = desk.said(axle, "limit");
        rows.push(
            desk,
            &Asked {
                group: words::VEHICLE,
                test: "axle-mass",
                part: Some(axle),
                text: words::WEIGH,
                expected: words::AT_MOST,
            },
            limit,
        );
    }
    if let Some(vehicle) = desk.build.only(kind::VEHICLE) {
        let mass = desk.said(vehicle, "gross-mass");
        rows.push(
            desk,
            &Asked {
                group: words::VEHICLE,
                test: "vehicle-mass",
                part: Some(vehicle),
                text: words::TOTAL,
                expected: words::AT_MOST,
            },
            mass,
        );
    }
}
