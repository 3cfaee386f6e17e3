//! The design week: one worked part for the build, at its brief, and the seasons that its facts differ by.

use crate::part::{Build, Part, id};
use spec::Value;
use vocabulary::{FactKind, fact, kind};

/// Adds the week of a build that has a battery, and says in which seasons it is used.
pub fn add(build: &mut Build) {
    if !build.parts().any(|(_, part)| part.kind == kind::BATTERY) {
        return;
    }
    let place = build.only(kind::BRIEF).unwrap_or(Build::ROOT);
    let at = build.part(place).clone();
    let number = id(build.parts.len());
    build.climates = seasons(&at);
    build.parts.push(Part {
        kind: kind::WEEK,
        name: None,
        title: "the design week".into(),
        key: "week".into(),
        outer: Some(place),
        inside: Vec::new(),
        given: Vec::new(),
        ..at
    });
    build.circuitry.written.insert(number, place);
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
