//! The climate for which warmth, frost and energy are reckoned, and what is wanted inside: a row for each season of use.

use super::{Made, made, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, column};
use crate::system::System;
use crate::words::climate as words;
use quantity::Dimension;
use vocabulary::{fact::brief as b, kind};

const COLUMNS: &[Column] = &[
    column("season", words::SEASON, Kind::Text),
    column("outside", words::OUTSIDE, Kind::Quantity(Dimension::TEMPERATURE)),
    column("inside", words::INSIDE, Kind::Quantity(Dimension::TEMPERATURE)),
    column("asleep", words::ASLEEP, Kind::Quantity(Dimension::TEMPERATURE)),
    column("latitude", words::LATITUDE, Kind::Quantity(Dimension::ANGLE)),
    column("stations", words::STATIONS, Kind::Text),
];

/// The seasons in which the build is used.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("climate", words::TITLE, words::PURPOSE, COLUMNS);
    let Some(brief) = desk.build.only(kind::BRIEF) else { return made(sheet, words::NO_BRIEF) };
    let used = desk.told(brief, "used").unwrap_or_default();
    let stations = desk.said(brief, "near");
    for (season, title, outside, inside) in
        [("winter", words::WINTER, b::COLDEST_NIGHT, b::WARM), ("summer", words::SUMMER, b::HOTTEST_DAY, b::COOL)]
    {
        if !used.contains(season) {
            continue;
        }
        let asleep = if season == "winter" { desk.fact(brief, b::ASLEEP) } else { Cell::empty() };
        let cells = vec![
            Cell::text(title),
            desk.fact(brief, outside),
            desk.fact(brief, inside),
            asleep,
            desk.fact(brief, b::USED_LATITUDE),
            stations.clone(),
        ];
        sheet.rows.push(desk.plain(System::Whole, cells));
    }
    if desk.is_written(brief, b::NEAR) {
        sheet.notes = vec![words::NOTE.to_owned()];
    }
    made(sheet, words::NO_BRIEF)
}
