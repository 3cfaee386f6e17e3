//! Texts of the sheet of the climate.

pub const TITLE: &str = "Climate";
pub const PURPOSE: &str =
    "For the client and the reviewer: the nights and days for which warmth, frost and energy are reckoned.";
pub const SEASON: &str = "Season";
pub const OUTSIDE: &str = "Outside";
pub const INSIDE: &str = "Wanted inside";
pub const ASLEEP: &str = "While asleep";
pub const LATITUDE: &str = "Latitude";
pub const STATIONS: &str = "Weather stations";
pub const WINTER: &str = "coldest night of winter";
pub const SUMMER: &str = "hottest day of summer";
pub const NO_BRIEF: &str = "the specification holds no brief that says when it is used";
pub const NOTE: &str = "A station says the coldest night and the hottest day of a usual year; every second year has a colder or a hotter one. On hills and away from the coast it is colder.";
