//! Currents of inverters and chargers from their power.

use crate::number::{finite, positive, share};

/// Direct current an inverter draws, A: P/(η·U) with its output power W, its efficiency (0 to 1) and the lowest battery voltage V.
///
/// `None` where an argument is not a positive finite number or the efficiency is above 1.
#[must_use]
pub fn inverter_input_current(power: f64, efficiency: f64, lowest_volts: f64) -> Option<f64> {
    if !(positive(power) && share(efficiency) && positive(lowest_volts)) {
        return None;
    }
    finite(power / (efficiency * lowest_volts))
}

/// Power a charger draws, W: I·U/η with its output current A and voltage V. `None` as in [`inverter_input_current`].
#[must_use]
pub fn charger_input_power(output_amperes: f64, output_volts: f64, efficiency: f64) -> Option<f64> {
    if !(positive(output_amperes) && positive(output_volts) && share(efficiency)) {
        return None;
    }
    finite(output_amperes * output_volts / efficiency)
}

/// Alternating current of a single-phase load, A: P/(U·cos φ). `None` as in [`inverter_input_current`].
#[must_use]
pub fn alternating_input_current(watts: f64, volts: f64, power_factor: f64) -> Option<f64> {
    if !(positive(watts) && positive(volts) && share(power_factor)) {
        return None;
    }
    finite(watts / (volts * power_factor))
}

/// Input current of a direct-current converter, A: I_out·U_out/(η·U_in). `None` as in [`inverter_input_current`].
#[must_use]
pub fn converter_input_current(
    output_amperes: f64,
    output_volts: f64,
    efficiency: f64,
    input_volts: f64,
) -> Option<f64> {
    let watts = charger_input_power(output_amperes, output_volts, efficiency)?;
    if !positive(input_volts) {
        return None;
    }
    finite(watts / input_volts)
}

/// Current of a load of constant power behind a resistance, A: the smaller root of (U − I·R)·I = P, I = 2P/(U + √(U² − 4·R·P)).
///
/// `open_circuit_volts` is the voltage of the source, `ohms` all resistance between it and the load. `None` where the resistance cannot pass
/// the power (U² < 4·R·P: the voltage collapses), where it is below zero, and as in [`inverter_input_current`].
#[must_use]
pub fn constant_power_current(watts: f64, open_circuit_volts: f64, ohms: f64) -> Option<f64> {
    if !(positive(watts) && positive(open_circuit_volts) && ohms >= 0.0) {
        return None;
    }
    let discriminant = open_circuit_volts * open_circuit_volts - 4.0 * ohms * watts;
    if !(discriminant >= 0.0 && discriminant.is_finite()) {
        return None;
    }
    // This form of the root loses no figures where the resistance is small, and needs no case for none.
    finite(2.0 * watts / (open_circuit_volts + discriminant.sqrt()))
}

/// Continuous loads are reckoned at 125 % for the protective device (NEC 210.20; the 80 % rule read from its other side).
const CONTINUOUS_FACTOR: f64 = 1.25;

/// Least rating of a device for a load, A: the current itself, or 125 % of it where the load is continuous (NEC 210.20, second-hand).
/// Not a number stays so.
#[must_use]
pub fn minimum_rating(amperes: f64, continuous: bool) -> f64 {
    if continuous { amperes * CONTINUOUS_FACTOR } else { amperes }
}
