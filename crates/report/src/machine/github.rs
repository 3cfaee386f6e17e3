//! Annotations for GitHub: workflow commands, one a line, escaped as its toolkit does (package `core`, file `command.ts`, read
//! second-hand): `%`, carriage return and line feed in the data; colon and comma too in properties.

use super::common::{self, Files, Level};
use super::{Build, Totals, Unread};
use crate::sanitise::{prose, sentence_start};
use crate::{visible, words};
use rules::finding::{Finding, Place};

/// How many annotations of one level GitHub shows of a step (its documentation on limits, from memory): more would only hide
/// each other.
const MOST_OF_LEVEL: usize = 10;

/// The annotations of a build: what fails, the worst first; then the entries that would settle most of what is undecided.
pub(super) fn build(build: &Build) -> String {
    let files = Files::new(build);
    let review = build.review;
    let mut lines = String::new();
    let mut shown = [0_usize; 3];
    let mut left_out = 0_usize;
    for finding in &review.failed {
        let level = common::level(finding.signal);
        match shown.get_mut(level as usize) {
            Some(count) if *count < MOST_OF_LEVEL => {
                *count += 1;
                lines.push_str(&failed(&files, finding, level));
            }
            _ => left_out += 1,
        }
    }
    if left_out > 0 {
        let more = words::counted(left_out, "more finding is", "more findings are");
        let properties =
            [("file", common::plain_path(build.path).to_owned()), ("title", String::from("More findings"))];
        lines.push_str(&command("notice", &properties, &format!("{more} in the full review.")));
    }
    lines.push_str(&undecided(build, &files));
    lines
}

/// The annotation of a build that could not be read.
pub(super) fn unread(unread: &Unread) -> String {
    let properties = [
        ("file", common::plain_path(&unread.path).to_owned()),
        ("title", String::from("This build could not be read")),
    ];
    command("error", &properties, &format!("{} Nothing of it was checked.", crate::sentence(&unread.message)))
}

/// What the log says at the end; no annotations, which are few.
pub(super) fn tail(totals: &Totals) -> String {
    let builds = words::counted(totals.builds, "build", "builds");
    let unread = match totals.unread {
        0 => String::new(),
        unread => format!(", {} not read", words::counted(unread, "build", "builds")),
    };
    format!("{builds} reviewed, {} held{unread}.\nCAUTION: {}\n", totals.held, words::CAUTION)
}

fn failed(files: &Files, finding: &Finding, level: Level) -> String {
    let mut properties = place(files, &finding.place);
    let title = format!("{}: {}", finding.signal.word().to_uppercase(), prose(&finding.title));
    properties.push(("title", title));
    let mut data = vec![common::said(finding), common::to_do(finding)];
    data.extend(finding.caution.iter().map(|caution| format!("Caution: {}", prose(caution))));
    data.push(format!("{} (rule {})", prose(&finding.part), prose(&finding.rule)));
    data.retain(|line| !line.is_empty());
    let name = match level {
        Level::Error => "error",
        Level::Warning => "warning",
        Level::Note => "notice",
    };
    command(name, &properties, &data.join("\n"))
}

/// The entries that settle most, and how much stays undecided; a warning where that holds the build.
fn undecided(build: &Build, files: &Files) -> String {
    let review = build.review;
    let holding = review.undecided.iter().filter(|finding| common::holds_undecided(review, finding)).count();
    let Some(first) = review.undecided.first() else { return String::new() };
    let name = if holding > 0 { "warning" } else { "notice" };
    let checks = words::counted(review.undecided.len(), "check is undecided", "checks are undecided");
    let holds = if holding > 0 { format!(", {holding} of which hold the build") } else { String::new() };
    let mut lines = String::new();
    for entry in review.settle.iter().take(MOST_OF_LEVEL) {
        let mut properties = place(files, &entry.place);
        properties.push(("title", String::from("An entry would settle undecided checks")));
        let said = format!(
            "Write {}: it bears on {}.",
            prose(&entry.entry),
            words::counted(entry.checks, "undecided check", "undecided checks")
        );
        lines.push_str(&command(
            name,
            &properties,
            &format!("{said}\n{}", sentence_start(&format!("{checks}{holds}."))),
        ));
    }
    if lines.is_empty() {
        let mut properties = place(files, &first.place);
        properties.push(("title", String::from("Undecided checks")));
        lines.push_str(&command(
            name,
            &properties,
            &format!("{checks}{holds}. {} {}", common::said(first), common::to_do(first)),
        ));
    }
    lines
}

fn place(files: &Files, place: &Place) -> Vec<(&'static str, String)> {
    let mut properties = vec![("file", files.path(place).to_owned())];
    if let Some(region) = files.region(place) {
        properties.push(("line", region.start_line.to_string()));
        properties.push(("endLine", region.end_line.to_string()));
        // Columns are only understood within one line.
        if region.start_line == region.end_line {
            properties.push(("col", region.start_column.to_string()));
            properties.push(("endColumn", region.end_column.to_string()));
        }
    }
    properties
}

fn command(name: &str, properties: &[(&str, String)], data: &str) -> String {
    let properties: Vec<String> = properties.iter().map(|(key, value)| format!("{key}={}", property(value))).collect();
    let lines: Vec<String> = data.lines().map(|line| visible(line).into_owned()).collect();
    format!("::{name} {}::{}\n", properties.join(","), escaped(&lines.join("\n")))
}

fn escaped(data: &str) -> String {
    data.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

fn property(value: &str) -> String {
    // A path must stay what it is: its line breaks are escaped, the other controls shown, since the log shows the command.
    let lines: Vec<String> = value.split('\n').map(|line| visible(line).into_owned()).collect();
    escaped(&lines.join("\n")).replace(':', "%3A").replace(',', "%2C")
}
