//! Where sheets are made: facts become cells, with what is not known, what is assumed, and links to parts.

use crate::marks::Marks;
use crate::sheet::{Cell, Part, Row, RowKind, Value};
use crate::show;
use crate::system::System;
use design::{Build, CaseId, Circuitry, Fact, Gaps, PartId, Reader};
use quantity::{Dimension, Quantity};
use rules::Review;
use rules::review::gap_words;
use spec::Value as Written;
use spec::text::Lines;
use std::collections::HashMap;
use vocabulary::{Absent, FactId, FactKind, FactSpec, PartKind, Worst};

/// What the makers of sheets and drawings read.
pub struct Desk<'r, 'a> {
    /// The facts.
    pub reader: &'r mut Reader<'a>,
    /// The build.
    pub build: &'a Build,
    /// What was found.
    pub review: &'r Review,
    /// Which findings are on which part.
    pub marks: &'r Marks,
    lines: Vec<Lines>,
    assumed: HashMap<(PartId, FactId), bool>,
}

impl<'r, 'a> Desk<'r, 'a> {
    /// A desk for one packet.
    pub fn new(reader: &'r mut Reader<'a>, review: &'r Review, marks: &'r Marks) -> Self {
        let build = reader.build();
        let lines = build.files.iter().map(|file| Lines::new(&file.text)).collect();
        Self { reader, build, review, marks, lines, assumed: HashMap::new() }
    }

