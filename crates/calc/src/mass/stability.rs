//! Tipping and braking.

use crate::input::{InputError, need_finite, need_not_negative, need_positive, need_within, outcome};

/// Static stability factor: track m over twice the height of the centre of gravity m (NHTSA). It is the sideways acceleration in g at which a
/// rigid vehicle would tip on level ground; springs and tyres give way before.
///
/// # Errors
/// A track or height that is not above zero.
pub fn static_stability_factor(track: f64, height: f64) -> Result<f64, InputError> {
    outcome("stability factor", need_positive("track", track)? / (2.0 * need_positive("height", height)?))
}

/// Angle of a side slope at which a rigid vehicle tips, rad: atan of (half the track less the centre's distance from the middle) over its
/// height. An upper estimate, since springs and tyres give way. `offset` from the middle to either side, m.
///
/// # Errors
/// A track or height that is not above zero; an offset outside the wheels.
pub fn static_tilt_angle(track: f64, height: f64, offset: f64) -> Result<f64, InputError> {
    let half = need_positive("track", track)? / 2.0;
    let offset = need_within("offset of the centre of gravity", offset, -half, half)?;
    outcome("angle", ((half - offset.abs()) / need_positive("height", height)?).atan())
}

/// Load that braking moves from the rear to the front axle, kg: mass kg × deceleration as a share of g × height m over wheelbase m.
///
/// # Errors
/// A wheelbase that is not above zero; other numbers below zero.
pub fn braking_transfer(mass: f64, deceleration: f64, height: f64, wheelbase: f64) -> Result<f64, InputError> {
    let force = need_not_negative("mass", mass)? * need_not_negative("deceleration", deceleration)?;
    outcome("load", force * need_not_negative("height", height)? / need_positive("wheelbase", wheelbase)?)
}

/// Height of the centre of gravity above the road, m, by weighing with the rear axle lifted: r + WB·ΔF/(M·tan α).
///
/// `wheelbase` m, `mass` kg, `gain` of the front axle against level kg, `angle` of the lifted vehicle rad, `radius` of the loaded wheel m.
///
/// # Errors
/// A wheelbase, mass or radius that is not above zero; an angle outside 0 (excluded) to 0.8 rad; a gain that is not finite.
pub fn height_from_lifted_axle(
    wheelbase: f64,
    mass: f64,
    gain: f64,
    angle: f64,
    radius: f64,
) -> Result<f64, InputError> {
    const STEEPEST: f64 = 0.8;
    let angle = need_within("angle", need_positive("angle", angle)?, 0.0, STEEPEST)?;
    let lever = need_positive("wheelbase", wheelbase)? * need_finite("gain of the front axle", gain)?;
    outcome("height", need_positive("wheel radius", radius)? + lever / (need_positive("mass", mass)? * angle.tan()))
}
