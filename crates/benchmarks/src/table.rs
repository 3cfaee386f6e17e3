//! The table of what was measured.

use crate::pairs::{Pairs, Ratio};
use std::fmt;

/// Seconds as people read them.
const UNITS: [(f64, &str); 4] = [(1.0, "s"), (1e-3, "ms"), (1e-6, "µs"), (1e-9, "ns")];

/// The rows, and what there is to say beside them.
#[derive(Default)]
pub struct Table {
    rows: Vec<Row>,
    notes: Vec<String>,
}

struct Row {
    what: String,
    clock: Ratio,
    processor: Option<Ratio>,
    /// At most this; nothing for a row that only informs.
    goal: Option<f64>,
    pairs: usize,
}

impl Table {
    /// Adds a row. The times are those of one of `parts` equal parts of a run.
    pub fn add(&mut self, what: &str, names: (&str, &str), pairs: &Pairs, parts: usize, goal: Option<f64>) {
        let (first, second) = pairs.seconds();
        let part = |seconds: f64| time(seconds / parts.max(1) as f64);
        self.note(format!("{what}: {} {}, {} {}", names.0, part(first), names.1, part(second)));
        self.rows.push(Row {
            what: what.to_owned(),
            clock: pairs.by_clock(),
            processor: pairs.by_processor(),
            goal,
            pairs: pairs.count(),
        });
    }

    /// Adds something to say, and says it at once, so that the one who waits sees how far it is.
    pub fn note(&mut self, note: String) {
        println!("{note}");
        self.notes.push(note);
    }
}

/// A time with three digits, in the unit that suits it.
fn time(seconds: f64) -> String {
    let (unit, name) = UNITS.into_iter().find(|(unit, _)| seconds >= *unit).unwrap_or((1e-9, "ns"));
    format!("{} {name}", digits(seconds / unit))
}

/// Three digits of a number.
fn digits(number: f64) -> String {
    let decimals = if number >= 100.0 {
        0
    } else if number >= 10.0 {
        1
    } else if number >= 1.0 {
        2
    } else {
        4
    };
    format!("{number:.decimals$}")
}

fn in_words(ratio: Ratio) -> String {
    format!("{} ({}–{})", digits(ratio.median), digits(ratio.least), digits(ratio.most))
}

impl fmt::Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "Ratios: the median over the pairs of runs (smallest–largest); smaller is better.\n")?;
        writeln!(f, "| what | ratio by the clock | ratio by processor time | goal: at most | met | pairs |")?;
        writeln!(f, "|---|---|---|---|---|---|")?;
        for row in &self.rows {
            let (goal, met) = match row.goal {
                None => ("–".to_owned(), "–"),
                Some(goal) => (goal.to_string(), if row.clock.median <= goal { "yes" } else { "NO" }),
            };
            let processor = row.processor.map_or_else(|| "–".to_owned(), in_words);
            writeln!(f, "| {} | {} | {processor} | {goal} | {met} | {} |", row.what, in_words(row.clock), row.pairs)?;
        }
        writeln!(f, "\nMedian processor times, for orientation only:")?;
        self.notes.iter().try_for_each(|note| writeln!(f, "- {note}"))
    }
}
