//! Flexible cable wound on a drum under load, by layers on a ventilated cylindrical drum; the same as a guide for coiled cords.
//!
//! Document BS 7671, notes to Table 4F1A. Mark: read.
//! Address: <https://www.cse-distributors.co.uk/cable/technical-tables-useful-info/table-4f1a.html>.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "BS 7671",
    place: "notes to Table 4F1A, flexible cable on a cylindrical drum",
    edition: "edition not stated in the copy seen",
    mark: Mark::Read,
    address: "https://www.cse-distributors.co.uk/cable/technical-tables-useful-info/table-4f1a.html",
};

/// Factors of one to four layers.
pub(crate) static LAYERS: [f64; 4] = [0.85, 0.65, 0.45, 0.35];
