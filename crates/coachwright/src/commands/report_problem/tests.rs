//! Nothing private is left of a blanked specification, and its structure stays.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

use super::blank::Blank;
use spec::text::{BlockCache, Entry, Node, Scalar};
use spec::{Part, SingleText};
use std::collections::BTreeSet;
use std::path::PathBuf;

/// The demo builds and their parts.
fn demos() -> Vec<(PathBuf, String)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/builds");
    let mut demos: Vec<_> = std::fs::read_dir(folder)
        .expect("the demo builds")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "kdl"))
        .map(|path| (path.clone(), std::fs::read_to_string(path).expect("a text")))
        .collect();
    demos.sort();
    assert!(demos.len() > 10);
    demos
}

fn blanked(text: &str) -> String {
    Blank::new(crate::engine::shipped().expect("the packs")).text(text)
}

fn read(text: &str) -> spec::Spec {
    spec::read(&SingleText(text), "a.build.kdl", &mut BlockCache::off())
}

/// The kinds of parts with their depth and the properties that are written of each.
fn structure(parts: &[Part], depth: usize, found: &mut Vec<(usize, &'static str, Vec<&'static str>)>) {
    for part in parts {
        let given = part.given.iter().map(|given| vocabulary::fact_spec(given.fact).name).collect();
        found.push((depth, vocabulary::part(part.kind).word, given));
        structure(&part.inside, depth + 1, found);
    }
}

fn names(parts: &[Part], found: &mut BTreeSet<String>) {
    for part in parts {
        found.extend(part.name.as_ref().map(|name| name.text.to_string()));
        names(&part.inside, found);
    }
}

/// Every value as it is written, in the order of the text.
fn values(nodes: &[Node], found: &mut Vec<Entry>) {
    for node in nodes {
        found.extend(node.entries.iter().cloned());
        values(&node.children, found);
    }
}

/// Everything that the vocabulary itself can write: words, choices and units.
fn vocabulary_words() -> BTreeSet<String> {
    let mut words: BTreeSet<String> =
        ["outside", "unknown", "yes", "no", "like", "text", "name"].map(String::from).into();
    for part in vocabulary::parts() {
        words.extend(part.word.split('-').chain(part.fillers.iter().copied()).map(str::to_owned));
        words.insert(part.word.to_owned());
    }
    for fact in vocabulary::facts() {
        words.extend(fact.name.split('-').map(str::to_owned));
        words.extend(fact.choices().iter().flat_map(|word| word.split('-')).map(str::to_owned));
    }
    words.extend(vocabulary::systems().iter().flat_map(|system| system.word.split('-')).map(str::to_owned));
    words.extend(quantity::units().iter().flat_map(|unit| [unit.symbol, unit.identifier]).map(str::to_owned));
    words.insert(String::from("AWG"));
    words.iter().map(|word| word.to_lowercase()).collect()
}

#[test]
fn the_structure_stays() {
    for (path, text) in demos() {
        let blank = blanked(&text);
        let (before, after) = (read(&text), read(&blank));
        let (mut one, mut other) = (Vec::new(), Vec::new());
        structure(&before.parts, 0, &mut one);
        structure(&before.patterns, 0, &mut one);
        structure(&after.parts, 0, &mut other);
        structure(&after.patterns, 0, &mut other);
        assert!(!one.is_empty(), "{path:?}");
        assert_eq!(one, other, "{path:?}: {blank}");
        let rules = |spec: &spec::Spec| spec.slips.iter().map(|slip| slip.rule).collect::<Vec<_>>();
        assert_eq!(rules(&before), rules(&after), "{path:?}: the same is wrong with it: {blank}");
    }
}

#[test]
fn no_name_word_or_number_is_left() {
    let own = vocabulary_words();
    for (path, text) in demos() {
        let blank = blanked(&text);
        // Words of three letters and more; shorter ones are units and signs.
        let words = |text: &str| -> BTreeSet<String> {
            text.split(|letter: char| !letter.is_alphabetic())
                .filter(|word| word.chars().count() > 3)
                .map(str::to_lowercase)
                .filter(|word| !own.contains(word))
                .collect()
        };
        let (before, after) = (words(&text), words(&blank));
        assert!(before.len() > 3, "{path:?} has words of its own");
        let left: Vec<&String> = before.intersection(&after).collect();
        assert!(left.is_empty(), "{path:?}: {left:?} are left:\n{blank}");
        assert!(!blank.contains("//"), "{path:?} keeps no comment");
        let (mut one, mut other) = (BTreeSet::new(), BTreeSet::new());
        names(&read(&text).parts, &mut one);
        names(&read(&blank).parts, &mut other);
        assert!(one.is_disjoint(&other), "{path:?}: {other:?}");
        assert_eq!(one.len(), other.len(), "{path:?}: each name has a word of its own");
        // Value by value: none with a number in it is what it was.
        let (mut one, mut other) = (Vec::new(), Vec::new());
        values(&spec::text::read(&text, &mut BlockCache::off()).nodes, &mut one);
        values(&spec::text::read(&blank, &mut BlockCache::off()).nodes, &mut other);
        assert_eq!(one.len(), other.len(), "{path:?}");
        for (one, other) in one.iter().zip(&other) {
            let number = matches!(one.value, Scalar::Whole(_) | Scalar::Real(_))
                || matches!(&one.value, Scalar::Text(text) if text.starts_with(|letter: char| letter.is_ascii_digit() || letter == '-'));
            assert!(!number || one.value != other.value, "{path:?}: {} is left", one.written);
        }
    }
}

#[test]
fn what_cannot_be_read_is_left_as_signs() {
    for (text, kept, gone) in [
        ("battery \"my secret\" voltage=\"12\n", "", "secret"),
        ("battery house voltage=12V capacity=\"200 Ah\"\n", "battery xxxxx voltage=99V capacity=\"999 Ah\"", "12"),
        ("battery house voltage=\"twelve volts\"\n", "battery name-1 voltage=\"xxxxxx volts\"", "twelve"),
        ("battery house chemistry=secretium\n", "chemistry=name-2", "secretium"),
        ("secretpart house colour=\"pink\"\n", "name-1", "pink"),
        ("battery house mystery=\"pink\"\n", "battery name-1 name-2=name-3", "mystery"),
        ("lamp a power=\"18 W\" // secret\n/* more secret */\n", "lamp name-1 power=\"99 W\"", "secret"),
        ("lamp a power=\"99 W\"\n", "lamp name-1 power=\"11 W\"", "99"),
        (
            "circuit a from=b { wire size=\"2/0 AWG\" one-way=\"4 ft 6 in\"; }\n",
            "wire size=\"1/0 AWG\" one-way=\"9 ft 9 in\"",
            "2/0",
        ),
        ("/-battery secret\nlamp a\n", "lamp name-1", "secret"),
        (
            "waive \"alarm/no-smoke-alarm\" reason=\"secret\" by=\"me\"\n",
            "waive \"alarm/no-smoke-alarm\" reason=\"text-1\"",
            "secret",
        ),
        ("build a { none gas; include \"secret.parts.kdl\"; }\n", "none gas", "secret"),
    ] {
        let blank = blanked(text);
        assert!(blank.contains(kept), "{text} keeps {kept}: {blank}");
        assert!(!blank.contains(gone), "{text} loses {gone}: {blank}");
    }
}
