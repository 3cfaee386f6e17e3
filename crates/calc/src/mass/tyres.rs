//! Load capacity of tyres by load index.
//!
//! Source: ETRTO and TRA load index; three trade pages merged, their single misprints removed (addresses carry trade names). Mark: read. Every
//! value lies within 1.8 % of 45·10^(LI/80). Index 135 is printed 2,190 kg on the page and 2,180 kg by the series: marked memory.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_finite, outcome};

/// Source of [`tyre_load`].
pub static TYRE_LOAD_INDEX: Citation = Citation {
    document: "ETRTO and TRA load index",
    place: "indices 60 to 150",
    edition: "three pages merged",
    mark: Mark::Read,
    address: "",
};

static UNCERTAIN: Citation = Citation {
    document: "ETRTO and TRA load index",
    place: "index 135 by the series; one page prints 2,190 kg",
    edition: "",
    mark: Mark::Memory,
    address: "",
};

const FIRST: u16 = 60;

/// kg from index 60.
static KILOGRAMS: [u16; 91] = [
    250, 257, 265, 272, 280, 290, 300, 307, 315, 325, 335, 345, 355, 365, 375, 387, 400, 412, 425, 437, 450, 462, 475,
    487, 500, 515, 530, 545, 560, 580, 600, 615, 630, 650, 670, 690, 710, 730, 750, 775, 800, 825, 850, 875, 900, 925,
    950, 975, 1000, 1030, 1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360, 1400, 1450, 1500, 1550, 1600,
    1650, 1700, 1750, 1800, 1850, 1900, 1950, 2000, 2060, 2120, 2180, 2240, 2300, 2360, 2430, 2500, 2575, 2650, 2725,
    2800, 2900, 3000, 3075, 3150, 3250, 3350,
];

/// Load of one tyre, kg, and its source.
///
/// # Errors
/// An index outside 60 to 150.
pub fn tyre_load(index: u16) -> Result<(f64, &'static Citation), InputError> {
    const DOUBTED: u16 = 135;
    let place = index.checked_sub(FIRST).map(usize::from);
    match place.and_then(|place| KILOGRAMS.get(place)) {
        Some(kilograms) => Ok((f64::from(*kilograms), if index == DOUBTED { &UNCERTAIN } else { &TYRE_LOAD_INDEX })),
        None => Err(InputError::OutOfRange {
            quantity: "load index",
            value: f64::from(index),
            least: f64::from(FIRST),
            most: f64::from(FIRST) + KILOGRAMS.len() as f64 - 1.0,
        }),
    }
}

/// Load that the tyres of an axle carry at full pressure, kg: two times the single index, or four times the dual index of a doubled axle (of
/// "96/94" the second). Less pressure carries less.
///
/// # Errors
/// An index outside 60 to 150; a number of tyres that is not 2 or 4.
pub fn axle_tyre_capacity(index: u16, tyres: u8) -> Result<f64, InputError> {
    if tyres != 2 && tyres != 4 {
        let value = need_finite("tyres of the axle", f64::from(tyres))?;
        return Err(InputError::OutOfRange { quantity: "tyres of the axle", value, least: 2.0, most: 4.0 });
    }
    outcome("capacity", f64::from(tyres) * tyre_load(index)?.0)
}
