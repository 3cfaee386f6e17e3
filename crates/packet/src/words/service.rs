//! Texts of the service calendar.

pub const TITLE: &str = "Service calendar";
pub const PURPOSE: &str = "For the owner and the workshop: what is due, how often, and when it was done.";
pub const TASK: &str = "What is due";
pub const EVERY: &str = "How often";
pub const DUE: &str = "Next due";
pub const DONE: &str = "Done by, on";
pub const WAIVER: &str = "Accepted finding runs out: decide again";
pub const CERTIFICATE: &str = "Have the certificate renewed";
pub const GAS_TEST: &str = "Have the gas line tested for tightness again";
pub const HOSE: &str = "Replace the gas hose";
pub const ALARM_END: &str = "Replace the alarm";
pub const ONCE: &str = "once";
pub const TIGHTEN: (&str, &str) =
    ("Tighten every terminal and restraint again", "after the first 1,000 km, then every year");
pub const ALARM: (&str, &str) =
    ("Sound the alarm by its button; replace it at the end of life on its label", "every month");
pub const RCD: (&str, &str) =
    ("Press the test button of the residual-current device", "after each connection, at least every three months");
pub const EXTINGUISHER: (&str, &str) =
    ("Look at the gauge and the seal of the extinguisher", "every month; serviced every year");
pub const BATTERY: (&str, &str) = ("Clean and tighten the terminals; compare capacity with new", "every year");
pub const WATER: (&str, &str) = ("Clean and disinfect the fresh water", "every season, and after standing");
pub const STRAINER: (&str, &str) = ("Clean the strainer", "every three months");
pub const HEATER: (&str, &str) =
    ("Have burner, exhaust and intake looked at; run it for ten minutes", "every year; every month in summer");
pub const GAS: (&str, &str) = (
    "Have the gas system tested for tightness; replace hoses by their date",
    "every year, and at each change of owner",
);
pub const DRAIN: (&str, &str) = ("Drain the water before frost", "each autumn");
pub const CORD: (&str, &str) = ("Look along the shore cable and into its plugs", "before each season");
pub const SOLAR: (&str, &str) = ("Wash the modules; look at their fixings", "every half year");
pub const EXITS: (&str, &str) = ("Open every way out from inside", "before each journey");
pub const SOURCE: &str = "Intervals: common practice, no source. Instructions of the makers come first.";
