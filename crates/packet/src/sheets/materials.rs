//! The bill of materials.

use super::{Made, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, RowKind, Value, column};
use crate::system::System;
use crate::words::{column as heading, materials as words};
use design::{Build, PartId};
use quantity::{Currency, Dimension, Quantity};
use vocabulary::{fact::build as b, kind};

const COLUMNS: &[Column] = &[
    column("part", heading::PART, Kind::Part),
    column("what", words::WHAT, Kind::Text),
    column("detail", words::DETAIL, Kind::Text),
    column("count", words::COUNT, Kind::Count),
    column("length", words::LENGTH, Kind::Quantity(Dimension::LENGTH)),
    column("supplier", words::SUPPLIER, Kind::Text),
    column("part-number", words::PART_NUMBER, Kind::Text),
    column("cost", words::COST, Kind::Quantity(Dimension::MONEY)),
    column("waste", words::WASTE, Kind::Quantity(Dimension::RATIO)),
    column("hours", words::HOURS, Kind::Quantity(Dimension::TIME)),
    column("mass", heading::MASS, Kind::Quantity(Dimension::MASS)),
    column("mass-from", words::MASS_FROM, Kind::Text),
    column("status", words::STATUS, Kind::ByHand),
];

/// Where costs, hours of work and what is filled in stand among the columns.
const COST: usize = 7;
const HOURS: usize = 9;
const STATUS: usize = 12;

/// The properties that stand in columns of their own or say nothing to a buyer.
const ELSEWHERE: [&str; 16] = [
    "cost",
    "waste",
    "hours",
    "supplier",
    "part-number",
    "mass",
    "mass-from",
    "mass-tolerance",
    "at",
    "from",
    "size",
    "zone",
    "beside",
    "note",
    "evidence",
    "duty",
];

/// Things, conductors by size, devices by rating.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("materials", words::TITLE, words::PURPOSE, COLUMNS);
    let mut sums: Vec<(Option<Currency>, f64)> = Vec::new();
    let mut without = 0_usize;
    for thing in desk.things() {
        // The vehicle itself, people and what they bring are not bought for the build.
        if matches!(desk.build.part(thing).kind, kind::VEHICLE | kind::PERSONS | kind::CARGO) {
            continue;
        }
        let row = thing_row(desk, thing);
        match row.cells.get(COST).map(|cell| &cell.value) {
            Some(Value::Quantity(cost)) => add(&mut sums, *cost),
            _ => without += 1,
        }
        sheet.rows.push(row);
    }
    conductors(desk, &mut sheet.rows);
    devices(desk, &mut sheet.rows);
    let currency = match sums.as_slice() {
        [(currency, _)] => *currency,
        _ => None,
    };
    for (currency, sum) in sums {
        sheet.rows.push(sum_row(desk, Quantity { value: sum, dimension: Dimension::MONEY, currency }));
    }
    if desk.fact(Build::ROOT, b::PRICED).value == Value::Flag(true) {
        facts(desk, currency, &mut sheet.rows);
    }
    sheet.notes = vec![words::NOTE_LENGTH.to_owned(), format!("{} {without}.", words::NOTE_COST)];
    made(sheet, words::NOTHING)
}

/// Costs of each currency are added by themselves.
fn add(sums: &mut Vec<(Option<Currency>, f64)>, cost: Quantity) {
    match sums.iter_mut().find(|(currency, _)| *currency == cost.currency) {
        Some((_, sum)) => *sum += cost.value,
        None => sums.push((cost.currency, cost.value)),
    }
}

fn sum_row(desk: &Desk<'_, '_>, sum: Quantity) -> Row {
    let mut cells = vec![Cell::empty(); COLUMNS.len()];
    cells[1] = Cell::text(words::SUM);
    cells[COST] = Cell::of(Value::Quantity(sum));
    Row { kind: RowKind::Total, group: words::SUM.to_owned(), ..desk.plain(System::Whole, cells) }
}

/// What all of it comes to by the facts, beside what the client will pay.
fn facts(desk: &mut Desk<'_, '_>, currency: Option<Currency>, rows: &mut Vec<Row>) {
    for (title, fact) in [
        (words::PARTS_COST, b::PARTS_COST),
        (words::WORK_HOURS, b::WORK_HOURS),
        (words::TOTAL_COST, b::TOTAL_COST),
        (words::BUDGET, b::BUDGET),
    ] {
        let mut cell = desk.fact(Build::ROOT, fact);
        if let Value::Quantity(sum) = &mut cell.value {
            sum.currency = sum.currency.or(currency);
        }
        // A price, hours or a budget that nobody gave are no row.
        if matches!(&cell.value, Value::Unknown { settle } if settle.is_empty())
            || fact == b::WORK_HOURS && matches!(&cell.value, Value::Quantity(hours) if hours.value <= 0.0)
            || fact == b::BUDGET && desk.fact(Build::ROOT, b::BUDGET_SAID).value != Value::Flag(true)
        {
            continue;
        }
        let mut cells = vec![Cell::empty(); COLUMNS.len()];
        cells[1] = Cell::text(title);
        cells[if fact == b::WORK_HOURS { HOURS } else { COST }] = cell;
        let row = Row { kind: RowKind::Total, ..desk.plain(System::Whole, cells) };
        rows.push(under(words::COSTS, row));
    }
}

