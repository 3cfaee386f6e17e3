//! Pressure lost in pipes.
//!
//! Darcy and Weisbach with 64/Re in quiet flow and the explicit formula of Swamee and Jain (1976, from memory; within 3 % of Colebrook and
//! White from Re 5,000) in turbulent flow. Between Re 2,300 and 4,000 the flow may be either: there the result is a range.

use std::f64::consts::PI;

use crate::heat::GRAVITY;
use crate::input::{InputError, need_finite, need_not_negative, need_positive, need_within, outcome};
use crate::interval::Interval;
use crate::water::properties::Water;

/// Roughness of drawn plastic pipe, m (from memory).
pub const PLASTIC_ROUGHNESS: f64 = 7e-6;

/// Flow in a full pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flow {
    /// Mean speed, m/s.
    pub speed: f64,
    /// Reynolds number.
    pub reynolds: f64,
}

/// Speed and Reynolds number of a flow m³/s in a pipe of inside diameter m.
///
/// # Errors
/// A flow below zero; a diameter that is not above zero.
pub fn pipe_flow(flow: f64, diameter: f64, water: &Water) -> Result<Flow, InputError> {
    let diameter = need_positive("inside diameter", diameter)?;
    let speed = outcome("speed", need_not_negative("flow", flow)? / (PI / 4.0 * diameter * diameter))?;
    let viscosity = need_positive("viscosity", water.viscosity)?;
    let reynolds = outcome("Reynolds number", speed * diameter * need_positive("density", water.density)? / viscosity)?;
    Ok(Flow { speed, reynolds })
}

/// Below this Reynolds number the flow is quiet, above [`TURBULENT_FROM`] turbulent (textbook values, from memory).
const QUIET_TO: f64 = 2_300.0;
const TURBULENT_FROM: f64 = 4_000.0;

fn turbulent(reynolds: f64, roughness: f64) -> f64 {
    // Swamee and Jain: 0.25/log10(ε/(3.7·D) + 5.74/Re^0.9)².
    0.25 / (roughness / 3.7 + 5.74 / reynolds.powf(0.9)).log10().powi(2)
}

/// Darcy's friction factor by Reynolds number and relative roughness ε/D (0 to 0.05): a range between quiet and turbulent flow.
///
/// # Errors
/// A Reynolds number that is not above zero; a roughness outside its range.
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> Result<Interval, InputError> {
    const ROUGHEST: f64 = 0.05;
    let reynolds = need_positive("Reynolds number", reynolds)?;
    let roughness = need_within("relative roughness", relative_roughness, 0.0, ROUGHEST)?;
    let quiet = outcome("friction factor", 64.0 / reynolds)?;
    if reynolds <= QUIET_TO {
        return Interval::exact(quiet);
    }
    let rough = turbulent(reynolds, roughness);
    if reynolds >= TURBULENT_FROM { Interval::exact(rough) } else { Interval::new(quiet.min(rough), quiet.max(rough)) }
}

/// Pressure lost in a pipe with fittings, Pa: (f·L/D + K)·ρ·v²/2.
///
/// `flow` m³/s, `diameter` and `length` m, `roughness` m, `fittings` K the sum of the loss coefficients.
///
/// # Errors
/// A diameter that is not above zero; other numbers below zero; a roughness above a twentieth of the diameter.
pub fn friction_loss(
    flow: f64,
    diameter: f64,
    length: f64,
    roughness: f64,
    fittings: f64,
    water: &Water,
) -> Result<Interval, InputError> {
    let moving = pipe_flow(flow, diameter, water)?;
    let length = need_not_negative("pipe length", length)?;
    let fittings = need_not_negative("loss coefficients", fittings)?;
    let roughness = need_not_negative("roughness", roughness)? / diameter;
    if moving.reynolds <= 0.0 {
        return Interval::exact(0.0);
    }
    let head = water.density * moving.speed * moving.speed / 2.0;
    friction_factor(moving.reynolds, roughness)?
        .rising(|factor| outcome("pressure loss", (factor * length / diameter + fittings) * head))
}

/// Pressure lost in a straight pipe by Hazen and Williams, Pa: ρ·g·10.67·L·q^1.852/(C^1.852·D^4.8704) with C 150 for smooth plastic
/// (textbook, from memory). In the thin pipes of a vehicle it gives 15 to 25 % too little: use it only to check against published tables.
///
/// # Errors
/// A diameter or coefficient that is not above zero; other numbers below zero.
pub fn friction_loss_hazen_williams(
    flow: f64,
    diameter: f64,
    length: f64,
    coefficient: f64,
    water: &Water,
) -> Result<f64, InputError> {
    const FACTOR: f64 = 10.67;
    const FLOW_EXPONENT: f64 = 1.852;
    const DIAMETER_EXPONENT: f64 = 4.870_4;
    let flow = need_not_negative("flow", flow)? / need_positive("Hazen-Williams coefficient", coefficient)?;
    let diameter = need_positive("inside diameter", diameter)?;
    let head = FACTOR * need_not_negative("pipe length", length)? * flow.powf(FLOW_EXPONENT)
        / diameter.powf(DIAMETER_EXPONENT);
    outcome("pressure loss", head * need_positive("density", water.density)? * GRAVITY)
}

/// Pressure of a rise m, Pa; below zero where the pipe falls.
///
/// # Errors
/// A rise that is not finite.
pub fn static_pressure(rise: f64, water: &Water) -> Result<f64, InputError> {
    outcome("static pressure", need_finite("rise", rise)? * need_positive("density", water.density)? * GRAVITY)
}
