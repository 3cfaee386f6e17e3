//! What a flame takes from the air and leaves in it.
//!
//! From C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O on the lower heating value (46.35 MJ/kg): 1.01 m³ of air and 0.127 m³ of carbon dioxide at 20 °C for each kWh;
//! with 100 % excess, as appliances burn, twice that air. Mark: computed.

use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative};

/// Where these come from.
pub static COMBUSTION_AIR: Citation = Citation {
    document: "combustion of propane",
    place: "1.01 m³ of air and 0.127 m³ of carbon dioxide for each kWh (lower heating value), 20 °C; 100 % excess air",
    edition: "",
    mark: Mark::Computed,
    address: "",
};

/// Lower heating value of propane, J/kg (memory; the fact book's other values agree within 1 %).
const LOWER_HEAT: f64 = 46.35e6;
const MOLAR_MASS: f64 = 44.097e-3;
/// An ideal gas at 20 °C and one atmosphere, m³/mol.
const MOLAR_VOLUME: f64 = 8.314_463 * 293.15 / 101_325.0;
const OXYGEN_PER_FUEL: f64 = 5.0;
const CARBON_DIOXIDE_PER_FUEL: f64 = 3.0;
/// Share of oxygen in air by volume.
const OXYGEN_IN_AIR: f64 = 0.2095;

/// Air that flames of this power (lower heating value, W) take, m³/s; `excess` is 0 for the least and 1 for 100 % more than that.
#[must_use]
pub fn combustion_air(watts: f64, excess: f64) -> Option<f64> {
    if !(not_negative(watts) && not_negative(excess)) {
        return None;
    }
    let moles = watts / LOWER_HEAT / MOLAR_MASS;
    finite(moles * OXYGEN_PER_FUEL / OXYGEN_IN_AIR * MOLAR_VOLUME * (1.0 + excess))
}

/// Carbon dioxide that flames without a flue leave in the room, m³/s.
#[must_use]
pub fn carbon_dioxide_of_flame(watts: f64) -> Option<f64> {
    if not_negative(watts) {
        finite(watts / LOWER_HEAT / MOLAR_MASS * CARBON_DIOXIDE_PER_FUEL * MOLAR_VOLUME)
    } else {
        None
    }
}
