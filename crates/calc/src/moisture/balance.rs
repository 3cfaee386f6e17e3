//! Moisture inside in the balance of what is given off and what fresh air takes away.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_not_negative, need_positive, outcome};
use crate::moisture::saturation::{pressure_of_density, relative_humidity, vapour_density};

/// Vapour pressure inside in the steady state, Pa, before anything condenses: outside vapour plus production over air flow.
///
/// `outside` K, `outside_pressure` vapour pressure there Pa, `production` kg/s, `flow` m³/s of outside air, `inside` K.
///
/// # Errors
/// A flow or temperature that is not above zero; a pressure or production below zero.
pub fn inside_vapour_pressure(
    outside: f64,
    outside_pressure: f64,
    production: f64,
    flow: f64,
    inside: f64,
) -> Result<f64, InputError> {
    let from_outside = vapour_density(outside, outside_pressure)?;
    let added = need_not_negative("moisture production", production)? / need_positive("fresh air flow", flow)?;
    pressure_of_density(inside, from_outside + added)
}

/// Relative humidity inside in the steady state; above 1 the air cannot hold the vapour. Arguments as in [`inside_vapour_pressure`].
///
/// # Errors
/// As there; an inside temperature outside −60 to 100 °C.
pub fn inside_relative_humidity(
    outside: f64,
    outside_pressure: f64,
    production: f64,
    flow: f64,
    inside: f64,
) -> Result<f64, InputError> {
    relative_humidity(inside, inside_vapour_pressure(outside, outside_pressure, production, flow, inside)?)
}

/// Fresh air that keeps the vapour pressure inside at or below a limit Pa, m³/s; `None` where the outside air alone is above it.
/// For dry surfaces the limit is the saturation pressure at the coldest one, against mould 0.8 of it.
///
/// # Errors
/// A temperature that is not above zero; a pressure or production below zero.
pub fn flow_to_keep_dry(
    outside: f64,
    outside_pressure: f64,
    production: f64,
    inside: f64,
    limit_pressure: f64,
) -> Result<Option<f64>, InputError> {
    let production = need_not_negative("moisture production", production)?;
    let room = vapour_density(inside, limit_pressure)? - vapour_density(outside, outside_pressure)?;
    if room > 0.0 { outcome("fresh air flow", production / room).map(Some) } else { Ok(None) }
}

/// Source of [`dwelling_air_flow`].
pub static ASHRAE_62_2: Citation = Citation {
    document: "ASHRAE 62.2",
    place: "whole-building flow: 0.03 cfm/ft² + 7.5 cfm × (bedrooms + 1)",
    edition: "2013, quoted on a page",
    mark: Mark::SecondHand,
    address: "",
};

// One cubic foot a minute in m³/s, and one square foot in m².
const CUBIC_FOOT_PER_MINUTE: f64 = 0.028_316_846_592 / 60.0;
const SQUARE_FOOT: f64 = 0.092_903_04;

/// Fresh air of a dwelling, m³/s, by floor area m² and bedrooms ([`ASHRAE_62_2`]); 8.2 L/s for a van of 7.56 m² with one.
///
/// # Errors
/// An area below zero.
pub fn dwelling_air_flow(floor_area: f64, bedrooms: u32) -> Result<f64, InputError> {
    const PER_SQUARE_FOOT: f64 = 0.03;
    const PER_PERSON: f64 = 7.5;
    let square_feet = need_not_negative("floor area", floor_area)? / SQUARE_FOOT;
    let cfm = PER_SQUARE_FOOT * square_feet + PER_PERSON * (f64::from(bedrooms) + 1.0);
    outcome("fresh air flow", cfm * CUBIC_FOOT_PER_MINUTE)
}
