//! Copper, not more than three current-carrying conductors in a raceway, cable or earth, ambient 30 °C.
//!
//! Document NEC 310.16, read as the adopted law text IRC 2018/2021 Table E3705.1. Mark: read.
//! Address: <https://up.codes/s/conductor-sizing-and-overcurrent-protection>.
//! The 18 and 16 AWG values of the 90 °C column are known from memory only and are left out: smaller sizes are scaled.

use super::{
    Row,
    RowSize::{Awg, Kcmil},
    row,
};
use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "NEC 310.16",
    place: "copper columns, as IRC Table E3705.1",
    edition: "IRC 2018/2021",
    mark: Mark::Read,
    address: "https://up.codes/s/conductor-sizing-and-overcurrent-protection",
};

pub(crate) static SCALED: Citation = Citation {
    document: "NEC 310.16",
    place: "copper columns, below the smallest row: the smallest row scaled by copper area",
    edition: "IRC 2018/2021",
    mark: Mark::Computed,
    address: "https://up.codes/s/conductor-sizing-and-overcurrent-protection",
};

/// Insulation temperature ratings of the columns, °C.
pub(crate) static COLUMNS: [f64; 3] = [60.0, 75.0, 90.0];

pub(crate) static ROWS: [Row<3>; 18] = [
    row(Awg(14), [15.0, 20.0, 25.0]),
    row(Awg(12), [20.0, 25.0, 30.0]),
    row(Awg(10), [30.0, 35.0, 40.0]),
    row(Awg(8), [40.0, 50.0, 55.0]),
    row(Awg(6), [55.0, 65.0, 75.0]),
    row(Awg(4), [70.0, 85.0, 95.0]),
    row(Awg(3), [85.0, 100.0, 115.0]),
    row(Awg(2), [95.0, 115.0, 130.0]),
    row(Awg(1), [110.0, 130.0, 145.0]),
    row(Awg(0), [125.0, 150.0, 170.0]),
    row(Awg(-1), [145.0, 175.0, 195.0]),
    row(Awg(-2), [165.0, 200.0, 225.0]),
    row(Awg(-3), [195.0, 230.0, 260.0]),
    row(Kcmil(250.0), [215.0, 255.0, 290.0]),
    row(Kcmil(300.0), [240.0, 285.0, 320.0]),
    row(Kcmil(350.0), [260.0, 310.0, 350.0]),
    row(Kcmil(400.0), [280.0, 335.0, 380.0]),
    row(Kcmil(500.0), [320.0, 380.0, 430.0]),
];
