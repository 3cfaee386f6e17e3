//! Alarms, ways out, and the ways to them from berths and seats.

use super::Made;
use super::facts::{FactTable, Group};
use crate::desk::Desk;
use crate::head::Head;
use crate::words::safety as words;
use vocabulary::kind;

/// Alarms, extinguishers, blankets.
pub const ALARMS: FactTable = FactTable {
    id: "alarms",
    title: words::ALARMS,
    purpose: words::ALARMS_PURPOSE,
    kinds: &[kind::ALARM, kind::EXTINGUISHER, kind::FIRE_BLANKET],
    group: Group::Kind,
    shown: &[
        ("senses", words::SENSES),
        ("tested-to", words::TESTED_TO),
        ("rating", words::RATING),
        ("power", words::POWER),
        ("switched-by", words::SWITCHED_BY),
        ("replace-by", words::REPLACE_BY),
        ("at", words::AT),
        ("standing-zone", words::ZONE),
        ("above-floor", words::ABOVE_FLOOR),
        ("under-ceiling", words::UNDER_CEILING),
        ("cooker-distance", words::COOKER),
        ("flame-distance", words::FLAME),
    ],
    nothing: words::NO_ALARM,
};

/// The ways out themselves.
pub const EXITS: FactTable = FactTable {
    id: "exits",
    title: words::EXITS,
    purpose: words::EXITS_PURPOSE,
    kinds: &[kind::EXIT],
    group: Group::Nothing,
    shown: &[
        ("side", words::SIDE),
        ("clear-width", words::CLEAR_WIDTH),
        ("clear-height", words::CLEAR_HEIGHT),
        ("gauge", words::GAUGE),
        ("passes-gauge", words::PASSES),
        ("blocked-by", words::BLOCKED),
        ("opened-by", words::OPENED_BY),
        ("leaf", words::LEAF),
        ("latch-height", words::LATCH),
        ("step-up", words::STEP_UP),
    ],
    nothing: words::NO_EXIT,
};

/// The ways from where people sleep and sit.
pub const WAYS: FactTable = FactTable {
    id: "ways-out",
    title: words::WAYS,
    purpose: words::WAYS_PURPOSE,
    kinds: &[kind::BERTH, kind::SEAT],
    group: Group::Kind,
    shown: &[
        ("exits-reached", words::REACHED),
        ("way-width", words::WAY),
        ("second-way-width", words::SECOND_WAY),
        ("free-of-fire", words::FREE_OF_FIRE),
        ("fire-clearance", words::FIRE_CLEARANCE),
        ("monoxide-alarm-distance", words::MONOXIDE_ALARM),
        ("clear-part", words::CLEAR_OVER),
        ("guarded", words::GUARDED),
        ("belt", words::BELT),
        ("anchorage", words::ANCHORAGE),
    ],
    nothing: words::NO_PLACE,
};

pub fn alarms(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    ALARMS.made(desk)
}

pub fn exits(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    EXITS.made(desk)
}

pub fn ways(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = WAYS.sheet(desk, |_, _| true);
    sheet.notes = vec![words::NOTE.to_owned()];
    super::made(sheet, WAYS.nothing)
}
