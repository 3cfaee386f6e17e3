//! Semantic tokens: what each word of a text is, by the vocabulary and not by its looks.

use crate::check::Sort;
use crate::comments::comments;
use crate::position::{Encoding, Lines};
use crate::state::State;
use crate::tokens_of_rules;
use crate::trees::tree;
use spec::text::{Bytes, Entry, Node, Scalar, Unread};
use std::ops::Range as Stretch;
use tower_lsp::lsp_types::*;
use vocabulary::{FactKind, FactSpec, Naming, PartSpec, Written};

/// What a word is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Class {
    /// The word that says what a part is.
    Word,
    /// A name where the thing is defined.
    Definition,
    /// A name of a thing that is defined elsewhere.
    Reference,
    /// The name of a property.
    Property,
    /// A quantity, a count, a size or a date.
    Quantity,
    /// One of a closed list of words.
    Choice,
    /// Free text.
    Text,
    /// A comment.
    Comment,
}

/// The types of tokens, all of the protocol's own.
const TYPES: [SemanticTokenType; 7] = [
    SemanticTokenType::KEYWORD,
    SemanticTokenType::VARIABLE,
    SemanticTokenType::PROPERTY,
    SemanticTokenType::NUMBER,
    SemanticTokenType::ENUM_MEMBER,
    SemanticTokenType::STRING,
    SemanticTokenType::COMMENT,
];

impl Class {
    /// The number of its type, and its modifiers.
    fn encoded(self) -> (u32, u32) {
        match self {
            Self::Word => (0, 0),
            Self::Definition => (1, 1),
            Self::Reference => (1, 0),
            Self::Property => (2, 0),
            Self::Quantity => (3, 0),
            Self::Choice => (4, 0),
            Self::Text => (5, 0),
            Self::Comment => (6, 0),
        }
    }
}

/// What the server announces.
pub fn options() -> SemanticTokensOptions {
    SemanticTokensOptions {
        legend: SemanticTokensLegend {
            token_types: TYPES.to_vec(),
            token_modifiers: vec![SemanticTokenModifier::DEFINITION],
        },
        full: Some(SemanticTokensFullOptions::Bool(true)),
        range: Some(true),
        ..SemanticTokensOptions::default()
    }
}

/// The tokens of a text, or of the lines of it that a range touches.
pub fn tokens(state: &State, url: &Url, range: Option<Range>) -> Option<Vec<SemanticToken>> {
    let tree = tree(state, url)?;
    let mut marks = Marks { marks: Vec::new() };
    match Sort::of(url)? {
        Sort::Build | Sort::Parts => tree.document.nodes.iter().for_each(|node| marks.part(node, None)),
        Sort::Rules => tokens_of_rules::mark(&mut marks, &tree.document.nodes),
    }
    let lines = state.documents.get(url)?.lines.clone();
    Some(encoded(&tree.text, &lines, marks.all(&tree.text), range, state.client.encoding))
}

/// Places with what stands there.
pub struct Marks {
    marks: Vec<(Stretch<usize>, Class)>,
}

impl Marks {
    /// Notes what stands at a place.
    pub fn put(&mut self, at: &Bytes, class: Class) {
        self.marks.push((at.start as usize..at.end as usize, class));
    }

    /// All marks with the comments, in order and none over another.
    fn all(self, text: &str) -> Vec<(Stretch<usize>, Class)> {
        let mut marks = self.marks;
        marks.retain(|(at, _)| at.start < at.end && text.get(at.clone()).is_some());
        marks.sort_by_key(|(at, _)| (at.start, at.end));
        let known: Vec<Stretch<usize>> = marks.iter().map(|(at, _)| at.clone()).collect();
        marks.extend(comments(text, &known).into_iter().map(|at| (at, Class::Comment)));
        marks.sort_by_key(|(at, _)| (at.start, at.end));
        let mut end = 0;
        marks.retain(|(at, _)| {
            let free = at.start >= end;
            if free {
                end = at.end;
            }
            free
        });
        marks
    }

    /// A node that is a part or a property of the part that it stands in.
    fn part(&mut self, node: &Node, outer: Option<&'static PartSpec>) {
        let word = &*node.name.text;
        let spec = vocabulary::part_by_word(word).filter(|spec| match outer {
            None => spec.top,
            Some(outer) => outer.may_contain(spec.kind),
        });
        // A line that could not be read says nothing; what stands in its braces was read for itself.
        if node.unread != Unread::Itself {
            match (spec, outer.and_then(|outer| property(outer, word))) {
                (Some(spec), _) => {
                    self.put(&node.name.at, Class::Word);
                    self.entries(node, spec);
                }
                (None, Some(fact)) => {
                    self.put(&node.name.at, Class::Property);
                    node.entries.iter().for_each(|entry| self.value(entry, fact));
                }
                (None, None) if word == LIKE => {
                    self.put(&node.name.at, Class::Property);
                    node.entries.iter().for_each(|entry| self.put(&entry.value_at, Class::Reference));
                }
                (None, None) => node.entries.iter().for_each(|entry| self.plain(entry)),
            }
        }
        // The depth of a tree is bounded, so this recursion is too.
        for child in &node.children {
            self.part(child, spec);
        }
    }

    fn entries(&mut self, node: &Node, spec: &'static PartSpec) {
        let mut arguments = Arguments::of(spec);
        for entry in &node.entries {
            match &entry.key {
                None => match arguments.take(entry) {
                    Taken::Name(class) => self.put(&entry.value_at, class),
                    Taken::Filler => self.put(&entry.value_at, Class::Word),
                    Taken::Fact(fact) => self.value(entry, fact),
                    Taken::Nothing => self.plain(entry),
                },
                Some(key) if &*key.text == LIKE => {
                    self.put(&key.at, Class::Property);
                    self.put(&entry.value_at, Class::Reference);
                }
                Some(key) => match property(spec, &key.text) {
                    Some(fact) => {
                        self.put(&key.at, Class::Property);
                        self.value(entry, fact);
                    }
                    None => self.plain(entry),
                },
            }
        }
    }

