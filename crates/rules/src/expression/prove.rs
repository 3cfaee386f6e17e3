//! What proves a rule by its examples: a trace of every leaf, and mutants that an example must tell from the rule.

use super::evaluate::{Evaluation, Tally, agreed};
use super::node::{Compare, Expression, Ix, Node};
use crate::facts::Facts;
use design::{CaseId, PartId, Tri};
use std::ops::Range;

/// One evaluation of every leaf, those behind a decided `&&` or `||` included.
#[derive(Clone, PartialEq, Debug)]
pub struct Trace {
    /// The outcome, equal to that of [`Expression::test`].
    pub outcome: Tri,
    /// The leaves in the order of the text; the body of a quantifier once for every member.
    pub leaves: Vec<LeafTrace>,
}

/// One leaf in one evaluation.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct LeafTrace {
    /// The leaf's number in [`Expression::conditions`].
    pub condition: usize,
    /// Its value.
    pub value: Tri,
    /// Whether the opposite value of this leaf alone would turn the whole outcome round.
    pub unmasked: bool,
}

/// An expression with one slip in it.
#[derive(Clone, Debug)]
pub struct Mutant {
    /// The slip in words.
    pub what: String,
    /// Where it is, in bytes of the expression's text.
    pub at: Range<usize>,
    /// The expression with the slip.
    pub expression: Expression,
}

impl Expression {
    /// Traces one evaluation for masking MC/DC. Slow: it evaluates the expression once more for each leaf.
    pub fn trace<F: Facts>(&self, facts: &mut F, about: PartId, case: CaseId, values: &[f64]) -> Trace {
        let mut leaf_of = vec![None; self.program.nodes.len()];
        for (condition, leaf) in self.conditions.iter().enumerate() {
            if let Some(entry) = leaf_of.get_mut(usize::from(leaf.node)) {
                *entry = Some(condition);
            }
        }
        let mut tracing = Tracing {
            evaluation: Evaluation::new(&self.program, facts, about, case, values),
            leaf_of,
            seen: Vec::new(),
            forced: None,
        };
        let outcome = tracing.flag(self.root);
        let seen = std::mem::take(&mut tracing.seen);
        let leaves = seen.iter().enumerate().map(|(index, (condition, value))| {
            let unmasked = *value != Tri::Unknown && outcome != Tri::Unknown && {
                tracing.seen.clear();
                tracing.forced = Some((index, value.negate()));
                tracing.flag(self.root) == outcome.negate()
            };
            LeafTrace { condition: *condition, value: *value, unmasked }
        });
        let leaves = leaves.collect();
        Trace { outcome, leaves }
    }

    /// Every expression that differs from this one by one slip: a leaf turned round, a boundary moved in or out of a
    /// comparison, a number one unit of its last digit up or down, `&&` for `||` or the other way.
    pub fn mutants(&self) -> Vec<Mutant> {
        let mut mutants = Vec::new();
        for condition in &self.conditions {
            let what = format!("`{}` turned round", self.condition_text(condition));
            self.mutate(&mut mutants, condition.node, &condition.at, what, |expression, node| {
                let inner = Ix::try_from(expression.program.nodes.len()).ok()?;
                expression.program.nodes.push(node);
                Some(Node::Not(inner))
            });
        }
        for sign in &self.signs {
            let (what, changed) = match self.program.node(sign.node) {
                Node::And(left, right) => ("|| for &&".to_owned(), Node::Or(left, right)),
                Node::Or(left, right) => ("&& for ||".to_owned(), Node::And(left, right)),
                Node::Compare { how, left, right } => {
                    let Some(moved) = boundary_moved(how) else {
                        continue;
                    };
                    (format!("{} for {}", moved.sign(), how.sign()), Node::Compare { how: moved, left, right })
                }
                _ => continue,
            };
            self.mutate(&mut mutants, sign.node, &sign.at, what, |_, _| Some(changed));
        }
        for literal in &self.literals {
            let written = self.text.get(literal.at.clone()).unwrap_or("");
            for (direction, step) in [("up", literal.step), ("down", -literal.step)] {
                let what = format!("{written} one step {direction}");
                self.mutate(&mut mutants, literal.node, &literal.at, what, |_, node| match node {
                    Node::Number(value) => Some(Node::Number(value + step)),
                    _ => None,
                });
            }
        }
        mutants
    }

    fn mutate(
        &self,
        mutants: &mut Vec<Mutant>,
        node: Ix,
        at: &Range<usize>,
        what: String,
        change: impl FnOnce(&mut Self, Node) -> Option<Node>,
    ) {
        let mut expression = self.clone();
        let Some(changed) = change(&mut expression, self.program.node(node)) else {
            return;
        };
        if let Some(entry) = expression.program.nodes.get_mut(usize::from(node)) {
            *entry = changed;
            mutants.push(Mutant { what, at: at.clone(), expression });
        }
    }
}

/// The comparison that differs at the boundary only.
fn boundary_moved(how: Compare) -> Option<Compare> {
    match how {
        Compare::AtMost => Some(Compare::Below),
        Compare::Below => Some(Compare::AtMost),
        Compare::AtLeast => Some(Compare::Above),
        Compare::Above => Some(Compare::AtLeast),
        Compare::Equal | Compare::Differ => None,
    }
}

struct Tracing<'a, F> {
    evaluation: Evaluation<'a, F>,
    leaf_of: Vec<Option<usize>>,
    seen: Vec<(usize, Tri)>,
    /// The leaf, by its place among those seen, that is given another value.
    forced: Option<(usize, Tri)>,
}

impl<F: Facts> Tracing<'_, F> {
    /// Evaluates without short cuts, so that the leaves come in the same order whatever their values are.
    fn flag(&mut self, ix: Ix) -> Tri {
        if let Some(condition) = self.leaf_of.get(usize::from(ix)).copied().flatten() {
            let value = match self.forced {
                Some((index, value)) if index == self.seen.len() => value,
                _ => self.evaluation.flag(ix),
            };
            self.seen.push((condition, value));
            return value;
        }
        match self.evaluation.program.node(ix) {
            Node::Not(of) => self.flag(of).negate(),
            Node::And(left, right) => {
                let left = self.flag(left);
                left.and(self.flag(right))
            }
            Node::Or(left, right) => {
                let left = self.flag(left);
                left.or(self.flag(right))
            }
            Node::FlagIf { test, yes, no } => {
                let (test, yes, no) = (self.flag(test), self.flag(yes), self.flag(no));
                match test {
                    Tri::Yes => yes,
                    Tri::No => no,
                    Tri::Unknown => agreed(yes, || no),
                }
            }
            Node::Each { how, list, slot, body } => {
                let Some(parts) = self.evaluation.base(list) else {
                    return Tri::Unknown;
                };
                let mut tally = Tally::new(how, parts.complete);
                for member in parts.members.iter() {
                    let belongs = self.belongs(list, *member);
                    self.evaluation.set(slot, *member);
                    let holds = self.flag(body);
                    tally.settled_by(belongs, holds);
                }
                tally.outcome()
            }
            _ => self.evaluation.flag(ix),
        }
    }

    fn belongs(&mut self, list: Ix, member: PartId) -> Tri {
        match self.evaluation.program.node(list) {
            Node::Kept { list, slot, body } => {
                let before = self.belongs(list, member);
                self.evaluation.set(slot, member);
                before.and(self.flag(body))
            }
            _ => Tri::Yes,
        }
    }
}
