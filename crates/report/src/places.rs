//! Lines and columns of the places that a review speaks of.

use rules::finding::{FileText, Place};
use serde::Serialize;
use spec::text::Lines;
use std::cell::OnceCell;
use std::ops::Range;

/// The files of a review, each indexed when it is first asked for.
pub(crate) struct Places<'a> {
    files: &'a [FileText],
    indexes: Vec<OnceCell<Lines>>,
}

/// A place in words.
#[derive(Clone, PartialEq, Eq, Serialize, Debug)]
pub(crate) struct Position {
    /// From 1.
    pub(crate) line: u32,
    /// In characters, from 1.
    pub(crate) column: u32,
    /// From 0.
    pub(crate) byte: usize,
}

impl<'a> Places<'a> {
    pub(crate) fn new(files: &'a [FileText]) -> Self {
        Self { files, indexes: files.iter().map(|_| OnceCell::new()).collect() }
    }

    /// The file of a place; nothing when a finding names none that was read.
    pub(crate) fn file(&self, place: &Place) -> Option<&'a FileText> {
        self.files.get(place.file)
    }

    /// The index of a file's lines.
    pub(crate) fn lines(&self, file: usize) -> Option<&Lines> {
        let text = &self.files.get(file)?.text;
        Some(self.indexes.get(file)?.get_or_init(|| Lines::new(text)))
    }

    /// A place's bytes, kept inside its text and on the borders of characters.
    pub(crate) fn bytes(&self, place: &Place) -> Range<usize> {
        let text: &str = self.file(place).map_or("", |file| &file.text);
        let start = text.floor_char_boundary(place.bytes.start);
        let end = text.ceil_char_boundary(place.bytes.end.max(start));
        start..end
    }

    /// Where a place starts and where it ends.
    pub(crate) fn ends(&self, place: &Place) -> Option<(Position, Position)> {
        let (file, lines) = (self.file(place)?, self.lines(place.file)?);
        let bytes = self.bytes(place);
        let position = |byte: usize| {
            let (line, column) = lines.line_and_column(&file.text, u32::try_from(byte).unwrap_or(u32::MAX));
            Position { line, column, byte }
        };
        Some((position(bytes.start), position(bytes.end)))
    }

    /// Where a place starts.
    pub(crate) fn start(&self, place: &Place) -> Option<Position> {
        Some(self.ends(place)?.0)
    }

    /// `bramble.build.kdl:12:9`, as many terminals make it a link.
    pub(crate) fn short(&self, place: &Place) -> String {
        match (self.file(place), self.start(place)) {
            (Some(file), Some(start)) => {
                format!("{}:{}:{}", crate::visible(&file.name), start.line, start.column)
            }
            _ => String::from("the build as a whole"),
        }
    }

    /// 'line 12, column 9 of file bramble.build.kdl', to be read aloud.
    pub(crate) fn long(&self, place: &Place) -> String {
        match (self.file(place), self.start(place)) {
            (Some(file), Some(start)) => {
                format!("line {}, column {} of file {}", start.line, start.column, crate::visible(&file.name))
            }
            _ => String::from("the build as a whole"),
        }
    }

    /// The text of the line where a place starts, without its indent.
    pub(crate) fn line_text(&self, place: &Place) -> Option<&'a str> {
        let file = self.file(place)?;
        let start = self.start(place)?;
        let bytes = self.lines(place.file)?.bytes(&file.text, start.line)?;
        Some(file.text.get(bytes.start as usize..bytes.end as usize)?.trim())
    }
}
