//! The typed parts of a specification.

use crate::slip::Slip;
use crate::value::Value;
use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;
use vocabulary::{FactId, PartKind};

/// A place in a text: the file's number in [`Spec::files`] and bytes in it.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Span {
    /// The file's number.
    pub file: u32,
    /// The bytes.
    pub bytes: Range<u32>,
}

/// How something came to where it is used.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Via {
    /// Taken in by this `include`.
    Include(Span),
    /// Taken over by this `like=`.
    Like(Span),
    /// Taken from this `defaults`.
    Defaults(Span),
}

/// A name as written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Name {
    /// The name.
    pub text: Arc<str>,
    /// Where it is written.
    pub at: Span,
}

/// A given fact: a property or an argument with its value.
#[derive(Clone, PartialEq, Debug)]
pub struct Given {
    /// Which fact.
    pub fact: FactId,
    /// Its value.
    pub value: Value,
    /// Where the value is written.
    pub at: Span,
    /// How it came here, when it is not written on the part itself.
    pub via: Option<Via>,
}

/// One part with what is given on it.
#[derive(Clone, PartialEq, Debug)]
pub struct Part {
    /// Its kind.
    pub kind: PartKind,
    /// Its name, or the name of the thing that it refers to.
    pub name: Option<Name>,
    /// What is given on it, in the order of the facts' numbers, one entry a fact.
    pub given: Vec<Given>,
    /// What stands inside it.
    pub inside: Vec<Part>,
    /// The whole part.
    pub at: Span,
    /// Its first line: the word and the name.
    pub head: Span,
    /// The word by which it is written.
    pub word: Span,
    /// Where a new property can be written: behind the last entry of the first line.
    pub room: Span,
    /// Whether its own line could not be read: only kind and name are known.
    pub unread: bool,
    /// Kinds of which it may hold parts that could not be read.
    pub incomplete: Incomplete,
    /// How it came here.
    pub via: Vec<Via>,
    /// The pattern that it still has to take over, where it stands inside another part; those at the top of a file keep
    /// theirs beside them.
    pub(crate) likeness: Option<crate::lower::Likeness>,
}

/// Which lists of parts may be incomplete, because something could not be read.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Incomplete {
    /// Lists of every kind.
    pub every: bool,
    /// Lists of these kinds.
    pub kinds: BTreeSet<PartKind>,
}

impl Incomplete {
    /// Whether any list may be incomplete.
    pub fn is_any(&self) -> bool {
        self.every || !self.kinds.is_empty()
    }

    /// Whether a list of this kind may be incomplete.
    pub fn concerns(&self, kind: PartKind) -> bool {
        self.every || self.kinds.contains(&kind)
    }

    /// Adds what `other` leaves open.
    pub fn add(&mut self, other: &Self) {
        self.every |= other.every;
        self.kinds.extend(&other.kinds);
    }
}

impl Part {
    /// What is given for this fact.
    pub fn given(&self, fact: FactId) -> Option<&Given> {
        self.given.binary_search_by_key(&fact, |given| given.fact).ok().and_then(|index| self.given.get(index))
    }

    /// Adds a given fact, unless one is there already.
    pub(crate) fn fill(&mut self, given: Given) {
        if let Err(index) = self.given.binary_search_by_key(&given.fact, |other| other.fact) {
            self.given.insert(index, given);
        }
    }

    /// The parts of one kind that stand inside it.
    pub fn inside_of(&self, kind: PartKind) -> impl Iterator<Item = &Self> {
        self.inside.iter().filter(move |part| part.kind == kind)
    }
}

/// A file that was read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct File {
    /// Its name as the loader gave it.
    pub name: Arc<str>,
    /// Its text.
    pub text: Arc<str>,
}

/// A file of house rules that a build names. Its text is among the files; nothing is read out of it here.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct RuleFile {
    /// Its number among the files, or why it could not be had.
    pub file: Result<u32, String>,
    /// Where it is asked for.
    pub asked: Span,
}

/// Everything that was read for one build.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Spec {
    /// The files; the first is the one that was asked for.
    pub files: Vec<File>,
    /// The top-level parts of all files, in the order of the text, includes where they stand.
    pub parts: Vec<Part>,
    /// The patterns for `like=` of the files of parts: no parts of the build.
    pub patterns: Vec<Part>,
    /// The files of house rules, in the order in which they are asked for.
    pub rule_files: Vec<RuleFile>,
    /// What is wrong in the text.
    pub slips: Vec<Slip>,
    /// Which lists of top-level parts may be incomplete.
    pub incomplete: Incomplete,
}
