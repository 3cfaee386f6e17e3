//! Ventilation: spaces with their openings and the air that flames take, and every vent.

use super::Made;
use super::facts::{FactTable, Group};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Row, Sheet, Value};
use crate::words::air as words;
use design::PartId;
use vocabulary::kind;

/// The spaces.
pub const SPACES: FactTable = FactTable {
    id: "spaces",
    title: words::SPACES,
    purpose: words::SPACES_PURPOSE,
    kinds: &[kind::ZONE],
    group: Group::Nothing,
    shown: &[
        ("kind", words::KIND),
        ("ambient", words::AMBIENT),
        ("open-flames", words::OPEN_FLAMES),
        ("free-area", words::FREE_AREA),
        ("fixed-low", words::FIXED_LOW),
        ("low-needed", words::LOW_NEEDED),
        ("low-due", words::LOW_DUE),
        ("fixed-high", words::FIXED_HIGH),
        ("high-needed", words::HIGH_NEEDED),
        ("high-due", words::HIGH_DUE),
        ("air-proof", words::AIR_PROOF),
        ("fixed-total", words::FIXED_TOTAL),
        ("total-needed", words::TOTAL_NEEDED),
        ("flame-air", words::FLAME_AIR),
        ("stack-air", words::STACK_AIR),
        ("fan-flow", words::FAN_FLOW),
        ("fan-suction", words::FAN_SUCTION),
        ("carbon-monoxide-in-an-hour", words::MONOXIDE),
    ],
    nothing: words::NO_SPACE,
};

/// The vents, fans and hoods.
pub const VENTS: FactTable = FactTable {
    id: "vents",
    title: words::VENTS,
    purpose: words::VENTS_PURPOSE,
    kinds: &[kind::VENT, kind::FAN, kind::HOOD],
    group: Group::Kind,
    shown: &[
        ("height", words::HEIGHT),
        ("kind", words::KIND),
        ("free-area", words::FREE_AREA),
        ("to", words::LEADS_TO),
        ("closable", words::CLOSABLE),
        ("above-floor", words::ABOVE_FLOOR),
        ("below-ceiling", words::BELOW_CEILING),
        ("airs-flames", words::AIRS_FLAMES),
        ("flow", words::FLOW),
        ("distance", words::FROM_COOKER),
        ("at", words::AT),
    ],
    nothing: words::NO_VENT,
};

/// The mouths of exhausts and intakes.
pub const TERMINALS: FactTable = FactTable {
    id: "terminals",
    title: words::TERMINALS,
    purpose: words::TERMINALS_PURPOSE,
    kinds: &[kind::EXHAUST, kind::INTAKE],
    group: Group::Kind,
    shown: &[
        ("burns", words::BURNS),
        ("material", words::MATERIAL),
        ("mouth", words::MOUTH),
        ("at", words::AT),
        ("opening-distance", words::OPENING_DISTANCE),
        ("opening-above", words::OPENING_ABOVE),
        ("intake-distance", words::INTAKE_DISTANCE),
        ("inside-edge", words::INSIDE_EDGE),
        ("petrol-distance", words::PETROL_DISTANCE),
    ],
    nothing: words::NO_TERMINAL,
};

/// What is asked of a space for the flames in it.
const OF_FLAMES: [&str; 5] = ["low-needed", "high-needed", "total-needed", "flame-air", "carbon-monoxide-in-an-hour"];

/// What is asked of a space for the people in it.
const OF_PEOPLE: [&str; 2] = ["low-due", "high-due"];

pub fn spaces(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    // The open air needs no openings.
    let inside = |desk: &mut Desk<'_, '_>, zone| !desk.is(zone, "kind", "outside") && !desk.is(zone, "kind", "roof");
    let mut sheet = SPACES.sheet(desk, inside);
    // It is a text of Europe alone that asks openings for people.
    let regions = desk.build.regions;
    let zones = desk.of_kind(kind::ZONE).iter().filter(|_| regions.eu || regions.uk);
    let people: Vec<u32> = zones
        .filter(|zone| desk.is_so(**zone, "whole-living-space") && desk.is_so(**zone, "slept-aboard"))
        .map(|zone| zone.0)
        .collect();
    for row in &mut sheet.rows {
        let burns = |row: &Row| {
            row.cells.iter().zip(&sheet.columns).any(|(cell, column)| column.key == "open-flames" && !cell.is_empty())
        };
        // Openings are asked for open flames, else for people, else not at all.
        let burns = burns(row);
        let slept = row.part.as_ref().is_some_and(|part| people.contains(&part.number));
        for (cell, column) in row.cells.iter_mut().zip(&sheet.columns) {
            if !burns && OF_FLAMES.contains(&column.key) || (burns || !slept) && OF_PEOPLE.contains(&column.key) {
                *cell = Cell::empty();
            }
        }
    }
    sheet.notes = vec![words::NOTE_FIXED.to_owned(), words::NOTE_MONOXIDE.to_owned()];
    super::made(sheet, SPACES.nothing)
}

/// A vent belongs to the space that it is written in.
pub fn vents(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = VENTS.sheet(desk, |_, _| true);
    named_by_outer(desk, &mut sheet);
    super::made(sheet, VENTS.nothing)
}

pub fn terminals(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = TERMINALS.sheet(desk, |_, _| true);
    named_by_outer(desk, &mut sheet);
    super::made(sheet, TERMINALS.nothing)
}

/// A piece without a name of its own is told with what it is a piece of: `vent in zone "cabin"`.
fn named_by_outer(desk: &Desk<'_, '_>, sheet: &mut Sheet) {
    for row in &mut sheet.rows {
        let Some(part) = &mut row.part else { continue };
        if desk.build.part(PartId(part.number)).name.is_none() {
            part.name.clone_from(&part.title);
            let named = Value::Parts { parts: vec![part.clone()], complete: true };
            if let Some(first) = row.cells.first_mut() {
                first.value = named;
            }
        }
    }
}
