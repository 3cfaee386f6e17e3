//! What the tests of the linked design share: short ways to build a text, to find a part and to ask a fact by name.
#![allow(dead_code, reason = "each test file uses a part of this")]
#![allow(clippy::panic, reason = "a test that cannot find what it asks for has failed")]

use design::{Build, CaseId, Fact, Gap, Gaps, PartId, Reader, Working};
use spec::text::BlockCache;
use spec::{LoadFault, Loaded, Loader};
use vocabulary::FactId;

/// The demo build and the parts file that it includes.
pub const BRAMBLE: &str = include_str!("../../../../tests/builds/bramble.build.kdl");
const SHOP: &str = include_str!("../../../../tests/builds/shop.parts.kdl");

/// The one case of a build without modes.
pub const CASE: CaseId = CaseId(0);

struct Shelf<'a>(&'a str);

impl Loader for Shelf<'_> {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        match (from, name) {
            (None, _) => Ok(Loaded { name: name.to_owned(), text: self.0.to_owned() }),
            (Some(_), "shop.parts.kdl") => Ok(Loaded { name: name.to_owned(), text: SHOP.to_owned() }),
            _ => Err(LoadFault::Refused("there is no such file".to_owned())),
        }
    }
}

/// Reads and links a text.
pub fn build(text: &str) -> Build {
    design::link(spec::read(&Shelf(text), "test.build.kdl", &mut BlockCache::default()))
}

/// Reads and links a text in which nothing may be wrong.
pub fn clean(text: &str) -> Build {
    let build = build(text);
    assert_eq!(build.slips, [], "{text}");
    build
}

/// What the linker says of the shape of paths: loose ends, rings and the like. A test of currents may have any shape.
const SHAPES: [&str; 5] = [
    "names/loose-circuit",
    "names/circuit-to-itself",
    "names/ring-of-circuits",
    "names/cables-side-by-side",
    "names/fed-twice",
];

/// Reads and links a text in which nothing may be wrong but the shape of its paths.
pub fn any_shape(text: &str) -> Build {
    let build = build(text);
    assert!(build.slips.iter().all(|slip| SHAPES.contains(&slip.rule)), "{text}: {:?}", build.slips);
    build
}

/// The slips of names and of the text, each as its rule and the text that it points at.
pub fn slips(build: &Build) -> Vec<(&'static str, &str)> {
    build
        .slips
        .iter()
        .map(|slip| {
            let text = &build.files[slip.at.file as usize].text;
            (slip.rule, &text[slip.at.bytes.start as usize..slip.at.bytes.end as usize])
        })
        .collect()
}

/// The first part of that kind whose key ends so (`fuse:1`, `circuit:feed/run`); any of the kind for an empty ending.
pub fn part(build: &Build, word: &str, key: &str) -> PartId {
    build
        .parts()
        .find(|(_, part)| vocabulary::part(part.kind).word == word && part.key.ends_with(key))
        .map(|(number, _)| number)
        .unwrap_or_else(|| {
            let keys: Vec<_> = build.parts().map(|(_, part)| part.key.clone()).collect();
            panic!("no {word} {key} among {keys:?}")
        })
}

/// The number of a fact of a part, by name.
pub fn fact(build: &Build, part: PartId, name: &str) -> FactId {
    let spec = vocabulary::part(build.part(part).kind);
    spec.fact(name).unwrap_or_else(|| panic!("{} has no {name}", spec.word)).id
}

/// A fact by part and name.
pub fn ask(build: &Build, part: PartId, name: &str) -> Result<Fact, Gaps> {
    Reader::new(build).fact(part, fact(build, part, name), CASE)
}

/// A known number.
pub fn number(build: &Build, part: PartId, name: &str) -> f64 {
    match ask(build, part, name) {
        Ok(Fact::Number(value)) => value,
        other => panic!("{name} of {} is {other:?}", build.part(part).key),
    }
}

/// A known flag.
pub fn flag(build: &Build, part: PartId, name: &str) -> bool {
    match ask(build, part, name) {
        Ok(Fact::Flag(value)) => value,
        other => panic!("{name} of {} is {other:?}", build.part(part).key),
    }
}

/// The known members of a list, by their titles; a list that may be incomplete ends in `…`.
pub fn titles(build: &Build, part: PartId, name: &str) -> Vec<String> {
    match ask(build, part, name) {
        Ok(Fact::Parts(parts)) => {
            let mut titles: Vec<String> =
                parts.members.iter().map(|part| build.part(*part).title.to_string()).collect();
            if !parts.complete {
                titles.push("…".to_owned());
            }
            titles
        }
        other => panic!("{name} of {} is {other:?}", build.part(part).key),
    }
}

/// Every gap of an unknown fact in words: `battery:house voltage`, `unread circuit:feed`, `no circuit in lamp:l`.
pub fn gaps(build: &Build, part: PartId, name: &str) -> Vec<String> {
    match ask(build, part, name) {
        Err(gaps) => gaps.0.iter().flat_map(|any| &any.0).map(|gap| words(build, gap)).collect(),
        Ok(known) => panic!("{name} of {} is known: {known:?}", build.part(part).key),
    }
}

/// A gap in words.
pub fn words(build: &Build, gap: &Gap) -> String {
    let key = |part: &PartId| build.part(*part).key.to_string();
    match gap {
        Gap::Entry(part, fact) => format!("{} {}", key(part), vocabulary::fact_spec(*fact).name),
        Gap::Absent(part, kind) => format!("no {} in {}", vocabulary::part(*kind).word, key(part)),
        Gap::Unread(part) => format!("unread {}", key(part)),
        Gap::Circular(part, fact) => format!("circle at {} {}", key(part), vocabulary::fact_spec(*fact).name),
        Gap::NoSolution(part, fact) => format!("no solution for {} {}", key(part), vocabulary::fact_spec(*fact).name),
    }
}

/// The working of a fact.
pub fn working(build: &Build, part: PartId, name: &str) -> Working {
    Reader::new(build).working(part, fact(build, part, name), CASE)
}

/// All steps of a working in one text.
pub fn steps(build: &Build, part: PartId, name: &str) -> String {
    working(build, part, name).steps.into_iter().map(|step| step.text + "\n").collect()
}

/// Whether two numbers are one but for a share of the second.
pub fn near(value: f64, expected: f64, share: f64) -> bool {
    (value - expected).abs() <= expected.abs() * share
}

/// Reads and links a text in which nothing may be wrong but that some things hang on no circuit or line: tests of the others.
pub fn linked(text: &str) -> Build {
    let build = build(text);
    for slip in &build.slips {
        assert_eq!(slip.rule, "names/thing-without-run", "{} in\n{text}", slip.message);
    }
    build
}

/// Asserts numbers of one build: kind, end of the key, fact, value, share by which it may differ.
pub fn assert_numbers(text: &str, expected: &[(&str, &str, &str, f64, f64)]) {
    let build = linked(text);
    for (word, key, fact, value, share) in expected {
        let found = number(&build, part(&build, word, key), fact);
        assert!(near(found, *value, *share), "{fact} of {key} is {found}, not {value}, in\n{text}");
    }
}
