//! Where the sun stands, by the low-precision formulas of the almanacs, and how strong it is above the air.
//!
//! A design knows a season, not a year: days are those of the mean of a leap cycle, so that no date is off by more than the half day that
//! leap years shift it. At an equinox that is 0.2° of height.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use crate::citation::{Citation, Mark};
use crate::number::{finite, positive};

/// Where [`declination`], [`equation_of_time`] and [`irradiance_above_air`] come from.
pub static POSITION: Citation = Citation {
    document: "The Astronomical Almanac, low-precision formulas for the sun",
    place: "mean longitude, mean anomaly, ecliptic longitude, obliquity and distance; good to 0.01° from 1950 to 2050",
    edition: "from memory; checked against NREL's solar position algorithm by a test",
    mark: Mark::Memory,
    address: "",
};

/// Irradiance of the sun above the air at its mean distance, W/m² (Kopp and Lean 2011, 1,361 W/m², from memory).
pub const SOLAR_CONSTANT: f64 = 1_361.0;

/// The day of each month whose sun is nearest to the month's mean: 17 January, 16 February, 16 March, … 10 December (S. A. Klein 1977,
/// seen quoted in public code: second-hand).
pub const MEAN_DAYS: [u16; 12] = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344];

/// The day of the year that stands for a month, 1 to 12 ([`MEAN_DAYS`]). `None` for another number.
#[must_use]
pub fn mean_day_of(month: u8) -> Option<f64> {
    let index = usize::from(month).checked_sub(1)?;
    MEAN_DAYS.get(index).map(|&day| f64::from(day))
}

/// Days from the epoch J2000 (noon of 1 January 2000) to the midnight at which the year begins, mean of the leap cycle 2024 to 2027 brought
/// to 2025 by whole years of 365.2422 days.
const YEAR_BEGINS: f64 = 9_131.13;

/// What the almanac's formulas give for the noon of a day.
struct Orbit {
    /// Mean longitude, rad, freed of whole turns.
    mean_longitude: f64,
    /// Mean anomaly, rad.
    anomaly: f64,
    /// Longitude along the ecliptic, rad.
    longitude: f64,
    /// Obliquity of the ecliptic, rad.
    obliquity: f64,
}

impl Orbit {
    fn at_noon(day: f64) -> Self {
        let days = YEAR_BEGINS + (day - 1.0) + 0.5;
        let mean_longitude = (280.460 + 0.985_647_4 * days).to_radians().rem_euclid(TAU);
        let anomaly = (357.528 + 0.985_600_3 * days).to_radians().rem_euclid(TAU);
        let centre = 1.915 * anomaly.sin() + 0.020 * (2.0 * anomaly).sin();
        let obliquity = (23.439 - 0.000_000_4 * days).to_radians();
        Orbit { mean_longitude, anomaly, longitude: mean_longitude + centre.to_radians(), obliquity }
    }
}

/// Declination of the sun, rad, at noon of a day of the year (1 is the first of January, parts of a day allowed) ([`POSITION`]).
/// Not a number stays so.
#[must_use]
pub fn declination(day: f64) -> f64 {
    let orbit = Orbit::at_noon(day);
    (orbit.obliquity.sin() * orbit.longitude.sin()).asin()
}

/// How far true solar time is ahead of mean solar time, s, at noon of a day of the year: mean longitude less right ascension
/// ([`POSITION`]). Not a number stays so.
#[must_use]
pub fn equation_of_time(day: f64) -> f64 {
    let orbit = Orbit::at_noon(day);
    let ascension = (orbit.obliquity.cos() * orbit.longitude.sin()).atan2(orbit.longitude.cos());
    // Never more than some degrees, so what is more is a whole turn.
    let ahead = (orbit.mean_longitude - ascension + PI).rem_euclid(TAU) - PI;
    ahead * crate::energy::DAY_SECONDS / TAU
}

