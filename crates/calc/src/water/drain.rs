//! Drains: fall, what a parked tilt takes of it, and the water in traps.

use std::f64::consts::FRAC_PI_2;

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_finite, need_not_negative, need_positive, need_within, outcome};

/// Least fall of a drain, 1/4 in to the foot ([`DRAIN_SLOPE_SOURCE`]).
pub const DRAIN_SLOPE: f64 = 0.25 / 12.0;

/// Least fall of a drain with a clean-out at its upper end, 1/8 in to the foot ([`DRAIN_SLOPE_SOURCE`]).
pub const DRAIN_SLOPE_WITH_CLEAN_OUT: f64 = 0.125 / 12.0;

/// Source of the two falls.
pub static DRAIN_SLOPE_SOURCE: Citation = Citation {
    document: "24 CFR 3285.604(c)",
    place: "slope of drain lines",
    edition: "in force to 31 October 2024",
    mark: Mark::Read,
    address: "https://print.casetext.com",
};

/// Fall over a length m at a slope (fall over length), m; below zero where it rises.
///
/// # Errors
/// A length below zero; a slope that is not finite.
pub fn drain_fall(length: f64, slope: f64) -> Result<f64, InputError> {
    outcome("fall", need_not_negative("length of the drain", length)? * need_finite("slope", slope)?)
}

/// Slope that is left when the vehicle leans by an angle rad against the drain: tan(atan(slope) − angle). Below zero the water runs back.
/// A shower tray of 2 % stops draining at 1.15°.
///
/// # Errors
/// A slope that is not finite; an angle outside ±π/2.
pub fn slope_when_tilted(slope: f64, angle: f64) -> Result<f64, InputError> {
    let level = need_finite("slope", slope)?.atan();
    let angle = need_finite("angle", angle)?;
    need_within("angle of the drain", level - angle, -FRAC_PI_2, FRAC_PI_2)?;
    outcome("slope", (level - angle).tan())
}

/// Height of the water that still bars the air in a trap when the vehicle leans, m: seal·cos − (distance of the legs)/2·sin. The lean is the one
/// that lowers the outlet leg; the other way the trap holds more. Zero where air passes.
///
/// # Errors
/// A seal below zero; a distance that is not above zero; an angle outside 0 to π/2.
pub fn trap_seal_when_tilted(seal: f64, legs_apart: f64, angle: f64) -> Result<f64, InputError> {
    let seal = need_not_negative("water seal", seal)?;
    let apart = need_positive("distance of the legs", legs_apart)?;
    let angle = need_within("angle", angle, 0.0, FRAC_PI_2)?;
    Ok((seal * angle.cos() - apart / 2.0 * angle.sin()).max(0.0))
}
