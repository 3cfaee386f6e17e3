//! Tanks: their mass, and the air that must leave while they fill.

use std::f64::consts::PI;

use crate::input::{InputError, need_not_negative, need_positive, need_within, outcome};
use crate::water::properties::Water;

/// Mass of a tank with water, kg: volume m³ × share full (0 to 1) × density + the empty tank kg.
///
/// # Errors
/// Numbers below zero; a share above 1.
pub fn tank_mass(volume: f64, share_full: f64, empty: f64, water: &Water) -> Result<f64, InputError> {
    let share = need_within("share of the tank", share_full, 0.0, 1.0)?;
    let held = need_not_negative("tank volume", volume)? * share * need_positive("density", water.density)?;
    outcome("mass", held + need_not_negative("mass of the empty tank", empty)?)
}

/// Speed of the air in a vent while a tank fills, m/s: filling flow m³/s over the vent's area m².
///
/// # Errors
/// A flow below zero; an area that is not above zero.
pub fn vent_speed(filling: f64, area: f64) -> Result<f64, InputError> {
    outcome("speed", need_not_negative("filling flow", filling)? / need_positive("vent area", area)?)
}

/// Density of air at 20 °C and one atmosphere, kg/m³ (CoolProp 8.0.0).
const AIR_DENSITY: f64 = 1.204_6;

/// Pressure in a tank while it fills, Pa: (f·L/D + K)·ρ·v²/2 of the air in its vent. `losses` is f·L/D + K of the whole vent; 1.5 for entry
/// and exit of a short one. A vent with water standing in a sag lets no air through: the pressure is then that of the water.
///
/// # Errors
/// What [`vent_speed`] refuses; losses below zero.
pub fn tank_overpressure(filling: f64, area: f64, losses: f64) -> Result<f64, InputError> {
    let speed = vent_speed(filling, area)?;
    outcome("pressure", need_not_negative("losses of the vent", losses)? * AIR_DENSITY * speed * speed / 2.0)
}

/// Least inside diameter of a vent that keeps the tank at or below a pressure Pa, m.
///
/// # Errors
/// A flow or losses below zero; a pressure that is not above zero.
pub fn least_vent_diameter(filling: f64, losses: f64, pressure: f64) -> Result<f64, InputError> {
    let filling = need_not_negative("filling flow", filling)?;
    let losses = need_not_negative("losses of the vent", losses)?;
    let speed = (2.0 * need_positive("pressure", pressure)? / (losses * AIR_DENSITY)).sqrt();
    outcome("vent diameter", (4.0 * filling / (PI * speed)).sqrt())
}
