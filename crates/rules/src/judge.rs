//! One rule judged on one part, in the worst of its cases.

use crate::expression::{Expression, Margin};
use crate::facts::Facts;
use crate::rule::Rule;
use design::{CaseId, Gaps, PartId, Tri};
use vocabulary::Axes;

/// The verdict on a part.
#[derive(Clone, PartialEq, Debug)]
pub enum Verdict {
    /// The rule does not apply.
    NotApplicable,
    /// It holds.
    Holds,
    /// It fails, by this much where a comparison decided.
    Fails(Option<Margin>),
    /// It cannot be told; this would settle it.
    Open(Gaps),
}

/// What a rule's verdict may differ by.
pub fn axes(rule: &Rule) -> Axes {
    [&rule.when, &rule.must].into_iter().flatten().map(Expression::axes).fold(Axes::NONE, Axes::and)
}

/// The cases among which a rule's verdict may differ.
pub fn cases<F: Facts>(facts: &F, rule: &Rule) -> Vec<CaseId> {
    facts.cases(axes(rule))
}

/// Judges a rule on a part in one case: Kleene's `!when || must`, and not applicable when `when` is false.
pub fn in_case<F: Facts>(facts: &mut F, rule: &Rule, part: PartId, case: CaseId, values: &[f64]) -> Verdict {
    let applies = rule.when.as_ref().map_or(Tri::Yes, |when| when.test(facts, part, case, values));
    if applies == Tri::No {
        return Verdict::NotApplicable;
    }
    let holds = rule.must.as_ref().map_or(Tri::Unknown, |must| must.test(facts, part, case, values));
    match (applies, holds) {
        (_, Tri::Yes) => Verdict::Holds,
        (Tri::Yes, Tri::No) => {
            Verdict::Fails(rule.must.as_ref().and_then(|must| must.margin(facts, part, case, values)))
        }
        _ => {
            let mut gaps = Gaps::default();
            for (expression, outcome) in [(&rule.when, applies), (&rule.must, holds)] {
                if let (Some(expression), Tri::Unknown) = (expression, outcome) {
                    gaps.add(&expression.gaps(facts, part, case, values));
                }
            }
            Verdict::Open(gaps)
        }
    }
}

/// The worst verdict over all cases with its case: a failure outranks an open check, that a holding one; of failures the
/// one with the largest margin.
pub fn worst<F: Facts>(
    facts: &mut F,
    rule: &Rule,
    part: PartId,
    cases: &[CaseId],
    values: &[f64],
) -> (CaseId, Verdict) {
    let mut worst = (CaseId(0), Verdict::NotApplicable);
    for &case in cases {
        let verdict = in_case(facts, rule, part, case, values);
        if rank(&verdict) > rank(&worst.1) || rank(&verdict) == rank(&worst.1) && share(&verdict) > share(&worst.1) {
            worst = (case, verdict);
        }
    }
    worst
}

/// How bad a verdict is.
fn rank(verdict: &Verdict) -> u8 {
    match verdict {
        Verdict::NotApplicable => 0,
        Verdict::Holds => 1,
        Verdict::Open(_) => 2,
        Verdict::Fails(_) => 3,
    }
}

fn share(verdict: &Verdict) -> f64 {
    match verdict {
        Verdict::Fails(Some(margin)) => margin.share,
        _ => 0.0,
    }
}
