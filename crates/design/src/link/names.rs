//! Names: defined once, and found from wherever they are used.

use crate::PartId;
use crate::part::{Build, Part, Reference};
use rustc_hash::FxHashMap;
use spec::text::write_name;
use spec::{Incomplete, Slip, Span, Value};
use std::sync::Arc;
use vocabulary::{FactId, FactKind, Family, Naming, PartKind, kind};

/// Things, runs and places have names of their own sort: a circuit may be called after the lamp that it feeds.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum Sort {
    Thing,
    Run,
    Zone,
    Route,
    OtherPlace(PartKind),
}

fn sort_of(part: PartKind) -> Option<Sort> {
    let spec = vocabulary::part(part);
    if spec.naming == Naming::Refers {
        return None;
    }
    match spec.family {
        Family::Thing => Some(Sort::Thing),
        Family::Run => Some(Sort::Run),
        Family::Place if part == kind::ZONE => Some(Sort::Zone),
        Family::Place if part == kind::ROUTE => Some(Sort::Route),
        Family::Place => Some(Sort::OtherPlace(part)),
        // The pump of a water line is a thing wherever it stands; other pieces have no names of their own.
        Family::Piece if part == kind::PUMP => Some(Sort::Thing),
        Family::Piece | Family::Setting | Family::Worked => None,
    }
}

/// Resolves every name that is used.
pub fn resolve(build: &mut Build, incomplete: &Incomplete) {
    let names = defined(build);
    let mut references: FxHashMap<(PartId, FactId), Reference> = FxHashMap::default();
    let mut slips = Vec::new();
    for (user, part) in build.parts() {
        for given in &part.given {
            let FactKind::Part(kinds) = vocabulary::fact_spec(given.fact).kind else { continue };
            let Value::Name(name) = &given.value else { continue };
            match find(&names, build, kinds, name) {
                Some(found) => {
                    references.insert((user, given.fact), Reference::To(found));
                }
                None => {
                    references.insert((user, given.fact), Reference::Nothing);
                    slips.extend(unknown(build, &names, kinds, name, &given.at, incomplete));
                }
            }
        }
    }
    build.references = references;
    build.slips.append(&mut slips);
}

/// The names of the build, each with the part that defines it first.
fn defined(build: &mut Build) -> FxHashMap<(Sort, Arc<str>), PartId> {
    let mut names: FxHashMap<(Sort, Arc<str>), PartId> = FxHashMap::default();
    let mut slips = Vec::new();
    for (number, part) in build.parts() {
        let (Some(sort), Some(name)) = (sort_of(part.kind), &part.name) else { continue };
        match names.get(&(sort, name.clone())) {
            None => {
                names.insert((sort, name.clone()), number);
            }
            Some(first) => {
                let first = build.part(*first);
                slips.push(
                    Slip::new(
                        "names/name-twice",
                        part.head.clone(),
                        format!("the name `{name}` is taken by {}", first.title),
                    )
                    .help("give one of them another name; refer to a thing by its name instead of defining it again")
                    .related(first.head.clone(), "defined here first"),
                );
            }
        }
    }
    build.slips.append(&mut slips);
    names
}

/// Whether a part may stand where these kinds are asked for; an empty list admits every thing.
fn admits(kinds: &[PartKind], part: &Part) -> bool {
    kinds.is_empty() || kinds.contains(&part.kind)
}

fn sorts(kinds: &[PartKind]) -> Vec<Sort> {
    if kinds.is_empty() {
        return vec![Sort::Thing];
    }
    let mut sorts: Vec<Sort> = kinds.iter().filter_map(|kind| sort_of(*kind)).collect();
    sorts.dedup();
    sorts
}

fn find(
    names: &FxHashMap<(Sort, Arc<str>), PartId>,
    build: &Build,
    kinds: &[PartKind],
    name: &Arc<str>,
) -> Option<PartId> {
    sorts(kinds)
        .into_iter()
        .filter_map(|sort| names.get(&(sort, name.clone())).copied())
        .find(|found| admits(kinds, build.part(*found)))
}

/// The things by name, the first of each name, for runs.
pub fn things(build: &Build) -> FxHashMap<Arc<str>, PartId> {
    let mut things = FxHashMap::default();
    for (number, part) in build.parts().filter(|(_, part)| sort_of(part.kind) == Some(Sort::Thing)) {
        if let Some(name) = &part.name {
            things.entry(name.clone()).or_insert(number);
        }
    }
    things
}

/// What to say of a name that nothing has; nothing, where a block that could not be read may be what is meant.
pub fn unknown_thing(build: &Build, name: &str, at: &Span, incomplete: &Incomplete) -> Option<Slip> {
    let names: FxHashMap<(Sort, Arc<str>), PartId> =
        build.parts().filter_map(|(number, part)| Some(((sort_of(part.kind)?, part.name.clone()?), number))).collect();
    unknown(build, &names, &[], &Arc::from(name), at, incomplete)
}

fn unknown(
    build: &Build,
    names: &FxHashMap<(Sort, Arc<str>), PartId>,
    kinds: &[PartKind],
    name: &Arc<str>,
    at: &Span,
    incomplete: &Incomplete,
) -> Option<Slip> {
    let hidden = incomplete.every || kinds.iter().any(|kind| incomplete.concerns(*kind));
    if hidden || (kinds.is_empty() && !incomplete.kinds.is_empty()) {
        return None;
    }
    let what = match kinds {
        [] => "thing".to_owned(),
        kinds => kinds.iter().map(|kind| vocabulary::part(*kind).word).collect::<Vec<_>>().join(" or "),
    };
    let mut known: Vec<&str> = names
        .iter()
        .filter(|((sort, _), number)| sorts(kinds).contains(sort) && admits(kinds, build.part(**number)))
        .map(|((_, name), _)| &**name)
        .collect();
    known.sort_unstable();
    let slip = Slip::new("names/unknown-name", at.clone(), format!("no {what} is called `{name}`"));
    Some(match vocabulary::nearest(name, known.iter().copied()) {
        Some(near) => {
            let written = write_name(near);
            slip.help(format!("did you mean `{near}`?")).mend(format!("write {written}"), at.clone(), written)
        }
        None => match build.called(name).next() {
            Some((_, other)) => {
                slip.help(format!("{} is no {what}", other.title)).related(other.head.clone(), "this has the name")
            }
            None => slip.help(format!("define it: {what} \"{name}\" …")),
        },
    })
}
