//! Carbon dioxide of sleepers: the other reason for fresh air.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_not_negative, need_positive, need_share, outcome};
use crate::interval::Interval;

/// Carbon dioxide of a sleeping adult, m³/s (10 to 13 L/h), with its source.
pub static CARBON_DIOXIDE_ASLEEP: (Interval, Citation) = (
    Interval::row(10e-3 / 3_600.0, 13e-3 / 3_600.0),
    Citation {
        document: "no source seen",
        place: "carbon dioxide of a sleeping adult, 10 to 13 L/h",
        edition: "",
        mark: Mark::Memory,
        address: "",
    },
);

/// Share of carbon dioxide in outside air, 420 parts per million (from memory).
pub const OUTSIDE_CARBON_DIOXIDE: f64 = 420e-6;

/// Share of carbon dioxide inside in the steady state, from production m³/s, fresh air m³/s and the share outside.
///
/// # Errors
/// A flow that is not above zero; numbers below zero.
pub fn carbon_dioxide_share(production: f64, flow: f64, outside: f64) -> Result<f64, InputError> {
    let added = need_not_negative("carbon dioxide", production)? / need_positive("fresh air flow", flow)?;
    outcome("carbon dioxide", need_not_negative("carbon dioxide outside", outside)? + added)
}

/// Fresh air that keeps carbon dioxide at or below a share, m³/s; `None` where the limit is not above the share outside.
///
/// # Errors
/// A share outside 0 to 1; a production below zero.
pub fn flow_for_carbon_dioxide(production: f64, limit: f64, outside: f64) -> Result<Option<f64>, InputError> {
    let production = need_not_negative("carbon dioxide", production)?;
    let room = need_share("limit of carbon dioxide", limit)? - need_not_negative("carbon dioxide outside", outside)?;
    if room > 0.0 { outcome("fresh air flow", production / room).map(Some) } else { Ok(None) }
}
