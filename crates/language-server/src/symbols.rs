//! The names of all open builds with the files that they include, to be found by a few letters.

use crate::check::Checked;
use crate::outline::symbol_kind;
use crate::position::Lines;
use crate::state::State;
use crate::tokens::defined_name;
use crate::unchanged::Unchanged;
use spec::text::{BlockCache, Node, Scalar, Unread, read};
use std::collections::BTreeSet;
use std::ops::Range;
use tower_lsp::lsp_types::{Location, SymbolInformation, SymbolKind};
use vocabulary::PartSpec;

/// A name where it was defined in the text that was checked.
#[derive(Clone, PartialEq, Debug)]
pub struct Kept {
    file: usize,
    bytes: Range<usize>,
    name: String,
    kind: SymbolKind,
    container: Option<String>,
}

/// The names that hold the letters of a query in its order, whatever their case; with no letters all.
#[allow(deprecated, reason = "the protocol's type has a field that it no longer uses")]
pub fn symbols(state: &State, query: &str) -> Vec<SymbolInformation> {
    let query: Vec<char> =
        query.chars().flat_map(char::to_lowercase).filter(|letter| !letter.is_whitespace()).collect();
    let mut symbols = Vec::new();
    let mut seen = BTreeSet::new();
    for checked in state.checked.values() {
        for (file, (url, text)) in checked.urls.iter().zip(&checked.review.files).enumerate() {
            let Some(url) = url else { continue };
            let wanted = |kept: &&Kept| kept.file == file && holds(&kept.name, &query);
            let mut found = checked.symbols().iter().filter(wanted).peekable();
            if found.peek().is_none() {
                continue;
            }
            let lines = Lines::of(&text.text);
            let now = state.documents.get(url).filter(|document| document.text != text.text);
            let unchanged = now.map(|document| Unchanged::between(&text.text, &document.text));
            for kept in found {
                let mut range = lines.range(&text.text, &kept.bytes, state.client.encoding);
                if let Some(unchanged) = unchanged {
                    let Some(line) = unchanged.place(range.start.line) else { continue };
                    range.end.line = line + (range.end.line - range.start.line);
                    range.start.line = line;
                }
                // Two open builds may include the same file.
                if !seen.insert((url.clone(), kept.bytes.start)) {
                    continue;
                }
                symbols.push(SymbolInformation {
                    name: kept.name.clone(),
                    kind: kept.kind,
                    tags: None,
                    deprecated: None,
                    location: Location::new(url.clone(), range),
                    container_name: kept.container.clone(),
                });
            }
        }
    }
    symbols
}

/// Whether a name holds letters in their order.
fn holds(name: &str, query: &[char]) -> bool {
    let mut wanted = query.iter().peekable();
    for letter in name.chars().flat_map(char::to_lowercase) {
        wanted.next_if(|own| **own == letter);
    }
    wanted.peek().is_none()
}

/// The names of a check, in the order of its files and texts.
pub fn of_check(checked: &Checked) -> Vec<Kept> {
    let mut symbols = Vec::new();
    for (file, text) in checked.review.files.iter().enumerate() {
        let document = read(&text.text, &mut BlockCache::off());
        let whose = checked.review.build.as_deref().map(|name| format!("build {name}"));
        let mut names = Names { file, symbols: &mut symbols };
        for node in &document.nodes {
            names.part(node, None, whose.as_deref());
        }
    }
    symbols
}

struct Names<'s> {
    file: usize,
    symbols: &'s mut Vec<Kept>,
}

impl Names<'_> {
    fn part(&mut self, node: &Node, outer: Option<&'static PartSpec>, container: Option<&str>) {
        let word = &*node.name.text;
        let spec = vocabulary::part_by_word(word).filter(|spec| match outer {
            None => spec.top,
            Some(outer) => outer.may_contain(spec.kind),
        });
        let Some(spec) = spec else { return };
        let mut own = spec.word.to_owned();
        if node.unread != Unread::Itself
            && let Some(entry) = defined_name(node, spec)
        {
            let name = match &entry.value {
                Scalar::Text(text) => text.trim(),
                _ => &entry.written,
            };
            let name = report::visible(name).into_owned();
            own = format!("{} {name}", spec.word);
            if !name.is_empty() {
                self.symbols.push(Kept {
                    file: self.file,
                    bytes: node.name.at.start as usize..entry.value_at.end as usize,
                    name,
                    kind: symbol_kind(spec.family),
                    container: container.map(|container| report::visible(container).into_owned()),
                });
            }
        }
        // The depth of a tree is bounded, so this recursion is too.
        for child in &node.children {
            self.part(child, Some(spec), Some(&own));
        }
    }
}
