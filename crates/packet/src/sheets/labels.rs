//! The labels: texts with places.

use super::{Made, directory, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, Value, column};
use crate::show;
use crate::system::System;
use crate::words::{column as heading, labels as words};
use design::{End, PartId};
use quantity::Dimension;
use vocabulary::{fact, kind};

const COLUMNS: &[Column] = &[
    column("text", words::TEXT, Kind::Text),
    column("where", words::WHERE, Kind::Text),
    column("part", heading::PART, Kind::Part),
    column("fixed", words::FIXED, Kind::ByHand),
];

/// Every label.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("labels", words::TITLE, words::PURPOSE, COLUMNS);
    for make in [batteries, panels, shore, fuel, people] {
        make(desk, &mut sheet.rows);
    }
    let weighed = super::as_built::weighed_in_all(desk).is_some();
    let mass = if weighed { words::NOTE_WEIGHED } else { words::NOTE_MASS };
    sheet.notes = vec![mass.to_owned(), words::NOTE_WORDING.to_owned()];
    made(sheet, crate::words::NOT_DESCRIBED)
}

fn label(desk: &mut Desk<'_, '_>, group: &str, part: PartId, text: String) -> Row {
    let place = directory::place(desk, part);
    let place = show::shown(&place, desk.review.units);
    let title = desk.build.part(part).title.to_string();
    let place = if place.is_empty() { title } else { format!("{title}, {} {place}", words::AT) };
    let cells = vec![Cell::text(text), Cell::text(place), desk.part(part), Cell::by_hand()];
    under(group, desk.row(part, cells))
}

fn plain(desk: &Desk<'_, '_>, text: String, place: &str) -> Row {
    let cells = vec![Cell::text(text), Cell::text(place), Cell::empty(), Cell::by_hand()];
    under(words::PEOPLE, desk.plain(System::Whole, cells))
}

fn batteries(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    for &battery in desk.of_kind(kind::BATTERY) {
        if matches!(desk.fact(battery, fact::battery::BASE_VEHICLE).value, Value::Flag(true)) {
            continue;
        }
        let sort = if desk.is(battery, "chemistry", "LFP") { words::LITHIUM } else { words::LEAD };
        let mut text = vec![sort.to_owned()];
        text.extend(["voltage", "capacity"].iter().filter_map(|name| desk.told(battery, name)));
        let text = format!("{}. {}", text.join(", "), words::REPLACE);
        let row = label(desk, words::BATTERIES, battery, text);
        rows.push(row);
    }
    for run in &desk.circuitry().runs {
        for piece in &run.pieces {
            let written = desk.circuitry().written(piece.part());
            if desk.build.part(written).kind != kind::DISCONNECT {
                continue;
            }
            let fed: Vec<String> =
                super::runs::at(desk, run, End::Finish).iter().map(|part| desk.name(*part)).collect();
            let row = label(desk, words::BATTERIES, written, format!("{} {}", words::ISOLATOR, fed.join(", ")));
            rows.push(row);
        }
    }
}

fn panels(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    for (of, text) in [(kind::PANEL, words::PANEL), (kind::AC_BOARD, words::BOARD)] {
        for &panel in desk.of_kind(of) {
            let row = label(desk, words::PANELS, panel, text.to_owned());
            rows.push(row);
            if of == kind::AC_BOARD && desk.told(panel, "rcd").is_some() {
                let row = label(desk, words::PANELS, panel, words::TEST_RCD.to_owned());
                rows.push(row);
            }
        }
    }
}

fn shore(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    for &inlet in desk.of_kind(kind::INLET) {
        let values: Vec<String> = ["voltage", "rating"].iter().filter_map(|name| desk.told(inlet, name)).collect();
        let text =
            format!("{}: {}, {}, {}", words::INLET, words::ALTERNATING, values.join(", "), words::FREQUENCY_BY_HAND);
        let row = label(desk, words::SHORE, inlet, text);
        rows.push(row);
    }
}

fn fuel(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    for &tank in desk.of_kind(kind::TANK) {
        let volume = desk.told(tank, "volume").unwrap_or_else(|| crate::words::NOT_KNOWN.to_owned());
        let text = match desk.told(tank, "holds").as_deref() {
            Some("fresh") => format!("{} {volume}.", words::DRINKING),
            Some("grey" | "black") => words::NOT_DRINKING.to_owned(),
            _ => continue,
        };
        let row = label(desk, words::FUEL, tank, text);
        rows.push(row);
    }
    if let Some(&heater) = burners(desk).first() {
        let cells = vec![Cell::text(words::FILLER), Cell::text(words::AT_FILLER), desk.part(heater), Cell::by_hand()];
        rows.push(under(words::FUEL, desk.row(heater, cells)));
    }
    if let Some(&cylinder) = desk.of_kind(kind::CYLINDER).first() {
        let row = label(desk, words::FUEL, cylinder, words::CYLINDERS.to_owned());
        rows.push(row);
    }
}

/// The heaters that burn a liquid fuel.
pub fn burners(desk: &mut Desk<'_, '_>) -> Vec<PartId> {
    let heaters = desk.of_kind(kind::HEATER);
    heaters
        .iter()
        .copied()
        .filter(|heater| desk.is(*heater, "fuel", "diesel") || desk.is(*heater, "fuel", "petrol"))
        .collect()
}

fn people(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    for &exit in desk.of_kind(kind::EXIT) {
        let row = label(desk, words::PEOPLE, exit, words::EXIT.to_owned());
        rows.push(row);
    }
    for &berth in desk.of_kind(kind::BERTH) {
        let row = label(desk, words::PEOPLE, berth, words::NOT_FOR_TRAVEL.to_owned());
        rows.push(row);
    }
    rows.push(plain(desk, words::COMBUSTION.to_owned(), words::BY_DRIVER));
    if let Some(vehicle) = desk.build.only(kind::VEHICLE) {
        if let Some(mass) = desk.number(vehicle, fact::vehicle::GROSS_MASS) {
            let mass = show::number(mass, Dimension::MASS, desk.review.units);
            rows.push(plain(desk, format!("{} {mass}", words::MASS), words::BY_DRIVER));
        }
        let as_built = super::as_built::weighed_in_all(desk);
        rows.push(match as_built {
            Some((mass, entry)) => {
                let mass = show::number(mass, Dimension::MASS, desk.review.units);
                let date = desk.told(entry, "date").map_or_else(String::new, |date| format!(", {date}"));
                plain(desk, format!("{} {mass}{date}", words::AS_WEIGHED), words::BY_DRIVER)
            }
            None => plain(desk, words::AS_BUILT.to_owned(), words::AS_BUILT_WHERE),
        });
    }
}
