//! Heat: what a wall, a shell, a heater and a compartment do in cold and in sun.
//!
//! Arguments and results are coherent SI: m, m², m³/s, W, J, kg, K absolute, W/(m·K), m²·K/W, W/(m²·K). A value with a tolerance is an
//! [`Interval`](crate::interval::Interval); an input that cannot be used is an [`InputError`](crate::input::InputError).

mod air;
mod compartment;
mod compression;
mod cooling;
mod duct;
mod fuel;
mod glazing;
mod grades;
mod heater;
mod layers;
mod material;
mod polyisocyanurate;
mod ribs;
mod shell;
mod surface;
mod warm_up;

pub use air::{DISCHARGE_COEFFICIENT, effective_opening, stack_flow, volumetric_heat_capacity};
pub use compartment::{Compartment, Derating, Settled, compartment_temperature, derated_share, settled_share};
pub use compression::{Pressing, resistance_kept};
pub use cooling::{
    ASHRAE_PEOPLE, Gain, PEOPLE_LATENT, PEOPLE_SENSIBLE, RoofColour, cooling_load, fresh_air_gain, people_gain,
    roof_absorptance, sol_air_temperature, solar_gain, transmitted_gain,
};
pub use duct::{
    Blower, DuctPath, SMOOTH_BEND, blower_flow, duct_flow_shares, duct_loss_per_kelvin_metre, duct_outlet_temperature,
    parallel_resistance, path_resistance,
};
pub use fuel::{Fuel, HeatingValue, electricity_for, fuel_mass_for, fuel_volume_for, heating_value};
pub(crate) use glazing::GRAVITY;
pub use glazing::{
    AcrylicRow, DOUBLE_ACRYLIC_EMISSIVITY, SINGLE_ACRYLIC, double_pane_u, pane_gap_coefficient, single_acrylic,
    single_pane_u, with_cover,
};
pub use grades::{GRADE_3_SPREAD, GRADE_3_WARM_UP_SECONDS, GradeDemand, HeatingGrade, grade_demand, grade_power};
pub use heater::{HeaterAtLoad, heater_at_load, heater_need};
pub use layers::{layer_resistance, resistance_of_layers, u_value};
pub use material::{DECLARED_TO_DESIGN, Material, material, materials};
pub use polyisocyanurate::{POLYISOCYANURATE_IN_COLD, polyisocyanurate_factor, polyisocyanurate_factor_bounds};
pub use ribs::{Metal, RibbedLayer, RibbedU, RibbedWall, ribbed_u_value, shared_u_value};
pub use shell::{
    ENVELOPE_LIMITS, EnvelopeLimit, Face, RIB_FRACTION, RibFraction, heat_loss, mean_u_value, transmission_loss,
    us_infiltration_loss, ventilation_loss,
};
pub use surface::{
    HeatFlow, ISO_6946, SURFACE_RESISTANCE_OUTSIDE, WORST_CORNER, inner_surface_resistance,
    inner_surface_resistance_from, outer_surface_resistance, still_air_cavity,
};
pub use warm_up::{heat_capacity, temperature_after, warm_up_power, warm_up_seconds};
