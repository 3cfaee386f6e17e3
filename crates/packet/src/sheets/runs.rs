//! What several sheets ask about runs: their ends, their group, their pieces.

use super::{grouped, under};
use crate::desk::Desk;
use crate::sheet::{Cell, Row};
use crate::system::System;
use design::{End, PartId, Run};
use vocabulary::{fact, kind};

/// The things at an end of a run: the panel, board or busbar there, else everything that is attached.
pub fn at(desk: &Desk<'_, '_>, run: &Run, end: End) -> Vec<PartId> {
    let Some(node) = run.node(end) else { return Vec::new() };
    let mut things: Vec<PartId> = Vec::new();
    for terminal in desk.circuitry().terminals(&[node]) {
        if !things.contains(&terminal.thing) {
            things.push(terminal.thing);
        }
    }
    let common = |part: &PartId| {
        matches!(desk.build.part(*part).kind, kind::PANEL | kind::AC_BOARD | kind::BUSBAR | kind::TRANSFER_SWITCH)
    };
    match things.iter().copied().find(common) {
        Some(one) => vec![one],
        None => things,
    }
}

/// The heading under which a run stands: what feeds it.
pub fn group(desk: &Desk<'_, '_>, run: &Run) -> String {
    match at(desk, run, End::Start).first() {
        Some(part) => desk.build.part(*part).title.to_string(),
        None => crate::words::circuits::OTHERS.to_owned(),
    }
}

/// A row for each piece that `pieces` gives of a run, with its cells, under what feeds the run.
pub fn rows<'r, 'a>(
    desk: &mut Desk<'r, 'a>,
    pieces: impl Fn(&mut Desk<'r, 'a>, &Run) -> Vec<(PartId, Vec<Cell>)>,
) -> Vec<Row> {
    let mut rows = Vec::new();
    for run in &desk.circuitry().runs {
        let group = group(desk, run);
        for (piece, cells) in pieces(desk, run) {
            let mut row = under(&group, desk.row(desk.circuitry().written(piece), cells));
            row.system = System::of(desk.build, run.part);
            rows.push(row);
        }
    }
    grouped(rows)
}

/// The number of a way on its panel.
pub fn number(desk: &mut Desk<'_, '_>, run: &Run) -> Cell {
    if desk.build.part(run.written).kind == kind::WAY { desk.said(run.written, "number") } else { Cell::empty() }
}

/// What a run feeds, without passing through another one: the things attached at its far end.
pub fn fed(desk: &Desk<'_, '_>, run: &Run) -> Vec<PartId> {
    at(desk, run, End::Finish)
}

/// The name of a run on paper: its title without the word for its kind where it has a name of its own.
pub fn name(desk: &mut Desk<'_, '_>, run: &Run) -> String {
    let cell = desk.fact(run.part, fact::run::TITLE);
    match cell.value {
        crate::sheet::Value::Text(text) => text,
        _ => desk.build.part(run.part).title.to_string(),
    }
}
