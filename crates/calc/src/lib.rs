//! The engineering of Coachwright's electrical checks: pure functions and sourced tables.
//!
//! The crate knows nothing of specifications, rules or editors. Arguments and results are coherent SI in `f64`
//! (m, m², A, V, Ω, K absolute, W, s, J, C) unless a name says otherwise. Every published value carries a [`Citation`].
//!
//! No function panics. A function that returns an `Option` answers `None` where the input is not a usable number or where the
//! source has no value; a function that returns a plain `f64` says in its own text what it answers then.

pub mod adiabatic;
pub mod ampacity;
pub mod battery;
pub mod citation;
pub mod conductor;
pub mod load;
pub mod network;
pub mod protection;
pub mod voltage_drop;

mod tables;
mod temperature;

pub use adiabatic::{CableInsulation, adiabatic_k, adiabatic_k_by_class, adiabatic_k_from_temperatures, smallest_area};
pub use ampacity::{
    AMBIENT_FACTOR, AmpacityTable, TableValue, ambient_factor, bundling_factor_boat_50v, bundling_factor_nec,
    engine_space_factor_boat, grouping_factor_bs7671, table_ampacity,
};
pub use battery::{
    AssumedStrength, Chemistry, assumed_internal_resistance, discharged_voltage, full_charge_citation,
    full_charge_voltage, short_circuit_current, two_point_resistance, two_point_short_circuit,
};
pub use citation::{Citation, Mark};
pub use conductor::{
    ConductorSize, Resistance, Stranding, at_temperature, awg_area, awg_diameter, resistance_per_metre,
};
pub use load::{
    alternating_input_current, charger_input_power, constant_power_current, converter_input_current,
    inverter_input_current, minimum_rating,
};
pub use network::{Branch, FaultCurrent, Network, PreparedNetwork, Source};
pub use protection::{
    ClassRating, DeviceClass, class_rating, next_standard_rating, standard_ratings, standard_ratings_citation,
};
pub use voltage_drop::{loop_resistance, voltage_drop};
