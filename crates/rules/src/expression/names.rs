//! What the names of an expression mean: variables, facts, named values and units, in this order.

use super::Scope;
use super::check::{Checker, Typed};
use super::node::{FactRef, Ix, Node, ValueUse};
use super::syntax::{Syntax, SyntaxKind};
use super::value_type::{Kinds, ValueType, with_article, written};
use std::ops::Range;
use vocabulary::{FactKind, FactSpec, PartKind, nearest};

/// The most facts that a message lists when none is near.
const MOST_LISTED: usize = 40;

/// What already bears a name, in words: why a rule's value may not be called so. Nothing when the name is free.
pub fn name_taken(name: &str, about: PartKind) -> Option<String> {
    if name == "self" || matches!(name, "true" | "false" | "null" | "in") {
        return Some(format!("`{name}` is a word of the rule language"));
    }
    if fact_of(about, name).is_some() {
        return Some(format!("`{name}` is a fact of {}", with_article(vocabulary::part(about).word)));
    }
    quantity::unit_by_identifier(name).map(|unit| format!("`{name}` is a unit of {}", unit.dimension.name()))
}

/// The fact of a kind whose name is written so in an expression.
pub(super) fn fact_of(kind: PartKind, name: &str) -> Option<&'static FactSpec> {
    // A hyphen in the name itself would make `a-b` one word.
    let same = |fact: &&FactSpec| written(fact.name) == name;
    vocabulary::part(kind).facts().iter().find(same)
}

impl Scope<'_> {
    pub(super) fn value(&self, name: &str) -> Option<(u16, quantity::Dimension)> {
        let index = self.values.iter().position(|(value, _)| *value == name)?;
        Some((u16::try_from(index).ok()?, self.values.get(index)?.1))
    }
}

/// A fact that a name leads to.
pub(super) struct Found {
    pub of: Ix,
    pub fact: Ix,
    pub spec: &'static FactSpec,
}

