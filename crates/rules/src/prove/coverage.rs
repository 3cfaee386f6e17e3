//! Masking MC/DC over the examples of a rule.
//!
//! Each condition (a comparison or a flag of `when` and `must`) must be seen true and seen false, each time while it alone
//! decides: with everything else as it is, the other value of the condition would make another verdict. A condition of
//! `when` decides between applying and not applying; one of `must` between holding and failing, while `when` is true.
//! Conditions in the body of a quantifier are seen element by element.
//!
//! The criterion is masking MC/DC as in RTCA DO-178C and FAA report DOT/FAA/AR-01/18 (from memory).

use super::bench::Linked;
use crate::expression::{Condition, Expression, Trace};
use crate::judge::cases;
use crate::pack::{Embedded, PackFault, RuleSheet};
use crate::rule::Rule;
use design::Tri;
use std::ops::Range;
use vocabulary::{PartKind, nearest};

/// Which half of a rule a condition is in.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Clause {
    /// When it applies.
    When,
    /// What must hold.
    Must,
}

/// Whether the examples show one side of a condition.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Side {
    /// An example shows it.
    Shown,
    /// No example shows it.
    Missing,
    /// No build can show it, as the rule declares with a reason.
    Impossible,
}

/// What the examples show of one condition.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ConditionProof {
    /// Which half of the rule it is in.
    pub clause: Clause,
    /// The condition as it is written.
    pub text: String,
    /// Where it stands in the rule file.
    pub at: Range<usize>,
    /// Whether it is seen true while it alone decides.
    pub yes: Side,
    /// Whether it is seen false while it alone decides.
    pub no: Side,
}

/// The sides of the conditions of one rule, as they are seen.
pub(super) struct Coverage {
    when: Vec<Seen>,
    must: Vec<Seen>,
}

#[derive(Clone, Copy, Default)]
struct Seen {
    yes: bool,
    no: bool,
}

impl Coverage {
    pub(super) fn of(rule: &Rule) -> Self {
        let none = |expression: &Option<Expression>| {
            vec![Seen::default(); expression.as_ref().map_or(0, |expression| expression.conditions().len())]
        };
        Self { when: none(&rule.when), must: none(&rule.must) }
    }

    /// Adds what one example shows.
    pub(super) fn add<L: Linked>(&mut self, linked: &mut L, rule: &Rule, values: &[f64]) {
        for part in linked.parts_of(PartKind(rule.about)).members.iter() {
            for case in cases(linked, rule) {
                let mut applies = Tri::Yes;
                if let Some(when) = &rule.when {
                    let trace = when.trace(linked, *part, case, values);
                    applies = trace.outcome;
                    see(&mut self.when, &trace);
                }
                if let Some(must) = rule.must.as_ref().filter(|_| applies == Tri::Yes) {
                    see(&mut self.must, &must.trace(linked, *part, case, values));
                }
            }
        }
    }
}

fn see(seen: &mut [Seen], trace: &Trace) {
    for leaf in trace.leaves.iter().filter(|leaf| leaf.unmasked) {
        let Some(seen) = seen.get_mut(leaf.condition) else {
            continue;
        };
        match leaf.value {
            Tri::Yes => seen.yes = true,
            Tri::No => seen.no = true,
            Tri::Unknown => {}
        }
    }
}

/// Concludes what the examples of a rule show, with a fault for each side that is missing and for each declaration of an
/// impossible side that does occur or speaks of no condition.
pub(super) fn conclude(
    coverage: &Coverage,
    sheet: &RuleSheet,
    file: &str,
    faults: &mut Vec<PackFault>,
) -> Vec<ConditionProof> {
    let mut fault = |at: &Range<usize>, message: String, help: String| {
        faults.push(PackFault { file: file.to_owned(), at: at.clone(), message, help });
    };
    let mut proofs = Vec::new();
    let mut occurs = vec![false; sheet.impossible.len()];
    let halves = [
        (Clause::When, &sheet.rule.when, &sheet.when, &coverage.when),
        (Clause::Must, &sheet.rule.must, &sheet.must, &coverage.must),
    ];
    for (clause, expression, embedded, seen) in halves {
        let (Some(expression), Some(embedded)) = (expression, embedded) else {
            continue;
        };
        for (condition, seen) in expression.conditions().iter().zip(seen) {
            let text = expression.condition_text(condition);
            let mut side = |shown: bool, side: bool| {
                let mut declared = false;
                for (impossible, occurs) in sheet.impossible.iter().zip(&mut occurs) {
                    if same(&impossible.condition, text) && impossible.side.is_none_or(|declared| declared == side) {
                        declared = true;
                        *occurs |= shown;
                    }
                }
                match (shown, declared) {
                    (true, _) => Side::Shown,
                    (false, true) => Side::Impossible,
                    (false, false) => Side::Missing,
                }
            };
            proofs.push(ConditionProof {
                clause,
                text: text.to_owned(),
                at: place(embedded, condition),
                yes: side(seen.yes, true),
                no: side(seen.no, false),
            });
        }
    }
    for proof in &proofs {
        for (side, truth) in [(proof.yes, "true"), (proof.no, "false")] {
            if side == Side::Missing {
                fault(
                    &proof.at,
                    format!("no example shows `{}` {truth} while it alone decides", proof.text),
                    missing_help(proof.clause, truth),
                );
            }
        }
    }
    for (impossible, occurs) in sheet.impossible.iter().zip(occurs) {
        if occurs {
            let message = format!("`{}` is declared impossible, and an example shows it", impossible.condition);
            fault(&impossible.at, message, "Take the declaration away.".to_owned());
        } else if !proofs.iter().any(|proof| same(&proof.text, &impossible.condition)) {
            let known = proofs.iter().map(|proof| proof.text.as_str());
            let help = match nearest(&impossible.condition, known.clone()) {
                Some(near) => format!("Did you mean `{near}`?"),
                None => format!("The conditions are: {}.", known.collect::<Vec<_>>().join("; ")),
            };
            let message = format!("`{}` is no condition of the rule", impossible.condition);
            fault(&impossible.at, message, help);
        }
    }
    proofs
}

fn missing_help(clause: Clause, truth: &str) -> String {
    match clause {
        Clause::When => format!("Add an example in which it is {truth} and everything else lets the rule apply."),
        Clause::Must => {
            format!(
                "Add an example in which the rule applies, it is {truth}, and nothing else decides between holding and failing."
            )
        }
    }
}

fn place(embedded: &Embedded, condition: &Condition) -> Range<usize> {
    embedded.place(&condition.at)
}

/// Whether two conditions are the same but for blanks.
fn same(one: &str, other: &str) -> bool {
    let words = |text: &str| text.split_whitespace().collect::<String>();
    words(one) == words(other)
}
