//! Solar modules: voltage of a string in the cold, and the currents that conductors and fuses are chosen for.

use crate::citation::{Citation, Mark};
use crate::number::{at_most, finite, positive};
use crate::tables::nec_690_7;
use crate::temperature::{CELSIUS_ZERO, SAME_KELVIN};

/// Cell temperature of the standard test conditions, K (25 °C, IEC 60904-3).
const STANDARD_KELVIN: f64 = 25.0 + CELSIUS_ZERO;

/// A string's highest voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColdVoltage {
    /// Open-circuit voltage of the string at the coldest, V.
    pub volts: f64,
    /// Factor over the voltage at the standard test conditions.
    pub factor: f64,
    /// Where the factor comes from.
    pub citation: &'static Citation,
}

static BY_COEFFICIENT: Citation = Citation {
    document: "NEC 690.7(A)",
    place: "maker's temperature coefficient, U = U(25 °C)·(1 + |β|·(25 °C − T))",
    edition: "2017 to 2023",
    mark: Mark::Computed,
    address: "",
};

/// Open-circuit voltage of a string at the lowest ambient temperature: by the maker's coefficient, or without one by NEC Table 690.7(A).
///
/// `open_circuit_volts` of one module at 25 °C, V; `in_series` modules; `coefficient` of the open-circuit voltage, 1/K relative to 25 °C
/// (−0.28 %/K is −0.0028; only its size counts, since silicon always gains voltage in the cold); `coldest_kelvin` the lowest ambient, K.
/// At 25 °C and above the factor is 1. `None` where a number is not usable, for no modules, and without a coefficient below −40 °C,
/// where the table ends.
#[must_use]
pub fn string_cold_voltage(
    open_circuit_volts: f64,
    in_series: u32,
    coefficient: Option<f64>,
    coldest_kelvin: f64,
) -> Option<ColdVoltage> {
    if !positive(open_circuit_volts) || in_series == 0 || !positive(coldest_kelvin) {
        return None;
    }
    let colder_by = (STANDARD_KELVIN - coldest_kelvin).max(0.0);
    let (factor, citation) = match coefficient {
        Some(per_kelvin) => (1.0 + per_kelvin.abs() * colder_by, &BY_COEFFICIENT),
        None if colder_by <= SAME_KELVIN => (1.0, &nec_690_7::CITATION),
        None => {
            let celsius = coldest_kelvin - CELSIUS_ZERO;
            let &(_, factor) = nec_690_7::ROWS.iter().find(|&&(lowest, _)| celsius >= lowest - SAME_KELVIN)?;
            (factor, &nec_690_7::CITATION)
        }
    };
    let volts = finite(open_circuit_volts * f64::from(in_series) * factor)?;
    Some(ColdVoltage { volts, factor, citation })
}

/// Where the factors of [`source_circuit_current`] and [`source_circuit_rating`] come from.
pub static CURRENT_FACTORS: Citation = Citation {
    document: "NEC 690.8",
    place: "(A) 125 % of the short-circuit current, (B) conductors and devices 125 % of that (156 %)",
    edition: "2017",
    mark: Mark::Memory,
    address: "",
};

/// More sun than at the standard test conditions, NEC 690.8(A).
const SUN_FACTOR: f64 = 1.25;
/// Continuous duty, NEC 690.8(B); the product 1.5625 is printed as 156 %.
const CONTINUOUS_FACTOR: f64 = 1.25;

/// Highest current of a source circuit, A: 1.25 × short-circuit current of one string A × parallel strings ([`CURRENT_FACTORS`]).
/// `None` for no string or an unusable current.
#[must_use]
pub fn source_circuit_current(short_circuit_amperes: f64, strings: u32) -> Option<f64> {
    if !positive(short_circuit_amperes) || strings == 0 {
        return None;
    }
    finite(SUN_FACTOR * short_circuit_amperes * f64::from(strings))
}

/// Least capacity of conductors and least rating of devices of a source circuit, A: 1.25 × 1.25 × short-circuit current × strings
/// ([`CURRENT_FACTORS`]). `None` as in [`source_circuit_current`].
#[must_use]
pub fn source_circuit_rating(short_circuit_amperes: f64, strings: u32) -> Option<f64> {
    finite(CONTINUOUS_FACTOR * source_circuit_current(short_circuit_amperes, strings)?)
}

/// Where [`string_fuse_due`] comes from.
pub static STRING_FUSE: Citation = Citation {
    document: "NEC 690.9(A)",
    place: "more than two strings in parallel",
    edition: "number of strings not seen",
    mark: Mark::Memory,
    address: "",
};

/// Two strings can drive no more than one string's current back into the other; a third can. [`STRING_FUSE`], from memory.
const STRINGS_WITHOUT_FUSE: u32 = 2;

/// True where each string needs its own fuse: more than two in parallel ([`STRING_FUSE`]).
#[must_use]
pub const fn string_fuse_due(parallel_strings: u32) -> bool {
    parallel_strings > STRINGS_WITHOUT_FUSE
}

/// Where [`string_back_feed`] and [`string_fuse_needed`] come from.
pub static BACK_FEED: Citation = Citation {
    document: "NEC 690.9(A), exception",
    place: "no fuse where the currents of all other strings do not exceed what the modules stand, the largest fuse on their plate",
    edition: "quoted on public pages, undated",
    mark: Mark::SecondHand,
    address: "",
};

/// Current that all other strings can drive back into one that has failed, A: 1.25 × short-circuit current of one string A × (strings − 1)
/// ([`BACK_FEED`]). Nothing for one string. `None` for no string or an unusable current.
///
/// A controller that lets the battery's current through to its modules adds to it; it is not in here.
#[must_use]
pub fn string_back_feed(short_circuit_amperes: f64, strings: u32) -> Option<f64> {
    if !positive(short_circuit_amperes) {
        return None;
    }
    let others = strings.checked_sub(1)?;
    finite(SUN_FACTOR * short_circuit_amperes * f64::from(others))
}

/// True where each string needs its own fuse because the others can drive more back into it than its modules stand, the largest series
/// fuse A that their maker allows. [`string_fuse_due`] is the rule where that fuse is not known. `None` as in [`string_back_feed`] and for
/// an unusable fuse.
#[must_use]
pub fn string_fuse_needed(short_circuit_amperes: f64, strings: u32, largest_fuse_amperes: f64) -> Option<bool> {
    if !positive(largest_fuse_amperes) {
        return None;
    }
    Some(!at_most(string_back_feed(short_circuit_amperes, strings)?, largest_fuse_amperes))
}

/// Most modules in series whose open-circuit voltage at the lowest ambient temperature stays within a limit V, by [`string_cold_voltage`] of
/// one module: what is to be written instead of a string that is too long. Zero where one is too many. `None` as there and for an unusable
/// limit.
#[must_use]
pub fn most_modules_in_series(
    open_circuit_volts: f64,
    coefficient: Option<f64>,
    coldest_kelvin: f64,
    largest_volts: f64,
) -> Option<u32> {
    if !positive(largest_volts) {
        return None;
    }
    let one = string_cold_voltage(open_circuit_volts, 1, coefficient, coldest_kelvin)?.volts;
    let whole = (largest_volts / one).floor();
    // Beyond the range of the type there is no such string; the conversion saturates.
    let mut modules = whole as u32;
    // The quotient may round down at an exact fit.
    if at_most(one * (whole + 1.0), largest_volts) {
        modules = modules.saturating_add(1);
    }
    Some(modules)
}
