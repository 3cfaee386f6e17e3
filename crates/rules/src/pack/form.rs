//! The words of a rule file: what may stand behind and inside each, as a table, and the reading of nodes by it.

use super::fault::PackFault;
use spec::text::{Bytes, Entry, Node, Scalar, Unread};
use std::collections::HashSet;
use std::ops::Range;
use vocabulary::nearest;

/// How one word of a rule file is written.
pub(super) struct Form {
    word: &'static str,
    fewest: usize,
    most: usize,
    keys: &'static [&'static str],
    /// What may stand in its braces; empty: it has none.
    pub(super) inside: &'static [&'static str],
    /// Whether it may stand more than once in one block.
    repeats: bool,
    written: &'static str,
}

const fn line(word: &'static str, keys: &'static [&'static str], repeats: bool, written: &'static str) -> Form {
    Form { word, fewest: 1, most: 1, keys, inside: &[], repeats, written }
}

const WRITE: &str = "write";

/// What may stand at the top of a rule file.
pub(super) const TOP: &[&str] = &["fixture", "rule"];

static FORMS: &[Form] = &[
    Form { fewest: 2, most: 2, ..line("fixture", &[], true, "fixture \"24 V van\" #\"\"\"…\"\"\"#") },
    Form {
        fewest: 2,
        most: 2,
        inside: &[
            "title",
            "classes",
            "follows",
            "once-per",
            "value",
            "when",
            "must",
            "tell",
            "why",
            "remedy",
            "caution",
            "mend",
            "source",
            "impossible",
            "example",
            "shown-by-test",
        ],
        ..line("rule", &["about", "found"], true, "rule \"domain/what-is-wrong\" warning about=device { … }")
    },
    line("title", &[], false, "title \"…\""),
    Form { most: usize::MAX, ..line("classes", &[], false, "classes van bus") },
    Form { most: usize::MAX, ..line("follows", &[], false, "follows \"domain/other-rule\"") },
    line("once-per", &[], false, "once-per \"class_from\""),
    line(
        "value",
        &["any", "us", "eu", "uk", "au-nz", "dimension", "help"],
        true,
        "value least_height any=\"300 mm\" us=\"12 inch\" help=\"…\"",
    ),
    line("when", &[], false, "when #\"…\"#"),
    line("must", &[], false, "must #\"…\"#"),
    line("tell", &[], false, "tell \"{title} in {run.title} …\""),
    line("why", &[], false, "why \"…\""),
    line("remedy", &[], false, "remedy \"…\""),
    line("caution", &[], false, "caution \"…\""),
    // The property that a mend writes is a key of its own, checked against the vocabulary.
    line("mend", &[], false, "mend write edge=grommet"),
    line(
        "source",
        &["place", "edition", "mark", "regions", "address", "note"],
        true,
        "source \"document\" place=\"clause\" edition=\"edition\" mark=read",
    ),
    line("impossible", &["reason", "side"], true, "impossible \"condition\" side=no reason=\"…\""),
    Form {
        fewest: 2,
        most: 2,
        inside: &["change", "remove", "add"],
        ..line("example", &["on", "basis", "missing"], true, "example \"what it shows\" fails on=\"24 V van\" { … }")
    },
    line("change", &["to"], true, "change \"80 A\" to=\"125 A\""),
    line("shown-by-test", &["in"], false, "shown-by-test \"name_of_the_test\" in=\"crates/…/tests/….rs\""),
    line("remove", &[], true, "remove \"…\""),
    line("add", &[], true, "add #\"…\"#"),
];

/// Reads the nodes of one rule file and gathers its faults.
pub(super) struct Reader<'t> {
    pub(super) file: &'t str,
    pub(super) text: &'t str,
    pub(super) faults: Vec<PackFault>,
}

/// Bytes of the text layer as a range of places.
pub(super) fn place(bytes: &Bytes) -> Range<usize> {
    bytes.start as usize..bytes.end as usize
}

/// The text of a value, if it is one.
pub(super) fn text_of(entry: &Entry) -> Option<&str> {
    match &entry.value {
        Scalar::Text(text) => Some(text),
        _ => None,
    }
}

/// The value of a property of a node.
pub(super) fn property<'n>(node: &'n Node, key: &str) -> Option<&'n Entry> {
    node.entries.iter().find(|entry| entry.key.as_ref().is_some_and(|word| &*word.text == key))
}

/// The arguments of a node.
pub(super) fn arguments(node: &Node) -> impl Iterator<Item = &Entry> {
    node.entries.iter().filter(|entry| entry.key.is_none())
}

/// The nodes of that name within a node.
pub(super) fn all<'n>(node: &'n Node, name: &str) -> impl Iterator<Item = &'n Node> {
    node.children.iter().filter(move |child| &*child.name.text == name && child.unread != Unread::Itself)
}

/// The first node of that name within a node.
pub(super) fn one<'n>(node: &'n Node, name: &str) -> Option<&'n Node> {
    all(node, name).next()
}

/// The n-th argument of a node as text; [`Reader::block`] has told the author if it is none.
pub(super) fn argument(node: &Node, position: usize) -> Option<(&str, Range<usize>)> {
    let entry = arguments(node).nth(position)?;
    Some((text_of(entry)?, place(&entry.value_at)))
}

