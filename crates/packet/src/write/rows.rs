//! The table of a sheet.

use super::front::{badge, typed};
use super::table::place;
use crate::marks::Standing;
use crate::sheet::{Cell, Form, Kind, Part, Row, RowKind, Sheet, Value};
use crate::words::page as words;
use crate::{Packet, show, words as common};
use maud::{Markup, html};
use std::collections::{HashMap, HashSet};

/// Which row is the home of which part: the first that is about it. Links lead there.
#[derive(Debug, Default)]
pub struct Homes {
    at: HashMap<u32, (usize, usize)>,
}

impl Homes {
    /// The homes of a packet's parts. Cards and registers are no homes while a schedule is.
    pub fn of(packet: &Packet) -> Self {
        let mut homes = Self::default();
        // What is looked up is looked for in the schedules first, then in the lists of everything.
        const LAST: [&str; 6] = ["hazards", "labels", "tests", "service", "evidence", "rescue"];
        let is_last = |sheet: &Sheet| LAST.contains(&sheet.id);
        let order = packet.sheets.iter().enumerate();
        let (late, early): (Vec<_>, Vec<_>) = order.partition(|(_, sheet)| is_last(sheet));
        for (place, sheet) in early.into_iter().chain(late) {
            for (number, row) in sheet.rows.iter().enumerate() {
                if let Some(part) = &row.part {
                    homes.at.entry(part.number).or_insert((place, number));
                }
            }
        }
        homes
    }

    /// Whether a part has a row.
    pub fn has(&self, part: u32) -> bool {
        self.at.contains_key(&part)
    }
}

/// A table of more columns than these is set smaller on paper.
const MANY: usize = 14;

/// A table, and what would settle what is not known in it.
pub fn table(packet: &Packet, sheet: &Sheet, number: usize, homes: &Homes) -> (Markup, Vec<String>) {
    let mut settle: Vec<String> = Vec::new();
    let mut used = HashSet::new();
    let columns: Vec<bool> = (0..sheet.columns.len()).map(|index| is_used(sheet, index)).collect();
    let shown = columns.iter().filter(|used| **used).count();
    let before =
        |index: usize| index.checked_sub(1).and_then(|before| sheet.rows.get(before)).map_or("", |row| &row.group);
    let body = html! {
        @for (index, row) in sheet.rows.iter().enumerate() {
            @if row.group != before(index) {
                tr.group { th colspan=(shown) scope="colgroup" { (typed(&row.group)) } }
            }
            (line(packet, sheet, row, (number, index), homes, &columns, &mut settle, &mut used))
        }
    };
    let table = html! {
        div.scroll tabindex="0" role="region" aria-label=(format!("{}, {}", sheet.title, words::SCROLL)) {
            table.(match sheet.form { Form::Card => "card", Form::Table if shown > MANY => "sheet many", Form::Table => "sheet" }) {
                thead {
                    tr {
                        @for (index, column) in sheet.columns.iter().enumerate().filter(|(index, _)| columns[*index]) {
                            th scope="col" data-column=(index) class=[class(column.kind)] { (column.title) }
                        }
                    }
                }
                tbody { (body) }
            }
        }
        p.none hidden { (words::NO_ROW) }
    };
    (table, settle)
}

/// Columns in which no row says anything are left out on paper; table files keep them.
fn is_used(sheet: &Sheet, index: usize) -> bool {
    sheet.rows.iter().any(|row| {
        row.cells.get(index).is_some_and(|cell| !cell.is_empty() && cell.value != Value::Text(String::new()))
    })
}

const fn class(kind: Kind) -> Option<&'static str> {
    match kind {
        Kind::Quantity(_) | Kind::Size | Kind::Count => Some("number"),
        Kind::ByHand => Some("by-hand"),
        _ => None,
    }
}

