//! A review as whole sentences: for a listener, a braille line or a file. No colour, nothing drawn.

use crate::finding_plain::finding;
use crate::places::Places;
use crate::sanitise::{prose, quoted, sentence};
use crate::sheet::Sheet;
use crate::words::{self, WORST_FIRST};
use crate::{Style, visible};
use owo_colors::Style as Paint;
use rules::Signal;
use rules::finding::{Finding, Review};

/// A review as sentences. `hold_at` is the signal word at which a failed check holds the build.
pub fn plain(review: &Review, hold_at: Signal) -> String {
    let mut sheet = Sheet::new(Style::Plain);
    let places = Places::new(&review.files);
    head(&mut sheet, review, hold_at);
    let mut number = 0;
    for signal in WORST_FIRST {
        let group: Vec<&Finding> = review.failed.iter().filter(|finding| finding.signal == signal).collect();
        if group.is_empty() {
            continue;
        }
        sheet.heading(
            &format!(
                "Signal word {}, which means: {}. {}",
                signal.word(),
                words::meaning(signal),
                words::counted(group.len(), "finding", "findings")
            ),
            Paint::new(),
        );
        for failed in group {
            number += 1;
            sheet.gap();
            finding(&mut sheet, &places, failed, number, review.failed.len());
        }
    }
    undecided(&mut sheet, &places, review);
    waived(&mut sheet, &places, review);
    end(&mut sheet, &places, review);
    sheet.finish()
}

fn head(sheet: &mut Sheet, review: &Review, hold_at: Signal) {
    let name = review
        .build
        .as_deref()
        .map_or_else(|| String::from("an unnamed build"), |name| format!("build {}", visible(name)));
    sheet.line(&format!(
        "Review of {name}, at stage {}, by the rules for {}.",
        words::stage_word(review.stage),
        words::basis(review)
    ));
    let files: Vec<String> = review.files.iter().map(|file| visible(&file.name).into_owned()).collect();
    let read = if files.len() == 1 { "File read" } else { "Files read" };
    sheet.field("", read, &words::joined(&files, "and"));
    // A listener wants the outcome first.
    sheet.line(&words::held(review, hold_at).reason);
    let failed = words::counted(review.failed.len(), "finding", "findings");
    let undecided = words::counted(review.undecided.len(), "undecided check", "undecided checks");
    sheet.line(&format!("There are {failed} and {undecided}.").replace("are 1 finding ", "is 1 finding "));
}

fn undecided(sheet: &mut Sheet, places: &Places, review: &Review) {
    if review.undecided.is_empty() {
        return;
    }
    sheet.heading("Undecided checks: the specification does not say enough to tell", Paint::new());
    for signal in WORST_FIRST {
        for open in review.undecided.iter().filter(|finding| finding.signal == signal) {
            sheet.gap();
            sheet.line(&format!("Undecided, {}, about {}.", signal.word(), quoted(&open.part)));
            sheet.line(&sentence(&open.title));
            sheet.field("", "Place", &places.long(&open.place));
            sheet.field("", "Rule", &visible(&open.rule));
            sheet.fields("", "To settle it, write", words::missing(open));
        }
    }
}

fn waived(sheet: &mut Sheet, places: &Places, review: &Review) {
    if review.waived.is_empty() {
        return;
    }
    sheet.heading("Waived findings: known, and accepted by someone", Paint::new());
    for finding in &review.waived {
        sheet.gap();
        sheet.line(&format!("Waived, {}, about {}.", finding.signal.word(), quoted(&finding.part)));
        sheet.line(&sentence(&finding.message));
        sheet.field("", "Place", &places.long(&finding.place));
        sheet.field("", "Rule", &visible(&finding.rule));
        if let Some(waiver) = &finding.waived {
            let until = waiver
                .until
                .as_deref()
                .map_or_else(|| String::from("without an end"), |day| format!("until {}", visible(day)));
            sheet.line(&format!("Accepted by {}, {until}.", visible(&waiver.by)));
            sheet.field("", "Reason", &prose(&waiver.reason));
            sheet.field("", "Evidence", &prose(waiver.evidence.as_deref().unwrap_or_default()));
            sheet.field("", "The waiver stands at", &places.long(&waiver.place));
        }
    }
}

fn end(sheet: &mut Sheet, places: &Places, review: &Review) {
    if !review.settle.is_empty() {
        sheet.heading("These entries would decide most", Paint::new());
        for entry in &review.settle {
            let count = words::counted(entry.checks, "check", "checks");
            sheet.line(&format!("{}, at {}, for {count}.", prose(&entry.entry), places.long(&entry.place)));
        }
    }
    sheet.heading("Count of checks", Paint::new());
    for (label, count) in words::counts(review) {
        sheet.field("", label, &count);
    }
    sheet.gap();
    sheet.line(&format!("Caution. {}", words::CAUTION));
}
