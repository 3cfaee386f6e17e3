//! Inside surfaces: how warm they are, and when they drip or grow mould.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_finite, need_not_negative, need_positive, need_within, outcome};
use crate::moisture::saturation::{relative_humidity, saturation_pressure};

/// Relative humidity on a surface from which water condenses.
pub const CONDENSATION_HUMIDITY: f64 = 1.0;

/// Relative humidity on a surface above which mould grows within days, with its source.
pub static MOULD_HUMIDITY: (f64, Citation) = (
    0.8,
    Citation {
        document: "ISO 13788",
        place: "critical surface humidity against mould, for several days",
        edition: "2012, not seen",
        mark: Mark::Memory,
        address: "",
    },
);

/// A published least surface temperature factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceFactorLimit {
    /// Least factor.
    pub least: f64,
    /// Source.
    pub citation: Citation,
}

/// The value for dwellings in the United Kingdom.
pub static SURFACE_FACTOR_LIMIT: SurfaceFactorLimit = SurfaceFactorLimit {
    least: 0.75,
    citation: Citation {
        document: "BRE Information Paper 1/06",
        place: "surface temperature factor in dwellings",
        edition: "2006, quoted in an assessment",
        mark: Mark::SecondHand,
        address: "https://vdocuments.mx",
    },
};

/// Surface temperature factor f of a whole face or pane: 1 − U·Rsi, from heat transfer W/(m²·K) and inside surface resistance m²·K/W.
/// 1 is as warm as the room, 0 as cold as outside.
///
/// # Errors
/// Numbers below zero, and a product above 1, which no wall with that surface resistance can have.
pub fn surface_factor(u: f64, inner_surface: f64) -> Result<f64, InputError> {
    let product =
        need_not_negative("heat transfer", u)? * need_not_negative("inside surface resistance", inner_surface)?;
    need_within("heat transfer × surface resistance", product, 0.0, 1.0)?;
    Ok(1.0 - product)
}

/// The same from resistances, m²·K/W: of the inside surface and of all behind it (layers and outside surface). For ribs take the path
/// through the metal.
///
/// # Errors
/// Numbers below zero; a sum of zero.
pub fn surface_factor_of_layers(inner_surface: f64, behind: f64) -> Result<f64, InputError> {
    let behind = need_not_negative("resistance behind the surface", behind)?;
    let total = need_positive("resistance", need_not_negative("inside surface resistance", inner_surface)? + behind)?;
    outcome("surface factor", behind / total)
}

/// Temperature of the inside surface, K: Te + f·(Ti − Te).
///
/// # Errors
/// A factor outside 0 to 1; temperatures that are not finite.
pub fn surface_temperature(factor: f64, inside: f64, outside: f64) -> Result<f64, InputError> {
    let factor = need_within("surface factor", factor, 0.0, 1.0)?;
    let outside = need_finite("outside temperature", outside)?;
    outcome("surface temperature", outside + factor * (need_finite("inside temperature", inside)? - outside))
}

/// Relative humidity of the air at a surface, from the room's vapour pressure Pa and the surface's temperature K. At 1 and above water
/// condenses; above 0.8 for days mould grows.
///
/// # Errors
/// A temperature outside −60 to 100 °C; a pressure below zero.
pub fn surface_humidity(room_pressure: f64, surface: f64) -> Result<f64, InputError> {
    relative_humidity(surface, room_pressure)
}

/// Greatest relative humidity of the room at which the surface stays at or below a surface humidity (1 or 0.8), not above 1.
///
/// # Errors
/// A factor or a humidity outside 0 to 1; a temperature outside −60 to 100 °C.
pub fn humidity_limit(factor: f64, inside: f64, outside: f64, surface_humidity: f64) -> Result<f64, InputError> {
    let at_surface = saturation_pressure(surface_temperature(factor, inside, outside)?)?;
    let allowed = need_within("surface humidity", surface_humidity, 0.0, 1.0)? * at_surface;
    Ok(relative_humidity(inside, allowed)?.min(1.0))
}
