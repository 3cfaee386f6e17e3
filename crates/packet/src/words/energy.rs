//! Texts of the load and energy budget.

pub const TITLE: &str = "Load and energy budget";
pub const PURPOSE: &str =
    "For the client and the electrician: what takes energy from the fitted batteries in a day of each season.";
pub const LOAD: &str = "Load";
pub const CURRENT: &str = "Current";
pub const HOURS: &str = "On in a day";
pub const WHEN: &str = "When";
pub const TAKEN: &str = "Taken from the batteries in a day";
pub const IDLE: &str = "for being switched on";
pub const ANY_SEASON: &str = "All the year";
pub const SUM: &str = "Taken in a day";
pub const NOTE: &str = "What converters and inverters lose on the way is included in what is taken from the batteries.";
pub const NOTE_IDLE: &str = "An inverter is on while a load of its runs, and for as long besides as is said of it.";
pub const NOTHING: &str = "nothing that takes energy is described";
