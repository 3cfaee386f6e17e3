//! Moisture: what the air holds, what people and flames add, where it turns to water.
//!
//! Arguments and results are coherent SI: Pa, K absolute, kg, kg/s, m³/s; humidity is a share from 0 to 1.

mod balance;
mod carbon_dioxide;
mod glaser;
mod production;
mod saturation;
mod surface_factor;

pub use balance::{ASHRAE_62_2, dwelling_air_flow, flow_to_keep_dry, inside_relative_humidity, inside_vapour_pressure};
pub use carbon_dioxide::{
    CARBON_DIOXIDE_ASLEEP, OUTSIDE_CARBON_DIOXIDE, carbon_dioxide_share, flow_for_carbon_dioxide,
};
pub use glaser::{Condensate, GlaserLayer, GlaserProfile, VAPOUR_PERMEABILITY_AIR, glaser, vapour_thickness};
pub use production::{MoistureSource, SourceAmount, combustion_water, flame_water, moisture_source, moisture_sources};
pub use saturation::{ISO_13788, dew_point, relative_humidity, saturation_pressure, vapour_density, vapour_pressure};
pub use surface_factor::{
    CONDENSATION_HUMIDITY, MOULD_HUMIDITY, SURFACE_FACTOR_LIMIT, SurfaceFactorLimit, humidity_limit, surface_factor,
    surface_factor_of_layers, surface_humidity, surface_temperature,
};
