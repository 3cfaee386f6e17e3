//! A summary in Markdown (CommonMark with the tables of GitHub's dialect) for a merge or pull request: the findings of each
//! build, folded; then a table of the builds.
//!
//! The table stands behind the findings, since its rows are known only when every build was reviewed.

use super::common::{self, Files};
use super::{Build, Context, Row, Totals, Unread};
use crate::sanitise::{prose, quoted};
use crate::words;
use rules::Signal;
use rules::finding::Finding;

/// The most findings of a build that are written out. A comment holds 65,536 characters on GitHub (from memory), and a reader
/// less.
const MOST_OF_BUILD: usize = 40;

/// Splits what a builder typed where a forge would make a mention, a reference or a link of it, though it escapes nothing there.
const SPLIT: &str = "<!-- -->";

pub(super) fn head() -> String {
    String::from("## Review of the build specifications\n\n")
}

/// The findings of a build, folded.
pub(super) fn build(context: &Context, build: &Build) -> String {
    let review = build.review;
    let files = Files::new(build);
    let held = words::held(review, context.hold_at);
    let counts = common::by_word(&review.failed);
    let mut parts: Vec<String> = words::WORST_FIRST
        .iter()
        .filter(|signal| common::count(counts, **signal) > 0)
        .map(|signal| format!("{} {}", common::count(counts, *signal), signal.word()))
        .collect();
    for (number, word) in [(review.undecided.len(), "undecided"), (review.waived.len(), "waived")] {
        if number > 0 {
            parts.push(format!("{number} {word}"));
        }
    }
    let counted = if parts.is_empty() { String::from("no findings") } else { parts.join(", ") };
    let state = if held.held { "held" } else { "not held" };
    let path = in_html(common::plain_path(build.path));
    let mut text =
        format!("<details>\n<summary><code>{path}</code>: {state}; {counted}</summary>\n\n{}\n\n", held.reason);
    list(&mut text, &review.failed, |finding| failed(&files, finding));
    if !review.undecided.is_empty() {
        let checks = words::counted(review.undecided.len(), "check is", "checks are");
        text.push_str(&format!("**{checks} undecided.**"));
        let entries: Vec<String> = review
            .settle
            .iter()
            .map(|entry| {
                let checks = words::counted(entry.checks, "check", "checks");
                format!("- {} ({checks}), {}\n", escaped(&prose(&entry.entry)), at(&files, &entry.place))
            })
            .collect();
        let settle = if entries.is_empty() { "" } else { " These entries would settle most:" };
        text.push_str(&format!("{settle}\n\n{}\n", entries.concat()));
        list(&mut text, &review.undecided, |finding| undecided(&files, finding));
    }
    if !review.waived.is_empty() {
        text.push_str("**Waived:**\n\n");
        list(&mut text, &review.waived, |finding| waived(&files, finding));
    }
    text.push_str("</details>\n\n");
    text
}

/// The entry of a build that could not be read.
pub(super) fn unread(unread: &Unread) -> String {
    format!(
        "**{} could not be read, and nothing of it was checked:** {}\n\n",
        escaped(&prose(common::plain_path(&unread.path))),
        escaped(&crate::sentence(&unread.message))
    )
}

/// The table of the builds and the caution.
pub(super) fn tail(totals: &Totals) -> String {
    let mut text = String::new();
    if !totals.rows.is_empty() || !totals.unread_listed.is_empty() {
        let words = words::WORST_FIRST.map(Signal::word).join(" | ");
        text.push_str(&format!("| build | outcome | {words} | undecided | waived |\n"));
        text.push_str("| :-- | :-- | --: | --: | --: | --: | --: | --: |\n");
        totals.rows.iter().for_each(|row| text.push_str(&table_row(row)));
        for unread in &totals.unread_listed {
            let path = escaped(&prose(common::plain_path(&unread.path)));
            text.push_str(&format!("| {path} | not read | | | | | | |\n"));
        }
        text.push('\n');
    }
    let listed = totals.rows.len() + totals.unread_listed.len();
    let more = (totals.builds + totals.unread).saturating_sub(listed);
    if more > 0 {
        text.push_str(&format!("{} not in this table.\n\n", words::counted(more, "more build is", "more builds are")));
    }
    let builds = words::counted(totals.builds, "build", "builds");
    text.push_str(&format!("{builds} reviewed, {} held, {} not read.\n\n", totals.held, totals.unread));
    text.push_str(&format!("**Caution:** {}\n", escaped(words::CAUTION)));
    text
}

fn table_row(row: &Row) -> String {
    let outcome = if row.held { "held" } else { "not held" };
    let counts = words::WORST_FIRST.map(|signal| common::count(row.failed, signal).to_string()).join(" | ");
    let path = escaped(&prose(common::plain_path(&row.path)));
    format!("| {path} | {outcome} | {counts} | {} | {} |\n", row.undecided, row.waived)
}

