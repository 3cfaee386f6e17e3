//! Adjustment for more than three current-carrying conductors together.
//!
//! Document NEC 310.15(C)(1), read as NEC 2014 Table 310.15(B)(3)(a). Mark: read.
//! Address: <https://www.buildmyowncabin.com/nec/nec2014_table310.15(b)(3)(a).html>.
//! It counts for runs together over more than 600 mm (24 in), second-hand.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "NEC 310.15(C)(1)",
    place: "adjustment for more than three current-carrying conductors",
    edition: "2014, there Table 310.15(B)(3)(a)",
    mark: Mark::Read,
    address: "https://www.buildmyowncabin.com/nec/nec2014_table310.15(b)(3)(a).html",
};

/// (largest number of conductors, factor); above the last the factor of [`BEYOND`].
pub(crate) static ROWS: [(u32, f64); 6] = [(3, 1.0), (6, 0.80), (9, 0.70), (20, 0.50), (30, 0.45), (40, 0.40)];

/// Factor for 41 conductors and more.
pub(crate) const BEYOND: f64 = 0.35;