/// A property of a node as text.
pub(super) fn property_text<'n>(node: &'n Node, key: &str) -> Option<(&'n str, Range<usize>)> {
    let entry = property(node, key)?;
    Some((text_of(entry)?, place(&entry.value_at)))
}

impl Reader<'_> {
    pub(super) fn fault(&mut self, at: Range<usize>, message: impl Into<String>, help: impl Into<String>) {
        let (file, message, help) = (self.file.to_owned(), message.into(), help.into());
        self.faults.push(PackFault { file, at, message, help });
    }

    /// A word that is none of `known`.
    pub(super) fn unknown(&mut self, at: Range<usize>, what: &str, word: &str, known: &[&str]) {
        let help = match nearest(word, known.iter().copied()) {
            Some(near) => format!("Did you mean `{near}`?"),
            None => format!("It is one of: {}.", known.join(", ")),
        };
        self.fault(at, format!("`{word}` is no {what}"), help);
    }

    /// Checks every node of a block against the forms: its word, its values, its keys, and whether it may stand again.
    pub(super) fn block(&mut self, nodes: &[Node], allowed: &[&str]) {
        let mut seen = HashSet::new();
        for node in nodes.iter().filter(|node| node.unread != Unread::Itself) {
            let name = &*node.name.text;
            let form = FORMS.iter().find(|form| form.word == name && allowed.contains(&form.word));
            let Some(form) = form else {
                self.unknown(place(&node.name.at), "word of a rule file at this place", name, allowed);
                continue;
            };
            if !form.repeats && !seen.insert(form.word) {
                self.fault(place(&node.name.at), format!("`{name}` stands twice"), "Keep one of the two.");
            }
            self.node(node, form);
            if form.inside.is_empty() {
                if node.has_block {
                    let at = node.block_at.as_ref().map_or_else(|| place(&node.name.at), place);
                    self.fault(at, format!("`{name}` has no block"), format!("It is written `{}`.", form.written));
                }
            } else {
                self.block(&node.children, form.inside);
            }
        }
    }

    fn node(&mut self, node: &Node, form: &Form) {
        let written = format!("It is written `{}`.", form.written);
        if let Some(annotation) = &node.annotation {
            self.fault(place(&annotation.at), "a type annotation says nothing here", "Take it away.");
        }
        let count = arguments(node).count();
        if count < form.fewest {
            let missing = match form.fewest - count {
                1 => "one value is missing".to_owned(),
                more => format!("{more} values are missing"),
            };
            self.fault(place(&node.name.at), format!("`{}`: {missing}", form.word), written.as_str());
        }
        let mut keys: HashSet<&str> = HashSet::new();
        for (position, entry) in arguments(node).enumerate() {
            if position >= form.most {
                self.fault(place(&entry.at), format!("`{}` has a value too many", form.word), written.as_str());
            }
        }
        for entry in &node.entries {
            if text_of(entry).is_none() {
                let help = format!("Write it in quotes: \"{}\".", entry.written);
                self.fault(place(&entry.value_at), format!("{} is no text", entry.written), help);
            }
            if let Some(annotation) = &entry.annotation {
                self.fault(place(&annotation.at), "a type annotation says nothing here", "Take it away.");
            }
            let Some(key) = &entry.key else { continue };
            if !keys.insert(&key.text) {
                let message = format!("`{}=` stands twice", key.text);
                self.fault(place(&key.at), message, "Keep one of the two.");
            } else if form.word != "mend" && !form.keys.contains(&&*key.text) {
                if form.keys.is_empty() {
                    let message = format!("`{}` has no `{}=`", form.word, key.text);
                    self.fault(place(&key.at), message, written.as_str());
                } else {
                    self.unknown(place(&key.at), &format!("property of `{}`", form.word), &key.text, form.keys);
                }
            }
        }
        if form.word == "mend"
            && let Some((word, at)) = argument(node, 0)
            && word != WRITE
        {
            self.unknown(at, "mend", word, &[WRITE]);
        }
    }

    /// The text of a line that must be there (`why "…"`); a missing or empty one is a fault at `at`.
    pub(super) fn required<'n>(
        &mut self,
        node: &'n Node,
        name: &str,
        at: &Range<usize>,
    ) -> Option<(&'n str, Range<usize>)> {
        let Some(found) = one(node, name) else {
            // A block that could not be read in full may well hold it, and a misspelt word has been told already.
            let inside = FORMS.iter().find(|form| form.word == &*node.name.text).map_or(&[][..], |form| form.inside);
            let misspelt = node.children.iter().any(|child| {
                let word = &*child.name.text;
                !inside.contains(&word) && nearest(word, inside.iter().copied()) == Some(name)
            });
            if node.unread == Unread::No && !misspelt {
                let written = FORMS.iter().find(|form| form.word == name).map_or("", |form| form.written);
                self.fault(at.clone(), format!("the rule has no `{name}`"), format!("Add `{written}`."));
            }
            return None;
        };
        let (text, place) = argument(found, 0)?;
        if text.trim().is_empty() {
            self.fault(place, format!("`{name}` is empty"), "Write it out.");
            return None;
        }
        Some((text, place))
    }
}
