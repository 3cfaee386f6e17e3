//! What a gas appliance takes.
//!
//! Higher heating values: propane 50.35 MJ/kg (91,502 Btu/US gal and 0.508 kg/l, quoted second-hand, give the same within 2 %),
//! butane 49.5 MJ/kg. Mark: memory.

use super::Gas;
use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, share};

/// Where the higher heating values come from.
pub static GROSS_HEAT: Citation = Citation {
    document: "property tables of liquefied gas",
    place: "higher heating value: propane 50.35 MJ/kg, butane 49.5 MJ/kg",
    edition: "not seen",
    mark: Mark::Memory,
    address: "",
};

const GROSS_PROPANE: f64 = 50.35e6;
const GROSS_BUTANE: f64 = 49.5e6;

/// Higher heating value, J/kg.
#[must_use]
pub const fn gross_heat(gas: Gas) -> f64 {
    match gas {
        Gas::Propane => GROSS_PROPANE,
        Gas::Butane => GROSS_BUTANE,
    }
}

/// Gas that a heat input takes, kg/s: input over the higher heating value. `watts` is the gross input of the appliances.
#[must_use]
pub fn gas_flow(gas: Gas, watts: f64) -> Option<f64> {
    if not_negative(watts) { finite(watts / gross_heat(gas)) } else { None }
}

/// The part of the gas's heat that a heater gives, where its maker's input is not written.
pub static APPLIANCE_EFFICIENCY: Citation = Citation {
    document: "fact of the trade",
    place: "a flued gas heater gives about 80 % of the heat that it takes",
    edition: "",
    mark: Mark::CommonPractice,
    address: "",
};

/// [`APPLIANCE_EFFICIENCY`] as a number.
pub const ROUGH_EFFICIENCY: f64 = 0.80;

/// Heat input of a heater from the heat that it gives, W.
#[must_use]
pub fn input_from_output(watts: f64, efficiency: f64) -> Option<f64> {
    if not_negative(watts) && share(efficiency) { finite(watts / efficiency) } else { None }
}
