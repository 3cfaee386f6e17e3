//! Air: what it carries, and how warm air drives itself through openings.

use crate::citation::{Citation, Mark};
use crate::heat::glazing::GRAVITY;
use crate::input::{InputError, need_not_negative, need_positive, need_share, need_within, outcome};
use crate::temperature::CELSIUS_ZERO;

/// Dry air at one atmosphere.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Air {
    /// kg/m³.
    pub(crate) density: f64,
    /// W/(m·K).
    pub(crate) conductivity: f64,
    /// Pa·s.
    pub(crate) viscosity: f64,
    /// J/(kg·K).
    pub(crate) specific_heat: f64,
}

/// (°C, W/(m·K), Pa·s) of dry air at 101,325 Pa, computed with CoolProp 8.0.0. Mark: computed.
const ROWS: [(f64, f64, f64); 7] = [
    (-40.0, 0.021_225, 1.515_2e-5),
    (-20.0, 0.022_812, 1.620_1e-5),
    (0.0, 0.024_360, 1.721_8e-5),
    (20.0, 0.025_874, 1.820_6e-5),
    (40.0, 0.027_354, 1.916_5e-5),
    (60.0, 0.028_804, 2.009_9e-5),
    (80.0, 0.030_225, 2.100_9e-5),
];

/// Specific heat of dry air, J/(kg·K): 1,005.5 to 1,009.5 from −40 to 80 °C (CoolProp 8.0.0).
const SPECIFIC_HEAT: f64 = 1_006.0;

/// Density of dry air times absolute temperature at one atmosphere, kg·K/m³: 101,325 Pa over 287.05 J/(kg·K).
const DENSITY_TIMES_KELVIN: f64 = 352.99;

pub(crate) fn air_properties(kelvin: f64) -> Result<Air, InputError> {
    let coldest = CELSIUS_ZERO - 40.0;
    let warmest = CELSIUS_ZERO + 80.0;
    let celsius = need_within("air temperature", kelvin, coldest, warmest)? - CELSIUS_ZERO;
    let mut below = ROWS[0];
    for row in ROWS {
        if row.0 >= celsius {
            let width = row.0 - below.0;
            let part = if width > 0.0 { (celsius - below.0) / width } else { 0.0 };
            below = (celsius, below.1 + (row.1 - below.1) * part, below.2 + (row.2 - below.2) * part);
            break;
        }
        below = row;
    }
    let (_, conductivity, viscosity) = below;
    Ok(Air { density: DENSITY_TIMES_KELVIN / kelvin, conductivity, viscosity, specific_heat: SPECIFIC_HEAT })
}

/// Heat that a cubic metre of air carries for each kelvin, J/(m³·K), at its temperature K and one atmosphere: 1,301 at 0 °C, 1,212 at 20 °C
/// (0.361 and 0.337 W·h).
///
/// # Errors
/// A temperature that is not above 0 K.
pub fn volumetric_heat_capacity(kelvin: f64) -> Result<f64, InputError> {
    outcome("air", DENSITY_TIMES_KELVIN / need_positive("air temperature", kelvin)? * SPECIFIC_HEAT)
}

/// The share of the ideal flow that passes a sharp-edged opening, with its source.
pub static DISCHARGE_COEFFICIENT: (f64, Citation) = (
    0.6,
    Citation {
        document: "common value for sharp-edged openings",
        place: "discharge coefficient 0.6 to 0.65",
        edition: "",
        mark: Mark::Memory,
        address: "",
    },
);

/// One opening that passes as much as a low and a high one in series, m²: 1/√(1/A₁² + 1/A₂²).
///
/// # Errors
/// An area below zero. A closed opening gives zero.
pub fn effective_opening(low: f64, high: f64) -> Result<f64, InputError> {
    let (low, high) = (need_not_negative("low opening", low)?, need_not_negative("high opening", high)?);
    if low <= 0.0 || high <= 0.0 {
        return Ok(0.0);
    }
    outcome("opening", 1.0 / low.recip().hypot(high.recip()))
}

/// Air that warmth alone drives through a low and a high opening, m³/s: Cd·A·√(2·g·h·ΔT/T) without wind.
///
/// `opening` from [`effective_opening`] m², `height` between the middles of the openings m, `difference` inside to outside K (0 and above),
/// `mean` temperature K, `discharge` 0 to 1 ([`DISCHARGE_COEFFICIENT`]).
///
/// # Errors
/// A number below zero; a mean temperature that is not above 0 K; a discharge coefficient outside 0 to 1.
pub fn stack_flow(opening: f64, height: f64, difference: f64, mean: f64, discharge: f64) -> Result<f64, InputError> {
    let opening = need_not_negative("opening", opening)?;
    let height = need_not_negative("height between the openings", height)?;
    let difference = need_not_negative("temperature difference", difference)?;
    let mean = need_positive("mean temperature", mean)?;
    let discharge = need_share("discharge coefficient", discharge)?;
    outcome("air flow", discharge * opening * (2.0 * GRAVITY * height * difference / mean).sqrt())
}
