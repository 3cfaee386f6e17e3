//! What a piece of an expression can be.

use quantity::Dimension;
use vocabulary::{FactKind, PartKind};

/// The type of a piece of an expression.
#[derive(Clone, PartialEq, Debug)]
pub enum ValueType {
    /// A number.
    Number {
        /// What it measures.
        dimension: Dimension,
        /// Whether it is a count, which may be compared with `==`.
        count: bool,
    },
    /// Yes or no.
    Flag,
    /// One of a closed list of words.
    Choice(&'static [&'static str]),
    /// Any of a closed list of words.
    ChoiceSet(&'static [&'static str]),
    /// A text.
    Text,
    /// A part of one of these kinds.
    Part(Kinds),
    /// A list of parts of these kinds.
    Parts(Kinds),
}

/// The kinds that a part may have.
#[derive(Clone, PartialEq, Debug)]
pub struct Kinds {
    /// The kinds.
    pub of: Vec<PartKind>,
    /// Whether the part itself must be asked for its kind, because only `is(…)` says that it is one of these.
    pub narrowed: bool,
}

impl Kinds {
    /// Exactly one kind.
    pub fn one(kind: PartKind) -> Self {
        Self { of: vec![kind], narrowed: false }
    }

    /// Those that a fact admits; none means every thing.
    pub fn admitted(kinds: &[PartKind]) -> Self {
        let of = if kinds.is_empty() {
            let things = vocabulary::parts().iter().filter(|part| part.family == vocabulary::Family::Thing);
            things.map(|part| part.kind).collect()
        } else {
            kinds.to_vec()
        };
        Self { of, narrowed: false }
    }

    /// The kinds in words: `battery, alternator or charger`.
    pub fn words(&self) -> String {
        match self.of.as_slice() {
            [] => "part".to_owned(),
            more if more.len() > MOST_LISTED => "thing".to_owned(),
            more => either(&more.iter().map(|kind| vocabulary::part(*kind).word).collect::<Vec<_>>()),
        }
    }
}

/// More kinds than these are not listed one by one in a message.
const MOST_LISTED: usize = 8;

/// `a, b or c`.
pub(super) fn either(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}

impl ValueType {
    /// A number that is no count.
    pub const fn quantity(dimension: Dimension) -> Self {
        Self::Number { dimension, count: false }
    }

    /// A count.
    pub const COUNT: Self = Self::Number { dimension: Dimension::RATIO, count: true };

    /// The type that a fact has in an expression; nothing for those that can only be asked with `has`.
    pub fn of_fact(kind: FactKind) -> Option<Self> {
        Some(match kind {
            FactKind::Quantity(dimension) => Self::quantity(dimension),
            FactKind::Count => Self::COUNT,
            FactKind::WireSize => Self::quantity(Dimension::AREA),
            FactKind::Flag => Self::Flag,
            FactKind::Choice(words) => Self::Choice(words),
            FactKind::ChoiceSet(words) => Self::ChoiceSet(words),
            FactKind::Text => Self::Text,
            FactKind::Part(kinds) => Self::Part(Kinds::admitted(kinds)),
            FactKind::Parts(kinds) => Self::Parts(Kinds::admitted(kinds)),
            FactKind::Cores | FactKind::Point | FactKind::Box | FactKind::Opening | FactKind::Date => return None,
        })
    }

    /// The type in words, with its article: 'a current', 'a flag', 'a list of conductors'.
    pub fn words(&self) -> String {
        match self {
            Self::Number { count: true, .. } => "a count".to_owned(),
            Self::Number { dimension, .. } => with_article(&dimension.name()),
            Self::Flag => "a flag".to_owned(),
            Self::Choice(_) => "a choice of words".to_owned(),
            Self::ChoiceSet(_) => "a set of words".to_owned(),
            Self::Text => "a text".to_owned(),
            Self::Part(kinds) => with_article(&kinds.words()),
            Self::Parts(kinds) => format!("a list ({})", kinds.words()),
        }
    }
}

/// The word with 'a' or 'an'.
pub(super) fn with_article(word: &str) -> String {
    let vowel = word.starts_with(['a', 'e', 'i', 'o', 'A', 'E', 'I', 'O']);
    format!("{} {word}", if vowel { "an" } else { "a" })
}

/// The name of a fact or word as an expression writes it.
pub(super) fn written(name: &str) -> String {
    name.replace('-', "_")
}
