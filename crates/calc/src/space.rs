//! Space: where things stand, how far apart they are, what is in the way, and whether a person gets out.
//!
//! **Axes**, in metres: x rearward of the front axle, y to the right, z above the living floor (the sense of ISO 4130). "Above" is +z,
//! "rear" +x, "right" +y. Everything is axis-aligned: a [`Cuboid`] by its corner with the least x, y, z and its size, an [`Opening`] by its
//! centre on one [`Side`] of the vehicle.
//!
//! All functions take known values. What is not a finite number, is below zero, or is farther away than [`FARTHEST`] gives a
//! [`SpaceError`] when the box, opening or outline is made; what has been made can always be reckoned with.

mod bus_exits;
mod cover;
mod cuboid;
mod ellipse;
mod error;
mod fit;
mod gauge;
mod opening;
mod outline;
mod plan;
mod reach;
mod relative;
mod rounded;
mod side;
mod skin;
mod swing;
mod unfold;
pub mod way;

pub use bus_exits::{BUS_EXITS, exits_for_people};
pub use cover::clear_share;
pub use cuboid::Cuboid;
pub use error::{FARTHEST, SpaceError};
pub use fit::{FIT_TOLERANCE, Turning, largest_scale, passes};
pub use gauge::{BELGIAN_EXIT, BUS_EXIT, ExitGauge, GERMAN_BUS_EXIT, LEISURE_VEHICLE_EXIT, SLEEPER_EXIT};
pub use opening::Opening;
pub use outline::Outline;
pub use plan::Plan;
pub use reach::{height_above_standing, within_reach};
pub use relative::{Reach, is_above, is_below, same_side};
pub use side::Side;
pub use skin::{Skin, SkinPoint};
pub use swing::Swing;
