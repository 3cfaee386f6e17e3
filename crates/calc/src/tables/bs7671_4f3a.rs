//! Flexible cords, 60 °C thermoplastic or rubber, ambient 30 °C.
//!
//! Document BS 7671, Table 4F3A. Mark: read. Address: <https://www.rm-electrical.com/technical-resource/pvc-flexes/>.

use super::{Row, RowSize::Mm2, row};
use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "BS 7671",
    place: "Table 4F3A",
    edition: "edition not stated in the copy seen",
    mark: Mark::Read,
    address: "https://www.rm-electrical.com/technical-resource/pvc-flexes/",
};

pub(crate) static SCALED: Citation = Citation {
    document: "BS 7671",
    place: "Table 4F3A, below its smallest row: the smallest row scaled by copper area",
    edition: "edition not stated in the copy seen",
    mark: Mark::Computed,
    address: "https://www.rm-electrical.com/technical-resource/pvc-flexes/",
};

/// Insulation temperature rating of the column, °C.
pub(crate) static COLUMNS: [f64; 1] = [60.0];

pub(crate) static ROWS: [Row<1>; 7] = [
    row(Mm2(0.5), [3.0]),
    row(Mm2(0.75), [6.0]),
    row(Mm2(1.0), [10.0]),
    row(Mm2(1.25), [13.0]),
    row(Mm2(1.5), [16.0]),
    row(Mm2(2.5), [25.0]),
    row(Mm2(4.0), [32.0]),
];
