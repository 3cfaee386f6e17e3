//! The gas sheets: cylinders and their spaces, lines, pipes, and what burns at their ends.

use super::Made;
use super::facts::{FactTable, Group};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::Value;
use crate::words::gas as words;
use vocabulary::kind;

/// Cylinders, and what else holds gas.
pub const STORES: FactTable = FactTable {
    id: "gas-stores",
    title: words::STORES,
    purpose: words::STORES_PURPOSE,
    kinds: &[kind::CYLINDER, kind::CARTRIDGE],
    group: Group::Kind,
    shown: &[
        ("gas", words::GAS),
        ("content", words::CONTENT),
        ("standing-zone", words::STANDS_IN),
        ("upright", words::UPRIGHT),
        ("fixings", words::FIXINGS),
        ("on-the-road", words::ON_THE_ROAD),
        ("sealed-from-living", words::SEALED),
        ("stops-in-crash", words::STOPS_IN_CRASH),
        ("share-of-limit", words::SHARE_OF_LIMIT),
    ],
    nothing: words::NOTHING,
};

/// The spaces that cylinders stand in.
pub const LOCKERS: FactTable = FactTable {
    id: "gas-lockers",
    title: words::LOCKERS,
    purpose: words::LOCKERS_PURPOSE,
    kinds: &[kind::ZONE],
    group: Group::Nothing,
    shown: &[
        ("cylinders", words::CYLINDERS),
        ("floor-area", words::FLOOR_AREA),
        ("fixed-low", words::FIXED_LOW),
        ("drained", words::DRAINED),
        ("openings-suffice", words::SUFFICE),
        ("sealed", words::SEALED),
        ("reached", words::REACHED),
        ("sill", words::SILL),
        ("ignition-sources", words::IGNITION),
    ],
    nothing: words::NO_LOCKER,
};

/// The lines with their connected load and how their tightness is tested.
pub const LINES: FactTable = FactTable {
    id: "gas-lines",
    title: words::LINES,
    purpose: words::LINES_PURPOSE,
    kinds: &[kind::GAS_LINE],
    group: Group::Nothing,
    shown: &[
        ("from", words::FROM),
        ("fed", words::FED),
        ("connected-load", words::CONNECTED_LOAD),
        ("gas-flow", words::GAS_FLOW),
        ("cylinder-gives", words::CYLINDER_GIVES),
        ("longest", words::LONGEST),
        ("regulated", words::REGULATED),
        ("stops-in-crash", words::STOPS_IN_CRASH),
        ("tightness-test", words::TIGHTNESS),
        ("tested", words::TESTED),
        ("test-due", words::TEST_DUE),
        ("also-from", words::ALSO_FROM),
    ],
    nothing: words::NOTHING,
};

/// The pipes, hoses and regulators of the lines.
pub const PIPES: FactTable = FactTable {
    id: "gas-pipes",
    title: words::PIPES,
    purpose: words::PIPES_PURPOSE,
    kinds: &[kind::REGULATOR, kind::HOSE, kind::PIPE, kind::VALVE, kind::UNION, kind::SOLENOID],
    group: Group::Outer,
    shown: &[
        ("size", words::SIZE),
        ("wall", words::WALL),
        ("material", words::MATERIAL),
        ("bore", words::BORE),
        ("one-way", words::LENGTH),
        ("gas-load", words::LOAD_BEHIND),
        ("gas-capacity", words::CARRIES),
        ("pressure", words::GIVES),
        ("capacity", words::LETS_THROUGH),
        ("gas-flow", words::GAS_FLOW),
        ("replace-by", words::REPLACE_BY),
        ("reach", words::REACH),
        ("joints", words::JOINTS),
        ("supports", words::SUPPORTS),
        ("zone", words::LIES_IN),
        ("passes", words::PASSES),
        ("edge", words::EDGE),
        ("encapsulated", words::ENCAPSULATED),
        ("excess-flow", words::EXCESS_FLOW),
        ("closes-within", words::CLOSES_WITHIN),
    ],
    nothing: words::NOTHING,
};

/// What burns at the ends of the lines, and at which pressure.
pub const APPLIANCES: FactTable = FactTable {
    id: "gas-appliances",
    title: words::APPLIANCES,
    purpose: words::APPLIANCES_PURPOSE,
    kinds: &[kind::FEEDS],
    group: Group::Outer,
    shown: &[
        ("thing", words::APPLIANCE),
        ("gas-load", words::TAKES),
        ("supply-pressure", words::SUPPLY_PRESSURE),
        ("rated-pressure", words::RATED_PRESSURE),
        ("pressure-lost", words::PRESSURE_LOST),
        ("has-regulator", words::HAS_REGULATOR),
        ("has-valve", words::HAS_VALVE),
        ("valve-reach", words::VALVE_REACH),
        ("has-union", words::HAS_UNION),
        ("enters", words::ENTERS),
    ],
    nothing: words::NOTHING,
};

pub fn stores(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    STORES.made(desk)
}

pub fn lockers(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let sheet = LOCKERS.sheet(desk, |desk, zone| {
        matches!(desk.fact(zone, vocabulary::fact::zone::GAS_LOCKER).value, Value::Flag(true))
    });
    super::made(sheet, LOCKERS.nothing)
}

pub fn lines(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = LINES.sheet(desk, |_, _| true);
    sheet.notes = vec![words::NOTE_LOAD.to_owned()];
    super::made(sheet, LINES.nothing)
}

pub fn pipes(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    // Pipes and valves of water stand in the same kinds.
    let sheet = PIPES.sheet(desk, |desk, part| {
        let line = super::facts::outermost(desk, part);
        desk.build.part(line).kind == kind::GAS_LINE
    });
    super::made(sheet, PIPES.nothing)
}

pub fn appliances(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    APPLIANCES.made(desk)
}
