//! The load and energy budget: what takes energy in a day, by season and bank of batteries.

use super::{Made, made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, RowKind, Value, column};
use crate::system::System;
use crate::words::{column as heading, energy as words};
use design::{CaseId, EnergyShare, Fact, PartId};
use quantity::Dimension;
use vocabulary::{Axes, fact::week as w, kind};

const COLUMNS: &[Column] = &[
    column("load", words::LOAD, Kind::Part),
    column("power", heading::POWER, Kind::Quantity(Dimension::POWER)),
    column("current", words::CURRENT, Kind::Quantity(Dimension::CURRENT)),
    column("on-in-a-day", words::HOURS, Kind::Quantity(Dimension::TIME)),
    column("when", words::WHEN, Kind::Text),
    column("taken-in-a-day", words::TAKEN, Kind::Quantity(Dimension::ENERGY)),
];

/// One design week in one season.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Season {
    /// The week.
    pub week: PartId,
    /// Its place among the weeks, from 0.
    pub bank: usize,
    /// The case of its climate.
    pub case: CaseId,
    /// What it is called: the season, and the batteries where there are several banks.
    pub title: String,
}

/// The design weeks of the build, each in each of its seasons.
pub fn seasons(desk: &mut Desk<'_, '_>) -> Vec<Season> {
    let weeks = desk.of_kind(kind::WEEK);
    let mut seasons = Vec::new();
    for (bank, &week) in weeks.iter().enumerate() {
        for case in desk.reader.cases_among(Axes::CLIMATE) {
            let climate = desk.reader.cases().climate(case).to_owned();
            let mut title =
                if climate.is_empty() { words::ANY_SEASON.to_owned() } else { report::sentence_start(&climate) };
            if weeks.len() > 1 {
                let batteries = desk.fact_in(week, w::BATTERIES, case);
                title = format!("{title}, {}", crate::show::shown(&batteries, desk.review.units));
            }
            seasons.push(Season { week, bank, case, title });
        }
    }
    seasons
}

/// What each load takes, and the sum of each season.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("energy", words::TITLE, words::PURPOSE, COLUMNS);
    for season in seasons(desk) {
        let shares = desk.reader.energy_shares(season.week, season.case).unwrap_or_default();
        for share in &shares {
            let row = share_row(desk, share);
            sheet.rows.push(under(&season.title, row));
        }
        if shares.is_empty() {
            continue;
        }
        let sum = desk.fact_in(season.week, w::ENERGY_A_DAY, season.case);
        let cells = vec![Cell::text(words::SUM), Cell::empty(), Cell::empty(), Cell::empty(), Cell::empty(), sum];
        let row = Row { kind: RowKind::Total, ..desk.plain(System::Direct, cells) };
        sheet.rows.push(under(&season.title, row));
        for source in sources(desk, &season) {
            if !sheet.sources.contains(&source) {
                sheet.sources.push(source);
            }
        }
    }
    sheet.notes = vec![words::NOTE.to_owned(), words::NOTE_IDLE.to_owned()];
    made(sheet, words::NOTHING)
}

fn share_row(desk: &mut Desk<'_, '_>, share: &EnergyShare) -> Row {
    let taken = match &share.taken {
        Ok(energy) => Cell::quantity(*energy, Dimension::ENERGY),
        Err(gaps) => desk.unknown(gaps),
    };
    let on = share.seconds.map_or_else(Cell::empty, |seconds| Cell::quantity(seconds, Dimension::TIME));
    let part = share.part;
    let (power, current) = if share.idle { ("idle", "") } else { ("power", "current") };
    let mut power = desk.said(part, power);
    let current = desk.said(part, current);
    if let (true, true, Some(watts)) = (power.is_empty(), current.is_empty(), share.watts) {
        // What nobody wrote is reckoned from the size of the inverter.
        power = Cell { assumed: true, ..Cell::quantity(watts, Dimension::POWER) };
    }
    let when = if share.idle { Cell::text(words::IDLE) } else { desk.said(part, "when") };
    let cells = vec![desk.part(part), power, current, on, when, taken];
    let row = desk.row(part, cells);
    if matches!(row.cells[0].value, Value::Empty) { desk.plain(System::Direct, row.cells) } else { row }
}

/// What the sums rest on, from their working.
fn sources(desk: &mut Desk<'_, '_>, season: &Season) -> Vec<String> {
    let mut sources = Vec::new();
    for fact in [w::ENERGY_A_DAY, w::SUN_A_DAY, w::USABLE_ENERGY] {
        if matches!(desk.reader.fact(season.week, fact, season.case), Ok(Fact::Number(_))) {
            for step in desk.reader.working(season.week, fact, season.case).steps {
                if let Some(source) = step.source.filter(|source| !sources.contains(source)) {
                    sources.push(source);
                }
            }
        }
    }
    sources
}
