//! Pressure vessels beside a pump.

use crate::input::{InputError, need_not_negative, need_positive, outcome};

/// The pressure of the air that gauges leave out, Pa (standard atmosphere).
pub const ATMOSPHERE: f64 = 101_325.0;

/// Water that a vessel gives between the pump's cut-out and cut-in, m³: V·p₀·(1/p₁ − 1/p₂) in absolute pressures, the gas at one temperature.
/// Arguments are gauge pressures, Pa, and the vessel's volume m³. With a charge above the cut-in pressure the vessel is empty before the pump
/// starts: only what lies above the charge counts, and taps stutter.
///
/// # Errors
/// A volume that is not above zero; pressures below zero; a cut-out below the cut-in.
pub fn accumulator_drawdown(volume: f64, charge: f64, cut_in: f64, cut_out: f64) -> Result<f64, InputError> {
    let volume = need_positive("volume of the vessel", volume)?;
    let charge = need_not_negative("charge", charge)? + ATMOSPHERE;
    let cut_in = need_not_negative("cut-in pressure", cut_in)? + ATMOSPHERE;
    let cut_out = need_not_negative("cut-out pressure", cut_out)? + ATMOSPHERE;
    if cut_out < cut_in {
        return Err(InputError::Crossed { quantity: "cut-in and cut-out pressure" });
    }
    let stored = |pressure: f64| volume * (1.0 - charge / pressure.max(charge));
    outcome("drawdown", stored(cut_out) - stored(cut_in))
}
