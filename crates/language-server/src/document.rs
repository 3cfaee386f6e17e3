//! One open text, and how edits change it.

use crate::position::{Encoding, Lines};
use std::sync::Arc;
use tower_lsp::lsp_types::TextDocumentContentChangeEvent;

/// A text as an editor has it open.
#[derive(Clone, Debug)]
pub struct Document {
    /// The editor's number for this state of the text.
    pub version: i32,
    /// The state of all texts in which it became what it is.
    pub since: u64,
    /// The text; of a document that is not sound, the last that was.
    pub text: Arc<str>,
    /// Its lines.
    pub lines: Arc<Lines>,
    /// Whether it is what the editor has. After an edit that cannot be right it is not, until the whole text comes again.
    pub sound: bool,
}

impl Document {
    /// A text that was opened.
    pub fn new(since: u64, version: i32, text: String) -> Self {
        let lines = Arc::new(Lines::of(&text));
        Self { version, since, text: text.into(), lines, sound: true }
    }

    /// Takes edits in their order, all or none. Versions that go backwards, and edits outside the text, leave it unsound.
    pub fn edit(&mut self, since: u64, version: i32, changes: Vec<TextDocumentContentChangeEvent>, encoding: Encoding) {
        // A whole text makes up for everything that came before it, whatever its number.
        let whole = changes.iter().rposition(|change| change.range.is_none());
        if whole.is_none() && (!self.sound || version <= self.version) {
            self.sound = false;
            return;
        }
        let mut changes = changes.into_iter().skip(whole.unwrap_or(0));
        let (mut text, mut lines) = match whole.and_then(|_| changes.next()) {
            Some(change) => {
                let lines = Lines::of(&change.text);
                (change.text, lines)
            }
            None => (self.text.to_string(), Lines::clone(&self.lines)),
        };
        for change in changes {
            let Some(bytes) = change.range.and_then(|range| lines.bytes(&text, range, encoding)) else {
                self.sound = false;
                return;
            };
            text.replace_range(bytes.clone(), &change.text);
            lines.edit(&text, &bytes, change.text.len());
        }
        *self = Self { version, since, text: text.into(), lines: Arc::new(lines), sound: true };
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use tower_lsp::lsp_types::{Position, Range};

    fn at(start: (u32, u32), end: (u32, u32), text: &str) -> TextDocumentContentChangeEvent {
        let range = Some(Range::new(Position::new(start.0, start.1), Position::new(end.0, end.1)));
        TextDocumentContentChangeEvent { range, range_length: None, text: text.to_owned() }
    }

    fn whole(text: &str) -> TextDocumentContentChangeEvent {
        TextDocumentContentChangeEvent { range: None, range_length: None, text: text.to_owned() }
    }

    /// Edits with their version; then the text and whether it is sound.
    type Case = (Vec<(i32, Vec<TextDocumentContentChangeEvent>)>, &'static str, bool);

    #[test]
    fn edits_are_taken_all_or_none_and_a_whole_text_makes_up_for_what_was_wrong() {
        let cases: Vec<Case> = vec![
            (vec![(2, vec![at((0, 0), (0, 1), "x"), at((1, 0), (1, 1), "y")])], "xb\nyd\n", true),
            // Each edit is counted in the text that the one before it left.
            (vec![(2, vec![at((0, 0), (0, 0), "new\n"), at((1, 0), (1, 1), "x")])], "new\nxb\ncd\n", true),
            // A character beyond the line's end is that end; a line beyond the text is nowhere.
            (vec![(2, vec![at((0, 9), (0, 9), "!")])], "ab!\ncd\n", true),
            (vec![(2, vec![at((0, 0), (0, 1), "x"), at((7, 0), (7, 0), "y")])], "ab\ncd\n", false),
            (vec![(2, vec![at((1, 0), (0, 0), "y")])], "ab\ncd\n", false),
            (vec![(2, vec![at((0, 0), (0, 1), "x")]), (2, vec![at((0, 0), (0, 1), "y")])], "xb\ncd\n", false),
            (vec![(0, vec![at((0, 0), (0, 1), "x")])], "ab\ncd\n", false),
            // Nothing is built on a text that is not the editor's.
            (vec![(2, vec![at((7, 0), (7, 0), "y")]), (3, vec![at((0, 0), (0, 0), "x")])], "ab\ncd\n", false),
            (vec![(2, vec![at((7, 0), (7, 0), "y")]), (3, vec![whole("z")])], "z", true),
            (vec![(0, vec![whole("older")])], "older", true),
            (vec![(2, vec![at((7, 0), (7, 0), "y"), whole("z"), at((0, 1), (0, 1), "!")])], "z!", true),
        ];
        for (number, (edits, text, sound)) in cases.into_iter().enumerate() {
            let mut document = Document::new(1, 1, "ab\ncd\n".to_owned());
            for (version, changes) in edits {
                document.edit(2, version, changes, Encoding::Utf16);
            }
            assert_eq!((&*document.text, document.sound), (text, sound), "case {number}");
            assert_eq!(*document.lines, Lines::of(&document.text), "case {number}");
        }
    }
}
