//! Job tickets by station, each with its hold points and room to sign.

use super::{Made, grouped, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, column};
use crate::show;
use crate::words::{column as heading, jobs as words};
use design::{Build, PartId};
use quantity::Dimension;
use spec::Value as Written;
use vocabulary::{fact, kind};

const COLUMNS: &[Column] = &[
    column("job", words::JOB, Kind::Part),
    column("step", words::STEP, Kind::Text),
    column("parts", words::PARTS, Kind::Part),
    column("not-described", words::UNKNOWN, Kind::Text),
    column("after", words::AFTER, Kind::Text),
    column("planned", words::PLANNED, Kind::Quantity(Dimension::TIME)),
    column("note", heading::NOTE, Kind::Text),
    column("taken", words::TAKEN, Kind::ByHand),
    column("signed", words::SIGNED, Kind::ByHand),
];

/// Every job under its station, in the order of the text, its hold points behind it.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("jobs", words::TITLE, words::PURPOSE, COLUMNS);
    let mut rows = Vec::new();
    for &job in desk.of_kind(kind::JOB) {
        let station = show::shown(&desk.said(job, "station"), desk.review.units);
        let station = if station.is_empty() { words::NO_STATION } else { &station };
        let (parts, unknown) = covered(desk, job);
        let after = after(desk, job);
        let cells = vec![
            desk.part(job),
            Cell::text(words::WORK),
            desk.parts(&parts),
            if unknown.is_empty() { Cell::empty() } else { Cell::text(unknown.join(", ")) },
            after,
            desk.said(job, "hours"),
            desk.said(job, "note"),
            Cell::by_hand(),
            Cell::by_hand(),
        ];
        rows.push(under(station, desk.row(job, cells)));
        let inside = desk.build.part(job).inside.clone();
        for hold in inside.into_iter().filter(|inner| desk.build.part(*inner).kind == kind::HOLD) {
            let row = hold_row(desk, job, hold);
            rows.push(under(station, row));
        }
    }
    sheet.rows = grouped(rows);
    sheet.notes = vec![words::NOTE.to_owned()];
    made(sheet, words::NOTHING)
}

fn hold_row(desk: &mut Desk<'_, '_>, job: PartId, hold: PartId) -> Row {
    let units = desk.review.units;
    let what = show::shown(&desk.said(hold, "what"), units);
    let by = show::shown(&desk.said(hold, "by"), units);
    let by = if by.is_empty() { String::new() } else { format!(" ({})", by) };
    let mut cells = vec![Cell::empty(); COLUMNS.len()];
    cells[0] = desk.part(job);
    cells[1] = Cell::text(format!("{}: {what}{by}", words::HOLD));
    cells[COLUMNS.len() - 1] = Cell::by_hand();
    desk.row(hold, cells)
}

/// The parts that a job is about, and the names that nothing has.
fn covered(desk: &Desk<'_, '_>, job: PartId) -> (Vec<PartId>, Vec<String>) {
    let (mut parts, mut unknown) = (Vec::new(), Vec::new());
    for &inner in desk.build.part(job).inside.iter().filter(|inner| desk.build.part(**inner).kind == kind::COVERS) {
        let Some(given) = desk.build.part(inner).given(fact::covers::THINGS) else { continue };
        let names: Vec<String> = match &given.value {
            Written::Names(names) => names.iter().map(|(name, _)| name.to_string()).collect(),
            Written::Text(name) => vec![name.to_string()],
            _ => continue,
        };
        for name in names {
            match by_name(desk.build, &name) {
                Some(part) => parts.push(part),
                None => unknown.push(name),
            }
        }
    }
    (parts, unknown)
}

/// The job before, and whether there is one of that name.
fn after(desk: &mut Desk<'_, '_>, job: PartId) -> Cell {
    let cell = desk.said(job, "after");
    let name = show::shown(&cell, desk.review.units);
    let known = desk.of_kind(kind::JOB).iter().any(|job| desk.build.part(*job).name.as_deref() == Some(name.as_str()));
    if name.is_empty() || known { cell } else { Cell::text(format!("{name} ({})", words::NO_JOB)) }
}

/// The written part of a name: what has the name itself before what only refers to it.
pub fn by_name(build: &Build, name: &str) -> Option<PartId> {
    let own = |part: &design::Part| {
        let spec = vocabulary::part(part.kind);
        part.name.as_deref() == Some(name)
            && spec.family != vocabulary::Family::Worked
            && spec.naming != vocabulary::Naming::Refers
            && spec.kind != kind::JOB
    };
    let found = build.parts().find(|(_, part)| own(part)).map(|(number, _)| number);
    found.or_else(|| {
        let titled = |part: &design::Part| {
            vocabulary::part(part.kind).family != vocabulary::Family::Worked && *part.title == *name
        };
        build.parts().find(|(_, part)| titled(part)).map(|(number, _)| number)
    })
}
