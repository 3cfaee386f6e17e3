//! Facts from a table over the real vocabulary, for tests.

use design::{CaseId, Gap, Gaps, PartId, Parts, Tri};
use rules::expression::{Expression, Fault, Scope, compile};
use rules::facts::Facts;
use std::collections::HashMap;
use std::sync::Arc;
use vocabulary::{Axes, FactId, FactKind, PartKind};

pub const CASE: CaseId = CaseId(0);

#[derive(Clone, Debug)]
pub enum Value {
    Number(f64),
    Flag(bool),
    Word(&'static str),
    Words(&'static [&'static str]),
    Text(&'static str),
    Part(PartId),
    Parts(Vec<PartId>, bool),
}

#[derive(Default)]
pub struct Table {
    kinds: Vec<PartKind>,
    values: HashMap<(PartId, FactId), Value>,
}

pub fn kind(word: &str) -> PartKind {
    vocabulary::part_by_word(word).unwrap().kind
}

pub fn fact(kind_word: &str, name: &str) -> FactId {
    vocabulary::part(kind(kind_word)).fact(name).unwrap().id
}

impl Table {
    pub fn part(&mut self, word: &str, values: &[(&str, Value)]) -> PartId {
        let id = PartId(u32::try_from(self.kinds.len()).unwrap());
        self.kinds.push(kind(word));
        for (name, value) in values {
            self.set(id, name, value.clone());
        }
        id
    }

    pub fn set(&mut self, part: PartId, name: &str, value: Value) {
        let spec = vocabulary::part(self.kinds[part.0 as usize]).fact(name).unwrap();
        self.values.insert((part, spec.id), value);
    }

    pub fn forget(&mut self, part: PartId, name: &str) {
        let spec = vocabulary::part(self.kinds[part.0 as usize]).fact(name).unwrap();
        self.values.remove(&(part, spec.id));
    }

    fn get(&self, part: PartId, fact: FactId) -> Option<&Value> {
        assert_eq!(vocabulary::fact_spec(fact).part, self.kind(part), "a fact was asked of a part of another kind");
        self.values.get(&(part, fact))
    }
}

impl Facts for Table {
    fn number(&mut self, part: PartId, fact: FactId, _: CaseId) -> f64 {
        match self.get(part, fact) {
            Some(Value::Number(value)) => *value,
            _ => f64::NAN,
        }
    }

    fn flag(&mut self, part: PartId, fact: FactId, _: CaseId) -> Tri {
        match self.get(part, fact) {
            Some(Value::Flag(value)) => Tri::from_bool(*value),
            _ => Tri::Unknown,
        }
    }

    fn choice(&mut self, part: PartId, fact: FactId, _: CaseId) -> Option<u16> {
        let Some(Value::Word(word)) = self.get(part, fact) else {
            return None;
        };
        let words = vocabulary::fact_spec(fact).choices();
        Some(u16::try_from(words.iter().position(|candidate| candidate == word).unwrap()).unwrap())
    }

    fn choice_set(&mut self, part: PartId, fact: FactId, _: CaseId) -> Option<u64> {
        let Some(Value::Words(set)) = self.get(part, fact) else {
            return None;
        };
        let words = vocabulary::fact_spec(fact).choices().iter().enumerate();
        Some(words.filter(|(_, word)| set.contains(word)).map(|(index, _)| 1 << index).sum())
    }

    fn text(&mut self, part: PartId, fact: FactId, _: CaseId) -> Option<Arc<str>> {
        match self.get(part, fact) {
            Some(Value::Text(text)) => Some(Arc::from(*text)),
            _ => None,
        }
    }

    fn part(&mut self, part: PartId, fact: FactId, _: CaseId) -> Option<PartId> {
        match self.get(part, fact) {
            Some(Value::Part(part)) => Some(*part),
            _ => None,
        }
    }

    fn parts(&mut self, part: PartId, fact: FactId, _: CaseId) -> Parts {
        match self.get(part, fact) {
            Some(Value::Parts(members, complete)) => Parts { members: members.clone().into(), complete: *complete },
            _ => Parts { members: Arc::from([]), complete: false },
        }
    }

