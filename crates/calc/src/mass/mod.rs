//! Mass: what stands where, what each axle and wheel carries, how high it lies, and what holds it in a crash.
//!
//! Loads of axles and wheels are given as the mass they carry, kg. Positions are x rearward of the front axle (of a trailer: of the
//! coupling), y to the right of the middle, z above the road, m. Forces are in N, accelerations in m/s².

mod axles;
mod gravity_centre;
mod load_states;
mod payload;
mod restraint;
mod roof;
mod sides;
mod stability;
mod tyres;
mod value;

pub use axles::{AxleLayout, AxleLoads, Support, SupportLoad, axle_loads, option_effect, weighed};
pub use gravity_centre::{CentreOfGravity, centre_of_gravity};
pub use load_states::{Filling, LoadState, StatedItem, items_in_state};
pub use payload::{
    EU_PASSENGER, EU_PAYLOAD, FLEET_TOLERANCE, STEERING_SHARE, STEERING_SHARE_TOWING, US_CAPACITY, US_LABEL,
    US_OCCUPANT, US_RATING, eu_minimum_payload, eu_payload_left, least_coupling_load_germany, payload_left,
    running_order_bounds, us_least_gross_rating, us_occupant_and_cargo_capacity, us_relabel_limit,
};
pub use restraint::{
    Anchorage, BoltClass, BoltSize, LoadCase, RestraintNeed, STANDARD_GRAVITY, battery_pull_test, bolt_proof_load,
    fixings_needed, load_cases, restraint_force,
};
pub use roof::{ROOF_LIVE_LOAD, RoofZone, roof_margin, snow_mass, wind_uplift};
pub use sides::{SideLoads, WheelLoads, side_loads, wheel_loads};
pub use stability::{braking_transfer, height_from_lifted_axle, static_stability_factor, static_tilt_angle};
pub use tyres::{TYRE_LOAD_INDEX, axle_tyre_capacity, tyre_load};
pub use value::{Bounded, Evidence, Item, Mass, assumed_tolerance};
