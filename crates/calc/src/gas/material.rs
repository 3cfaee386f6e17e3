//! What gas pipes are made of.
//!
//! 675 IAC 15-2-76(b): melting point at least 1,450 °F (788 °C), copper of type K or L (read). WAC 296-307-43517(3): no aluminium alloy
//! (read). DVGW G 607: copper EN 1057, steel EN 10305, stainless steel EN ISO 1127, no plastic (second-hand).

use crate::citation::{Citation, Mark};

/// Where the materials come from.
pub static GAS_MATERIALS: Citation = Citation {
    document: "675 IAC 15-2-76",
    place: "(b), piping melts at 788 °C or above",
    edition: "not stated",
    mark: Mark::Read,
    address: "https://inrules.elaws.us/code/675iac15-2-76",
};

/// A material by the word that a builder writes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PipeMaterial {
    /// Copper, annealed or hard.
    Copper,
    /// Carbon steel.
    Steel,
    /// Stainless steel.
    StainlessSteel,
    /// Aluminium and its alloys.
    Aluminium,
    /// Any plastic or rubber.
    Plastic,
    /// Brass, which melts at about 900 °C.
    Brass,
}

const WORDS: &[(&str, PipeMaterial)] = &[
    ("copper", PipeMaterial::Copper),
    ("stainless", PipeMaterial::StainlessSteel),
    ("stainless steel", PipeMaterial::StainlessSteel),
    ("corrugated stainless steel", PipeMaterial::StainlessSteel),
    ("steel", PipeMaterial::Steel),
    ("galvanised steel", PipeMaterial::Steel),
    ("iron", PipeMaterial::Steel),
    ("brass", PipeMaterial::Brass),
    ("aluminium", PipeMaterial::Aluminium),
    ("aluminum", PipeMaterial::Aluminium),
    ("plastic", PipeMaterial::Plastic),
    ("rubber", PipeMaterial::Plastic),
    ("pe", PipeMaterial::Plastic),
    ("pex", PipeMaterial::Plastic),
    ("pvc", PipeMaterial::Plastic),
    ("nylon", PipeMaterial::Plastic),
    ("polyethylene", PipeMaterial::Plastic),
    ("multilayer", PipeMaterial::Plastic),
];

/// The material behind a word; hyphens and capitals do not matter. `None` for a word that the list does not have.
#[must_use]
pub fn pipe_material(word: &str) -> Option<PipeMaterial> {
    let word = word.trim().to_lowercase().replace('-', " ");
    WORDS.iter().find(|(known, _)| *known == word).map(|(_, material)| *material)
}

impl PipeMaterial {
    /// Whether it may carry gas: it melts above 788 °C and is no alloy of aluminium.
    #[must_use]
    pub const fn carries_gas(self) -> bool {
        !matches!(self, PipeMaterial::Aluminium | PipeMaterial::Plastic)
    }
}
