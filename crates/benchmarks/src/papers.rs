//! A packet with all of its files but the printed one, beside the review of the same text.

use crate::pairs::{Effort, Who, pairs};
use crate::review::{files, specification};
use crate::table::Table;
use crate::{Outcome, SMALLEST_DEMO};
use packet::{Given, Pack};
use rules::{ReviewOptions, Signal, Today};
use spec::text::BlockCache;
use std::time::Duration;

/// The goal: so many times the review.
const GOAL: f64 = 10.0;
const LINES: usize = 2_000;
const EFFORT: Effort = Effort { least: 7, most: 60, time: Duration::from_secs(25) };

/// Measures the packet of a long specification.
pub fn measure(table: &mut Table) -> Outcome<()> {
    let packs = packs::shipped()?;
    let today = jiff::civil::date(2026, 11, 25);
    let options = ReviewOptions { today: Today::Is(today), draft: false };
    let texts = crate::review::Texts { main: specification(LINES)?, included: files()? };
    let given = Given {
        today,
        program: "coachwright 0.0.0".to_owned(),
        packs: vec![Pack { name: "any".to_owned(), edition: "0".to_owned() }],
        hold_at: Signal::Warning,
    };
    // Both begin with the text, as the two commands do.
    let made = || -> Outcome<usize> {
        let build = design::link(spec::read(&texts, SMALLEST_DEMO, &mut BlockCache::new()));
        let review = rules::review::review_build(&build, packs, options);
        let packet = packet::packet(&build, review.into(), &given);
        Ok(packet::write::files(&packet)?.iter().map(|file| file.text.len()).sum())
    };
    table.note(format!("the packet of {LINES} lines has {} bytes", made()?));
    let pairs = pairs(EFFORT, Who::Own, made, || Ok(rules::review(&texts, SMALLEST_DEMO, packs, options)))?;
    table.add(&format!("packet / review, {LINES} lines"), ("packet", "review"), &pairs, 1, Some(GOAL));
    Ok(())
}
