//! Sentences with facts in them: `The {rating} fuse in {run.title} protects {protected_ampacity} of wire.`

use super::check::Checker;
use super::evaluate::Evaluation;
use super::names::fact_of;
use super::node::{Ix, Node, Program};
use super::syntax::{Syntax, SyntaxKind};
use super::value_type::ValueType;
use super::{Fault, Scope};
use crate::facts::Facts;
use design::{CaseId, PartId, Tri};
use quantity::Dimension;
use serde::{Deserialize, Serialize};
use std::ops::Range;
use std::sync::Arc;
use vocabulary::{Axes, FactId, FactKind};

/// A sentence with facts in it, compiled.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Template {
    pieces: Vec<Piece>,
    program: Program,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
enum Piece {
    Text(String),
    Number { node: Ix, powers: [i8; 8] },
    Count(Ix),
    Value { node: Ix, what: What },
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
enum What {
    WireSize,
    Choice,
    ChoiceSet,
    Flag,
    Text,
    Part,
    Parts,
}

/// A value in a sentence; the caller turns it into words.
#[derive(Clone, Debug, PartialEq)]
pub enum Shown {
    /// A plain count.
    Count(f64),
    /// A number in coherent SI units.
    Number {
        /// The value.
        value: f64,
        /// What it measures.
        dimension: Dimension,
    },
    /// A conductor's size.
    WireSize {
        /// Its copper area in m².
        area: f64,
        /// The part and the fact, for who wants the size as the builder wrote it.
        of: (PartId, FactId),
    },
    /// A word of a choice, as the builder writes it.
    Choice(&'static str),
    /// Words of a set.
    Choices(Vec<&'static str>),
    /// A known flag.
    Flag(bool),
    /// A text.
    Text(Arc<str>),
    /// A part.
    Part(PartId),
    /// A list of parts, as far as they are known.
    Parts(Vec<PartId>),
    /// What is not known: write [`UNKNOWN`].
    Unknown,
}

/// The word for what is not known.
pub const UNKNOWN: &str = "unknown";

/// Compiles a sentence. Between `{` and `}` stands the path of a fact, or a named value; `{{` and `}}` are braces.
pub fn compile_template(text: &str, scope: &Scope) -> Result<Template, Vec<Fault>> {
    let mut checker = Checker::new(text, scope);
    checker.showing = true;
    let mut pieces = Vec::new();
    let mut plain = String::new();
    let mut start = 0;
    while let Some(rest) = text.get(start..)
        && let Some(brace) = rest.find(['{', '}'])
    {
        let at = start + brace;
        plain.push_str(rest.get(..brace).unwrap_or(""));
        let sign = if rest.get(brace..).is_some_and(|more| more.starts_with('{')) { '{' } else { '}' };
        if rest.get(brace + 1..).is_some_and(|more| more.starts_with(sign)) {
            plain.push(sign);
            start = at + 2;
            continue;
        }
        let end = rest.get(brace..).and_then(|more| more.find('}'));
        match end {
            Some(length) if sign == '{' => {
                if !plain.is_empty() {
                    pieces.push(Piece::Text(std::mem::take(&mut plain)));
                }
                pieces.extend(checker.piece(at + 1..at + length));
                start = at + length + 1;
            }
            _ => {
                let what = if sign == '{' { "this brace is never closed" } else { "this brace closes nothing" };
                checker.fault(&(at..at + 1), what, format!("write {sign}{sign} for a brace in the text"));
                start = at + 1;
            }
        }
    }
    plain.push_str(text.get(start..).unwrap_or(""));
    if !plain.is_empty() {
        pieces.push(Piece::Text(plain));
    }
    let mut work = checker.work;
    if work.faults.is_empty() {
        Ok(Template { pieces, program: work.program })
    } else {
        work.faults.sort_by_key(|fault| (fault.at.start, fault.at.end));
        Err(work.faults)
    }
}

impl Checker<'_> {
    fn piece(&mut self, at: Range<usize>) -> Option<Piece> {
        let syntax = self.path(at)?;
        let typed = self.expression(&syntax)?;
        let what = match typed.kind {
            ValueType::Number { dimension, .. } => {
                let fact = self.fact_kind(typed.node);
                if fact == Some(FactKind::Count) {
                    return Some(Piece::Count(typed.node));
                }
                if fact != Some(FactKind::WireSize) {
                    return Some(Piece::Number { node: typed.node, powers: powers(dimension) });
                }
                What::WireSize
            }
            ValueType::Choice(_) => What::Choice,
            ValueType::ChoiceSet(_) => What::ChoiceSet,
            ValueType::Flag => What::Flag,
            ValueType::Text => What::Text,
            ValueType::Part(_) => What::Part,
            ValueType::Parts(_) => What::Parts,
        };
        Some(Piece::Value { node: typed.node, what })
    }

    fn fact_kind(&self, node: Ix) -> Option<FactKind> {
        let Node::NumberFact { fact, .. } = self.work.program.node(node) else {
            return None;
        };
        let fact = *self.work.program.facts.get(usize::from(fact))?.facts().first()?;
        Some(vocabulary::facts().get(usize::from(fact))?.kind)
    }

    /// Reads `name.name.name` at this place.
    fn path(&mut self, at: Range<usize>) -> Option<Syntax> {
        let written = self.written_at(&at);
        let name_like = |word: &str| {
            word.starts_with(|c: char| c.is_ascii_alphabetic() || c == '_')
                && word.chars().all(|c| c.is_ascii_alphanumeric() || c == '_')
        };
        let mut path: Option<Syntax> = None;
        let mut start = at.start;
        for word in written.split('.') {
            let here = start..start + word.len();
            start = here.end + 1;
            if !name_like(word) {
                let help = match word.trim() {
                    "" => "write the path of a fact, such as {rating} or {run.title}".to_owned(),
                    trimmed if name_like(&trimmed.replace('-', "_")) => {
                        format!("write {}", trimmed.replace('-', "_"))
                    }
                    _ => "only paths of facts and named values can be shown".to_owned(),
                };
                self.fault(&here, format!("`{word}` is no name"), help);
                return None;
            }
            path = Some(match path {
                None => Syntax { at: here, kind: SyntaxKind::Name(word.to_owned()) },
                Some(of) => Syntax {
                    at: at.start..here.end,
                    kind: SyntaxKind::Field { of: Box::new(of), field: word.to_owned(), field_at: here },
                },
            });
        }
        if let Some(Syntax { at, kind: SyntaxKind::Name(name) }) = &path {
            let about = self.scope.about;
            let is_unit = fact_of(about, name).is_none()
                && self.scope.value(name).is_none()
                && quantity::unit_by_identifier(name).is_some();
            if is_unit {
                self.fault(
                    at,
                    format!("`{name}` is a unit, which has no value to show"),
                    "only facts and named values can be shown",
                );
                return None;
            }
        }
        path
    }
}

impl Template {
    /// Whether it shows nothing and says nothing.
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }

