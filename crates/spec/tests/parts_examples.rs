//! Every example of the vocabulary, and a whole specification, read without a slip.

#![allow(clippy::panic, reason = "a test that cannot find what it asks for has failed")]

mod parts_support;

use parts_support::{read, read_files};
use vocabulary::{FactId, FactKind, FactSpec, Family, Naming, PartSpec, Written};

/// The part's text within the parts that it may stand in, up to the top of a file.
fn surrounded(spec: &PartSpec, text: &str) -> String {
    if spec.top {
        return text.to_owned();
    }
    let outer = vocabulary::parts()
        .iter()
        .filter(|outer| outer.kind != spec.kind && outer.may_contain(spec.kind))
        .max_by_key(|outer| outer.top)
        .unwrap_or_else(|| panic!("{} stands nowhere", spec.word));
    let name = if outer.naming == Naming::Never { "" } else { " outer" };
    surrounded(outer, &format!("{}{name}{} {{\n    {text}\n}}", outer.word, required(outer, None)))
}

/// What the part must say, but for one property.
fn required(spec: &PartSpec, but: Option<FactId>) -> String {
    spec.properties()
        .filter(|fact| Some(fact.id) != but && fact.absent == vocabulary::Absent::Required)
        .map(|fact| {
            let example = if fact.choices().is_empty() { fact.example } else { fact.choices()[0] };
            format!(" {}={}", fact.name, value_text(fact, example))
        })
        .collect()
}

/// A file that describes something else besides, so that an include alone is not all of it.
fn with_a_lamp(text: &str) -> String {
    format!("{text}\nlamp other\n")
}

fn written_parts() -> impl Iterator<Item = &'static PartSpec> {
    vocabulary::parts().iter().filter(|spec| spec.family != Family::Worked)
}

#[test]
fn every_example_of_a_part_reads_without_a_slip() {
    for spec in written_parts() {
        assert!(!spec.example.is_empty(), "{} has no example", spec.word);
        let text = with_a_lamp(&surrounded(spec, spec.example));
        let found = read_files(&[("a.build.kdl", &text), ("shop.parts.kdl", "lamp pattern")]);
        assert_eq!(found.slips, [], "{text}");
        // What names another file leaves that file, and no part.
        let there = match spec.word {
            "house-rules" => !found.rule_files.is_empty(),
            _ => parts_support::all(&found.parts).iter().any(|part| part.kind == spec.kind),
        };
        assert!(there || spec.word == "include", "{text}");
    }
}

/// The example of a property as a builder would write it: bare where it is one word or a count, else in quotes.
fn value_text(fact: &FactSpec, example: &str) -> String {
    let bare = matches!(fact.kind, FactKind::Count | FactKind::Flag | FactKind::Choice(_));
    if bare { example.to_owned() } else { format!("\"{example}\"") }
}

#[test]
fn every_example_of_a_property_reads_on_its_part_in_both_ways_of_writing() {
    for spec in written_parts() {
        for fact in spec.properties() {
            let example = match (fact.example, fact.kind) {
                ("", FactKind::Flag) => "yes",
                ("", FactKind::Choice(words) | FactKind::ChoiceSet(words)) => words[0],
                (example, _) => example,
            };
            assert!(!example.is_empty(), "{} of {} has no example", fact.name, spec.word);
            let value = value_text(fact, example);
            let name = if spec.naming == Naming::Never { "" } else { " x" };
            let required = required(spec, Some(fact.id));
            let mut ways = vec![
                format!("{}{name}{required} {}={value}", spec.word, fact.name),
                format!("{}{name}{required} {{ {} {value}; }}", spec.word, fact.name),
            ];
            if matches!(fact.written, Written::Argument(0) | Written::Rest(0)) {
                ways.push(format!("{}{name}{required} {value}", spec.word));
            }
            for text in ways {
                let found = read_files(&[
                    ("a.build.kdl", &with_a_lamp(&surrounded(spec, &text))),
                    ("shop.parts.kdl", "lamp pattern"),
                ]);
                assert_eq!(found.slips, [], "{text}");
            }
        }
    }
}

#[test]
fn every_property_takes_the_word_unknown() {
    for spec in written_parts() {
        for fact in spec.properties() {
            let name = if spec.naming == Naming::Never { "" } else { " x" };
            let text = format!("{}{name} {}=unknown", spec.word, fact.name);
            let found = read(&with_a_lamp(&surrounded(spec, &text)));
            let about: Vec<_> = found.slips.iter().filter(|slip| slip.rule != "text/missing-entry").collect();
            assert!(about.is_empty(), "{text}: {about:?}");
            let parts = parts_support::all(&found.parts);
            let Some(part) = parts.iter().find(|part| part.kind == spec.kind) else { continue };
            assert_eq!(part.given(fact.id).map(|given| &given.value), Some(&spec::Value::Unknown), "{text}");
        }
    }
}

#[test]
fn a_whole_specification_reads_without_a_slip_but_for_the_parts_file_that_is_not_there() {
    let found = read_files(&[("bramble.build.kdl", include_str!("parts_support/workshop.build.kdl"))]);
    let rules: Vec<&str> = found.slips.iter().map(|slip| slip.rule).collect();
    assert_eq!(rules, ["text/include-missing", "text/like-unknown"], "{:?}", found.slips);
    let whole = read_files(&[
        ("bramble.build.kdl", include_str!("parts_support/workshop.build.kdl")),
        ("shop.parts.kdl", "berth \"shop bunk\" sleeps=1"),
    ]);
    assert_eq!(whole.slips, []);
    assert_eq!(
        parts_support::all(&whole.parts).iter().filter(|part| part.kind == vocabulary::kind::WAY).count(),
        6,
        "four ways of the panel, two of the board"
    );
}
