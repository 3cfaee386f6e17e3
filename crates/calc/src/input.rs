//! Input that no calculation can use, as a typed error that names the quantity.

use std::fmt;

/// Why a calculation gives no value. The quantity is named in the builder's words, so that a finding can point at its entry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum InputError {
    /// A number that is infinite or not a number.
    NotFinite {
        /// What the number stands for.
        quantity: &'static str,
    },
    /// A number below zero where only zero and above have a meaning.
    BelowZero {
        /// What the number stands for.
        quantity: &'static str,
        /// The number.
        value: f64,
    },
    /// A number that is not above zero where zero has no meaning.
    NotPositive {
        /// What the number stands for.
        quantity: &'static str,
        /// The number.
        value: f64,
    },
    /// A number outside the range in which the formula or the table holds.
    OutOfRange {
        /// What the number stands for.
        quantity: &'static str,
        /// The number.
        value: f64,
        /// The least number that can be used, in the unit of the argument.
        least: f64,
        /// The greatest number that can be used.
        most: f64,
    },
    /// A list without entries.
    Empty {
        /// What the list holds.
        quantity: &'static str,
    },
    /// A lower bound above its upper bound.
    Crossed {
        /// What the bounds stand for.
        quantity: &'static str,
    },
    /// The numbers are usable one by one, but their result is beyond what a number can hold.
    Overflow {
        /// What was to be found.
        quantity: &'static str,
    },
}

impl fmt::Display for InputError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            InputError::NotFinite { quantity } => write!(f, "{quantity}: not a finite number"),
            InputError::BelowZero { quantity, value } => write!(f, "{quantity}: {value} is below zero"),
            InputError::NotPositive { quantity, value } => write!(f, "{quantity}: {value} is not above zero"),
            InputError::OutOfRange { quantity, value, least, most } => {
                write!(f, "{quantity}: {value} is not between {least} and {most}")
            }
            InputError::Empty { quantity } => write!(f, "{quantity}: none given"),
            InputError::Crossed { quantity } => write!(f, "{quantity}: the lower bound is above the upper one"),
            InputError::Overflow { quantity } => write!(f, "{quantity}: the result is too large for a number"),
        }
    }
}

impl std::error::Error for InputError {}

/// The number if it is finite.
pub(crate) fn need_finite(quantity: &'static str, value: f64) -> Result<f64, InputError> {
    if value.is_finite() { Ok(value) } else { Err(InputError::NotFinite { quantity }) }
}

/// The number if it is finite and above zero.
pub(crate) fn need_positive(quantity: &'static str, value: f64) -> Result<f64, InputError> {
    let value = need_finite(quantity, value)?;
    if value > 0.0 { Ok(value) } else { Err(InputError::NotPositive { quantity, value }) }
}

/// The number if it is finite and not below zero.
pub(crate) fn need_not_negative(quantity: &'static str, value: f64) -> Result<f64, InputError> {
    let value = need_finite(quantity, value)?;
    if value >= 0.0 { Ok(value) } else { Err(InputError::BelowZero { quantity, value }) }
}

/// The number if it is finite and within the bounds, which belong to the range.
pub(crate) fn need_within(quantity: &'static str, value: f64, least: f64, most: f64) -> Result<f64, InputError> {
    let value = need_finite(quantity, value)?;
    if (least..=most).contains(&value) {
        Ok(value)
    } else {
        Err(InputError::OutOfRange { quantity, value, least, most })
    }
}

/// A share: above 0 and not above 1.
pub(crate) fn need_share(quantity: &'static str, value: f64) -> Result<f64, InputError> {
    let value = need_positive(quantity, value)?;
    need_within(quantity, value, 0.0, 1.0)
}

/// The list if it has entries.
pub(crate) fn need_entries<'list, T>(quantity: &'static str, list: &'list [T]) -> Result<&'list [T], InputError> {
    if list.is_empty() { Err(InputError::Empty { quantity }) } else { Ok(list) }
}

/// A result if it is finite.
pub(crate) fn outcome(quantity: &'static str, value: f64) -> Result<f64, InputError> {
    if value.is_finite() { Ok(value) } else { Err(InputError::Overflow { quantity }) }
}
