//! A review for a terminal: findings by signal word, the worst first; then what is undecided, waived and counted.

use crate::finding_terminal::finding;
use crate::places::Places;
use crate::sanitise::{prose, quoted};
use crate::sheet::{Sheet, signal_style};
use crate::words::{self, WORST_FIRST};
use crate::{Style, TerminalOptions, visible};
use owo_colors::Style as Paint;
use rules::finding::{Finding, Review};
use rules::{Region, Signal};

/// A review as text for a terminal. `hold_at` is the signal word at which a failed check holds the build.
pub fn terminal(review: &Review, hold_at: Signal, options: TerminalOptions) -> String {
    let mut sheet = Sheet::new(Style::Terminal(options));
    let places = Places::new(&review.files);
    head(&mut sheet, review);
    failed(&mut sheet, &places, review);
    undecided(&mut sheet, &places, review);
    waived(&mut sheet, &places, review);
    end(&mut sheet, &places, review, hold_at);
    sheet.finish()
}

fn head(sheet: &mut Sheet, review: &Review) {
    let dash = sheet.dash();
    let name = review.build.as_deref().map_or_else(|| String::from("Unnamed build"), |name| visible(name).into_owned());
    sheet.heading(
        &format!("{name} {dash} stage {}, rules for {}", words::stage_word(review.stage), words::basis(review)),
        Paint::new().bold(),
    );
    let files: Vec<String> = review.files.iter().map(|file| visible(&file.name).into_owned()).collect();
    sheet.paragraph(&files.join(", "), "", "");
}

fn failed(sheet: &mut Sheet, places: &Places, review: &Review) {
    let mut number = 0;
    for signal in WORST_FIRST {
        let group: Vec<&Finding> = review.failed.iter().filter(|finding| finding.signal == signal).collect();
        if group.is_empty() {
            continue;
        }
        let dash = sheet.dash();
        sheet.heading(
            &format!(
                "{} {dash} {} ({})",
                signal.word().to_uppercase(),
                words::meaning(signal),
                words::counted(group.len(), "finding", "findings")
            ),
            signal_style(signal),
        );
        for failed in group {
            number += 1;
            sheet.gap();
            finding(sheet, places, failed, number);
        }
    }
    if number == 0 {
        sheet.gap();
        sheet.paragraph("No check failed.", "", "");
    }
}

fn undecided(sheet: &mut Sheet, places: &Places, review: &Review) {
    if review.undecided.is_empty() {
        return;
    }
    let dash = sheet.dash();
    sheet.heading(&format!("UNDECIDED {dash} the specification does not say enough to tell"), Paint::new().bold());
    for signal in WORST_FIRST {
        for open in review.undecided.iter().filter(|finding| finding.signal == signal) {
            let word = sheet.paint(signal.word(), signal_style(signal));
            let pad = " ".repeat(9_usize.saturating_sub(signal.word().len()));
            sheet.gap();
            sheet.line(&format!("  {word}{pad}{}", quoted(&open.part)));
            sheet.paragraph(&prose(&open.title), "           ", "           ");
            sheet.line(&format!("           {}  [{}]", places.short(&open.place), visible(&open.rule)));
            sheet.fields("           ", "To settle it", words::missing(open));
        }
    }
}

fn waived(sheet: &mut Sheet, places: &Places, review: &Review) {
    if review.waived.is_empty() {
        return;
    }
    let dash = sheet.dash();
    sheet.heading(&format!("WAIVED {dash} known, and accepted by someone"), Paint::new().bold());
    for finding in &review.waived {
        sheet.gap();
        let word = sheet.paint(finding.signal.word(), signal_style(finding.signal));
        let pad = " ".repeat(9_usize.saturating_sub(finding.signal.word().len()));
        sheet.line(&format!("  {word}{pad}{}", quoted(&finding.part)));
        sheet.paragraph(&prose(&finding.message), "           ", "           ");
        sheet.line(&format!("           {}  [{}]", places.short(&finding.place), visible(&finding.rule)));
        if let Some(waiver) = &finding.waived {
            let until = waiver
                .until
                .as_deref()
                .map_or_else(|| String::from("without an end"), |day| format!("until {}", visible(day)));
            sheet.field("           ", "Accepted by", &format!("{}, {until}", visible(&waiver.by)));
            sheet.field("           ", "Reason", &prose(&waiver.reason));
            sheet.field("           ", "Evidence", &prose(waiver.evidence.as_deref().unwrap_or_default()));
            sheet.field("           ", "Waived at", &places.short(&waiver.place));
        }
    }
}

fn end(sheet: &mut Sheet, places: &Places, review: &Review, hold_at: Signal) {
    let dash = sheet.dash();
    if !review.settle.is_empty() {
        sheet.heading(&format!("TO SETTLE FIRST {dash} entries that would decide most"), Paint::new().bold());
        for entry in &review.settle {
            let count = words::counted(entry.checks, "check", "checks");
            sheet.field("  ", &count, &format!("{}  ({})", prose(&entry.entry), places.short(&entry.place)));
        }
    }
    sheet.heading("COUNT OF CHECKS", Paint::new().bold());
    for (label, count) in words::counts(review) {
        sheet.line(&format!("  {label:<16}{count}"));
    }
    sheet.gap();
    let held = words::held(review, hold_at);
    let paint = if held.held { Paint::new().bold() } else { Paint::new() };
    sheet.heading(&held.reason, paint);
    sheet.gap();
    sheet.paragraph(&format!("CAUTION: {}", words::CAUTION), "", "");
}

/// The regions for which a rule's values stand, in words.
pub(crate) fn values_for(region: Option<Region>) -> Option<String> {
    region.map(|region| match region {
        Region::Any => String::from("with the values for every region"),
        other => format!("with the values for {}", words::region_words(other)),
    })
}
