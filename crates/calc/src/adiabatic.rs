//! Conductor against fault energy: S ≥ √(I²t)/k, valid up to five seconds (BS 7671 434.5.2 and 543.1.3, IEC 60364-4-43).

use crate::citation::Citation;
use crate::conductor::MM2_PER_M2;
use crate::tables::adiabatic_k as table;
use crate::temperature::{CELSIUS_ZERO, kelvin};

/// Insulation and use, as the tables of k name them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CableInsulation {
    /// Thermoplastic (PVC), 70 °C.
    Thermoplastic70,
    /// Thermoplastic (PVC), 90 °C.
    Thermoplastic90,
    /// Thermosetting (rubber), 60 °C.
    Thermosetting60,
    /// Thermosetting (rubber), 85 °C.
    Thermosetting85,
    /// Thermosetting (cross-linked polyethylene or ethylene-propylene rubber), 90 °C.
    Thermosetting90,
    /// Separate protective conductor with 70 °C thermoplastic covering, 30 °C before the fault.
    ProtectiveThermoplastic70,
    /// Separate protective conductor with 90 °C thermosetting covering, 30 °C before the fault.
    ProtectiveThermosetting90,
}

/// Longest duration for which the equation holds, s (BS 7671 434.5.2).
pub const LONGEST_SECONDS: f64 = 5.0;

/// The tables and the formula are in A·√s/mm²; coherent SI is A·√s/m².
const K_SI: f64 = MM2_PER_M2;

// Constants of the k formula of IEC 60364-5-54 for copper (formula from memory; it gives the printed values within 0.5 %).
/// Volumetric heat capacity of copper at 20 °C, J/(K·mm³).
const COPPER_HEAT_CAPACITY: f64 = 3.45e-3;
/// Reciprocal of the temperature coefficient of copper at 0 °C, °C.
const COPPER_BETA: f64 = 234.5;
/// Resistivity of copper at 20 °C, Ω·mm.
const COPPER_RESISTIVITY_MM: f64 = 17.241e-6;
/// Reference temperature of the resistivity, °C.
const REFERENCE_CELSIUS: f64 = 20.0;

// End temperatures for a cable of which only the temperature class is known: a 105 °C vehicle cable is often thermoplastic, one of
// 125 °C and above is cross-linked. Chosen, on the safe side.
const THERMOPLASTIC_END_CELSIUS: f64 = 160.0;
const THERMOSETTING_END_CELSIUS: f64 = 250.0;
const HIGHEST_THERMOPLASTIC_CELSIUS: f64 = 105.0;

/// Printed k of a copper conductor, A·√s/m², for its area in m² (thermoplastic cables above 300 mm² have a lower value).
///
/// An area that is not a number takes the lower value.
#[must_use]
pub fn adiabatic_k(insulation: CableInsulation, area: f64) -> (f64, &'static Citation) {
    let (pair, citation) = match insulation {
        CableInsulation::Thermoplastic70 => (table::THERMOPLASTIC_70, &table::CITATION),
        CableInsulation::Thermoplastic90 => (table::THERMOPLASTIC_90, &table::CITATION),
        CableInsulation::Thermosetting60 => (table::THERMOSETTING_60, &table::CITATION),
        CableInsulation::Thermosetting85 => (table::THERMOSETTING_85, &table::REMEMBERED),
        CableInsulation::Thermosetting90 => (table::THERMOSETTING_90, &table::CITATION),
        CableInsulation::ProtectiveThermoplastic70 => (table::PROTECTIVE_THERMOPLASTIC_70, &table::PROTECTIVE),
        CableInsulation::ProtectiveThermosetting90 => (table::PROTECTIVE_THERMOSETTING_90, &table::PROTECTIVE),
    };
    let k = if area * MM2_PER_M2 <= table::LARGE_MM2 { pair.0 } else { pair.1 };
    (k * K_SI, citation)
}

/// k of copper between two temperatures, A·√s/m²: √(Qc(β + 20)/ρ20 · ln((β + θf)/(β + θi))), IEC 60364-5-54 (formula from memory).
///
/// `None` unless the final temperature is above the initial one and both are finite and above −234.5 °C.
#[must_use]
pub fn adiabatic_k_from_temperatures(initial_kelvin: f64, final_kelvin: f64) -> Option<f64> {
    let initial = COPPER_BETA + initial_kelvin - CELSIUS_ZERO;
    let end = COPPER_BETA + final_kelvin - CELSIUS_ZERO;
    if !(initial > 0.0 && end > initial && end.is_finite()) {
        return None;
    }
    let constant = COPPER_HEAT_CAPACITY * (COPPER_BETA + REFERENCE_CELSIUS) / COPPER_RESISTIVITY_MM;
    Some((constant * (end / initial).ln()).sqrt() * K_SI)
}

/// k where only the temperature class of the insulation is known, A·√s/m²: the formula from the class temperature up to 160 °C for classes
/// to 105 °C, to 250 °C above (end temperatures chosen). `None` for a class that is not finite or at or above 250 °C.
#[must_use]
pub fn adiabatic_k_by_class(insulation_kelvin: f64) -> Option<(f64, &'static Citation)> {
    let end = if insulation_kelvin <= kelvin(HIGHEST_THERMOPLASTIC_CELSIUS) + crate::temperature::SAME_KELVIN {
        THERMOPLASTIC_END_CELSIUS
    } else {
        THERMOSETTING_END_CELSIUS
    };
    adiabatic_k_from_temperatures(insulation_kelvin, kelvin(end)).map(|k| (k, &table::BY_CLASS))
}

/// Least copper area, m², that stands `amperes` for `seconds`: √(I²t)/k with k in A·√s/m².
///
/// `None` beyond five seconds, and where a number is negative or not finite or k is not above zero.
#[must_use]
pub fn smallest_area(amperes: f64, seconds: f64, k: f64) -> Option<f64> {
    let usable =
        amperes.is_finite() && amperes >= 0.0 && (0.0..=LONGEST_SECONDS).contains(&seconds) && k.is_finite() && k > 0.0;
    let area = amperes * seconds.sqrt() / k;
    (usable && area.is_finite()).then_some(area)
}