    /// What its facts may vary by.
    pub fn axes(&self) -> Axes {
        self.program.axes()
    }

    /// The sentence for this part in this case.
    pub fn render<F: Facts>(
        &self,
        facts: &mut F,
        about: PartId,
        case: CaseId,
        values: &[f64],
        show: &dyn Fn(Shown) -> String,
    ) -> String {
        let mut evaluation = Evaluation::new(&self.program, facts, about, case, values);
        let mut sentence = String::new();
        for piece in &self.pieces {
            match piece {
                Piece::Text(text) => sentence.push_str(text),
                Piece::Number { node, powers } => {
                    let value = evaluation.number(*node);
                    let dimension = dimension(*powers);
                    sentence.push_str(&show(if value.is_nan() {
                        Shown::Unknown
                    } else {
                        Shown::Number { value, dimension }
                    }));
                }
                Piece::Count(node) => {
                    let value = evaluation.number(*node);
                    sentence.push_str(&show(if value.is_nan() { Shown::Unknown } else { Shown::Count(value) }));
                }
                Piece::Value { node, what } => {
                    let shown = evaluation.shown(*node, *what);
                    sentence.push_str(&show(shown.unwrap_or(Shown::Unknown)));
                }
            }
        }
        sentence
    }
}

impl<F: Facts> Evaluation<'_, F> {
    fn shown(&mut self, node: Ix, what: What) -> Option<Shown> {
        Some(match what {
            What::WireSize => {
                let of = self.fact_at(node)?;
                let area = self.number(node);
                if area.is_nan() {
                    return None;
                }
                Shown::WireSize { area, of }
            }
            What::Choice => {
                let index = self.choice(node)?;
                Shown::Choice(self.words(node)?.get(usize::from(index))?)
            }
            What::ChoiceSet => {
                let set = self.choice_set(node)?;
                let words = self.words(node)?.iter().enumerate();
                Shown::Choices(
                    words.filter(|(index, _)| *index < 64 && set >> index & 1 == 1).map(|(_, word)| *word).collect(),
                )
            }
            What::Flag => match self.flag(node) {
                Tri::Yes => Shown::Flag(true),
                Tri::No => Shown::Flag(false),
                Tri::Unknown => return None,
            },
            What::Text => Shown::Text(self.text(node)?),
            What::Part => Shown::Part(self.part(node)?),
            What::Parts => {
                let parts = self.base(node)?;
                if parts.members.is_empty() && !parts.complete {
                    return None;
                }
                Shown::Parts(parts.members.to_vec())
            }
        })
    }

    fn fact_at(&mut self, node: Ix) -> Option<(PartId, FactId)> {
        match self.program.node(node) {
            Node::NumberFact { of, fact } | Node::ChoiceFact { of, fact } | Node::ChoiceSetFact { of, fact } => {
                self.asked(of, fact)
            }
            _ => None,
        }
    }

    fn words(&mut self, node: Ix) -> Option<&'static [&'static str]> {
        let (_, fact) = self.fact_at(node)?;
        Some(vocabulary::facts().get(usize::from(fact.0))?.choices())
    }
}

/// A dimension as plain numbers, for writing into packs.
pub(super) fn powers(of: Dimension) -> [i8; 8] {
    [of.length, of.mass, of.time, of.current, of.temperature, of.angle, of.money, i8::from(of.absolute)]
}

/// The dimension that [`powers`] wrote.
pub(super) fn dimension([length, mass, time, current, temperature, angle, money, absolute]: [i8; 8]) -> Dimension {
    Dimension { length, mass, time, current, temperature, angle, money, absolute: absolute != 0 }
}
