//! The design week of each season: what the batteries give, what comes back, how far they sink and how long they last.

use super::energy::{Season, seasons};
use super::{Made, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Value, column};
use crate::system::System;
use crate::words::week as words;
use quantity::Dimension;
use vocabulary::{FactId, FactKind, fact::week as w};

const COLUMNS: &[Column] = &[
    column("result", words::RESULT, Kind::Text),
    column("energy", words::ENERGY, Kind::Quantity(Dimension::ENERGY)),
    column("time", words::TIME, Kind::Quantity(Dimension::TIME)),
    column("share", words::SHARE, Kind::Quantity(Dimension::RATIO)),
    column("told", words::TOLD, Kind::Text),
];

/// What is told of each season, in this order.
const RESULTS: &[(FactId, &str)] = &[
    (w::ENERGY_A_DAY, words::TAKEN),
    (w::IDLE_ENERGY_A_DAY, words::IDLE),
    (w::HEATING_A_NIGHT, words::HEATING_A_NIGHT),
    (w::HEATING_A_WEEK, words::HEATING_A_WEEK),
    (w::USABLE_ENERGY, words::USABLE),
    (w::SUN_A_DAY, words::SUN),
    (w::DRIVING_A_DAY, words::DRIVING),
    (w::MAINS_A_DAY, words::MAINS),
    (w::AUTONOMY, words::AUTONOMY),
    (w::AUTONOMY_AT_BEST, words::AUTONOMY_AT_BEST),
    (w::OFF_GRID, words::ASKED),
    (w::LASTS, words::LASTS),
    (w::LOWEST, words::LOWEST),
    (w::LOWEST_AT_BEST, words::LOWEST_AT_BEST),
    (w::LOWEST_AT_BEST_WHEN, words::LOWEST_WHEN),
    (w::LOWEST_CHARGE, words::LOWEST_CHARGE),
    (w::UNSERVED, words::UNSERVED),
    (w::SUSTAINED, words::SUSTAINED),
    (w::DEFICIT_AT_BEST, words::DEFICIT),
    (w::DECIDING, words::DECIDING),
    (w::WITHOUT_DECIDING, words::WITHOUT_DECIDING),
    (w::RECHARGE_BY_SUN, words::BY_SUN),
    (w::RECHARGE_BY_DRIVING, words::BY_DRIVING),
    (w::RECHARGE_BY_SHORE, words::BY_SHORE),
    (w::RECHARGE_BY_GENERATOR, words::BY_GENERATOR),
];

/// The results with whatever is not known at its best: told only where that is not the result itself.
const AT_BEST: [(FactId, FactId); 2] = [(w::AUTONOMY_AT_BEST, w::AUTONOMY), (w::LOWEST_AT_BEST, w::LOWEST)];

/// The results of every season.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("week", words::TITLE, words::PURPOSE, COLUMNS);
    for season in seasons(desk) {
        for (fact, title) in RESULTS {
            let cell = desk.fact_in(season.week, *fact, season.case);
            if !is_told(desk, &season, *fact, &cell) {
                continue;
            }
            let mut cells = vec![Cell::text(*title), Cell::empty(), Cell::empty(), Cell::empty(), Cell::empty()];
            let place = match vocabulary::fact_spec(*fact).kind {
                FactKind::Quantity(Dimension::ENERGY) => 1,
                FactKind::Quantity(Dimension::TIME) => 2,
                FactKind::Quantity(_) => 3,
                _ => 4,
            };
            cells[place] = cell;
            sheet.rows.push(under(&season.title, desk.plain(System::Direct, cells)));
        }
    }
    sheet.notes = vec![words::NOTE.to_owned(), words::NOTE_RANGE.to_owned()];
    made(sheet, words::NOTHING)
}

fn is_told(desk: &mut Desk<'_, '_>, season: &Season, fact: FactId, cell: &Cell) -> bool {
    // What has no answer (a recharge by a generator that is not there) is no row.
    if matches!(&cell.value, Value::Unknown { settle } if settle.is_empty()) {
        return false;
    }
    if fact == w::OFF_GRID || fact == w::LASTS {
        let asked = desk.fact_in(season.week, w::OFF_GRID_ASKED, season.case);
        return asked.value == Value::Flag(true);
    }
    if fact == w::HEATING_A_NIGHT || fact == w::HEATING_A_WEEK {
        return desk.fact_in(season.week, w::HEATING_ASKED, season.case).value == Value::Flag(true);
    }
    match AT_BEST.iter().find(|(best, _)| *best == fact) {
        Some((_, exact)) => matches!(desk.fact_in(season.week, *exact, season.case).value, Value::Unknown { .. }),
        None => true,
    }
}
