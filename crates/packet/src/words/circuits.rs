//! Texts of the circuit schedule.

pub const TITLE: &str = "Circuit schedule";
pub const PURPOSE: &str =
    "For the electrician and the reviewer: every circuit, grouped by the panel, board or busbar that feeds it.";
pub const DROP: &str = "Drop";
pub const SUPPLY_DROP: &str = "Drop from the source";
pub const SHARE: &str = "of nominal";
pub const IN_LINE: &str = "Switches and parts in line";
pub const SOURCES_FROM: &str = "Sources behind its start";
pub const SOURCES_TO: &str = "Sources behind its end";
pub const OTHERS: &str = "Other circuits";
pub const NOTE_DROP: &str = "Drops are at the largest current in normal use, out and back, with copper at 70 °C.";
pub const NOTE_SOURCES: &str =
    "A circuit with sources behind both ends carries current from either; each end needs its device.";
pub const NOTHING: &str = "no circuit is described";
