//! What would settle an expression that cannot be told.

use super::evaluate::Evaluation;
use super::node::{Each, Expression, Ix, Node};
use crate::facts::Facts;
use design::{AnyOf, CaseId, Gap, Gaps, PartId, Tri};

/// The most clauses that alternatives are worked out to. Beyond, the shorter of two alternatives is kept alone: it still
/// settles the question, and nobody reads a list of hundreds. Chosen.
const MOST_CLAUSES: usize = 48;

impl Expression {
    /// What would settle [`Expression::test`]; empty when it is not unknown.
    ///
    /// An expression is wanted to hold: of `a && b` all must be settled, of `a || b` either; below a `!` the other way
    /// round. A division by zero and the like are a [`Gap::NoSolution`] of the last fact that they read.
    pub fn gaps<F: Facts>(&self, facts: &mut F, about: PartId, case: CaseId, values: &[f64]) -> Gaps {
        Evaluation::new(&self.program, facts, about, case, values).flag_gaps(self.root, true)
    }
}

/// Both of two lists of gaps.
fn both(mut one: Gaps, other: &Gaps) -> Gaps {
    one.add(other);
    one
}

/// Either of two lists of gaps: (a and b) or (c and d) = (a or c) and (a or d) and (b or c) and (b or d).
fn either(one: Gaps, other: Gaps) -> Gaps {
    if one.is_empty() {
        return other;
    }
    if other.is_empty() {
        return one;
    }
    if one.0.len() * other.0.len() > MOST_CLAUSES {
        return if other.0.len() < one.0.len() { other } else { one };
    }
    let mut clauses: Vec<AnyOf> = Vec::new();
    for left in &one.0 {
        for right in &other.0 {
            let mut alternatives = left.0.clone();
            alternatives.extend(right.0.iter().filter(|gap| !left.0.contains(gap)).cloned());
            clauses.push(AnyOf(alternatives));
        }
    }
    // A clause that follows from a shorter one says nothing more.
    let implied = |index: usize, clause: &AnyOf| {
        clauses.iter().enumerate().any(|(other_index, other)| {
            other_index != index
                && other.0.iter().all(|gap| clause.0.contains(gap))
                && (other.0.len() < clause.0.len() || other_index < index)
        })
    };
    Gaps(
        clauses
            .iter()
            .enumerate()
            .filter(|(index, clause)| !implied(*index, clause))
            .map(|(_, clause)| clause.clone())
            .collect(),
    )
}

