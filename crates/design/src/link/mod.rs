//! From what the reader brought to a linked build: one list of parts, names resolved, circuits as a network.

mod axles;
mod fills;
mod flatten;
mod floor;
mod heavy;
mod joints;
mod lengths;
mod loose;
mod mains;
mod modes;
mod names;
mod networks;
mod operated;
mod outside;
mod places;
mod rings;
mod runs;
mod shores;
mod terminals;
mod unfed;
mod week;

use crate::cases::Cases;
use crate::circuitry::Circuitry;
use crate::known::{PartId, Parts};
use crate::part::{Build, Part, id};
use crate::regions::Regions;
use rustc_hash::FxHashMap;
use spec::{Incomplete, Slip, Spec, Value};
use vocabulary::{FactKind, PartKind, fact};

/// Links what was read. Never fails: what does not fit together is among the build's slips.
pub fn link(spec: Spec) -> Build {
    let mut flat = flatten::Flat::default();
    flat.take(spec.parts, &spec.files, spec.incomplete.every);
    let flatten::Flat { parts, mut slips, .. } = flat;
    let mut all_slips = spec.slips;
    all_slips.append(&mut slips);
    let mut build = Build {
        files: spec.files,
        rule_files: spec.rule_files,
        slips: all_slips,
        regions: Regions::default(),
        cases: Cases::default(),
        parts,
        by_kind: Vec::new(),
        references: FxHashMap::default(),
        circuitry: Circuitry::default(),
        systems: Vec::new(),
        modes: Vec::new(),
        outside: None,
        climates: Vec::new(),
        first_unread: Build::ROOT,
    };
    let incomplete = open_lists(&build, &spec.incomplete);
    outside::add(&mut build);
    list_kinds(&mut build, &incomplete);
    build.regions = regions(&build);
    check_basis(&mut build);
    names::resolve(&mut build, &incomplete);
    operated::resolve(&mut build);
    runs::connect(&mut build);
    loose::find(&mut build);
    rings::find(&mut build);
    networks::add(&mut build);
    mains::add(&mut build);
    modes::add(&mut build, &incomplete);
    week::add(&mut build);
    add_systems(&mut build);
    check_absent_systems(&mut build);
    axles::check(&mut build);
    heavy::add(&mut build);
    floor::add(&mut build);
    list_kinds(&mut build, &incomplete);
    unfed::find_unfed(&mut build, &incomplete);
    let modes = build.modes.iter().map(|mode| mode.name.to_string()).collect();
    places::find(&mut build);
    let unread = build.parts().find(|(_, part)| part.leaves_open());
    build.first_unread = unread.map_or(Build::ROOT, |(number, _)| number);
    build.cases = Cases::new(modes, build.climates.clone(), fills::names(&build));
    build
}

/// Adds a worked part that stands for a part of the text, at its place and by its title; `word` tells it apart in its key.
fn stand_in(build: &mut Build, thing: PartId, kind: PartKind, word: &str) -> PartId {
    let at = build.part(thing).clone();
    let number = id(build.parts.len());
    build.parts.push(Part {
        kind,
        key: format!("{}/{word}", at.key).into(),
        outer: Some(thing),
        inside: Vec::new(),
        given: Vec::new(),
        ..at
    });
    build.circuitry.written.insert(number, thing);
    number
}

/// Which lists of the whole build may be incomplete: what the files leave open, and what any part leaves open.
fn open_lists(build: &Build, top: &Incomplete) -> Incomplete {
    let mut open = top.clone();
    for (_, part) in build.parts() {
        open.add(&part.incomplete);
    }
    open
}

fn list_kinds(build: &mut Build, incomplete: &Incomplete) {
    let mut members: Vec<Vec<PartId>> = vec![Vec::new(); vocabulary::parts().len()];
    for (number, part) in build.parts().filter(|(number, _)| Some(*number) != build.outside) {
        members[usize::from(part.kind.0)].push(number);
    }
    build.by_kind = members
        .into_iter()
        .zip(0..)
        .map(|(members, kind)| Parts { members: members.into(), complete: !incomplete.concerns(PartKind(kind)) })
        .collect();
}

