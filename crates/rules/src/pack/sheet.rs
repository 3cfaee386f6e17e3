//! A rule file as its author wrote it: the compiled rules together with their examples and the places of everything.

use super::embedded::Embedded;
use crate::rule::Rule;
use crate::signal::Region;
use std::ops::Range;

/// One rule file.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// The file, as the caller named it.
    pub file: String,
    /// The pack: the name of the file's folder.
    pub pack: String,
    /// The domain: the file's name before `.rules.kdl`.
    pub domain: String,
    /// The name of every rule, also of those that could not be read, with its place.
    pub names: Vec<(String, Range<usize>)>,
    /// The specifications that examples start from.
    pub fixtures: Vec<Fixture>,
    /// The rules that could be read.
    pub rules: Vec<RuleSheet>,
}

/// A small specification that several examples start from.
#[derive(Clone, Debug)]
pub struct Fixture {
    /// Its name.
    pub name: String,
    /// Its text.
    pub text: Embedded,
}

/// One rule with what proves it.
#[derive(Clone, Debug)]
pub struct RuleSheet {
    /// The rule.
    pub rule: Rule,
    /// Where its name stands.
    pub name_at: Range<usize>,
    /// The rules that it follows, with their places.
    pub follows: Vec<(String, Range<usize>)>,
    /// Its named values, in the order of [`Rule::values`]: the dimension and the places of the figures.
    pub figures: Vec<FigurePlaces>,
    /// The text of `when`.
    pub when: Option<Embedded>,
    /// The text of `must`.
    pub must: Option<Embedded>,
    /// Pairs of MC/DC that cannot exist.
    pub impossible: Vec<Impossible>,
    /// The examples.
    pub examples: Vec<Example>,
    /// The test that shows what no text of an example can hold.
    pub shown_by_test: Option<ShownByTest>,
}

/// A test that shows a finding which no text of an example can bring: a file that is too large, or no text at all.
#[derive(Clone, Debug)]
pub struct ShownByTest {
    /// The test's name.
    pub test: String,
    /// The file that holds it, from the top of the repository.
    pub file: String,
    /// Where its name stands.
    pub at: Range<usize>,
}

/// Where the figures of a named value stand.
#[derive(Clone, Debug)]
pub struct FigurePlaces {
    /// Where the value's name stands.
    pub name_at: Range<usize>,
    /// What the figures measure.
    pub dimension: quantity::Dimension,
    /// The place of each figure, in the order of [`crate::rule::RuleValue::figures`].
    pub at: Vec<Range<usize>>,
}

/// A condition that examples cannot show on one of its sides.
#[derive(Clone, Debug)]
pub struct Impossible {
    /// The condition, as `when` or `must` writes it.
    pub condition: String,
    /// The side that cannot be shown; none: neither can.
    pub side: Option<bool>,
    /// Why.
    pub reason: String,
    /// Where the condition stands.
    pub at: Range<usize>,
}

/// One example.
#[derive(Clone, Debug)]
pub struct Example {
    /// What it shows.
    pub title: String,
    /// Where its title stands.
    pub at: Range<usize>,
    /// The verdict that it must have.
    pub expected: Expected,
    /// The fixture that it starts from, if any; one of the same file.
    pub on: Option<String>,
    /// The region that it is judged for; left out, those of its own text.
    pub basis: Option<Region>,
    /// The fact or property that must be named among what would settle it.
    pub missing: Option<(String, Range<usize>)>,
    /// What is changed in the fixture, in order.
    pub steps: Vec<Step>,
}

/// The verdict that an example must have.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Expected {
    /// At least one judged part fails.
    Fails,
    /// At least one part holds, and none fails or stays open.
    Holds,
    /// At least one part stays open, and none fails.
    Open,
    /// The rule applies to no part.
    NotApplicable,
}

impl Expected {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::Fails, Self::Holds, Self::Open, Self::NotApplicable];

    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fails => "fails",
            Self::Holds => "holds",
            Self::Open => "open",
            Self::NotApplicable => "not-applicable",
        }
    }

    /// The one that this word names.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|expected| expected.word() == word)
    }
}

/// One change that an example makes to the text of its fixture.
#[derive(Clone, Debug)]
pub struct Step {
    /// What to do.
    pub action: Action,
    /// Where the text that it speaks of stands.
    pub at: Range<usize>,
}

/// What a step does.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Action {
    /// Puts one text in place of another.
    Change {
        /// The text that stands there exactly once.
        from: String,
        /// What takes its place.
        to: String,
    },
    /// Takes a text away.
    Remove(String),
    /// Writes a text at the end.
    Add(String),
}
