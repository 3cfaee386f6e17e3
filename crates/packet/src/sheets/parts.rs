//! The register of parts: everything that is described, with what is said of it. Whatever has no schedule of its own is
//! found here.

use super::{Made, made, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, column};
use crate::show;
use crate::words::{column as heading, parts as words};
use design::{Build, PartId};
use vocabulary::Family;

const COLUMNS: &[Column] = &[
    column("part", heading::PART, Kind::Part),
    column("in", words::STANDS_IN, Kind::Part),
    column("says", words::SAYS, Kind::Text),
];

/// Every written part but the settings of the build.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("parts", words::TITLE, words::PURPOSE, COLUMNS);
    let parts: Vec<PartId> = desk
        .build
        .parts()
        .filter(|(number, part)| *number != Build::ROOT && vocabulary::part(part.kind).family != Family::Worked)
        .map(|(number, _)| number)
        .collect();
    for part in parts {
        let outer = desk.build.part(part).outer.filter(|outer| *outer != Build::ROOT);
        let cells = vec![desk.part(part), outer.map_or_else(Cell::empty, |outer| desk.part(outer)), said(desk, part)];
        let row = desk.row(part, cells);
        sheet.rows.push(row);
    }
    made(sheet, words::NOTHING)
}

/// What is written of a part: `rating 250 A; class T`.
pub fn said(desk: &mut Desk<'_, '_>, part: PartId) -> Cell {
    let of = desk.build.part(part);
    let said: Vec<String> = of
        .given
        .iter()
        .map(|given| {
            let cell = desk.fact(part, given.fact);
            format!("{} {}", vocabulary::fact_spec(given.fact).name, show::shown(&cell, desk.review.units))
        })
        .collect();
    if said.is_empty() { Cell::empty() } else { Cell::text(said.join("; ")) }
}
