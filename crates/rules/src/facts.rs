//! What a rule may ask of a linked build. The reader of `design` answers it; tests answer it from tables.

use design::{CaseId, Gaps, PartId, Parts, Tri};
use std::sync::Arc;
use vocabulary::{Axes, FactId, PartKind};

/// Facts by part, fact and case. Reading a fact that was read before is a table look-up: judging reads many.
pub trait Facts {
    /// A quantity in coherent SI units, a count or a copper area (m²); NaN when unknown.
    fn number(&mut self, part: PartId, fact: FactId, case: CaseId) -> f64;
    /// A flag.
    fn flag(&mut self, part: PartId, fact: FactId, case: CaseId) -> Tri;
    /// The index of the chosen word in the fact's list of words; nothing when unknown.
    fn choice(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<u16>;
    /// The chosen words as a bit set over the fact's list of words; nothing when unknown.
    fn choice_set(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<u64>;
    /// A text; nothing when unknown.
    fn text(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<Arc<str>>;
    /// Another part; nothing when unknown.
    fn part(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<PartId>;
    /// A list of parts.
    fn parts(&mut self, part: PartId, fact: FactId, case: CaseId) -> Parts;
    /// The kind of a part.
    fn kind(&self, part: PartId) -> PartKind;
    /// What would settle this fact; empty when it is known. Slow path.
    fn gaps(&mut self, part: PartId, fact: FactId, case: CaseId) -> Gaps;
    /// The cases among which facts of these axes differ; never empty, and `[CaseId(0)]` for [`Axes::NONE`].
    fn cases(&self, axes: Axes) -> Vec<CaseId>;
}

impl Facts for design::Reader<'_> {
    fn number(&mut self, part: PartId, fact: FactId, case: CaseId) -> f64 {
        Self::number(self, part, fact, case)
    }

    fn flag(&mut self, part: PartId, fact: FactId, case: CaseId) -> Tri {
        Self::flag(self, part, fact, case)
    }

    fn choice(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<u16> {
        Self::choice(self, part, fact, case)
    }

    fn choice_set(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<u64> {
        Self::choice_set(self, part, fact, case)
    }

    fn text(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<Arc<str>> {
        Self::text(self, part, fact, case)
    }

    fn part(&mut self, part: PartId, fact: FactId, case: CaseId) -> Option<PartId> {
        Self::part(self, part, fact, case)
    }

    fn parts(&mut self, part: PartId, fact: FactId, case: CaseId) -> Parts {
        Self::parts(self, part, fact, case)
    }

    fn kind(&self, part: PartId) -> PartKind {
        self.build().part(part).kind
    }

    fn gaps(&mut self, part: PartId, fact: FactId, case: CaseId) -> Gaps {
        Self::gaps(self, part, fact, case)
    }

    fn cases(&self, axes: Axes) -> Vec<CaseId> {
        self.cases_among(axes)
    }
}
