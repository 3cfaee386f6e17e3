//! What tests of a finished vehicle are held against where the design itself gives no number.

use crate::citation::{Citation, Mark};

/// The least insulation of live conductors to earth, Ω.
pub const LEAST_INSULATION: f64 = 1e6;
/// Where that comes from.
pub const INSULATION_SOURCE: Citation =
    Citation { document: "BS 7671", place: "Table 64, up to 500 V", edition: "2018", mark: Mark::Memory, address: "" };
/// The longest time in which a residual-current device trips at its rated current, s.
pub const LONGEST_TRIP: f64 = 0.3;
/// Where that comes from.
pub const TRIP_SOURCE: Citation =
    Citation { document: "BS 7671", place: "Table 3A, general type", edition: "2018", mark: Mark::Memory, address: "" };
/// How far a public supply may be off its nominal voltage, as a part of it.
pub const SUPPLY_BAND: f64 = 0.10;
/// Where that comes from.
pub const SUPPLY_SOURCE: Citation = Citation {
    document: "EN 50160",
    place: "supply voltage variations",
    edition: "2010",
    mark: Mark::Memory,
    address: "",
};
/// How far a filled volume may be off what a tank is said to hold, as a part of it: what filler and vent leave, chosen.
pub const VOLUME_BAND: f64 = 0.10;
/// The pressure that a tight gas system loses while it is tested, Pa.
pub const PRESSURE_LOST: f64 = 0.0;

/// The band around a value: least and most.
#[must_use]
pub fn band(value: f64, part: f64) -> [f64; 2] {
    [value - part * value.abs(), value + part * value.abs()]
}
