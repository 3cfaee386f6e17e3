//! Texts of the load and energy budget.

pub const TITLE: &str = "Load and energy budget";
pub const PURPOSE: &str = "For the client and the electrician: what takes energy from the fitted batteries in a day, what they hold and what comes back.";
pub const LOAD: &str = "Load";
pub const CURRENT: &str = "Current";
pub const HOURS: &str = "On in a day";
pub const TAKEN: &str = "Taken from the batteries in a day";
pub const LOADS: &str = "Loads";
pub const IDLE: &str = "Inverters, for being switched on";
pub const RESULTS: &str = "Sums";
pub const SUM: &str = "Taken in a day";
pub const USABLE: &str = "The fitted batteries give from full";
pub const HARVEST: &str = "Sun and driving bring in a day";
pub const AUTONOMY: &str = "They last without being charged";
pub const ASKED: &str = "The brief asks for";
pub const NOTE: &str = "What converters and inverters lose on the way is included in what is taken from the batteries.";
pub const NOTE_DAILY: &str = "These are sums of one day; how a whole week goes, day by day, is not worked out yet.";
pub const NOTHING: &str = "nothing that takes energy is described";
