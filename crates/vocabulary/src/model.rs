//! The types of the vocabulary.

use quantity::Dimension;

/// The number of a part kind; an index into [`crate::parts`].
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub struct PartKind(pub u16);

/// The number of a fact; an index into [`crate::facts`]. A fact belongs to exactly one part kind.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub struct FactId(pub u16);

/// What sort of thing a part is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Family {
    /// One physical object with one name, defined once, wherever it stands.
    Thing,
    /// A path, written in the order the flow meets its parts.
    Run,
    /// A piece of a run or a detail of a thing.
    Piece,
    /// A space or a direction that others refer to.
    Place,
    /// Something said about the build as a whole.
    Setting,
    /// Not written by the builder: made by the linker from what is written, for facts and rules to speak of.
    Worked,
}

/// Whether a part has a name of its own.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Naming {
    /// A name must be given, as the first argument.
    Required,
    /// A name may be given.
    Optional,
    /// The part has no name.
    Never,
    /// The first argument names a thing that is defined elsewhere or here (`way 1 "water pump"`).
    Refers,
}

/// What the absence of a property means.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Absent {
    /// The text is wrong without it.
    Required,
    /// Nothing is known; checks that need it stay undecided.
    Unknown,
    /// Its absence says this value (`stage` left out means `draft`).
    Means(&'static str),
    /// This value is assumed, and marked so in every working.
    Assume {
        /// The value, as a builder would write it.
        value: &'static str,
        /// Where the assumption comes from.
        source: &'static str,
        /// How well that source is known.
        mark: &'static str,
    },
}

/// The type of a fact.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum FactKind {
    /// A number with a dimension.
    Quantity(Dimension),
    /// A plain count.
    Count,
    /// A conductor's size: AWG or mm², compared by copper area.
    WireSize,
    /// A count of conductors times a size, `3 x 2.5 mm2`.
    Cores,
    /// Three coordinates.
    Point,
    /// Length, width and height.
    Box,
    /// Width and height of a clear opening.
    Opening,
    /// `yes` or `no`.
    Flag,
    /// One of a closed list of words.
    Choice(&'static [&'static str]),
    /// Any of a closed list of words.
    ChoiceSet(&'static [&'static str]),
    /// Free text.
    Text,
    /// A calendar date, `2026-03-14`.
    Date,
    /// Another part, by name. An empty list of kinds admits every thing.
    Part(&'static [PartKind]),
    /// Several parts of one kind.
    Parts(&'static [PartKind]),
}

/// How a given fact is written on its part. Every property may also stand as a line of its own inside the part.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Written {
    /// `name=value`.
    Property,
    /// By position: the n-th argument, counted from 0 and without the part's name.
    Argument(u8),
    /// Every argument from this position on.
    Rest(u8),
    /// Not written: worked out.
    Not,
}

/// What a fact may vary by.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct Axes(pub u8);

impl Axes {
    /// One value for the build.
    pub const NONE: Self = Self(0);
    /// By mode: parked, driving, shore, …
    pub const MODE: Self = Self(1);
    /// By climate: winter night, summer day.
    pub const CLIMATE: Self = Self(2);
    /// By fill: tanks and people.
    pub const FILL: Self = Self(4);

    /// Both sets of axes together.
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether every axis of `other` is among these.
    pub const fn covers(self, other: Self) -> bool {
        self.0 & other.0 == other.0
    }
}

/// Which end of a fact's range is the bad one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Worst {
    /// The most is the worst (a current, a temperature).
    Most,
    /// The least is the worst (an ampacity, a margin).
    Least,
    /// Neither.
    Neither,
}

/// One fact of a part kind: given by the builder or worked out.
#[derive(Clone, Copy, Debug)]
pub struct FactSpec {
    /// Its number.
    pub id: FactId,
    /// The part kind that has it.
    pub part: PartKind,
    /// Its name, words joined by hyphens. In a rule's expression the hyphens are written as underscores.
    pub name: &'static str,
    /// Its type.
    pub kind: FactKind,
    /// Whether the builder writes it (else it is worked out).
    pub given: bool,
    /// How it is written.
    pub written: Written,
    /// What its absence means. Worked facts say [`Absent::Unknown`].
    pub absent: Absent,
    /// Whether a quantity may be below zero.
    pub signed: bool,
    /// Whether a quantity of zero makes no sense: the length of a wire, the rating of a fuse.
    pub above_zero: bool,
    /// Whether it is a part of a whole, so that more than 100 % is a slip.
    pub at_most_whole: bool,
    /// What it varies by.
    pub axes: Axes,
    /// Which end of its range is the bad one.
    pub worst: Worst,
    /// One line of help.
    pub help: &'static str,
    /// One example, as a builder would write it; empty for worked facts.
    pub example: &'static str,
    /// The trade's other words for it.
    pub also: &'static [&'static str],
}

/// One part kind.
#[derive(Clone, Copy, Debug)]
pub struct PartSpec {
    /// Its number.
    pub kind: PartKind,
    /// The word a builder writes.
    pub word: &'static str,
    /// What sort of thing it is.
    pub family: Family,
    /// Whether it has a name.
    pub naming: Naming,
    /// Whether it stands at the top of a file.
    pub top: bool,
    /// What may be written inside it.
    pub contains: &'static [PartKind],
    /// The first of its facts in [`crate::facts`].
    pub first_fact: u16,
    /// The number of its facts.
    pub fact_count: u16,
    /// Words that may stand among its arguments for the sake of reading and say nothing (`holds`).
    pub fillers: &'static [&'static str],
    /// One line of help.
    pub help: &'static str,
    /// One example.
    pub example: &'static str,
    /// The trade's other words for it.
    pub also: &'static [&'static str],
}

/// A system that a build describes or declares absent with `none`.
#[derive(Clone, Copy, Debug)]
pub struct SystemSpec {
    /// The word behind `none`.
    pub word: &'static str,
    /// What belongs to it.
    pub help: &'static str,
    /// The part kinds whose presence describes it, each with the condition on one of its choices, if any
    /// (`heater` with `fuel` among `gas`).
    pub described_by: &'static [DescribedBy],
}

/// A part whose presence describes a system.
#[derive(Clone, Copy, Debug)]
pub struct DescribedBy {
    /// The part kind.
    pub kind: PartKind,
    /// A given choice that must have one of these words, if any.
    pub when: Option<(FactId, &'static [&'static str])>,
}
