//! Parts added, removed, renamed and altered.

use super::pairs::{Pair, pairs};
use crate::desk::Desk;
use crate::sheet::Part;
use crate::show;
use design::{Build, PartId};
use spec::{Given, Value, Via};
use vocabulary::FactId;

/// What became of a part.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Sort {
    /// It is new.
    Added,
    /// It is gone.
    Removed,
    /// The same is said of another name.
    Renamed,
    /// Something else is said of it.
    Altered,
}

impl Sort {
    /// Every one, in order.
    pub const ALL: [Self; 4] = [Self::Added, Self::Removed, Self::Renamed, Self::Altered];

    /// Its word in data.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Added => "added",
            Self::Removed => "removed",
            Self::Renamed => "renamed",
            Self::Altered => "altered",
        }
    }
}

/// One entry that differs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Entry {
    /// The property.
    pub name: &'static str,
    /// What was said; nothing where nothing was.
    pub old: Option<String>,
    /// What is said now.
    pub new: Option<String>,
}

/// One part that differs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PartChange {
    /// What became of it.
    pub sort: Sort,
    /// The part; of a removed one as it was.
    pub part: Part,
    /// What it was called before, where that differs.
    pub was: Option<String>,
    /// The entries that differ, all of a part that was added or removed.
    pub entries: Vec<Entry>,
}

/// The name under which a line that could not be read is told.
const TEXT: &str = "text that could not be read";

/// Every part that differs.
pub fn changes(old: &mut Desk<'_, '_>, new: &mut Desk<'_, '_>) -> Vec<PartChange> {
    let mut changes = Vec::new();
    for pair in pairs(old, new) {
        match pair {
            Pair::Both(one, other) => changes.extend(both(old, new, one, other)),
            Pair::Old(part) => {
                let entries = entries(old, part, |name, text| Entry { name, old: Some(text), new: None });
                changes.push(PartChange { sort: Sort::Removed, part: old.named(part), was: None, entries });
            }
            Pair::New(part) => {
                let entries = entries(new, part, |name, text| Entry { name, old: None, new: Some(text) });
                changes.push(PartChange { sort: Sort::Added, part: new.named(part), was: None, entries });
            }
        }
    }
    // By what became of them, then in the order of the text.
    changes.sort_by_key(|change| (change.sort, change.part.line, change.part.number));
    changes
}

fn entries(desk: &mut Desk<'_, '_>, part: PartId, entry: impl Fn(&'static str, String) -> Entry) -> Vec<Entry> {
    let facts: Vec<FactId> = desk.build.part(part).given.iter().map(|given| given.fact).collect();
    let mut entries: Vec<Entry> =
        facts.into_iter().map(|fact| entry(vocabulary::fact_spec(fact).name, shown(desk, part, fact))).collect();
    if desk.build.part(part).unread {
        entries.push(entry(TEXT, source(desk.build, part)));
    }
    entries
}

fn both(old: &mut Desk<'_, '_>, new: &mut Desk<'_, '_>, one: PartId, other: PartId) -> Option<PartChange> {
    let (before, after) = (old.build.part(one), new.build.part(other));
    let renamed = before.name != after.name;
    let mut facts: Vec<FactId> = before.given.iter().chain(&after.given).map(|given| given.fact).collect();
    facts.sort_unstable();
    facts.dedup();
    let mut entries = Vec::new();
    for fact in facts {
        let same = match (before.given(fact), after.given(fact)) {
            (Some(one), Some(other)) => is_same(&one.value, &other.value),
            _ => false,
        };
        // What comes from defaults is told once, of the defaults.
        let own = [before.given(fact), after.given(fact)].into_iter().flatten().any(|given| !by_defaults(given));
        if !same && own {
            entries.push(Entry {
                name: vocabulary::fact_spec(fact).name,
                old: before.given(fact).map(|_| shown(old, one, fact)),
                new: after.given(fact).map(|_| shown(new, other, fact)),
            });
        }
    }
    if before.unread || after.unread {
        let text = |build: &Build, part: PartId| build.part(part).unread.then(|| source(build, part));
        let (was, is) = (text(old.build, one), text(new.build, other));
        if was != is {
            entries.push(Entry { name: TEXT, old: was, new: is });
        }
    }
    if entries.is_empty() && !renamed {
        return None;
    }
    let sort = if entries.is_empty() { Sort::Renamed } else { Sort::Altered };
    let was = renamed.then(|| before.title.to_string());
    Some(PartChange { sort, part: new.named(other), was, entries })
}

/// Whether a value is written in a `defaults`, and not on the part.
pub fn by_defaults(given: &Given) -> bool {
    matches!(given.via, Some(Via::Defaults(_)))
}

/// What is written, in the reader's units. The units themselves are told as they were written.
fn shown(desk: &mut Desk<'_, '_>, part: PartId, fact: FactId) -> String {
    let cell = desk.fact(part, fact);
    show::shown(&cell, desk.review.units)
}

/// The line of a part as it stands in the text.
fn source(build: &Build, part: PartId) -> String {
    let head = &build.part(part).head;
    let text = usize::try_from(head.file).ok().and_then(|file| build.files.get(file));
    let range = usize::try_from(head.bytes.start).ok().zip(usize::try_from(head.bytes.end).ok());
    let piece = text.zip(range).and_then(|(file, (from, to))| file.text.get(from..to));
    piece.unwrap_or_default().trim().to_owned()
}

/// Numbers closer than this part of themselves are one: reading `1 m` and `1000 mm` rounds differently.
const SAME: f64 = 1e-9;

/// Whether two values say the same, wherever and in whatever units they are written.
pub fn is_same(one: &Value, other: &Value) -> bool {
    let close = |one: f64, other: f64| (one - other).abs() <= SAME * one.abs().max(other.abs());
    let all = |one: &[f64], other: &[f64]| one.iter().zip(other).all(|(one, other)| close(*one, *other));
    match (one, other) {
        (Value::Quantity(one), Value::Quantity(other)) => {
            one.dimension == other.dimension && one.currency == other.currency && close(one.value, other.value)
        }
        (Value::Point(one), Value::Point(other)) | (Value::Box(one), Value::Box(other)) => all(one, other),
        (Value::Opening(one), Value::Opening(other)) => all(one, other),
        (Value::Names(one), Value::Names(other)) => {
            one.len() == other.len() && one.iter().zip(other).all(|((one, _), (other, _))| one == other)
        }
        (one, other) => one == other,
    }
}
