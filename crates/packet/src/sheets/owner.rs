//! The owner's safety sheet: one page in plain words.

use super::{Made, labels, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Form, Kind, Sheet, Value, column};
use crate::show;
use crate::system::System;
use crate::words::owner as words;
use design::PartId;
use quantity::Dimension;
use vocabulary::{fact, kind};

const COLUMNS: &[Column] = &[column("what", words::TOPIC, Kind::Text), column("do", words::DO, Kind::Text)];

/// What everybody aboard must know.
pub fn sheet(desk: &mut Desk<'_, '_>, head: &Head) -> Made {
    let mut sheet = Sheet { form: Form::Card, ..table("owner", words::TITLE, words::PURPOSE, COLUMNS) };
    let lines = lines(desk, head);
    for (system, what, how) in lines {
        let row = desk.plain(system, vec![Cell::text(what), Cell::text(how)]);
        sheet.rows.push(row);
    }
    Made::Sheet(sheet)
}

type Line = (System, &'static str, String);

fn lines(desk: &mut Desk<'_, '_>, head: &Head) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    let exits = names(desk, kind::EXIT);
    if !exits.is_empty() {
        lines.push((System::Safety, words::OUT, joined(&[exits.join(", "), words::OUT_DO.to_owned()])));
    }
    lines.push((System::Direct, words::POWER_OFF, switches(desk)));
    if !desk.of_kind(kind::SHORE).is_empty() {
        lines.push((System::Alternating, words::SHORE_OFF, words::SHORE_DO.to_owned()));
    }
    if !desk.of_kind(kind::CYLINDER).is_empty() {
        lines.push((System::Gas, words::GAS_OFF, words::GAS_DO.to_owned()));
    }
    if !labels::burners(desk).is_empty() {
        lines.push((System::Heat, words::FUEL_HEATER, words::FUEL_HEATER_DO.to_owned()));
    }
    let alarms = names(desk, kind::ALARM);
    let alarms = if alarms.is_empty() { words::ALARMS_NONE.to_owned() } else { alarms.join(", ") };
    lines.push((System::Safety, words::ALARMS, joined(&[alarms, words::ALARM_DO.to_owned()])));
    lines.push((System::Safety, words::MONOXIDE, words::MONOXIDE_DO.to_owned()));
    lines.push((System::Safety, words::FIRE, fire(desk)));
    lines.push((System::Whole, words::MASS, mass(desk)));
    lines.push((System::Whole, words::BEFORE, words::BEFORE_DO.to_owned()));
    let frost = frost(desk);
    if !frost.is_empty() {
        lines.push((System::Water, words::FROST, frost));
    }
    lines.push((System::Direct, words::FUSES, words::FUSES_DO.to_owned()));
    lines.push((System::Whole, words::SERVICE, words::SERVICE_DO.to_owned()));
    lines.push((System::Whole, words::BUILT, head.revision.clone()));
    lines
}

/// Sentences one behind the other.
fn joined(sentences: &[String]) -> String {
    sentences.iter().map(|text| report::sentence(text)).collect::<Vec<_>>().join(" ")
}

/// The names of all parts of a kind, with where they are.
pub fn names(desk: &mut Desk<'_, '_>, of: vocabulary::PartKind) -> Vec<String> {
    let parts = desk.of_kind(of);
    parts
        .iter()
        .map(|part| {
            let side = desk.said(*part, "side");
            let name = desk.name(*part);
            match side.value {
                Value::Text(side) => format!("{name} ({side})"),
                _ => name,
            }
        })
        .collect()
}

/// The switches that take the batteries off.
fn switches(desk: &mut Desk<'_, '_>) -> String {
    let switches: Vec<PartId> = desk.of_kind(kind::DISCONNECT).to_vec();
    if switches.is_empty() {
        return words::NO_SWITCH.to_owned();
    }
    let told: Vec<String> = switches
        .into_iter()
        .map(|switch| {
            let name = desk.name(switch);
            match desk.said(switch, "reach").value {
                Value::Text(reach) => format!("{name} ({} {reach})", words::REACH),
                _ => name,
            }
        })
        .collect();
    joined(&[told.join(", ")])
}

fn fire(desk: &mut Desk<'_, '_>) -> String {
    let mut sentences = vec![words::FIRE_DO.to_owned()];
    let extinguishers: Vec<PartId> = desk.of_kind(kind::EXTINGUISHER).to_vec();
    for extinguisher in extinguishers {
        let mut told = words::EXTINGUISHER.to_owned();
        let rating = desk.said(extinguisher, "rating");
        if !rating.is_empty() {
            told.push(' ');
            told.push_str(&show::shown(&rating, desk.review.units));
        }
        sentences.push(told);
    }
    joined(&sentences)
}

fn mass(desk: &mut Desk<'_, '_>) -> String {
    let mass = desk.build.only(kind::VEHICLE).and_then(|vehicle| desk.number(vehicle, fact::vehicle::GROSS_MASS));
    match mass {
        Some(mass) => {
            let units = desk.review.units;
            let told = match super::as_built::weighed_in_all(desk) {
                Some((built, _)) => format!(
                    "{} {}, {}",
                    words::MASS_WEIGHED,
                    show::number(built, Dimension::MASS, units),
                    words::MASS_WEIGHED_DO
                ),
                None => words::MASS_DO.to_owned(),
            };
            joined(&[show::number(mass, Dimension::MASS, units), told])
        }
        None => words::MASS_UNKNOWN.to_owned(),
    }
}

fn frost(desk: &mut Desk<'_, '_>) -> String {
    let mut sentences = Vec::new();
    if !desk.of_kind(kind::WATER_LINE).is_empty() {
        sentences.push(words::FROST_DO.to_owned());
    }
    let batteries: Vec<PartId> = desk.of_kind(kind::BATTERY).to_vec();
    for battery in batteries {
        if !desk.is(battery, "chemistry", "LFP") {
            continue;
        }
        if let Some(above) = desk.number(battery, fact::battery::CHARGE_ABOVE) {
            let above = show::number(above, Dimension::TEMPERATURE, desk.review.units);
            sentences.push(format!(
                "{}: {} {above}",
                desk.build.part(battery).title,
                words::CHARGE_COLD.to_lowercase()
            ));
        }
    }
    joined(&sentences)
}
