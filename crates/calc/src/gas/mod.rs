//! Gas aboard: what a flame takes, what a cylinder gives in the cold, what a pipe carries, how much gas makes a room explosive, and how
//! a system is tested.
//!
//! Arguments and results are coherent SI (W, kg, kg/s, m, m³, Pa, K) unless a name says otherwise. A function answers `None` where the
//! input is no usable number or where its table has no value.

pub mod cylinder;
pub mod explosive;
pub mod load;
pub mod locker;
pub mod material;
pub mod near;
pub mod pipe;
pub mod pipe_tables;
pub mod tightness;

pub use cylinder::{BOILING_POINT, VAPORISATION, vaporisation};
pub use explosive::{LOWER_LIMIT, mass_at_share_of_lower_limit, share_of_lower_limit, vapour_density, vapour_volume};
pub use load::{APPLIANCE_EFFICIENCY, GROSS_HEAT, ROUGH_EFFICIENCY, gas_flow, gross_heat, input_from_output};
pub use locker::{EN_1949_OPENINGS, Openings, US_OPENINGS, en_1949_openings, us_openings};
pub use material::{GAS_MATERIALS, PipeMaterial, pipe_material};
pub use near::{ENGINE_EXHAUST, ENGINE_EXHAUST_NEAR_GAS, FAN_INTAKE, FLUE_NEAR_FAN_INTAKE, KeptFree};
pub use pipe::{PIPE_FORMULA, pipe_capacity, pipe_pressure_drop, table_or_formula_capacity};
pub use pipe_tables::{PipeTable, TableCell, table_capacity};
pub use tightness::{TightnessTest, leak_rate, tightness_tests};

/// A liquefied gas of cylinders.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Gas {
    /// Propane.
    Propane,
    /// Butane.
    Butane,
}
