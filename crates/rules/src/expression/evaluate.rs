//! The evaluation: no allocation, no dynamic dispatch. Numbers are reals with NaN for unknown, flags are Kleene's.

use super::node::{Combine, Compare, Each, Expression, FactRef, Ix, MOST_VARIABLES, Node, Program, Total};
use crate::facts::Facts;
use design::{CaseId, PartId, Parts, Tri};
use std::sync::Arc;
use vocabulary::{FactId, FactKind};

/// Within this share of the larger side two numbers are equal: far above the rounding of a hundred operations on doubles
/// (2e-14), far below any tolerance of a workshop. Chosen.
const EQUAL_WITHIN: f64 = 1e-9;

impl Expression {
    /// Whether it holds for this part in this case. `values` are those of [`super::Scope::values`], in the same order.
    #[inline]
    pub fn test<F: Facts>(&self, facts: &mut F, about: PartId, case: CaseId, values: &[f64]) -> Tri {
        Evaluation::new(&self.program, facts, about, case, values).flag(self.root)
    }
}

/// One evaluation.
pub(super) struct Evaluation<'a, F> {
    pub program: &'a Program,
    pub facts: &'a mut F,
    pub about: PartId,
    pub case: CaseId,
    pub values: &'a [f64],
    pub variables: [PartId; MOST_VARIABLES],
}

/// A number that is no number counts as unknown.
#[inline(always)]
fn finite(value: f64) -> f64 {
    if value.is_finite() { value } else { f64::NAN }
}

/// Compares two numbers; unknown when one of them is.
#[inline(always)]
pub(super) fn compare(how: Compare, left: f64, right: f64) -> Tri {
    let difference = left - right;
    if !difference.is_finite() {
        return Tri::Unknown;
    }
    let slack = EQUAL_WITHIN * left.abs().max(right.abs());
    Tri::from_bool(match how {
        Compare::AtMost => difference <= slack,
        Compare::AtLeast => difference >= -slack,
        Compare::Below => difference < -slack,
        Compare::Above => difference > slack,
        Compare::Equal => difference.abs() <= slack,
        Compare::Differ => difference.abs() > slack,
    })
}

impl<'a, F: Facts> Evaluation<'a, F> {
    #[inline(always)]
    pub fn new(program: &'a Program, facts: &'a mut F, about: PartId, case: CaseId, values: &'a [f64]) -> Self {
        Self { program, facts, about, case, values, variables: [about; MOST_VARIABLES] }
    }

    #[inline(always)]
    pub fn set(&mut self, slot: u8, part: PartId) {
        if let Some(variable) = self.variables.get_mut(usize::from(slot)) {
            *variable = part;
        }
    }

    /// The part and the fact that a fact node asks; nothing when the part is unknown or has no such fact.
    #[inline(always)]
    pub fn asked(&mut self, of: Ix, fact: Ix) -> Option<(PartId, FactId)> {
        let part = match self.program.node(of) {
            Node::About => self.about,
            _ => self.part(of)?,
        };
        match self.program.facts.get(usize::from(fact))? {
            FactRef::One(fact) => Some((part, FactId(*fact))),
            FactRef::ByKind(facts) => {
                let kind = self.facts.kind(part).0;
                facts.iter().find(|(of, _)| *of == kind).map(|(_, fact)| (part, FactId(*fact)))
            }
        }
    }

    /// A part; nothing when unknown.
    pub fn part(&mut self, ix: Ix) -> Option<PartId> {
        match self.program.node(ix) {
            Node::About => Some(self.about),
            Node::Variable(slot) => self.variables.get(usize::from(slot)).copied(),
            Node::PartFact { of, fact } => {
                let (part, fact) = self.asked(of, fact)?;
                self.facts.part(part, fact, self.case)
            }
            _ => None,
        }
    }

    /// A number in SI units; NaN when unknown.
    #[inline]
    pub fn number(&mut self, ix: Ix) -> f64 {
        match self.program.node(ix) {
            Node::NumberFact { of, fact } => match self.asked(of, fact) {
                Some((part, fact)) => finite(self.facts.number(part, fact, self.case)),
                None => f64::NAN,
            },
            Node::Number(value) => value,
            Node::Value(value) => self.values.get(usize::from(value)).map_or(f64::NAN, |value| finite(*value)),
            _ => self.worked_number(ix),
        }
    }