    /// The circuits.
    pub fn circuitry(&self) -> &'a Circuitry {
        self.build.circuitry()
    }

    /// The parts of a kind, in the order of the text.
    pub fn of_kind(&self, kind: PartKind) -> &'a [PartId] {
        &self.build.of_kind(kind).members
    }

    /// Every thing of the build (as the vocabulary calls it), in the order of the text.
    pub fn things(&self) -> Vec<PartId> {
        let is_thing = |part: &design::Part| vocabulary::part(part.kind).family == vocabulary::Family::Thing;
        self.build.parts().filter(|(_, part)| is_thing(part)).map(|(number, _)| number).collect()
    }

    /// A part as cells name it.
    pub fn named(&self, part: PartId) -> Part {
        let of = self.build.part(part);
        let file = usize::try_from(of.head.file).unwrap_or(usize::MAX);
        let line = self.lines.get(file).map(|lines| (of.head.file, lines.line(of.head.bytes.start)));
        Part {
            number: part.0,
            title: of.title.to_string(),
            name: self.name(part),
            key: of.key.to_string(),
            line: line.filter(|_| part != Build::ROOT),
        }
    }

    /// A part's own name, or what it is where it has none.
    pub fn name(&self, part: PartId) -> String {
        let of = self.build.part(part);
        // `wire 2 in circuit "house main"` is wire 2 where the circuit is named beside it.
        let own = || of.title.split(" in ").next().unwrap_or(&of.title).to_owned();
        of.name.as_deref().map_or_else(own, str::to_owned)
    }

    /// Where something of the text stands: the number of the file and the line.
    pub fn line_of(&self, place: &rules::finding::Place) -> Option<(u32, u32)> {
        let start = u32::try_from(place.bytes.start).ok()?;
        Some((u32::try_from(place.file).ok()?, self.lines.get(place.file)?.line(start)))
    }

    /// A cell that names parts.
    pub fn part(&self, part: PartId) -> Cell {
        self.parts(&[part])
    }

    /// A cell that names parts; none of them is an empty cell.
    pub fn parts(&self, parts: &[PartId]) -> Cell {
        if parts.is_empty() {
            return Cell::empty();
        }
        let parts = parts.iter().map(|part| self.named(*part)).collect();
        Cell::of(Value::Parts { parts, complete: true })
    }

    /// A row about a part.
    pub fn row(&self, part: PartId, cells: Vec<Cell>) -> Row {
        Row {
            part: Some(self.named(part)),
            kind: RowKind::Item,
            group: String::new(),
            system: System::of(self.build, part),
            signal: None,
            finding: None,
            cells,
        }
    }

    /// A row about no part.
    pub fn plain(&self, system: System, cells: Vec<Cell>) -> Row {
        Row { part: None, kind: RowKind::Item, group: String::new(), system, signal: None, finding: None, cells }
    }

    /// A fact of a part by its name; an empty cell where parts of this kind have none.
    pub fn fact_named(&mut self, part: PartId, name: &str) -> Cell {
        match vocabulary::part(self.build.part(part).kind).fact(name) {
            Some(spec) => self.fact(part, spec.id),
            None => Cell::empty(),
        }
    }

    /// As [`Self::fact_named`], but an entry that nobody wrote and whose absence says nothing is an empty cell, not an
    /// unknown one: for columns that most parts may leave out.
    pub fn said(&mut self, part: PartId, name: &str) -> Cell {
        match vocabulary::part(self.build.part(part).kind).fact(name) {
            Some(spec) if spec.given && spec.absent == Absent::Unknown && !self.is_written(part, spec.id) => {
                Cell::empty()
            }
            Some(spec) => self.fact(part, spec.id),
            None => Cell::empty(),
        }
    }

    /// What [`Self::said`] gives, in words; nothing for what is empty.
    pub fn told(&mut self, part: PartId, name: &str) -> Option<String> {
        let cell = self.said(part, name);
        (!cell.is_empty()).then(|| crate::show::shown(&cell, self.review.units))
    }

    /// Whether something is written of a fact, be it `unknown`.
    pub fn is_written(&self, part: PartId, fact: FactId) -> bool {
        self.build.part(part).given(fact).is_some()
    }

    /// Whether a flag of this name is known to be so.
    pub fn is_so(&mut self, part: PartId, name: &str) -> bool {
        self.fact_named(part, name).value == Value::Flag(true)
    }

    /// Whether a given choice has this word.
    pub fn is(&mut self, part: PartId, name: &str, word: &str) -> bool {
        matches!(self.fact_named(part, name).value, Value::Text(text) if text == word)
    }

    /// A number of a fact; nothing when it is not known.
    pub fn number(&mut self, part: PartId, fact: FactId) -> Option<f64> {
        match self.fact(part, fact).value {
            Value::Quantity(quantity) => Some(quantity.value),
            Value::Count(count) => Some(count),
            Value::Size { area, .. } => Some(area),
            _ => None,
        }
    }

    /// A fact as a cell: of several cases the worst one.
    pub fn fact(&mut self, part: PartId, fact: FactId) -> Cell {
        let spec = vocabulary::fact_spec(fact);
        let cases = self.reader.cases_among(spec.axes);
        let mut worst: Option<(CaseId, Fact)> = None;
        for case in cases {
            match self.reader.fact(part, fact, case) {
                // What is not known in one case is not known to be within its limit in any.
                Err(gaps) => return self.unknown(&gaps),
                Ok(value) => {
                    if worst.as_ref().is_none_or(|(_, before)| is_worse(spec, &value, before)) {
                        worst = Some((case, value));
                    }
                }
            }
        }
        let Some((case, value)) = worst else { return Cell::empty() };
        let assumed = self.is_assumed(part, fact, case, 0);
        let case = self.reader.cases().title(case, spec.axes);
        Cell { value: self.value(part, spec, value), assumed, case }
    }

    /// A fact in one case as a cell.
    pub fn fact_in(&mut self, part: PartId, fact: FactId, case: CaseId) -> Cell {
        match self.reader.fact(part, fact, case) {
            Err(gaps) => self.unknown(&gaps),
            Ok(value) => {
                let assumed = self.is_assumed(part, fact, case, 0);
                Cell { assumed, ..Cell::of(self.value(part, vocabulary::fact_spec(fact), value)) }
            }
        }
    }

    /// An unknown value with what would settle it.
    pub fn unknown(&self, gaps: &Gaps) -> Cell {
        let or = |any: &design::AnyOf| {
            any.0.iter().map(|gap| gap_words(self.build, gap)).collect::<Vec<_>>().join(crate::words::OR)
        };
        // Where no method knows an answer, nothing that could be written settles it.
        let open = gaps.0.iter().filter(|any| any.0.iter().any(|gap| !matches!(gap, design::Gap::NoSolution(..))));
        Cell::of(Value::Unknown { settle: open.map(or).collect() })
    }

    fn value(&self, part: PartId, spec: &FactSpec, value: Fact) -> Value {
        let units = self.review.units;
        match value {
            Fact::Number(number) => match spec.kind {
                FactKind::Count => Value::Count(number),
                FactKind::WireSize | FactKind::Cores => {
                    let shown = show::written_size(self.build, part, spec.id, units)
                        .unwrap_or_else(|| quantity::show_conductor_area(number, units));
                    Value::Size { shown, area: number }
                }
                FactKind::Quantity(dimension) => {
                    Value::Quantity(Quantity { value: number, dimension, currency: self.currency(part, spec.id) })
                }
                _ => Value::Quantity(Quantity { value: number, dimension: Dimension::RATIO, currency: None }),
            },
            Fact::Flag(flag) => Value::Flag(flag),
            Fact::Choice(index) => {
                Value::Text(spec.choices().get(usize::from(index)).copied().unwrap_or_default().to_owned())
            }
            Fact::ChoiceSet(set) => {
                let words = spec.choices().iter().enumerate().filter(|(index, _)| set & (1 << index) != 0);
                Value::Text(words.map(|(_, word)| *word).collect::<Vec<_>>().join(", "))
            }
            Fact::Text(text) => Value::Text(text.to_string()),
            Fact::Part(other) => Value::Parts { parts: vec![self.named(other)], complete: true },
            Fact::Parts(parts) => Value::Parts {
                parts: parts.members.iter().map(|part| self.named(*part)).collect(),
                complete: parts.complete,
            },
            Fact::Lengths(lengths) => {
                let between = if spec.kind == FactKind::Box { " × " } else { ", " };
                Value::Text(show::lengths(&lengths, between, units))
            }
            Fact::Opening(lengths) => Value::Text(show::lengths(&lengths, " × ", units)),
        }
    }

    fn currency(&self, part: PartId, fact: FactId) -> Option<quantity::Currency> {
        match &self.build.part(part).given(fact)?.value {
            Written::Quantity(quantity) => quantity.currency,
            _ => None,
        }
    }

    /// Whether a value rests on an assumption, its own or that of a fact that it was worked out from.
    fn is_assumed(&mut self, part: PartId, fact: FactId, case: CaseId, depth: u8) -> bool {
        /// Facts rest on facts no deeper than this (chosen; the reader itself has such a bound).
        const DEEPEST: u8 = 24;
        let spec = vocabulary::fact_spec(fact);
        if spec.given {
            return matches!(spec.absent, Absent::Assume { .. }) && !self.is_written(part, fact);
        }
        if let Some(known) = self.assumed.get(&(part, fact)) {
            return *known;
        }
        // Facts that wait for one another rest on no assumption by that.
        self.assumed.insert((part, fact), false);
        let working = self.reader.working(part, fact, case);
        let mut assumed = working.steps.iter().any(|step| step.assumed);
        if depth < DEEPEST {
            for (part, fact) in working.read {
                // Lists of parts and words are told apart by what is written; only numbers are assumed.
                let counts = matches!(
                    vocabulary::fact_spec(fact).kind,
                    FactKind::Quantity(_) | FactKind::Count | FactKind::WireSize | FactKind::Cores
                );
                assumed = assumed || counts && self.is_assumed(part, fact, case, depth + 1);
            }
        }
        self.assumed.insert((part, fact), assumed);
        assumed
    }
}

/// Whether one value is worse than another, by the end of the range that is the bad one.
fn is_worse(spec: &FactSpec, one: &Fact, other: &Fact) -> bool {
    match (one, other, spec.worst) {
        (Fact::Number(one), Fact::Number(other), Worst::Most) => one > other,
        (Fact::Number(one), Fact::Number(other), Worst::Least) => one < other,
        _ => false,
    }
}
