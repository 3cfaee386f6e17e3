//! What stands around and below the vehicle: the engine's exhaust, awnings, ramps, spaces that stay free.

use super::Made;
use super::facts::{FactTable, Group};
use crate::desk::Desk;
use crate::head::Head;
use crate::words::around as words;
use vocabulary::kind;

/// The engine's exhaust, awnings, ramps, and spaces that stay free.
pub const AROUND: FactTable = FactTable {
    id: "around",
    title: words::AROUND,
    purpose: words::AROUND_PURPOSE,
    kinds: &[kind::ENGINE_EXHAUST, kind::AWNING, kind::RAMP, kind::KEPT_FREE],
    group: Group::Kind,
    shown: &[
        ("fuel", words::FUEL),
        ("mouth", words::MOUTH),
        ("ahead-of-rear", words::AHEAD_OF_REAR),
        ("openings-above", words::OPENINGS_ABOVE),
        ("gas-near", words::GAS_NEAR),
        ("shielded", words::SHIELDED),
        ("open-sides", words::OPEN_SIDES),
        ("reason", words::REASON),
        ("things-inside", words::THINGS_INSIDE),
        ("to", words::LEADS_TO),
        ("length", words::LENGTH),
        ("clear-width", words::CLEAR_WIDTH),
        ("slope", words::SLOPE),
    ],
    nothing: words::NOTHING,
};

pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    AROUND.made(desk)
}
