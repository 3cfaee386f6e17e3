//! What the sun brings through a clear sky.

use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive};

/// Where [`clear_sky`] comes from.
pub static CLEAR_SKY: Citation = Citation {
    document: "P. Ineichen and R. Perez, A new airmass independent formulation for the Linke turbidity coefficient, Solar Energy 73",
    place: "global and beam irradiance under a clear sky, pages 151 to 157",
    edition: "2002, as given in the text of a public library of solar functions",
    mark: Mark::SecondHand,
    address: "https://pvlib-python.readthedocs.io",
};

/// Pressure of the standard atmosphere at the sea's level, Pa (ISO 2533).
pub const STANDARD_PRESSURE: f64 = 101_325.0;

/// Irradiance of a moment, W/m².
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Irradiance {
    /// All of it, on a level plane.
    pub global: f64,
    /// Straight from the sun, across its rays.
    pub beam: f64,
    /// From the rest of the sky, on a level plane.
    pub diffuse: f64,
}

/// Linke turbidity to assume: 3, clean rural air at middle latitudes (chosen; 2 is very clear cold air, 5 moist or dusty air).
#[must_use]
pub fn typical_turbidity() -> (f64, &'static Citation) {
    static CHOSEN: Citation = Citation {
        document: "assumption of this project",
        place: "Linke turbidity 3, rural air at middle latitudes",
        edition: "",
        mark: Mark::Chosen,
        address: "",
    };
    (3.0, &CHOSEN)
}

/// Pressure of the air, Pa, at an altitude m above the sea, by the standard atmosphere of the troposphere (ISO 2533).
/// `None` above its 11 km, below −500 m and for a number that is not finite.
#[must_use]
pub fn pressure_at_altitude(metres: f64) -> Option<f64> {
    // Height of a uniform atmosphere times the exponent; the constants are those of ISO 2533 put together.
    (-500.0..=11_000.0).contains(&metres).then(|| 100.0 * ((44_331.514 - metres) / 11_880.516).powf(1.0 / 0.190_263_2))
}

/// Length of the sun's way through the air over that from straight above, at an apparent zenith angle rad (F. Kasten and A. Young 1989,
/// Applied Optics 28, second-hand). `None` below the horizon and for a number that is not finite.
#[must_use]
pub fn relative_air_mass(apparent_zenith: f64) -> Option<f64> {
    let degrees = apparent_zenith.to_degrees();
    if !(0.0..=90.0).contains(&degrees) {
        return None;
    }
    finite(1.0 / (apparent_zenith.cos() + 0.505_72 * (6.079_95 + (90.0 - degrees)).powf(-1.636_4)))
}

/// Irradiance under a clear sky by Ineichen and Perez ([`CLEAR_SKY`]).
///
/// `apparent_zenith` of the sun, rad; `pressure` of the air, Pa; `turbidity` by Linke; `altitude`, m; `above_air`, irradiance across the
/// rays above the air, W/m². Nothing with the sun below the horizon. `None` where a number is not usable (pressure and turbidity above
/// zero, the others finite, irradiance not below zero).
#[must_use]
pub fn clear_sky(
    apparent_zenith: f64,
    pressure: f64,
    turbidity: f64,
    altitude: f64,
    above_air: f64,
) -> Option<Irradiance> {
    let usable = apparent_zenith.is_finite()
        && positive(pressure)
        && positive(turbidity)
        && altitude.is_finite()
        && not_negative(above_air);
    if !usable {
        return None;
    }
    let Some(relative) = relative_air_mass(apparent_zenith) else { return Some(Irradiance::default()) };
    let cosine = apparent_zenith.cos().max(0.0);
    let mass = relative * pressure / STANDARD_PRESSURE;
    let fh1 = (-altitude / 8_000.0).exp();
    let fh2 = (-altitude / 1_250.0).exp();
    let cg1 = 5.09e-5 * altitude + 0.868;
    let cg2 = 3.92e-5 * altitude + 0.0387;
    let through = (-cg2 * mass * (fh1 + fh2 * (turbidity - 1.0))).exp();
    let global = cg1 * above_air * cosine * through;
    let beam = above_air * (0.664 + 0.163 / fh1) * (-0.09 * mass * (turbidity - 1.0)).exp();
    // The authors' bound: at least a part of the global irradiance is diffuse.
    let most = if cosine > 0.0 {
        global * (1.0 - (0.1 - 0.2 * (-turbidity).exp()) / (0.1 + 0.882 / fh1)).max(0.0) / cosine
    } else {
        0.0
    };
    let beam = beam.min(most);
    let diffuse = global - beam * cosine;
    (global.is_finite() && beam.is_finite()).then_some(Irradiance { global, beam, diffuse })
}
