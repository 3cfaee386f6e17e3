//! What the proof needs of the design side: a text read and linked, and its facts.

use crate::expression::Expression;
use crate::facts::Facts;
use crate::rule::Rule;
use design::{CaseId, Gaps, PartId, Parts, Tri};
use vocabulary::{Axes, PartKind};

/// Reads and links the specifications of examples.
pub trait Bench {
    /// A specification that was read and linked.
    type Linked: Linked;

    /// Reads and links a text. What is wrong with the text is told by [`Linked::found`], never by a refusal.
    fn read(&self, text: &str) -> Self::Linked;
}

/// A specification that was read and linked.
pub trait Linked: Facts + Sized {
    /// The parts of a kind.
    fn parts_of(&mut self, kind: PartKind) -> Parts;

    /// What reading and linking found.
    fn found(&self) -> Vec<Found>;

    /// Judges one rule on every part that it is about, in every case in which its facts may differ.
    fn judge(&mut self, rule: &Rule, values: &[f64]) -> Vec<Judged> {
        judge(self, rule, values)
    }
}

/// Something that reading or linking found.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Found {
    /// The rule that documents it.
    pub rule: String,
    /// What is wrong.
    pub message: String,
}

/// The verdict on one part in one case.
#[derive(Clone, PartialEq, Debug)]
pub enum Judged {
    /// The rule does not apply.
    NotApplicable,
    /// It holds.
    Holds,
    /// It fails.
    Fails,
    /// It cannot be told; this would settle it.
    Open(Gaps),
}

/// The cases among which a rule's verdict may differ.
pub(super) fn cases<F: Facts>(facts: &F, rule: &Rule) -> Vec<CaseId> {
    let axes = [&rule.when, &rule.must].into_iter().flatten().map(Expression::axes);
    facts.cases(axes.fold(Axes::NONE, Axes::and))
}

/// Whether a rule applies to a part: what `when` says.
pub(super) fn applies<F: Facts>(facts: &mut F, rule: &Rule, part: PartId, case: CaseId, values: &[f64]) -> Tri {
    rule.when.as_ref().map_or(Tri::Yes, |when| when.test(facts, part, case, values))
}

fn judge<L: Linked>(linked: &mut L, rule: &Rule, values: &[f64]) -> Vec<Judged> {
    let mut judged = Vec::new();
    for part in linked.parts_of(PartKind(rule.about)).members.iter() {
        for case in cases(linked, rule) {
            judged.push(judge_part(linked, rule, *part, case, values));
        }
    }
    judged
}

fn judge_part<L: Linked>(linked: &mut L, rule: &Rule, part: PartId, case: CaseId, values: &[f64]) -> Judged {
    let applies = applies(linked, rule, part, case, values);
    if applies == Tri::No {
        return Judged::NotApplicable;
    }
    let holds = rule.must.as_ref().map_or(Tri::Unknown, |must| must.test(linked, part, case, values));
    match (applies, holds) {
        (_, Tri::Yes) => Judged::Holds,
        (Tri::Yes, Tri::No) => Judged::Fails,
        _ => {
            let mut gaps = Gaps::default();
            for (expression, outcome) in [(&rule.when, applies), (&rule.must, holds)] {
                if let (Some(expression), Tri::Unknown) = (expression, outcome) {
                    gaps.add(&expression.gaps(linked, part, case, values));
                }
            }
            Judged::Open(gaps)
        }
    }
}
