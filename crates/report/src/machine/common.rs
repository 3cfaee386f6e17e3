//! What several forms share: paths, places, levels and sentences.

use super::{Build, Fix};
use crate::places::Places;
use crate::sanitise::{ended, prose, sentence};
use crate::words;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use rules::finding::{Finding, Outcome, Place, Review, Stage};
use rules::rule::RuleSource;
use rules::{Mark, Signal};
use std::cell::OnceCell;

/// How much a reader of a machine form should mind a finding.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Level {
    /// It could kill or seriously injure: danger and warning.
    Error,
    /// It could injure slightly or moderately: caution.
    Warning,
    /// It injures nobody: notice.
    Note,
}

/// The level of a signal word. The harm decides, as it does for the signal word.
pub(super) const fn level(signal: Signal) -> Level {
    match signal {
        Signal::Danger | Signal::Warning => Level::Error,
        Signal::Caution => Level::Warning,
        Signal::Notice => Level::Note,
    }
}

/// How many findings have each signal word, from notice to danger.
pub(super) fn by_word(findings: &[Finding]) -> [usize; 4] {
    let mut counts = [0; 4];
    for finding in findings {
        if let Some(count) = counts.get_mut(finding.signal as usize) {
            *count += 1;
        }
    }
    counts
}

/// The count of a signal word.
pub(super) fn count(counts: [usize; 4], signal: Signal) -> usize {
    counts.get(signal as usize).copied().unwrap_or(0)
}

/// Whether an undecided check holds its build.
pub(super) fn holds_undecided(review: &Review, finding: &Finding) -> bool {
    review.stage != Stage::Draft && finding.signal >= Signal::Warning
}

/// Whether a finding cannot be told yet.
pub(super) const fn is_undecided(finding: &Finding) -> bool {
    matches!(finding.outcome, Outcome::Undecided { .. })
}

/// A finding in a sentence: what is wrong, or what cannot be told yet; and the case in which it is so, where cases differ.
pub(super) fn said(finding: &Finding) -> String {
    let said = if is_undecided(finding) {
        format!("It cannot be told yet: {}", ended(&finding.title))
    } else {
        sentence(&finding.message)
    };
    if finding.case.is_empty() { said } else { format!("{said} Worst case: {}", ended(&prose(&finding.case))) }
}

/// What to do about a finding: the remedy, or what to write.
pub(super) fn to_do(finding: &Finding) -> String {
    if is_undecided(finding) {
        let missing = words::missing(finding);
        if missing.is_empty() { String::new() } else { format!("To settle it, write {}.", missing.join("; and ")) }
    } else {
        sentence(&finding.remedy)
    }
}

/// Who accepts a finding, and why.
pub(super) fn justification(finding: &Finding) -> Option<String> {
    let waived = finding.waived.as_ref()?;
    let mut text = format!("{} Accepted by {}", sentence(&waived.reason), prose(&waived.by));
    if let Some(until) = &waived.until {
        text.push_str(&format!(" until {}", prose(until)));
    }
    if let Some(evidence) = &waived.evidence {
        text.push_str(&format!("; evidence: {}", prose(evidence)));
    }
    Some(ended(&text))
}

/// A source in a line, with how well it is known.
pub(super) fn source_words(source: &RuleSource) -> String {
    let known = match source.mark {
        Mark::CommonPractice => words::mark_words(source.mark).to_owned(),
        mark => format!("{}: {}", mark.word(), words::mark_words(mark)),
    };
    match &source.note {
        Some(note) => format!("{}, {} ({known})", words::source(source), prose(note)),
        None => format!("{} ({known})", words::source(source)),
    }
}

/// A path as other programs know it: without `./` in front.
pub(super) fn plain_path(path: &str) -> &str {
    let mut path = path;
    while let Some(rest) = path.strip_prefix("./") {
        path = rest.trim_start_matches('/');
    }
    path
}

/// What need not be escaped in the path of a URI: the unreserved characters of RFC 3986, section 2.3, and the slash.
const NOT_IN_PATHS: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~').remove(b'/');

/// A path as a URI reference: relative paths stay relative, absolute ones become `file` URIs (RFC 3986 and RFC 8089).
pub(super) fn uri(path: &str) -> String {
    let path = plain_path(path);
    let encoded = utf8_percent_encode(path, NOT_IN_PATHS);
    if path.starts_with('/') { format!("file://{encoded}") } else { encoded.to_string() }
}

