//! Single-core copper, 90 °C thermosetting, reference method B (enclosed in conduit or trunking), two cables, ambient 30 °C.
//!
//! Document BS 7671, Table 4E1A; two copies agree. Mark: read.
//! Address: <https://www.cse-distributors.co.uk/cable/technical-tables-useful-info/table-4e1a/>.

use super::{Row, RowSize::Mm2, row};
use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "BS 7671",
    place: "Table 4E1A, method B, two cables",
    edition: "edition not stated in the copies seen",
    mark: Mark::Read,
    address: "https://www.cse-distributors.co.uk/cable/technical-tables-useful-info/table-4e1a/",
};

pub(crate) static SCALED: Citation = Citation {
    document: "BS 7671",
    place: "Table 4E1A, method B, below its smallest row: the smallest row scaled by copper area",
    edition: "edition not stated in the copies seen",
    mark: Mark::Computed,
    address: "https://www.cse-distributors.co.uk/cable/technical-tables-useful-info/table-4e1a/",
};

/// Insulation temperature rating of the column, °C.
pub(crate) static COLUMNS: [f64; 1] = [90.0];

pub(crate) static ROWS: [Row<1>; 14] = [
    row(Mm2(1.0), [17.0]),
    row(Mm2(1.5), [23.0]),
    row(Mm2(2.5), [31.0]),
    row(Mm2(4.0), [42.0]),
    row(Mm2(6.0), [54.0]),
    row(Mm2(10.0), [75.0]),
    row(Mm2(16.0), [100.0]),
    row(Mm2(25.0), [133.0]),
    row(Mm2(35.0), [164.0]),
    row(Mm2(50.0), [198.0]),
    row(Mm2(70.0), [253.0]),
    row(Mm2(95.0), [306.0]),
    row(Mm2(120.0), [354.0]),
    row(Mm2(150.0), [393.0]),
];
