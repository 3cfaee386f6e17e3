//! What a unit in which people work may have before its plans have to be approved.
//!
//! WAC 296-150V-0300 (1) and RCW 43.22.360 (2)(a) list what has the plans of a conversion vendor unit approved in Washington (both read,
//! stored copies): a concentrated load above 500 lb, gas piping, solid fuel, fire suppression, commercial hoods, more than 30 A at 120 V,
//! more than five circuits, photovoltaic or other alternative energy, and drains for solid or bodily waste. WAC 296-150V-0930 (1) says
//! over which area a load on the floor is concentrated.

use crate::citation::{Citation, Mark};

/// The most that a unit may have without its plans being approved ([`PLAN_APPROVAL`]).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlanLimits {
    /// Current of each supply from a site, A.
    pub current: f64,
    /// Voltage of each supply, V: what is called 120 V is marked up to 125 V on inlets and outlets (common practice).
    pub voltage: f64,
    /// Power of each source of alternating current aboard, W: 30 A at 120 V.
    pub power: f64,
    /// Circuits.
    pub circuits: f64,
    /// Mass on a small part of the floor, kg: 500 lb.
    pub load: f64,
    /// The part of the floor on which such a load is concentrated, m²: 16 ft².
    pub load_area: f64,
}

/// 1 lb in kg, exact.
const POUND: f64 = 0.453_592_37;

/// 1 ft in m, exact.
const FOOT: f64 = 0.3048;

/// The limits of [`PLAN_APPROVAL`] and [`FLOOR_LOAD`].
pub const PLAN_LIMITS: PlanLimits = PlanLimits {
    current: 30.0,
    voltage: 125.0,
    power: 30.0 * 120.0,
    circuits: 5.0,
    load: 500.0 * POUND,
    load_area: 16.0 * FOOT * FOOT,
};

/// What has plans approved.
pub static PLAN_APPROVAL: Citation = Citation {
    document: "WAC 296-150V-0300",
    place: "(1)(a) to (i)",
    edition: "as filed in 2016",
    mark: Mark::Read,
    address: "https://app.leg.wa.gov/WAC/default.aspx?cite=296-150V-0300",
};

/// Which load on a floor is concentrated.
pub static FLOOR_LOAD: Citation = Citation {
    document: "WAC 296-150V-0930",
    place: "(1)",
    edition: "as filed in 1999",
    mark: Mark::Read,
    address: "https://app.leg.wa.gov/WAC/default.aspx?cite=296-150V-0930",
};

/// The load on a floor by area, kg/m²; nothing where either is no usable number.
#[must_use]
pub fn load_by_area(mass: f64, area: f64) -> Option<f64> {
    let usable = mass.is_finite() && mass >= 0.0 && area.is_finite() && area > 0.0;
    let load = mass / area;
    (usable && load.is_finite()).then_some(load)
}
