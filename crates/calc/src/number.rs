//! What counts as a usable number.

/// True for a number that can be a power, a voltage, a current or a length here.
pub(crate) fn positive(value: f64) -> bool {
    value.is_finite() && value > 0.0
}

/// True for a finite number that is not below zero.
pub(crate) fn not_negative(value: f64) -> bool {
    value.is_finite() && value >= 0.0
}

/// True for an efficiency or a power factor: above 0 and not above 1.
pub(crate) fn share(value: f64) -> bool {
    value > 0.0 && value <= 1.0
}

/// A result that can be used: finite.
pub(crate) fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

/// Two currents closer than this part of them are one: 0.7 × 100 A need not be exactly 70 A in binary. Chosen.
const SAME_CURRENT: f64 = 1e-9;

/// True where `one` is not above `other` but for the rounding of binary numbers.
pub(crate) fn at_most(one: f64, other: f64) -> bool {
    one <= other * (1.0 + SAME_CURRENT)
}
