//! Lays text out for a terminal, or as sentences to be read aloud.

use crate::{Style, TerminalOptions};
use owo_colors::Style as Paint;
use rules::Signal;
use textwrap::{Options, WordSeparator, WordSplitter};

/// The narrowest terminal that is laid out for.
const NARROWEST: usize = 40;
/// Sentences are hard to read on longer lines, however wide the terminal is.
const WIDEST_TEXT: usize = 110;
/// Columns of a field's label with the blank behind it.
pub(crate) const LABEL: usize = 14;

/// The colour of a signal word, after the safety colours of ISO 3864: red, orange, yellow, blue. Of the colours that
/// every terminal has, bold yellow comes nearest to orange.
pub(crate) fn signal_style(signal: Signal) -> Paint {
    match signal {
        Signal::Danger => Paint::new().bold().red(),
        Signal::Warning => Paint::new().bold().yellow(),
        Signal::Caution => Paint::new().yellow(),
        Signal::Notice => Paint::new().blue(),
    }
}

/// A text in the making.
pub(crate) struct Sheet {
    text: String,
    style: Style,
}

impl Sheet {
    pub(crate) fn new(style: Style) -> Self {
        let style = match style {
            Style::Terminal(options) => {
                Style::Terminal(TerminalOptions { width: options.width.max(NARROWEST), ..options })
            }
            Style::Plain => Style::Plain,
        };
        Self { text: String::new(), style }
    }

    /// The finished text.
    pub(crate) fn finish(self) -> String {
        self.text
    }

    /// The terminal's options, if this is for one.
    pub(crate) fn options(&self) -> Option<TerminalOptions> {
        match self.style {
            Style::Terminal(options) => Some(options),
            Style::Plain => None,
        }
    }

    /// The text in colour where colour is wanted. The text must be visible already.
    pub(crate) fn paint(&self, text: &str, paint: Paint) -> String {
        match self.style {
            Style::Terminal(TerminalOptions { colour: true, .. }) => paint.style(text).to_string(),
            _ => text.to_owned(),
        }
    }

    /// The dash that this reader's text uses inside a line.
    pub(crate) fn dash(&self) -> &'static str {
        match self.style {
            Style::Terminal(TerminalOptions { unicode: true, .. }) => "—",
            Style::Terminal(_) | Style::Plain => "-",
        }
    }

    /// Text that is laid out already, with its line breaks.
    pub(crate) fn drawn(&mut self, text: &str) {
        self.text.push_str(text);
    }

    /// An empty line, never two.
    pub(crate) fn gap(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// A heading; for a listener a sentence of its own.
    pub(crate) fn heading(&mut self, text: &str, paint: Paint) {
        self.gap();
        match self.style {
            Style::Terminal(_) => {
                for line in self.wrapped(text, "", "") {
                    let line = self.paint(&line, paint);
                    self.line(&line);
                }
            }
            Style::Plain => self.line(&crate::sanitise::sentence(text)),
        }
    }

    /// A line as it is.
    pub(crate) fn line(&mut self, text: &str) {
        self.text.push_str(text.trim_end());
        self.text.push('\n');
    }

    /// A paragraph; its first line begins with `first`, the others with `rest`.
    pub(crate) fn paragraph(&mut self, text: &str, first: &str, rest: &str) {
        match self.style {
            Style::Terminal(_) => {
                for line in self.wrapped(text, first, rest) {
                    self.line(&line);
                }
            }
            Style::Plain => self.line(&crate::sanitise::sentence(text)),
        }
    }

    /// A labelled paragraph: the label in a column of its own; for a listener 'Label: text.'
    pub(crate) fn field(&mut self, indent: &str, label: &str, text: &str) {
        if text.is_empty() {
            return;
        }
        match self.style {
            Style::Terminal(_) => {
                let first = format!("{indent}{label:<LABEL$}");
                let rest = format!("{indent}{:<LABEL$}", "");
                let painted = format!("{indent}{}", self.paint(&format!("{label:<LABEL$}"), Paint::new().dimmed()));
                for (index, line) in self.wrapped(text, &first, &rest).into_iter().enumerate() {
                    match line.strip_prefix(&first) {
                        Some(words) if index == 0 => self.line(&format!("{painted}{words}")),
                        _ => self.line(&line),
                    }
                }
            }
            Style::Plain => {
                let label = if label.is_empty() { String::new() } else { format!("{label}: ") };
                self.line(&format!("{label}{}", crate::sanitise::ended(text)));
            }
        }
    }

    /// A labelled text that is written so in a file: for a listener too without a full stop, which would be read as part
    /// of it.
    pub(crate) fn literal(&mut self, indent: &str, label: &str, text: &str) {
        match self.style {
            Style::Terminal(_) => self.field(indent, label, text),
            Style::Plain if text.is_empty() => {}
            Style::Plain => self.line(&format!("{label}: {text}")),
        }
    }

    /// Several paragraphs under one label.
    pub(crate) fn fields(&mut self, indent: &str, label: &str, texts: impl IntoIterator<Item = String>) {
        for (index, text) in texts.into_iter().enumerate() {
            let label = if index == 0 || self.options().is_none() { label } else { "" };
            self.field(indent, label, &text);
        }
    }

    /// A document's name as a link to where it can be read, or with the address behind it.
    pub(crate) fn linked(&self, text: &str, address: Option<&str>) -> String {
        let Some(address) = address else { return text.to_owned() };
        let address = crate::visible(address);
        format!("{text}, {address}")
    }

    /// The lines of a text as a paragraph lays them out.
    pub(crate) fn laid_out(&self, text: &str, first: &str, rest: &str) -> Vec<String> {
        self.wrapped(text, first, rest)
    }

    fn wrapped(&self, text: &str, first: &str, rest: &str) -> Vec<String> {
        let width = self.options().map_or(usize::MAX, |options| options.width.min(WIDEST_TEXT));
        let layout = Options::new(width)
            .initial_indent(first)
            .subsequent_indent(rest)
            // Numbers keep their units and addresses their hyphens.
            .word_separator(WordSeparator::AsciiSpace)
            .word_splitter(WordSplitter::NoHyphenation)
            .break_words(true);
        textwrap::wrap(text, layout).into_iter().map(std::borrow::Cow::into_owned).collect()
    }
}
