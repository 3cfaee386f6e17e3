//! One finding as sentences.

use crate::finding_terminal::{mend, source_line, step_line};
use crate::places::Places;
use crate::sanitise::{prose, quoted, sentence};
use crate::sheet::Sheet;
use crate::terminal::values_for;
use crate::visible;
use crate::words;
use rules::finding::{FactUsed, Finding};

/// A failed finding in full.
pub(crate) fn finding(sheet: &mut Sheet, places: &Places, finding: &Finding, number: usize, of: usize) {
    sheet.line(&format!("Finding {number} of {of}, {}, about {}.", finding.signal.word(), quoted(&finding.part)));
    sheet.line(&sentence(&finding.message));
    sheet.field("", "Place", &places.long(&finding.place));
    let line = places.line_text(&finding.place).unwrap_or_default();
    if !line.is_empty() {
        sheet.line(&format!("The line reads: {}", quoted(line)));
    }
    for other in &finding.related {
        sheet.line(&format!("See also {}: {}.", places.long(&other.place), prose(&other.label)));
    }
    sheet.field("", "What to do", &prose(&finding.remedy));
    if let Some(offered) = &finding.mend {
        sheet.field("", "A mend", &mend(places, offered, &places.long(&offered.place)));
    }
    sheet.field("", "Why it matters", &prose(&finding.why));
    for fact in &finding.facts {
        self::fact(sheet, fact);
    }
    sheet.fields("", "Circumstance", finding.circumstances.iter().map(|line| prose(line)));
    sheet.field("", "Worst case", &prose(&finding.case));
    if let Some(margin) = words::margin(finding) {
        sheet.line(&format!("It {margin}."));
    }
    let rule = match values_for(finding.region) {
        Some(values) => format!("{}, {values}", visible(&finding.rule)),
        None => visible(&finding.rule).into_owned(),
    };
    sheet.field("", "Rule", &rule);
    let sources: Vec<String> = finding.sources.iter().map(|source| source_line(sheet, source)).collect();
    sheet.fields("", "Source", sources);
    sheet.field("", "Caution", &prose(finding.caution.as_deref().unwrap_or_default()));
    for follow in &finding.follow {
        sheet.line(&format!(
            "From this follows, for {}: {} It stands at {}, by rule {}.",
            quoted(&follow.part),
            sentence(&follow.message),
            places.long(&follow.place),
            visible(&follow.rule)
        ));
    }
}

fn fact(sheet: &mut Sheet, fact: &FactUsed) {
    let of = format!("{} of {}", visible(&fact.fact), quoted(&fact.part));
    match &fact.value {
        Some(value) => sheet.line(&format!("Fact: {of} is {}.", prose(value))),
        None => sheet.line(&format!("Fact: {of} is not known.")),
    }
    for step in &fact.working {
        sheet.field("", "Worked out", &step_line(step));
    }
}
