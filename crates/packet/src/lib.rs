//! The papers of a build, made from its checked text and never typed twice: sheets, drawings and the record of findings.
//!
//! [`packet`] makes a [`Packet`] of a linked build and its review: everything as data, without a word of how it is shown.
//! The writers under [`mod@write`] turn it into one self-contained page, a table file for each sheet, a drawing file for each
//! drawing, and JSON. Nothing here has input, output, a clock or an environment: the day, the packs and the version of the
//! program are handed in.

pub mod changes;
mod desk;
mod drawing;
mod head;
mod marks;
mod sheet;
mod sheets;
mod show;
mod system;
mod units;
mod words;
pub mod write;

pub use drawing::{Bounds, Drawing, Element, Label, Shape, Stroke};
pub use head::{Approved, Given, Head, Held, Pack};
pub use marks::{FindingMark, Marks, Standing};
pub use sheet::{Cell, Column, Form, Kind, Part, Row, RowKind, Sheet, Value};
pub use show::shown;
pub use system::System;

use design::{Build, Reader};
use desk::Desk;
use rules::Review;
use std::sync::Arc;

/// A document that is left out, and why.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LeftOut {
    /// Its title.
    pub title: String,
    /// Why there is none.
    pub why: String,
}

/// The papers of one build.
#[derive(Clone, PartialEq, Debug)]
pub struct Packet {
    /// What every sheet and drawing carries.
    pub head: Head,
    /// The sheets, in the order of the packet.
    pub sheets: Vec<Sheet>,
    /// The drawings.
    pub drawings: Vec<Drawing>,
    /// What is left out.
    pub left_out: Vec<LeftOut>,
    /// The text that all of it was made from: each file's name and text.
    pub files: Vec<(String, String)>,
    /// Which findings are on which part.
    pub marks: Marks,
    /// The review that all of it was made from.
    pub review: Arc<Review>,
}

/// Makes the papers of a build. The review must be of the same build.
pub fn packet(build: &Build, review: Arc<Review>, given: &Given) -> Packet {
    let mut reader = Reader::new(build);
    let marks = Marks::of(build, &review);
    let mut desk = Desk::new(&mut reader, &review, &marks);
    let head = Head::of(&mut desk, given);
    let (mut sheets, mut left_out) = sheets::all(&mut desk, &head);
    let (mut drawings, more) = drawing::all(&mut desk);
    left_out.extend(more);
    if words::american::is_spoken(build) {
        sheets.iter_mut().for_each(words::american::sheet);
        drawings.iter_mut().for_each(words::american::drawing);
    }
    Packet {
        head,
        sheets,
        drawings,
        left_out,
        files: review.files.iter().map(|file| (file.name.clone(), file.text.to_string())).collect(),
        marks,
        review,
    }
}
