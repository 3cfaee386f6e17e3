//! Mass and axles: each state of filling with what every axle carries, how the sides and the height stand, and each thing with
//! what it loads.

use super::{Made, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, RowKind, Sheet, Value, column};
use crate::system::System;
use crate::words::{column as heading, mass as words};
use design::{CaseId, PartId};
use quantity::Dimension;
use vocabulary::{Axes, fact, fact::vehicle as v, kind};

const MASS: Kind = Kind::Quantity(Dimension::MASS);

const AXLES: &[Column] = &[
    column("support", words::SUPPORT, Kind::Part),
    column("load", words::LOAD, MASS),
    column("load-at-most", words::AT_MOST, MASS),
    column("limit", words::LIMIT, MASS),
    column("margin", words::MARGIN, MASS),
    column("tyres", words::TYRES, MASS),
];

/// The states of filling in which loads are reckoned, with their names; nothing where nothing was weighed.
pub fn states(desk: &mut Desk<'_, '_>) -> Vec<(CaseId, String)> {
    let cases = desk.reader.cases_among(Axes::FILL);
    let named = cases.into_iter().map(|case| (case, desk.reader.cases().title(case, Axes::FILL)));
    named.filter(|(_, name)| !name.is_empty()).collect()
}

/// What every axle carries in every state.
pub fn axles(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("axles", words::TITLE, words::PURPOSE, AXLES);
    let supports = desk.reader.supports();
    for (case, name) in states(desk) {
        for &support in &supports {
            let row = support_row(desk, support, case);
            sheet.rows.push(under(&name, row));
        }
        if let Some(vehicle) = desk.build.only(kind::VEHICLE) {
            let cells = vec![
                Cell::text(words::WHOLE),
                desk.fact_in(vehicle, v::LADEN, case),
                desk.fact_in(vehicle, v::LADEN_AT_MOST, case),
                desk.fact_in(vehicle, v::GROSS_MASS, case),
                desk.fact_in(vehicle, v::PAYLOAD_LEFT, case),
                Cell::empty(),
            ];
            let row = Row { kind: RowKind::Total, system: System::Whole, ..desk.row(vehicle, cells) };
            sheet.rows.push(under(&name, row));
        }
    }
    sheet.notes = vec![words::NOTE_STATES.to_owned(), words::NOTE_NOT_WEIGHED.to_owned()];
    made(sheet, words::NOT_WEIGHED)
}

fn support_row(desk: &mut Desk<'_, '_>, support: PartId, case: CaseId) -> Row {
    let cells = if desk.build.part(support).kind == kind::COUPLING {
        vec![
            desk.part(support),
            desk.fact_in(support, fact::coupling::LOAD, case),
            desk.fact_in(support, fact::coupling::LOAD_AT_MOST, case),
            desk.fact_in(support, fact::coupling::LIMIT, case),
            Cell::empty(),
            Cell::empty(),
        ]
    } else {
        let tyres = match desk.fact_in(support, fact::axle::TYRES_SAID, case).value {
            Value::Flag(true) => desk.fact_in(support, fact::axle::TYRE_CAPACITY, case),
            _ => Cell::empty(),
        };
        vec![
            desk.part(support),
            desk.fact_in(support, fact::axle::LOAD, case),
            desk.fact_in(support, fact::axle::LOAD_AT_MOST, case),
            desk.fact_in(support, fact::axle::LIMIT, case),
            desk.fact_in(support, fact::axle::MARGIN, case),
            tyres,
        ]
    };
    Row { system: System::Whole, ..desk.row(support, cells) }
}

const BALANCE: &[Column] = &[
    column("state", words::STATE, Kind::Text),
    column("left", words::LEFT, MASS),
    column("right", words::RIGHT, MASS),
    column("difference", words::DIFFERENCE, Kind::Quantity(Dimension::RATIO)),
    column("front-share", words::FRONT_SHARE, Kind::Quantity(Dimension::RATIO)),
    column("centre-behind-front", words::CENTRE_BEHIND, Kind::Quantity(Dimension::LENGTH)),
    column("centre-above-road", words::CENTRE_HEIGHT, Kind::Quantity(Dimension::LENGTH)),
    column("stability", words::STABILITY, Kind::Quantity(Dimension::RATIO)),
];

/// How the mass stands from side to side, along and in height, in every state.
pub fn balance(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("balance", words::BALANCE, words::BALANCE_PURPOSE, BALANCE);
    let Some(vehicle) = desk.build.only(kind::VEHICLE) else {
        return Made::Nothing(words::BALANCE, words::NO_VEHICLE);
    };
    for (case, name) in states(desk) {
        let mut cells = vec![Cell::text(name)];
        for fact in [
            v::LEFT_LOAD,
            v::RIGHT_LOAD,
            v::SIDE_DIFFERENCE,
            v::FRONT_SHARE,
            v::CENTRE_BEHIND_FRONT,
            v::CENTRE_ABOVE_ROAD,
            v::STABILITY_FACTOR,
        ] {
            cells.push(applied(desk.fact_in(vehicle, fact, case)));
        }
        sheet.rows.push(desk.plain(System::Whole, cells));
    }
    sheet.notes = vec![words::NOTE_EVEN.to_owned(), words::NOTE_STABILITY.to_owned()];
    made(sheet, words::NOT_WEIGHED)
}

/// What has no answer (the front share of a trailer) is empty.
fn applied(cell: Cell) -> Cell {
    if matches!(&cell.value, Value::Unknown { settle } if settle.is_empty()) { Cell::empty() } else { cell }
}

