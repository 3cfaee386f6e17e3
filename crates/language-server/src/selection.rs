//! Growing selections: the word, what stands in the quotes, the value, the entry, the head, the part, the block around it, …,
//! the whole text. Each holds the one before and the cursor.

use crate::position::Lines;
use crate::state::State;
use crate::trees::tree;
use spec::text::{Bytes, Entry, Node};
use std::ops::Range as Stretch;
use tower_lsp::lsp_types::{Position, Range, SelectionRange, Url};

/// The selections around each of these positions.
pub fn selections(state: &State, url: &Url, positions: &[Position]) -> Option<Vec<SelectionRange>> {
    let tree = tree(state, url)?;
    let lines = Lines::of(&tree.text);
    let encoding = state.client.encoding;
    let around = |position: &Position| {
        let Some(byte) = lines.byte(&tree.text, *position, encoding) else {
            // There is no such line; the protocol wants an answer for each position all the same.
            return SelectionRange { range: Range::new(*position, *position), parent: None };
        };
        let mut selection: Option<SelectionRange> = None;
        for bytes in chain(&tree.text, &tree.document.nodes, byte) {
            let range = lines.range(&tree.text, &bytes, encoding);
            selection = Some(SelectionRange { range, parent: selection.map(Box::new) });
        }
        selection.unwrap_or(SelectionRange { range: Range::new(*position, *position), parent: None })
    };
    Some(positions.iter().map(around).collect())
}

/// The stretches around a byte, from the whole text inward; each lies within the one before and is not the same.
fn chain(text: &str, nodes: &[Node], byte: usize) -> Vec<Stretch<usize>> {
    let mut chain = Chain { text, byte, found: Vec::new() };
    chain.found.push(0..text.len());
    let mut nodes = nodes;
    while let Some(node) = nodes.iter().find(|node| chain.holds(&stretch(&node.at))) {
        chain.push(stretch(&node.at));
        let block = node.block_at.as_ref().map(stretch).filter(|block| block.start < byte && byte < block.end);
        let Some(block) = block else {
            chain.head(node);
            break;
        };
        chain.push(block.clone());
        let inside = block.start + 1..block.end.saturating_sub(1).max(block.start + 1);
        chain.push(trimmed(text, inside));
        nodes = &node.children;
    }
    chain.word();
    chain.found
}

fn stretch(bytes: &Bytes) -> Stretch<usize> {
    bytes.start as usize..bytes.end as usize
}

/// A stretch without the blanks at its ends.
fn trimmed(text: &str, bytes: Stretch<usize>) -> Stretch<usize> {
    let written = text.get(bytes.clone()).unwrap_or_default();
    let start = bytes.start + (written.len() - written.trim_start().len());
    start..start + written.trim().len()
}

struct Chain<'t> {
    text: &'t str,
    byte: usize,
    found: Vec<Stretch<usize>>,
}

impl Chain<'_> {
    fn holds(&self, bytes: &Stretch<usize>) -> bool {
        bytes.start <= self.byte && self.byte <= bytes.end
    }

    /// Adds a stretch, if it holds the byte, lies in the last one and is smaller.
    fn push(&mut self, bytes: Stretch<usize>) {
        let within = |last: &Stretch<usize>| last.start <= bytes.start && bytes.end <= last.end && *last != bytes;
        let sound = bytes.start < bytes.end && self.text.get(bytes.clone()).is_some();
        if sound && self.holds(&bytes) && self.found.last().is_some_and(within) {
            self.found.push(bytes);
        }
    }

    /// The line of a node without its block, and what of it holds the byte.
    fn head(&mut self, node: &Node) {
        let end = node.entries.last().map_or(node.name.at.end, |entry| entry.at.end);
        self.push(node.at.start as usize..end as usize);
        self.push(stretch(&node.name.at));
        let entry = node.entries.iter().find(|entry| self.holds(&stretch(&entry.at)));
        let Some(Entry { key, value_at, at, quoted, written, .. }) = entry else { return };
        self.push(stretch(at));
        if let Some(key) = key {
            self.push(stretch(&key.at));
        }
        self.push(stretch(value_at));
        if *quoted {
            let inner = written.trim_matches('#').trim_matches('"').trim();
            let start = written.find(inner).unwrap_or(0) + value_at.start as usize;
            self.push(start..start + inner.len());
        }
    }

    /// The plain word that the byte touches.
    fn word(&mut self) {
        let is_word = |letter: &char| letter.is_alphanumeric() || matches!(letter, '-' | '_');
        let (Some(before), Some(behind)) = (self.text.get(..self.byte), self.text.get(self.byte..)) else { return };
        let length = |letters: &mut dyn Iterator<Item = char>| -> usize {
            letters.take_while(is_word).map(char::len_utf8).sum()
        };
        let start = self.byte - length(&mut before.chars().rev());
        self.push(start..self.byte + length(&mut behind.chars()));
    }
}
