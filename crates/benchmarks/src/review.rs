//! A review, without rendering, beside the parse of the same text as one piece by the kdl crate.

use crate::pairs::{Effort, Who, pairs};
use crate::table::Table;
use crate::{Outcome, SMALLEST_DEMO, builds, generate};
use rules::{Review, ReviewOptions, Today, review};
use spec::{LoadFault, Loaded, Loader};
use std::collections::BTreeMap;
use std::time::Duration;

/// The goal at [`GOAL_LINES`]: a share of the parse.
const GOAL: f64 = 0.8;
const GOAL_LINES: usize = 2_000;
/// Lines and how long to measure them; the sizes beside the goal's show how the time grows.
const SIZES: [(usize, Effort); 3] = [
    (200, Effort { least: 30, most: 400, time: Duration::from_secs(8) }),
    (GOAL_LINES, Effort { least: 15, most: 200, time: Duration::from_secs(25) }),
    (20_000, Effort { least: 7, most: 30, time: Duration::from_secs(40) }),
];

/// The texts of a build, held ready: no file is read while measuring.
pub struct Texts {
    pub main: String,
    pub included: BTreeMap<String, String>,
}

impl Loader for Texts {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let text = match from {
            None => Some(&self.main),
            Some(_) => self.included.get(name),
        };
        match text {
            Some(text) => Ok(Loaded { name: name.to_owned(), text: text.clone() }),
            None => Err(LoadFault::Refused(format!("there is no file {name} among the demo builds"))),
        }
    }
}

/// Measures at each size.
pub fn measure(table: &mut Table) -> Outcome<()> {
    let packs = packs::shipped()?;
    let options = ReviewOptions { today: Today::Is(jiff::civil::date(2026, 11, 25)), draft: false };
    let mut per_line = Vec::new();
    for (lines, effort) in SIZES {
        let texts = Texts { main: specification(lines)?, included: files()? };
        let reviewed = review(&texts, SMALLEST_DEMO, packs, options);
        kdl::KdlDocument::parse_v2(&texts.main)?;
        let what = format!("review / kdl's parse, {lines} lines");
        table.note(format!("{lines} lines: {} bytes, {}", texts.main.len(), outcome(&reviewed)));
        let pairs = pairs(
            effort,
            Who::Own,
            || Ok(review(&texts, SMALLEST_DEMO, packs, options)),
            || Ok(kdl::KdlDocument::parse_v2(&texts.main)?),
        )?;
        let (ours, theirs) = pairs.seconds();
        per_line.push((lines, ours / lines as f64, theirs / lines as f64));
        table.add(&what, ("review", "parse"), &pairs, 1, (lines == GOAL_LINES).then_some(GOAL));
    }
    for pair in per_line.windows(2) {
        if let [(lines, ours, theirs), (more_lines, more_ours, more_theirs)] = pair {
            table.note(format!(
                "growth from {lines} to {more_lines} lines, time per line: review {:.2} times, parse {:.2} times",
                more_ours / ours,
                more_theirs / theirs
            ));
        }
    }
    Ok(())
}

/// A specification of so many lines.
pub fn specification(lines: usize) -> Outcome<String> {
    let demo = std::fs::read_to_string(builds().join(SMALLEST_DEMO))?;
    Ok(generate::specification(&demo, lines))
}

/// The files that a demo build may include.
pub fn files() -> Outcome<BTreeMap<String, String>> {
    let mut included = BTreeMap::new();
    for entry in std::fs::read_dir(builds())? {
        let path = entry?.path();
        if let Some(name) = path.file_name().and_then(|name| name.to_str()).filter(|name| name.ends_with(".kdl")) {
            included.insert(name.to_owned(), std::fs::read_to_string(&path)?);
        }
    }
    Ok(included)
}

/// What the review said: a specification that is not clean is not what the goal speaks of.
fn outcome(review: &Review) -> String {
    let counts = &review.counts;
    let failed: usize = counts.failed.iter().sum();
    let undecided: usize = counts.undecided.iter().sum();
    let clean = if failed + undecided == 0 { "" } else { " (NOT CLEAN: renew the blocks that are repeated)" };
    format!("{} checks held, {failed} failed, {undecided} undecided{clean}", counts.held)
}