/// Irradiance across the sun's rays above the air, W/m²: [`SOLAR_CONSTANT`] over the square of the distance in astronomical units
/// ([`POSITION`]). Not a number stays so.
#[must_use]
pub fn irradiance_above_air(day: f64) -> f64 {
    let anomaly = Orbit::at_noon(day).anomaly;
    let distance = 1.000_14 - 0.016_71 * anomaly.cos() - 0.000_14 * (2.0 * anomaly).cos();
    SOLAR_CONSTANT / (distance * distance)
}

/// Where the sun stands.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SunPosition {
    /// Angle from straight up, rad, without the air's refraction.
    pub zenith: f64,
    /// Angle from straight up, rad, as seen through the air.
    pub apparent_zenith: f64,
    /// Direction, rad clockwise from north.
    pub azimuth: f64,
}

/// Where the sun stands at a latitude rad, on a day of the year, at true solar time s after midnight, by spherical trigonometry.
///
/// `None` for a latitude beyond a pole and for numbers that are not finite.
#[must_use]
pub fn sun_position(latitude: f64, day: f64, solar_seconds: f64) -> Option<SunPosition> {
    position_by_declination(latitude, declination(day), solar_seconds)
}

/// [`sun_position`] with the declination, rad, worked out beforehand. `None` as there.
#[must_use]
pub fn position_by_declination(latitude: f64, declination: f64, solar_seconds: f64) -> Option<SunPosition> {
    if !usable_latitude(latitude) || !declination.is_finite() || !solar_seconds.is_finite() {
        return None;
    }
    // The hour angle is none at noon and positive in the afternoon.
    let hour_angle = TAU * solar_seconds / crate::energy::DAY_SECONDS - PI;
    let (sin_latitude, cos_latitude) = latitude.sin_cos();
    let (sin_declination, cos_declination) = declination.sin_cos();
    let (sin_hour, cos_hour) = hour_angle.sin_cos();
    let up = sin_declination * sin_latitude + cos_declination * cos_latitude * cos_hour;
    let north = sin_declination * cos_latitude - cos_declination * sin_latitude * cos_hour;
    let east = -cos_declination * sin_hour;
    let zenith = up.clamp(-1.0, 1.0).acos();
    let apparent_zenith = zenith - refraction(FRAC_PI_2 - zenith);
    Some(SunPosition { zenith, apparent_zenith, azimuth: east.atan2(north).rem_euclid(TAU) })
}

/// True for a latitude on the globe, rad.
pub(crate) fn usable_latitude(latitude: f64) -> bool {
    (-FRAC_PI_2..=FRAC_PI_2).contains(&latitude)
}

/// Lowest true elevation, degrees, at which any of the sun's disc is seen: its half width 0.26667° and the refraction of 0.5667° at the
/// horizon (I. Reda and A. Andreas, NREL/TP-560-34302, second-hand through a public library).
const LOWEST_SEEN: f64 = -(0.26667 + 0.5667);
/// Refraction is tabled for 1,010 hPa and 10 °C; here stands the air of the sea's level, 1,013.25 hPa, at 12 °C.
const AIR_FACTOR: f64 = 1_013.25 / 1_010.0 * 283.0 / 285.0;

/// How much higher the sun is seen than it stands, rad, at a true elevation rad: Sæmundsson's formula as used by Reda and Andreas
/// (NREL/TP-560-34302, second-hand). Nothing where the sun is wholly below the horizon.
#[must_use]
pub fn refraction(elevation: f64) -> f64 {
    let degrees = elevation.to_degrees();
    // Not a number compares as false and so gives none.
    if degrees >= LOWEST_SEEN {
        let argument = degrees + 10.3 / (degrees + 5.11);
        (AIR_FACTOR * 1.02 / (60.0 * argument.to_radians().tan())).to_radians()
    } else {
        0.0
    }
}

/// Hour angle of sunset, rad: arccos(−tan φ·tan δ); none in the polar night and π in the polar day. `None` as in [`sun_position`].
#[must_use]
pub fn sunset_angle(latitude: f64, declination: f64) -> Option<f64> {
    if !usable_latitude(latitude) || !positive(declination.cos()) {
        return None;
    }
    finite((-latitude.tan() * declination.tan()).clamp(-1.0, 1.0).acos())
}
