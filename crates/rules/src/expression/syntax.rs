//! An expression as it is written, with the place of every part of it.

use std::ops::Range;

/// A piece of an expression.
#[derive(Clone, Debug)]
pub(super) struct Syntax {
    /// All of it, in bytes of the expression's text.
    pub at: Range<usize>,
    /// What it is.
    pub kind: SyntaxKind,
}

/// What a piece of an expression is.
#[derive(Clone, Debug)]
pub(super) enum SyntaxKind {
    /// A number with one unit of its last written digit.
    Number {
        value: f64,
        step: f64,
    },
    Text(String),
    Flag(bool),
    Name(String),
    /// `of.field`.
    Field {
        of: Box<Syntax>,
        field: String,
        field_at: Range<usize>,
    },
    Unary {
        sign: Sign,
        operand: Box<Syntax>,
    },
    Binary {
        sign: Sign,
        sign_at: Range<usize>,
        left: Box<Syntax>,
        right: Box<Syntax>,
    },
    Conditional {
        test: Box<Syntax>,
        yes: Box<Syntax>,
        no: Box<Syntax>,
    },
    /// `name(arguments)` or `target.name(arguments)`.
    Call {
        target: Option<Box<Syntax>>,
        name: String,
        name_at: Range<usize>,
        arguments: Vec<Syntax>,
    },
    List(Vec<Syntax>),
    /// Something that the language of rules does not have, said in words.
    Foreign {
        what: &'static str,
    },
}

/// An operator.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Sign {
    And,
    Or,
    Not,
    Negative,
    Plus,
    Minus,
    Times,
    Over,
    Equal,
    Differ,
    AtMost,
    AtLeast,
    Below,
    Above,
    In,
}

impl Syntax {
    /// The word, where it is a bare name or a quoted text.
    pub fn word(&self) -> Option<&str> {
        match &self.kind {
            SyntaxKind::Name(word) | SyntaxKind::Text(word) => Some(word),
            _ => None,
        }
    }
}
