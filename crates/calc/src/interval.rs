//! A value that is known only within bounds.

use crate::input::{InputError, need_finite, need_within, outcome};

/// Lower and upper bound of a value; equal where it is known exactly. Both are finite and in order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    least: f64,
    most: f64,
}

impl Interval {
    /// Bounds of a value.
    ///
    /// # Errors
    /// Bounds that are not finite or not in order.
    pub fn new(least: f64, most: f64) -> Result<Self, InputError> {
        let (least, most) = (need_finite("lower bound", least)?, need_finite("upper bound", most)?);
        if least > most { Err(InputError::Crossed { quantity: "bounds" }) } else { Ok(Self { least, most }) }
    }

    /// A value without tolerance.
    ///
    /// # Errors
    /// A value that is not finite.
    pub fn exact(value: f64) -> Result<Self, InputError> {
        Self::new(value, value)
    }

    /// A value with a tolerance as a share of it: 0.05 is ±5 %.
    ///
    /// # Errors
    /// A value that is not finite; a share outside 0 to 1.
    pub fn with_tolerance(value: f64, share: f64) -> Result<Self, InputError> {
        let reach = need_finite("value", value)?.abs() * need_within("tolerance", share, 0.0, 1.0)?;
        Self::new(outcome("lower bound", value - reach)?, outcome("upper bound", value + reach)?)
    }

    /// Bounds of a table row, which are finite and in order by the tests of the table.
    pub(crate) const fn row(least: f64, most: f64) -> Self {
        Self { least, most }
    }

    /// The lower bound.
    #[must_use]
    pub const fn least(self) -> f64 {
        self.least
    }

    /// The upper bound.
    #[must_use]
    pub const fn most(self) -> f64 {
        self.most
    }

    /// Half-way between the bounds.
    #[must_use]
    pub const fn middle(self) -> f64 {
        f64::midpoint(self.least, self.most)
    }

    /// True where both bounds are the same number.
    #[must_use]
    pub fn is_exact(self) -> bool {
        self.least >= self.most
    }

    /// True for a value between the bounds; these belong to it.
    #[must_use]
    pub fn contains(self, value: f64) -> bool {
        (self.least..=self.most).contains(&value)
    }

    /// Bounds of the sum.
    ///
    /// # Errors
    /// A sum too large for a number.
    pub fn plus(self, other: Self) -> Result<Self, InputError> {
        Self::of_result(self.least + other.least, self.most + other.most)
    }

    /// Bounds of this less the other, when the two are independent.
    ///
    /// # Errors
    /// A difference too large for a number.
    pub fn minus(self, other: Self) -> Result<Self, InputError> {
        Self::of_result(self.least - other.most, self.most - other.least)
    }

    /// Bounds of the value times a factor of either sign.
    ///
    /// # Errors
    /// A factor that is not finite; a product too large for a number.
    pub fn times(self, factor: f64) -> Result<Self, InputError> {
        let factor = need_finite("factor", factor)?;
        let (one, other) = (self.least * factor, self.most * factor);
        Self::of_result(one.min(other), one.max(other))
    }

    /// Bounds of a quantity that never falls when this value rises.
    ///
    /// # Errors
    /// What the function gives for either bound.
    pub fn rising(self, function: impl Fn(f64) -> Result<f64, InputError>) -> Result<Self, InputError> {
        Self::of_result(function(self.least)?, function(self.most)?)
    }

    /// Bounds of a quantity that never rises when this value rises.
    ///
    /// # Errors
    /// What the function gives for either bound.
    pub fn falling(self, function: impl Fn(f64) -> Result<f64, InputError>) -> Result<Self, InputError> {
        Self::of_result(function(self.most)?, function(self.least)?)
    }

    fn of_result(least: f64, most: f64) -> Result<Self, InputError> {
        let (least, most) = (outcome("lower bound", least)?, outcome("upper bound", most)?);
        // Two roundings of one value may lie the wrong way round by the last digit.
        Ok(Self { least: least.min(most), most: most.max(least) })
    }
}
