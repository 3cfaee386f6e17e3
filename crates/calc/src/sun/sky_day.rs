//! A whole day in quarter hours: the sky, and what falls on a plane.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::clear_sky::{Irradiance, clear_sky, pressure_at_altitude};
use super::mean_sky::{daily_irradiation_above_air, diffuse_share, hourly_course};
use super::plane::{Plane, Transposition, plane_irradiance};
use super::position::{SunPosition, declination, irradiance_above_air, position_by_declination, sunset_angle};
use crate::energy::DAY_SECONDS;
use crate::number::not_negative;
use crate::week::{DayProfile, STEP_SECONDS, STEPS_PER_DAY};

/// The sky of a day, one value for the middle of each quarter hour of true solar time.
#[derive(Debug, Clone, PartialEq)]
pub struct SkyDay {
    /// Where the sun stands.
    pub sun: [SunPosition; STEPS_PER_DAY],
    /// What it brings.
    pub light: [Irradiance; STEPS_PER_DAY],
    /// Irradiance across the rays above the air, W/m².
    pub above_air: f64,
}

impl SkyDay {
    /// Global irradiation of a level plane in the day, J/m².
    #[must_use]
    pub fn irradiation(&self) -> f64 {
        self.light.iter().map(|light| light.global).sum::<f64>() * STEP_SECONDS
    }
}

/// True solar time of the middle of a quarter hour, s.
fn middle(step: usize) -> f64 {
    (step as f64 + 0.5) * STEP_SECONDS
}

/// The clear sky of a day of the year at a latitude rad and an altitude m, with a Linke turbidity ([`super::typical_turbidity`]).
///
/// A clear day is the most that a day of that date brings, not its mean. `None` where a number is not usable.
#[must_use]
pub fn clear_day(latitude: f64, altitude: f64, day: f64, turbidity: f64) -> Option<SkyDay> {
    let above_air = irradiance_above_air(day);
    let pressure = pressure_at_altitude(altitude)?;
    let declination = declination(day);
    let mut sky = SkyDay {
        sun: [SunPosition::default(); STEPS_PER_DAY],
        light: [Irradiance::default(); STEPS_PER_DAY],
        above_air,
    };
    for (step, (sun, light)) in sky.sun.iter_mut().zip(&mut sky.light).enumerate() {
        *sun = position_by_declination(latitude, declination, middle(step))?;
        *light = clear_sky(sun.apparent_zenith, pressure, turbidity, altitude, above_air)?;
    }
    Some(sky)
}

/// The mean sky of a day with a known global irradiation of a level plane, J/m² a day: the diffuse share by Erbs, Klein and Duffie, the
/// course over the day by Collares-Pereira and Rabl and by Liu and Jordan, each scaled so that the day's sum is kept.
///
/// `None` where a number is not usable, for more irradiation than there is above the air, and for any in the polar night.
#[must_use]
pub fn mean_day(latitude: f64, day: f64, irradiation: f64) -> Option<SkyDay> {
    let most = daily_irradiation_above_air(latitude, day)?;
    if !not_negative(irradiation) || irradiation > most {
        return None;
    }
    let above_air = irradiance_above_air(day);
    let declination = declination(day);
    let sunset = sunset_angle(latitude, declination)?;
    let mut sky = SkyDay {
        sun: [SunPosition::default(); STEPS_PER_DAY],
        light: [Irradiance::default(); STEPS_PER_DAY],
        above_air,
    };
    let mut course = [(0.0, 0.0); STEPS_PER_DAY];
    let (mut global_sum, mut diffuse_sum) = (0.0, 0.0);
    for (step, (sun, part)) in sky.sun.iter_mut().zip(&mut course).enumerate() {
        *sun = position_by_declination(latitude, declination, middle(step))?;
        if irradiation > 0.0 {
            *part = hourly_course(TAU * middle(step) / DAY_SECONDS - PI, sunset)?;
            global_sum += part.0 * STEP_SECONDS;
            diffuse_sum += part.1 * STEP_SECONDS;
        }
    }
    if irradiation == 0.0 {
        return Some(sky);
    }
    // The sun may rise for less than a quarter hour, between two middles.
    if global_sum <= 0.0 || diffuse_sum <= 0.0 {
        return None;
    }
    let diffuse_part = diffuse_share(irradiation / most, sunset)?;
    for ((sun, light), (global, diffuse)) in sky.sun.iter().zip(&mut sky.light).zip(course) {
        light.global = irradiation * global / global_sum;
        // Near the horizon the two courses cross; no more can be diffuse than there is.
        light.diffuse = (irradiation * diffuse_part * diffuse / diffuse_sum).min(light.global);
        let beam_on_level = light.global - light.diffuse;
        if beam_on_level > 0.0 {
            let cosine = sun.apparent_zenith.cos();
            // No beam is stronger than above the air; what the course would need beyond that counts as diffuse.
            light.beam = if cosine > 0.0 { (beam_on_level / cosine).min(above_air) } else { 0.0 };
            light.diffuse = light.global - light.beam * cosine.max(0.0);
        }
    }
    Some(sky)
}

/// Irradiance on a plane through a day, W/m². `None` where the plane's numbers are not usable.
#[must_use]
pub fn on_plane(day: &SkyDay, plane: &Plane, sky: Transposition) -> Option<DayProfile> {
    let mut watts = [0.0; STEPS_PER_DAY];
    for ((watts, sun), light) in watts.iter_mut().zip(&day.sun).zip(&day.light) {
        if light.global > 0.0 && sun.apparent_zenith < FRAC_PI_2 {
            *watts = plane_irradiance(plane, sun, light, day.above_air, sky)?;
        } else if light.global > 0.0 {
            // Twilight has no direction to reckon with.
            *watts = light.diffuse * 0.5 * (1.0 + plane.tilt.cos());
        }
    }
    (plane.usable()).then(|| DayProfile::by_step(watts))
}
