//! How much gas makes the air of a room explosive.
//!
//! Lower explosive limits: propane 2.1 %, butane 1.9 % by volume, NIOSH IDLH documents (1994),
//! <https://www.cdc.gov/niosh/idlh/74986.html>. Mark: read. Other tables print 1.4 to 1.6 % for butane, which is a conflict that is left open.
//! Vapour density: molar mass over the molar volume of an ideal gas at 20 °C and one atmosphere. Mark: computed.

use super::Gas;
use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive};

/// Where the lower explosive limits come from.
pub static LOWER_LIMIT: Citation = Citation {
    document: "NIOSH IDLH documentation",
    place: "lower explosive limit: propane 2.1 %, butane 1.9 % by volume",
    edition: "1994",
    mark: Mark::Read,
    address: "https://www.cdc.gov/niosh/idlh/74986.html",
};

const LOWER_LIMIT_PROPANE: f64 = 0.021;
const LOWER_LIMIT_BUTANE: f64 = 0.019;

// Molar masses, kg/mol (IUPAC, rounded): C3H8 and C4H10.
const MOLAR_MASS_PROPANE: f64 = 44.097e-3;
const MOLAR_MASS_BUTANE: f64 = 58.123e-3;

const GAS_CONSTANT: f64 = 8.314_463;
const ATMOSPHERE_PASCALS: f64 = 101_325.0;
/// 20 °C.
const ROOM_KELVIN: f64 = 293.15;

/// Density of the vapour at 20 °C and 101,325 Pa, kg/m³: M·p/(R·T) (propane 1.833).
#[must_use]
pub fn vapour_density(gas: Gas) -> f64 {
    let molar_mass = match gas {
        Gas::Propane => MOLAR_MASS_PROPANE,
        Gas::Butane => MOLAR_MASS_BUTANE,
    };
    molar_mass * ATMOSPHERE_PASCALS / (GAS_CONSTANT * ROOM_KELVIN)
}

fn lower_limit(gas: Gas) -> f64 {
    match gas {
        Gas::Propane => LOWER_LIMIT_PROPANE,
        Gas::Butane => LOWER_LIMIT_BUTANE,
    }
}

/// Volume that a mass of gas takes as vapour, m³.
#[must_use]
pub fn vapour_volume(gas: Gas, kilograms: f64) -> Option<f64> {
    if not_negative(kilograms) { finite(kilograms / vapour_density(gas)) } else { None }
}

/// Mass of gas that brings a room to a share of its lower explosive limit with perfect mixing, kg: share · limit · volume · density.
/// Gas that lies in a layer reaches the limit with far less.
#[must_use]
pub fn mass_at_share_of_lower_limit(gas: Gas, room_cubic_metres: f64, share: f64) -> Option<f64> {
    if positive(room_cubic_metres) && not_negative(share) {
        finite(share * lower_limit(gas) * room_cubic_metres * vapour_density(gas))
    } else {
        None
    }
}

/// The share of the lower explosive limit that a mass of gas reaches in a room with perfect mixing (1 is explosive).
#[must_use]
pub fn share_of_lower_limit(gas: Gas, kilograms: f64, room_cubic_metres: f64) -> Option<f64> {
    if positive(room_cubic_metres) {
        finite(vapour_volume(gas, kilograms)? / room_cubic_metres / lower_limit(gas))
    } else {
        None
    }
}
