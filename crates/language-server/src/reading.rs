//! A text as it stands now, read with all that it includes, for requests that ask what is written where.

use crate::check::{Sort, Surroundings, Text};
use crate::state::State;
use spec::{Part, Span, Value, Via};
use std::ops::{Deref, Range};
use std::sync::Arc;
use tower_lsp::lsp_types::{Location, Position, Url};
use vocabulary::{FactId, Naming, fact};

/// What was read, and where.
pub struct Reading {
    text: Arc<Text>,
    /// The number of the file that was asked about.
    pub file: u32,
}

impl Deref for Reading {
    type Target = Text;

    fn deref(&self) -> &Text {
        &self.text
    }
}

/// A name where it is written.
pub struct Mention {
    /// The name.
    pub name: String,
    /// Where, quotes included.
    pub at: Span,
    /// Whether this is where the thing is defined.
    pub defines: bool,
    /// Whether it stands within a longer text, so that it must not be quoted.
    pub within_text: bool,
    /// Whether it names a pattern for `like=`: their names are apart from those of things.
    pub pattern: bool,
}

impl Reading {
    /// Reads the build that a text belongs to: itself, or the open build that includes it.
    pub fn of(state: &State, surroundings: &Surroundings, url: &Url) -> Option<Self> {
        let document = state.documents.get(url)?;
        if !document.sound {
            return None;
        }
        if Sort::of(url)? == Sort::Rules {
            return None;
        }
        let bringer = || state.checked.iter().find(|(_, checked)| checked.file(url).is_some());
        let root = if state.checked.contains_key(url) { url } else { bringer().map_or(url, |(root, _)| root) };
        let text = state.readings.get(state, surroundings, root);
        let file = text.urls.iter().position(|own| own.as_ref() == Some(url))?;
        Some(Self { text, file: u32::try_from(file).ok()? })
    }

    /// The byte of a position in the text that was asked about.
    pub fn byte(&self, state: &State, position: Position) -> Option<u32> {
        let text = &self.spec.files.get(self.file as usize)?.text;
        let byte = self.lines.get(self.file as usize)?.byte(text, position, state.client.encoding)?;
        u32::try_from(byte).ok()
    }

    /// The position of a byte of the text that was asked about.
    pub fn position(&self, state: &State, byte: usize) -> Option<Position> {
        let text = &self.spec.files.get(self.file as usize)?.text;
        Some(self.lines.get(self.file as usize)?.position(text, byte, state.client.encoding))
    }

    /// A place for the client.
    pub fn location(&self, state: &State, at: &Span) -> Option<Location> {
        let url = self.urls.get(at.file as usize)?.clone()?;
        let text = &self.spec.files.get(at.file as usize)?.text;
        let range = self.lines.get(at.file as usize)?.range(text, &bytes(at), state.client.encoding);
        Some(Location::new(url, range))
    }

    /// The text at a place.
    pub fn text(&self, at: &Span) -> &str {
        self.spec.files.get(at.file as usize).and_then(|file| file.text.get(bytes(at))).unwrap_or("")
    }

    /// The parts that a byte of the asked text lies in, from the outside in.
    pub fn around(&self, byte: u32) -> Vec<&Part> {
        let mut around = Vec::new();
        let holds = |part: &&Part| part.at.file == self.file && holds(&part.at, byte);
        let mut next = self.top().find(holds);
        while let Some(part) = next {
            around.push(part);
            next = part.inside.iter().find(holds);
        }
        around
    }

    /// The top-level parts of all files, patterns for `like=` too.
    pub fn top(&self) -> impl DoubleEndedIterator<Item = &Part> {
        self.spec.parts.iter().chain(&self.spec.patterns)
    }

    /// Every name where it is written.
    pub fn mentions(&self) -> Vec<Mention> {
        let mut mentions = Vec::new();
        let patterns = self.spec.patterns.iter().map(|part| (part, true));
        let mut open: Vec<(&Part, bool)> = self.spec.parts.iter().map(|part| (part, false)).chain(patterns).collect();
        open.reverse();
        while let Some((part, pattern)) = open.pop() {
            // What stands in a pattern is no pattern by itself.
            open.extend(part.inside.iter().rev().map(|inner| (inner, false)));
            let likes = part.given.iter().filter_map(|given| match &given.via {
                Some(Via::Like(at)) => Some(at),
                _ => None,
            });
            if let Some(at) = likes.filter(|at| at.file == part.at.file).find(|at| inside(at, &part.at)) {
                let name = self.text(at).trim_matches('"').to_owned();
                // A pattern comes before a thing of the build that has the same name.
                let of_name =
                    |own: &Part| own.kind == part.kind && own.name.as_ref().is_some_and(|own| *own.text == *name);
                let pattern = self.spec.patterns.iter().any(of_name);
                mentions.push(Mention { name, at: at.clone(), defines: false, within_text: false, pattern });
            }
            if let Some(name) = &part.name {
                let defines = matches!(vocabulary::part(part.kind).naming, Naming::Required | Naming::Optional);
                mentions.push(Mention {
                    name: name.text.to_string(),
                    at: name.at.clone(),
                    defines,
                    within_text: false,
                    pattern,
                });
            }
            for given in part.given.iter().filter(|given| given.via.is_none()) {
                let mention = |name: &str, at: &Span, within_text| Mention {
                    name: name.to_owned(),
                    at: at.clone(),
                    defines: false,
                    within_text,
                    pattern: false,
                };
                match &given.value {
                    Value::Name(name) => mentions.push(mention(name, &given.at, false)),
                    Value::Names(names) => mentions.extend(names.iter().map(|(name, at)| mention(name, at, false))),
                    Value::Text(list) if names_things(given.fact) => {
                        let written = self.text(&given.at);
                        for name in list.split(',').map(str::trim).filter(|name| !name.is_empty()) {
                            let Some(at) = written.find(name).and_then(|at| u32::try_from(at).ok()) else { continue };
                            let start = given.at.bytes.start + at;
                            let length = u32::try_from(name.len()).unwrap_or(0);
                            let at = Span { file: given.at.file, bytes: start..start + length };
                            mentions.push(mention(name, &at, true));
                        }
                    }
                    _ => {}
                }
            }
        }
        mentions
    }
}

/// Whether one place lies in another of the same file.
fn inside(one: &Span, other: &Span) -> bool {
    other.bytes.start <= one.bytes.start && one.bytes.end <= other.bytes.end
}

/// Texts that hold the names of things.
fn names_things(of: FactId) -> bool {
    of == fact::way::FED_BY || of == fact::waive::ON
}

/// Whether a byte lies in a place or directly behind it, where a cursor still is at it.
pub fn holds(at: &Span, byte: u32) -> bool {
    at.bytes.start <= byte && byte <= at.bytes.end
}

/// The bytes of a place.
pub fn bytes(at: &Span) -> Range<usize> {
    at.bytes.start as usize..at.bytes.end as usize
}
