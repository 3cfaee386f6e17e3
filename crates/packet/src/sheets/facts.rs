//! Sheets that show facts of parts of some kinds, a row each: as data, so that a new one is a table of names and headings.

use super::{Made, grouped, made, table, under};
use crate::desk::Desk;
use crate::sheet::{Cell, Column, Kind, Row, Sheet, Value, column};
use crate::words::column as heading;
use design::{Build, PartId};
use vocabulary::{FactKind, PartKind};

/// Under which heading a row stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Group {
    /// None.
    Nothing,
    /// What it is.
    Kind,
    /// What it is written in: the line of a pipe, the space of a vent.
    Outer,
}

/// A sheet of facts.
#[derive(Clone, Copy, Debug)]
pub struct FactTable {
    /// Its name in files and links, stable.
    pub id: &'static str,
    /// Its title.
    pub title: &'static str,
    /// Who reads it and for what.
    pub purpose: &'static str,
    /// The kinds of the parts that have a row.
    pub kinds: &'static [PartKind],
    /// Under which heading they stand.
    pub group: Group,
    /// What is shown: the name of a fact, and its heading. A kind that has no such fact leaves the cell empty.
    pub shown: &'static [(&'static str, &'static str)],
    /// Why there is no such sheet, where no part has a row.
    pub nothing: &'static str,
}

impl FactTable {
    /// The columns: the part, then the facts, each with the type that the vocabulary gives it.
    pub fn columns(&self) -> Vec<Column> {
        let mut columns = vec![column("part", heading::PART, Kind::Part)];
        for (name, title) in self.shown {
            let spec = self.kinds.iter().find_map(|kind| vocabulary::part(*kind).fact(name));
            columns.push(column(name, title, spec.map_or(Kind::Text, |spec| kind(spec.kind))));
        }
        columns
    }

    /// The sheet of the parts that are kept.
    pub fn sheet(&self, desk: &mut Desk<'_, '_>, keep: impl Fn(&mut Desk<'_, '_>, PartId) -> bool) -> Sheet {
        let mut sheet = Sheet { columns: self.columns(), ..table(self.id, self.title, self.purpose, &[]) };
        for kind in self.kinds {
            for &part in desk.of_kind(*kind) {
                if keep(desk, part) {
                    let row = self.row(desk, part);
                    sheet.rows.push(row);
                }
            }
        }
        if self.group == Group::Outer {
            // The order of the text is that in which gas and water meet what they flow through.
            sheet.rows.sort_by_key(|row| row.part.as_ref().map(|part| part.number));
            sheet.rows = grouped(sheet.rows);
        }
        sheet
    }

    /// The sheet, or that there is nothing to show.
    pub fn made(&self, desk: &mut Desk<'_, '_>) -> Made {
        let sheet = self.sheet(desk, |_, _| true);
        made(sheet, self.nothing)
    }

    fn row(&self, desk: &mut Desk<'_, '_>, part: PartId) -> Row {
        let mut cells = vec![desk.part(part)];
        for (name, _) in self.shown {
            cells.push(told(desk, part, name));
        }
        let row = desk.row(part, cells);
        match self.group {
            Group::Nothing => row,
            Group::Kind => under(&vocabulary::part(desk.build.part(part).kind).word.replace('-', " "), row),
            Group::Outer => {
                let outer = outermost(desk, part);
                under(&desk.build.part(outer).title, row)
            }
        }
    }
}

/// What a part is written in, but for the build itself: the line of what stands in a branch of it.
pub fn outermost(desk: &Desk<'_, '_>, part: PartId) -> PartId {
    let mut here = part;
    while let Some(outer) = desk.build.part(here).outer.filter(|outer| *outer != Build::ROOT) {
        here = outer;
    }
    here
}

/// A fact as a cell. Where no answer exists (the distance from the nearest cooker of a build without one) it is empty.
pub fn told(desk: &mut Desk<'_, '_>, part: PartId, name: &str) -> Cell {
    let cell = desk.said(part, name);
    match &cell.value {
        Value::Unknown { settle } if settle.is_empty() => Cell::empty(),
        Value::Parts { parts, complete: true } if parts.is_empty() => Cell::empty(),
        _ => cell,
    }
}

/// What cells of a fact hold.
const fn kind(of: FactKind) -> Kind {
    match of {
        FactKind::Quantity(dimension) => Kind::Quantity(dimension),
        FactKind::Count => Kind::Count,
        FactKind::WireSize | FactKind::Cores => Kind::Size,
        FactKind::Flag => Kind::Flag,
        FactKind::Part(_) | FactKind::Parts(_) => Kind::Part,
        _ => Kind::Text,
    }
}

#[cfg(test)]
mod tests {
    use super::super::TABLES;

    #[test]
    fn every_column_names_a_fact_of_one_of_its_kinds() {
        let mut ids = std::collections::HashSet::new();
        for table in TABLES {
            assert!(ids.insert(table.id), "{} is there twice", table.id);
            for (name, _) in table.shown {
                let known = table.kinds.iter().any(|kind| vocabulary::part(*kind).fact(name).is_some());
                assert!(known, "{}: no kind has a fact {name}", table.id);
            }
        }
    }
}
