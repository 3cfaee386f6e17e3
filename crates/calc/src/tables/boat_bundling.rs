//! Correction for bundled conductors of boat circuits of 50 V and above; the same source sets no limit below 50 V.
//!
//! Document 33 CFR 183.425, Table 5 note 2, used by 183.435(b); seen in a reprint of the Coast Guard's guideline to the section.
//! Mark: second-hand. The address is not given.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "33 CFR 183.425",
    place: "Table 5 note 2 (conductors carrying 50 V or more)",
    edition: "reprint of the Coast Guard guideline, undated",
    mark: Mark::SecondHand,
    address: "",
};

/// (largest number of conductors, factor); above the last the factor of [`BEYOND`].
pub(crate) static ROWS: [(u32, f64); 4] = [(2, 1.0), (3, 0.70), (6, 0.60), (24, 0.50)];

/// Factor for 25 conductors and more.
pub(crate) const BEYOND: f64 = 0.40;
