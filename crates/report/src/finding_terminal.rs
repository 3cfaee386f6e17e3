//! One finding for a terminal.

use crate::excerpt::excerpt;
use crate::places::Places;
use crate::sanitise::{prose, quoted, sentence};
use crate::sheet::{LABEL, Sheet, signal_style};
use crate::terminal::values_for;
use crate::visible;
use crate::words;
use owo_colors::Style as Paint;
use rules::finding::{FactUsed, Finding, Mend, Place, Related, WorkingStep};
use rules::rule::RuleSource;

/// Columns before the text of a finding.
const INDENT: &str = "    ";

/// A failed finding in full: what, where, what to do, why; then what it rests on.
pub(crate) fn finding(sheet: &mut Sheet, places: &Places, finding: &Finding, number: usize) {
    let lead = format!("{number:>2}. ");
    let part = sheet.paint(&quoted(&finding.part), Paint::new().bold());
    let number = sheet.paint(&lead, signal_style(finding.signal));
    sheet.line(&format!("{number}{part}"));
    sheet.paragraph(&sentence(&finding.message), INDENT, INDENT);
    body(sheet, places, finding);
}

fn body(sheet: &mut Sheet, places: &Places, finding: &Finding) {
    sheet.line(&format!("{INDENT}{}", places.short(&finding.place)));
    let (near, far): (Vec<Related>, Vec<Related>) =
        finding.related.iter().cloned().partition(|other| is_worth_drawing(places, &finding.place, &other.place));
    if let Some(options) = sheet.options() {
        let drawn = excerpt(places, &finding.place, &near, finding.signal, options, INDENT);
        sheet.drawn(&drawn);
    }
    sheet.fields(
        INDENT,
        "See also",
        far.iter().map(|other| format!("{} at {}", prose(&other.label), places.short(&other.place))),
    );
    sheet.field(INDENT, "Do this", &sentence(&finding.remedy));
    if let Some(mend) = &finding.mend {
        sheet.field(INDENT, "Mend", &self::mend(places, mend, &places.short(&mend.place)));
    }
    sheet.field(INDENT, "Why", &prose(&finding.why));
    for (index, fact) in finding.facts.iter().enumerate() {
        sheet.field(INDENT, if index == 0 { "Facts" } else { "" }, &fact_line(fact));
        working(sheet, &fact.working, &format!("{INDENT}{:<LABEL$}", ""));
    }
    sheet.fields(INDENT, "Circumstance", finding.circumstances.iter().map(|line| prose(line)));
    if !finding.case.is_empty() {
        sheet.field(INDENT, "Worst case", &prose(&finding.case));
    }
    sheet.field(INDENT, "Margin", &words::margin(finding).unwrap_or_default());
    let rule = match values_for(finding.region) {
        Some(values) => format!("{}, {values}", visible(&finding.rule)),
        None => visible(&finding.rule).into_owned(),
    };
    sheet.field(INDENT, "Rule", &rule);
    let sources: Vec<String> = finding.sources.iter().map(|source| source_line(sheet, source)).collect();
    for (index, (line, source)) in sources.iter().zip(&finding.sources).enumerate() {
        let label = if index == 0 { "Source" } else { "" };
        sheet.field(INDENT, label, line);
        link(sheet, source);
    }
    sheet.field(INDENT, "Caution", &prose(finding.caution.as_deref().unwrap_or_default()));
    for (index, follow) in finding.follow.iter().enumerate() {
        let text = format!(
            "{}: {} ({}) [{}]",
            quoted(&follow.part),
            prose(&follow.message),
            places.short(&follow.place),
            visible(&follow.rule)
        );
        sheet.field(INDENT, if index == 0 { "Follows" } else { "" }, &text);
    }
}

/// Lines from the finding within which another place of the same file is drawn with it.
const NEAR: u32 = 8;

/// Whether another place belongs in the excerpt: near the finding, or in another file, where the reader has nothing before
/// his eyes. Far places of the same file are named only, or the sources of a current would fill the page.
fn is_worth_drawing(places: &Places, here: &Place, there: &Place) -> bool {
    let line = |place: &Place| places.start(place).map_or(0, |start| start.line);
    here.file != there.file || line(here).abs_diff(line(there)) <= NEAR
}

/// `fault-current of circuit "x" = 1 200 A`.
pub(crate) fn fact_line(fact: &FactUsed) -> String {
    let value = fact.value.as_deref().map_or_else(|| String::from("not known"), prose);
    format!("{} of {} = {value}", visible(&fact.fact), quoted(&fact.part))
}

/// The steps of a working, indented by their depth.
pub(crate) fn working(sheet: &mut Sheet, steps: &[WorkingStep], indent: &str) {
    for step in steps {
        let first = format!("{indent}{}", "  ".repeat(step.depth.min(8) + 1));
        let rest = format!("{first}  ");
        sheet.paragraph(&step_line(step), &first, &rest);
    }
}

/// A step with its source, and whether it is assumed.
pub(crate) fn step_line(step: &WorkingStep) -> String {
    let mut text = prose(&step.text);
    if step.assumed {
        text.push_str(" (assumed)");
    }
    if let Some(source) = &step.source {
        text.push_str(&format!(" [{}]", prose(source)));
    }
    text
}

/// A source with its mark and note.
pub(crate) fn source_line(sheet: &Sheet, source: &RuleSource) -> String {
    let mut text = format!("{} [{}: {}]", words::source(source), source.mark.word(), words::mark_words(source.mark));
    if let Some(note) = &source.note {
        text.push_str(&format!("; {}", prose(note)));
    }
    if sheet.options().is_some_and(|options| options.links) {
        return text;
    }
    sheet.linked(&text, source.address.as_deref())
}

/// The address of a source as a hyperlink of the terminal (OSC 8), on a line of its own so that wrapping cannot cut it.
fn link(sheet: &mut Sheet, source: &RuleSource) {
    let Some(address) = source.address.as_deref() else { return };
    if !sheet.options().is_some_and(|options| options.links) {
        return;
    }
    let shown = visible(address);
    // Only addresses of the web become links, and only when nothing in them had to be made visible.
    if shown == address && (address.starts_with("https://") || address.starts_with("http://")) {
        sheet.line(&format!("{INDENT}{:<LABEL$}\u{1b}]8;;{address}\u{1b}\\{address}\u{1b}]8;;\u{1b}\\", ""));
    } else {
        sheet.line(&format!("{INDENT}{:<LABEL$}{shown}", ""));
    }
}

/// An edit in words; `at` says where.
pub(crate) fn mend(places: &Places, mend: &Mend, at: &str) -> String {
    let old = places.file(&mend.place).and_then(|file| file.text.get(places.bytes(&mend.place))).unwrap_or_default();
    let what = if old.is_empty() {
        format!("write {}", visible(mend.text.trim()))
    } else {
        format!("write {} instead of {}", visible(mend.text.trim()), quoted(old))
    };
    format!("{}: at {at}, {what}", prose(&mend.title))
}