impl Checker<'_> {
    /// A bare name.
    pub fn name(&mut self, name: &str, at: &Range<usize>) -> Option<Typed> {
        if let Some(part) = self.part_name(name) {
            return Some(part);
        }
        let about = self.scope.about;
        if fact_of(about, name).is_some() {
            let of = self.push(Node::About);
            return self.fact(of, &Kinds::one(about), name, at, at);
        }
        if let Some((value, dimension)) = self.scope.value(name) {
            let node = self.push(Node::Value(value));
            self.work.value_uses.push(ValueUse { value, at: at.clone() });
            return Some(Typed { node, kind: ValueType::quantity(dimension) });
        }
        if let Some(unit) = quantity::unit_by_identifier(name) {
            return self.unit_alone(unit, at);
        }
        self.unknown_name(name, at);
        None
    }

    /// `self` or a variable.
    fn part_name(&mut self, name: &str) -> Option<Typed> {
        if let Some(slot) = self.alive.iter().rposition(|variable| variable.name == name) {
            let kinds = self.alive.get(slot)?.kinds.clone();
            let node = self.push(Node::Variable(u8::try_from(slot).ok()?));
            return Some(Typed { node, kind: ValueType::Part(kinds) });
        }
        (name == "self").then(|| {
            let node = self.push(Node::About);
            Typed { node, kind: ValueType::Part(Kinds::one(self.scope.about)) }
        })
    }

    fn unknown_name(&mut self, name: &str, at: &Range<usize>) {
        let about = self.scope.about;
        let word = vocabulary::part(about).word;
        if let Some(whole) = self.hyphenated(name, at) {
            let help = format!("write {}", written(&whole));
            self.fault(
                &(at.start..at.start + whole.len()),
                "a name's hyphen is written as an underscore in a rule",
                help,
            );
            return;
        }
        let facts: Vec<String> = vocabulary::part(about).facts().iter().map(|fact| written(fact.name)).collect();
        let variables = self.alive.iter().map(|variable| variable.name.as_str());
        let names =
            facts.iter().map(String::as_str).chain(self.scope.values.iter().map(|(value, _)| *value)).chain(variables);
        let help = match nearest(name, names)
            .or_else(|| nearest(name, quantity::units().iter().map(|unit| unit.identifier)))
        {
            Some(near) => format!("did you mean `{near}`?"),
            None => match unit_meant(name) {
                Some(unit) => format!("the unit is named `{unit}`"),
                None => format!("{} has {}", with_article(word), listed(&facts)),
            },
        };
        let message = format!("`{name}` is no fact of {}, no value of this rule and no unit", with_article(word));
        self.fault(at, message, help);
    }

    /// The hyphenated name that starts here, when the vocabulary has it: `protected-ampacity` reads as a difference.
    fn hyphenated(&self, name: &str, at: &Range<usize>) -> Option<String> {
        let rest = self.text.get(at.start..)?;
        let end = rest.find(|c: char| !(c.is_ascii_alphanumeric() || matches!(c, '_' | '-'))).unwrap_or(rest.len());
        let whole = rest.get(..end)?;
        let known = vocabulary::part(self.scope.about).fact(whole).is_some();
        (whole.len() > name.len() && known).then(|| whole.to_owned())
    }

    /// `of.field`.
    pub fn field(&mut self, of: &Syntax, field: &str, field_at: &Range<usize>, at: &Range<usize>) -> Option<Typed> {
        let part = self.part(of)?;
        let ValueType::Part(kinds) = &part.kind else {
            return None;
        };
        self.fact(part.node, kinds, field, field_at, at)
    }

    /// A piece that must be a part.
    pub fn part(&mut self, syntax: &Syntax) -> Option<Typed> {
        let typed = self.expression(syntax)?;
        if matches!(typed.kind, ValueType::Part(_)) {
            return Some(typed);
        }
        let message =
            format!("`{}` is {}, which has no facts of its own", self.written_at(&syntax.at), typed.kind.words());
        let help = match typed.kind {
            ValueType::Parts(_) => format!("ask its members: {}.all(x, x.…)", self.written_at(&syntax.at)),
            _ => String::new(),
        };
        self.fault(&syntax.at, message, help);
        None
    }

    /// A fact as a value.
    fn fact(&mut self, of: Ix, kinds: &Kinds, name: &str, name_at: &Range<usize>, at: &Range<usize>) -> Option<Typed> {
        let found = self.find(of, kinds, name, name_at)?;
        let Some(kind) = ValueType::of_fact(found.spec.kind) else {
            if self.showing {
                self.fault(
                    name_at,
                    format!("`{name}` is {}, which cannot be shown in a sentence", fact_kind_words(found.spec.kind)),
                    "",
                );
                return None;
            }
            let message = format!("`{name}` is {}, with which a rule cannot reckon", fact_kind_words(found.spec.kind));
            self.fault(name_at, message, format!("has({}) asks whether it is known", self.written_at(at)));
            return None;
        };
        let Found { of, fact, .. } = found;
        let node = match &kind {
            ValueType::Number { .. } => Node::NumberFact { of, fact },
            ValueType::Flag => return Some(self.push_leaf(Node::FlagFact { of, fact }, at)),
            ValueType::Choice(_) => Node::ChoiceFact { of, fact },
            ValueType::ChoiceSet(_) => Node::ChoiceSetFact { of, fact },
            ValueType::Text => Node::TextFact { of, fact },
            ValueType::Part(_) => Node::PartFact { of, fact },
            ValueType::Parts(_) => Node::PartsFact { of, fact },
        };
        Some(Typed { node: self.push(node), kind })
    }

    /// The fact that every one of these kinds has under this name.
    pub fn find(&mut self, of: Ix, kinds: &Kinds, name: &str, at: &Range<usize>) -> Option<Found> {
        let specs: Vec<Option<&'static FactSpec>> = kinds.of.iter().map(|kind| fact_of(*kind, name)).collect();
        let known: Vec<&'static FactSpec> = specs.iter().flatten().copied().collect();
        let Some(first) = known.first().copied() else {
            let facts: Vec<String> = kinds
                .of
                .iter()
                .flat_map(|kind| vocabulary::part(*kind).facts())
                .map(|fact| written(fact.name))
                .collect();
            let help = match nearest(name, facts.iter().map(String::as_str)) {
                Some(near) => format!("did you mean `{near}`?"),
                None if kinds.of.len() == 1 => format!("it has {}", listed(&facts)),
                None => String::new(),
            };
            self.fault(at, format!("{} has no fact `{name}`", with_article(&kinds.words())), help);
            return None;
        };
        if known.len() < kinds.of.len() {
            let without = kinds
                .of
                .iter()
                .zip(&specs)
                .find(|(_, spec)| spec.is_none())
                .map_or("", |(kind, _)| vocabulary::part(*kind).word);
            let with = vocabulary::part(first.part).word;
            let message =
                format!("not every {} has a fact `{name}`: {} has none", kinds.words(), with_article(without));
            self.fault(at, message, format!("take those that have it first: ….filter(x, is(x, {}))", written(with)));
            return None;
        }
        if known.iter().any(|spec| ValueType::of_fact(spec.kind) != ValueType::of_fact(first.kind)) {
            let message = format!("`{name}` is not of one type for every {}", kinds.words());
            self.fault(at, message, "take those of one kind first: ….filter(x, is(x, kind))");
            return None;
        }
        let fact = match known.as_slice() {
            [only] if !kinds.narrowed => FactRef::One(only.id.0),
            _ => FactRef::ByKind(known.iter().map(|spec| (spec.part.0, spec.id.0)).collect()),
        };
        let fact = self.fact_ix(fact);
        Some(Found { of, fact, spec: first })
    }

    /// `has(fact)`.
    pub fn has(&mut self, argument: &Syntax, at: &Range<usize>) -> Option<Typed> {
        let found = match &argument.kind {
            SyntaxKind::Name(name) if fact_of(self.scope.about, name).is_some() => {
                let of = self.push(Node::About);
                self.find(of, &Kinds::one(self.scope.about), name, &argument.at)
            }
            SyntaxKind::Field { of, field, field_at } => {
                let part = self.part(of)?;
                let ValueType::Part(kinds) = &part.kind else {
                    return None;
                };
                self.find(part.node, kinds, field, field_at)
            }
            SyntaxKind::Name(name)
                if self.scope.value(name).is_none()
                    && quantity::unit_by_identifier(name).is_none()
                    && name != "self" =>
            {
                self.unknown_name(name, &argument.at);
                return None;
            }
            _ => {
                self.fault(&argument.at, "`has` asks whether a fact is known", "write has(name) or has(part.name)");
                return None;
            }
        }?;
        Some(self.push_leaf(Node::Has { of: found.of, fact: found.fact }, at))
    }

    /// Takes a variable's name into use, or says why it cannot be.
    pub fn new_variable(&mut self, name: &str, at: &Range<usize>) -> bool {
        let taken = if self.alive.iter().any(|variable| variable.name == name) {
            Some(format!("`{name}` is already the name of an outer variable"))
        } else if self.scope.value(name).is_some() {
            Some(format!("`{name}` is a value of this rule"))
        } else {
            name_taken(name, self.scope.about)
        };
        if let Some(why) = taken {
            self.fault(at, format!("{why}, so a variable cannot be called so"), "choose another letter or word");
            return false;
        }
        self.work.variables.push((name.to_owned(), at.clone()));
        true
    }

    /// Refuses variables that bear the name of a choice's word in use: a reader could not tell them apart.
    pub fn variables_against_words(&mut self) {
        for (name, at) in self.work.variables.clone() {
            if self.work.words.iter().any(|word| written(word) == name) {
                self.fault(
                    &at,
                    format!("`{name}` is a word used in this expression, so a variable cannot be called so"),
                    "choose another letter or word",
                );
            }
        }
    }
}

/// The name of the unit that a builder's spelling means.
fn unit_meant(name: &str) -> Option<&'static str> {
    let slip = |unit: &&quantity::Unit| unit.also.iter().chain(unit.slips).any(|slip| slip.eq_ignore_ascii_case(name));
    quantity::units().iter().find(slip).map(|unit| unit.identifier)
}

fn listed(facts: &[String]) -> String {
    let shown = facts.iter().take(MOST_LISTED).map(String::as_str).collect::<Vec<_>>().join(", ");
    if facts.len() > MOST_LISTED { format!("{shown}, …") } else { shown }
}

pub(super) fn fact_kind_words(kind: FactKind) -> &'static str {
    match kind {
        FactKind::Cores => "a count of conductors with their size",
        FactKind::Point => "a point in space",
        FactKind::Box => "a box",
        FactKind::Opening => "an opening",
        FactKind::Date => "a date",
        FactKind::Quantity(_) | FactKind::Count | FactKind::WireSize => "a number",
        FactKind::Flag => "a flag",
        FactKind::Choice(_) | FactKind::ChoiceSet(_) => "a choice of words",
        FactKind::Text => "a text",
        FactKind::Part(_) => "a part",
        FactKind::Parts(_) => "a list of parts",
    }
}
