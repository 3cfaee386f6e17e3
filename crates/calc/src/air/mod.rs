//! Air for flames and people: fixed openings by region, what flows through them, what flames leave in the air, and what a fan does to an
//! open flue.
//!
//! Arguments and results are coherent SI (m, m², m³/s, W, K, Pa, s) unless a name says otherwise; shares are 0 to 1. A function answers
//! `None` where the input is no usable number or where its table has no value. None of it says that a space is fit to sleep in.

pub mod carbon_monoxide;
pub mod combustion;
pub mod flow;
pub mod openings;

pub use carbon_monoxide::{
    AlarmStandard, CARBON_MONOXIDE_EXPOSURE, Exposure, FAULT_RATIO, FAULT_SHARE, alarm_answers, carbon_monoxide_after,
    carbon_monoxide_of_flame, carbon_monoxide_steady, time_to_carbon_monoxide,
};
pub use combustion::{COMBUSTION_AIR, carbon_dioxide_of_flame, combustion_air};
pub use flow::{OPENING_FLOW, effective_area, fan_suction, stack_flow};
pub use openings::{
    AUSTRALIAN_OPENINGS, EN_721_OPEN, EN_721_SEALED, EN_721_SEALED_TO_10, FixedOpenings, US_COOKING_DUCT,
    US_COOKING_FAN, US_COOKING_OPENING, australian_openings, en_721_open, en_721_sealed,
};
