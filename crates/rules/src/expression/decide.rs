//! What decides that an expression fails: the comparisons with their margins, and the members of lists.

use super::evaluate::Evaluation;
use super::node::{Compare, Each, Expression, Ix, Node, Program};
use crate::facts::Facts;
use design::{CaseId, PartId, Tri};
use quantity::Dimension;

/// By how much a comparison misses.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Margin {
    /// How far beyond the limit, as a share of the limit: 0.25 is a quarter over it. The limit is the right side, or the
    /// left side when only that is constant. Of a limit of zero it is the share of the other side: 1.
    pub share: f64,
    /// The left side, in coherent SI units.
    pub left: f64,
    /// The right side, in coherent SI units.
    pub right: f64,
    /// What both measure.
    pub dimension: Dimension,
    /// The comparison's number in [`Expression::conditions`].
    pub condition: usize,
}

impl Expression {
    /// The margin of the comparison that decides a No, the largest when several do; nothing when the outcome is another or
    /// no comparison decides it.
    pub fn margin<F: Facts>(&self, facts: &mut F, about: PartId, case: CaseId, values: &[f64]) -> Option<Margin> {
        let deciding = self.deciding(facts, about, case, values);
        deciding.margins.into_iter().max_by(|one, other| one.share.total_cmp(&other.share))
    }

    /// The members of lists that decide a No: those for which the body of an `all` fails, or that of an `exists` under a
    /// `!` holds; of lists inside lists all of them, the outer one first.
    pub fn witnesses<F: Facts>(&self, facts: &mut F, about: PartId, case: CaseId, values: &[f64]) -> Vec<PartId> {
        self.deciding(facts, about, case, values).members
    }

    fn deciding<F: Facts>(&self, facts: &mut F, about: PartId, case: CaseId, values: &[f64]) -> Deciding<'_> {
        let mut deciding = Deciding { expression: self, margins: Vec::new(), members: Vec::new() };
        let mut evaluation = Evaluation::new(&self.program, facts, about, case, values);
        if evaluation.flag(self.root) == Tri::No {
            deciding.walk(&mut evaluation, self.root);
        }
        deciding
    }
}

struct Deciding<'e> {
    expression: &'e Expression,
    margins: Vec<Margin>,
    members: Vec<PartId>,
}

impl Deciding<'_> {
    /// Walks down to what makes this flag what it is. Only what is certain decides.
    fn walk<F: Facts>(&mut self, evaluation: &mut Evaluation<'_, F>, ix: Ix) {
        let value = evaluation.flag(ix);
        if value == Tri::Unknown {
            return;
        }
        if let Some(condition) = self.expression.conditions.iter().position(|condition| condition.node == ix) {
            self.leaf(evaluation, ix, value, condition);
            return;
        }
        match evaluation.program.node(ix) {
            Node::Not(of) => self.walk(evaluation, of),
            // Each side with the value of the whole decides it; where the whole needs both, both have it.
            Node::And(left, right) | Node::Or(left, right) => {
                for side in [left, right] {
                    if evaluation.flag(side) == value {
                        self.walk(evaluation, side);
                    }
                }
            }
            Node::FlagIf { test, yes, no } => {
                let tested = evaluation.flag(test);
                if tested != Tri::No {
                    self.walk(evaluation, yes);
                }
                if tested != Tri::Yes {
                    self.walk(evaluation, no);
                }
            }
            Node::Each { how, list, slot, body } => {
                let Some(parts) = evaluation.base(list) else {
                    return;
                };
                for member in parts.members.iter() {
                    if evaluation.belongs(list, *member) != Tri::Yes {
                        continue;
                    }
                    evaluation.set(slot, *member);
                    let holds = evaluation.flag(body);
                    let points_at = match how {
                        Each::All => value == Tri::No && holds == Tri::No,
                        Each::Exists => value == Tri::Yes && holds == Tri::Yes,
                        // Too many: those that hold.
                        Each::One => value == Tri::No && holds == Tri::Yes,
                    };
                    if points_at && !self.members.contains(member) {
                        self.members.push(*member);
                    }
                    if how != Each::One && holds == value {
                        self.walk(evaluation, body);
                    }
                }
            }
            _ => {}
        }
    }

    fn leaf<F: Facts>(&mut self, evaluation: &mut Evaluation<'_, F>, ix: Ix, value: Tri, condition: usize) {
        let (how, left, right, value) = match evaluation.program.node(ix) {
            Node::Compare { how, left, right } => (how, left, right, value),
            Node::Not(of) => match evaluation.program.node(of) {
                Node::Compare { how, left, right } => (how, left, right, value.negate()),
                _ => return,
            },
            _ => return,
        };
        let Some(dimension) = self.expression.conditions.get(condition).and_then(|condition| condition.dimension())
        else {
            return;
        };
        let program = evaluation.program;
        let left_is_limit = is_constant(program, left) && !is_constant(program, right);
        let (left, right) = (evaluation.number(left), evaluation.number(right));
        // A comparison that holds decides a No below a `!`: its opposite was asked.
        let asked = if value == Tri::Yes { how.opposite() } else { how };
        let beyond = match asked {
            Compare::AtMost | Compare::Below => left - right,
            Compare::AtLeast | Compare::Above => right - left,
            Compare::Equal | Compare::Differ => (left - right).abs(),
        };
        let limit = if left_is_limit { left.abs() } else { right.abs() };
        let whole = if limit > 0.0 { limit } else { left.abs().max(right.abs()) };
        let share = if whole > 0.0 { (beyond / whole).max(0.0) } else { 0.0 };
        self.margins.push(Margin { share, left, right, dimension, condition });
    }
}

/// Whether a number is made of literals and named values only.
fn is_constant(program: &Program, ix: Ix) -> bool {
    match program.node(ix) {
        Node::Number(_) | Node::Value(_) => true,
        Node::Negative(of) | Node::Magnitude(of) | Node::Root(of) => is_constant(program, of),
        Node::Combine { left, right, .. } => is_constant(program, left) && is_constant(program, right),
        _ => false,
    }
}