/// A fingerprint that differs between builds: the path's, then the finding's. `rank` tells findings of one build apart that
/// have the same, which the lists of a review allow across each other.
pub(super) fn fingerprint(path: &str, finding: &str, rank: usize) -> String {
    let of_path = rules::review::fingerprint("build", plain_path(path));
    if rank == 0 { format!("{of_path}{finding}") } else { format!("{of_path}{finding}{rank:x}") }
}

/// Where something stands, in lines and characters as people count; the byte order mark is none.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Region {
    /// From 1.
    pub(super) start_line: usize,
    /// In Unicode code points from 1.
    pub(super) start_column: usize,
    /// From 1.
    pub(super) end_line: usize,
    /// The column behind the last character, from 1.
    pub(super) end_column: usize,
    /// In Unicode code points from 0.
    pub(super) offset: usize,
    /// In Unicode code points.
    pub(super) length: usize,
}

/// The places of a build's files.
pub(super) struct Files<'a> {
    build: &'a Build<'a>,
    places: Places<'a>,
    /// The code points before each line of each file, counted when they are first asked for.
    before: Vec<OnceCell<Vec<usize>>>,
}

const BYTE_ORDER_MARK: char = '\u{feff}';

impl<'a> Files<'a> {
    pub(super) fn new(build: &'a Build<'a>) -> Self {
        let files = &build.review.files;
        Self { build, places: Places::new(files), before: files.iter().map(|_| OnceCell::new()).collect() }
    }

    /// The path of a place's file; that of the build when it lies in no file that was read.
    pub(super) fn path(&self, place: &Place) -> &'a str {
        match (place.file, self.places.file(place)) {
            (1.., Some(file)) => plain_path(&file.name),
            _ => plain_path(self.build.path),
        }
    }

    /// Where a place stands; nothing when it lies in no file that was read.
    pub(super) fn region(&self, place: &Place) -> Option<Region> {
        let (start, end) = self.places.ends(place)?;
        let text: &str = &self.places.file(place)?.text;
        let mark = usize::from(text.starts_with(BYTE_ORDER_MARK));
        let before = self.before.get(place.file)?.get_or_init(|| self.characters_before(place.file, text));
        let column = |line: u32, column: u32| {
            let column = column as usize;
            if line == 1 { column.saturating_sub(mark).max(1) } else { column }
        };
        let offset = |line: u32, column: u32| {
            let lines = before.get((line as usize).saturating_sub(1)).copied().unwrap_or(0);
            (lines + column as usize).saturating_sub(1 + mark)
        };
        let (first, last) = (offset(start.line, start.column), offset(end.line, end.column));
        Some(Region {
            start_line: start.line as usize,
            start_column: column(start.line, start.column),
            end_line: end.line as usize,
            end_column: column(end.line, end.column),
            offset: first,
            length: last.saturating_sub(first),
        })
    }

    /// The code points before each line of a text.
    fn characters_before(&self, file: usize, text: &str) -> Vec<usize> {
        let Some(lines) = self.places.lines(file) else { return Vec::new() };
        let mut counted = 0;
        let mut from = 0;
        let starts = (1..=lines.count()).filter_map(|line| lines.start(u32::try_from(line).ok()?));
        starts
            .map(|start| {
                let start = start as usize;
                counted += text.get(from..start).map_or(0, |line| line.chars().count());
                from = start;
                counted
            })
            .collect()
    }

    /// The edits that mend a finding: its own mend and what the caller knows, each once, the preferred first.
    pub(super) fn fixes(&self, finding: &Finding) -> Vec<Fix> {
        let own = finding.mend.iter().map(|mend| Fix {
            title: mend.title.clone(),
            changes: vec![(mend.place.clone(), mend.text.clone())],
            preferred: true,
        });
        let mut fixes: Vec<Fix> = Vec::new();
        for fix in own.chain((self.build.fixes)(finding)) {
            let stands = fix.changes.iter().all(|(place, _)| self.places.file(place).is_some());
            if stands && !fix.changes.is_empty() && !fixes.iter().any(|known| known.changes == fix.changes) {
                fixes.push(fix);
            }
        }
        fixes.sort_by_key(|fix| !fix.preferred);
        fixes
    }
}
