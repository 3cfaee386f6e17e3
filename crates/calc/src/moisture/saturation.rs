//! Saturated vapour, dew point and relative humidity, by the formulae of ISO 13788.
//!
//! At and above 0 °C over water, below it over ice: below 0 °C the dew point is a frost point, as psychrometric programs give it. The Magnus
//! formula over water gives about 0.4 K less there. Against psychrolib the pressures agree within 0.6 % from −20 to 35 °C.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_not_negative, need_positive, need_within, outcome};
use crate::temperature::{CELSIUS_ZERO, kelvin};

/// Source of the formulae.
pub static ISO_13788: Citation = Citation {
    document: "ISO 13788",
    place: "saturation pressure: 610.5·exp(17.269·θ/(237.3 + θ)) Pa from 0 °C, 610.5·exp(21.875·θ/(265.5 + θ)) below",
    edition: "2012, not seen; agrees with psychrolib 2.5.0 within 0.6 %",
    mark: Mark::Memory,
    address: "",
};

const AT_ZERO: f64 = 610.5;
const OVER_WATER: (f64, f64) = (17.269, 237.3);
const OVER_ICE: (f64, f64) = (21.875, 265.5);

/// The range in which the formulae are used here, °C.
const COLDEST: f64 = -60.0;
const WARMEST: f64 = 100.0;

/// Gas constant of water vapour, J/(kg·K), as in ISO 13788.
const VAPOUR_GAS_CONSTANT: f64 = 461.5;

/// Pressure of saturated vapour at a temperature K, Pa ([`ISO_13788`]).
///
/// # Errors
/// A temperature outside −60 to 100 °C.
pub fn saturation_pressure(temperature: f64) -> Result<f64, InputError> {
    let celsius = need_within("air temperature", temperature, kelvin(COLDEST), kelvin(WARMEST))? - CELSIUS_ZERO;
    let (slope, offset) = if celsius >= 0.0 { OVER_WATER } else { OVER_ICE };
    outcome("saturation pressure", AT_ZERO * (slope * celsius / (offset + celsius)).exp())
}

/// Temperature at which vapour of that pressure Pa turns to water, or below 0 °C to ice, K.
///
/// # Errors
/// A pressure that is not above zero or whose dew point lies outside −60 to 100 °C.
pub fn dew_point(pressure: f64) -> Result<f64, InputError> {
    let logarithm = (need_positive("vapour pressure", pressure)? / AT_ZERO).ln();
    let (slope, offset) = if logarithm >= 0.0 { OVER_WATER } else { OVER_ICE };
    let celsius = offset * logarithm / (slope - logarithm);
    // Beyond the formula's pole the sign turns round.
    if logarithm >= slope {
        return Err(InputError::OutOfRange {
            quantity: "vapour pressure",
            value: pressure,
            least: saturation_pressure(kelvin(COLDEST))?,
            most: saturation_pressure(kelvin(WARMEST))?,
        });
    }
    need_within("dew point", kelvin(celsius), kelvin(COLDEST), kelvin(WARMEST))
}

/// Vapour pressure of air at a temperature K and a relative humidity 0 to 1, Pa.
///
/// # Errors
/// A temperature outside −60 to 100 °C; a humidity outside 0 to 1.
pub fn vapour_pressure(temperature: f64, humidity: f64) -> Result<f64, InputError> {
    Ok(saturation_pressure(temperature)? * need_within("relative humidity", humidity, 0.0, 1.0)?)
}

/// Relative humidity of air at a temperature K with a vapour pressure Pa; above 1 it cannot hold the vapour.
///
/// # Errors
/// A temperature outside −60 to 100 °C; a pressure below zero.
pub fn relative_humidity(temperature: f64, pressure: f64) -> Result<f64, InputError> {
    let pressure = need_not_negative("vapour pressure", pressure)?;
    outcome("relative humidity", pressure / saturation_pressure(temperature)?)
}

/// Mass of vapour in a cubic metre, kg/m³, from its pressure Pa at a temperature K: p/(461.5·T).
///
/// # Errors
/// A temperature that is not above 0 K; a pressure below zero.
pub fn vapour_density(temperature: f64, pressure: f64) -> Result<f64, InputError> {
    let pressure = need_not_negative("vapour pressure", pressure)?;
    outcome("vapour", pressure / (VAPOUR_GAS_CONSTANT * need_positive("air temperature", temperature)?))
}

/// Pressure of a density of vapour kg/m³ at a temperature K, Pa.
pub(crate) fn pressure_of_density(temperature: f64, density: f64) -> Result<f64, InputError> {
    outcome("vapour pressure", density * VAPOUR_GAS_CONSTANT * need_positive("air temperature", temperature)?)
}
