//! Roofs: what they carry, snow, and the pull of the wind.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_entries, need_not_negative, need_positive, outcome};
use crate::interval::Interval;
use crate::mass::restraint::STANDARD_GRAVITY;
use crate::mass::value::{Bounded, Mass};

/// What is left of a roof's rating kg under the masses on it, kg; below zero where it is overloaded.
///
/// # Errors
/// No mass; a rating below zero.
pub fn roof_margin(rating: f64, masses: &[Mass]) -> Result<Bounded, InputError> {
    let rating = need_not_negative("roof rating", rating)?;
    let mut value = rating;
    let mut bounds = Interval::exact(rating)?;
    for mass in need_entries("masses on the roof", masses)? {
        value -= mass.value();
        bounds = bounds.minus(mass.bounds())?;
    }
    let value = outcome("margin", value)?;
    Ok(Bounded { value, bounds: Interval::new(bounds.least().min(value), bounds.most().max(value))? })
}

/// Zones of roof load of US manufactured homes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RoofZone {
    /// 20 lb/ft².
    South,
    /// 30 lb/ft².
    Middle,
    /// 40 lb/ft².
    North,
}

impl RoofZone {
    /// Roof live load, Pa ([`ROOF_LIVE_LOAD`]).
    #[must_use]
    pub const fn live_load(self) -> f64 {
        /// One pound-force on a square foot, Pa.
        const POUND_PER_SQUARE_FOOT: f64 = 47.880_259;
        match self {
            RoofZone::South => 20.0 * POUND_PER_SQUARE_FOOT,
            RoofZone::Middle => 30.0 * POUND_PER_SQUARE_FOOT,
            RoofZone::North => 40.0 * POUND_PER_SQUARE_FOOT,
        }
    }
}

/// Source of the roof live loads; a benchmark for vehicles.
pub static ROOF_LIVE_LOAD: Citation = Citation {
    document: "24 CFR 3280.305",
    place: "roof live load by zone: 20, 30, 40 lb/ft²",
    edition: "undated copy",
    mark: Mark::Read,
    address: "https://www.manufacturedhousing.org/roof-load-zone-map-3/",
};

/// Mass of snow or standing load on a roof, kg: pressure Pa × area m² over g.
///
/// # Errors
/// Numbers below zero.
pub fn snow_mass(pressure: f64, area: f64) -> Result<f64, InputError> {
    outcome("mass", need_not_negative("load", pressure)? * need_not_negative("area", area)? / STANDARD_GRAVITY)
}

/// Density of air at 15 °C and one atmosphere, kg/m³ (ISO 2533).
const AIR_DENSITY: f64 = 1.225;

/// Lift of the wind on a panel, N: ρ/2·v²·Cl·A, with speed m/s, area m² and lift coefficient (0.8 chosen for a panel that lies close).
///
/// # Errors
/// An area or coefficient that is not above zero; a speed below zero.
pub fn wind_uplift(area: f64, speed: f64, coefficient: f64) -> Result<f64, InputError> {
    let speed = need_not_negative("speed", speed)?;
    let lift = need_positive("lift coefficient", coefficient)? * need_positive("area", area)?;
    outcome("uplift", AIR_DENSITY / 2.0 * speed * speed * lift)
}
