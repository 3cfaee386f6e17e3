//! Allowable amperage of conductors: stranded copper, single conductors in free air, ambient 30 °C.
//!
//! Document 33 CFR 183.425, Table 5 (US federal law for boats). Clause text: eCFR of about April 2023; the table from an undated
//! copy, all 15 rows seen twice. Mark: read. Address: <http://federal.elaws.us/cfr/title-33/section-183.425>.

use super::{Row, RowSize::Awg, row};
use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "33 CFR 183.425",
    place: "Table 5",
    edition: "eCFR text of about April 2023",
    mark: Mark::Read,
    address: "http://federal.elaws.us/cfr/title-33/section-183.425",
};

pub(crate) static SCALED: Citation = Citation {
    document: "33 CFR 183.425",
    place: "Table 5, below its smallest row: the smallest row scaled by copper area",
    edition: "eCFR text of about April 2023",
    mark: Mark::Computed,
    address: "http://federal.elaws.us/cfr/title-33/section-183.425",
};

/// Insulation temperature ratings of the columns, °C.
pub(crate) static COLUMNS: [f64; 7] = [60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0];

pub(crate) static ROWS: [Row<7>; 15] = [
    row(Awg(18), [10.0, 10.0, 15.0, 20.0, 20.0, 25.0, 25.0]),
    row(Awg(16), [15.0, 15.0, 20.0, 25.0, 25.0, 30.0, 35.0]),
    row(Awg(14), [20.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0]),
    row(Awg(12), [25.0, 25.0, 35.0, 40.0, 45.0, 50.0, 55.0]),
    row(Awg(10), [40.0, 40.0, 50.0, 55.0, 60.0, 70.0, 70.0]),
    row(Awg(8), [55.0, 65.0, 70.0, 70.0, 80.0, 90.0, 100.0]),
    row(Awg(6), [80.0, 95.0, 100.0, 100.0, 120.0, 125.0, 135.0]),
    row(Awg(4), [105.0, 125.0, 130.0, 135.0, 160.0, 170.0, 180.0]),
    row(Awg(3), [120.0, 145.0, 150.0, 155.0, 180.0, 195.0, 210.0]),
    row(Awg(2), [140.0, 170.0, 175.0, 180.0, 210.0, 225.0, 240.0]),
    row(Awg(1), [165.0, 195.0, 210.0, 210.0, 245.0, 265.0, 280.0]),
    row(Awg(0), [195.0, 230.0, 245.0, 245.0, 285.0, 305.0, 325.0]),
    row(Awg(-1), [225.0, 265.0, 285.0, 285.0, 330.0, 355.0, 370.0]),
    row(Awg(-2), [260.0, 310.0, 330.0, 330.0, 385.0, 410.0, 430.0]),
    row(Awg(-3), [300.0, 360.0, 385.0, 385.0, 445.0, 475.0, 510.0]),
];
