//! The register of findings and waivers.

use super::{Made, table};
use crate::desk::Desk;
use crate::head::Head;
use crate::marks::{Standing, in_order};
use crate::sheet::{Cell, Column, Kind, Row, RowKind, column};
use crate::system::System;
use crate::words::{column as heading, findings as words};
use rules::finding::{Finding, Outcome};

const COLUMNS: &[Column] = &[
    column("number", heading::NUMBER, Kind::Count),
    column("signal", words::SIGNAL, Kind::Text),
    column("part", heading::PART, Kind::Part),
    column("found", words::FOUND, Kind::Text),
    column("remedy", words::REMEDY, Kind::Text),
    column("rule", words::RULE, Kind::Text),
    column("decision", words::DECISION, Kind::Text),
    column("reason", words::REASON, Kind::Text),
    column("by", words::BY, Kind::Text),
    column("until", words::UNTIL, Kind::Text),
    column("evidence", heading::EVIDENCE, Kind::Text),
    column("decided-on", words::DATE, Kind::ByHand),
];

/// Every finding: failed, undecided, accepted.
pub fn sheet(desk: &mut Desk<'_, '_>, _: &Head) -> Made {
    let mut sheet = table("findings", words::TITLE, words::PURPOSE, COLUMNS);
    let review = desk.review;
    for (index, (standing, finding)) in in_order(review).enumerate() {
        sheet.rows.push(row(desk, index + 1, standing, finding));
        for source in &finding.sources {
            let text = format!("{}: {} ({})", finding.rule, report::source(source), source.mark.word());
            if !sheet.sources.contains(&text) {
                sheet.sources.push(text);
            }
        }
    }
    if sheet.rows.is_empty() {
        // A register without an entry is a statement too, and is kept as one.
        let mut cells = vec![Cell::empty(); COLUMNS.len()];
        if let Some(found) = cells.get_mut(3) {
            *found = Cell::text(words::CLEAN);
        }
        sheet.rows.push(desk.plain(System::Whole, cells));
    }
    Made::Sheet(sheet)
}

fn row(desk: &mut Desk<'_, '_>, number: usize, standing: Standing, finding: &Finding) -> Row {
    let part = desk.build.parts().find(|(_, part)| *part.key == *finding.part_key).map(|(part, _)| part);
    let waived = finding.waived.as_ref();
    let of = |text: Option<&String>| text.map_or_else(Cell::empty, |text| Cell::text(text.clone()));
    let group = match standing {
        Standing::Failed => words::FAILED,
        Standing::Undecided => words::UNDECIDED,
        Standing::Waived => words::WAIVED,
    };
    // A count of findings is far below what a double holds exactly.
    let number_cell = Cell::of(crate::sheet::Value::Count(u32::try_from(number).map_or(0.0, f64::from)));
    let cells = vec![
        number_cell,
        Cell::text(finding.signal.word()),
        part.map_or_else(|| Cell::text(finding.part.clone()), |part| desk.part(desk.circuitry().written(part))),
        Cell::text(found(finding)),
        Cell::text(finding.remedy.clone()),
        Cell::text(&*finding.rule),
        if waived.is_some() { Cell::text(words::ACCEPTED) } else { Cell::by_hand() },
        waived.map_or_else(Cell::by_hand, |waived| Cell::text(waived.reason.clone())),
        waived.map_or_else(Cell::by_hand, |waived| Cell::text(waived.by.clone())),
        of(waived.and_then(|waived| waived.until.as_ref())),
        of(waived.and_then(|waived| waived.evidence.as_ref())),
        Cell::by_hand(),
    ];
    Row {
        // The row is the finding's; the part's own row stands in its schedule.
        part: None,
        kind: RowKind::Item,
        group: group.to_owned(),
        system: part.map_or(System::Whole, |part| System::of(desk.build, part)),
        signal: Some(finding.signal),
        finding: Some(number),
        cells,
    }
}

/// What is found, what is missing, and what follows from it.
fn found(finding: &Finding) -> String {
    let mut text = report::sentence(&finding.message);
    if let Outcome::Undecided { missing } = &finding.outcome {
        let missing: Vec<String> = missing.iter().map(|one| one.alternatives.join(crate::words::OR)).collect();
        text.push(' ');
        text.push_str(&report::sentence(&format!("{}{}", words::MISSING, missing.join("; "))));
    }
    if !finding.follow.is_empty() {
        let follow: Vec<&str> = finding.follow.iter().map(|follow| follow.message.as_str()).collect();
        text.push(' ');
        text.push_str(words::FOLLOWS);
        text.push_str(&follow.join(" "));
    }
    text
}
