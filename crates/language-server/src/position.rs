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
        let mut starts = vec![0];
        starts.extend(starts_within(text, 0..text.len()));
        Self { starts }
    }

    /// Follows an edit: `text` is the new text, in which `length` bytes stand where `replaced` was.
    pub fn edit(&mut self, text: &str, replaced: &Range<usize>, length: usize) {
        // One byte more on either side: a carriage return and a line feed may have come together, or been parted.
        let (from, to) = (replaced.start.saturating_sub(1), replaced.end + 1);
        let first = self.starts.partition_point(|start| *start <= from);
        let last = self.starts.partition_point(|start| *start <= to).max(first);
        let (old, new) = (replaced.end - replaced.start, length);
        if let Some(behind) = self.starts.get_mut(last..) {
            behind.iter_mut().for_each(|start| *start = *start - old + new);
        }
        let looked_at = from..(replaced.start + length + 1).min(text.len());
        self.starts.splice(first..last, starts_within(text, looked_at));
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

/// Where lines begin because of a byte in a stretch of a text.
fn starts_within(text: &str, stretch: Range<usize>) -> impl Iterator<Item = usize> + '_ {
    let bytes = text.as_bytes();
    stretch
        .filter(move |at| match bytes.get(*at) {
            Some(b'\n') => true,
            Some(b'\r') => bytes.get(at + 1) != Some(&b'\n'),
            _ => false,
        })
        .map(|at| at + 1)
}

/// A count in the protocol's numbers.
pub fn number(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What stands in texts where counting goes wrong.
    const PIECES: [&str; 14] =
        ["a", "größe", "e\u{301}", "🚐", "👩‍🔧", "\r\n", "\n", "\r", "\t", "\u{FEFF}", "\u{2028}", " ", "\"", "漢字"];

    /// A plain sequence of numbers that looks random (Knuth's multiplier of 64 bits).
    struct Dice(u64);

    impl Dice {
        fn below(&mut self, bound: usize) -> usize {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            usize::try_from(self.0 >> 33).unwrap_or(0) % bound.max(1)
        }

        fn text(&mut self, most: usize) -> String {
            (0..self.below(most + 1)).map(|_| PIECES[self.below(PIECES.len())]).collect()
        }
    }

    /// The position by the protocol's own words: the lines before, then the units of the encoding.
    fn counted(text: &str, byte: usize, encoding: Encoding) -> Position {
        let before = &text[..byte];
        let mut line = 0;
        let mut start = 0;
        for (at, character) in before.char_indices() {
            let with_feed = character == '\r' && text[at + 1..].starts_with('\n');
            if character == '\n' || character == '\r' && !with_feed {
                line += 1;
                start = at + 1;
            }
        }
        let own = &before[start..];
        let units = match encoding {
            Encoding::Utf8 => own.len(),
            Encoding::Utf16 => own.encode_utf16().count(),
        };
        Position::new(line, u32::try_from(units).unwrap())
    }

    #[test]
    fn every_byte_has_a_position_that_leads_back_to_it() {
        let mut dice = Dice(1);
        for _ in 0..400 {
            let text = dice.text(24);
            let lines = Lines::of(&text);
            for encoding in [Encoding::Utf8, Encoding::Utf16] {
                for byte in (0..=text.len()).filter(|byte| text.is_char_boundary(*byte)) {
                    let position = lines.position(&text, byte, encoding);
                    assert_eq!(position, counted(&text, byte, encoding), "{text:?} {byte} {encoding:?}");
                    // Between a carriage return and its line feed there is no place for a cursor.
                    let inside = text[..byte].ends_with('\r') && text[byte..].starts_with('\n');
                    let back = if inside { byte - 1 } else { byte };
                    assert_eq!(lines.byte(&text, position, encoding), Some(back), "{text:?} {byte} {encoding:?}");
                }
            }
        }
    }

    #[test]
    fn lines_that_follow_an_edit_are_those_of_the_new_text() {
        let mut dice = Dice(2);
        let mut text = String::new();
        let mut lines = Lines::of(&text);
        for step in 0..4000 {
            let mut ends = [dice.below(text.len() + 1), dice.below(text.len() + 1)];
            ends.sort_unstable();
            let range = text.floor_char_boundary(ends[0])..text.floor_char_boundary(ends[1]);
            let new = dice.text(6);
            text.replace_range(range.clone(), &new);
            lines.edit(&text, &range, new.len());
            assert_eq!(lines, Lines::of(&text), "step {step}: {text:?}");
            if text.len() > 200 {
                text.clear();
                lines = Lines::of(&text);
            }
        }
    }

    #[test]
    fn positions_are_counted_as_the_client_counts() {
        let cases = [
            // text, what stands at the place, UTF-8 and UTF-16 characters before it
            ("größe\tx", "x", 8, 6),
            ("e\u{301}x", "x", 3, 2),
            ("🚐x", "x", 4, 2),
            ("\u{FEFF}x", "x", 3, 1),
            ("a\r\nx", "x", 0, 0),
        ];
        for (text, what, in_utf8, in_utf16) in cases {
            let byte = text.find(what).unwrap();
            let lines = Lines::of(text);
            for (encoding, wanted) in [(Encoding::Utf8, in_utf8), (Encoding::Utf16, in_utf16)] {
                assert_eq!(lines.position(text, byte, encoding).character, wanted, "{text:?} {encoding:?}");
            }
        }
        // Within a pair of UTF-16 the character's begin is meant.
        let lines = Lines::of("🚐x");
        assert_eq!(lines.byte("🚐x", Position::new(0, 1), Encoding::Utf16), Some(0));
    }
}