    fn kind(&self, part: PartId) -> PartKind {
        self.kinds[part.0 as usize]
    }

    fn gaps(&mut self, part: PartId, fact: FactId, _: CaseId) -> Gaps {
        match (self.get(part, fact), vocabulary::fact_spec(fact).kind) {
            (Some(Value::Parts(_, true)), _) => Gaps::default(),
            (_, FactKind::Parts(_)) => Gaps::one(Gap::Unread(part)),
            (Some(_), _) => Gaps::default(),
            (None, _) => Gaps::one(Gap::Entry(part, fact)),
        }
    }

    fn cases(&self, _: Axes) -> Vec<CaseId> {
        vec![CASE]
    }
}

pub fn scope(word: &str) -> Scope<'static> {
    const VALUES: &[(&str, quantity::Dimension)] =
        &[("least_cover", quantity::Dimension::LENGTH), ("share_allowed", quantity::Dimension::RATIO)];
    Scope { about: kind(word), values: VALUES }
}

/// The figures of [`scope`]'s values: 50 mm and 0.8.
pub const FIGURES: &[f64] = &[0.05, 0.8];

#[track_caller]
pub fn compiled(word: &str, text: &str) -> Expression {
    match compile(text, &scope(word)) {
        Ok(expression) => expression,
        Err(faults) => panic!("{text}: {faults:?}"),
    }
}

pub fn refused(word: &str, text: &str) -> Vec<Fault> {
    compile(text, &scope(word)).err().unwrap_or_default()
}

/// A run with two ends, three conductors and one device. All of it is known.
pub struct Run {
    pub table: Table,
    pub run: PartId,
    pub ends: [PartId; 2],
    pub conductors: [PartId; 3],
    pub device: PartId,
    pub battery: PartId,
    pub alternator: PartId,
}

pub fn run() -> Run {
    let mut table = Table::default();
    let run = table.part(
        "run",
        &[
            ("title", Value::Text("circuit \"house main\"")),
            ("current-kind", Value::Word("direct")),
            ("ampacity", Value::Number(100.0)),
        ],
    );
    let battery = table.part("battery", &[]);
    let alternator = table.part("alternator", &[]);
    let end = |fed: bool, sources: Vec<PartId>| {
        [
            ("run", Value::Part(run)),
            ("fed", Value::Flag(fed)),
            ("has-device", Value::Flag(true)),
            ("sources", Value::Parts(sources, true)),
            ("distance-to-device", Value::Number(0.15)),
        ]
    };
    let ends =
        [table.part("run-end", &end(true, vec![battery, alternator])), table.part("run-end", &end(false, vec![]))];
    let conductors = [1.0, 2.0, 3.0].map(|length| {
        table.part(
            "conductor",
            &[
                ("run", Value::Part(run)),
                ("one-way", Value::Number(length)),
                ("ambient", Value::Number(303.15)),
                ("ampacity", Value::Number(100.0)),
                ("area", Value::Number(16e-6)),
                ("bundled", Value::Number(2.0)),
                ("passes", Value::Word("metal")),
                ("edge", Value::Word("grommet")),
            ],
        )
    });
    let device = table.part(
        "device",
        &[
            ("run", Value::Part(run)),
            ("title", Value::Text("80 A")),
            ("rating", Value::Number(80.0)),
            ("protected-ampacity", Value::Number(100.0)),
            ("protects", Value::Flag(true)),
        ],
    );
    table.set(run, "ends", Value::Parts(ends.to_vec(), true));
    table.set(run, "conductors", Value::Parts(conductors.to_vec(), true));
    table.set(run, "devices", Value::Parts(vec![device], true));
    Run { table, run, ends, conductors, device, battery, alternator }
}

impl Run {
    /// The part of that kind that a test is about.
    pub fn about(&self, word: &str) -> PartId {
        match word {
            "run" => self.run,
            "run-end" => self.ends[0],
            "conductor" => self.conductors[0],
            "device" => self.device,
            other => panic!("no {other}"),
        }
    }

    #[track_caller]
    pub fn test(&mut self, word: &str, text: &str) -> Tri {
        let about = self.about(word);
        compiled(word, text).test(&mut self.table, about, CASE, FIGURES)
    }
}
