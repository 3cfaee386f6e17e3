//! What can be wrong with a text, in words for the builder who wrote it.

use super::tree::{Bytes, shift_bytes};

/// The kinds of faults. Each has a rule name, so that every finding can be looked up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum FaultKind {
    /// The file's bytes are not UTF-8.
    NotUtf8,
    /// The file is larger than [`super::LARGEST`].
    TooLarge,
    /// Braces are nested deeper than [`super::DEEPEST`].
    TooDeep,
    /// A brace is opened and never closed.
    UnclosedBlock,
    /// A closing brace has no opening one.
    StrayClosingBrace,
    /// A block's opening brace is missing.
    UnopenedBlock,
    /// A string has no closing quotes.
    UnclosedString,
    /// A block comment has no end.
    UnclosedComment,
    /// A quantity or word stands without the quotes that it needs.
    MissingQuotes,
    /// A bare number has a decimal comma.
    DecimalComma,
    /// Typographic quotes instead of straight ones.
    CurlyQuotes,
    /// KDL version 1.
    OldSyntax,
    /// Nothing stands behind `name=`.
    MissingValue,
    /// An equals sign where none can be.
    StrayEquals,
    /// Two values touch, with no blank between them.
    MissingBlank,
    /// A second node on a line without a semicolon before it.
    MissingSemicolon,
    /// A node does not begin with a name.
    MissingName,
    /// A character that cannot stand in a bare word, or nowhere in a text.
    ForbiddenCharacter,
    /// A backslash in a string with something behind it that has no meaning.
    UnknownEscape,
    /// A multi-line string whose lines are not indented as its end.
    MultiLineIndent,
    /// `/-` with nothing behind it that it could switch off.
    EmptySwitchOff,
    /// Anything else that cannot be read.
    Unreadable,
    /// More faults than are reported one by one.
    ManyMore,
}

impl FaultKind {
    /// Every kind, in the order of the reference.
    pub const ALL: [FaultKind; 23] = [
        FaultKind::NotUtf8,
        FaultKind::TooLarge,
        FaultKind::TooDeep,
        FaultKind::UnclosedBlock,
        FaultKind::StrayClosingBrace,
        FaultKind::UnopenedBlock,
        FaultKind::UnclosedString,
        FaultKind::UnclosedComment,
        FaultKind::MissingQuotes,
        FaultKind::DecimalComma,
        FaultKind::CurlyQuotes,
        FaultKind::OldSyntax,
        FaultKind::MissingValue,
        FaultKind::StrayEquals,
        FaultKind::MissingBlank,
        FaultKind::MissingSemicolon,
        FaultKind::MissingName,
        FaultKind::ForbiddenCharacter,
        FaultKind::UnknownEscape,
        FaultKind::MultiLineIndent,
        FaultKind::EmptySwitchOff,
        FaultKind::Unreadable,
        FaultKind::ManyMore,
    ];

    /// The rule name under which the fault is documented.
    pub fn rule(self) -> &'static str {
        match self {
            FaultKind::NotUtf8 => "text/not-utf8",
            FaultKind::TooLarge => "text/too-large",
            FaultKind::TooDeep => "text/too-deep",
            FaultKind::UnclosedBlock => "text/unclosed-block",
            FaultKind::StrayClosingBrace => "text/stray-closing-brace",
            FaultKind::UnopenedBlock => "text/unopened-block",
            FaultKind::UnclosedString => "text/unclosed-string",
            FaultKind::UnclosedComment => "text/unclosed-comment",
            FaultKind::MissingQuotes => "text/missing-quotes",
            FaultKind::DecimalComma => "text/decimal-comma",
            FaultKind::CurlyQuotes => "text/curly-quotes",
            FaultKind::OldSyntax => "text/old-syntax",
            FaultKind::MissingValue => "text/missing-value",
            FaultKind::StrayEquals => "text/stray-equals",
            FaultKind::MissingBlank => "text/missing-blank",
            FaultKind::MissingSemicolon => "text/missing-semicolon",
            FaultKind::MissingName => "text/missing-name",
            FaultKind::ForbiddenCharacter => "text/forbidden-character",
            FaultKind::UnknownEscape => "text/unknown-escape",
            FaultKind::MultiLineIndent => "text/multi-line-indent",
            FaultKind::EmptySwitchOff => "text/empty-switch-off",
            FaultKind::Unreadable => "text/unreadable",
            FaultKind::ManyMore => "text/many-more",
        }
    }
}

/// A replacement of a byte range that mends the fault.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// What to replace; empty to insert.
    pub at: Bytes,
    /// What to write there.
    pub text: String,
}

/// Something in the text that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextFault {
    /// The kind, with its rule name.
    pub kind: FaultKind,
    /// The narrowest place of the fault.
    pub at: Bytes,
    /// What is wrong.
    pub message: String,
    /// Why it matters.
    pub why: String,
    /// A replacement, only where it is certain.
    pub instead: Option<Mend>,
    /// What to write instead.
    pub help: String,
}

impl TextFault {
    /// Moves the fault and its mend by `shift` bytes.
    pub(crate) fn shift(&mut self, shift: i64) {
        shift_bytes(&mut self.at, shift);
        if let Some(mend) = &mut self.instead {
            shift_bytes(&mut mend.at, shift);
        }
    }
}
