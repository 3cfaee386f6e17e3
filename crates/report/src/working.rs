//! A part's facts with their working.

use crate::finding_terminal::{fact_line, step_line, working as steps};
use crate::sanitise::{prose, quoted};
use crate::sheet::Sheet;
use crate::words;
use crate::{Style, visible};
use owo_colors::Style as Paint;
use rules::finding::FactUsed;

/// Where a fact's value comes from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum FactOrigin {
    /// The builder wrote it.
    Given,
    /// Nobody wrote it, and leaving it out means this value.
    Meant,
    /// It was worked out from other facts.
    WorkedOut,
    /// Nobody wrote it: it is assumed, and the specification can override it.
    Assumed,
    /// Nobody knows it; these entries would settle it.
    Unknown {
        /// What is missing: all of these, in words.
        missing: Vec<String>,
    },
}

/// One fact of a part.
#[derive(Clone, PartialEq, Debug)]
pub struct FactRow {
    /// The fact with its value and working.
    pub fact: FactUsed,
    /// Where its value comes from.
    pub origin: FactOrigin,
    /// One line of help: what the fact is.
    pub help: String,
}

/// A part with its facts.
#[derive(Clone, PartialEq, Debug)]
pub struct PartWorking {
    /// The part's title.
    pub part: String,
    /// Where it stands: `bramble.build.kdl:12:9`.
    pub place: String,
    /// Its facts in the order of the vocabulary.
    pub facts: Vec<FactRow>,
}

/// A part's facts as a table, each with how it was worked out.
pub fn working(part: &PartWorking, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.heading(&quoted(&part.part), Paint::new().bold());
    sheet.line(&visible(&part.place));
    let widest = |column: fn(&FactRow) -> String| {
        part.facts.iter().map(|row| textwrap::core::display_width(&column(row))).max().unwrap_or(0)
    };
    let (names, values) = (widest(|row| visible(&row.fact.fact).into_owned()), widest(value).min(36));
    for row in &part.facts {
        match sheet.options() {
            Some(_) => {
                let name = visible(&row.fact.fact).into_owned();
                let value = value(row);
                let pad = |text: &str, width: usize| {
                    " ".repeat(width.saturating_sub(textwrap::core::display_width(text)) + 2)
                };
                let line = format!("  {name}{}{value}{}", pad(&name, names), pad(&value, values));
                let rest = " ".repeat(4);
                sheet.paragraph(&origin(&row.origin), &line, &rest);
                steps(&mut sheet, &row.fact.working, "  ");
            }
            None => {
                sheet.gap();
                sheet.line(&format!("{}, {}.", fact_line(&row.fact), origin(&row.origin)));
                sheet.field("", "What it is", &prose(&row.help));
                for step in &row.fact.working {
                    sheet.field("", "Worked out", &step_line(step));
                }
            }
        }
    }
    sheet.gap();
    sheet.paragraph(&format!("CAUTION: {}", words::CAUTION), "", "");
    sheet.finish()
}

fn value(row: &FactRow) -> String {
    row.fact.value.as_deref().map_or_else(|| String::from("not known"), prose)
}

fn origin(origin: &FactOrigin) -> String {
    match origin {
        FactOrigin::Given => String::from("given"),
        FactOrigin::Meant => String::from("meant by leaving it out"),
        FactOrigin::WorkedOut => String::from("worked out"),
        FactOrigin::Assumed => String::from("assumed"),
        FactOrigin::Unknown { missing } if missing.is_empty() => String::from("nothing tells it"),
        FactOrigin::Unknown { missing } => {
            let missing: Vec<String> = missing.iter().map(|entry| prose(entry)).collect();
            format!("to settle it: {}", words::joined(&missing, "and"))
        }
    }
}
