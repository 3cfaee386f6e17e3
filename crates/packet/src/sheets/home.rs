//! Heat, moisture, water and frost.

use super::facts::{FactTable, Group, outermost};
use super::{Made, made};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Value};
use crate::words::home as words;
use design::PartId;
use vocabulary::kind;

/// What each living space loses and what warms it.
pub const HEAT: FactTable = FactTable {
    id: "heat-loss",
    title: words::HEAT,
    purpose: words::HEAT_PURPOSE,
    kinds: &[kind::ZONE],
    group: Group::Nothing,
    shown: &[
        ("air-reckoned", words::FRESH_AIR),
        ("mean-u", words::MEAN_U),
        ("heat-loss-at-least", words::LOSS_AT_LEAST),
        ("heat-loss", words::LOSS),
        ("heat-loss-at-most", words::LOSS_AT_MOST),
        ("mild-heat-loss", words::MILD_LOSS),
        ("heating", words::HEATING),
        ("least-heating", words::LEAST_HEATING),
        ("heaters-run", words::RUN),
        ("warm-up-at-least", words::WARM_UP),
        ("warm-up-likely", words::WARM_UP_LIKELY),
        ("fuel-a-day", words::FUEL),
        ("gas-lasts", words::GAS_LASTS),
        ("cooling-load", words::COOLING_LOAD),
        ("cooling", words::COOLING),
    ],
    nothing: words::NO_HEAT,
};

/// The faces and windows with their heat transfer.
pub const FACES: FactTable = FactTable {
    id: "faces",
    title: words::FACES,
    purpose: words::FACES_PURPOSE,
    kinds: &[kind::SHELL, kind::WINDOW],
    group: Group::Kind,
    shown: &[
        ("area", words::AREA),
        ("u-at-least", words::U_AT_LEAST),
        ("u-likely", words::U_LIKELY),
        ("u-at-most", words::U_AT_MOST),
        ("u-at-night", words::U_AT_NIGHT),
        ("lining-tested", words::LINING),
    ],
    nothing: words::NO_FACE,
};

/// The air while people sleep.
pub const NIGHT: FactTable = FactTable {
    id: "night-air",
    title: words::NIGHT,
    purpose: words::NIGHT_PURPOSE,
    kinds: &[kind::ZONE],
    group: Group::Nothing,
    shown: &[
        ("sleepers-here", words::SLEEPERS),
        ("vapour-a-night", words::VAPOUR),
        ("night-humidity", words::HUMIDITY),
        ("dew-point", words::DEW_POINT),
        ("carbon-dioxide-asleep", words::CARBON_DIOXIDE),
    ],
    nothing: words::NO_NIGHT,
};

/// Where water condenses.
pub const MOISTURE: FactTable = FactTable {
    id: "moisture",
    title: words::MOISTURE,
    purpose: words::MOISTURE_PURPOSE,
    kinds: &[kind::SHELL, kind::WINDOW],
    group: Group::Kind,
    shown: &[
        ("inside-temperature", words::INSIDE),
        ("rib-temperature", words::RIB),
        ("dew-point", words::DEW_POINT),
        ("mould-humidity", words::MOULD),
        ("vapour-open", words::VAPOUR_OPEN),
        ("vapour-thickness", words::HOLDS_BACK),
    ],
    nothing: words::NO_NIGHT,
};

/// The stores of water.
pub const STORES: FactTable = FactTable {
    id: "water-stores",
    title: words::STORES,
    purpose: words::STORES_PURPOSE,
    kinds: &[kind::TANK, kind::BOILER],
    group: Group::Kind,
    shown: &[
        ("holds", words::HOLDS),
        ("volume", words::VOLUME),
        ("box-volume", words::BOX_VOLUME),
        ("standing-zone", words::ZONE),
        ("wanted", words::WANTED),
        ("survival", words::SURVIVAL),
        ("all-fresh", words::ALL_FRESH),
        ("all-used", words::ALL_USED),
        ("air-speed", words::AIR_SPEED),
        ("temperature", words::TEMPERATURE),
        ("hot-growth", words::GROWTH),
        ("room-to-grow", words::ROOM),
    ],
    nothing: words::NO_WATER,
};

/// The pieces of the water lines.
pub const LINES: FactTable = FactTable {
    id: "water-lines",
    title: words::LINES,
    purpose: words::LINES_PURPOSE,
    kinds: &[kind::PUMP, kind::PIPE, kind::TAP, kind::SHOWER, kind::PRESSURE_VESSEL, kind::WATER_INLET, kind::DRAIN],
    group: Group::Outer,
    shown: &[
        ("size", words::SIZE),
        ("bore", words::BORE),
        ("material", words::MATERIAL),
        ("one-way", words::LENGTH),
        ("flow", words::FLOW),
        ("most-flow", words::MOST_FLOW),
        ("speed", words::SPEED),
        ("pressure-left", words::PRESSURE_LEFT),
        ("open-flow", words::OPEN_FLOW),
        ("cut-in", words::CUT_IN),
        ("cut-out", words::CUT_OUT),
        ("gives", words::GIVES),
        ("lift", words::LIFT),
        ("suction-limit", words::SUCTION_LIMIT),
        ("suction-loss", words::SUCTION_LOSS),
        ("lowest", words::LOWEST),
    ],
    nothing: words::NO_LINE,
};