    fn worked_number(&mut self, ix: Ix) -> f64 {
        match self.program.node(ix) {
            Node::Negative(of) => -self.number(of),
            Node::Magnitude(of) => self.number(of).abs(),
            Node::Root(of) => finite(self.number(of).sqrt()),
            Node::Combine { how, left, right } => {
                let (left, right) = (self.number(left), self.number(right));
                match how {
                    Combine::Sum => finite(left + right),
                    Combine::Difference => finite(left - right),
                    Combine::Product => finite(left * right),
                    Combine::Quotient => finite(left / right),
                    // The functions of the standard library pass over NaN; an unknown number must not vanish.
                    Combine::Least | Combine::Most if left.is_nan() || right.is_nan() => f64::NAN,
                    Combine::Least => left.min(right),
                    Combine::Most => left.max(right),
                }
            }
            Node::NumberIf { test, yes, no } => match self.flag(test) {
                Tri::Yes => self.number(yes),
                Tri::No => self.number(no),
                Tri::Unknown => {
                    let (yes, no) = (self.number(yes), self.number(no));
                    if yes == no { yes } else { f64::NAN }
                }
            },
            Node::Size(list) => self.size(list),
            Node::Total { how, list, slot, body } => self.total(how, list, slot, body),
            _ => f64::NAN,
        }
    }

    fn size(&mut self, list: Ix) -> f64 {
        let Some(parts) = self.base(list).filter(|parts| parts.complete) else {
            return f64::NAN;
        };
        let mut count = 0.0;
        for member in parts.members.iter() {
            match self.belongs(list, *member) {
                Tri::Yes => count += 1.0,
                Tri::No => {}
                Tri::Unknown => return f64::NAN,
            }
        }
        count
    }

    fn total(&mut self, how: Total, list: Ix, slot: u8, body: Ix) -> f64 {
        let Some(parts) = self.base(list).filter(|parts| parts.complete) else {
            return f64::NAN;
        };
        // The sum of nothing is zero; the least and the most of nothing are unknown.
        let mut total = if how == Total::Sum { 0.0 } else { f64::NAN };
        let mut first = true;
        for member in parts.members.iter() {
            match self.belongs(list, *member) {
                Tri::Yes => {}
                Tri::No => continue,
                Tri::Unknown => return f64::NAN,
            }
            self.set(slot, *member);
            let value = self.number(body);
            if value.is_nan() {
                return f64::NAN;
            }
            total = match how {
                Total::Sum => total + value,
                _ if first => value,
                Total::Least => total.min(value),
                Total::Most => total.max(value),
            };
            first = false;
        }
        finite(total)
    }

    /// The list that a chain of filters starts from; nothing when it is not known at all.
    pub fn base(&mut self, list: Ix) -> Option<Parts> {
        match self.program.node(list) {
            Node::PartsFact { of, fact } => {
                let (part, fact) = self.asked(of, fact)?;
                Some(self.facts.parts(part, fact, self.case))
            }
            Node::Kept { list, .. } => self.base(list),
            _ => None,
        }
    }

    /// Whether a member of the first list passes every filter.
    pub fn belongs(&mut self, list: Ix, member: PartId) -> Tri {
        match self.program.node(list) {
            Node::Kept { list, slot, body } => match self.belongs(list, member) {
                Tri::No => Tri::No,
                before => {
                    self.set(slot, member);
                    before.and(self.flag(body))
                }
            },
            _ => Tri::Yes,
        }
    }

    pub fn choice(&mut self, ix: Ix) -> Option<u16> {
        match self.program.node(ix) {
            Node::ChoiceFact { of, fact } => {
                let (part, fact) = self.asked(of, fact)?;
                self.facts.choice(part, fact, self.case)
            }
            _ => None,
        }
    }

