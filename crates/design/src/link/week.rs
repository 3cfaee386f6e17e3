//! The design weeks: a worked part for each bank of batteries that the conversion fits, at the brief, and the seasons that their
//! facts differ by.

use crate::circuitry::{Side, WeekOf};
use crate::known::PartId;
use crate::methods::bank::{parted, reached};
use crate::part::{Build, Part, Reference, id};
use rustc_hash::FxHashSet;
use spec::Value;
use vocabulary::{FactKind, fact, kind};

/// Adds the weeks of a build, and says in which seasons it is used.
pub fn add(build: &mut Build) {
    let banks = banks(build);
    if banks.is_empty() {
        return;
    }
    let place = build.only(kind::BRIEF).unwrap_or(Build::ROOT);
    build.climates = seasons(build.part(place));
    let alone = banks.len() == 1;
    for (batteries, nodes) in banks {
        let Some(first) = batteries.first() else { continue };
        let bank = build.part(*first);
        let (title, key) = if alone {
            ("the design week".to_owned(), "week".to_owned())
        } else {
            (format!("the design week of {}", bank.title), format!("week/{}", bank.key))
        };
        let at = build.part(place).clone();
        let number = id(build.parts.len());
        build.parts.push(Part {
            kind: kind::WEEK,
            name: None,
            title: title.into(),
            key: key.into(),
            outer: Some(place),
            inside: Vec::new(),
            given: Vec::new(),
            ..at
        });
        build.circuitry.written.insert(number, place);
        build.circuitry.weeks.push(WeekOf { part: number, batteries, nodes });
    }
}

/// Whether a battery is surely none of the conversion's own: its role says so, or an alternator names it.
fn is_other(build: &Build, battery: PartId) -> bool {
    let words = vocabulary::fact_spec(fact::battery::ROLE).choices();
    if let Some(given) = build.part(battery).given(fact::battery::ROLE) {
        return match &given.value {
            Value::Choice(word) => words.get(usize::from(*word)).is_some_and(|word| *word != "house"),
            _ => false,
        };
    }
    build
        .of_kind(kind::ALTERNATOR)
        .members
        .iter()
        .any(|alternator| build.references.get(&(*alternator, fact::alternator::FROM)) == Some(&Reference::To(battery)))
}

/// The banks: batteries that are joined without a relay between, with all that is joined so.
fn banks(build: &Build) -> Vec<(Vec<PartId>, FxHashSet<usize>)> {
    let mut banks: Vec<(Vec<PartId>, FxHashSet<usize>)> = Vec::new();
    for &battery in build.of_kind(kind::BATTERY).members.iter().filter(|battery| !is_other(build, **battery)) {
        let node = build.circuitry.node_of(battery, Side::Input);
        match banks.iter_mut().find(|(_, nodes)| node.is_some_and(|node| nodes.contains(&node))) {
            Some((batteries, _)) => batteries.push(battery),
            None => {
                let nodes = node.map(|node| reached(&build.circuitry, node, |run| !parted(build, run)));
                banks.push((vec![battery], nodes.unwrap_or_default().into_iter().collect()));
            }
        }
    }
    banks
}

/// The seasons of a brief, the harder one first; all of them where it says none that is understood.
fn seasons(brief: &Part) -> Vec<String> {
    let FactKind::ChoiceSet(words) = vocabulary::fact_spec(fact::brief::USED).kind else { return Vec::new() };
    let bits = match brief.given(fact::brief::USED).map(|given| &given.value) {
        Some(Value::ChoiceSet(bits)) if *bits != 0 => *bits,
        _ => u64::MAX,
    };
    let used = words.iter().enumerate().filter(|(place, _)| bits & (1 << place) != 0);
    used.map(|(_, word)| (*word).to_owned()).collect()
}
