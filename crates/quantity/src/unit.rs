//! The closed table of units: look-up by the spelling in a specification and by the name in a rule.

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::spelling::canonical;
use crate::unit_table::UNITS;
use crate::{Dimension, System};

/// One unit of measurement.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Unit {
    /// The symbol as written and printed: "mm²", "°C".
    pub symbol: &'static str,
    /// The name in rule expressions, of letters, digits and _: "mm2", "degC", "inch".
    pub identifier: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// Coherent SI units in one of this unit.
    pub factor: f64,
    /// For points on a thermometer, kelvin at the zero of the scale: kelvin = value · factor + offset. Otherwise 0.
    pub offset: f64,
    /// The system it belongs to; None where both use it.
    pub system: Option<System>,
    /// Further spellings that are read without remark.
    pub also: &'static [&'static str],
    /// Spellings that certainly mean this unit, and are refused with the mend.
    pub slips: &'static [&'static str],
}

impl Unit {
    /// The value in coherent SI units of a number of this unit.
    pub fn to_si(&self, number: f64) -> f64 {
        number * self.factor + self.offset
    }

    /// The number of this unit in a value in coherent SI units.
    pub fn from_si(&self, value: f64) -> f64 {
        (value - self.offset) / self.factor
    }

    /// The spelling to offer in a mend: plain letters that every keyboard has.
    pub fn plain_symbol(&self) -> String {
        canonical(self.symbol)
    }
}

/// All units.
pub fn units() -> &'static [Unit] {
    UNITS
}

/// The unit of a name in rule expressions: `mm`, `degC`, `W_per_m2K`.
pub fn unit_by_identifier(identifier: &str) -> Option<&'static Unit> {
    static BY_IDENTIFIER: LazyLock<HashMap<&'static str, &'static Unit>> =
        LazyLock::new(|| UNITS.iter().map(|unit| (unit.identifier, unit)).collect());
    BY_IDENTIFIER.get(identifier).copied()
}

type Index = HashMap<String, Vec<&'static Unit>>;

fn index_of(spellings: impl Fn(&'static Unit) -> Vec<&'static str>, fold: impl Fn(&str) -> String) -> Index {
    let mut index = Index::new();
    for unit in UNITS {
        for spelling in spellings(unit) {
            let entry = index.entry(fold(spelling)).or_default();
            if !entry.contains(&unit) {
                entry.push(unit);
            }
        }
    }
    index
}

fn found(index: &'static Index, key: &str) -> &'static [&'static Unit] {
    index.get(key).map_or(&[], Vec::as_slice)
}

fn accepted(unit: &'static Unit) -> Vec<&'static str> {
    let mut spellings = vec![unit.symbol];
    spellings.extend(unit.also);
    spellings
}

/// The units with this canonical spelling. More than one where a symbol has two meanings, as g has.
pub(crate) fn units_spelled(word: &str) -> &'static [&'static Unit] {
    static INDEX: LazyLock<Index> = LazyLock::new(|| index_of(accepted, canonical));
    found(&INDEX, word)
}

/// The units of which this canonical spelling is a known slip.
pub(crate) fn units_slipped(word: &str) -> &'static [&'static Unit] {
    static INDEX: LazyLock<Index> =
        LazyLock::new(|| index_of(|unit| unit.slips.to_vec(), |slip| canonical(slip).to_lowercase()));
    found(&INDEX, &word.to_lowercase())
}

/// The units that this canonical spelling would name if capital and small letters were alike.
pub(crate) fn units_but_for_case(word: &str) -> &'static [&'static Unit] {
    static INDEX: LazyLock<Index> = LazyLock::new(|| index_of(accepted, |spelling| canonical(spelling).to_lowercase()));
    found(&INDEX, &word.to_lowercase())
}
