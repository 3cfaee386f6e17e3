//! Warm air in its ducts, converters in the warmth of their compartment, and holes through the skin.

use super::facts::{FactTable, Group};
use super::{Made, made};
use crate::desk::Desk;
use crate::head::Head;
use crate::words::warmth as words;
use vocabulary::kind;

/// Heaters that blow warm air, and where it comes out.
pub const DUCTS: FactTable = FactTable {
    id: "warm-air",
    title: words::DUCTS,
    purpose: words::DUCTS_PURPOSE,
    kinds: &[kind::HEATER, kind::WARM_AIR],
    group: Group::Kind,
    shown: &[
        ("air-flow", words::AIR_FLOW),
        ("air-moved", words::AIR_MOVED),
        ("blown-at", words::BLOWN_AT),
        ("delivered", words::DELIVERED),
        ("warmed-zone", words::WARMS),
        ("duct", words::DUCT),
        ("bore", words::BORE),
        ("bends", words::BENDS),
        ("through", words::THROUGH),
        ("insulation", words::INSULATION),
        ("air-share", words::AIR_SHARE),
        ("sent", words::SENT),
        ("lost", words::LOST),
        ("arrives", words::ARRIVES),
    ],
    nothing: words::NO_DUCT,
};

/// Compartments with converters in them, and inverters whose maker tells what they give in warm air.
pub const COMPARTMENTS: FactTable = FactTable {
    id: "compartments",
    title: words::COMPARTMENTS,
    purpose: words::COMPARTMENTS_PURPOSE,
    kinds: &[kind::ZONE, kind::INVERTER, kind::INVERTER_CHARGER],
    group: Group::Kind,
    shown: &[
        ("ambient", words::AMBIENT),
        ("device-heat", words::DEVICE_HEAT),
        ("air-inside", words::AIR_INSIDE),
        ("asked-for-long", words::ASKED),
        ("air-around", words::AIR_AROUND),
        ("given-in-warmth", words::GIVEN),
    ],
    nothing: words::NO_COMPARTMENT,
};

/// Holes through the skin.
pub const HOLES: FactTable = FactTable {
    id: "holes",
    title: words::HOLES,
    purpose: words::HOLES_PURPOSE,
    kinds: &[kind::HOLE],
    group: Group::Outer,
    shown: &[
        ("carries", words::CARRIES),
        ("sealed-with", words::SEALED),
        ("edge", words::EDGE),
        ("foam-cut-back", words::FOAM),
        ("reach", words::REACH),
    ],
    nothing: words::NO_HOLE,
};

pub fn ducts(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let sheet = DUCTS.sheet(desk, |desk, part| desk.is_so(part, "ducts-told") || desk.is_so(part, "ducted"));
    made(sheet, DUCTS.nothing)
}

pub fn compartments(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet =
        COMPARTMENTS.sheet(desk, |desk, part| desk.is_so(part, "warmth-asked") || desk.is_so(part, "derating-asked"));
    sheet.notes = vec![words::NOTE_COMPARTMENTS.to_owned()];
    made(sheet, COMPARTMENTS.nothing)
}

pub fn holes(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    HOLES.made(desk)
}
