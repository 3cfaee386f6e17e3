//! Temperature of a closed compartment with warm devices in it, and what that heat takes from their output.

use crate::heat::air::{DISCHARGE_COEFFICIENT, stack_flow, volumetric_heat_capacity};
use crate::input::{InputError, need_finite, need_not_negative, need_positive, need_within, outcome};

/// Bisection halves this often: a span of 1e12 K comes down to below 1e-9 K.
const HALVINGS: u32 = 80;

/// Temperature in a compartment, K, where losses W leave through its walls and with the air that the warmth itself drives through a low and
/// a high opening: P = UA·ΔT + ρc·q(ΔT)·ΔT.
///
/// `losses` W, `wall_loss` UA W/K, `opening` from [`effective_opening`](crate::heat::effective_opening) m², `height` between the openings m,
/// `surroundings` K. `None` where heat has no way out. Standing air without wind or fan: an upper estimate.
///
/// # Errors
/// A number below zero; a temperature that is not above 0 K.
pub fn compartment_temperature(
    losses: f64,
    wall_loss: f64,
    opening: f64,
    height: f64,
    surroundings: f64,
) -> Result<Option<f64>, InputError> {
    let losses = need_not_negative("losses of the devices", losses)?;
    let wall_loss = need_not_negative("wall loss", wall_loss)?;
    let surroundings = need_positive("temperature round the compartment", surroundings)?;
    let carried = |rise: f64| -> Result<f64, InputError> {
        let mean = surroundings + rise / 2.0;
        let flow = stack_flow(opening, height, rise, mean, DISCHARGE_COEFFICIENT.0)?;
        outcome("heat", wall_loss * rise + volumetric_heat_capacity(mean)? * flow * rise)
    };
    if losses <= 0.0 {
        carried(0.0)?;
        return Ok(Some(surroundings));
    }
    let (mut low, mut high) = (0.0, 1.0);
    // Air gets thin with heat, so that openings alone never carry more than a limit; 2,000 K is far beyond any use.
    const HOTTEST_RISE: f64 = 2_000.0;
    while carried(high)? < losses {
        low = high;
        high *= 2.0;
        if high > HOTTEST_RISE {
            return Ok(None);
        }
    }
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if carried(middle)? < losses { low = middle } else { high = middle }
    }
    outcome("temperature", surroundings + high).map(Some)
}

/// How a device's output falls with the temperature of its air, by its data sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Derating {
    /// Full output up to this temperature, K.
    pub full_until: f64,
    /// Share of the output left at [`Derating::low_at`], 0 to 1.
    pub low_share: f64,
    /// The temperature of that share, K; above it the device gives nothing.
    pub low_at: f64,
}

/// Share of its output that a device gives at a temperature K: 1 to the first point, on a straight line to the second, 0 above.
///
/// # Errors
/// Points that are not in order; a share outside 0 to 1; a temperature that is not finite.
pub fn derated_share(derating: &Derating, kelvin: f64) -> Result<f64, InputError> {
    let full_until = need_finite("temperature of full output", derating.full_until)?;
    let low_at = need_finite("temperature of least output", derating.low_at)?;
    let low_share = need_within("least output", derating.low_share, 0.0, 1.0)?;
    let kelvin = need_finite("temperature", kelvin)?;
    if low_at < full_until {
        return Err(InputError::Crossed { quantity: "temperatures of the derating" });
    }
    Ok(if kelvin <= full_until {
        1.0
    } else if kelvin > low_at {
        0.0
    } else {
        1.0 + (low_share - 1.0) * (kelvin - full_until) / (low_at - full_until)
    })
}

/// A closed compartment, as [`compartment_temperature`] takes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compartment {
    /// Loss through the walls and with driven air, W/K.
    pub wall_loss: f64,
    /// Effective opening of a low and a high one, m².
    pub opening: f64,
    /// Height between them, m.
    pub height: f64,
    /// Temperature round it, K.
    pub surroundings: f64,
}

/// What a device settles at in the warmth of its compartment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settled {
    /// Share of its full output.
    pub share: f64,
    /// Temperature of the air round it, K.
    pub temperature: f64,
}

/// Share of its output at which a device settles that is asked for a share of it and gives less in warm air: the least of what is asked and of
/// what its derating leaves at the temperature that this share itself makes. Where it switches off above a temperature it goes on and off
/// there, and the share is the mean.
///
/// `full_losses` W at full output, falling with the share; `beside` W of everything else in there. `None` where the heat has no way out.
///
/// # Errors
/// A share outside 0 to 1; what [`compartment_temperature`] and [`derated_share`] refuse.
pub fn settled_share(
    compartment: &Compartment,
    full_losses: f64,
    beside: f64,
    asked: f64,
    derating: &Derating,
) -> Result<Option<Settled>, InputError> {
    let full_losses = need_not_negative("losses of the device", full_losses)?;
    let beside = need_not_negative("losses beside the device", beside)?;
    let asked = need_within("share that is asked", asked, 0.0, 1.0)?;
    let warmth = |share: f64| {
        let Compartment { wall_loss, opening, height, surroundings } = *compartment;
        compartment_temperature(share * full_losses + beside, wall_loss, opening, height, surroundings)
    };
    let stands = |share: f64| -> Result<bool, InputError> {
        Ok(match warmth(share)? {
            Some(kelvin) => share <= derated_share(derating, kelvin)?,
            None => false,
        })
    };
    let Some(least) = warmth(0.0)? else { return Ok(None) };
    let no_way_out = compartment.wall_loss <= 0.0 && compartment.opening * compartment.height <= 0.0;
    if full_losses > 0.0 && no_way_out {
        return Ok(None);
    }
    let (mut low, mut high) = (0.0, asked);
    if stands(asked)? {
        low = asked;
    } else {
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if stands(middle)? { low = middle } else { high = middle }
        }
    }
    Ok(Some(Settled { share: low, temperature: warmth(low)?.unwrap_or(least) }))
}
