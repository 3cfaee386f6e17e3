//! The window in which a device's rating must lie: from what the load needs to what the conductor bears.

use crate::citation::{Citation, Mark};
use crate::load::minimum_rating;
use crate::number::{at_most, finite, positive};
use crate::protection::standard_ratings;

/// The smallest standard rating that carries a load, A: not below the current A, or 125 % of it where the load is continuous.
///
/// `nec` chooses the list of [`standard_ratings`]. `None` above the list and for a current that is not positive and finite.
#[must_use]
pub fn smallest_rating_for_load(nec: bool, amperes: f64, continuous: bool) -> Option<f64> {
    if !positive(amperes) {
        return None;
    }
    standard_rating_from(nec, minimum_rating(amperes, continuous))
}

/// The largest standard rating not above a limit A, A. `None` for a limit below the list or not finite.
#[must_use]
pub fn largest_rating_within(nec: bool, limit_amperes: f64) -> Option<f64> {
    if !limit_amperes.is_finite() {
        return None;
    }
    standard_ratings(nec).iter().copied().rfind(|&rating| at_most(rating, limit_amperes))
}

/// The smallest standard rating not below a current A, A. Unlike [`crate::next_standard_rating`] it forgives a current that lies above a
/// rating only by the rounding of binary numbers.
pub(crate) fn standard_rating_from(nec: bool, amperes: f64) -> Option<f64> {
    standard_ratings(nec).iter().copied().find(|&rating| at_most(amperes, rating))
}

/// Where [`largest_device_boat`] comes from.
pub static BOAT_DEVICE: Citation = Citation {
    document: "33 CFR 183.455(c)",
    place: "rating of the device over the allowable amperage of the conductor",
    edition: "eCFR text of about April 2023",
    mark: Mark::Read,
    address: "https://self-law.org/code/us/cfr/t33/s%C2%A7%20183.455",
};

// 33 CFR 183.455(c): share of the ampacity, and the voltage (V) below which it may be used in full.
const BOAT_SHARE: f64 = 1.5;
const BOAT_LOW_VOLTS: f64 = 50.0;

/// Largest rating of a device by US boat law, A: below 50 V 150 % of the conductor's ampacity A; at 50 V and above the ampacity, or the next
/// standard size (NEC list) where that is within 150 % ([`BOAT_DEVICE`]). An analogy for vehicles.
///
/// `None` where a number is not positive and finite.
#[must_use]
pub fn largest_device_boat(ampacity: f64, circuit_volts: f64) -> Option<f64> {
    if !(positive(ampacity) && positive(circuit_volts)) {
        return None;
    }
    let most = finite(BOAT_SHARE * ampacity)?;
    if circuit_volts < BOAT_LOW_VOLTS {
        return Some(most);
    }
    Some(standard_rating_from(true, ampacity).filter(|&rating| at_most(rating, most)).unwrap_or(ampacity))
}
