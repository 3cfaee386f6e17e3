//! Water at one atmosphere by temperature.
//!
//! Source of the rows: CoolProp 8.0.0 (IAPWS-95). Mark: computed. Density and specific heat on straight lines between the rows, viscosity on
//! straight lines of its logarithm: within 0.2 % of the library, viscosity within 1 %.

use crate::input::{InputError, need_within};
use crate::temperature::{CELSIUS_ZERO, kelvin};

/// Properties of liquid water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Water {
    /// kg/m³.
    pub density: f64,
    /// Dynamic viscosity, Pa·s.
    pub viscosity: f64,
    /// J/(kg·K).
    pub specific_heat: f64,
}

/// (°C, kg/m³, µPa·s, J/(kg·K)).
const ROWS: [(f64, f64, f64, f64); 13] = [
    (0.0, 999.84, 1_791.1, 4_219.4),
    (5.0, 999.97, 1_518.2, 4_205.0),
    (10.0, 999.70, 1_305.9, 4_195.2),
    (15.0, 999.10, 1_137.6, 4_188.5),
    (20.0, 998.21, 1_001.6, 4_184.1),
    (30.0, 995.65, 797.2, 4_179.8),
    (40.0, 992.22, 652.7, 4_179.4),
    (50.0, 988.04, 546.5, 4_181.3),
    (60.0, 983.20, 466.0, 4_185.0),
    (70.0, 977.76, 403.5, 4_190.1),
    (80.0, 971.79, 354.1, 4_196.8),
    (90.0, 965.31, 314.2, 4_205.2),
    (99.0, 959.07, 284.6, 4_214.5),
];

/// Liquid water at a temperature K.
///
/// # Errors
/// A temperature outside 0 to 99 °C.
pub fn water(temperature: f64) -> Result<Water, InputError> {
    let celsius = need_within("water temperature", temperature, kelvin(0.0), kelvin(99.0))? - CELSIUS_ZERO;
    let mut below = ROWS[0];
    for row in ROWS {
        if row.0 >= celsius {
            let width = row.0 - below.0;
            let part = if width > 0.0 { (celsius - below.0) / width } else { 0.0 };
            let line = |one: f64, other: f64| one + (other - one) * part;
            let viscosity = below.2 * (row.2 / below.2).powf(part);
            below = (celsius, line(below.1, row.1), viscosity, line(below.3, row.3));
            break;
        }
        below = row;
    }
    const MICRO: f64 = 1e-6;
    Ok(Water { density: below.1, viscosity: below.2 * MICRO, specific_heat: below.3 })
}