fn thing_row(desk: &mut Desk<'_, '_>, thing: PartId) -> Row {
    let spec = vocabulary::part(desk.build.part(thing).kind);
    let given = &desk.build.part(thing).given;
    let mut detail = Vec::new();
    for one in given {
        let fact = vocabulary::fact_spec(one.fact);
        if !ELSEWHERE.contains(&fact.name) {
            let cell = desk.fact(thing, one.fact);
            detail.push(format!("{} {}", fact.name, crate::show::shown(&cell, desk.review.units)));
        }
    }
    let count = match desk.said(thing, "modules") {
        cell if cell.is_empty() => Cell::of(Value::Count(1.0)),
        cell => cell,
    };
    let mass = desk.said(thing, "mass");
    let mass_from = if mass.is_empty() { Cell::empty() } else { desk.fact_named(thing, "mass-from") };
    let cells = vec![
        desk.part(thing),
        Cell::text(spec.word.replace('-', " ")),
        Cell::text(detail.join("; ")),
        count,
        Cell::empty(),
        desk.said(thing, "supplier"),
        desk.said(thing, "part-number"),
        desk.said(thing, "cost"),
        desk.said(thing, "waste"),
        desk.said(thing, "hours"),
        mass,
        mass_from,
        Cell::by_hand(),
    ];
    under(words::THINGS, desk.row(thing, cells))
}

/// Conductors of one size and insulation together: how many lengths, and how much in all.
fn conductors(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    struct Sort {
        size: String,
        insulation: String,
        area: f64,
        lengths: f64,
        sum: f64,
        unknown: usize,
    }
    let mut sorts: Vec<Sort> = Vec::new();
    for run in &desk.circuitry().runs {
        let conductors: Vec<PartId> = run.conductors().collect();
        for conductor in conductors {
            let size = super::conductors::size(desk, conductor);
            let insulation = desk.fact(conductor, vocabulary::fact::conductor::INSULATION);
            let units = desk.review.units;
            let (shown, insulation) = (crate::show::shown(&size, units), crate::show::shown(&insulation, units));
            let area = if let Value::Size { area, .. } = size.value { area } else { 0.0 };
            let written = desk.circuitry().written(conductor);
            let home = if desk.is(written, "return", "chassis") { 1.0 } else { 2.0 };
            let length = match super::conductors::cut_length(desk, conductor).value {
                Value::Quantity(length) => Some(length.value * home),
                _ => None,
            };
            let place = sorts.iter().position(|sort| sort.size == shown && sort.insulation == insulation);
            let place = place.unwrap_or_else(|| {
                sorts.push(Sort { size: shown, insulation, area, lengths: 0.0, sum: 0.0, unknown: 0 });
                sorts.len() - 1
            });
            let Some(sort) = sorts.get_mut(place) else { continue };
            sort.lengths += home;
            match length {
                Some(length) => sort.sum += length,
                None => sort.unknown += 1,
            }
        }
    }
    sorts.sort_by(|one, other| other.area.total_cmp(&one.area));
    for sort in sorts {
        let mut cells = vec![Cell::empty(); COLUMNS.len()];
        cells[1] = Cell::text(sort.size);
        let note =
            if sort.unknown > 0 { format!("{}; {}", sort.insulation, words::UNKNOWN_LENGTHS) } else { sort.insulation };
        cells[2] = Cell::text(note);
        cells[3] = Cell::of(Value::Count(sort.lengths));
        cells[4] = Cell::quantity(sort.sum, Dimension::LENGTH);
        cells[STATUS] = Cell::by_hand();
        rows.push(under(words::CONDUCTORS, desk.plain(System::Direct, cells)));
    }
}

/// Devices of one rating and class together.
fn devices(desk: &mut Desk<'_, '_>, rows: &mut Vec<Row>) {
    let mut sorts: Vec<(String, f64)> = Vec::new();
    for run in &desk.circuitry().runs {
        let devices: Vec<PartId> = run.devices().collect();
        for device in devices {
            let title = super::devices::title(desk, device);
            match sorts.iter_mut().find(|(known, _)| *known == title) {
                Some((_, count)) => *count += 1.0,
                None => sorts.push((title, 1.0)),
            }
        }
    }
    for (title, count) in sorts {
        let mut cells = vec![Cell::empty(); COLUMNS.len()];
        cells[1] = Cell::text(title);
        cells[3] = Cell::of(Value::Count(count));
        cells[STATUS] = Cell::by_hand();
        rows.push(under(words::DEVICES, desk.plain(System::Direct, cells)));
    }
}
