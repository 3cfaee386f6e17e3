//! Voltage drop along a run.

use crate::conductor::at_temperature;

/// Resistance of a run, Ω: resistance per metre at 20 °C, brought to the conductor's temperature, times the length there **and** back.
///
/// Not a number where an argument is not a number or the length or the resistance is below zero.
#[must_use]
pub fn loop_resistance(ohm_per_metre_20c: f64, loop_metres: f64, kelvin: f64) -> f64 {
    if ohm_per_metre_20c < 0.0 || loop_metres < 0.0 {
        return f64::NAN;
    }
    at_temperature(ohm_per_metre_20c, kelvin) * loop_metres
}

/// Voltage drop of a direct current, V: current × [`loop_resistance`] (Ohm). Same answers where an argument is unusable.
#[must_use]
pub fn voltage_drop(amperes: f64, ohm_per_metre_20c: f64, loop_metres: f64, kelvin: f64) -> f64 {
    amperes * loop_resistance(ohm_per_metre_20c, loop_metres, kelvin)
}
