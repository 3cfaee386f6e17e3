//! The value of a fact.

use crate::known::{Gaps, PartId, Parts};
use std::sync::Arc;

/// A known value of a fact.
#[derive(Clone, PartialEq, Debug)]
pub enum Fact {
    /// A number in coherent SI units; counts and copper areas too.
    Number(f64),
    /// A flag.
    Flag(bool),
    /// The index of a word in the fact's list of words.
    Choice(u16),
    /// A bit for each word of the fact's list.
    ChoiceSet(u64),
    /// A text, or a day as it is written.
    Text(Arc<str>),
    /// Another part.
    Part(PartId),
    /// A list of parts.
    Parts(Parts),
    /// Coordinates or extents, m.
    Lengths([f64; 3]),
    /// An opening's width and height, m.
    Opening([f64; 2]),
}

/// A fact that may be unknown: an error says what would settle it.
pub type Outcome<T = Fact> = Result<T, Gaps>;
