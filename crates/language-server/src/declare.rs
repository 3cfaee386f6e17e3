//! Actions that say something more: an entry that a check needs, a system that the build does without, a finding that somebody
//! accepts.

use crate::actions::Edit;
use crate::check::Checked;
use crate::reading::bytes;
use design::{Build, CaseId, PartId, Reader};
use rules::finding::{Finding, Outcome};
use vocabulary::{fact, kind};

/// The rule about systems of which nothing is said.
const NOT_DESCRIBED: &str = "system/not-described";

/// The entries that an undecided check needs, each to be written as `unknown` until the builder knows it.
pub fn entries(_: &Checked, finding: &Finding) -> Vec<Edit> {
    let Outcome::Undecided { missing } = &finding.outcome else { return Vec::new() };
    let entry = |missing: &rules::finding::Missing| {
        let (property, room) = missing.entry.as_ref()?;
        let what = missing.alternatives.first()?;
        Some(Edit::insertion(format!("write {what}"), room.file, room.bytes.end, format!(" {property}=unknown")))
    };
    missing.iter().filter_map(entry).collect()
}

/// Declares each system absent of which nothing is said.
pub fn system_absent(checked: &Checked, finding: &Finding) -> Vec<Edit> {
    if &*finding.rule != NOT_DESCRIBED {
        return Vec::new();
    }
    let build = &checked.build;
    let Some(silent) = Reader::new(build).text(Build::ROOT, fact::build::SILENT_SYSTEMS, CaseId(0)) else {
        return Vec::new();
    };
    let Some((file, at, text)) = place_of_none(build) else { return Vec::new() };
    let words = silent.split(", ").filter(|word| !word.is_empty());
    words
        .map(|word| Edit::insertion(format!("declare absent: none {word}"), file, at, text.replace("{}", word)))
        .collect()
}

/// Where a system can be declared absent, and what is to be written there: behind an earlier `none`, else as the first line in
/// the build's block.
fn place_of_none(build: &Build) -> Option<(usize, usize, String)> {
    let root = build.part(Build::ROOT);
    let earlier = root.inside.iter().map(|inner| build.part(*inner)).find(|inner| inner.kind == kind::NONE);
    if let Some(none) = earlier {
        return Some((none.room.file as usize, bytes(&none.room).end, " {}".to_owned()));
    }
    let file = root.head.file as usize;
    let text = build.files.get(file)?.text.get(bytes(&root.whole))?;
    let brace = text.find('{')?;
    Some((file, root.whole.bytes.start as usize + brace + 1, "\n    none {}".to_owned()))
}

/// Accepts a finding, with places for the reason and the name that a waiver needs.
pub fn waiver(checked: &Checked, finding: &Finding) -> Option<Edit> {
    let build = &checked.build;
    let rule = &finding.rule;
    // What could not be read cannot be accepted.
    if rule.starts_with("text/") || rule.starts_with("waiver/") {
        return None;
    }
    let part = build.parts().find(|(_, part)| *part.key == *finding.part_key).map(|(id, _)| id)?;
    let on = on(build, part).map_or(String::new(), |on| format!(" on={on}"));
    let text = &checked.review.files.first()?.text;
    let line = if text.ends_with('\n') || text.is_empty() { "" } else { "\n" };
    let waiver = format!("{line}waive \"{rule}\"{on} reason=unknown by=unknown\n");
    Some(Edit::insertion("waive it with a reason", 0, text.len(), waiver))
}

/// How a waiver names a part; nothing for the build as a whole.
fn on(build: &Build, part: PartId) -> Option<String> {
    if part == Build::ROOT {
        return None;
    }
    let own = build.part(part);
    let name = own.name.as_deref().unwrap_or(&own.title);
    if name.chars().any(char::is_control) {
        return None;
    }
    Some(format!("\"{}\"", name.replace('\\', "\\\\").replace('"', "\\\"")))
}