    fn value(&mut self, entry: &Entry, fact: &FactSpec) {
        let unknown = !entry.quoted && &*entry.written == spec::UNKNOWN;
        self.put(
            &entry.value_at,
            match fact.kind {
                _ if unknown => Class::Word,
                FactKind::Quantity(_)
                | FactKind::Count
                | FactKind::WireSize
                | FactKind::Cores
                | FactKind::Point
                | FactKind::Box
                | FactKind::Opening
                | FactKind::Date => Class::Quantity,
                FactKind::Flag | FactKind::Choice(_) | FactKind::ChoiceSet(_) => Class::Choice,
                // The systems that a build has not are a closed list too.
                FactKind::Text if fact.part == vocabulary::kind::NONE => Class::Choice,
                FactKind::Text => Class::Text,
                FactKind::Part(_) | FactKind::Parts(_) => Class::Reference,
            },
        );
    }

    /// An entry of which the vocabulary knows nothing: only what it looks like.
    pub fn plain(&mut self, entry: &Entry) {
        if entry.quoted {
            self.put(&entry.value_at, Class::Text);
        } else if matches!(entry.value, Scalar::Whole(_) | Scalar::Real(_)) {
            self.put(&entry.value_at, Class::Quantity);
        }
    }
}

/// The property by which a part takes another as its starting point.
const LIKE: &str = "like";

fn property(spec: &'static PartSpec, name: &str) -> Option<&'static FactSpec> {
    spec.properties().find(|fact| fact.name == name)
}

/// What an argument is.
enum Taken {
    Name(Class),
    Filler,
    Fact(&'static FactSpec),
    Nothing,
}

/// The arguments that a part still takes, as the reader of specifications takes them: a number where the part is numbered,
/// its name, then what it says by position.
struct Arguments {
    spec: &'static PartSpec,
    name: bool,
    facts: Vec<&'static FactSpec>,
    rest: Option<&'static FactSpec>,
}

impl Arguments {
    fn of(spec: &'static PartSpec) -> Self {
        let mut facts: Vec<(u8, &FactSpec)> = Vec::new();
        let mut rest = None;
        for fact in spec.properties() {
            match fact.written {
                Written::Argument(position) => facts.push((position, fact)),
                Written::Rest(_) => rest = Some(fact),
                Written::Property | Written::Not => {}
            }
        }
        facts.sort_by_key(|(position, _)| std::cmp::Reverse(*position));
        let facts = facts.into_iter().map(|(_, fact)| fact).collect();
        Self { spec, name: spec.naming != Naming::Never, facts, rest }
    }

    fn take(&mut self, entry: &Entry) -> Taken {
        let numbered = self.facts.last().is_some_and(|fact| fact.kind == FactKind::Count);
        if numbered && matches!(entry.value, Scalar::Whole(_)) {
            return self.facts.pop().map_or(Taken::Nothing, Taken::Fact);
        }
        if self.name {
            self.name = false;
            let refers = self.spec.naming == Naming::Refers;
            return match refers {
                true if !entry.quoted && &*entry.written == spec::UNKNOWN => Taken::Filler,
                true => Taken::Name(Class::Reference),
                false => Taken::Name(Class::Definition),
            };
        }
        if !entry.quoted && self.spec.fillers.contains(&&*entry.written) {
            return Taken::Filler;
        }
        self.facts.pop().or(self.rest).map_or(Taken::Nothing, Taken::Fact)
    }
}

/// The argument by which a line defines a name, if it does.
pub fn defined_name<'n>(node: &'n Node, spec: &'static PartSpec) -> Option<&'n Entry> {
    let mut arguments = Arguments::of(spec);
    let mut entries = node.entries.iter().filter(|entry| entry.key.is_none());
    entries.find(|entry| matches!(arguments.take(entry), Taken::Name(Class::Definition)))
}

/// Marks as the protocol writes them: one token a line, each counted from the one before.
fn encoded(
    text: &str,
    lines: &Lines,
    marks: Vec<(Stretch<usize>, Class)>,
    range: Option<Range>,
    encoding: Encoding,
) -> Vec<SemanticToken> {
    let mut tokens = Vec::new();
    let mut last = Position::new(0, 0);
    for (at, class) in marks {
        let whole = lines.range(text, &at, encoding);
        if range.is_some_and(|range| whole.end.line < range.start.line || range.end.line < whole.start.line) {
            continue;
        }
        let (token_type, token_modifiers_bitset) = class.encoded();
        // A string or comment of several lines is told line by line: not every client can take it in one.
        for line in whole.start.line..=whole.end.line {
            let stretch = if whole.start.line == whole.end.line {
                whole
            } else {
                let Some(own) = lines.line(text, line as usize) else { continue };
                let within = own.start.max(at.start)..own.end.min(at.end);
                if within.start >= within.end {
                    continue;
                }
                lines.range(text, &within, encoding)
            };
            let (start, length) = (stretch.start, stretch.end.character - stretch.start.character);
            let delta_line = start.line - last.line;
            let delta_start = if delta_line == 0 { start.character - last.character } else { start.character };
            tokens.push(SemanticToken { delta_line, delta_start, length, token_type, token_modifiers_bitset });
            last = start;
        }
    }
    tokens
}
