//! Single-core copper, 70 °C thermoplastic, reference method B (enclosed in conduit or trunking), two cables, ambient 30 °C.
//!
//! Document BS 7671, Table 4D1A. Confirmed in every entry against a stored copy that paraphrases the standard; its address is not
//! given. Mark: second-hand.

use super::{Row, RowSize::Mm2, row};
use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "BS 7671",
    place: "Table 4D1A, method B, two cables",
    edition: "edition not stated in the copy seen",
    mark: Mark::SecondHand,
    address: "",
};

pub(crate) static SCALED: Citation = Citation {
    document: "BS 7671",
    place: "Table 4D1A, method B, below its smallest row: the smallest row scaled by copper area",
    edition: "edition not stated in the copy seen",
    mark: Mark::Computed,
    address: "",
};

/// Insulation temperature rating of the column, °C.
pub(crate) static COLUMNS: [f64; 1] = [70.0];

pub(crate) static ROWS: [Row<1>; 13] = [
    row(Mm2(1.0), [13.5]),
    row(Mm2(1.5), [17.5]),
    row(Mm2(2.5), [24.0]),
    row(Mm2(4.0), [32.0]),
    row(Mm2(6.0), [41.0]),
    row(Mm2(10.0), [57.0]),
    row(Mm2(16.0), [76.0]),
    row(Mm2(25.0), [101.0]),
    row(Mm2(35.0), [125.0]),
    row(Mm2(50.0), [151.0]),
    row(Mm2(70.0), [192.0]),
    row(Mm2(95.0), [232.0]),
    row(Mm2(120.0), [269.0]),
];
