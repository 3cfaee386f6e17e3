//! How near things may be to gas and to the mouths of flues, where one text gives a distance to the side and another one upward.
//!
//! * Engine exhaust and gas locker, DVGW G 607 as one inspector's page quotes it: 300 mm below, 250 mm to the side. Mark: second-hand.
//! * Flue and the intake of a fan, 24 CFR 3280.710(d): a flue ends at least 3 ft above any fan-driven intake that is within 10 ft of it.
//!   Mark: read. That the 10 ft are level is our reading.

use crate::citation::{Citation, Mark};

/// Where [`ENGINE_EXHAUST`] comes from.
pub static ENGINE_EXHAUST_NEAR_GAS: Citation = Citation {
    document: "DVGW G 607",
    place: "exhaust beside and below the gas locker",
    edition: "as one inspector quotes it",
    mark: Mark::SecondHand,
    address: "",
};

/// Where [`FAN_INTAKE`] comes from.
pub static FLUE_NEAR_FAN_INTAKE: Citation = Citation {
    document: "24 CFR 3280.710",
    place: "(d)",
    edition: "eCFR text of about April 2023",
    mark: Mark::Read,
    address: "",
};

/// A space around a thing: to every side, and upward.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KeptFree {
    /// To every side, m.
    pub beside: f64,
    /// Upward, m.
    pub above: f64,
}

/// What is kept free of gas around an engine's exhaust.
pub const ENGINE_EXHAUST: KeptFree = KeptFree { beside: 0.250, above: 0.300 };

/// What is kept free of flues around the intake of a fan: they end higher or farther away.
pub const FAN_INTAKE: KeptFree = KeptFree { beside: 3.048, above: 0.9144 };

/// Distances may differ by this much in binary numbers, m.
const ROUNDING: f64 = 1e-9;

impl KeptFree {
    /// True where what is `beside` m to the side and `above` m higher (negative: lower) is in the space. What is lower is in it.
    #[must_use]
    pub fn holds(&self, beside: f64, above: f64) -> bool {
        beside < self.beside - ROUNDING && above < self.above - ROUNDING
    }
}
