//! Flexible cords with two current-carrying conductors, 60 °C, ambient 30 °C. A cord of two legs counts as such too: its
//! neutral carries only the difference.
//!
//! Document NEC 400.5(A)(1), column B. Mark: 18 to 12 AWG second-hand, as an appliance standard prints them
//! (<https://bbs.angui.org/thread-1137-2-1.html>); 10 AWG and larger from memory, unverified.

use super::{Row, RowSize::Awg, row};
use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "NEC 400.5(A)(1)",
    place: "column B, two current-carrying conductors; 10 AWG and larger from memory",
    edition: "not stated",
    mark: Mark::Memory,
    address: "",
};

/// Insulation temperature rating of the column, °C.
pub(crate) static COLUMNS: [f64; 1] = [60.0];

pub(crate) static ROWS: [Row<1>; 9] = [
    row(Awg(18), [10.0]),
    row(Awg(16), [13.0]),
    row(Awg(14), [18.0]),
    row(Awg(12), [25.0]),
    row(Awg(10), [30.0]),
    row(Awg(8), [40.0]),
    row(Awg(6), [55.0]),
    row(Awg(4), [70.0]),
    row(Awg(2), [95.0]),
];
