//! Layout of a text, by the same means as the command `tidy`.

use crate::state::State;
use spec::text::tidy;
use tower_lsp::lsp_types::{Range, TextEdit, Url};

/// The edits that lay out a whole text: one for each stretch of lines that differs. Nothing for a text that cannot be read.
pub fn whole(state: &State, url: &Url) -> Option<Vec<TextEdit>> {
    let document = state.documents.get(url).filter(|document| document.sound)?;
    let tidied = tidy(&document.text).ok()?;
    Some(edits(state, url, &tidied, None))
}

/// Those of the edits that touch a range.
pub fn range(state: &State, url: &Url, range: Range) -> Option<Vec<TextEdit>> {
    let document = state.documents.get(url).filter(|document| document.sound)?;
    let tidied = tidy(&document.text).ok()?;
    Some(edits(state, url, &tidied, Some(range)))
}

/// Lines that both texts begin and end with stay; between them, lines are paired where their number is the same.
fn edits(state: &State, url: &Url, tidied: &str, within: Option<Range>) -> Vec<TextEdit> {
    let Some(document) = state.documents.get(url) else { return Vec::new() };
    let old: Vec<&str> = document.text.split_inclusive('\n').collect();
    let new: Vec<&str> = tidied.split_inclusive('\n').collect();
    let first = old.iter().zip(&new).take_while(|(one, other)| one == other).count();
    let last = old[first..].iter().rev().zip(new[first..].iter().rev()).take_while(|(one, other)| one == other).count();
    let (old, new) = (&old[first..old.len() - last], &new[first..new.len() - last]);
    let mut edits = Vec::new();
    let mut at: usize = document.text.split_inclusive('\n').take(first).map(str::len).sum();
    if old.len() == new.len() {
        for (one, other) in old.iter().zip(new) {
            if one != other {
                edits.push((at..at + one.len(), (*other).to_owned()));
            }
            at += one.len();
        }
    } else {
        let length: usize = old.iter().map(|line| line.len()).sum();
        edits.push((at..at + length, new.concat()));
    }
    let encoding = state.client.encoding;
    edits
        .into_iter()
        .map(|(bytes, new_text)| TextEdit { range: document.lines.range(&document.text, &bytes, encoding), new_text })
        .filter(|edit| {
            within
                .is_none_or(|range| edit.range.start.line <= range.end.line && edit.range.end.line >= range.start.line)
        })
        .filter(|edit| edit.range.start != edit.range.end || !edit.new_text.is_empty())
        .collect()
}
