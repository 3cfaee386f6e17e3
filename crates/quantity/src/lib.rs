//! A number with its dimension: read from what builders write, printed in the reader's units.
//!
//! Values are held in coherent SI units (kelvin for points on a thermometer, radian for angles). Metric and US
//! customary text mix freely. Every refusal names the narrowest place in the text, what is wrong, and, where exactly one
//! correction is certain, the whole text to write instead.

mod currency;
mod dimension;
mod geometry;
mod misread;
mod number;
mod numeral;
mod read;
mod refusal;
mod show;
mod spelling;
mod unit;
mod unit_table;
mod wire_reading;
mod wire_show;
mod wire_size;

pub use currency::Currency;
pub use dimension::Dimension;
pub use geometry::{read_box, read_opening, read_point};
pub use misread::Misread;
pub use read::{read, read_non_negative};
pub use show::{show, show_both};
pub use unit::{Unit, unit_by_identifier, units};
pub use wire_show::{larger_sizes, show_conductor_area, show_wire_size, write_wire_size};
pub use wire_size::{Cores, WireSize, read_cores, read_wire_size};

/// A value with its dimension.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Quantity {
    /// The value in the coherent SI unit of the dimension: metre, kilogram, second, ampere, kelvin, radian. Kelvin above
    /// absolute zero for a point on a thermometer. Money is counted in whole units of its currency.
    pub value: f64,
    /// What the value measures.
    pub dimension: Dimension,
    /// The currency where the dimension holds money, as far as it is known.
    pub currency: Option<Currency>,
}

impl Quantity {
    /// A quantity without a currency; `value` in coherent SI units.
    pub const fn new(value: f64, dimension: Dimension) -> Self {
        Self { value, dimension, currency: None }
    }
}

/// The units that a reader wants to see.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum System {
    /// Metres, kilograms, degrees Celsius.
    Metric,
    /// Feet and inches, pounds, degrees Fahrenheit, US gallons.
    UsCustomary,
}
