//! Capacity of batteries in the cold.
//!
//! * Lead: sizing multiplier by battery temperature (simplified IEEE method), read on a page about sizing,
//!   <https://batteries-solar.blogspot.com>. Mark: second-hand, since the page paraphrases.
//! * LFP: 80 Ah of 100 Ah at 0 °C, 70 Ah at −20 °C, a trade page; the address carries a trade name. Mark: second-hand. Full capacity at
//!   25 °C: chosen, the usual temperature of ratings.

use crate::citation::{Citation, Mark};

pub(crate) static LEAD: Citation = Citation {
    document: "simplified IEEE sizing of lead batteries",
    place: "multiplier by battery temperature, straight lines between the rows",
    edition: "undated",
    mark: Mark::SecondHand,
    address: "https://batteries-solar.blogspot.com",
};

pub(crate) static LFP: Citation = Citation {
    document: "trade page on LFP storage",
    place: "100 Ah give 80 Ah at 0 °C and 70 Ah at −20 °C, straight lines to full capacity at 25 °C",
    edition: "undated",
    mark: Mark::SecondHand,
    address: "",
};

/// (°C, multiplier of the needed capacity), rising temperature.
pub(crate) static LEAD_MULTIPLIERS: [(f64, f64); 7] =
    [(-6.7, 1.59), (-1.1, 1.40), (4.4, 1.30), (10.0, 1.19), (15.6, 1.11), (21.2, 1.04), (26.7, 1.00)];

/// (°C, share of the capacity), rising temperature.
pub(crate) static LFP_SHARES: [(f64, f64); 3] = [(-20.0, 0.70), (0.0, 0.80), (25.0, 1.00)];
