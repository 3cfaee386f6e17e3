//! Water: pipes, pumps, tanks, drains, frost and hot water.
//!
//! Arguments and results are coherent SI: m, m², m³, m³/s, Pa, K absolute (a temperature *difference* in K), W, J, kg, s; angles in rad.

mod accumulator;
mod drain;
mod freezing;
mod hot_water;
mod pipe;
mod properties;
mod pump;
mod scald;
mod tank;

pub use accumulator::{ATMOSPHERE, accumulator_drawdown};
pub use drain::{
    DRAIN_SLOPE, DRAIN_SLOPE_SOURCE, DRAIN_SLOPE_WITH_CLEAN_OUT, drain_fall, slope_when_tilted, trap_seal_when_tilted,
};
pub use freezing::{
    BLOCKED_PIPE_ICE_SHARE, FREEZING_EXPANSION, FREEZING_POINT, FilledPipe, Insulation, LATENT_HEAT_OF_ICE,
    holding_power, pipe_contents, pipe_resistance, seconds_to_freeze, seconds_to_freezing_point, tank_contents,
    tank_loss,
};
pub use hot_water::{
    LEGIONELLA, LEGIONELLA_GROWTH, LEGIONELLA_STORAGE, RELIEF, RELIEF_PRESSURE, RELIEF_TEMPERATURE, closed_expansion,
    heating_energy, mixed_temperature, mixed_volume, recharge_seconds,
};
pub use pipe::{
    Flow, PLASTIC_ROUGHNESS, friction_factor, friction_loss, friction_loss_hazen_williams, pipe_flow, static_pressure,
};
pub use properties::{Water, water};
pub use pump::{Pump, Route, Working, pressure_at_outlet, pump_working_point, route_loss};
pub use scald::{ANTI_SCALD, MIXED_OUTLET, OutletLimit, SCALD, scald_seconds};
pub use tank::{least_vent_diameter, tank_mass, tank_overpressure, vent_speed};
