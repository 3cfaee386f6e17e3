//! Frost in tanks and pipes: when water reaches 0 °C, when ice closes it, and what holds it warm.
//!
//! One mass behind one loss; the water is mixed. Ice on walls insulates what is left, so times to freeze through are lower bounds.

use std::f64::consts::PI;

use crate::input::{InputError, need_finite, need_not_negative, need_positive, need_within, outcome};
use crate::temperature::CELSIUS_ZERO;

/// Freezing point of water, K.
pub const FREEZING_POINT: f64 = CELSIUS_ZERO;

/// Latent heat of freezing water, J/kg (textbook, from memory).
pub const LATENT_HEAT_OF_ICE: f64 = 334e3;

/// How much more room ice takes than its water: 999.84 / 916.7 − 1 (computed).
pub const FREEZING_EXPANSION: f64 = 0.090_7;

/// Share of ice at which a pipe counts as closed: a plug forms long before it is solid. Chosen.
pub const BLOCKED_PIPE_ICE_SHARE: f64 = 0.05;

/// Specific heat of cold water, J/(kg·K).
const WATER_HEAT: f64 = 4_190.0;
/// Density of cold water, kg/m³.
const WATER_DENSITY: f64 = 1_000.0;

/// Insulation of a tank or a pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Insulation {
    /// Thickness, m.
    pub thickness: f64,
    /// Conductivity, W/(m·K).
    pub conductivity: f64,
}

/// Loss of a tank for each kelvin, W/K: area m² over film 1/h and insulation. `film` h W/(m²·K): 8 in still air, 20 in the wind of the road
/// (from memory).
///
/// # Errors
/// An area, film or conductivity that is not above zero; a thickness below zero.
pub fn tank_loss(area: f64, insulation: Insulation, film: f64) -> Result<f64, InputError> {
    let layer = need_not_negative("insulation", insulation.thickness)?
        / need_positive("conductivity", insulation.conductivity)?;
    outcome("loss", need_positive("area", area)? / (1.0 / need_positive("film", film)? + layer))
}

/// Heat capacity J/K and mass kg of the water in a tank of that volume m³.
///
/// # Errors
/// A volume that is not above zero.
pub fn tank_contents(volume: f64) -> Result<(f64, f64), InputError> {
    let mass = outcome("mass of the water", need_positive("volume", volume)? * WATER_DENSITY)?;
    Ok((outcome("heat capacity", mass * WATER_HEAT)?, mass))
}

/// A pipe full of water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilledPipe {
    /// Outside diameter, m.
    pub outside: f64,
    /// Inside diameter, m.
    pub inside: f64,
    /// Conductivity of the wall, W/(m·K): cross-linked polyethylene 0.4 (from memory).
    pub wall_conductivity: f64,
    /// Heat capacity of the wall's material, J/(m³·K): cross-linked polyethylene 2.16e6 (from memory).
    pub wall_heat: f64,
}

/// Resistance of a metre of pipe to its surroundings, m·K/W: wall, insulation and film h W/(m²·K).
///
/// # Errors
/// Diameters that are not in order; numbers that are not above zero; a thickness below zero.
pub fn pipe_resistance(pipe: &FilledPipe, insulation: Insulation, film: f64) -> Result<f64, InputError> {
    let inside = need_positive("inside diameter", pipe.inside)?;
    let outside = need_finite("outside diameter", pipe.outside)?;
    if outside < inside {
        return Err(InputError::Crossed { quantity: "diameters of the pipe" });
    }
    let over = outside + 2.0 * need_not_negative("insulation", insulation.thickness)?;
    let wall =
        (outside / inside).ln() / (2.0 * PI * need_positive("conductivity of the pipe", pipe.wall_conductivity)?);
    let layer = (over / outside).ln() / (2.0 * PI * need_positive("conductivity", insulation.conductivity)?);
    outcome("resistance", wall + layer + 1.0 / (need_positive("film", film)? * PI * over))
}

/// Heat capacity J/(m·K) and water kg/m of a metre of full pipe.
///
/// # Errors
/// Diameters that are not in order or not above zero; a heat capacity below zero.
pub fn pipe_contents(pipe: &FilledPipe) -> Result<(f64, f64), InputError> {
    let inside = need_positive("inside diameter", pipe.inside)?;
    let outside = need_finite("outside diameter", pipe.outside)?;
    if outside < inside {
        return Err(InputError::Crossed { quantity: "diameters of the pipe" });
    }
    let water = PI / 4.0 * inside * inside * WATER_DENSITY;
    let wall = PI / 4.0
        * (outside * outside - inside * inside)
        * need_not_negative("heat capacity of the wall", pipe.wall_heat)?;
    Ok((outcome("heat capacity", water * WATER_HEAT + wall)?, water))
}

/// Time to the first frost, s: C/H·ln((T − Te)/(0 °C − Te)); `None` where outside is not below 0 °C, 0 where the water is there already.
///
/// `capacity` J/K, `loss` W/K (both for the tank or for a metre of pipe), `start` and `outside` K.
///
/// # Errors
/// A capacity or loss that is not above zero; temperatures that are not finite.
pub fn seconds_to_freezing_point(
    capacity: f64,
    loss: f64,
    start: f64,
    outside: f64,
) -> Result<Option<f64>, InputError> {
    let constant = need_positive("heat capacity", capacity)? / need_positive("loss", loss)?;
    let start = need_finite("water temperature", start)?;
    let outside = need_finite("outside temperature", outside)?;
    if outside >= FREEZING_POINT {
        return Ok(None);
    }
    if start <= FREEZING_POINT {
        return Ok(Some(0.0));
    }
    outcome("time", constant * ((start - outside) / (FREEZING_POINT - outside)).ln()).map(Some)
}

/// Time in which a share (0 to 1) of water at 0 °C turns to ice, s: share·m·L/(H·(0 °C − Te)); `None` where outside is not below 0 °C.
/// It comes after [`seconds_to_freezing_point`].
///
/// # Errors
/// A mass or loss that is not above zero; a share outside 0 to 1; a temperature that is not finite.
pub fn seconds_to_freeze(water: f64, loss: f64, outside: f64, share: f64) -> Result<Option<f64>, InputError> {
    let heat =
        need_positive("mass of the water", water)? * LATENT_HEAT_OF_ICE * need_within("share of ice", share, 0.0, 1.0)?;
    let loss = need_positive("loss", loss)?;
    let difference = FREEZING_POINT - need_finite("outside temperature", outside)?;
    if difference <= 0.0 {
        return Ok(None);
    }
    outcome("time", heat / (loss * difference)).map(Some)
}

/// Power that holds water at a temperature, W: loss W/K (or for a metre W/(m·K)) times the difference K; none against a warmer outside.
///
/// # Errors
/// A loss below zero; temperatures that are not finite.
pub fn holding_power(loss: f64, hold: f64, outside: f64) -> Result<f64, InputError> {
    let difference = need_finite("temperature to hold", hold)? - need_finite("outside temperature", outside)?;
    outcome("power", need_not_negative("loss", loss)? * difference.max(0.0))
}
