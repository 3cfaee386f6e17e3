//! How a value was worked out: the steps as an engineer writes them.

use calc::Citation;

/// One step.
#[derive(Clone, PartialEq, Debug)]
pub struct Step {
    /// The step in words and numbers.
    pub text: String,
    /// The document it rests on and its evidence mark, in words.
    pub source: Option<String>,
    /// Whether it rests on an assumed value.
    pub assumed: bool,
}

impl Step {
    /// A step that rests on nothing but arithmetic and the facts that it names.
    pub fn of(text: impl Into<String>) -> Self {
        Self { text: text.into(), source: None, assumed: false }
    }

    /// A step with its source.
    pub fn cited(text: impl Into<String>, citation: &Citation) -> Self {
        Self { text: text.into(), source: Some(citation_text(citation)), assumed: false }
    }

    /// A step that rests on an assumed value.
    pub fn assumed(text: impl Into<String>, source: impl Into<String>) -> Self {
        Self { text: text.into(), source: Some(source.into()), assumed: true }
    }
}

/// A citation in one line: document, place, edition and mark.
pub fn citation_text(citation: &Citation) -> String {
    let mut text = citation.document.to_owned();
    for more in [citation.place, citation.edition] {
        if !more.is_empty() {
            text.push_str(", ");
            text.push_str(more);
        }
    }
    text.push_str(" (");
    text.push_str(citation.mark.word());
    text.push(')');
    text
}

/// The working of one fact: its steps and what it was worked out from.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Working {
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// The facts that were read, in order, without repeats.
    pub read: Vec<(crate::PartId, vocabulary::FactId)>,
}
