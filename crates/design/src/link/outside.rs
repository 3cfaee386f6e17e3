//! The open air: a zone that is there without being described.

use crate::part::{Build, Part};
use spec::{Given, Incomplete, Value};
use vocabulary::{FactKind, fact, kind};

/// The word for it, and of its kind.
const OUTSIDE: &str = "outside";

/// Adds the open air as a zone, where a part names it and no zone of that name is described. It is found by its name and
/// stands in no list of zones: nothing about it is the builder's to say.
pub fn add(build: &mut Build) {
    let named = |part: &Part| {
        part.given.iter().any(|given| {
            matches!(vocabulary::fact_spec(given.fact).kind, FactKind::Part([only]) if *only == kind::ZONE)
                && matches!(&given.value, Value::Name(name) if &**name == OUTSIDE)
        })
    };
    let described = |part: &Part| part.kind == kind::ZONE && part.name.as_deref() == Some(OUTSIDE);
    if build.parts().any(|(_, part)| described(part)) || !build.parts().any(|(_, part)| named(part)) {
        return;
    }
    let words = vocabulary::fact_spec(fact::zone::KIND).choices();
    let choice = words.iter().position(|word| *word == OUTSIDE).and_then(|index| u16::try_from(index).ok());
    let root = build.part(Build::ROOT);
    let at = root.head.clone();
    let given =
        choice.map(|choice| Given { fact: fact::zone::KIND, value: Value::Choice(choice), at: at.clone(), via: None });
    let part = Part {
        kind: kind::ZONE,
        name: Some(OUTSIDE.into()),
        title: "the open air".into(),
        key: "the-open-air".into(),
        outer: None,
        inside: Vec::new(),
        head: at.clone(),
        whole: root.whole.clone(),
        room: root.room.clone(),
        via: Vec::new(),
        unread: false,
        incomplete: Incomplete::default(),
        given: given.into_iter().collect(),
    };
    build.outside = Some(crate::part::id(build.parts.len()));
    build.parts.push(part);
}