    pub fn choice_set(&mut self, ix: Ix) -> Option<u64> {
        match self.program.node(ix) {
            Node::ChoiceSetFact { of, fact } => {
                let (part, fact) = self.asked(of, fact)?;
                self.facts.choice_set(part, fact, self.case)
            }
            _ => None,
        }
    }

    /// Calls `then` with a text; unknown when it is not known.
    fn with_text(&mut self, ix: Ix, then: impl FnOnce(&mut Self, &str) -> Tri) -> Tri {
        match self.program.node(ix) {
            Node::TextLiteral(text) => match self.program.texts.get(usize::from(text)) {
                Some(text) => then(self, text),
                None => Tri::Unknown,
            },
            _ => match self.text(ix) {
                Some(text) => then(self, &text),
                None => Tri::Unknown,
            },
        }
    }

    pub fn text(&mut self, ix: Ix) -> Option<Arc<str>> {
        match self.program.node(ix) {
            Node::TextFact { of, fact } => {
                let (part, fact) = self.asked(of, fact)?;
                self.facts.text(part, fact, self.case)
            }
            _ => None,
        }
    }

    /// A flag.
    #[inline]
    pub fn flag(&mut self, ix: Ix) -> Tri {
        match self.program.node(ix) {
            Node::Compare { how, left, right } => {
                let left = self.number(left);
                let right = self.number(right);
                compare(how, left, right)
            }
            Node::FlagFact { of, fact } => match self.asked(of, fact) {
                Some((part, fact)) => self.facts.flag(part, fact, self.case),
                None => Tri::Unknown,
            },
            _ => self.worked_flag(ix),
        }
    }

    fn worked_flag(&mut self, ix: Ix) -> Tri {
        match self.program.node(ix) {
            Node::Flag(flag) => Tri::from_bool(flag),
            Node::Not(of) => self.flag(of).negate(),
            Node::And(left, right) => match self.flag(left) {
                Tri::No => Tri::No,
                left => left.and(self.flag(right)),
            },
            Node::Or(left, right) => match self.flag(left) {
                Tri::Yes => Tri::Yes,
                left => left.or(self.flag(right)),
            },
            Node::FlagIf { test, yes, no } => match self.flag(test) {
                Tri::Yes => self.flag(yes),
                Tri::No => self.flag(no),
                Tri::Unknown => agreed(self.flag(yes), || self.flag(no)),
            },
            Node::Each { how, list, slot, body } => self.each(how, list, slot, body),
            Node::ChoiceIn { choice, words } => match self.choice(choice) {
                Some(word) => Tri::from_bool(words.checked_shr(u32::from(word)).unwrap_or(0) & 1 == 1),
                None => Tri::Unknown,
            },
            Node::ChoiceSame(left, right) => match (self.choice(left), self.choice(right)) {
                (Some(left), Some(right)) => Tri::from_bool(left == right),
                _ => Tri::Unknown,
            },
            Node::SetHas { set, word } => match self.choice_set(set) {
                Some(words) => Tri::from_bool(words.checked_shr(u32::from(word)).unwrap_or(0) & 1 == 1),
                None => Tri::Unknown,
            },
            Node::TextSame(left, right) => {
                self.with_text(left, |this, left| this.with_text(right, |_, right| Tri::from_bool(left == right)))
            }
            Node::TextIn { text, first, count } => {
                let program = self.program;
                self.with_text(text, |_, text| {
                    let end = usize::from(first) + usize::from(count);
                    let texts = program.texts.get(usize::from(first)..end).unwrap_or(&[]);
                    Tri::from_bool(texts.iter().any(|candidate| candidate == text))
                })
            }
            Node::PartSame(left, right) => match (self.part(left), self.part(right)) {
                (Some(left), Some(right)) => Tri::from_bool(left == right),
                _ => Tri::Unknown,
            },
            Node::PartIn { part, list } => self.part_in(part, list),
            Node::IsKind { part, kind } => match self.part(part) {
                Some(part) => Tri::from_bool(self.facts.kind(part).0 == kind),
                None => Tri::Unknown,
            },
            Node::Has { of, fact } => Tri::from_bool(self.has(of, fact)),
            _ => Tri::Unknown,
        }
    }

