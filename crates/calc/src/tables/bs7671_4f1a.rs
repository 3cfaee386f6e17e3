//! Flexible cables above the sizes of cords, 60 °C rubber, ambient 30 °C, one two-core cable with or without protective conductor.
//!
//! Document BS 7671, Table 4F1A. Mark: read. Address:
//! <https://www.cse-distributors.co.uk/cable/technical-tables-useful-info/table-4f1a.html>.

use super::{Row, RowSize::Mm2, row};
use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "BS 7671",
    place: "Table 4F1A",
    edition: "edition not stated in the copy seen",
    mark: Mark::Read,
    address: "https://www.cse-distributors.co.uk/cable/technical-tables-useful-info/table-4f1a.html",
};

/// Insulation temperature rating of the column, °C.
pub(crate) static COLUMNS: [f64; 1] = [60.0];

pub(crate) static ROWS: [Row<1>; 5] = [
    row(Mm2(4.0), [30.0]),
    row(Mm2(6.0), [39.0]),
    row(Mm2(10.0), [51.0]),
    row(Mm2(16.0), [73.0]),
    row(Mm2(25.0), [97.0]),
];
