//! Texts of the sheet and the drawing of the design week.

pub const TITLE: &str = "Energy over a week";
pub const PURPOSE: &str =
    "For the client: how the batteries fare in a week of each season, and how long they last without being charged.";
pub const RESULT: &str = "Result";
pub const ENERGY: &str = "Energy";
pub const TIME: &str = "Time";
pub const SHARE: &str = "Part";
pub const TOLD: &str = "Told";
pub const TAKEN: &str = "Loads take in a day";
pub const IDLE: &str = "Of it inverters, for being switched on";
pub const HEATING_A_NIGHT: &str = "Heating takes in twelve hours of the coldest night";
pub const HEATING_A_WEEK: &str = "Heating takes in a week as cold";
pub const USABLE: &str = "The batteries give from full";
pub const SUN: &str = "The sun offers in a day";
pub const DRIVING: &str = "Driving and idling offer in a day";
pub const MAINS: &str = "Shore and generator offer in a day";
pub const AUTONOMY: &str = "Full batteries last without being charged";
pub const AUTONOMY_AT_BEST: &str = "Full batteries last at best, with whatever is not known at its best";
pub const ASKED: &str = "The brief asks for";
pub const LASTS: &str = "They last as long as the brief asks";
pub const LOWEST: &str = "Least of the usable energy that is left";
pub const LOWEST_AT_BEST: &str = "Least that is left at best, with whatever is not known at its best";
pub const LOWEST_WHEN: &str = "Least is left";
pub const LOWEST_CHARGE: &str = "Least state of charge";
pub const UNSERVED: &str = "Loads want energy and get none";
pub const SUSTAINED: &str = "The week can be repeated for ever";
pub const DEFICIT: &str = "Missing in a day";
pub const DECIDING: &str = "Decides how long they last";
pub const WITHOUT_DECIDING: &str = "Without it they would last";
pub const BY_SUN: &str = "Filled by the sun, without loads, in";
pub const BY_DRIVING: &str = "Filled by driving, without loads, in";
pub const BY_SHORE: &str = "Filled by the shore, without loads, in";
pub const BY_GENERATOR: &str = "Filled by a generator, without loads, in";
pub const NOTE: &str = "The week begins at six in the evening with full batteries and is reckoned in quarter hours; the curves are among the drawings.";
pub const NOTE_RANGE: &str =
    "Without the hours of sun in the brief the sun is only known as a range, and with it whatever rests on it.";
pub const NOTHING: &str = "no battery is fitted";
pub const CURVE: &str = "State of charge over the design week";
pub const CURVE_PURPOSE: &str =
    "For the client: what is stored in the batteries, hour by hour, from six in the evening with full batteries.";
pub const CURVE_UNKNOWN: &str = "not all of the week is known; the sheet of the week says what would settle it";
pub const NO_WEEK: &str = "no battery is fitted";
pub const WORST: &str = "state of charge";
pub const WORST_OF_TWO: &str = "state of charge, whatever is not known at its worst";
pub const BEST: &str = "at its best";
pub const CUT: &str = "loads are cut off";
pub const DAY: &str = "day";
pub const CURVE_NOTE: &str = "Thin upright lines stand at midnight. Shares are of the rated capacity.";
