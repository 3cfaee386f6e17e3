//! GitLab's report of code quality: the fields that its documentation names ("Code Quality", section on the report's format,
//! read second-hand): description, check_name, fingerprint, severity, location.

use super::common::{self, Files};
use super::{Build, Unread};
use rules::Signal;
use rules::finding::Finding;
use serde_json::{Value, json};
use std::collections::HashMap;

pub(super) fn head() -> String {
    String::from("[\n")
}

pub(super) fn tail() -> String {
    String::from("\n]\n")
}

/// The entries of a build. What is waived is left out: the report has no place to say who accepts it.
pub(super) fn build(build: &Build) -> String {
    let files = Files::new(build);
    let mut seen: HashMap<&str, usize> = HashMap::new();
    let mut entries = Vec::new();
    for finding in build.review.failed.iter().chain(&build.review.undecided) {
        let times = seen.entry(&finding.fingerprint).or_insert(0);
        entries.push(entry(build, &files, finding, *times).to_string());
        *times += 1;
    }
    entries.join(super::MachineForm::Gitlab.separator())
}

/// The entry of a build that could not be read.
pub(super) fn unread(unread: &Unread) -> String {
    let path = common::plain_path(&unread.path);
    json!({
        "description": format!("This build could not be read, and nothing of it was checked: {}", crate::sentence(&unread.message)),
        "check_name": "unread",
        "fingerprint": common::fingerprint(path, &rules::review::fingerprint("unread", ""), 0),
        "severity": "blocker",
        "location": { "path": path, "lines": { "begin": 1 } },
    })
    .to_string()
}

fn entry(build: &Build, files: &Files, finding: &Finding, rank: usize) -> Value {
    let region = files.region(&finding.place);
    let (begin, end) = region.map_or((1, 1), |region| (region.start_line, region.end_line));
    let description = format!("{} {}", common::said(finding), common::to_do(finding));
    json!({
        "description": description.trim_end(),
        "check_name": &*finding.rule,
        "fingerprint": common::fingerprint(build.path, &finding.fingerprint, rank),
        "severity": severity(build, finding),
        "location": { "path": files.path(&finding.place), "lines": { "begin": begin, "end": end } },
    })
}

/// Undecided checks that hold the build weigh more than those that do not.
fn severity(build: &Build, finding: &Finding) -> &'static str {
    if common::is_undecided(finding) {
        return if common::holds_undecided(build.review, finding) { "major" } else { "info" };
    }
    match finding.signal {
        Signal::Danger => "blocker",
        Signal::Warning => "critical",
        Signal::Caution => "major",
        Signal::Notice => "minor",
    }
}
