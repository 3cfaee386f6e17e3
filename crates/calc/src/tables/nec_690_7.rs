//! Factors of the open-circuit voltage of crystalline silicon by the lowest ambient temperature.
//!
//! Document NEC Table 690.7(A), editions 2017 to 2023. Mark: memory, to be verified. Each row holds down to its lower temperature; the
//! warmest row begins at 24 °C.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "NEC 690.7(A)",
    place: "Table 690.7(A), voltage correction for crystalline silicon",
    edition: "2017 to 2023",
    mark: Mark::Memory,
    address: "",
};

/// (lowest temperature of the row °C, factor), the warmest row first.
pub(crate) static ROWS: [(f64, f64); 13] = [
    (20.0, 1.02),
    (15.0, 1.04),
    (10.0, 1.06),
    (5.0, 1.08),
    (0.0, 1.10),
    (-5.0, 1.12),
    (-10.0, 1.14),
    (-15.0, 1.16),
    (-20.0, 1.18),
    (-25.0, 1.20),
    (-30.0, 1.21),
    (-35.0, 1.23),
    (-40.0, 1.25),
];
