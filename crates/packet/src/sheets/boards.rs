//! The cut list: every board of the furniture, those that are cut alike together.

use super::{Made, grouped, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, RowKind, Value, column};
use crate::show;
use crate::system::System;
use crate::words::{boards as words, column as heading};
use design::{CaseId, Fact, PartId};
use quantity::Dimension;
use vocabulary::{fact::board as b, kind};

const COLUMNS: &[Column] = &[
    column("board", words::BOARD, Kind::Part),
    column("of", words::OF, Kind::Part),
    column("count", words::COUNT, Kind::Count),
    column("length", words::LENGTH, Kind::Quantity(Dimension::LENGTH)),
    column("width", words::WIDTH, Kind::Quantity(Dimension::LENGTH)),
    column("area", words::AREA, Kind::Quantity(Dimension::AREA)),
    column("edging", words::EDGING, Kind::Text),
    column("note", heading::NOTE, Kind::Text),
    column("cut", words::CUT, Kind::ByHand),
];

/// Every board under its material and thickness, and the area of each.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("cut-list", words::TITLE, words::PURPOSE, COLUMNS);
    let mut rows = Vec::new();
    let mut sums: Vec<(String, Option<f64>)> = Vec::new();
    for &board in desk.of_kind(kind::BOARD) {
        let units = desk.review.units;
        let (material, thickness) = (desk.said(board, "material"), desk.said(board, "thickness"));
        let told: Vec<String> = [&material, &thickness]
            .into_iter()
            .map(|cell| show::shown(cell, units))
            .filter(|text| !text.is_empty())
            .collect();
        let group = if told.is_empty() { words::NO_MATERIAL.to_owned() } else { told.join(", ") };
        let (row, area) = row(desk, board);
        let place = sums.iter().position(|(known, _)| *known == group);
        match place.and_then(|place| sums.get_mut(place)) {
            Some((_, sum)) => *sum = sum.zip(area).map(|(sum, area)| sum + area),
            None => sums.push((group.clone(), area)),
        }
        rows.push(under(&group, row));
    }
    for (group, area) in sums {
        let area = area.map_or_else(
            || Cell::of(Value::Unknown { settle: vec![words::SETTLE.to_owned()] }),
            |area| Cell::quantity(area, Dimension::AREA),
        );
        let mut cells = vec![Cell::empty(); COLUMNS.len()];
        cells[0] = Cell::text(words::SUM);
        cells[5] = area;
        rows.push(under(&group, Row { kind: RowKind::Total, ..desk.plain(System::Body, cells) }));
    }
    sheet.rows = grouped(rows);
    sheet.notes = vec![words::NOTE.to_owned()];
    made(sheet, words::NOTHING)
}

fn row(desk: &mut Desk<'_, '_>, board: PartId) -> (Row, Option<f64>) {
    let size = match desk.reader.fact(board, b::SIZE, CaseId(0)) {
        Ok(Fact::Opening(size)) => Ok(size),
        Ok(_) => Err(Cell::empty()),
        Err(gaps) => Err(desk.unknown(&gaps)),
    };
    let count = desk.number(board, b::COUNT);
    let area = size.as_ref().ok().zip(count).map(|([length, width], count)| length * width * count);
    let (length, width) = match size {
        Ok([length, width]) => (Cell::quantity(length, Dimension::LENGTH), Cell::quantity(width, Dimension::LENGTH)),
        Err(unknown) => (unknown.clone(), unknown),
    };
    let outer = desk.build.part(board).outer;
    let cells = vec![
        desk.part(board),
        outer.map_or_else(Cell::empty, |outer| desk.part(outer)),
        desk.fact(board, b::COUNT),
        length,
        width,
        area.map_or_else(Cell::empty, |area| Cell::quantity(area, Dimension::AREA)),
        desk.said(board, "edging"),
        desk.said(board, "note"),
        Cell::by_hand(),
    ];
    (desk.row(board, cells), area)
}
