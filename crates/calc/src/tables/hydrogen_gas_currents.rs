//! Gas-producing currents of batteries under charge, mA per Ah of rated capacity, to 40 °C.
//!
//! Document EN 50272-2:2001 Table 1 (IEC 62485-2 has taken its place). Seen reproduced on a public page whose address is withheld because
//! it carries a trade name. Mark: second-hand. The capacity is C10 to 1.80 V per cell for lead, C5 for nickel-cadmium. Antimony of vented
//! lead below 3 %. Recombination plugs halve the values.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "EN 50272-2",
    place: "Table 1, gas-producing currents (now IEC 62485-2)",
    edition: "2001",
    mark: Mark::SecondHand,
    address: "",
};

/// (float, boost) of vented lead cells.
pub(crate) const VENTED_LEAD: (f64, f64) = (5.0, 20.0);
/// (float, boost) of valve-regulated lead cells.
pub(crate) const VALVE_REGULATED_LEAD: (f64, f64) = (1.0, 8.0);
/// (float, boost) of vented nickel-cadmium cells.
pub(crate) const VENTED_NICKEL_CADMIUM: (f64, f64) = (5.0, 50.0);