impl<F: Facts> Evaluation<'_, F> {
    /// The gaps of an unknown flag that is wanted to be yes or no.
    fn flag_gaps(&mut self, ix: Ix, wanted: bool) -> Gaps {
        if self.flag(ix) != Tri::Unknown {
            return Gaps::default();
        }
        match self.program.node(ix) {
            Node::Not(of) => self.flag_gaps(of, !wanted),
            Node::And(left, right) | Node::Or(left, right) => {
                let all = matches!(self.program.node(ix), Node::And(..)) == wanted;
                let (left, right) = (self.flag_gaps(left, wanted), self.flag_gaps(right, wanted));
                if all { both(left, &right) } else { either(left, right) }
            }
            Node::FlagIf { test, yes, no } => {
                let tested = self.flag(test);
                let test = self.flag_gaps(test, true);
                let (yes, no) = (self.flag_gaps(yes, wanted), self.flag_gaps(no, wanted));
                match tested {
                    Tri::Yes => yes,
                    Tri::No => no,
                    // The test alone may do, unless neither answer is known.
                    Tri::Unknown if yes.is_empty() || no.is_empty() => test,
                    Tri::Unknown => both(test, &either(yes, no)),
                }
            }
            Node::Each { how, list, slot, body } => self.each_gaps(how, list, slot, body, wanted),
            Node::Compare { left, right, .. } => both(self.number_gaps(left), &self.number_gaps(right)),
            Node::FlagFact { of, fact } => self.fact_gaps(of, fact),
            Node::ChoiceIn { choice: of, .. }
            | Node::SetHas { set: of, .. }
            | Node::TextIn { text: of, .. }
            | Node::IsKind { part: of, .. } => self.read_gaps(of),
            Node::ChoiceSame(left, right) | Node::TextSame(left, right) | Node::PartSame(left, right) => {
                both(self.read_gaps(left), &self.read_gaps(right))
            }
            Node::PartIn { part, list } => {
                let part = self.read_gaps(part);
                both(part, &self.list_gaps(list))
            }
            _ => Gaps::default(),
        }
    }

    fn each_gaps(&mut self, how: Each, list: Ix, slot: u8, body: Ix, wanted: bool) -> Gaps {
        let mut each = Vec::new();
        if let Some(parts) = self.base(list) {
            for member in parts.members.iter() {
                let belongs = self.belongs(list, *member);
                self.set(slot, *member);
                let holds = self.flag(body);
                let open = match how {
                    Each::All => belongs.negate().or(holds),
                    Each::Exists | Each::One => belongs.and(holds),
                };
                if open != Tri::Unknown {
                    continue;
                }
                // A member of `all` is wanted to be out of the list or to hold, one of `exists` to be in it and to hold.
                let within = self.belongs_gaps(list, *member, matches!(how, Each::All) != wanted);
                self.set(slot, *member);
                let body = self.flag_gaps(body, wanted);
                each.push(if matches!(how, Each::All) == wanted { either(within, body) } else { both(within, &body) });
            }
        }
        let unread = self.base_gaps(list);
        let all = match how {
            Each::All => wanted,
            Each::Exists => !wanted,
            Each::One => true,
        };
        if all {
            each.iter().fold(unread, both)
        } else {
            each.into_iter().chain([unread]).fold(Gaps::default(), either)
        }
    }

    /// The gaps of whether a member passes the filters of a list.
    fn belongs_gaps(&mut self, list: Ix, member: PartId, wanted: bool) -> Gaps {
        let Node::Kept { list, slot, body } = self.program.node(list) else {
            return Gaps::default();
        };
        let before = self.belongs_gaps(list, member, wanted);
        self.set(slot, member);
        let body = self.flag_gaps(body, wanted);
        if wanted { both(before, &body) } else { either(before, body) }
    }

    /// The gaps of the list that a chain of filters starts from, when it may be incomplete.
    fn base_gaps(&mut self, list: Ix) -> Gaps {
        match self.program.node(list) {
            Node::Kept { list, .. } => self.base_gaps(list),
            Node::PartsFact { of, fact } => match self.base(list) {
                Some(parts) if parts.complete => Gaps::default(),
                _ => self.fact_gaps(of, fact),
            },
            _ => Gaps::default(),
        }
    }

    /// The gaps of who is in a list.
    fn list_gaps(&mut self, list: Ix) -> Gaps {
        let mut gaps = self.base_gaps(list);
        if let Some(parts) = self.base(list) {
            for member in parts.members.iter() {
                gaps.add(&self.belongs_gaps(list, *member, true));
            }
        }
        gaps
    }

    /// The gaps of a word, a text or a part.
    fn read_gaps(&mut self, ix: Ix) -> Gaps {
        match self.program.node(ix) {
            Node::ChoiceFact { of, fact } if self.choice(ix).is_none() => self.fact_gaps(of, fact),
            Node::ChoiceSetFact { of, fact } if self.choice_set(ix).is_none() => self.fact_gaps(of, fact),
            Node::TextFact { of, fact } if self.text(ix).is_none() => self.fact_gaps(of, fact),
            Node::PartFact { of, fact } if self.part(ix).is_none() => self.fact_gaps(of, fact),
            _ => Gaps::default(),
        }
    }

    /// The gaps of an unknown fact: of the part that has it, else its own.
    fn fact_gaps(&mut self, of: Ix, fact: Ix) -> Gaps {
        if self.part(of).is_none() {
            return self.read_gaps(of);
        }
        let Some((part, fact)) = self.asked(of, fact) else {
            return Gaps::default();
        };
        let gaps = self.facts.gaps(part, fact, self.case);
        if !gaps.is_empty() {
            return gaps;
        }
        let given = vocabulary::facts().get(usize::from(fact.0)).is_some_and(|spec| spec.given);
        Gaps::one(if given { Gap::Entry(part, fact) } else { Gap::NoSolution(part, fact) })
    }

    fn number_gaps(&mut self, ix: Ix) -> Gaps {
        if !self.number(ix).is_nan() {
            return Gaps::default();
        }
        let gaps = match self.program.node(ix) {
            Node::NumberFact { of, fact } => self.fact_gaps(of, fact),
            Node::Negative(of) | Node::Magnitude(of) | Node::Root(of) => self.number_gaps(of),
            Node::Combine { left, right, .. } => both(self.number_gaps(left), &self.number_gaps(right)),
            Node::NumberIf { test, yes, no } => match self.flag(test) {
                Tri::Yes => self.number_gaps(yes),
                Tri::No => self.number_gaps(no),
                Tri::Unknown => {
                    let test = self.flag_gaps(test, true);
                    let (yes, no) = (self.number_gaps(yes), self.number_gaps(no));
                    if yes.is_empty() || no.is_empty() { test } else { both(test, &either(yes, no)) }
                }
            },
            Node::Size(list) => self.list_gaps(list),
            Node::Total { list, slot, body, .. } => {
                let mut gaps = self.list_gaps(list);
                if let Some(parts) = self.base(list) {
                    for member in parts.members.iter() {
                        if self.belongs(list, *member) != Tri::No {
                            self.set(slot, *member);
                            gaps.add(&self.number_gaps(body));
                        }
                    }
                }
                gaps
            }
            _ => Gaps::default(),
        };
        if gaps.is_empty() { self.last_fact(ix) } else { gaps }
    }

    /// Everything is known and yet there is no number: what divides by zero, or is the least of nothing.
    fn last_fact(&mut self, ix: Ix) -> Gaps {
        let (of, fact) = match self.program.node(ix) {
            Node::NumberFact { of, fact } | Node::PartsFact { of, fact } => (of, fact),
            Node::Negative(of)
            | Node::Magnitude(of)
            | Node::Root(of)
            | Node::Size(of)
            | Node::Kept { list: of, .. } => return self.last_fact(of),
            Node::Total { list, .. } => return self.last_fact(list),
            Node::Combine { left, right, .. } | Node::NumberIf { yes: left, no: right, .. } => {
                let right = self.last_fact(right);
                return if right.is_empty() { self.last_fact(left) } else { right };
            }
            _ => return Gaps::default(),
        };
        match self.asked(of, fact) {
            Some((part, fact)) => Gaps::one(Gap::NoSolution(part, fact)),
            None => Gaps::default(),
        }
    }
}
