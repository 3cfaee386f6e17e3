//! What can be followed: the file behind an `include` or `house-rules`, and addresses of the web in a text's strings.

use crate::check::Sort;
use crate::disk::plain;
use crate::position::Lines;
use crate::state::State;
use crate::trees::tree;
use spec::text::{Entry, Node, Scalar, Unread};
use std::ops::Range;
use std::path::Path;
use tower_lsp::lsp_types::{DocumentLink, Url};

/// The ending that every included file has.
const ENDING: &str = ".kdl";

/// The links of a text.
pub fn links(state: &State, url: &Url) -> Option<Vec<DocumentLink>> {
    let tree = tree(state, url)?;
    let includes = Sort::of(url)? != Sort::Rules;
    let lines = Lines::of(&tree.text);
    let mut links = Vec::new();
    let mut open: Vec<&Node> = tree.document.nodes.iter().rev().collect();
    while let Some(node) = open.pop() {
        open.extend(node.children.iter().rev());
        if node.unread == Unread::Itself {
            continue;
        }
        let mut link = |bytes: Range<usize>, target: Url| {
            let range = lines.range(&tree.text, &bytes, state.client.encoding);
            links.push(DocumentLink { range, target: Some(target), tooltip: None, data: None });
        };
        if includes && matches!(&*node.name.text, "include" | "house-rules") {
            if let Some((bytes, target)) = included(state, url, node) {
                link(bytes, target);
            }
            continue;
        }
        for entry in node.entries.iter().filter(|entry| entry.quoted) {
            for (bytes, target) in addresses(entry) {
                link(bytes, target);
            }
        }
    }
    Some(links)
}

/// The file that a line includes or takes house rules from, with the place of its name.
fn included(state: &State, url: &Url, node: &Node) -> Option<(Range<usize>, Url)> {
    let entry = node.entries.iter().find(|entry| entry.key.is_none())?;
    let Scalar::Text(name) = &entry.value else { return None };
    let path = url.to_file_path().ok()?;
    let joined = path.parent().unwrap_or(Path::new("")).join(&**name);
    // Nothing else is read, so nothing else is led to.
    if !name.ends_with(ENDING) {
        return None;
    }
    let path = plain(&joined);
    // As the editor writes it, where it has it open.
    let open = state.documents.keys().find(|open| open.to_file_path().is_ok_and(|open| plain(&open) == path));
    let target = open.cloned().or_else(|| Url::from_file_path(&path).ok())?;
    let quotes = usize::from(&*entry.written == format!("\"{name}\"").as_str());
    Some((entry.value_at.start as usize + quotes..entry.value_at.end as usize - quotes, target))
}

/// The addresses in a string, each with its place.
fn addresses(entry: &Entry) -> Vec<(Range<usize>, Url)> {
    let written = &*entry.written;
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(start) = next(written, at) {
        let rest = written.get(start..).unwrap_or_default();
        let ends = |letter: char| letter.is_whitespace() || matches!(letter, '"' | '<' | '>' | '\\' | '`' | '{' | '}');
        let address = rest.get(..rest.find(ends).unwrap_or(rest.len())).unwrap_or_default();
        // What ends a sentence belongs to the sentence, a closing bracket to one that was opened.
        let mut address = address.trim_end_matches(['.', ',', ';', ':', '!', '?', '\'']);
        while address.ends_with(')') && address.matches(')').count() > address.matches('(').count() {
            address = address.get(..address.len() - 1).unwrap_or_default();
        }
        let address = address.trim_end_matches(['.', ',', ';', ':']);
        at = start + address.len().max("http".len());
        if let Some(target) = Url::parse(address).ok().filter(|url| url.has_host()) {
            let bytes = entry.value_at.start as usize + start;
            found.push((bytes..bytes + address.len(), target));
        }
    }
    found
}

/// Where the next address begins.
fn next(written: &str, from: usize) -> Option<usize> {
    let rest = written.get(from..)?;
    let starts = ["https://", "http://"].into_iter().filter_map(|scheme| rest.find(scheme));
    starts.min().map(|at| from + at)
}
