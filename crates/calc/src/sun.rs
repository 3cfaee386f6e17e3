//! The sun through a day of the year: where it stands, what it brings to a level and to a tilted plane, and what solar modules make of it.
//!
//! The way of the calculation: [`clear_day`] or [`mean_day`] gives the sky of a day in quarter hours, [`on_plane`] what falls on the
//! modules, [`array_day`] the power that arrives at the battery's terminals. Angles are in radians, latitude positive in the north,
//! azimuth clockwise from north. A month's mean irradiation is an entry of the caller: measured, from [`measured_irradiation`] as a range, or
//! [`clear_day`]'s times a clearness; a clear day is never taken for a mean one. Times are true solar time: the sun stands highest at noon. Clock time differs by the longitude within
//! the time zone, by summer time and by [`equation_of_time`]; a caller that knows these shifts its own hours.

mod array;
mod clear_sky;
mod losses;
mod mean_sky;
mod measured;
mod plane;
mod position;
mod shade;
mod sky_day;

pub use array::{
    ASSUMED_POWER_COEFFICIENT, Array, MOUNTING, Mounting, POWER_MODEL, array_day, array_power, cell_temperature,
    switching_controller_share,
};
pub use clear_sky::{
    CLEAR_SKY, Irradiance, STANDARD_PRESSURE, clear_sky, pressure_at_altitude, relative_air_mass, typical_turbidity,
};
pub use losses::{LOSS_COUNT, Loss, Losses};
pub use mean_sky::{DAILY_COURSE, DIFFUSE_SHARE, daily_irradiation_above_air, diffuse_share, hourly_course};
pub use measured::{MeasuredRange, measured_irradiation};
pub use plane::{Plane, SKY_MODEL, TYPICAL_ALBEDO, Transposition, incidence_cosine, plane_irradiance};
pub use position::{
    MEAN_DAYS, POSITION, SOLAR_CONSTANT, SunPosition, declination, equation_of_time, irradiance_above_air, mean_day_of,
    position_by_declination, refraction, sun_position, sunset_angle,
};
pub use shade::clearing_angle;
pub use sky_day::{SkyDay, clear_day, mean_day, on_plane};
