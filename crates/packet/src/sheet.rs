//! A sheet as data: columns with a type and a unit, rows of typed cells.

use crate::system::System;
use quantity::{Dimension, Quantity};
use rules::Signal;

/// A part of the build as cells and drawings name it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Part {
    /// Its number in the build: what links within a packet are made of.
    pub number: u32,
    /// How findings call it: `circuit "house main"`.
    pub title: String,
    /// Its own name, for cells in which the heading says what it is; its title where it has none.
    pub name: String,
    /// Its identity, stable against edits elsewhere.
    pub key: String,
    /// Where it is written: the number of the file and the line, from 1.
    pub line: Option<(u32, u32)>,
}

/// What the cells of a column hold.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Kind {
    /// Words.
    Text,
    /// Numbers of one dimension.
    Quantity(Dimension),
    /// Conductor sizes.
    Size,
    /// Plain counts.
    Count,
    /// Yes or no.
    Flag,
    /// Parts.
    Part,
    /// Nothing yet: filled in by hand on the paper.
    ByHand,
}

/// One column.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Column {
    /// Its name in table files and JSON, stable.
    pub key: &'static str,
    /// Its heading.
    pub title: &'static str,
    /// What its cells hold.
    pub kind: Kind,
}

/// A column.
pub const fn column(key: &'static str, title: &'static str, kind: Kind) -> Column {
    Column { key, title, kind }
}

/// The value of a cell.
#[derive(Clone, PartialEq, Debug)]
pub enum Value {
    /// There is nothing to say here.
    Empty,
    /// Words: a choice, a sentence, a date.
    Text(String),
    /// A number with its dimension, in coherent SI units.
    Quantity(Quantity),
    /// A conductor size: as it is shown, and its copper area, m².
    Size {
        /// As it is shown.
        shown: String,
        /// Copper area, m².
        area: f64,
    },
    /// A plain count.
    Count(f64),
    /// Yes or no.
    Flag(bool),
    /// Parts; `complete` is false when there may be more.
    Parts {
        /// The parts.
        parts: Vec<Part>,
        /// Whether these are certainly all.
        complete: bool,
    },
    /// Not known, with what would settle it: all of these.
    Unknown {
        /// What would settle it, in words.
        settle: Vec<String>,
    },
    /// Left free to be filled in by hand.
    ByHand,
}

/// One cell.
#[derive(Clone, PartialEq, Debug)]
pub struct Cell {
    /// Its value.
    pub value: Value,
    /// Whether it rests on something that nobody wrote and that is assumed.
    pub assumed: bool,
    /// The case in which it is worst; empty while only one exists.
    pub case: String,
}

impl Cell {
    /// A cell with a value that rests on nothing assumed.
    pub const fn of(value: Value) -> Self {
        Self { value, assumed: false, case: String::new() }
    }

    /// Words.
    pub fn text(text: impl Into<String>) -> Self {
        Self::of(Value::Text(text.into()))
    }

    /// A number with its dimension.
    pub const fn quantity(value: f64, dimension: Dimension) -> Self {
        Self::of(Value::Quantity(Quantity { value, dimension, currency: None }))
    }

    /// Nothing.
    pub const fn empty() -> Self {
        Self::of(Value::Empty)
    }

    /// Filled in by hand.
    pub const fn by_hand() -> Self {
        Self::of(Value::ByHand)
    }

    /// Whether there is nothing to say.
    pub fn is_empty(&self) -> bool {
        self.value == Value::Empty
    }
}

/// What sort of row it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum RowKind {
    /// One thing.
    Item,
    /// A sum or a result of the rows above.
    Total,
}

/// One row.
#[derive(Clone, PartialEq, Debug)]
pub struct Row {
    /// The part that it is about.
    pub part: Option<Part>,
    /// What sort of row it is.
    pub kind: RowKind,
    /// The heading under which it stands, where the sheet is divided: the panel of a circuit.
    pub group: String,
    /// The system that it belongs to.
    pub system: System,
    /// The signal word of the row itself, for findings; the parts' own findings are among the packet's marks.
    pub signal: Option<Signal>,
    /// The number of the finding that it is, for registers of findings.
    pub finding: Option<usize>,
    /// Its cells, one a column.
    pub cells: Vec<Cell>,
}

/// How a sheet is laid out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Form {
    /// A table.
    Table,
    /// A page in large plain words for everybody aboard: two columns, what and what to do.
    Card,
}

/// One sheet.
#[derive(Clone, PartialEq, Debug)]
pub struct Sheet {
    /// Its name in files and links, stable: `circuits`.
    pub id: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Who reads it and for what, in a sentence.
    pub purpose: &'static str,
    /// How it is laid out.
    pub form: Form,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Row>,
    /// What a reader must know.
    pub notes: Vec<String>,
    /// Where its thresholds come from, with evidence marks.
    pub sources: Vec<String>,
}
