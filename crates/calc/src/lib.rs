//! The engineering of Coachwright's checks: pure functions and sourced tables.
//!
//! The electrical functions stand at the crate's root; [`heat`], [`moisture`], [`water`], [`mass`], [`space`] (where things
//! stand), [`gas`], [`air`] (for flames and people), [`climate`] (how cold it gets where), [`sun`], [`week`] (a week of energy),
//! [`nodal`] (the solved network) and [`time_current`] (when devices open) are modules of their own.
//!
//! The crate knows nothing of specifications, rules or editors. Arguments and results are coherent SI in `f64`
//! (m, m², A, V, Ω, K absolute, W, s, J, C) unless a name says otherwise. Every published value carries a [`Citation`].
//!
//! No function panics. A function that returns an `Option` answers `None` where the input is not a usable number or where the
//! source has no value; a function that returns a plain `f64` says in its own text what it answers then. The modules of heat, moisture,
//! water and mass answer with a typed [`InputError`] and give an [`Interval`] where an input has a tolerance.

pub mod adiabatic;
pub mod air;
pub mod alternator;
pub mod ampacity;
pub mod battery;
pub mod breaker_capacity;
mod burning;
pub mod citation;
pub mod climate;
pub mod commissioning;
pub mod conductor;
pub mod contact_resistance;
pub mod device_window;
pub mod drop_limits;
pub mod energy;
pub mod fuel_space;
pub mod gas;
pub mod heat;
pub mod input;
pub mod interval;
pub mod load;
pub mod mains;
pub mod mass;
pub mod moisture;
pub mod network;
pub mod nodal;
pub mod parallel_sharing;
pub mod plan_approval;
pub mod protection;
pub mod sae_gauge;
pub mod small_conductors;
pub mod smallest_fault;
pub mod solar;
pub mod space;
pub mod sun;
pub mod time_current;
pub mod ventilation;
pub mod voltage_drop;
pub mod water;
pub mod week;

mod disjoint;
mod number;
mod tables;
mod temperature;

pub use adiabatic::{CableInsulation, adiabatic_k, adiabatic_k_by_class, adiabatic_k_from_temperatures, smallest_area};
pub use alternator::{
    ALTERNATOR_PROTECTION, ASSUMED_OUTPUT, CONTINUOUS_DRAW, alternator_continuous_limit, alternator_hot_output,
    alternator_idle_output, largest_alternator_protection,
};
pub use ampacity::{
    AMBIENT_FACTOR, AmpacityTable, TableValue, ambient_factor, bundling_factor_boat_50v, bundling_factor_nec,
    engine_space_factor_boat, grouping_factor_bs7671, table_ampacity, terminal_limit,
};
pub use battery::{
    AssumedStrength, Chemistry, assumed_internal_resistance, discharged_voltage, full_charge_citation,
    full_charge_voltage, short_circuit_current, two_point_resistance, two_point_short_circuit,
};
pub use breaker_capacity::{
    BreakerCapacity, LARGE_BANK, LARGE_BANK_COULOMBS, LARGE_BANK_CRANKING, LARGE_BANK_DECLARED,
    LARGE_BANK_INTERRUPTING, LARGE_BANK_VOLTS, LargeBankNeed, breaker_capacity_by_cranking, breaker_capacity_on_shore,
    large_bank_need,
};
pub use burning::does_not_burn;
pub use citation::{Citation, Mark};
pub use conductor::{
    ConductorSize, Resistance, Stranding, at_temperature, awg_area, awg_diameter, resistance_per_metre,
};
pub use contact_resistance::{
    AssumedResistance, closed_contact_resistance, device_resistance, metal_joint_resistance, metal_strap_resistance,
    shunt_resistance,
};
pub use device_window::{BOAT_DEVICE, largest_device_boat, largest_rating_within, smallest_rating_for_load};
pub use drop_limits::{DropAmount, DropLimit, DropPurpose, EN_1648_2_RESISTIVITY, area_for_drop, drop_limit};
pub use energy::{
    DAY_SECONDS, PeukertExponent, cold_capacity_factor, days_of_autonomy, discharge_efficiency, discharge_seconds,
    energy_per_day, inverter_idle_power, peukert_exponent, usable_energy, usable_fraction,
};
pub use input::InputError;
pub use interval::Interval;
pub use load::{
    alternating_input_current, charger_input_power, constant_power_current, converter_input_current,
    inverter_input_current, minimum_rating,
};
pub use mains::{
    CORD_LENGTH, CordEntry, PROTECTIVE_CONDUCTOR, cord_length_limits, most_circuits_on_inlet, reel_factor,
    smallest_chassis_bond, smallest_protective_conductor, supply_lead_area,
};
pub use network::{Branch, FaultCurrent, Network, PreparedNetwork, Source};
pub use parallel_sharing::{bar_sharing, ladder_sharing};
pub use plan_approval::{FLOOR_LOAD, PLAN_APPROVAL, PLAN_LIMITS, PlanLimits, load_by_area};
pub use protection::{
    ClassRating, DeviceClass, class_rating, next_standard_rating, standard_ratings, standard_ratings_citation,
};
pub use sae_gauge::sae_gauge_area;
pub use small_conductors::{
    NEXT_SIZE_UP, SmallestFor, next_size_up, park_trailer_limit, small_conductor_limit, smallest_conductor,
};
pub use smallest_fault::{BreakerCurve, opening_multiple, smallest_fault_current};
pub use solar::{
    BACK_FEED, CURRENT_FACTORS, ColdVoltage, STRING_FUSE, most_modules_in_series, source_circuit_current,
    source_circuit_rating, string_back_feed, string_cold_voltage, string_fuse_due, string_fuse_needed,
};
pub use ventilation::{
    CHARGER_OUTPUT, COMPARTMENT_OPENING_AREA, COMPARTMENT_OPENING_FROM_EDGE, COMPARTMENT_OPENINGS, ChargeStage,
    ChargerOutput, SPARK_DISTANCE, VENTILATION, air_to_dilute, charger_output, free_opening_area,
    gas_current_milliamperes_per_ampere_hour, hydrogen_released, hydrogen_ventilation_flow, spark_distance,
};
pub use voltage_drop::{loop_resistance, voltage_drop};
