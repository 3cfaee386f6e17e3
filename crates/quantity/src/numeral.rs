//! Printing of numbers: as many digits as are known, no more.

/// Significant digits of a value that was worked out (chosen).
const SIGNIFICANT_DIGITS: usize = 3;
/// Digits up to which a number that is exact in them is taken as written by hand, and printed in full (chosen).
const WRITTEN_DIGITS: usize = 5;
/// How far a binary number may be from the decimal that was written.
const BINARY_ROUNDING: f64 = 1e-9;
/// Outside of these a power of ten is printed.
const LARGEST_PLAIN: f64 = 1e9;
const SMALLEST_PLAIN: f64 = 1e-6;

/// The value rounded to a number of significant digits.
pub(crate) fn to_digits(value: f64, digits: usize) -> f64 {
    format!("{:.*e}", digits.saturating_sub(1), value).parse().unwrap_or(value)
}

/// The value as it is printed: unchanged where it is a short decimal, else with three significant digits.
pub(crate) fn tidy(value: f64) -> f64 {
    if let Some(short) = short_decimal(value) {
        return short;
    }
    to_digits(value, SIGNIFICANT_DIGITS)
}

/// The short decimal that the value is, apart from binary rounding.
fn short_decimal(value: f64) -> Option<f64> {
    let short = to_digits(value, WRITTEN_DIGITS);
    ((short - value).abs() <= BINARY_ROUNDING * value.abs()).then_some(short)
}

/// True where the value is a whole number, apart from binary rounding.
pub(crate) fn is_whole(value: f64) -> bool {
    (value - value.round()).abs() <= BINARY_ROUNDING * value.abs().max(1.0)
}

/// The digits of a value that is already rounded; no trailing zeros, no −0.
pub(crate) fn print(value: f64) -> String {
    let value = value + 0.0;
    if value != 0.0 && !(SMALLEST_PLAIN..LARGEST_PLAIN).contains(&value.abs()) {
        return format!("{value:e}");
    }
    format!("{value}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn worked_out_values_have_three_digits_and_written_ones_stay() {
        for (value, printed) in [
            (4_999.999_999_999, "5000"),
            (4999.6, "4999.6"),
            (4_999.612_3, "5000"),
            (0.1 + 0.2, "0.3"),
            (12.8, "12.8"),
            (1.0 / 3.0, "0.333"),
            (-2.0 / 3.0, "-0.667"),
            (0.0, "0"),
            (-0.0, "0"),
            (3.0e12, "3e12"),
            (1.0e-9, "1e-9"),
        ] {
            assert_eq!(print(tidy(value)), printed, "{value:?}");
        }
    }
}
