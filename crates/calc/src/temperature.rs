//! Absolute temperature against the Celsius degrees that the published tables use.

/// The zero of the Celsius scale in kelvin (SI definition).
pub(crate) const CELSIUS_ZERO: f64 = 273.15;

/// Two temperatures closer than this are one: the sum 105 + 273.15 need not be exact in binary. Chosen.
pub(crate) const SAME_KELVIN: f64 = 1e-6;

/// Kelvin of a Celsius temperature.
pub(crate) const fn kelvin(celsius: f64) -> f64 {
    celsius + CELSIUS_ZERO
}
