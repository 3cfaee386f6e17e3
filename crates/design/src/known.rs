//! Known, unknown, and what would settle it: the values that facts and rules pass to each other.

use std::sync::Arc;
use vocabulary::FactId;

/// One part of a linked build; an index into its parts.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub struct PartId(pub u32);

/// One case: a mode, a climate and a fill together. Case 0 always exists.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub struct CaseId(pub u16);

/// Kleene's three truth values.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Tri {
    /// Certainly not.
    No,
    /// Cannot be told.
    Unknown,
    /// Certainly.
    Yes,
}

impl Tri {
    /// From a certain truth value.
    pub const fn from_bool(value: bool) -> Self {
        if value { Self::Yes } else { Self::No }
    }

    /// Both.
    pub const fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::No, _) | (_, Self::No) => Self::No,
            (Self::Yes, Self::Yes) => Self::Yes,
            _ => Self::Unknown,
        }
    }

    /// Either.
    pub const fn or(self, other: Self) -> Self {
        match (self, other) {
            (Self::Yes, _) | (_, Self::Yes) => Self::Yes,
            (Self::No, Self::No) => Self::No,
            _ => Self::Unknown,
        }
    }

    /// The opposite.
    pub const fn negate(self) -> Self {
        match self {
            Self::No => Self::Yes,
            Self::Unknown => Self::Unknown,
            Self::Yes => Self::No,
        }
    }
}

/// One thing that is not known and would settle a question.
#[derive(Clone, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub enum Gap {
    /// The builder can write this property on this part.
    Entry(PartId, FactId),
    /// A part of this kind is not there and could be written inside `PartId`.
    Absent(PartId, vocabulary::PartKind),
    /// This part, or a block that might hold one, could not be read.
    Unread(PartId),
    /// The facts depend on each other in a circle, seen at this part and fact.
    Circular(PartId, FactId),
    /// The method found no solution for this fact, though all that it needs is given.
    NoSolution(PartId, FactId),
}

/// Alternatives: any one of these settles the question.
#[derive(Clone, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub struct AnyOf(pub Vec<Gap>);

/// What is missing: all of these, each of which may have alternatives.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Gaps(pub Vec<AnyOf>);

impl Gaps {
    /// One gap without alternatives.
    pub fn one(gap: Gap) -> Self {
        Self(vec![AnyOf(vec![gap])])
    }

    /// Adds all of `other`; what is already there is not repeated.
    pub fn add(&mut self, other: &Self) {
        for any in &other.0 {
            if !self.0.contains(any) {
                self.0.push(any.clone());
            }
        }
    }

    /// Whether nothing is missing.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// A list of parts. When a block could not be read the list may be incomplete: then `all` can only fail or stay open,
/// and `exists` can only hold or stay open.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Parts {
    /// The parts that are known.
    pub members: Arc<[PartId]>,
    /// Whether these are certainly all.
    pub complete: bool,
}
