//! Published capacities of gas pipes: undiluted propane at 11 in. w.c. with 0.5 in. w.c. lost, thousand Btu/h.
//!
//! * Copper tube: International Fuel Gas Code 2018, Table 402.4(30) (as NFPA 54), rows 10 to 40 ft,
//!   <http://online.flipbuilder.com/mewf/kdfo/files/basic-html/page74.html>. Mark: read. The 2 in. cell at 40 ft is cut off in that copy.
//! * Schedule 40 pipe, newer: the same edition quoted by a maker's manual. Mark: second-hand.
//! * Schedule 40 pipe, older edition: a burner maker's manual, about 5 % lower. Mark: read.

use crate::citation::{Citation, Mark};
use crate::number::positive;

/// A published table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PipeTable {
    /// Semirigid copper, 2018.
    Copper,
    /// Schedule 40 steel, 2018.
    Schedule40,
    /// Schedule 40 steel, older edition.
    Schedule40Older,
}

/// A cell of a table, W, with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TableCell {
    /// Heat that the pipe carries, W.
    pub watts: f64,
    /// Source.
    pub citation: &'static Citation,
}

static COPPER_CITATION: Citation = Citation {
    document: "International Fuel Gas Code",
    place: "Table 402.4(30)",
    edition: "2018",
    mark: Mark::Read,
    address: "http://online.flipbuilder.com/mewf/kdfo/files/basic-html/page74.html",
};
static STEEL_CITATION: Citation = Citation {
    document: "NFPA 54",
    place: "Schedule 40 pipe, propane, 11 in. w.c., 0.5 in. w.c. lost",
    edition: "2018 or near, quoted by a maker",
    mark: Mark::SecondHand,
    address: "https://stage.wiki.planleft.com/manual/3242801/",
};
static OLDER_CITATION: Citation = Citation {
    document: "NFPA 54",
    place: "Schedule 40 pipe, propane, 11 in. w.c., 0.5 in. w.c. lost",
    edition: "an older edition, quoted by two makers",
    mark: Mark::SecondHand,
    address: "https://easymanua.ls/rheem/802pa075417msa/manual?p=27",
};

struct Table {
    /// Inside diameters of the columns, in.
    inside: &'static [f64],
    /// Length in ft and thousand Btu/h; 0 stands for a cell that could not be read.
    rows: &'static [(f64, &'static [f64])],
    citation: &'static Citation,
}

static COPPER: Table = Table {
    inside: &[0.305, 0.402, 0.527, 0.652, 0.745, 0.995, 1.245, 1.481, 1.959],
    rows: &[
        (10.0, &[45.0, 93.0, 188.0, 329.0, 467.0, 997.0, 1_800.0, 2_830.0, 5_890.0]),
        (20.0, &[31.0, 64.0, 129.0, 226.0, 321.0, 685.0, 1_230.0, 1_950.0, 4_050.0]),
        (30.0, &[25.0, 51.0, 104.0, 182.0, 258.0, 550.0, 991.0, 1_560.0, 3_250.0]),
        (40.0, &[21.0, 44.0, 89.0, 155.0, 220.0, 471.0, 848.0, 1_340.0, 0.0]),
    ],
    citation: &COPPER_CITATION,
};

static STEEL: Table = Table {
    inside: &[0.622, 0.824, 1.049],
    rows: &[
        (10.0, &[291.0, 608.0, 1_150.0]),
        (20.0, &[200.0, 418.0, 787.0]),
        (30.0, &[160.0, 336.0, 632.0]),
        (40.0, &[137.0, 287.0, 541.0]),
        (50.0, &[122.0, 255.0, 480.0]),
        (60.0, &[110.0, 231.0, 434.0]),
        (70.0, &[101.0, 212.0, 400.0]),
    ],
    citation: &STEEL_CITATION,
};

static OLDER: Table = Table {
    inside: &[0.622, 0.824, 1.049, 1.380, 1.610, 2.067, 2.469, 3.068],
    rows: &[
        (10.0, &[275.0, 567.0, 1_071.0, 2_205.0, 3_307.0, 6_221.0, 10_140.0, 17_990.0]),
        (20.0, &[189.0, 393.0, 732.0, 1_496.0, 2_299.0, 4_331.0, 7_046.0, 12_510.0]),
        (30.0, &[152.0, 315.0, 590.0, 1_212.0, 1_858.0, 3_465.0, 5_695.0, 10_110.0]),
        (40.0, &[129.0, 267.0, 504.0, 1_039.0, 1_559.0, 2_992.0, 4_778.0, 8_481.0]),
        (50.0, &[114.0, 237.0, 448.0, 913.0, 1_417.0, 2_646.0, 4_343.0, 7_708.0]),
        (60.0, &[103.0, 217.0, 409.0, 834.0, 1_275.0, 2_394.0, 3_908.0, 6_936.0]),
        (80.0, &[89.0, 185.0, 346.0, 724.0, 1_086.0, 2_047.0, 3_329.0, 5_908.0]),
        (100.0, &[78.0, 162.0, 307.0, 630.0, 976.0, 1_811.0, 2_991.0, 5_309.0]),
        (125.0, &[69.0, 146.0, 275.0, 567.0, 866.0, 1_606.0, 2_654.0, 4_711.0]),
        (150.0, &[63.0, 132.0, 252.0, 511.0, 787.0, 1_496.0, 2_412.0, 4_281.0]),
        (200.0, &[54.0, 112.0, 209.0, 439.0, 665.0, 1_282.0, 2_038.0, 3_618.0]),
    ],
    citation: &OLDER_CITATION,
};

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const BTU_PER_HOUR: f64 = 0.293_071_07;
/// A pipe is one of the table's where its inside diameter is the column's within 1 % (chosen: makers round).
const SAME_DIAMETER: f64 = 0.01;
/// Lengths that differ by less than this are the row's.
const SAME_LENGTH: f64 = 1e-9;

/// What a pipe carries by a table, from inside diameter and length, m: the cell of its column at the next longer row.
/// `None` for a diameter that is no column's, a length beyond the last row and a cell that could not be read.
#[must_use]
pub fn table_capacity(table: PipeTable, inside: f64, length: f64) -> Option<TableCell> {
    if !(positive(inside) && positive(length)) {
        return None;
    }
    let table = match table {
        PipeTable::Copper => &COPPER,
        PipeTable::Schedule40 => &STEEL,
        PipeTable::Schedule40Older => &OLDER,
    };
    let column = table.inside.iter().position(|own| (inside / INCH - own).abs() <= SAME_DIAMETER * own)?;
    let feet = length / FOOT;
    let row = table.rows.iter().find(|row| feet <= row.0 * (1.0 + SAME_LENGTH))?;
    let thousand = row.1.get(column).copied().filter(|cell| *cell > 0.0)?;
    Some(TableCell { watts: thousand * 1e3 * BTU_PER_HOUR, citation: table.citation })
}
