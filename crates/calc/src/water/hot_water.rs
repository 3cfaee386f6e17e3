//! Hot water: energy, mixing, growth of legionella, and the pressure of heating.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_finite, need_not_negative, need_positive, need_share, outcome};
use crate::temperature::kelvin;
use crate::water::properties::water;

/// Temperatures between which legionella grow, K (20 and 45 °C, [`LEGIONELLA`]).
pub const LEGIONELLA_GROWTH: (f64, f64) = (kelvin(20.0), kelvin(45.0));

/// Temperature at which hot water is to be stored, K (60 °C, [`LEGIONELLA`]).
pub const LEGIONELLA_STORAGE: f64 = kelvin(60.0);

/// Source of the temperatures against legionella.
pub static LEGIONELLA: Citation = Citation {
    document: "HSE, hot and cold water systems",
    place: "cold below 20 °C, hot stored at 60 °C or above, 50 °C at the outlet within a minute",
    edition: "undated",
    mark: Mark::Read,
    address: "https://www.hse.gov.uk/legionnaires/hot-and-cold.htm",
};

/// Temperature at which a temperature-and-pressure relief valve opens at the latest, K (210 °F, [`RELIEF`]).
pub const RELIEF_TEMPERATURE: f64 = kelvin(98.888_888_9);

/// Pressure at which it opens at the latest, Pa above the air (150 psi, [`RELIEF`]).
pub const RELIEF_PRESSURE: f64 = 1_034_214.0;

/// Source of the relief values.
pub static RELIEF: Citation = Citation {
    document: "guidance on water heaters in homes",
    place: "relief at not more than 210 °F or 150 psi",
    edition: "quoted on two pages",
    mark: Mark::SecondHand,
    address: "https://legalclarity.org",
};

/// Heat that warms a volume m³ of water from one temperature K to another, J; zero where it is warm already. The mass is that of the cold
/// water.
///
/// # Errors
/// A volume below zero; a temperature outside 0 to 99 °C.
pub fn heating_energy(volume: f64, from: f64, to: f64) -> Result<f64, InputError> {
    let (start, end) = (water(from)?, water(to)?);
    let mass = need_not_negative("volume", volume)? * start.density;
    // Simpson's rule: the specific heat has its least value near 35 °C.
    let middle = water(f64::midpoint(from, to))?.specific_heat;
    let specific = (start.specific_heat + 4.0 * middle + end.specific_heat) / 6.0;
    outcome("heat", mass * specific * (to - from).max(0.0))
}

/// Time in which a heater of that power W warms a volume m³, s, its efficiency 0 to 1 counted and its losses W to the room.
/// `None` where the losses take all the power.
///
/// # Errors
/// What [`heating_energy`] refuses; a power or losses below zero; an efficiency outside 0 to 1.
pub fn recharge_seconds(
    volume: f64,
    from: f64,
    to: f64,
    power: f64,
    efficiency: f64,
    losses: f64,
) -> Result<Option<f64>, InputError> {
    let heat = heating_energy(volume, from, to)?;
    let useful = need_not_negative("heater power", power)? * need_share("efficiency", efficiency)?
        - need_not_negative("losses", losses)?;
    if heat <= 0.0 {
        return Ok(Some(0.0));
    }
    if useful > 0.0 { outcome("time", heat / useful).map(Some) } else { Ok(None) }
}

/// Water at a mixed temperature that hot water gives with cold, m³: V·(Th − Tc)/(Tm − Tc).
///
/// # Errors
/// A volume below zero; a mixed temperature that is not between cold and hot (it may be hot).
pub fn mixed_volume(hot_volume: f64, hot: f64, cold: f64, mixed: f64) -> Result<f64, InputError> {
    let volume = need_not_negative("hot water", hot_volume)?;
    let (hot, cold) = (need_finite("hot temperature", hot)?, need_finite("cold temperature", cold)?);
    let above = need_positive("mixed above cold temperature", need_finite("mixed temperature", mixed)? - cold)?;
    if mixed > hot {
        return Err(InputError::OutOfRange { quantity: "mixed temperature", value: mixed, least: cold, most: hot });
    }
    outcome("mixed water", volume * (hot - cold) / above)
}

/// Temperature of a mixture of hot and cold flows m³/s, K.
///
/// # Errors
/// Flows below zero or both zero; temperatures that are not finite.
pub fn mixed_temperature(hot_flow: f64, hot: f64, cold_flow: f64, cold: f64) -> Result<f64, InputError> {
    let (hot_flow, cold_flow) = (need_not_negative("hot flow", hot_flow)?, need_not_negative("cold flow", cold_flow)?);
    let total = need_positive("flow", outcome("flow", hot_flow + cold_flow)?)?;
    let (hot, cold) = (need_finite("hot temperature", hot)?, need_finite("cold temperature", cold)?);
    outcome("mixed temperature", cold + (hot - cold) * (hot_flow / total))
}

/// Volume by which water grows when it is warmed, m³. Behind a check valve without vessel or relief the pressure rises about 2.6 bar for each
/// kelvin (CoolProp, at constant volume).
///
/// # Errors
/// A volume below zero; a temperature outside 0 to 99 °C.
pub fn closed_expansion(volume: f64, from: f64, to: f64) -> Result<f64, InputError> {
    let growth = water(from)?.density / water(to)?.density - 1.0;
    outcome("expansion", need_not_negative("volume", volume)? * growth)
}
