//! The index of evidence and certificates.

use super::{Made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Row, Value, column};
use crate::show;
use crate::system::System;
use crate::words::{column as heading, evidence as words, service};
use design::{Build, PartId};
use vocabulary::{fact, kind};

const COLUMNS: &[Column] = &[
    column("paper", heading::EVIDENCE, Kind::Text),
    column("proves", words::PROVES, Kind::Text),
    column("part", words::NAMED_BY, Kind::Part),
    column("due", service::DUE, Kind::Text),
    column("seen", words::SEEN, Kind::ByHand),
];

/// The entries that name a paper or what a label says, and what that proves.
const PAPERS: &[(&str, &str)] = &[
    ("evidence", words::SAID),
    ("locked-rotor-proof", words::SAID),
    ("floor-proof", words::FLOOR),
    ("approval", words::APPROVAL),
    ("tested-to", words::TESTED_TO),
    ("mattress-label", words::MATTRESS),
];

/// What certificates are about, by their word.
const ABOUT: &[(&str, &str)] = &[
    ("gas", words::GAS),
    ("gas-declaration", words::GAS_DECLARATION),
    ("electrical", words::ELECTRICAL),
    ("mass", words::MASS),
    ("self-containment", words::SELF_CONTAINMENT),
    ("plan", words::PLAN),
    ("other", words::OTHER),
];

/// The papers that the text names, and those that a handover has.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("evidence", words::TITLE, words::PURPOSE, COLUMNS);
    let parts: Vec<PartId> = desk.build.parts().map(|(number, _)| number).collect();
    for part in parts {
        let of = desk.build.part(part).kind;
        for (name, proves) in PAPERS {
            if vocabulary::part(of).family == vocabulary::Family::Worked {
                continue;
            }
            let cell = desk.said(part, name);
            if cell.is_empty() {
                continue;
            }
            let proves = if of == kind::WAIVE {
                let rule = desk.said(part, "rule");
                format!("{}: {}", words::WAIVER, show::shown(&rule, desk.review.units))
            } else {
                (*proves).to_owned()
            };
            let cells = vec![cell, Cell::text(proves), desk.part(part), Cell::empty(), Cell::by_hand()];
            let row = under(words::NAMED, desk.row(part, cells));
            sheet.rows.push(row);
        }
    }
    let certificates: Vec<PartId> = desk.of_kind(kind::CERTIFICATE).to_vec();
    for certificate in certificates {
        let row = certified(desk, certificate);
        sheet.rows.push(under(words::CERTIFICATES, row));
    }
    if let Some(row) = plans(desk) {
        sheet.rows.push(under(words::CERTIFICATES, row));
    }
    for (paper, proves, system) in words::HANDOVER {
        if system.is_empty() || described(desk, system) {
            let cells = vec![Cell::text(*paper), Cell::text(*proves), Cell::empty(), Cell::empty(), Cell::by_hand()];
            sheet.rows.push(under(words::DUE, desk.plain(System::Whole, cells)));
        }
    }
    sheet.notes = vec![words::NOTE.to_owned()];
    Made::Sheet(sheet)
}

/// The approval of the plans that a unit in which people work needs in the United States, with what of it asks for that; nothing where
/// certainly nothing does.
fn plans(desk: &mut Desk<'_, '_>) -> Option<Row> {
    let vehicle = desk.build.only(kind::VEHICLE)?;
    let works = ["commercial-unit", "work-vehicle"].into_iter().any(|word| desk.is(vehicle, "class", word));
    if !works || !desk.build.regions.us {
        return None;
    }
    let triggers = desk.fact(Build::ROOT, fact::build::PLAN_TRIGGERS_AT_BEST);
    let proves = match &triggers.value {
        Value::Text(triggers) => Cell::text(format!("{} {triggers}", words::PLANS_FOR)),
        Value::Unknown { settle } if settle.is_empty() => return None,
        _ => triggers,
    };
    let cells = vec![Cell::text(words::PLANS), proves, Cell::empty(), Cell::empty(), Cell::by_hand()];
    Some(desk.plain(System::Whole, cells))
}

/// A certificate: its name and number, what it is about, and when it is due again.
fn certified(desk: &mut Desk<'_, '_>, certificate: PartId) -> Row {
    let name = desk.build.part(certificate).name.clone();
    let mut paper = name.map_or_else(|| words::UNTITLED.to_owned(), |name| name.to_string());
    if let Some(number) = desk.told(certificate, "number") {
        paper = format!("{paper}, {} {number}", words::NUMBER);
    }
    for more in ["date", "by"].into_iter().filter_map(|name| desk.told(certificate, name)) {
        paper = format!("{paper}, {more}");
    }
    let about = ABOUT.iter().find(|(word, _)| desk.is(certificate, "proves", word));
    let proves = about.map_or_else(Cell::empty, |(_, proves)| Cell::text(*proves));
    let due = desk.said(certificate, "due");
    let cells = vec![Cell::text(paper), proves, desk.part(certificate), due, Cell::by_hand()];
    desk.row(certificate, cells)
}

/// Whether a system is described in the build.
pub fn described(desk: &mut Desk<'_, '_>, word: &str) -> bool {
    let Value::Parts { parts, .. } = desk.fact(Build::ROOT, fact::build::SYSTEMS).value else { return false };
    parts.iter().any(|part| {
        let part = PartId(part.number);
        let title = desk.fact(part, fact::system::TITLE).value;
        title == Value::Text(word.to_owned())
            && matches!(desk.fact(part, fact::system::DESCRIBED).value, Value::Flag(true))
    })
}
