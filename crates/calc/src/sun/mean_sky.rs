//! The mean day of a month from its mean irradiation: how much is diffuse, and how it is spread over the day.

use std::f64::consts::{FRAC_PI_3, PI};

use super::position::{declination, irradiance_above_air, sunset_angle};
use crate::citation::{Citation, Mark};
use crate::energy::DAY_SECONDS;
use crate::number::{finite, positive};

/// Where [`diffuse_share`] comes from.
pub static DIFFUSE_SHARE: Citation = Citation {
    document: "D. G. Erbs, S. A. Klein and J. A. Duffie, Estimation of the diffuse radiation fraction, Solar Energy 28 (4)",
    place: "monthly mean diffuse share by clearness index and sunset angle, pages 293 to 302",
    edition: "1982, formula seen quoted in public code",
    mark: Mark::SecondHand,
    address: "",
};

/// Where [`hourly_course`] comes from.
pub static DAILY_COURSE: Citation = Citation {
    document: "M. Collares-Pereira and A. Rabl, The average distribution of solar radiation, Solar Energy 22",
    place: "ratio of hourly to daily global irradiation, pages 155 to 164; the diffuse ratio is that of Liu and Jordan (1960)",
    edition: "1979, formula seen quoted in public code",
    mark: Mark::SecondHand,
    address: "",
};

/// Irradiation of a level plane above the air in a day, J/m²: (24 h/π)·G·(cos φ·cos δ·sin ω + ω·sin φ·sin δ) with the sunset angle ω.
/// `None` for a latitude, rad, beyond a pole and a day that is not finite.
#[must_use]
pub fn daily_irradiation_above_air(latitude: f64, day: f64) -> Option<f64> {
    let declination = declination(day);
    let sunset = sunset_angle(latitude, declination)?;
    let geometry = latitude.cos() * declination.cos() * sunset.sin() + sunset * latitude.sin() * declination.sin();
    finite((DAY_SECONDS / PI * irradiance_above_air(day) * geometry).max(0.0))
}

/// The sunset angle that parts the winter from the rest of the year in the correlation, degrees.
const WINTER_SUNSET: f64 = 81.4;

/// Monthly mean share of the diffuse irradiation on a level plane ([`DIFFUSE_SHARE`]).
///
/// `clearness_index` is the irradiation over that above the air. The correlation was made for 0.3 to 0.8; duller months follow its curve to
/// at most 1, clearer ones keep its value at 0.8. `None` for an index that is not above 0 and at most 1, or a sunset angle that is not
/// positive and finite.
#[must_use]
pub fn diffuse_share(clearness_index: f64, sunset_angle: f64) -> Option<f64> {
    if !crate::number::share(clearness_index) || !positive(sunset_angle) {
        return None;
    }
    let k = clearness_index.min(0.8);
    let share = if sunset_angle.to_degrees() <= WINTER_SUNSET {
        1.391 - 3.560 * k + 4.189 * k * k - 2.137 * k * k * k
    } else {
        1.311 - 3.022 * k + 3.427 * k * k - 1.821 * k * k * k
    };
    Some(share.min(1.0))
}

/// Share of the day's global and of its diffuse irradiation at an hour angle, 1/s ([`DAILY_COURSE`]); nothing outside daylight.
///
/// Angles in rad. The correlation's shares of a whole day add up to 1 within 2 %; [`super::mean_day`] scales them to exactly 1.
/// `None` where the sun does not rise or a number is not finite.
#[must_use]
pub fn hourly_course(hour_angle: f64, sunset_angle: f64) -> Option<(f64, f64)> {
    let whole = sunset_angle.sin() - sunset_angle * sunset_angle.cos();
    if !positive(whole) || !hour_angle.is_finite() {
        return None;
    }
    let height = hour_angle.cos() - sunset_angle.cos();
    if height <= 0.0 || hour_angle.abs() >= sunset_angle {
        return Some((0.0, 0.0));
    }
    let wave = (sunset_angle - FRAC_PI_3).sin();
    let (a, b) = (0.409 + 0.5016 * wave, 0.6609 - 0.4767 * wave);
    // π/24 per hour is π over a day's seconds per second.
    let diffuse = PI / DAY_SECONDS * height / whole;
    Some(((a + b * hour_angle.cos()) * diffuse, diffuse))
}
