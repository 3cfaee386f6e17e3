//! Which facts an evaluation reads.

use super::evaluate::Evaluation;
use super::node::Expression;
use crate::facts::Facts;
use design::{CaseId, Gaps, PartId, Parts, Tri};
use std::sync::Arc;
use vocabulary::{Axes, FactId, PartKind};

impl Expression {
    /// The facts that [`Expression::test`] reads, in the order of their first reading.
    pub fn reads<F: Facts>(&self, facts: &mut F, about: PartId, case: CaseId, values: &[f64]) -> Vec<(PartId, FactId)> {
        let mut recorder = Recorder { facts, seen: Vec::new() };
        Evaluation::new(&self.program, &mut recorder, about, case, values).flag(self.root);
        recorder.seen
    }
}

/// Facts that remember what was asked.
struct Recorder<'f, F> {
    facts: &'f mut F,
    seen: Vec<(PartId, FactId)>,
}

impl<F> Recorder<'_, F> {
    fn note(&mut self, part: PartId, fact: FactId) {
        if !self.seen.contains(&(part, fact)) {
            self.seen.push((part, fact));
        }
    }
}

impl<F: Facts> Facts for Recorder<'_, F> {
    fn number(&mut self, part: PartId, fact: FactId, case: CaseId) -> f64 {
        self.note(part, fact);
        self.facts.number(part, fact, case)
    }

    fn flag(&mut self, part: PartId, fact: FactId, case: CaseId) -> Tri {
        self.note(part, fact);
        self.facts.flag(part, fact, case)
    }

    fn choice(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<u16> {
        self.note(part, fact);
        self.facts.choice(part, fact, case)
    }

    fn choice_set(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<u64> {
        self.note(part, fact);
        self.facts.choice_set(part, fact, case)
    }

    fn text(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<Arc<str>> {
        self.note(part, fact);
        self.facts.text(part, fact, case)
    }

    fn part(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<PartId> {
        self.note(part, fact);
        self.facts.part(part, fact, case)
    }

    fn parts(&mut self, part: PartId, fact: FactId, case: CaseId) -> Parts {
        self.note(part, fact);
        self.facts.parts(part, fact, case)
    }

    fn kind(&self, part: PartId) -> PartKind {
        self.facts.kind(part)
    }

    fn gaps(&mut self, part: PartId, fact: FactId, case: CaseId) -> Gaps {
        self.note(part, fact);
        self.facts.gaps(part, fact, case)
    }

    fn cases(&self, axes: Axes) -> Vec<CaseId> {
        self.facts.cases(axes)
    }
}
