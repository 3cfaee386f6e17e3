//! Cooling load: sun on roof and walls, sun through windows, people.

use crate::citation::{Citation, Mark};
use crate::heat::air::volumetric_heat_capacity;
use crate::input::{InputError, need_finite, need_not_negative, need_positive, need_within, outcome};
use crate::interval::Interval;
use crate::moisture::vapour_density;

/// Colour of a roof or wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RoofColour {
    /// White paint.
    White,
    /// Silver, beige, light blue.
    Light,
    /// Red, green, grey.
    Medium,
    /// Black, dark blue, anthracite.
    Dark,
}

/// Share of the sun's radiation that a colour takes up, and its source. The values for white and dark are those of the fact book's worked
/// temperatures, the two between are chosen.
#[must_use]
pub const fn roof_absorptance(colour: RoofColour) -> (Interval, &'static Citation) {
    static SOURCE: Citation = Citation {
        document: "assumption of this project",
        place: "solar absorptance by colour: white 0.3, dark 0.9, the others between",
        edition: "",
        mark: Mark::Chosen,
        address: "",
    };
    let (least, most) = match colour {
        RoofColour::White => (0.2, 0.3),
        RoofColour::Light => (0.3, 0.5),
        RoofColour::Medium => (0.5, 0.8),
        RoofColour::Dark => (0.8, 0.95),
    };
    (Interval::row(least, most), &SOURCE)
}

/// Long-wave loss of a level face to a clear sky as a temperature, K (ASHRAE, from memory); an upright face has none.
const SKY_LEVEL: f64 = 4.0;

/// Outside temperature that would drive as much heat as sun and air together, K: To + α·I/ho − 4 K on a level face (ASHRAE, from memory).
///
/// `outside` K, `absorptance` 0 to 1, `irradiance` W/m², `film` ho W/(m²·K) (17 in summer), `level` true for a roof.
///
/// # Errors
/// An absorptance outside 0 to 1; an irradiance below zero; a film that is not above zero.
pub fn sol_air_temperature(
    outside: f64,
    absorptance: f64,
    irradiance: f64,
    film: f64,
    level: bool,
) -> Result<f64, InputError> {
    let sun = need_within("absorptance", absorptance, 0.0, 1.0)? * need_not_negative("irradiance", irradiance)?;
    let sky = if level { SKY_LEVEL } else { 0.0 };
    outcome("sol-air", need_positive("outside temperature", outside)? + sun / need_positive("film", film)? - sky)
}

/// Heat through a face, W: heat transfer W/(m²·K) × area m² × (sol-air temperature − inside temperature); below zero where it leaves.
///
/// # Errors
/// A heat transfer or an area below zero; a temperature that is not finite.
pub fn transmitted_gain(u: f64, area: f64, sol_air: f64, inside: f64) -> Result<f64, InputError> {
    let loss = need_not_negative("heat transfer", u)? * need_not_negative("area", area)?;
    outcome("gain", loss * (need_finite("sol-air", sol_air)? - need_finite("inside temperature", inside)?))
}

/// Sun through a window, W: area m² × solar heat gain coefficient 0 to 1 × irradiance W/m² on its plane.
///
/// # Errors
/// A number below zero; a coefficient above 1.
pub fn solar_gain(area: f64, coefficient: f64, irradiance: f64) -> Result<f64, InputError> {
    let share = need_within("solar heat gain coefficient", coefficient, 0.0, 1.0)?;
    outcome("gain", need_not_negative("area", area)? * share * need_not_negative("irradiance", irradiance)?)
}

/// Sensible heat of a seated person at 24 °C, W ([`ASHRAE_PEOPLE`]).
pub const PEOPLE_SENSIBLE: f64 = 70.0;

/// Latent heat of a seated person at 24 °C, W ([`ASHRAE_PEOPLE`]).
pub const PEOPLE_LATENT: f64 = 45.0;

/// Source of the heat of people.
pub static ASHRAE_PEOPLE: Citation = Citation {
    document: "ASHRAE Handbook of Fundamentals, chapter 18",
    place: "Table 1, seated, very light work",
    edition: "2013",
    mark: Mark::Read,
    address: "https://www.scribd.com/document/686101040",
};

/// Heat as a rise of temperature and as moisture, W; below zero where it leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// Sensible.
    pub sensible: f64,
    /// Latent.
    pub latent: f64,
}

impl Gain {
    /// Both together, W.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.sensible + self.latent
    }
}

/// Heat of seated persons at 24 °C, W ([`ASHRAE_PEOPLE`]).
#[must_use]
pub fn people_gain(persons: u32) -> Gain {
    let persons = f64::from(persons);
    Gain { sensible: persons * PEOPLE_SENSIBLE, latent: persons * PEOPLE_LATENT }
}

/// Latent heat of water vapour at 0 °C, J/kg (textbook, from memory); within 3 % to 30 °C.
const LATENT_HEAT_OF_VAPOUR: f64 = 2.5e6;

/// Heat of fresh air, W: flow m³/s × (ρc·difference of temperature K, latent heat × difference of vapour). `outside` and `inside` are
/// temperature K and vapour pressure Pa.
///
/// # Errors
/// Numbers below zero; a temperature that is not above 0 K.
pub fn fresh_air_gain(flow: f64, outside: (f64, f64), inside: (f64, f64)) -> Result<Gain, InputError> {
    let flow = need_not_negative("fresh air flow", flow)?;
    let vapour = vapour_density(outside.0, outside.1)? - vapour_density(inside.0, inside.1)?;
    let sensible = outcome("gain", flow * volumetric_heat_capacity(outside.0)? * (outside.0 - inside.0))?;
    Ok(Gain { sensible, latent: outcome("gain", flow * LATENT_HEAT_OF_VAPOUR * vapour)? })
}

/// Sum of gains, and of each group of sensible gains W (faces, windows, devices), W.
///
/// # Errors
/// A gain that is not finite, a sum too large for a number.
pub fn cooling_load(sensible: &[f64], gains: &[Gain]) -> Result<Gain, InputError> {
    let mut sum = Gain { sensible: 0.0, latent: 0.0 };
    for gain in sensible {
        sum.sensible += need_finite("gain", *gain)?;
    }
    for gain in gains {
        sum.sensible += need_finite("sensible gain", gain.sensible)?;
        sum.latent += need_finite("latent gain", gain.latent)?;
    }
    Ok(Gain { sensible: outcome("gain", sum.sensible)?, latent: outcome("gain", sum.latent)? })
}
