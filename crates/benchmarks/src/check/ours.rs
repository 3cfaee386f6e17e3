//! Our own evaluation, on facts from a table.

use super::{Contender, Device};
use crate::Outcome;
use design::{CaseId, Gaps, PartId, Parts, Tri};
use rules::expression::{Expression, Scope, compile};
use rules::facts::Facts;
use std::sync::Arc;
use vocabulary::{Axes, FactId, PartKind};

const CASE: CaseId = CaseId(0);

/// Numbers by part and fact: one column after the other, each with one number for each device.
struct Numbers {
    kind: PartKind,
    first_fact: u16,
    devices: usize,
    numbers: Vec<f64>,
}

impl Numbers {
    fn place(&self, part: PartId, fact: FactId) -> Option<usize> {
        let column = usize::from(fact.0.checked_sub(self.first_fact)?);
        Some(column * self.devices + part.0 as usize)
    }
}

impl Facts for Numbers {
    fn number(&mut self, part: PartId, fact: FactId, _: CaseId) -> f64 {
        self.place(part, fact).and_then(|place| self.numbers.get(place)).copied().unwrap_or(f64::NAN)
    }

    fn flag(&mut self, _: PartId, _: FactId, _: CaseId) -> Tri {
        Tri::Unknown
    }

    fn choice(&mut self, _: PartId, _: FactId, _: CaseId) -> Option<u16> {
        None
    }

    fn choice_set(&mut self, _: PartId, _: FactId, _: CaseId) -> Option<u64> {
        None
    }

    fn text(&mut self, _: PartId, _: FactId, _: CaseId) -> Option<Arc<str>> {
        None
    }

    fn part(&mut self, _: PartId, _: FactId, _: CaseId) -> Option<PartId> {
        None
    }

    fn parts(&mut self, _: PartId, _: FactId, _: CaseId) -> Parts {
        Parts { members: Arc::from([]), complete: false }
    }

    fn kind(&self, _: PartId) -> PartKind {
        self.kind
    }

    fn gaps(&mut self, _: PartId, _: FactId, _: CaseId) -> Gaps {
        Gaps::default()
    }

    fn cases(&self, _: Axes) -> Vec<CaseId> {
        vec![CASE]
    }
}

/// The expression and its facts.
pub struct Ours {
    expression: Expression,
    facts: Numbers,
    devices: Vec<PartId>,
}

impl Ours {
    pub fn new(devices: &[Device]) -> Outcome<Self> {
        let spec = vocabulary::part_by_word("device").ok_or("the vocabulary has no device")?;
        let scope = Scope { about: spec.kind, values: &[] };
        let expression = compile("rating <= protected_ampacity", &scope).map_err(|faults| format!("{faults:?}"))?;
        let mut facts = Numbers {
            kind: spec.kind,
            first_fact: spec.first_fact,
            devices: devices.len(),
            numbers: vec![f64::NAN; usize::from(spec.fact_count) * devices.len()],
        };
        let mut ids = Vec::new();
        for (number, device) in (0..).zip(devices) {
            let part = PartId(number);
            ids.push(part);
            for (name, value) in [("rating", device.rating), ("protected-ampacity", device.protected_ampacity)] {
                let fact = spec.fact(name).ok_or_else(|| format!("a device has no {name}"))?.id;
                let place = facts.place(part, fact).ok_or("a fact outside the table")?;
                *facts.numbers.get_mut(place).ok_or("a device outside the table")? = value;
            }
        }
        Ok(Self { expression, facts, devices: ids })
    }
}

impl Contender for Ours {
    fn name(&self) -> &'static str {
        "ours"
    }

    fn failing(&mut self) -> Outcome<Vec<usize>> {
        let mut failing = Vec::new();
        for (number, device) in self.devices.iter().enumerate() {
            match self.expression.test(&mut self.facts, *device, CASE, &[]) {
                Tri::Yes => {}
                Tri::No => failing.push(number),
                Tri::Unknown => return Err("a check is undecided".into()),
            }
        }
        Ok(failing)
    }
}
