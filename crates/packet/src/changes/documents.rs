//! Which documents of a packet differ, so that they have to be issued again.

use crate::Packet;
use crate::drawing::Drawing;
use crate::sheet::Sheet;
use crate::show;
use quantity::System;
use std::fmt::Write as _;

/// What is to be done with a document.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Issue {
    /// It differs: issue it again.
    Again,
    /// It was not there before.
    New,
    /// There is none any more.
    Withdrawn,
}

impl Issue {
    /// Its word in data.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Again => "again",
            Self::New => "new",
            Self::Withdrawn => "withdrawn",
        }
    }
}

/// A document that differs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Document {
    /// Its name in files and links.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What is to be done with it.
    pub issue: Issue,
    /// Of a table: how many rows came or differ, and how many went or differ.
    pub rows: Option<[usize; 2]>,
}

/// One document: its name, title, and what it says, piece by piece.
struct Said {
    id: String,
    title: String,
    pieces: Vec<String>,
    is_table: bool,
}

/// Every document that differs, in the order of the packet.
pub fn documents(old: &Packet, new: &Packet) -> Vec<Document> {
    let (before, after) = (all(old), all(new));
    let mut documents = Vec::new();
    for said in &after {
        let was = before.iter().find(|other| other.id == said.id);
        let (issue, rows) = match was {
            None => (Issue::New, None),
            Some(was) if was.pieces == said.pieces => continue,
            Some(was) => (Issue::Again, said.is_table.then(|| [without(said, was), without(was, said)])),
        };
        documents.push(Document { id: said.id.clone(), title: said.title.clone(), issue, rows });
    }
    for was in before.iter().filter(|was| !after.iter().any(|said| said.id == was.id)) {
        documents.push(Document { id: was.id.clone(), title: was.title.clone(), issue: Issue::Withdrawn, rows: None });
    }
    documents
}

/// How many pieces of one are not in the other.
fn without(one: &Said, other: &Said) -> usize {
    let known: std::collections::HashSet<&str> = other.pieces.iter().map(String::as_str).collect();
    one.pieces.iter().filter(|piece| !known.contains(piece.as_str())).count()
}

fn all(packet: &Packet) -> Vec<Said> {
    let units = packet.head.units;
    let sheets = packet.sheets.iter().map(|sheet| of_sheet(sheet, units));
    sheets.chain(packet.drawings.iter().map(of_drawing)).collect()
}

/// Every row of a sheet, without the numbers by which parts and findings are linked inside one packet.
fn of_sheet(sheet: &Sheet, units: System) -> Said {
    let mut pieces = Vec::new();
    for row in &sheet.rows {
        let mut text = row.group.clone();
        for (cell, column) in row.cells.iter().zip(&sheet.columns) {
            // A number in a list of findings changes with every finding before it.
            if column.key == "number" && row.finding.is_some() {
                continue;
            }
            let _ = write!(text, "\u{1f}{}\u{1e}{}", show::shown(cell, units), cell.case);
        }
        pieces.push(text);
    }
    pieces.extend(sheet.notes.iter().cloned());
    pieces.extend(sheet.sources.iter().cloned());
    Said { id: sheet.id.to_owned(), title: sheet.title.to_owned(), pieces, is_table: true }
}

/// Every element of a drawing: what it stands for, its shapes and its texts.
fn of_drawing(drawing: &Drawing) -> Said {
    let mut pieces = Vec::new();
    for element in &drawing.elements {
        let part = element.part.as_ref().map_or("", |part| part.title.as_str());
        pieces.push(format!("{part}\u{1f}{:?}\u{1f}{:?}", element.shapes, element.labels));
    }
    pieces.extend(drawing.notes.iter().cloned());
    let title = format!("{}: {}", drawing.title, drawing.part_title);
    Said { id: drawing.id.clone(), title, pieces, is_table: false }
}
