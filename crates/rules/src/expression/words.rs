//! The type check of equality and membership: words of choices, texts, parts and counts.

use super::check::{Checker, Typed};
use super::names::fact_of;
use super::node::{Compare, Node};
use super::syntax::{Syntax, SyntaxKind};
use super::value_type::{ValueType, either, written};
use std::ops::Range;
use vocabulary::nearest;

/// Words of a choice that a bit set can hold.
const MOST_WORDS: usize = 64;

impl Checker<'_> {
    /// `left == right` or `left != right`. A bare word is read by the other side.
    pub fn equality(
        &mut self,
        differ: bool,
        sign_at: &Range<usize>,
        left: &Syntax,
        right: &Syntax,
        at: &Range<usize>,
    ) -> Option<Typed> {
        for (choice, word) in [(left, right), (right, left)] {
            if word.word().is_none() {
                continue;
            }
            let before = self.work.clone();
            match self.attempt(choice) {
                Some(Typed { node, kind: ValueType::Choice(words) }) if self.reads_as_word(word, words) => {
                    let index = self.word_of(words, word)?;
                    let mask = 1u64.checked_shl(index).unwrap_or(0);
                    let listed = all_words(words);
                    let words = if differ { listed & !mask } else { mask };
                    return Some(self.push_leaf(Node::ChoiceIn { choice: node, words }, at));
                }
                Some(Typed { kind: ValueType::ChoiceSet(words), .. }) if self.reads_as_word(word, words) => {
                    let written = self.written_at(&word.at);
                    let set = self.written_at(&choice.at);
                    self.fault(sign_at, format!("`{set}` is a set of words"), format!("write {written} in {set}"));
                    return None;
                }
                _ => self.work = before,
            }
        }
        let faults = self.work.faults.len();
        let left_typed = self.expression(left);
        let nameless = matches!(&right.kind, SyntaxKind::Name(name) if fact_of(self.scope.about, name).is_none());
        if self.work.faults.len() > faults && nameless && self.attempt(right).is_none() {
            // It may be a word of the choice that the left side was meant to be.
            return None;
        }
        let right_typed = self.expression(right);
        self.equal_values(differ, sign_at, (left, left_typed?), (right, right_typed?), at)
    }

    /// Whether the other side of a choice is meant as a word: it is one, or it is nothing else.
    fn reads_as_word(&mut self, syntax: &Syntax, words: &[&str]) -> bool {
        let is_word = syntax.word().is_some_and(|word| words.iter().any(|candidate| is_same(candidate, word)));
        if is_word || matches!(syntax.kind, SyntaxKind::Text(_)) {
            return true;
        }
        let before = self.work.clone();
        let otherwise = self.attempt(syntax).is_some();
        self.work = before;
        !otherwise
    }

    /// The index of a word in a choice's list.
    fn word_of(&mut self, words: &'static [&'static str], syntax: &Syntax) -> Option<u32> {
        let word = syntax.word()?;
        if let Some(index) = words.iter().position(|candidate| is_same(candidate, word)) {
            let name = words.get(index)?;
            self.work.words.push((*name).to_owned());
            return u32::try_from(index).ok();
        }
        let written: Vec<String> = words.iter().map(|word| written(word)).collect();
        let written: Vec<&str> = written.iter().map(String::as_str).collect();
        let list = either(&written);
        let help = match nearest(word, written.iter().copied()) {
            Some(near) => format!("did you mean `{near}`? The words are {list}"),
            None => format!("the words are {list}"),
        };
        self.fault(&syntax.at, format!("`{word}` is no word of this choice"), help);
        None
    }

    fn equal_values(
        &mut self,
        differ: bool,
        sign_at: &Range<usize>,
        (left, one): (&Syntax, Typed),
        (right, other): (&Syntax, Typed),
        at: &Range<usize>,
    ) -> Option<Typed> {
        let sign = if differ { "!=" } else { "==" };
        match (&one.kind, &other.kind) {
            (
                ValueType::Number { dimension: left_dimension, count: left_count },
                ValueType::Number { dimension: right_dimension, count: right_count },
            ) => {
                self.comparable(sign_at, (left, *left_dimension), (right, *right_dimension))?;
                if !(*left_count && *right_count) {
                    let what = super::arithmetic::dimension_words(*left_dimension);
                    let message = format!("`{sign}` cannot compare {what}: measured values are never exactly equal");
                    self.fault(sign_at, message, "use <= or >=");
                    return None;
                }
                let how = if differ { Compare::Differ } else { Compare::Equal };
                let typed = self.push_leaf(Node::Compare { how, left: one.node, right: other.node }, at);
                self.work.dimensions.insert(typed.node, *left_dimension);
                self.sign(typed.node, sign_at);
                Some(typed)
            }
            (ValueType::Part(_), ValueType::Part(_)) => {
                Some(self.push_leaf_unless(differ, Node::PartSame(one.node, other.node), at))
            }
            (ValueType::Text, ValueType::Text) => {
                Some(self.push_leaf_unless(differ, Node::TextSame(one.node, other.node), at))
            }
            (ValueType::Choice(words), ValueType::Choice(others)) if words == others => {
                Some(self.push_leaf_unless(differ, Node::ChoiceSame(one.node, other.node), at))
            }
            (ValueType::Choice(_), ValueType::Choice(_)) => {
                self.fault(sign_at, "these two choices have different words", "compare each with a word");
                None
            }
            (ValueType::Flag, ValueType::Flag) => {
                let (left, right) = (self.written_at(&left.at), self.written_at(&right.at));
                let help = match (left, right) {
                    (flag, "true") | ("true", flag) => {
                        format!("write {}", if differ { format!("!{flag}") } else { flag.to_owned() })
                    }
                    (flag, "false") | ("false", flag) => {
                        format!("write {}", if differ { flag.to_owned() } else { format!("!{flag}") })
                    }
                    _ if differ => format!("write {left} ? !{right} : {right}"),
                    _ => format!("write {left} ? {right} : !{right}"),
                };
                self.fault(sign_at, format!("`{sign}` does not compare flags"), help);
                None
            }
            (one, other) => {
                let message = format!("{} cannot be compared with {}", one.words(), other.words());
                let help = match (one, other) {
                    (ValueType::ChoiceSet(_), _) | (_, ValueType::ChoiceSet(_)) => "ask word in set",
                    (ValueType::Parts(_), _) | (_, ValueType::Parts(_)) => "ask part in list",
                    _ => "",
                };
                self.fault(sign_at, message, help);
                None
            }
        }
    }

    /// `left in right`.
    pub fn membership(
        &mut self,
        sign_at: &Range<usize>,
        left: &Syntax,
        right: &Syntax,
        at: &Range<usize>,
    ) -> Option<Typed> {
        if let SyntaxKind::List(elements) = &right.kind {
            return self.among(left, elements, right, at);
        }
        let list = self.expression(right)?;
        match list.kind {
            ValueType::ChoiceSet(words) => {
                if left.word().is_none() {
                    let set = self.written_at(&right.at);
                    self.fault(
                        &left.at,
                        format!("only a word can be in `{set}`"),
                        format!("the words are {}", either(words)),
                    );
                    return None;
                }
                let word = u8::try_from(self.word_of(words, left)?).ok()?;
                Some(self.push_leaf(Node::SetHas { set: list.node, word }, at))
            }
            ValueType::Parts(_) => {
                let part = self.part_only(left)?;
                Some(self.push_leaf(Node::PartIn { part: part.node, list: list.node }, at))
            }
            other => {
                let message = format!(
                    "`in` asks about a list or a set, but `{}` is {}",
                    self.written_at(&right.at),
                    other.words()
                );
                self.fault(&right.at, message, "write word in [one, other]");
                let _ = sign_at;
                None
            }
        }
    }

    fn part_only(&mut self, syntax: &Syntax) -> Option<Typed> {
        let typed = self.expression(syntax)?;
        if matches!(typed.kind, ValueType::Part(_)) {
            return Some(typed);
        }
        let message = format!(
            "only a part can be in a list of parts, but `{}` is {}",
            self.written_at(&syntax.at),
            typed.kind.words()
        );
        self.fault(&syntax.at, message, "");
        None
    }

    /// `left in [one, other]`.
    fn among(&mut self, left: &Syntax, elements: &[Syntax], list: &Syntax, at: &Range<usize>) -> Option<Typed> {
        let typed = self.expression(left)?;
        if elements.is_empty() {
            self.fault(&list.at, "nothing is in an empty list", "name at least one word");
            return None;
        }
        match typed.kind {
            ValueType::Choice(words) => {
                let mut mask = 0u64;
                let mut right = true;
                for element in elements {
                    if element.word().is_none() {
                        self.fault(
                            &element.at,
                            "a choice is compared with words",
                            format!("the words are {}", either(words)),
                        );
                        right = false;
                        continue;
                    }
                    match self.word_of(words, element) {
                        Some(index) => mask |= 1u64.checked_shl(index).unwrap_or(0),
                        None => right = false,
                    }
                }
                right.then(|| self.push_leaf(Node::ChoiceIn { choice: typed.node, words: mask }, at))
            }
            ValueType::Text => {
                let first = self.work.program.texts.len();
                for element in elements {
                    match &element.kind {
                        SyntaxKind::Text(text) => {
                            self.text_ix(text);
                        }
                        _ => {
                            self.fault(&element.at, "a text is compared with texts in quotes", "");
                            return None;
                        }
                    }
                }
                let (first, count) = (u16::try_from(first).ok()?, u16::try_from(elements.len()).ok()?);
                Some(self.push_leaf(Node::TextIn { text: typed.node, first, count }, at))
            }
            other => {
                let message = format!(
                    "only a word or a text can be in a list, but `{}` is {}",
                    self.written_at(&left.at),
                    other.words()
                );
                let help = if matches!(other, ValueType::Number { .. }) {
                    "compare numbers with <= and >="
                } else {
                    "join comparisons with ||"
                };
                self.fault(&left.at, message, help);
                None
            }
        }
    }
}

fn is_same(candidate: &str, word: &str) -> bool {
    candidate == word || written(candidate) == word
}

/// The bit set of every word of a choice.
fn all_words(words: &[&str]) -> u64 {
    if words.len() >= MOST_WORDS { u64::MAX } else { (1u64 << words.len()) - 1 }
}
