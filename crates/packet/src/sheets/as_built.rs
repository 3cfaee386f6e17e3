//! The vehicle as built and weighed, beside what was reckoned: how far the mass model is off, and what the axles carry in each
//! state when it is set right by that.

use super::mass::states;
use super::results::{ResultOf, results};
use super::{Made, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, RowKind, Value, column};
use crate::system::System;
use crate::words::as_built as words;
use design::{CaseId, Fact, PartId};
use quantity::Dimension;
use vocabulary::{fact, fact::vehicle as v, kind};

const MASS: Kind = Kind::Quantity(Dimension::MASS);

const COLUMNS: &[Column] = &[
    column("support", words::SUPPORT, Kind::Part),
    column("reckoned", words::RECKONED, MASS),
    column("weighed", words::WEIGHED, MASS),
    column("left", words::LEFT, MASS),
    column("right", words::RIGHT, MASS),
    column("difference", words::DIFFERENCE, MASS),
    column("tolerance", words::TOLERANCE, MASS),
    column("within", words::WITHIN, Kind::Flag),
    column("set-right", words::SET_RIGHT, MASS),
    column("limit", words::LIMIT, MASS),
    column("margin", words::MARGIN, MASS),
];

/// The name of the state in which the finished vehicle is weighed.
const AS_BUILT: &str = "as built";

/// The masses that were weighed on an axle or coupling of the finished vehicle.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Weighed {
    /// The axle.
    pub support: PartId,
    /// All of it, kg.
    pub mass: f64,
    /// By side, kg, where the wheels were weighed.
    pub sides: Option<[f64; 2]>,
    /// The entry that tells.
    pub entry: PartId,
}

/// What was weighed on each axle of the finished vehicle: the axle as a whole, else its wheels.
pub fn weighed(desk: &mut Desk<'_, '_>) -> Vec<Weighed> {
    let results = results(desk);
    let mass = |result: &ResultOf| result.number.filter(|number| number.dimension == Dimension::MASS);
    let last = |test: &str, on: PartId, side: &str| {
        let own = results.iter().rfind(|one| one.test == test && one.on == Some(on) && one.side == side)?;
        mass(own).map(|mass| (mass.value, own.part))
    };
    let supports = desk.reader.supports();
    let of = |support: PartId| {
        let sides = last("wheel-mass", support, "left").zip(last("wheel-mass", support, "right"));
        let sides_of = sides.map(|((left, _), (right, _))| [left, right]);
        match last("axle-mass", support, "") {
            Some((mass, entry)) => Some(Weighed { support, mass, sides: sides_of, entry }),
            None => {
                let ((left, first), (right, second)) = sides?;
                Some(Weighed { support, mass: left + right, sides: sides_of, entry: first.max(second) })
            }
        }
    };
    supports.into_iter().filter_map(of).collect()
}

/// The mass of the finished vehicle, kg, where every axle was weighed, with an entry that tells when.
pub fn weighed_in_all(desk: &mut Desk<'_, '_>) -> Option<(f64, PartId)> {
    let weighed = weighed(desk);
    let all = desk.reader.supports();
    let whole = !all.is_empty() && all.iter().all(|support| weighed.iter().any(|own| own.support == *support));
    let dated = weighed.iter().rev().find(|own| desk.is_written(own.entry, fact::measured::DATE));
    let entry = dated.or(weighed.last())?.entry;
    whole.then(|| (weighed.iter().map(|own| own.mass).sum(), entry))
}

/// Reckoned beside weighed, and what follows for every state.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("as-built", words::TITLE, words::PURPOSE, COLUMNS);
    let weighed = weighed(desk);
    if weighed.is_empty() {
        return Made::Nothing(words::TITLE, words::NOT_WEIGHED);
    }
    let states = states(desk);
    let Some((built, _)) = states.iter().find(|(_, name)| name == AS_BUILT).cloned() else {
        return Made::Nothing(words::TITLE, words::NOT_RECKONED);
    };
    let mut off: Vec<(PartId, f64)> = Vec::new();
    for one in &weighed {
        let (row, difference) = compared(desk, one, built);
        sheet.rows.push(under(words::COMPARED, row));
        if let Some(difference) = difference {
            off.push((one.support, difference));
        }
    }
    if let Some(row) = whole(desk, built) {
        sheet.rows.push(under(words::COMPARED, row));
    }
    for (case, name) in &states {
        for (support, difference) in &off {
            if let Some(row) = set_right(desk, *support, *difference, *case) {
                sheet.rows.push(under(&format!("{}: {name}", words::STATE), row));
            }
        }
    }
    sheet.notes = vec![words::NOTE.to_owned(), words::NOTE_TOLERANCE.to_owned()];
    made(sheet, words::NOT_WEIGHED)
}

