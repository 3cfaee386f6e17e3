//! Layout of a text, by the same means as the command `tidy`.

use crate::state::State;
use similar::{Algorithm, DiffOp, capture_diff_slices};
use spec::text::tidy;
use std::ops::Range;
use tower_lsp::lsp_types::{Range as LineRange, TextEdit, Url};

/// The edits that lay out a whole text, each as small as lines allow. Nothing for a text that cannot be read.
pub fn whole(state: &State, url: &Url) -> Option<Vec<TextEdit>> {
    let document = state.documents.get(url).filter(|document| document.sound)?;
    let tidied = tidy(&document.text).ok()?;
    let old: Vec<&str> = document.text.split_inclusive('\n').collect();
    let new: Vec<&str> = tidied.split_inclusive('\n').collect();
    let mut starts = vec![0];
    starts.extend(old.iter().scan(0, |end, line| {
        *end += line.len();
        Some(*end)
    }));
    // Lines are paired by what they say: layout changes the blanks between.
    let said = |lines: &[&str]| lines.iter().map(|line| line.split_whitespace().collect()).collect::<Vec<String>>();
    let mut stretches: Vec<(Range<usize>, Range<usize>)> = Vec::new();
    for op in capture_diff_slices(Algorithm::Myers, &said(&old), &said(&new)) {
        if let DiffOp::Equal { old_index, new_index, len } = op {
            let pairs = (0..len).map(|line| (old_index + line, new_index + line));
            let differ = pairs.filter(|(one, other)| old.get(*one) != new.get(*other));
            stretches.extend(differ.map(|(one, other)| (one..one + 1, other..other + 1)));
            continue;
        }
        // What is taken out and what is put in at one place is one edit.
        match stretches.last_mut().filter(|(before, _)| before.end == op.old_range().start) {
            Some((lines, put)) if put.end == op.new_range().start => {
                lines.end = op.old_range().end;
                put.end = op.new_range().end;
            }
            _ => stretches.push((op.old_range(), op.new_range())),
        }
    }
    let edit = |(lines, put): (Range<usize>, Range<usize>)| {
        let bytes = *starts.get(lines.start)?..*starts.get(lines.end)?;
        let range = document.lines.range(&document.text, &bytes, state.client.encoding);
        Some(TextEdit { range, new_text: new.get(put)?.concat() })
    };
    stretches.into_iter().map(edit).collect()
}

/// Those of the edits that change nothing outside the lines of a range.
pub fn range(state: &State, url: &Url, range: LineRange) -> Option<Vec<TextEdit>> {
    // A range that ends where a line begins does not reach into that line.
    let last = if range.end.character == 0 && range.end > range.start { range.end.line } else { range.end.line + 1 };
    let document = state.documents.get(url)?;
    let inside = |edit: &TextEdit| {
        // The end of a text is the end of its last line.
        let at_end = document.lines.bytes(&document.text, edit.range, state.client.encoding);
        let to_the_end = at_end.is_some_and(|bytes| bytes.end == document.text.len());
        range.start.line <= edit.range.start.line
            && (edit.range.end.line < last
                || edit.range.end.line == last && edit.range.end.character == 0
                || to_the_end && edit.range.start.line < last && range.end.line >= edit.range.end.line)
    };
    Some(whole(state, url)?.into_iter().filter(inside).collect())
}
