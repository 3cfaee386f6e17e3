//! What differs between two revisions of a build, for a terminal and to be read aloud.

use crate::sanitise::{prose, quoted};
use crate::sheet::{LABEL, Sheet, signal_style};
use crate::words;
use crate::{Style, visible};
use owo_colors::Style as Paint;
use rules::Signal;

/// One thing that differs, with lines of its own.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct ChangeItem {
    /// The signal word, of a finding.
    pub signal: Option<Signal>,
    /// What it is.
    pub title: String,
    /// What of it differs: a label, and what is told.
    pub lines: Vec<(String, String)>,
}

/// Things that differ, under a heading.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct ChangeGroup {
    /// The heading.
    pub heading: String,
    /// What is told where there is nothing.
    pub none: String,
    /// The things.
    pub items: Vec<ChangeItem>,
}

/// What differs between two revisions.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct ChangeSheet {
    /// The build.
    pub build: String,
    /// What the two revisions are called.
    pub versions: [String; 2],
    /// What differs.
    pub groups: Vec<ChangeGroup>,
}

/// Columns before the lines of an item.
const INDENT: &str = "  ";

/// What differs, laid out.
pub fn changes(of: &ChangeSheet, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.heading(&format!("Changes of {}", quoted(&of.build)), Paint::new().bold());
    sheet.field("", "Before", &prose(&of.versions[0]));
    sheet.field("", "Now", &prose(&of.versions[1]));
    for group in &of.groups {
        let count = group.items.len();
        let heading = if count == 0 { group.heading.clone() } else { format!("{} ({count})", group.heading) };
        sheet.heading(&heading, Paint::new().bold());
        if count == 0 {
            sheet.paragraph(&group.none, INDENT, INDENT);
        }
        for item in &group.items {
            title(&mut sheet, item);
            for (label, text) in &item.lines {
                // A label as long as its column leaves no room between the two.
                if label.chars().count() < LABEL {
                    sheet.field("    ", label, &prose(text));
                } else {
                    sheet.paragraph(&format!("{label}: {}", prose(text)), "    ", "        ");
                }
            }
        }
    }
    sheet.gap();
    sheet.paragraph(&format!("CAUTION: {}", words::CAUTION), "", "");
    sheet.finish()
}

fn title(sheet: &mut Sheet, item: &ChangeItem) {
    let title = visible(&item.title).into_owned();
    match (item.signal, sheet.options()) {
        (Some(signal), Some(_)) => {
            let word = sheet.paint(&signal.word().to_uppercase(), signal_style(signal));
            let plain = signal.word().to_uppercase();
            // The colour is no part of the width.
            let first = format!("{INDENT}{plain} ");
            let mut text = String::new();
            for (index, line) in sheet.laid_out(&title, &first, "    ").into_iter().enumerate() {
                let line = if index == 0 { line.replacen(&plain, &word, 1) } else { line };
                text.push_str(line.trim_end());
                text.push('\n');
            }
            sheet.drawn(&text);
        }
        (Some(signal), None) => sheet.paragraph(&format!("{}: {title}", signal.word()), "", ""),
        (None, _) => sheet.paragraph(&title, INDENT, "    "),
    }
}
