//! Warming a cold vehicle, as one mass behind one loss.
//!
//! C·dT/dt = P − H·(T − Te): the contents warm as one. Air warms sooner and timber later than that.

use crate::input::{InputError, need_entries, need_finite, need_not_negative, need_positive, outcome};

/// Heat capacity of lining, furniture and contents, J/K: the sum of mass kg times specific heat J/(kg·K).
///
/// # Errors
/// No part; numbers below zero.
pub fn heat_capacity(parts: &[(f64, f64)]) -> Result<f64, InputError> {
    let mut sum = 0.0;
    for (mass, specific_heat) in need_entries("parts", parts)? {
        sum += need_not_negative("mass", *mass)? * need_not_negative("specific heat", *specific_heat)?;
    }
    outcome("heat capacity", sum)
}

/// Temperature rise above outside after a time s, K: start·e^(−tH/C) + P/H·(1 − e^(−tH/C)).
///
/// `power` W, `loss` H W/K, `capacity` C J/K, `start` the rise at the beginning K.
///
/// # Errors
/// A power or time below zero; a loss or capacity that is not above zero.
pub fn temperature_after(power: f64, loss: f64, capacity: f64, start: f64, seconds: f64) -> Result<f64, InputError> {
    let power = need_not_negative("heating power", power)?;
    let (loss, capacity) = (need_positive("loss for each kelvin", loss)?, need_positive("heat capacity", capacity)?);
    let start = need_finite("rise at the start", start)?;
    let seconds = need_not_negative("time", seconds)?;
    let kept = (-loss * seconds / capacity).exp();
    outcome("temperature", start * kept + power / loss * (1.0 - kept))
}

/// Time to warm from outside temperature by a rise K, s: C/H·ln(P/(P − H·rise)); `None` where the power never gets there.
/// Arguments as in [`temperature_after`].
///
/// # Errors
/// A power or rise below zero; a loss or capacity that is not above zero.
pub fn warm_up_seconds(power: f64, loss: f64, capacity: f64, rise: f64) -> Result<Option<f64>, InputError> {
    let power = need_not_negative("heating power", power)?;
    let (loss, capacity) = (need_positive("loss for each kelvin", loss)?, need_positive("heat capacity", capacity)?);
    let held = loss * need_not_negative("temperature rise", rise)?;
    if held <= 0.0 {
        return Ok(Some(0.0));
    }
    if held >= power {
        return Ok(None);
    }
    outcome("warm-up time", -(-held / power).ln_1p() * capacity / loss).map(Some)
}

/// Power that warms from outside temperature by a rise K within a time s, W: H·rise/(1 − e^(−tH/C)).
/// Arguments as in [`temperature_after`].
///
/// # Errors
/// A rise below zero; a loss, capacity or time that is not above zero.
pub fn warm_up_power(loss: f64, capacity: f64, rise: f64, seconds: f64) -> Result<f64, InputError> {
    let (loss, capacity) = (need_positive("loss for each kelvin", loss)?, need_positive("heat capacity", capacity)?);
    let rise = need_not_negative("temperature rise", rise)?;
    let seconds = need_positive("time", seconds)?;
    outcome("heating power", loss * rise / -(-loss * seconds / capacity).exp_m1())
}
