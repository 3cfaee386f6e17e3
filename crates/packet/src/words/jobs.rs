//! Texts of the job tickets.

pub const TITLE: &str = "Job tickets";
pub const PURPOSE: &str =
    "For the shop floor: the jobs of each station with what must be seen and signed before work goes on.";
pub const JOB: &str = "Job";
pub const STEP: &str = "Step";
pub const PARTS: &str = "Parts";
pub const UNKNOWN: &str = "Names that no part has";
pub const AFTER: &str = "After";
pub const PLANNED: &str = "Planned";
pub const TAKEN: &str = "Time taken";
pub const SIGNED: &str = "Done or seen by, on";
pub const WORK: &str = "work";
pub const HOLD: &str = "HOLD";
pub const NO_STATION: &str = "Station not given";
pub const NO_JOB: &str = "no such job";
pub const NOTE: &str = "At a hold point work stops until what it names was seen and signed.";
pub const NOTHING: &str = "stations, jobs and hold points are not described";
