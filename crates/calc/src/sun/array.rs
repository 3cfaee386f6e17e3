//! What solar modules make of the light.

use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive, share};
use crate::temperature::CELSIUS_ZERO;
use crate::week::{DayProfile, STEPS_PER_DAY};

/// Irradiance of the standard test conditions, W/m² (IEC 60904-3).
const STANDARD_IRRADIANCE: f64 = 1_000.0;
/// Cell temperature of the standard test conditions, K (25 °C, IEC 60904-3).
const STANDARD_KELVIN: f64 = 25.0 + CELSIUS_ZERO;

/// Where [`array_power`] comes from.
pub static POWER_MODEL: Citation = Citation {
    document: "A. P. Dobos, PVWatts Version 5 Manual, NREL/TP-6A20-62641",
    place: "direct-current power by irradiance and cell temperature",
    edition: "2014, as given in the text of a public library of solar functions",
    mark: Mark::SecondHand,
    address: "https://doi.org/10.2172/1158421",
};

/// Where the rise of each [`Mounting`] comes from.
pub static MOUNTING: Citation = Citation {
    document: "T. Nordmann and L. Clavadetscher 2003, in E. Skoplaki and J. A. Palyvos, Renewable Energy 34",
    place: "coefficients of Ross's equation by mounting",
    edition: "2009, table seen in the text of a public library of solar functions",
    mark: Mark::SecondHand,
    address: "https://doi.org/10.1016/j.renene.2008.04.009",
};

/// Change of the power with the cell's temperature to assume, 1/K: −0.37 % (crystalline silicon).
pub static ASSUMED_POWER_COEFFICIENT: (f64, Citation) = (
    -0.0037,
    Citation {
        document: "from memory, unverified",
        place: "power of crystalline silicon falls by 0.37 % a kelvin",
        edition: "",
        mark: Mark::Memory,
        address: "",
    },
);

/// How modules are mounted, which decides how hot they get.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mounting {
    /// On a frame in the open, air all around.
    Open,
    /// Above a flat roof with a wide gap of air.
    AboveRoof,
    /// Close to the roof, a gap of a few centimetres (Ross's value for a roof with little air).
    CloseToRoof,
    /// Stuck to the roof, no air behind.
    OnRoof,
}

impl Mounting {
    /// By how much the cells are hotter than the air for each W/m² on them, K·m²/W ([`MOUNTING`]).
    #[must_use]
    pub const fn rise(self) -> f64 {
        match self {
            Mounting::Open => 0.0208,
            Mounting::AboveRoof => 0.026,
            Mounting::CloseToRoof => 0.0342,
            Mounting::OnRoof => 0.0563,
        }
    }
}

/// Temperature of the cells, K: the air's K + rise K·m²/W × irradiance W/m² (R. G. Ross 1981, second-hand; wind of about 1 m/s).
/// `None` where a number is not usable.
#[must_use]
pub fn cell_temperature(air_kelvin: f64, irradiance: f64, rise: f64) -> Option<f64> {
    if !positive(air_kelvin) || !not_negative(irradiance) || !not_negative(rise) {
        return None;
    }
    finite(air_kelvin + rise * irradiance)
}

/// Power of modules, W: rated W × irradiance/(1,000 W/m²) × (1 + coefficient·(cell − 25 °C)), not below zero ([`POWER_MODEL`]).
/// `coefficient` in 1/K, below zero for silicon. `None` where a number is not usable.
#[must_use]
pub fn array_power(rated_watts: f64, irradiance: f64, cell_kelvin: f64, coefficient: f64) -> Option<f64> {
    if !not_negative(rated_watts) || !not_negative(irradiance) || !positive(cell_kelvin) {
        return None;
    }
    let by_heat = 1.0 + coefficient * (cell_kelvin - STANDARD_KELVIN);
    finite(rated_watts * irradiance / STANDARD_IRRADIANCE * by_heat.max(0.0)).filter(|_| by_heat.is_finite())
}

/// What a controller that only switches leaves of the modules' power, at most 1: it holds them at the battery's voltage, so the part is
/// battery V over working V of the string. A controller that seeks the point of most power has no such loss. `None` for voltages that
/// are not positive and finite.
#[must_use]
pub fn switching_controller_share(battery_volts: f64, working_volts: f64) -> Option<f64> {
    (positive(battery_volts) && positive(working_volts)).then(|| (battery_volts / working_volts).min(1.0))
}

/// An array of modules.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Array {
    /// Rated power of all modules together, W.
    pub rated_watts: f64,
    /// Change of the power with the cell's temperature, 1/K relative to 25 °C ([`ASSUMED_POWER_COEFFICIENT`]).
    pub power_coefficient: f64,
    /// By how much the cells are hotter than the air, K·m²/W ([`Mounting::rise`]).
    pub rise: f64,
    /// What is left of the power after all losses but heat, above 0 and at most 1 ([`super::Losses::left`]).
    pub left: f64,
}

/// Power of an array through a day, W at the battery's terminals, from the irradiance on its plane W/m² and the temperature of the air K.
/// `None` where a number is not usable.
#[must_use]
pub fn array_day(array: &Array, plane: &DayProfile, air_kelvin: f64) -> Option<DayProfile> {
    if !share(array.left) {
        return None;
    }
    let mut watts = [0.0; STEPS_PER_DAY];
    for (watts, &irradiance) in watts.iter_mut().zip(plane.steps()) {
        let cell = cell_temperature(air_kelvin, irradiance, array.rise)?;
        *watts = array.left * array_power(array.rated_watts, irradiance, cell, array.power_coefficient)?;
    }
    Some(DayProfile::by_step(watts))
}