#[expect(clippy::too_many_arguments, reason = "a row is made from all that the table knows")]
fn line(
    packet: &Packet,
    sheet: &Sheet,
    row: &Row,
    place: (usize, usize),
    homes: &Homes,
    columns: &[bool],
    settle: &mut Vec<String>,
    used: &mut HashSet<u32>,
) -> Markup {
    let part = row.part.as_ref();
    let signal = row.signal.or_else(|| packet.marks.worst_open(part?.number));
    // Marks and the line stand with the part itself, else in the first column.
    let is_own = |cell: &Cell| match (&cell.value, part) {
        (Value::Parts { parts, .. }, Some(own)) => matches!(parts.as_slice(), [only] if only.number == own.number),
        _ => false,
    };
    let first = columns.iter().position(|used| *used).unwrap_or(0);
    let marked = row.cells.iter().position(is_own).unwrap_or(first);
    let id = match (row.finding, part) {
        (Some(finding), _) => Some(format!("f{finding}")),
        (None, Some(part)) if homes.at.get(&part.number) == Some(&place) && used.insert(part.number) => {
            Some(format!("p{}", part.number))
        }
        _ => None,
    };
    html! {
        tr id=[id] class=[(row.kind == RowKind::Total).then_some("total")]
            data-system=(row.system.word()) data-signal=[signal.map(rules::Signal::word)] {
            @for (index, (cell, column)) in row.cells.iter().zip(&sheet.columns).enumerate().filter(|(index, _)| columns[*index]) {
                @let is_first = index == marked;
                @let content = html! {
                    (value(packet, cell, row, homes, settle))
                    @if is_first && row.finding.is_none() { (marks(packet, row)) }
                };
                td class=[class(column.kind).or_else(|| is_long(cell).then_some("long"))] data-value=[key(cell)] { (content) }
            }
        }
    }
}

/// Whether a text holds a word so long that it must be broken.
fn is_long(cell: &Cell) -> bool {
    /// Letters of a word that still finds room in a column.
    const ROOM: usize = 22;
    let long = |text: &str| text.split([' ', '-']).any(|word| word.chars().count() > ROOM);
    match &cell.value {
        Value::Text(text) => long(text),
        Value::Parts { parts, .. } => parts.iter().any(|part| long(&part.name)),
        _ => false,
    }
}

/// What a column is sorted by: numbers by their value.
fn key(cell: &Cell) -> Option<String> {
    match &cell.value {
        Value::Quantity(quantity) => Some(quantity.value.to_string()),
        Value::Size { area, .. } => Some(area.to_string()),
        Value::Count(count) => Some(count.to_string()),
        _ => None,
    }
}

/// The findings on a row's part.
fn marks(packet: &Packet, row: &Row) -> Markup {
    let Some(part) = &row.part else { return html! {} };
    let marks = packet.marks.on(part.number);
    html! {
        @if let Some((file, line)) = part.line {
            " " a.line.screen href=(format!("#l{file}-{line}")) title=(self::place(part, packet)) { (words::LINE) " " (line) }
        }
        @for mark in marks {
            " " a.mark href=(format!("#f{}", mark.number)) {
                (badge(mark.signal))
                span.number { " " (mark.number) @if mark.standing == Standing::Waived { " " (words::WAIVED) } }
            }
        }
    }
}

fn value(packet: &Packet, cell: &Cell, row: &Row, homes: &Homes, settle: &mut Vec<String>) -> Markup {
    let units = packet.head.units;
    let shown = match &cell.value {
        Value::Empty => html! {},
        Value::ByHand => html! { span.box {} },
        Value::Parts { parts, complete } => html! {
            @for (index, part) in parts.iter().enumerate() { @if index > 0 { ", " } (named(part, row, homes)) }
            @if parts.is_empty() { (common::NONE) }
            @if !complete { " (" (common::PERHAPS_MORE) ")" }
        },
        Value::Unknown { settle: missing } if missing.is_empty() => html! { span.unknown { (common::NOT_WORKED_OUT) } },
        Value::Unknown { settle: missing } => {
            let text = missing.join("; ");
            let place = settle.iter().position(|known| *known == text).unwrap_or_else(|| {
                settle.push(text);
                settle.len() - 1
            });
            html! { span.unknown { (common::NOT_KNOWN) " " sup { (place + 1) } } }
        }
        Value::Text(text) if row.signal.is_some_and(|signal| signal.word() == text) => {
            row.signal.map_or_else(|| html! {}, badge)
        }
        _ => typed(&show::shown(cell, units)),
    };
    html! {
        (shown)
        @if cell.assumed { " " span.assumed { (common::ASSUMED) } }
        @if !cell.case.is_empty() { " " span.case { (typed(&cell.case)) } }
    }
}

/// A part by its title, linked to its row where that is another one.
fn named(part: &Part, row: &Row, homes: &Homes) -> Markup {
    let is_own = row.part.as_ref().is_some_and(|own| own.number == part.number);
    // In a register of findings no heading says where a part belongs.
    let called = if row.finding.is_some() { &part.title } else { &part.name };
    html! {
        @if homes.has(part.number) && !is_own {
            a href=(format!("#p{}", part.number)) { (typed(called)) }
        } @else { (typed(called)) }
    }
}
