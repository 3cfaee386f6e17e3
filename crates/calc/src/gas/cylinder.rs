//! What a cylinder gives in the cold: the heat of the gas that boils off without the cylinder freezing itself.
//!
//! Continuous draw of a 100 lb (45 kg) propane cylinder by what is left in it and by the air, thousand Btu/h. Class table of a supplier,
//! <https://flameengineering.com/pages/propane-information>, undated. Mark: read; its first column is printed without a label and is 0 °F
//! by position. Smaller cylinders have less wetted wall: their draw is the table's at the same fill, times the 2/3 power of the
//! ratio of contents, as the wall of bodies of one shape. Mark of that: computed.

use super::Gas;
use crate::citation::{Citation, Mark};
use crate::number::{finite, positive};

/// Where [`vaporisation`] comes from.
pub static VAPORISATION: Citation = Citation {
    document: "vaporisation table of a gas supplier",
    place: "100 lb propane cylinder; smaller ones by the 2/3 power of their content",
    edition: "undated",
    mark: Mark::Computed,
    address: "https://flameengineering.com/pages/propane-information",
};

const POUND: f64 = 0.453_592_37;
const BTU_PER_HOUR: f64 = 1_055.055_852_62 / 3_600.0;
const ZERO_FAHRENHEIT_KELVIN: f64 = 459.67 * KELVIN_PER_FAHRENHEIT;
const KELVIN_PER_FAHRENHEIT: f64 = 5.0 / 9.0;

/// Content of the table's cylinder, lb.
const TABLE_CONTENT_POUNDS: f64 = 100.0;

/// Air of the columns, °F.
static AIR: [f64; 5] = [0.0, 20.0, 40.0, 60.0, 70.0];

/// Rows: pounds left, and thousand Btu/h at each air temperature.
pub(crate) static ROWS: [(f64, [f64; 5]); 10] = [
    (10.0, [28.0, 38.0, 49.0, 60.0, 66.0]),
    (20.0, [36.0, 51.0, 68.0, 83.0, 92.0]),
    (30.0, [45.0, 66.0, 85.0, 107.0, 118.0]),
    (40.0, [55.0, 79.0, 105.0, 131.0, 141.0]),
    (50.0, [64.0, 94.0, 125.0, 154.0, 167.0]),
    (60.0, [75.0, 109.0, 140.0, 176.0, 192.0]),
    (70.0, [83.0, 122.0, 160.0, 199.0, 214.0]),
    (80.0, [94.0, 137.0, 180.0, 214.0, 236.0]),
    (90.0, [104.0, 152.0, 200.0, 247.0, 277.0]),
    (100.0, [113.0, 167.0, 214.0, 277.0, 300.0]),
];

/// Boiling points at one atmosphere: propane −42 °C (read, OSHA 563), butane −0.5 °C (memory).
pub static BOILING_POINT: Citation = Citation {
    document: "OSHA chemical data",
    place: "563 (propane −42 °C); butane −0.5 °C from memory",
    edition: "undated",
    mark: Mark::Memory,
    address: "https://osha.gov/chemicaldata/563",
};

const BUTANE_BOILS_KELVIN: f64 = 272.65;

/// Where a number lies among ascending ones: the lower neighbour and the share of the way to the next.
fn between(points: impl ExactSizeIterator<Item = f64> + Clone, value: f64) -> Option<(usize, f64)> {
    let values: Vec<f64> = points.collect();
    let last = values.len().checked_sub(1)?;
    let upper = values.iter().position(|point| *point >= value)?;
    if upper == 0 {
        return (value >= *values.first()?).then_some((0, 0.0));
    }
    let (low, high) = (values.get(upper - 1)?, values.get(upper.min(last))?);
    Some((upper - 1, (value - low) / (high - low)))
}

/// Heat (gross) of the gas that a cylinder gives off for long, W, from its full content kg, the share that is left (0 to 1) and the air, K.
///
/// Bilinear between the cells; warmer air than 70 °F counts as 70 °F. Butane gives nothing below its boiling point, and no table
/// is known for it above. `None` colder than 0 °F, below a tenth or for a cylinder larger than the table's.
#[must_use]
pub fn vaporisation(gas: Gas, content: f64, left: f64, air_kelvin: f64) -> Option<f64> {
    if !(positive(content) && positive(left) && positive(air_kelvin)) || left > 1.0 {
        return None;
    }
    if gas == Gas::Butane {
        return (air_kelvin < BUTANE_BOILS_KELVIN).then_some(0.0);
    }
    let table_content = TABLE_CONTENT_POUNDS * POUND;
    // A content that is written in kilograms need not be the table's to the gram.
    const ROUNDED: f64 = 1.01;
    if content > table_content * ROUNDED {
        return None;
    }
    let fahrenheit = ((air_kelvin - ZERO_FAHRENHEIT_KELVIN) / KELVIN_PER_FAHRENHEIT).min(AIR[AIR.len() - 1]);
    let (column, across) = between(AIR.iter().copied(), fahrenheit)?;
    let (row, down) = between(ROWS.iter().map(|row| row.0), left * TABLE_CONTENT_POUNDS)?;
    let cell = |row: usize, column: usize| {
        let row = &ROWS.get(row.min(ROWS.len() - 1))?.1;
        row.get(column.min(row.len() - 1)).copied()
    };
    let along = |row: usize| Some(cell(row, column)? * (1.0 - across) + cell(row, column + 1)? * across);
    let of_table = along(row)? * (1.0 - down) + along(row + 1)? * down;
    let scale = (content / table_content).powf(2.0 / 3.0);
    finite(of_table * 1e3 * BTU_PER_HOUR * scale)
}
