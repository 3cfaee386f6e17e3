//! Closed spaces in which petrol stands: the openings that let its vapour out.

use crate::citation::{Citation, Mark};
use crate::number::{finite, positive};

/// The openings of 33 CFR 183.630: (d) by the net volume of the space, (e) never less than 3.0 in².
pub static PETROL_OPENING: Citation = Citation {
    document: "33 CFR 183.630",
    place: "(d) and (e), A = 5·ln(V/5) in² with V in ft³, and more than 3.0 in²; law for boats, by analogy",
    edition: "copy current on 20 June 2026",
    mark: Mark::Read,
    address: "",
};

/// A cubic foot, m³, and a square inch, m².
const CUBIC_FOOT: f64 = 0.028_316_846_592;
const SQUARE_INCH: f64 = 0.000_645_16;
/// The numbers of the formula, in its own units.
const FACTOR: f64 = 5.0;
const SCALE: f64 = 5.0;
const LEAST: f64 = 3.0;

/// The least free area of each of the two openings of a space with petrol, m², from the volume of the space, m³.
///
/// `None` for a volume that is not above zero.
#[must_use]
pub fn petrol_opening(volume: f64) -> Option<f64> {
    if !positive(volume) {
        return None;
    }
    let cubic_feet = volume / CUBIC_FOOT;
    finite((FACTOR * (cubic_feet / SCALE).ln()).max(LEAST) * SQUARE_INCH)
}
