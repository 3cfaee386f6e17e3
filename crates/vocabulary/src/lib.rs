//! What a build specification can say and what can be known of it, as data.
//!
//! The data stand in `parts/*.vocabulary.kdl` and are turned into static tables when this crate is built, so that a
//! review starts without reading them. The reader, completion, hovers, the reference manual and the rules' type check
//! all read these tables; nothing here knows how a fact is worked out.

mod model;
mod search;

pub use model::*;
pub use search::nearest;

#[allow(missing_docs)]
mod tables {
    use super::model::*;
    use quantity::Dimension;
    include!(concat!(env!("OUT_DIR"), "/tables.rs"));
}

pub use tables::{fact, kind};

/// Every part kind, in the order of its number.
pub fn parts() -> &'static [PartSpec] {
    tables::PARTS
}

/// Every fact, in the order of its number.
pub fn facts() -> &'static [FactSpec] {
    tables::FACTS
}

/// Every system that a build describes or declares absent.
pub fn systems() -> &'static [SystemSpec] {
    tables::SYSTEMS
}

/// The specification of one part kind.
pub fn part(kind: PartKind) -> &'static PartSpec {
    &tables::PARTS[usize::from(kind.0)]
}

/// The specification of one fact.
pub fn fact_spec(fact: FactId) -> &'static FactSpec {
    &tables::FACTS[usize::from(fact.0)]
}

/// The part kind that a builder writes as `word`, by its own word (not by the trade's other words).
pub fn part_by_word(word: &str) -> Option<&'static PartSpec> {
    tables::PARTS.iter().find(|part| part.word == word)
}

/// The part kind for which the trade also says `word`.
pub fn part_by_other_word(word: &str) -> Option<&'static PartSpec> {
    tables::PARTS.iter().find(|part| part.also.contains(&word))
}

impl PartSpec {
    /// The facts of this kind, given and worked out, in the order of the vocabulary.
    pub fn facts(&self) -> &'static [FactSpec] {
        let first = usize::from(self.first_fact);
        &tables::FACTS[first..first + usize::from(self.fact_count)]
    }

    /// The fact of this kind with that name.
    pub fn fact(&self, name: &str) -> Option<&'static FactSpec> {
        self.facts().iter().find(|fact| fact.name == name)
    }

    /// What a builder may write on this part: its given facts.
    pub fn properties(&self) -> impl Iterator<Item = &'static FactSpec> {
        self.facts().iter().filter(|fact| fact.given)
    }

    /// Whether a part of kind `child` may be written inside this one.
    pub fn may_contain(&self, child: PartKind) -> bool {
        self.contains.contains(&child)
    }
}

impl FactSpec {
    /// The words of a choice, or nothing for a fact of another type.
    pub fn choices(&self) -> &'static [&'static str] {
        match self.kind {
            FactKind::Choice(words) | FactKind::ChoiceSet(words) => words,
            _ => &[],
        }
    }
}
