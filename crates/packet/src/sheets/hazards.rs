//! The hazard register: what aboard can hurt somebody, how much of it there is, and what holds it in check.

use super::{Made, directory, made, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::marks::Standing;
use crate::sheet::{Cell, Column, Kind, Value, column};
use crate::show;
use crate::words::{american, column as heading, hazards as words};
use design::PartId;
use quantity::Dimension;
use vocabulary::{fact, kind};

/// From this mass a thing is listed as heavy, kg (chosen).
const HEAVY: f64 = 10.0;

const COLUMNS: &[Column] = &[
    column("part", heading::PART, Kind::Part),
    column("hazard", words::HAZARD, Kind::Text),
    column("how-much", words::HOW_MUCH, Kind::Text),
    column("place", heading::PLACE, Kind::Text),
    column("held-by", words::HELD_BY, Kind::Text),
    column("open-findings", words::OPEN, Kind::Text),
    column("checked", words::CHECKED, Kind::ByHand),
];

/// What can hurt somebody, kind by kind.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("hazards", words::TITLE, words::PURPOSE, COLUMNS);
    for part in desk.things() {
        if let Some((hazard, how_much, held_by)) = hazard(desk, part) {
            let row = row(desk, part, hazard, &how_much, &held_by);
            sheet.rows.push(row);
        }
    }
    for part in desk.things() {
        if let Some((how_much, held_by)) = heavy(desk, part) {
            let row = row(desk, part, words::HEAVY, &how_much, &held_by);
            sheet.rows.push(row);
        }
    }
    sheet.notes = vec![words::NOTE_HEAVY.to_owned()];
    made(sheet, words::NOTHING)
}

fn row(
    desk: &mut Desk<'_, '_>,
    part: PartId,
    hazard: &str,
    how_much: &[String],
    held_by: &[String],
) -> crate::sheet::Row {
    let open: Vec<String> = desk
        .marks
        .on(part.0)
        .iter()
        .filter(|mark| mark.standing != Standing::Waived)
        .map(|mark| format!("{} {}", mark.number, mark.signal.word()))
        .collect();
    let held = if held_by.is_empty() { words::NOTHING_SAID.to_owned() } else { held_by.join("; ") };
    let cells = vec![
        desk.part(part),
        Cell::text(hazard),
        Cell::text(how_much.join(", ")),
        directory::place(desk, part),
        Cell::text(held),
        if open.is_empty() { Cell::empty() } else { Cell::text(open.join(", ")) },
        Cell::by_hand(),
    ];
    desk.row(part, cells)
}

/// The hazard of a thing, how much of it, and what holds it in check.
fn hazard(desk: &mut Desk<'_, '_>, part: PartId) -> Option<(&'static str, Vec<String>, Vec<String>)> {
    let pick = |desk: &mut Desk<'_, '_>, names: &[&str]| -> Vec<String> {
        names.iter().filter_map(|name| desk.told(part, name)).collect()
    };
    Some(match desk.build.part(part).kind {
        kind::BATTERY => {
            let mut much = pick(desk, &["chemistry", "voltage", "capacity"]);
            let short = desk.fact(part, fact::battery::SHORT_CIRCUIT_CURRENT);
            much.push(format!("{} {}", show::shown(&short, desk.review.units), words::SHORT));
            let mut held = inside(desk, part, kind::MANAGEMENT, "cuts", words::MANAGEMENT);
            held.extend(inside(desk, part, kind::RESTRAINT, "means", words::RESTRAINT));
            (words::ENERGY, much, held)
        }
        kind::SHORE | kind::GENERATOR | kind::INVERTER | kind::INVERTER_CHARGER => {
            (words::MAINS, pick(desk, &["power", "voltage"]), pick(desk, &["rcd", "neutral-bond"]))
        }
        kind::AC_BOARD => {
            let rcd = desk.told(part, "rcd").map(|rcd| format!("{} {rcd}", american::in_words(desk.build, words::RCD)));
            let earth = desk
                .told(part, "earth-bond")
                .map(|bond| format!("{} {bond}", american::in_words(desk.build, words::EARTHED)));
            (words::MAINS, pick(desk, &["main", "voltage"]), rcd.into_iter().chain(earth).collect())
        }
        kind::CYLINDER => (words::GAS, pick(desk, &["gas", "content"]), alarms(desk, "gas")),
        kind::TANK => {
            let holds = desk.told(part, "holds")?;
            if !matches!(holds.as_str(), "diesel" | "petrol") {
                return None;
            }
            (words::FUEL, pick(desk, &["holds", "volume"]), Vec::new())
        }
        kind::HEATER | kind::COOKER => {
            let fuel = desk.told(part, "fuel").filter(|fuel| fuel != "none")?;
            let mut held = alarms(desk, "carbon-monoxide");
            if desk.told(part, "combustion").as_deref() == Some("sealed") {
                held.insert(0, words::SEALED.to_owned());
            }
            let mut much = vec![fuel];
            much.extend(pick(desk, &["output"]));
            (words::BURNING, much, held)
        }
        kind::SOLAR => {
            let voltage = desk.fact(part, fact::solar::HIGHEST_VOLTAGE);
            (words::SUN, vec![show::shown(&voltage, desk.review.units)], Vec::new())
        }
        _ => return None,
    })
}

fn heavy(desk: &mut Desk<'_, '_>, part: PartId) -> Option<(Vec<String>, Vec<String>)> {
    let spec = vocabulary::part(desk.build.part(part).kind);
    let mass = desk.number(part, spec.fact("mass")?.id).filter(|mass| *mass >= HEAVY)?;
    // The restraints of berths and of the like are not described in this vocabulary: nothing is said of them.
    let held = inside(desk, part, kind::RESTRAINT, "means", words::RESTRAINT);
    Some((vec![show::number(mass, Dimension::MASS, desk.review.units)], held))
}

/// What stands inside a part and holds something in check, in words.
fn inside(desk: &mut Desk<'_, '_>, part: PartId, of: vocabulary::PartKind, name: &str, what: &str) -> Vec<String> {
    let members = desk.build.inside(part, of).members;
    members
        .iter()
        .map(|inner| match desk.told(*inner, name) {
            Some(text) => format!("{what} {text}"),
            None => what.to_owned(),
        })
        .collect()
}

/// The alarms that sense something, named.
fn alarms(desk: &mut Desk<'_, '_>, sense: &str) -> Vec<String> {
    let mut names = Vec::new();
    for &alarm in desk.of_kind(kind::ALARM) {
        if let Value::Text(senses) = desk.said(alarm, "senses").value
            && senses.split(", ").any(|one| one == sense)
        {
            names.push(desk.build.part(alarm).title.to_string());
        }
    }
    names
}
