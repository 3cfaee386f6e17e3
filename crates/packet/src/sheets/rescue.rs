//! The rescue card, for fire services.

use super::{Made, directory, owner, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Form, Kind, Sheet, column};
use crate::show;
use crate::system::System;
use crate::words::rescue as words;
use design::PartId;
use vocabulary::{PartKind, kind};

const COLUMNS: &[Column] = &[column("what", words::WHAT, Kind::Text), column("where", words::WHERE, Kind::Text)];

/// What to list: the kind of part, its heading, the properties that say how much, and what to add.
const LISTED: &[(PartKind, &str, &[&str], &str)] = &[
    (kind::BATTERY, words::BATTERY, &["chemistry", "voltage", "capacity"], ""),
    (kind::DISCONNECT, words::ISOLATOR, &["reach"], ""),
    (kind::INLET, words::MAINS, &["voltage", "rating", "side"], words::MAINS_DO),
    (kind::INVERTER, words::INVERTER, &["power", "voltage"], ""),
    (kind::INVERTER_CHARGER, words::INVERTER, &["power", "voltage"], ""),
    (kind::SOLAR, words::SUN, &["modules", "power"], words::SUN_DO),
    (kind::CYLINDER, words::GAS, &["gas", "content"], ""),
    (kind::TANK, words::FUEL, &["holds", "volume"], ""),
];

/// What the conversion carries that can hurt a rescuer.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = Sheet { form: Form::Card, ..table("rescue", words::TITLE, words::PURPOSE, COLUMNS) };
    for (of, heading, properties, more) in LISTED {
        let parts: Vec<PartId> = desk.of_kind(*of).to_vec();
        for part in parts {
            let is_fuel = desk.is(part, "holds", "diesel") || desk.is(part, "holds", "petrol");
            if *of == kind::TANK && !is_fuel {
                continue;
            }
            let text = told(desk, part, properties, more);
            let row = desk.row(part, vec![Cell::text(*heading), Cell::text(text)]);
            sheet.rows.push(row);
        }
    }
    let exits = owner::names(desk, kind::EXIT);
    let exits = if exits.is_empty() { words::NONE.to_owned() } else { exits.join(", ") };
    sheet.rows.push(desk.plain(System::Safety, vec![Cell::text(words::EXITS), Cell::text(exits)]));
    let sleepers = desk.fact(design::Build::ROOT, vocabulary::fact::build::SLEEPERS);
    let sleepers = show::shown(&sleepers, desk.review.units);
    sheet.rows.push(desk.plain(System::Whole, vec![Cell::text(words::SLEEPERS), Cell::text(sleepers)]));
    sheet.notes = vec![words::NOTE.to_owned()];
    Made::Sheet(sheet)
}

fn told(desk: &mut Desk<'_, '_>, part: PartId, properties: &[&str], more: &str) -> String {
    let units = desk.review.units;
    let mut told = vec![desk.name(part)];
    for name in properties {
        let cell = desk.said(part, name);
        if !cell.is_empty() {
            let shown = show::shown(&cell, units);
            // A plain word or count says nothing without its name.
            let plain = !matches!(cell.value, crate::sheet::Value::Quantity(_))
                && !matches!(*name, "chemistry" | "gas" | "holds");
            told.push(if plain { format!("{name} {shown}") } else { shown });
        }
    }
    let zone = directory::place(desk, part);
    let mut places = Vec::new();
    if !zone.is_empty() {
        places.push(show::shown(&zone, units));
    }
    for name in ["at", "from"] {
        let cell = desk.said(part, name);
        if !cell.is_empty() {
            let shown = show::shown(&cell, units);
            if !places.contains(&shown) {
                places.push(shown);
            }
        }
    }
    told.push(if places.is_empty() { words::NO_PLACE.to_owned() } else { places.join(", ") });
    if !more.is_empty() {
        told.push(more.to_owned());
    }
    told.join("; ")
}