/// What carries used water away.
pub const WASTE: FactTable = FactTable {
    id: "waste-lines",
    title: words::WASTE,
    purpose: words::WASTE_PURPOSE,
    kinds: &[kind::WASTE_LINE],
    group: Group::Nothing,
    shown: &[
        ("to", words::TO),
        ("serves", words::SERVES),
        ("bore", words::BORE),
        ("one-way", words::LENGTH),
        ("fall", words::FALL),
        ("slope", words::SLOPE),
        ("trap", words::TRAP),
        ("clean-out", words::CLEAN_OUT),
    ],
    nothing: words::NO_WASTE,
};

/// What may freeze, and what is done against it.
pub const FROST: FactTable = FactTable {
    id: "frost",
    title: words::FROST,
    purpose: words::FROST_PURPOSE,
    kinds: &[kind::TANK, kind::PIPE, kind::PUMP, kind::WASTE_LINE, kind::WATER_LINE, kind::BOILER],
    group: Group::Kind,
    shown: &[
        ("meets-frost", words::MEETS_FROST),
        ("standing-zone", words::ZONE),
        ("in-frost", words::IN_FROST),
        ("insulation", words::INSULATION),
        ("freezes-after", words::FREEZES_AFTER),
        ("holding-power", words::HOLDING),
        ("pad-power", words::PADS),
        ("trace-needed", words::TRACE_NEEDED),
        ("trace", words::TRACE),
        ("low-drain", words::LOW_DRAIN),
        ("drain", words::DRAIN),
    ],
    nothing: words::NO_WATER,
};

pub fn heat(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = HEAT.sheet(desk, |desk, zone| desk.is_so(zone, "heat-asked") || desk.is_so(zone, "cooling-asked"));
    for row in &mut sheet.rows {
        let Some(zone) = row.part.as_ref().map(|part| PartId(part.number)) else { continue };
        // What is not asked of a space is no open question of it.
        let asked = [desk.is_so(zone, "heated-by-gas"), desk.is_so(zone, "cooling-asked")];
        let warms = desk.is_so(zone, "warm-up-asked");
        for (cell, column) in row.cells.iter_mut().zip(&sheet.columns) {
            let is_asked = match column.key {
                "warm-up-at-least" | "warm-up-likely" => warms,
                "gas-lasts" => asked[0],
                "cooling" | "cooling-load" => asked[1],
                _ => true,
            };
            if !is_asked {
                *cell = Cell::empty();
            }
        }
    }
    sheet.notes = vec![words::NOTE_HEAT.to_owned()];
    made(sheet, HEAT.nothing)
}

pub fn faces(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = FACES.sheet(desk, |_, _| true);
    sheet.notes = vec![words::NOTE_FACES.to_owned()];
    made(sheet, FACES.nothing)
}

pub fn night(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let sheet = NIGHT.sheet(desk, |desk, zone| desk.is_so(zone, "night-asked"));
    made(sheet, NIGHT.nothing)
}

pub fn moisture(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = MOISTURE.sheet(desk, |desk, part| desk.is_so(part, "night-air-known"));
    sheet.notes = vec![words::NOTE_MOISTURE.to_owned()];
    made(sheet, MOISTURE.nothing)
}

/// Tanks of fuel are no stores of water.
fn is_water(desk: &mut Desk<'_, '_>, part: PartId) -> bool {
    desk.build.part(part).kind != kind::TANK || !matches!(desk.fact_named(part, "is-water").value, Value::Flag(false))
}

pub fn stores(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let sheet = STORES.sheet(desk, is_water);
    made(sheet, STORES.nothing)
}

/// Pipes of gas stand in the same kind; what stands in no line is told all the same.
fn in_water_line(desk: &mut Desk<'_, '_>, part: PartId) -> bool {
    let line = outermost(desk, part);
    desk.build.part(line).kind != kind::GAS_LINE
}

pub fn lines(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = LINES.sheet(desk, in_water_line);
    for row in &mut sheet.rows {
        let Some(part) = row.part.as_ref().map(|part| PartId(part.number)) else { continue };
        // Without its maker's limit the suction side is no open question.
        if !desk.is_so(part, "suction-asked") {
            for (cell, column) in row.cells.iter_mut().zip(&sheet.columns) {
                if column.key == "suction-loss" {
                    *cell = Cell::empty();
                }
            }
        }
    }
    made(sheet, LINES.nothing)
}

pub fn waste(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    WASTE.made(desk)
}

pub fn frost(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = FROST.sheet(desk, |desk, part| is_water(desk, part) && in_water_line(desk, part));
    sheet.notes = vec![words::NOTE_FROST.to_owned()];
    made(sheet, FROST.nothing)
}
