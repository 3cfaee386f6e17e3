//! The modes of a build: which sources feed in each, what stays live when a disconnect opens, and what dies when the management
//! of a battery cuts off.

use crate::sanitise::{prose, quoted};
use crate::sheet::Sheet;
use crate::words;
use crate::{Style, visible};
use owo_colors::Style as Paint;

/// One mode: what feeds and what is open.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct ModeRow {
    /// Its name.
    pub name: String,
    /// The sources that feed all the time.
    pub feeding: Vec<String>,
    /// The sources that feed at times.
    pub at_times: Vec<String>,
    /// The switches that are open.
    pub open: Vec<String>,
    /// The switches that may stand either way.
    pub either: Vec<String>,
    /// The entries that would settle what is not known of it.
    pub unsaid: Vec<String>,
}

/// Things that are live from the same sources.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct FedRow {
    /// The things.
    pub things: Vec<String>,
    /// The sources that feed them all the time.
    pub always: Vec<String>,
    /// The sources that feed them at times.
    pub at_times: Vec<String>,
}

/// What lives and what dies in one mode.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct LiveTable {
    /// The mode's name.
    pub name: String,
    /// What is live, by its sources.
    pub fed: Vec<FedRow>,
    /// What is fed while parked and not all the time in this mode.
    pub lost: Vec<String>,
    /// The entries that would settle what is not known of it.
    pub unsaid: Vec<String>,
}

/// The modes of a build.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct ModeSheet {
    /// The build.
    pub build: String,
    /// Every mode.
    pub modes: Vec<ModeRow>,
    /// One table for each disconnect.
    pub disconnects: Vec<LiveTable>,
    /// One table for the management of each bank.
    pub managements: Vec<LiveTable>,
}

/// Columns before a mode's own lines.
const INDENT: &str = "  ";

/// The modes of a build and both tables.
pub fn modes(of: &ModeSheet, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.heading(&format!("Modes of {}", quoted(&of.build)), Paint::new().bold());
    for mode in &of.modes {
        title(&mut sheet, &mode.name);
        names(&mut sheet, "Feeding", &mode.feeding, "nothing");
        names(&mut sheet, "At times", &mode.at_times, "");
        names(&mut sheet, "Open", &mode.open, "");
        names(&mut sheet, "Either way", &mode.either, "");
        unsaid(&mut sheet, &mode.unsaid);
    }
    tables(&mut sheet, "What stays live when a disconnect opens", "The build has no disconnect", &of.disconnects);
    tables(
        &mut sheet,
        "What dies when management cuts off",
        "The build has no battery with management that cuts off",
        &of.managements,
    );
    sheet.gap();
    sheet.paragraph(&format!("CAUTION: {}", words::CAUTION), "", "");
    sheet.finish()
}

fn tables(sheet: &mut Sheet, heading: &str, none: &str, tables: &[LiveTable]) {
    sheet.heading(heading, Paint::new().bold());
    if tables.is_empty() {
        sheet.paragraph(&format!("{none}."), INDENT, INDENT);
    }
    for table in tables {
        title(sheet, &table.name);
        let (steady, at_times): (Vec<&FedRow>, Vec<&FedRow>) = table.fed.iter().partition(|row| !row.always.is_empty());
        for row in steady {
            sheet.field(INDENT, "Stays live", &format!("{}: {}", from(row), listed(&row.things)));
        }
        names(sheet, "Dies", &table.lost, "nothing that is fed while parked");
        for row in at_times {
            sheet.field(INDENT, "At times", &format!("{}: {}", from(row), listed(&row.things)));
        }
        unsaid(sheet, &table.unsaid);
    }
}

fn title(sheet: &mut Sheet, name: &str) {
    match sheet.options() {
        Some(_) => {
            sheet.gap();
            let name = sheet.paint(&visible(name), Paint::new().bold());
            sheet.line(&name);
        }
        None => {
            sheet.gap();
            sheet.line(&format!("Mode {}:", visible(name)));
        }
    }
}

/// From which sources: all the time, or at times only.
fn from(row: &FedRow) -> String {
    match (row.always.is_empty(), row.at_times.is_empty()) {
        (false, true) => format!("from {}", listed(&row.always)),
        (false, false) => format!("from {}, at times {}", listed(&row.always), listed(&row.at_times)),
        (true, false) => format!("from {}", listed(&row.at_times)),
        (true, true) => String::from("from a source that is not known"),
    }
}

fn listed(names: &[String]) -> String {
    let names: Vec<String> = names.iter().map(|name| prose(name)).collect();
    words::joined(&names, "and")
}

/// A field of names; `none` where there are none, and nothing at all where that is empty.
fn names(sheet: &mut Sheet, label: &str, names: &[String], none: &str) {
    let text = if names.is_empty() { none.to_owned() } else { listed(names) };
    sheet.field(INDENT, label, &text);
}

fn unsaid(sheet: &mut Sheet, entries: &[String]) {
    if !entries.is_empty() {
        sheet.field(INDENT, "Not known", &format!("to settle it, write {}", listed(entries)));
    }
}
