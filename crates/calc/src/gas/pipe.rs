//! Capacity and pressure loss of low-pressure gas pipes.
//!
//! Formula of NFPA 54 and the International Fuel Gas Code (equation 4-1, below 1.5 psi), from memory and checked against every printed
//! cell of the tables: Q = (19.17·D·(ΔH/(Cr·L))^0.206)^(1/0.381) ft³/h, D in inches, ΔH in inches of water, L in feet,
//! Cr = 1.2462 for propane. With 2,475 Btu/ft³ the copper cells come out within 1 %.

use super::pipe_tables::{PipeTable, table_capacity};
use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive};

/// Where the formula comes from.
pub static PIPE_FORMULA: Citation = Citation {
    document: "NFPA 54 and International Fuel Gas Code",
    place: "equation 4-1, low pressure; checked against Table 402.4(30)",
    edition: "2018",
    mark: Mark::Computed,
    address: "http://online.flipbuilder.com/mewf/kdfo/files/basic-html/page74.html",
};

const FACTOR: f64 = 19.17;
const PROPANE_CR: f64 = 1.2462;
const DROP_POWER: f64 = 0.206;
const FLOW_POWER: f64 = 0.381;
/// Heat of propane vapour that makes the formula meet the table's cells, Btu/ft³.
const BTU_PER_CUBIC_FOOT: f64 = 2_475.0;
const BTU_PER_HOUR: f64 = 0.293_071_07;
const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const INCH_OF_WATER: f64 = 249.089;

/// The loss of the published tables, Pa: 0.5 in. w.c.
const TABLE_LOSS: f64 = 0.5 * INCH_OF_WATER;

/// Gross heat that a pipe carries with this loss of pressure, W. `inside` and `length` m, `loss` Pa.
#[must_use]
pub fn pipe_capacity(inside: f64, length: f64, loss: f64) -> Option<f64> {
    if !(positive(inside) && positive(length) && positive(loss)) {
        return None;
    }
    let drop_per_foot = loss / INCH_OF_WATER / (PROPANE_CR * (length / FOOT));
    let cubic_feet = (FACTOR * (inside / INCH) * drop_per_foot.powf(DROP_POWER)).powf(1.0 / FLOW_POWER);
    finite(cubic_feet * BTU_PER_CUBIC_FOOT * BTU_PER_HOUR)
}

/// Pressure that a pipe loses while it carries this gross heat, Pa: the formula solved for its loss. No flow loses nothing.
#[must_use]
pub fn pipe_pressure_drop(inside: f64, length: f64, watts: f64) -> Option<f64> {
    if !(positive(inside) && positive(length) && not_negative(watts)) {
        return None;
    }
    let cubic_feet = watts / BTU_PER_HOUR / BTU_PER_CUBIC_FOOT;
    let drop_per_foot = (cubic_feet.powf(FLOW_POWER) / (FACTOR * (inside / INCH))).powf(1.0 / DROP_POWER);
    finite(drop_per_foot * PROPANE_CR * (length / FOOT) * INCH_OF_WATER)
}

/// Gross heat that a pipe carries over the length to the farthest appliance, W, with its source: the table's cell where there is one, else the
/// formula at the table's loss.
#[must_use]
pub fn table_or_formula_capacity(inside: f64, longest: f64) -> Option<(f64, &'static Citation)> {
    let cell =
        [PipeTable::Copper, PipeTable::Schedule40].into_iter().find_map(|table| table_capacity(table, inside, longest));
    match cell {
        Some(cell) => Some((cell.watts, cell.citation)),
        None => Some((pipe_capacity(inside, longest, TABLE_LOSS)?, &PIPE_FORMULA)),
    }
}
