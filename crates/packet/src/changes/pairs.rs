//! Which part of the newer revision is which of the older one.

use super::parts::by_defaults;
use crate::desk::Desk;
use design::{Build, PartId};
use similar::{Algorithm, DiffTag, capture_diff_slices};
use spec::Value;
use std::collections::HashMap;
use std::fmt::Write as _;
use vocabulary::{Family, Naming, PartKind};

/// What became of one part.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Pair {
    /// It is in both.
    Both(PartId, PartId),
    /// Only the older one has it.
    Old(PartId),
    /// Only the newer one has it.
    New(PartId),
}

/// Pairs everything that is written, outer parts before what stands in them.
pub fn pairs(old: &Desk<'_, '_>, new: &Desk<'_, '_>) -> Vec<Pair> {
    let mut pairs = vec![Pair::Both(Build::ROOT, Build::ROOT)];
    let (before, after) = (Signatures::of(old.build), Signatures::of(new.build));
    let top = |build: &Build| -> Vec<PartId> {
        // What is written inside the build's own block stands on the same level as what stands in the file.
        let own = build.part(Build::ROOT).inside.iter().copied();
        let others = build.parts().filter(|(number, part)| *number != Build::ROOT && part.outer.is_none());
        let mut all: Vec<PartId> = own.chain(others.map(|(number, _)| number)).collect();
        all.retain(|part| is_written(build, *part));
        all
    };
    let mut levels = vec![(top(old.build), top(new.build))];
    while let Some((olds, news)) = levels.pop() {
        for pair in level(old.build, new.build, &before, &after, &olds, &news) {
            let inside = |build: &Build, part: PartId| -> Vec<PartId> {
                let inside = build.part(part).inside.iter().copied();
                inside.filter(|part| is_written(build, *part)).collect()
            };
            match pair {
                Pair::Both(one, other) => levels.push((inside(old.build, one), inside(new.build, other))),
                Pair::Old(one) => levels.push((inside(old.build, one), Vec::new())),
                Pair::New(other) => levels.push((Vec::new(), inside(new.build, other))),
            }
            pairs.push(pair);
        }
    }
    pairs
}

fn is_written(build: &Build, part: PartId) -> bool {
    vocabulary::part(build.part(part).kind).family != Family::Worked
}

/// Pairs the parts of one level: first by name, then, kind by kind, by what is said of them.
fn level(
    old: &Build,
    new: &Build,
    before: &Signatures,
    after: &Signatures,
    olds: &[PartId],
    news: &[PartId],
) -> Vec<Pair> {
    let mut pairs = Vec::new();
    let name = |build: &Build, part: PartId| {
        let of = build.part(part);
        of.name.clone().map(|name| (of.kind, name))
    };
    let mut named: HashMap<_, Vec<PartId>> = HashMap::new();
    for &part in news.iter().rev() {
        if let Some(name) = name(new, part) {
            named.entry(name).or_default().push(part);
        }
    }
    let mut taken: Vec<PartId> = Vec::new();
    let mut left: Vec<PartId> = Vec::new();
    for &part in olds {
        match name(old, part).and_then(|name| named.get_mut(&name)?.pop()) {
            Some(other) => {
                taken.push(other);
                pairs.push(Pair::Both(part, other));
            }
            None => left.push(part),
        }
    }
    taken.sort_unstable();
    let fresh: Vec<PartId> = news.iter().copied().filter(|part| taken.binary_search(part).is_err()).collect();
    let mut kinds: Vec<PartKind> = Vec::new();
    for kind in left.iter().map(|part| old.part(*part).kind).chain(fresh.iter().map(|part| new.part(*part).kind)) {
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    for kind in kinds {
        let of = |build: &Build, parts: &[PartId]| -> Vec<PartId> {
            parts.iter().copied().filter(|part| build.part(*part).kind == kind).collect()
        };
        by_content(kind, (&of(old, &left), before), (&of(new, &fresh), after), &mut pairs);
    }
    pairs
}

/// Pairs parts of one kind in their order: what is said of them alike is the same part, be it under another name. Parts
/// without names that stand in one place are one part that was altered.
fn by_content(
    kind: PartKind,
    (old, before): (&[PartId], &Signatures),
    (new, after): (&[PartId], &Signatures),
    pairs: &mut Vec<Pair>,
) {
    // Numbers in place of texts: a list of thousands is compared in no time.
    let mut known: HashMap<String, usize> = HashMap::new();
    let mut number = |text: String| {
        let next = known.len();
        *known.entry(text).or_insert(next)
    };
    let one: Vec<usize> = old.iter().map(|part| number(before.get(*part))).collect();
    let other: Vec<usize> = new.iter().map(|part| number(after.get(*part))).collect();
    let nameless = matches!(vocabulary::part(kind).naming, Naming::Never | Naming::Refers | Naming::Optional);
    for operation in capture_diff_slices(Algorithm::Myers, &one, &other) {
        let (olds, news) = (operation.old_range(), operation.new_range());
        let (olds, news) = (old.get(olds).unwrap_or(&[]), new.get(news).unwrap_or(&[]));
        let mut rest = (olds.iter(), news.iter());
        // Nothing is said of a part of which only the name is written: a rename would be a guess.
        let same = operation.tag() == DiffTag::Equal && (nameless || olds.iter().all(|part| before.says(*part)));
        if same || nameless && operation.tag() == DiffTag::Replace {
            while let (Some(one), Some(other)) = (rest.0.as_slice().first(), rest.1.as_slice().first()) {
                pairs.push(Pair::Both(*one, *other));
                rest.0.next();
                rest.1.next();
            }
        }
        pairs.extend(rest.0.map(|part| Pair::Old(*part)));
        pairs.extend(rest.1.map(|part| Pair::New(*part)));
    }
}

/// What is said of each part, but for its name: of it and of what stands in it.
struct Signatures(HashMap<PartId, String>);

impl Signatures {
    fn of(build: &Build) -> Self {
        let mut all: HashMap<PartId, String> = HashMap::new();
        // What stands in a part has a larger number, so that it is made first.
        let mut parts: Vec<PartId> = build.parts().map(|(number, _)| number).collect();
        parts.reverse();
        for part in parts {
            let of = build.part(part);
            let mut text = String::new();
            for given in of.given.iter().filter(|given| !by_defaults(given)) {
                let _ = write!(text, "{} {}; ", vocabulary::fact_spec(given.fact).name, plain(&given.value));
            }
            for inner in of.inside.iter().filter(|inner| is_written(build, **inner)) {
                let kind = vocabulary::part(build.part(*inner).kind).word;
                let name = build.part(*inner).name.as_deref().unwrap_or_default();
                let _ = write!(text, "{kind} {name} {{ {}}} ", all.get(inner).map_or("", String::as_str));
            }
            all.insert(part, text);
        }
        Self(all)
    }

    fn get(&self, part: PartId) -> String {
        self.0.get(&part).cloned().unwrap_or_default()
    }

    fn says(&self, part: PartId) -> bool {
        self.0.get(&part).is_some_and(|text| !text.is_empty())
    }
}

/// A value as a text that is the same wherever it stands.
fn plain(value: &Value) -> String {
    match value {
        Value::Names(names) => names.iter().map(|(name, _)| &**name).collect::<Vec<_>>().join(", "),
        other => format!("{other:?}"),
    }
}
