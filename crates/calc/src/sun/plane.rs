//! What falls on a tilted plane.

use super::clear_sky::Irradiance;
use super::position::SunPosition;
use crate::citation::{Citation, Mark};
use crate::number::{finite, positive};

/// Where [`plane_irradiance`] comes from.
pub static SKY_MODEL: Citation = Citation {
    document: "J. E. Hay and J. A. Davies, Calculations of the solar radiation incident on an inclined surface",
    place: "sky diffuse irradiance, part of it from around the sun; the isotropic sky is that of Liu and Jordan",
    edition: "1980, as given in the text of a public library of solar functions",
    mark: Mark::SecondHand,
    address: "https://pvlib-python.readthedocs.io",
};

/// Share of the light that the ground throws back: 0.2, grass and bare ground (the usual value, from memory). Fresh snow throws back 0.6
/// and more.
pub const TYPICAL_ALBEDO: f64 = 0.2;

/// How a plane lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// Angle from level, rad, 0 to π.
    pub tilt: f64,
    /// Direction that it faces, rad clockwise from north. Without meaning for a level plane.
    pub azimuth: f64,
    /// Share of the light that the ground before it throws back, 0 to 1.
    pub albedo: f64,
}

impl Plane {
    /// A level plane, as on a roof.
    pub const LEVEL: Plane = Plane { tilt: 0.0, azimuth: 0.0, albedo: TYPICAL_ALBEDO };

    /// True where the numbers are within their ranges.
    pub(crate) fn usable(&self) -> bool {
        (0.0..=std::f64::consts::PI).contains(&self.tilt)
            && self.azimuth.is_finite()
            && (0.0..=1.0).contains(&self.albedo)
    }
}

/// How the sky's diffuse light is spread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Transposition {
    /// The same from everywhere: low for planes that face the sun.
    Isotropic,
    /// A part of it comes from around the sun (Hay and Davies).
    HayDavies,
}

/// Least cosine of the sun's zenith angle in the ratio of the light around the sun, that of 89°: the ratio has no bound at the horizon.
const LEAST_COSINE: f64 = 0.01745;

/// Cosine of the angle between the sun's rays and the plane's normal; below zero with the sun behind the plane.
#[must_use]
pub fn incidence_cosine(plane: &Plane, sun: &SunPosition) -> f64 {
    let (sin_zenith, cos_zenith) = sun.apparent_zenith.sin_cos();
    plane.tilt.cos() * cos_zenith + plane.tilt.sin() * sin_zenith * (sun.azimuth - plane.azimuth).cos()
}

/// Irradiance on a plane, W/m²: beam, sky and ground ([`SKY_MODEL`]).
///
/// `above_air` is the irradiance across the rays above the air, W/m². `None` where a number is not usable.
#[must_use]
pub fn plane_irradiance(
    plane: &Plane,
    sun: &SunPosition,
    light: &Irradiance,
    above_air: f64,
    sky: Transposition,
) -> Option<f64> {
    if !plane.usable() || !positive(above_air) {
        return None;
    }
    let facing = incidence_cosine(plane, sun).max(0.0);
    let seen_sky = 0.5 * (1.0 + plane.tilt.cos());
    let from_sky = match sky {
        Transposition::Isotropic => light.diffuse * seen_sky,
        Transposition::HayDavies => {
            let around_sun = light.beam / above_air;
            let ratio = facing / sun.apparent_zenith.cos().max(LEAST_COSINE);
            light.diffuse * ((1.0 - around_sun).max(0.0) * seen_sky + around_sun * ratio)
        }
    };
    let from_ground = light.global * plane.albedo * 0.5 * (1.0 - plane.tilt.cos());
    finite(light.beam * facing + from_sky + from_ground)
}
