//! What is wrong in the text, as data.

use crate::part::Span;

/// Something wrong in the text: a finding of the reader or the linker.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Slip {
    /// The name of the rule that documents it: `text/unknown-property`.
    pub rule: &'static str,
    /// The narrowest place.
    pub at: Span,
    /// What is wrong, in one sentence for the builder.
    pub message: String,
    /// What to write instead, or where to look.
    pub help: Option<String>,
    /// Other places.
    pub related: Vec<(Span, String)>,
    /// An edit that mends it, when one is certain.
    pub mend: Option<Mend>,
}

/// An edit.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mend {
    /// What it does.
    pub title: String,
    /// What is replaced.
    pub at: Span,
    /// The new text.
    pub text: String,
}

impl Slip {
    /// A slip with its place and sentence.
    pub fn new(rule: &'static str, at: Span, message: impl Into<String>) -> Self {
        Self { rule, at, message: message.into(), help: None, related: Vec::new(), mend: None }
    }

    /// With help.
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// With another place.
    pub fn related(mut self, at: Span, label: impl Into<String>) -> Self {
        self.related.push((at, label.into()));
        self
    }

    /// With an edit that replaces `at`.
    pub fn mend(mut self, title: impl Into<String>, at: Span, text: impl Into<String>) -> Self {
        self.mend = Some(Mend { title: title.into(), at, text: text.into() });
        self
    }
}
