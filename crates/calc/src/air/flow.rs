//! Air through fixed openings: by warmth (the smaller opening governs) and by a fan.
//!
//! Orifice flow Q = Cd·A·√(2Δp/ρ) and the stack effect, textbook hydraulics. Cd = 0.6 for sharp-edged openings. Mark: computed.

use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive};

/// Where the flow comes from.
pub static OPENING_FLOW: Citation = Citation {
    document: "orifice and stack flow",
    place: "Q = 0.6·A·√(2·g·h·ΔT/T), two openings in series",
    edition: "",
    mark: Mark::Computed,
    address: "",
};

const DISCHARGE: f64 = 0.6;
const GRAVITY: f64 = 9.806_65;
/// Density of air at 20 °C and one atmosphere, kg/m³.
const AIR_DENSITY: f64 = 1.204;

/// The area of one opening that lets as much through as two in a row, m²: 1/√(1/A₁² + 1/A₂²). An opening of no area lets nothing through.
#[must_use]
pub fn effective_area(one: f64, other: f64) -> Option<f64> {
    if !(not_negative(one) && not_negative(other)) {
        return None;
    }
    if one == 0.0 || other == 0.0 { Some(0.0) } else { finite(one * (other / one.hypot(other))) }
}

/// Air that warmth drives in through the low and out through the high openings, m³/s: areas m², height between their middles m, air inside and
/// outside K. The temperature under the root is the mean of both. None flows where it is not warmer inside.
#[must_use]
pub fn stack_flow(low: f64, high: f64, height: f64, inside_kelvin: f64, outside_kelvin: f64) -> Option<f64> {
    if !(not_negative(height) && positive(inside_kelvin) && positive(outside_kelvin)) {
        return None;
    }
    let warmer = (inside_kelvin - outside_kelvin).max(0.0);
    let mean = f64::midpoint(inside_kelvin, outside_kelvin);
    finite(DISCHARGE * effective_area(low, high)? * (2.0 * GRAVITY * height * warmer / mean).sqrt())
}

/// Suction that a fan makes in a space whose air comes in through openings of this area, Pa: ρ/2·(Q/(Cd·A))². `None` without an opening: then the
/// suction is the fan's own, which is not known here.
#[must_use]
pub fn fan_suction(flow: f64, open_area: f64) -> Option<f64> {
    if !(not_negative(flow) && positive(open_area)) {
        return None;
    }
    let speed = flow / (DISCHARGE * open_area);
    finite(AIR_DENSITY / 2.0 * speed * speed)
}
