//! Actions that say something more: an entry that a check needs, a system that the build does without, a finding that somebody
//! accepts.

use crate::{Aim, Edit, Subject, bytes};
use design::{Build, CaseId, Part, PartId, Reader};
use rules::finding::{Finding, Missing, Outcome};
use rules::signal::Signal;
use spec::text::write_name;
use vocabulary::{FactKind, Written, fact, kind};

/// The rule about systems of which nothing is said.
const NOT_DESCRIBED: &str = "system/not-described";

/// The most words of a choice that are offered one by one.
const MOST_WORDS: usize = 8;

/// The entries that an undecided check needs: each word of a choice by itself; for what must be measured or looked up an empty
/// entry, at which the tool then says what is to stand there. Nothing is guessed, and `unknown` would only hide the gap.
pub fn entries(subject: &Subject<'_>, finding: &Finding) -> Vec<Edit> {
    let Outcome::Undecided { missing } = &finding.outcome else { return Vec::new() };
    missing.iter().flat_map(|missing| entry(subject, missing)).collect()
}

fn entry(subject: &Subject<'_>, missing: &Missing) -> Vec<Edit> {
    let build = subject.build;
    let Some((property, room)) = &missing.entry else { return Vec::new() };
    let here = |part: &&Part| part.room.file as usize == room.file && bytes(&part.room) == room.bytes;
    let Some(part) = build.parts().map(|(_, part)| part).find(here) else { return Vec::new() };
    let Some(spec) = vocabulary::part(part.kind).fact(property) else { return Vec::new() };
    // What goes by its position among others has no place of its own.
    if spec.written != Written::Property {
        return Vec::new();
    }
    let write = |title: String, value: &str| {
        Edit::insertion(Aim::Say, title, room.file, room.bytes.end, format!(" {property}={value}"))
    };
    let words = match spec.kind {
        FactKind::Flag => vec!["yes", "no"],
        FactKind::Choice(words) if words.len() <= MOST_WORDS => words.to_vec(),
        _ => Vec::new(),
    };
    let of = &part.title;
    if words.is_empty() {
        return vec![write(format!("write {property}= on {of}, to be filled in"), "\"\"")];
    }
    words.into_iter().map(|word| write(format!("write {property}={word} on {of}"), word)).collect()
}

/// Declares each system absent of which nothing is said.
pub fn system_absent(subject: &Subject<'_>, finding: &Finding) -> Vec<Edit> {
    if &*finding.rule != NOT_DESCRIBED {
        return Vec::new();
    }
    let build = subject.build;
    let Some(silent) = Reader::new(build).text(Build::ROOT, fact::build::SILENT_SYSTEMS, CaseId(0)) else {
        return Vec::new();
    };
    let Some((file, at, text)) = place_of_none(build) else { return Vec::new() };
    let words = silent.split(", ").filter(|word| !word.is_empty());
    words
        .map(|word| {
            Edit::insertion(Aim::Say, format!("declare absent: none {word}"), file, at, text.replace("{}", word))
        })
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
pub fn waiver(subject: &Subject<'_>, finding: &Finding) -> Option<Edit> {
    let build = subject.build;
    let rule = &finding.rule;
    // What could not be read cannot be accepted.
    if rule.starts_with("text/") || rule.starts_with("waiver/") {
        return None;
    }
    let part = build.parts().find(|(_, part)| *part.key == *finding.part_key).map(|(id, _)| id)?;
    let on = on(build, part).map_or(String::new(), |on| format!(" on={on}"));
    let text = &subject.review.files.first()?.text;
    let line = if text.ends_with('\n') || text.is_empty() { "" } else { "\n" };
    // Whoever accepts a danger has to name what shows that it may be.
    let evidence = if finding.signal == Signal::Danger { " evidence=unknown" } else { "" };
    let waiver = format!("{line}waive \"{rule}\"{on} reason=unknown by=unknown{evidence}\n");
    Some(Edit::insertion(Aim::Accept, "waive it with a reason", 0, text.len(), waiver))
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
    Some(write_name(name))
}