const THINGS: &[Column] = &[
    column("part", heading::PART, Kind::Part),
    column("what", words::WHAT, Kind::Text),
    column("mass", heading::MASS, MASS),
    column("mass-from", words::FROM, Kind::Text),
    column("on-the-front", words::ON_FRONT, MASS),
    column("on-the-rear", words::ON_REAR, MASS),
    column("rear-share", words::REAR_SHARE, Kind::Quantity(Dimension::RATIO)),
];

/// Whatever is aboard when the vehicle sets out, the heaviest first, with what it loads.
pub fn things(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("masses", words::THINGS, words::THINGS_PURPOSE, THINGS);
    let Some((case, name)) = states(desk).into_iter().next() else {
        return Made::Nothing(words::THINGS, words::NOT_WEIGHED);
    };
    let mut shares = desk.reader.mass_shares(case);
    let mass = |share: &design::MassShare| share.mass.as_ref().copied().unwrap_or(f64::INFINITY);
    shares.sort_by(|one, other| other.base.cmp(&one.base).then(mass(other).total_cmp(&mass(one))));
    for share in shares {
        let mass = match &share.mass {
            Ok(mass) => Cell::quantity(*mass, Dimension::MASS),
            Err(gaps) => desk.unknown(gaps),
        };
        let (front, rear, part) = match (&share.carried, &share.mass) {
            (Some(carried), Ok(mass)) => {
                let front = carried.first().copied().unwrap_or(0.0);
                let rear: f64 = carried.iter().skip(1).sum();
                let part = if *mass > 0.0 { Cell::quantity(rear / mass, Dimension::RATIO) } else { Cell::empty() };
                (Cell::quantity(front, Dimension::MASS), Cell::quantity(rear, Dimension::MASS), part)
            }
            _ => (Cell::empty(), Cell::empty(), Cell::empty()),
        };
        let from = if share.base { Cell::text(words::SCALE) } else { desk.fact_named(share.part, "mass-from") };
        // The thing itself needs no other words.
        let own = *share.title == *desk.build.part(share.part).title;
        let what = if own { Cell::empty() } else { Cell::text(share.title.to_string()) };
        let cells = vec![desk.part(share.part), what, mass, from, front, rear, part];
        let group = if share.base { words::BASE } else { words::ABOARD };
        let row = desk.row(share.part, cells);
        sheet.rows.push(under(group, row));
    }
    total(desk, &mut sheet, case);
    sheet.notes = vec![format!("{}: {name}.", words::NOTE_STATE), words::NOTE_SHARE.to_owned()];
    made(sheet, words::NOT_WEIGHED)
}

/// The sums are those of the sheet of axles.
fn total(desk: &mut Desk<'_, '_>, sheet: &mut Sheet, case: CaseId) {
    let supports = desk.reader.supports();
    let Some(vehicle) = desk.build.only(kind::VEHICLE) else { return };
    let load = |desk: &mut Desk<'_, '_>, support: PartId| {
        let fact =
            if desk.build.part(support).kind == kind::COUPLING { fact::coupling::LOAD } else { fact::axle::LOAD };
        desk.fact_in(support, fact, case)
    };
    let front = supports.first().map_or_else(Cell::empty, |support| load(desk, *support));
    let behind: Vec<Cell> = supports.iter().skip(1).map(|support| load(desk, *support)).collect();
    let rear = match behind.iter().find(|cell| matches!(cell.value, Value::Unknown { .. })) {
        Some(unknown) => unknown.clone(),
        None => {
            let sum = behind.iter().filter_map(|cell| match &cell.value {
                Value::Quantity(mass) => Some(mass.value),
                _ => None,
            });
            Cell::quantity(sum.sum(), Dimension::MASS)
        }
    };
    let laden = desk.fact_in(vehicle, v::LADEN, case);
    let cells = vec![Cell::text(words::WHOLE), Cell::empty(), laden, Cell::empty(), front, rear, Cell::empty()];
    let row = Row { kind: RowKind::Total, ..desk.plain(System::Whole, cells) };
    sheet.rows.push(under(words::SUM, row));
}

const MOVES: &[Column] = &[
    column("support", words::SUPPORT, Kind::Part),
    column("state", words::WORST_STATE, Kind::Text),
    column("load", words::LOAD, MASS),
    column("limit", words::LIMIT, MASS),
    column("moves", words::MOVES_COLUMN, Kind::Text),
];

/// The moves that take most off each axle, in the state that loads it most.
pub fn moves(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("moves", words::MOVES, words::MOVES_PURPOSE, MOVES);
    for &axle in desk.of_kind(kind::AXLE) {
        let mut worst: Option<(f64, CaseId, String)> = None;
        for (case, name) in states(desk) {
            if let Ok(design::Fact::Number(load)) = desk.reader.fact(axle, fact::axle::LOAD, case)
                && worst.as_ref().is_none_or(|(most, ..)| load > *most)
            {
                worst = Some((load, case, name));
            }
        }
        let Some((load, case, name)) = worst else { continue };
        let moves = desk.fact_in(axle, fact::axle::BEST_MOVES, case);
        if matches!(moves.value, Value::Unknown { .. }) {
            continue;
        }
        let limit = desk.fact_in(axle, fact::axle::LIMIT, case);
        let cells = vec![desk.part(axle), Cell::text(name), Cell::quantity(load, Dimension::MASS), limit, moves];
        let row = desk.row(axle, cells);
        sheet.rows.push(Row { system: System::Whole, ..row });
    }
    made(sheet, words::NO_MOVES)
}
