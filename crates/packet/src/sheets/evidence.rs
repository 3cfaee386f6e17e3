//! The index of evidence and certificates.

use super::{Made, table, under};
use crate::desk::Desk;
use crate::head::Head;
use crate::sheet::{Cell, Column, Kind, Value, column};
use crate::show;
use crate::system::System;
use crate::words::{column as heading, evidence as words};
use design::{Build, PartId};
use vocabulary::{fact, kind};

const COLUMNS: &[Column] = &[
    column("paper", heading::EVIDENCE, Kind::Text),
    column("proves", words::PROVES, Kind::Text),
    column("part", words::NAMED_BY, Kind::Part),
    column("seen", words::SEEN, Kind::ByHand),
];

/// The papers that the text names, and those that a handover has.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("evidence", words::TITLE, words::PURPOSE, COLUMNS);
    let parts: Vec<PartId> = desk.build.parts().map(|(number, _)| number).collect();
    for part in parts {
        let of = desk.build.part(part).kind;
        for name in ["evidence", "locked-rotor-proof"] {
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
                words::SAID.to_owned()
            };
            let cells = vec![cell, Cell::text(proves), desk.part(part), Cell::by_hand()];
            let row = under(words::NAMED, desk.row(part, cells));
            sheet.rows.push(row);
        }
    }
    for (paper, proves, system) in words::HANDOVER {
        if system.is_empty() || described(desk, system) {
            let cells = vec![Cell::text(*paper), Cell::text(*proves), Cell::empty(), Cell::by_hand()];
            sheet.rows.push(under(words::DUE, desk.plain(System::Whole, cells)));
        }
    }
    sheet.notes = vec![words::NOTE.to_owned()];
    Made::Sheet(sheet)
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