fn regions(build: &Build) -> Regions {
    let words = match vocabulary::fact_spec(fact::build::BASIS).kind {
        FactKind::ChoiceSet(words) => words,
        _ => &[],
    };
    match build.part(Build::ROOT).given(fact::build::BASIS).map(|given| &given.value) {
        Some(Value::ChoiceSet(bits)) => Regions::from_bits(*bits, words),
        _ => Regions::default(),
    }
}

/// Reports a build that does not say by which regions' rules it is judged.
fn check_basis(build: &mut Build) {
    let root = build.part(Build::ROOT);
    if root.unread || root.name.is_none() {
        return;
    }
    let words = vocabulary::fact_spec(fact::build::BASIS).choices().join(", ");
    let (at, message) = match root.given(fact::build::BASIS) {
        None => (root.head.clone(), "the build does not say by which region's rules it is judged"),
        // A word that is no region has been told by the reader; one that says `unknown` was understood.
        Some(given) if given.value == Value::Unknown && says_unknown(build, &given.at) => (
            given.at.clone(),
            "it is not known by which region's rules the build is judged: wires are read by the tables outside the United States",
        ),
        Some(_) => return,
    };
    let slip = Slip::new("names/no-basis", at, message).help(format!("write basis and one or more of: {words}"));
    build.slips.push(slip);
}

/// Whether the text at a place ends with the word `unknown`, as a value on a line of its own does.
fn says_unknown(build: &Build, at: &spec::Span) -> bool {
    let file = usize::try_from(at.file).ok().and_then(|file| build.files.get(file));
    let bytes = [at.bytes.start, at.bytes.end].map(|byte| usize::try_from(byte).unwrap_or(usize::MAX));
    file.and_then(|file| file.text.get(bytes[0]..bytes[1])).is_some_and(|text| text.trim_end().ends_with(spec::UNKNOWN))
}

/// Checks that each `none` names a system.
fn check_absent_systems(build: &mut Build) {
    let mut slips = Vec::new();
    for none in build.of_kind(vocabulary::kind::NONE).members.iter() {
        let Some(given) = build.part(*none).given(fact::none::SYSTEMS) else { continue };
        let Value::Names(words) = &given.value else { continue };
        for (word, at) in words {
            let known = vocabulary::systems().iter().map(|system| system.word);
            if known.clone().any(|known| known == &**word) {
                continue;
            }
            let slip = Slip::new(
                "names/unknown-system",
                at.clone(),
                format!("`{word}` is no system that a build can do without"),
            );
            slips.push(match vocabulary::nearest(word, known.clone()) {
                Some(near) => {
                    slip.help(format!("did you mean `{near}`?")).mend(format!("write {near}"), at.clone(), near)
                }
                None => slip.help(format!("the systems are: {}", known.collect::<Vec<_>>().join(", "))),
            });
        }
    }
    build.slips.append(&mut slips);
}

/// Adds a worked part for each system of the vocabulary; its place is the build's.
fn add_systems(build: &mut Build) {
    for (number, system) in vocabulary::systems().iter().enumerate() {
        let root = &build.parts[0];
        let part = Part {
            kind: vocabulary::kind::SYSTEM,
            name: Some(system.word.into()),
            title: format!("the system `{}`", system.word).into(),
            key: format!("system:{}", system.word).into(),
            outer: Some(Build::ROOT),
            inside: Vec::new(),
            head: root.head.clone(),
            whole: root.whole.clone(),
            room: root.room.clone(),
            via: Vec::new(),
            unread: false,
            incomplete: Incomplete::default(),
            given: Vec::new(),
        };
        build.systems.push((id(build.parts.len()), number));
        build.parts.push(part);
    }
}
