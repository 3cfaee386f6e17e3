//! Between bytes, by which the text is known inside, and the lines and characters of the protocol. Nothing else of the server
//! knows of encodings.

use std::ops::Range;
use tower_lsp::lsp_types::{Position, PositionEncodingKind, Range as LineRange};

/// How a client counts within a line.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Encoding {
    /// By the bytes of UTF-8.
    Utf8,
    /// By the units of UTF-16, as the protocol has it where nothing else is agreed.
    #[default]
    Utf16,
}

impl Encoding {
    /// The encoding for a client that offers these: UTF-8 if it is among them, since the text is held so.
    pub fn agreed(offered: Option<&[PositionEncodingKind]>) -> Self {
        if offered.is_some_and(|offered| offered.contains(&PositionEncodingKind::UTF8)) {
            Self::Utf8
        } else {
            Self::Utf16
        }
    }

    /// Its name in the protocol.
    pub fn kind(self) -> PositionEncodingKind {
        match self {
            Self::Utf8 => PositionEncodingKind::UTF8,
            Self::Utf16 => PositionEncodingKind::UTF16,
        }
    }

    fn width(self, character: char) -> usize {
        match self {
            Self::Utf8 => character.len_utf8(),
            Self::Utf16 => character.len_utf16(),
        }
    }
}

/// Where the lines of a text begin. A line ends with a line feed, a carriage return, or both together.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Lines {
    starts: Vec<usize>,
}

impl Lines {
    /// The lines of a text.
    pub fn of(text: &str) -> Self {
        let bytes = text.as_bytes();
        let mut starts = vec![0];
        for (at, byte) in bytes.iter().enumerate() {
            let ends = match byte {
                b'\n' => true,
                b'\r' => bytes.get(at + 1) != Some(&b'\n'),
                _ => false,
            };
            if ends {
                starts.push(at + 1);
            }
        }
        Self { starts }
    }

    /// How many lines there are; an empty text has one.
    pub fn count(&self) -> usize {
        self.starts.len()
    }

    /// The bytes of a line without its ending.
    pub fn line(&self, text: &str, line: usize) -> Option<Range<usize>> {
        let start = *self.starts.get(line)?;
        let end = self.starts.get(line + 1).copied().unwrap_or(text.len());
        let whole = text.get(start..end)?;
        Some(start..start + whole.trim_end_matches(['\n', '\r']).len())
    }

    /// The position of a byte; one within a character counts as the character's first, one beyond the text as its end.
    pub fn position(&self, text: &str, byte: usize, encoding: Encoding) -> Position {
        let mut byte = byte.min(text.len());
        while !text.is_char_boundary(byte) {
            byte -= 1;
        }
        let line = self.starts.partition_point(|start| *start <= byte).saturating_sub(1);
        let start = self.starts.get(line).copied().unwrap_or(0);
        let before = text.get(start..byte).unwrap_or("");
        let character: usize = before.chars().map(|character| encoding.width(character)).sum();
        Position::new(number(line), number(character))
    }

    /// The byte of a position; beyond the end of a line that end, as the protocol has it. Nothing for a line that the text does
    /// not have.
    pub fn byte(&self, text: &str, position: Position, encoding: Encoding) -> Option<usize> {
        let line = self.line(text, usize::try_from(position.line).ok()?)?;
        let wanted = usize::try_from(position.character).ok()?;
        let mut passed = 0;
        for (at, character) in text.get(line.clone())?.char_indices() {
            passed += encoding.width(character);
            if passed > wanted {
                return Some(line.start + at);
            }
        }
        Some(line.end)
    }

    /// The lines and characters of a stretch of bytes.
    pub fn range(&self, text: &str, bytes: &Range<usize>, encoding: Encoding) -> LineRange {
        LineRange::new(self.position(text, bytes.start, encoding), self.position(text, bytes.end, encoding))
    }

    /// The bytes of a range; nothing when it lies outside the text or runs backwards.
    pub fn bytes(&self, text: &str, range: LineRange, encoding: Encoding) -> Option<Range<usize>> {
        let start = self.byte(text, range.start, encoding)?;
        let end = self.byte(text, range.end, encoding)?;
        (start <= end).then_some(start..end)
    }
}

/// A count in the protocol's numbers.
pub fn number(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