fn loads(desk: &Desk<'_, '_>, support: PartId) -> [vocabulary::FactId; 3] {
    if desk.build.part(support).kind == kind::COUPLING {
        [fact::coupling::LOAD, fact::coupling::LOAD_AT_MOST, fact::coupling::LIMIT]
    } else {
        [fact::axle::LOAD, fact::axle::LOAD_AT_MOST, fact::axle::LIMIT]
    }
}

fn number(desk: &mut Desk<'_, '_>, part: PartId, fact: vocabulary::FactId, case: CaseId) -> Option<f64> {
    match desk.reader.fact(part, fact, case) {
        Ok(Fact::Number(number)) => Some(number),
        _ => None,
    }
}

fn mass(value: f64) -> Cell {
    Cell::quantity(value, Dimension::MASS)
}

/// One axle; and by how much what was weighed is more than what was reckoned, kg.
fn compared(desk: &mut Desk<'_, '_>, one: &Weighed, built: CaseId) -> (Row, Option<f64>) {
    let [load, most, _] = loads(desk, one.support);
    let reckoned = number(desk, one.support, load, built);
    let tolerance = reckoned.zip(number(desk, one.support, most, built)).map(|(load, most)| most - load);
    let difference = reckoned.map(|reckoned| one.mass - reckoned);
    let within = difference.zip(tolerance).map(|(off, tolerance)| off.abs() <= tolerance);
    let cells = vec![
        desk.part(one.support),
        desk.fact_in(one.support, load, built),
        mass(one.mass),
        one.sides.map_or_else(Cell::empty, |[left, _]| mass(left)),
        one.sides.map_or_else(Cell::empty, |[_, right]| mass(right)),
        difference.map_or_else(Cell::empty, mass),
        tolerance.map_or_else(Cell::empty, mass),
        within.map_or_else(Cell::empty, |within| Cell::of(Value::Flag(within))),
        Cell::empty(),
        Cell::empty(),
        Cell::empty(),
    ];
    (Row { system: System::Whole, ..desk.row(one.support, cells) }, difference)
}

/// The vehicle as a whole, where every axle was weighed.
fn whole(desk: &mut Desk<'_, '_>, built: CaseId) -> Option<Row> {
    let (all, _) = weighed_in_all(desk)?;
    let vehicle = desk.build.only(kind::VEHICLE)?;
    let reckoned = number(desk, vehicle, v::LADEN, built);
    let tolerance = reckoned.zip(number(desk, vehicle, v::LADEN_AT_MOST, built)).map(|(load, most)| most - load);
    let difference = reckoned.map(|reckoned| all - reckoned);
    let within = difference.zip(tolerance).map(|(off, tolerance)| off.abs() <= tolerance);
    let mut cells = vec![Cell::empty(); COLUMNS.len()];
    cells[0] = Cell::text(words::WHOLE);
    cells[1] = desk.fact_in(vehicle, v::LADEN, built);
    cells[2] = mass(all);
    cells[5] = difference.map_or_else(Cell::empty, mass);
    cells[6] = tolerance.map_or_else(Cell::empty, mass);
    cells[7] = within.map_or_else(Cell::empty, |within| Cell::of(Value::Flag(within)));
    Some(Row { kind: RowKind::Total, ..desk.plain(System::Whole, cells) })
}

/// What an axle carries in a state, set right by what the scale showed.
fn set_right(desk: &mut Desk<'_, '_>, support: PartId, difference: f64, case: CaseId) -> Option<Row> {
    let [load, _, limit] = loads(desk, support);
    let right = number(desk, support, load, case)? + difference;
    let limit_of = number(desk, support, limit, case);
    let mut cells = vec![Cell::empty(); COLUMNS.len()];
    cells[0] = desk.part(support);
    cells[1] = desk.fact_in(support, load, case);
    cells[8] = mass(right);
    cells[9] = desk.fact_in(support, limit, case);
    cells[10] = limit_of.map_or_else(Cell::empty, |limit| mass(limit - right));
    Some(Row { system: System::Whole, ..desk.row(support, cells) })
}
