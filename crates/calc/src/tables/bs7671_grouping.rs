//! Grouping of circuits bunched in air, on a surface, embedded or enclosed.
//!
//! Document BS 7671:1992 (Table 4B1, now 4C1), one to ten circuits. Mark: read.
//! Address: <https://de.scribd.com/document/245595863/IEE-Wiring-Regulation-Basic-Summary-and-Tables>.
//! 11 to 20 circuits: from memory. Above 20 no table goes on: see `ampacity::grouping_factor_bs7671`.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "BS 7671",
    place: "grouping factors, bunched or enclosed",
    edition: "1992",
    mark: Mark::Read,
    address: "https://de.scribd.com/document/245595863/IEE-Wiring-Regulation-Basic-Summary-and-Tables",
};

pub(crate) static REMEMBERED: Citation = Citation {
    document: "BS 7671",
    place: "grouping factors, bunched or enclosed, 11 to 20 circuits",
    edition: "from memory",
    mark: Mark::Memory,
    address: "",
};

pub(crate) static BEYOND: Citation = Citation {
    document: "BS 7671",
    place: "grouping factors, bunched or enclosed, falling with the square root of the circuits above 20",
    edition: "from memory to 20 circuits",
    mark: Mark::Computed,
    address: "",
};

/// (largest number of circuits, factor, source).
pub(crate) static ROWS: [(u32, f64, &Citation); 13] = [
    (1, 1.0, &CITATION),
    (2, 0.80, &CITATION),
    (3, 0.70, &CITATION),
    (4, 0.65, &CITATION),
    (5, 0.60, &CITATION),
    (6, 0.57, &CITATION),
    (7, 0.54, &CITATION),
    (8, 0.52, &CITATION),
    (9, 0.50, &CITATION),
    (10, 0.48, &CITATION),
    (12, 0.45, &REMEMBERED),
    (16, 0.41, &REMEMBERED),
    (20, 0.38, &REMEMBERED),
];