    fn part_in(&mut self, part: Ix, list: Ix) -> Tri {
        let Some(parts) = self.base(list) else {
            return Tri::Unknown;
        };
        let Some(part) = self.part(part) else {
            // Whatever it is, it is not among none.
            return if parts.complete && parts.members.is_empty() { Tri::No } else { Tri::Unknown };
        };
        if parts.members.contains(&part) {
            return self.belongs(list, part);
        }
        if parts.complete { Tri::No } else { Tri::Unknown }
    }

    /// Whether a fact is known.
    fn has(&mut self, of: Ix, fact: Ix) -> bool {
        let Some((part, fact)) = self.asked(of, fact) else {
            return false;
        };
        let case = self.case;
        match vocabulary::facts().get(usize::from(fact.0)).map(|spec| spec.kind) {
            Some(FactKind::Quantity(_) | FactKind::Count | FactKind::WireSize) => {
                self.facts.number(part, fact, case).is_finite()
            }
            Some(FactKind::Flag) => self.facts.flag(part, fact, case) != Tri::Unknown,
            Some(FactKind::Choice(_)) => self.facts.choice(part, fact, case).is_some(),
            Some(FactKind::ChoiceSet(_)) => self.facts.choice_set(part, fact, case).is_some(),
            Some(FactKind::Text) => self.facts.text(part, fact, case).is_some(),
            Some(FactKind::Part(_)) => self.facts.part(part, fact, case).is_some(),
            Some(FactKind::Parts(_)) => self.facts.parts(part, fact, case).complete,
            // No reading of these is asked of the facts; whether something would settle them is.
            Some(FactKind::Cores | FactKind::Point | FactKind::Box | FactKind::Opening | FactKind::Date) => {
                self.facts.gaps(part, fact, case).is_empty()
            }
            None => false,
        }
    }

    fn each(&mut self, how: Each, list: Ix, slot: u8, body: Ix) -> Tri {
        let Some(parts) = self.base(list) else {
            return Tri::Unknown;
        };
        let mut outcome = Tally::new(how, parts.complete);
        for member in parts.members.iter() {
            let belongs = self.belongs(list, *member);
            if belongs == Tri::No {
                continue;
            }
            self.set(slot, *member);
            let holds = self.flag(body);
            if outcome.settled_by(belongs, holds) {
                break;
            }
        }
        outcome.outcome()
    }
}

/// The outcome of a conditional whose test is unknown.
pub(super) fn agreed(yes: Tri, no: impl FnOnce() -> Tri) -> Tri {
    if yes != Tri::Unknown && yes == no() { yes } else { Tri::Unknown }
}

/// Counts the elements of a list for which a condition holds.
pub(super) struct Tally {
    how: Each,
    complete: bool,
    certain: usize,
    open: usize,
}

impl Tally {
    pub fn new(how: Each, complete: bool) -> Self {
        Self { how, complete, certain: 0, open: 0 }
    }

    /// Counts one element; whether no further element can change the outcome.
    pub fn settled_by(&mut self, belongs: Tri, holds: Tri) -> bool {
        // What is counted: counterexamples of `all`, examples of the others.
        let counts = match self.how {
            Each::All => belongs.and(holds.negate()),
            Each::Exists | Each::One => belongs.and(holds),
        };
        match counts {
            Tri::Yes => self.certain += 1,
            Tri::Unknown => self.open += 1,
            Tri::No => {}
        }
        self.certain > usize::from(self.how == Each::One)
    }

    pub fn outcome(&self) -> Tri {
        let closed = self.complete && self.open == 0;
        match (self.how, self.certain) {
            (Each::All, 1..) => Tri::No,
            (Each::All, 0) if closed => Tri::Yes,
            (Each::Exists, 1..) => Tri::Yes,
            (Each::Exists, 0) if closed => Tri::No,
            (Each::One, 2..) => Tri::No,
            (Each::One, certain) if closed => Tri::from_bool(certain == 1),
            _ => Tri::Unknown,
        }
    }
}
