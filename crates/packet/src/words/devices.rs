//! Texts of the device schedule.

pub const TITLE: &str = "Fuse and breaker schedule";
pub const PURPOSE: &str = "For the electrician and for whoever replaces a fuse: each protective device, what it protects and what it must open.";
pub const DEVICE: &str = "Device";
pub const VOLTAGE: &str = "Rated voltage";
pub const CIRCUIT_VOLTAGE: &str = "Highest voltage of circuit";
pub const INTERRUPTING: &str = "Opens at most";
pub const FAULT: &str = "Fault current";
pub const LOAD: &str = "Load";
pub const NEEDED: &str = "Rating needed";
pub const PROTECTED: &str = "Weakest conductor carries";
pub const ALLOWED: &str = "Largest allowed";
pub const DISTANCE: &str = "Distance from source";
pub const SPARE: &str = "Spares carried";
pub const NOTE_FAULT: &str =
    "Fault currents are the largest: every source in parallel, fully charged, copper at 20 °C.";
pub const NOTE_DISTANCE: &str = "Distance is the length of conductor between the end of the circuit at which a source stands and the first device; of two such ends the longer.";
pub const NOTHING: &str = "no protective device is described";
