//! What the tests of the typed parts share: a shelf of named texts, and short ways to ask what was read.
#![allow(dead_code, reason = "each test file uses a part of this")]
#![allow(clippy::panic, clippy::expect_used, reason = "a test that cannot find what it asks for has failed")]

use spec::text::BlockCache;
use spec::{LoadFault, Loaded, Loader, Part, Slip, Span, Spec, Value};

/// Named texts that stand for files; a name in an include is relative to the folder of the file that includes it.
pub struct Shelf<'a>(pub &'a [(&'a str, &'a str)]);

impl Loader for Shelf<'_> {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let folder = from.and_then(|from| from.rsplit_once('/')).map(|(folder, _)| folder);
        let mut path: Vec<&str> = folder.into_iter().flat_map(|folder| folder.split('/')).collect();
        for step in name.split('/') {
            match step {
                ".." => {
                    path.pop();
                }
                "." => {}
                step => path.push(step),
            }
        }
        let path = path.join("/");
        match self.0.iter().find(|(known, _)| *known == path) {
            Some((name, text)) => Ok(Loaded { name: (*name).to_owned(), text: (*text).to_owned() }),
            None => Err(LoadFault::Refused("there is no such file".to_owned())),
        }
    }
}

/// Reads the first text of a shelf.
pub fn read_files(files: &[(&str, &str)]) -> Spec {
    spec::read(&Shelf(files), files[0].0, &mut BlockCache::default())
}

/// Reads one text.
pub fn read(text: &str) -> Spec {
    read_files(&[("test.build.kdl", text)])
}

/// The text at a span.
pub fn text_at<'a>(spec: &'a Spec, span: &Span) -> &'a str {
    let text = &spec.files[span.file as usize].text;
    &text[span.bytes.start as usize..span.bytes.end as usize]
}

/// The slips, each as its rule and the text it points at.
pub fn slips(spec: &Spec) -> Vec<(&'static str, &str)> {
    spec.slips.iter().map(|slip| (slip.rule, text_at(spec, &slip.at))).collect()
}

/// A build's text after the mend of a slip in its first file.
pub fn mended(spec: &Spec, slip: &Slip) -> String {
    let mend = slip.mend.as_ref().unwrap_or_else(|| panic!("no mend: {slip:?}"));
    let mut text = spec.files[mend.at.file as usize].text.to_string();
    text.replace_range(mend.at.bytes.start as usize..mend.at.bytes.end as usize, &mend.text);
    text
}

/// The first part with that word, at the top or within.
pub fn part<'a>(spec: &'a Spec, word: &str) -> &'a Part {
    all(&spec.parts)
        .into_iter()
        .find(|part| vocabulary::part(part.kind).word == word)
        .unwrap_or_else(|| panic!("no {word} in {:?}; slips {:?}", spec.parts, spec.slips))
}

/// The top-level part of that name.
pub fn named<'a>(spec: &'a Spec, name: &str) -> &'a Part {
    spec.parts
        .iter()
        .find(|part| part.name.as_ref().is_some_and(|given| &*given.text == name))
        .unwrap_or_else(|| panic!("no part called {name}; slips {:?}", spec.slips))
}

/// Every part with all that stands within, in the order of the text.
pub fn all(parts: &[Part]) -> Vec<&Part> {
    parts.iter().flat_map(|part| std::iter::once(part).chain(all(&part.inside))).collect()
}

/// The value of a property by its name.
pub fn value<'a>(part: &'a Part, property: &str) -> Option<&'a Value> {
    let spec = vocabulary::part(part.kind);
    let fact = spec.fact(property).unwrap_or_else(|| panic!("{} has no {property}", spec.word));
    part.given(fact.id).map(|given| &given.value)
}

/// The number of a quantity, in SI units.
pub fn number(part: &Part, property: &str) -> f64 {
    match value(part, property) {
        Some(Value::Quantity(quantity)) => quantity.value,
        other => panic!("{property} is {other:?}"),
    }
}

/// The word of a choice.
pub fn word(part: &Part, property: &str) -> &'static str {
    let fact = vocabulary::part(part.kind).fact(property).expect("known");
    match value(part, property) {
        Some(Value::Choice(index)) => fact.choices()[usize::from(*index)],
        other => panic!("{property} is {other:?}"),
    }
}
