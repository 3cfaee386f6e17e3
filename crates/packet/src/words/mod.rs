//! Every text of the papers, in one place: common ones here, those of a sheet or drawing in a file of its name.

pub mod air;
pub mod american;
pub mod around;
pub mod as_built;
pub mod boards;
pub mod changes;
pub mod circuits;
pub mod climate;
pub mod conductors;
pub mod devices;
pub mod directory;
pub mod drawings;
pub mod energy;
pub mod evidence;
pub mod findings;
pub mod gas;
pub mod hazards;
pub mod home;
pub mod jobs;
pub mod labels;
pub mod mass;
pub mod materials;
pub mod modes;
pub mod owner;
pub mod page;
pub mod parts;
pub mod questions;
pub mod rescue;
pub mod safety;
pub mod service;
pub mod tests;
pub mod warmth;
pub mod week;

/// Between alternatives.
pub const OR: &str = " or ";
pub const YES: &str = "yes";
pub const NO: &str = "no";
pub const NONE: &str = "none";
pub const NOT_KNOWN: &str = "not known";
pub const NOT_WORKED_OUT: &str = "not worked out";
pub const NO_LIMIT: &str = "no limit";
pub const PERHAPS_MORE: &str = "perhaps more: something could not be read";
pub const UNNAMED_BUILD: &str = "build without a name";
pub const VEHICLE_NOT_DESCRIBED: &str = "vehicle not described";
pub const GROSS_MASS: &str = "permissible laden mass";
pub const NO_REVISION: &str = "no revision given";
pub const NOT_DESCRIBED: &str = "not described";
pub const ASSUMED: &str = "assumed";

/// Headings that several sheets share.
pub mod column {
    pub const PART: &str = "Part";
    pub const NUMBER: &str = "No.";
    pub const CIRCUIT: &str = "Circuit";
    pub const FROM: &str = "From";
    pub const TO: &str = "To";
    pub const PLACE: &str = "Place";
    pub const SIZE: &str = "Conductor";
    pub const LENGTH: &str = "One-way length";
    pub const AMPACITY: &str = "Ampacity";
    pub const DESIGN_CURRENT: &str = "Largest current";
    pub const VOLTAGE: &str = "Nominal voltage";
    pub const CURRENT_KIND: &str = "Current";
    pub const RATING: &str = "Rating";
    pub const DEVICES: &str = "Protected by";
    pub const ROUTE: &str = "Route";
    pub const NOTE: &str = "Note";
    pub const EVIDENCE: &str = "Paper";
    pub const MASS: &str = "Mass";
    pub const POWER: &str = "Power";
}

/// The systems of the filter.
pub mod system {
    pub const DIRECT: &str = "direct current";
    pub const ALTERNATING: &str = "alternating current";
    pub const HEAT: &str = "heat and cooking";
    pub const WATER: &str = "water";
    pub const GAS: &str = "gas";
    pub const SAFETY: &str = "alarms and ways out";
    pub const BODY: &str = "body and furniture";
    pub const WHOLE: &str = "the build as a whole";
}

/// How far a design is.
pub mod stage {
    pub const DRAFT: &str = "draft";
    pub const REVIEW: &str = "for review";
    pub const ISSUED: &str = "issued";
}
