//! Whether the range of a heater covers the coldest night and still burns steadily on a mild one.

use crate::input::{InputError, need_not_negative, need_positive, outcome};
use crate::interval::Interval;

/// What a heater does at a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HeaterAtLoad {
    /// The load is above the highest step: this much is missing, W.
    Short(f64),
    /// The load lies within the range: it burns steadily.
    Steady,
    /// The load is below the lowest step: it burns this share of the time (0 to below 1) and stands cold or idles for the rest, which soots
    /// burners.
    Cycling(f64),
}

/// What a heater of that range of steady output W does at a load W. A heater with one step has a range of one value.
///
/// # Errors
/// A range that is not above zero; a load below zero.
pub fn heater_at_load(range: Interval, load: f64) -> Result<HeaterAtLoad, InputError> {
    let lowest = need_positive("lowest output", range.least())?;
    let load = need_not_negative("heat load", load)?;
    Ok(if load > range.most() {
        HeaterAtLoad::Short(load - range.most())
    } else if load < lowest {
        HeaterAtLoad::Cycling(load / lowest)
    } else {
        HeaterAtLoad::Steady
    })
}

/// Output that a heater needs, W: the loss with a reserve as a share of it (0.25 is a quarter more).
///
/// # Errors
/// A loss or a reserve below zero.
pub fn heater_need(loss: Interval, reserve: f64) -> Result<Interval, InputError> {
    need_not_negative("heat loss", loss.least())?;
    let factor = outcome("reserve", 1.0 + need_not_negative("reserve", reserve)?)?;
    loss.times(factor)
}
