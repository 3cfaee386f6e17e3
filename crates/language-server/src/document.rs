//! One open text, and how edits change it.

use crate::position::{Encoding, Lines};
use std::sync::Arc;
use tower_lsp::lsp_types::TextDocumentContentChangeEvent;

/// A text as an editor has it open.
#[derive(Clone, Debug)]
pub struct Document {
    /// The editor's number for this state of the text.
    pub version: i32,
    /// The text.
    pub text: Arc<str>,
    /// Its lines.
    pub lines: Arc<Lines>,
    /// Whether it is what the editor has. After an edit that cannot be right it is not, until the whole text comes again.
    pub sound: bool,
}

impl Document {
    /// A text that was opened.
    pub fn new(version: i32, text: String) -> Self {
        let lines = Arc::new(Lines::of(&text));
        Self { version, text: text.into(), lines, sound: true }
    }

    /// Takes edits in their order. Versions that go backwards, and edits outside the text, leave it unsound.
    pub fn edit(&mut self, version: i32, changes: Vec<TextDocumentContentChangeEvent>, encoding: Encoding) {
        let whole = changes.iter().any(|change| change.range.is_none());
        if !whole && (!self.sound || version <= self.version) {
            self.sound = false;
            self.version = self.version.max(version);
            return;
        }
        let mut text = self.text.to_string();
        let mut lines = Lines::of(&text);
        let mut sound = self.sound;
        for change in changes {
            match change.range {
                None => {
                    text = change.text;
                    sound = true;
                }
                Some(range) => match lines.bytes(&text, range, encoding) {
                    Some(bytes) => text.replace_range(bytes, &change.text),
                    None => sound = false,
                },
            }
            lines = Lines::of(&text);
        }
        *self = Self { version, text: text.into(), lines: Arc::new(lines), sound };
    }
}