fn list(text: &mut String, findings: &[Finding], item: impl Fn(&Finding) -> String) {
    for finding in findings.iter().take(MOST_OF_BUILD) {
        text.push_str(&format!("- {}\n", item(finding)));
    }
    let more = findings.len().saturating_sub(MOST_OF_BUILD);
    if more > 0 {
        text.push_str(&format!("- and {more} more\n"));
    }
    if !findings.is_empty() {
        text.push('\n');
    }
}

fn failed(files: &Files, finding: &Finding) -> String {
    let mut text = format!(
        "**{}** {} {}",
        finding.signal.word(),
        escaped(&common::said(finding)),
        escaped(&common::to_do(finding))
    );
    text.push_str(&format!("\\\n  {}", tagged(files, finding)));
    if let Some(caution) = &finding.caution {
        text.push_str(&format!("\\\n  Caution: {}", escaped(&prose(caution))));
    }
    if !finding.follow.is_empty() {
        let rules: Vec<String> = finding.follow.iter().map(|follow| escaped(&prose(&follow.rule))).collect();
        text.push_str(&format!("\\\n  From this follows: {}", rules.join(", ")));
    }
    text
}

fn undecided(files: &Files, finding: &Finding) -> String {
    format!(
        "**{}** {} {}\\\n  {}",
        finding.signal.word(),
        escaped(&common::said(finding)),
        escaped(&common::to_do(finding)),
        tagged(files, finding)
    )
}

fn waived(files: &Files, finding: &Finding) -> String {
    let reason = common::justification(finding).unwrap_or_default();
    format!(
        "**{}** {} {}\\\n  {}",
        finding.signal.word(),
        escaped(&common::said(finding)),
        escaped(&reason),
        tagged(files, finding)
    )
}

/// The part, the rule and the place.
fn tagged(files: &Files, finding: &Finding) -> String {
    let (part, rule) = (escaped(&quoted(&finding.part)), escaped(&prose(&finding.rule)));
    format!("{part}, rule {rule}, {}", at(files, &finding.place))
}

fn at(files: &Files, place: &rules::finding::Place) -> String {
    let path = escaped(&prose(files.path(place)));
    files.region(place).map_or_else(|| path.clone(), |region| format!("{path} line {}", region.start_line))
}

/// Characters behind which a forge looks for a name, a number or an address.
const MARKERS: [char; 8] = ['@', '#', '!', '~', '%', '&', '$', '^'];

/// Whether what follows a character must be split from it: mentions and references of forges are looked for in the rendered
/// text, where escapes are gone.
fn splits(before: &str, character: char, next: Option<char>) -> bool {
    let Some(next) = next else { return false };
    let ends_with = |word: &str| {
        let tail = before.get(before.len().saturating_sub(word.len())..);
        tail.is_some_and(|tail| tail.eq_ignore_ascii_case(word))
    };
    match character {
        ':' => next == '/' || ends_with("mailto") || ends_with("xmpp"),
        '.' => ends_with("www"),
        '-' => ends_with("gh") && next.is_ascii_digit(),
        marker => MARKERS.contains(&marker) && !next.is_whitespace(),
    }
}

fn rewritten(text: &str, put: impl Fn(&mut String, char)) -> String {
    let mut made = String::with_capacity(text.len() + 16);
    for (at, character) in text.char_indices() {
        put(&mut made, character);
        let behind = text.get(at + character.len_utf8()..).and_then(|rest| rest.chars().next());
        if splits(text.get(..at).unwrap_or_default(), character, behind) {
            made.push_str(SPLIT);
        }
    }
    made
}

fn put_in_html(made: &mut String, character: char) {
    match character {
        '<' => made.push_str("&lt;"),
        '>' => made.push_str("&gt;"),
        '&' => made.push_str("&amp;"),
        '"' => made.push_str("&quot;"),
        // Escaped by a backslash it would still part the cells for some readers.
        '|' => made.push_str("&#124;"),
        _ => made.push(character),
    }
}

/// A text inside an HTML block on one line, where Markdown is not read.
fn in_html(text: &str) -> String {
    rewritten(&prose(text), put_in_html)
}

/// A line of text in which nothing is markup: a backslash before every mark, as CommonMark has it (section on escapes).
pub(super) fn escaped(text: &str) -> String {
    rewritten(text, |made, character| {
        let stays = matches!(character, '<' | '>' | '&' | '"' | '|' | ',' | ';' | '%' | '?' | '\'' | '/' | '@');
        if character.is_ascii_punctuation() && !stays {
            made.push('\\');
        }
        put_in_html(made, character);
    })
}
