//! The expressions and templates of one rule: compiled in the scope of the rule, with their faults placed in the file.

use super::embedded::Embedded;
use super::form::Reader;
use super::sheet::FigurePlaces;
use crate::expression::{self, Expression, Fault, Scope, Template};
use crate::rule::RuleValue;
use quantity::Dimension;
use vocabulary::PartKind;

/// What the expressions of one rule may name.
pub(super) struct Language<'r> {
    about: PartKind,
    values: Vec<(&'r str, Dimension)>,
}

impl<'r> Language<'r> {
    /// The language of a rule about a part kind, with the named values of the rule.
    pub(super) fn new(about: PartKind, values: &'r [RuleValue], figures: &[FigurePlaces]) -> Self {
        let values =
            values.iter().zip(figures).map(|(value, places)| (value.name.as_str(), places.dimension)).collect();
        Self { about, values }
    }

    fn scope(&self) -> Scope<'_> {
        Scope { about: self.about, values: &self.values }
    }

    pub(super) fn expression(&self, reader: &mut Reader, text: &Embedded) -> Option<Expression> {
        told(reader, text, expression::compile(&text.text, &self.scope()))
    }

    pub(super) fn template(&self, reader: &mut Reader, text: &Embedded) -> Option<Template> {
        told(reader, text, expression::compile_template(&text.text, &self.scope()))
    }

    /// The template of nothing, for rules that tell what the reader found.
    pub(super) fn empty_template(&self) -> Option<Template> {
        expression::compile_template("", &self.scope()).ok()
    }
}

fn told<T>(reader: &mut Reader, text: &Embedded, outcome: Result<T, Vec<Fault>>) -> Option<T> {
    match outcome {
        Ok(compiled) => Some(compiled),
        Err(faults) => {
            for fault in faults {
                reader.fault(text.place(&fault.at), fault.message, fault.help.unwrap_or_default());
            }
            None
        }
    }
}
