//! Resolves `like=` and `defaults`: what a part takes over from a pattern, with its origin kept.

use crate::lower::{Likeness, hidden_in};
use crate::part::{Given, Part, Span, Via};
use crate::slip::Slip;
use crate::value::Value;
use std::collections::HashMap;
use std::sync::Arc;
use vocabulary::{FactKind, Family, PartKind, kind};

/// A part that others may take over: its number in `parts`, or in the patterns of the parts files.
type Key = (PartKind, Arc<str>);

/// Fills what each part takes over by `like=`; `parts` are the build's own, `patterns` those of its parts files.
pub fn resolve(parts: &mut [(Part, Option<Likeness>)], patterns: &[(Part, Option<Likeness>)], slips: &mut Vec<Slip>) {
    let mut known: Known = HashMap::new();
    for (part, likeness) in patterns.iter().chain(parts.iter()) {
        if let Some(name) = &part.name {
            known.entry((part.kind, name.text.clone())).or_insert_with(|| (part.clone(), likeness.clone()));
        }
    }
    for (part, likeness) in parts.iter_mut() {
        follow(part, likeness.clone(), &known, slips);
        follow_inside(part, &known, slips);
    }
}

type Known = HashMap<Key, (Part, Option<Likeness>)>;

/// Fills the parts within a part that are like others; the text layer bounds the depth.
fn follow_inside(part: &mut Part, known: &Known, slips: &mut Vec<Slip>) {
    for inner in &mut part.inside {
        let likeness = inner.likeness.take();
        follow(inner, likeness, known, slips);
        follow_inside(inner, known, slips);
        if inner.unread {
            part.incomplete.kinds.insert(inner.kind);
        }
    }
}

/// Takes over pattern after pattern.
fn follow(part: &mut Part, likeness: Option<Likeness>, known: &Known, slips: &mut Vec<Slip>) {
    let mut next = likeness;
    let mut seen: Vec<Arc<str>> = part.name.iter().map(|name| name.text.clone()).collect();
    while let Some(likeness) = next.take() {
        if seen.contains(&likeness.name) {
            slips.push(
                Slip::new(
                    "text/like-in-a-circle",
                    likeness.at,
                    format!("`{}` is like itself in the end", likeness.name),
                )
                .help("let one part of the circle say its own values"),
            );
            break;
        }
        let Some((pattern, further)) = known.get(&(part.kind, likeness.name.clone())) else {
            slips.push(unknown_pattern(part, &likeness, known));
            // What it would have brought is not known: nothing about the part may be taken as absent.
            let hidden = hidden_in(vocabulary::part(part.kind));
            part.incomplete.add(&hidden);
            part.unread = true;
            break;
        };
        seen.push(likeness.name.clone());
        take_over(part, pattern, &likeness.at);
        next.clone_from(further);
    }
}

fn take_over(part: &mut Part, pattern: &Part, at: &Span) {
    for given in &pattern.given {
        let mut given = given.clone();
        given.via = Some(Via::Like(at.clone()));
        part.fill(given);
    }
    let own: Vec<PartKind> = part.inside.iter().map(|inner| inner.kind).collect();
    let own_path = part.inside.iter().any(|inner| on_path(part, inner.kind))
        || part.incomplete.every
        || part.incomplete.kinds.iter().any(|kind| on_path(part, *kind));
    let taken = |kind: PartKind| if on_path(part, kind) { !own_path } else { !own.contains(&kind) };
    let inside: Vec<Part> = pattern.inside.iter().filter(|inner| taken(inner.kind)).cloned().collect();
    for mut inner in inside {
        inner.via.push(Via::Like(at.clone()));
        part.inside.push(inner);
    }
    part.incomplete.add(&pattern.incomplete);
    part.unread |= pattern.unread;
}

/// Whether parts of this kind make up the path of a run. A path is taken over whole or not at all: its order counts, and
/// where a piece of the pattern would stand between pieces of the part's own cannot be told.
fn on_path(part: &Part, kind: PartKind) -> bool {
    vocabulary::part(part.kind).family == Family::Run && kind != kind::SERVES
}

fn unknown_pattern(part: &Part, likeness: &Likeness, known: &Known) -> Slip {
    let spec = vocabulary::part(part.kind);
    let slip = Slip::new(
        "text/like-unknown",
        likeness.at.clone(),
        format!("there is no {} called `{}` to be like", spec.word, likeness.name),
    );
    let mut same_kind: Vec<&str> =
        known.keys().filter(|(kind, _)| *kind == part.kind).map(|(_, name)| &**name).collect();
    same_kind.sort_unstable();
    match vocabulary::nearest(&likeness.name, same_kind.iter().copied()) {
        Some(near) => {
            let text = format!("{near:?}");
            slip.help(format!("did you mean `{near}`?")).mend(format!("write {text}"), likeness.at.clone(), text)
        }
        None => slip.help("define it in this build, or include the parts file that has it"),
    }
}

/// Fills what `defaults` of the same file says into the pieces of its runs.
pub fn fill_defaults(parts: &mut [(Part, Option<Likeness>)]) {
    let mut patterns: Vec<Part> = Vec::new();
    for (defaults, _) in parts.iter().filter(|(part, _)| part.kind == kind::DEFAULTS) {
        patterns.extend(defaults.inside.iter().cloned());
        if defaults.unread || defaults.incomplete.concerns(kind::WIRE) {
            patterns.push(unread_wire(defaults));
        }
    }
    for pattern in &patterns {
        for (part, _) in parts.iter_mut().filter(|(part, _)| part.kind != kind::DEFAULTS) {
            fill_from(part, pattern);
        }
    }
}

/// The default of a wire that could not be read: whatever a wire does not say itself may be said there, and is unknown.
fn unread_wire(defaults: &Part) -> Part {
    let given = vocabulary::part(kind::WIRE)
        .properties()
        .map(|fact| Given { fact: fact.id, value: Value::Unknown, at: defaults.at.clone(), via: None })
        .collect();
    Part { kind: kind::WIRE, name: None, given, inside: Vec::new(), ..defaults.clone() }
}

/// Fills one default into a part and all that stands in it. Ways and shore wires say their conductor on their own line:
/// they take what a wire's default says under the same name and type.
fn fill_from(part: &mut Part, pattern: &Part) {
    let lines_of_wire = [kind::WAY, kind::TO];
    if part.kind == pattern.kind {
        for given in &pattern.given {
            let mut given = given.clone();
            given.via = Some(Via::Defaults(pattern.at.clone()));
            part.fill(given);
        }
    } else if pattern.kind == kind::WIRE && lines_of_wire.contains(&part.kind) {
        let spec = vocabulary::part(part.kind);
        for given in &pattern.given {
            let default = vocabulary::fact_spec(given.fact);
            let same = spec.properties().find(|fact| {
                fact.name == default.name && fact.kind == default.kind && !matches!(fact.kind, FactKind::WireSize)
            });
            if let Some(fact) = same {
                let mut given = given.clone();
                given.fact = fact.id;
                given.via = Some(Via::Defaults(pattern.at.clone()));
                part.fill(given);
            }
        }
    }
    for inner in &mut part.inside {
        fill_from(inner, pattern);
    }
}
