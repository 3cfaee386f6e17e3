//! Warm-air ducts: how the air shares itself among them, and what they lose on the way.

use std::f64::consts::PI;

use crate::heat::air::volumetric_heat_capacity;
use crate::input::{InputError, need_entries, need_not_negative, need_positive, outcome};

/// One of several ducts that leave the same outlet of a heater.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DuctPath {
    /// Inside diameter, m.
    pub diameter: f64,
    /// Length, m.
    pub length: f64,
    /// Darcy friction factor: 0.02 smooth, about 0.05 to 0.08 for stretched corrugated hose (from memory).
    pub friction: f64,
    /// Sum of the loss coefficients of bends, tees and outlet (outlet 1).
    pub losses: f64,
}

/// Loss coefficient of a smooth bend of 90° with a radius of about its diameter, from memory.
pub const SMOOTH_BEND: f64 = 0.3;

/// Pressure that a duct takes for a flow of one m³/s, Pa·s²/m⁶, at that air density kg/m³: (f·L/D + K)·ρ/2/A².
///
/// # Errors
/// A diameter or density that is not above zero; other numbers below zero; a duct without any resistance.
pub fn path_resistance(path: &DuctPath, density: f64) -> Result<f64, InputError> {
    let diameter = need_positive("duct diameter", path.diameter)?;
    let friction =
        need_not_negative("friction factor", path.friction)? * need_not_negative("duct length", path.length)?;
    let coefficient = friction / diameter + need_not_negative("loss coefficients", path.losses)?;
    let area = PI / 4.0 * diameter * diameter;
    let resistance = outcome("resistance", coefficient * need_positive("air density", density)? / (2.0 * area * area))?;
    need_positive("resistance of the duct", resistance)
}

/// Share of the air that each of several parallel ducts takes, in their order: in proportion to 1/√resistance. The shares sum to 1.
///
/// # Errors
/// No duct; what [`path_resistance`] refuses.
pub fn duct_flow_shares(paths: &[DuctPath]) -> Result<Vec<f64>, InputError> {
    // The density cancels out.
    const ANY_DENSITY: f64 = 1.0;
    let mut ease = Vec::with_capacity(paths.len());
    for path in need_entries("ducts", paths)? {
        ease.push(1.0 / path_resistance(path, ANY_DENSITY)?.sqrt());
    }
    let total = need_positive("ducts", ease.iter().sum())?;
    Ok(ease.into_iter().map(|part| part / total).collect())
}

/// Resistance of several parallel ducts as one, Pa·s²/m⁶ at that air density kg/m³: 1/(Σ 1/√R)².
///
/// # Errors
/// No duct; what [`path_resistance`] refuses.
pub fn parallel_resistance(paths: &[DuctPath], density: f64) -> Result<f64, InputError> {
    let mut ease = 0.0;
    for path in need_entries("ducts", paths)? {
        ease += 1.0 / path_resistance(path, density)?.sqrt();
    }
    outcome("resistance", 1.0 / (ease * ease))
}

/// A blower by two points of its data sheet: a straight line from its flow against nothing to the pressure at which it moves nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blower {
    /// Flow against no resistance, m³/s.
    pub open_flow: f64,
    /// Pressure at which nothing flows, Pa.
    pub shut_off: f64,
}

/// Flow at which a blower's line p₀·(1 − q/q₀) meets the resistance R·q² of its ducts, m³/s: the root of R·q² + p₀/q₀·q − p₀.
///
/// # Errors
/// A flow or pressure of the blower that is not above zero; a resistance below zero.
pub fn blower_flow(blower: &Blower, resistance: f64) -> Result<f64, InputError> {
    let open = need_positive("flow of the blower", blower.open_flow)?;
    let shut_off = need_positive("pressure of the blower", blower.shut_off)?;
    let resistance = need_not_negative("resistance of the ducts", resistance)?;
    let slope = shut_off / open;
    outcome("air flow", 2.0 * shut_off / (slope + (slope * slope + 4.0 * resistance * shut_off).sqrt()))
}

/// Heat that a metre of round duct loses for each kelvin, W/(m·K): π over the resistances of insulation ln(D/d)/(2λ) and film 1/(h·D).
///
/// `diameter` d m, `insulation` thickness m, `conductivity` λ W/(m·K), `film` h outside W/(m²·K).
///
/// # Errors
/// A diameter, film or conductivity that is not above zero; an insulation below zero.
pub fn duct_loss_per_kelvin_metre(
    diameter: f64,
    insulation: f64,
    conductivity: f64,
    film: f64,
) -> Result<f64, InputError> {
    let diameter = need_positive("duct diameter", diameter)?;
    let outside = diameter + 2.0 * need_not_negative("insulation", insulation)?;
    let layer = (outside / diameter).ln() / (2.0 * need_positive("conductivity", conductivity)?);
    outcome("duct loss", PI / (layer + 1.0 / (need_positive("film", film)? * outside)))
}

/// Temperature of the air at the end of a duct, K: Te + (T − Te)·e^(−U·L/(q·ρc)).
///
/// `inlet` and `surroundings` K, `loss` from [`duct_loss_per_kelvin_metre`] W/(m·K), `length` m, `flow` m³/s at the inlet.
///
/// # Errors
/// A temperature or flow that is not above zero; a loss or length below zero.
pub fn duct_outlet_temperature(
    inlet: f64,
    surroundings: f64,
    loss: f64,
    length: f64,
    flow: f64,
) -> Result<f64, InputError> {
    let surroundings = need_positive("temperature round the duct", surroundings)?;
    let carried = need_positive("air flow", flow)? * volumetric_heat_capacity(inlet)?;
    let lost = need_not_negative("duct loss", loss)? * need_not_negative("duct length", length)?;
    outcome("temperature", surroundings + (inlet - surroundings) * (-lost / carried).exp())
}
