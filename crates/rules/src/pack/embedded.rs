//! A text written inside a rule file: an expression, a template, a fixture. Its faults must point into the file, so the
//! text remembers where each of its lines stands there.

use std::ops::Range;

/// A text written as a string of a rule file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Embedded {
    /// The text, with quotes, escapes and the indent of multi-line strings removed.
    pub text: String,
    /// The whole string in the file, quotes included.
    pub at: Range<usize>,
    /// Where each line of the text starts: its byte in the text and its byte in the file. Empty when an escape makes the
    /// two differ in length.
    lines: Vec<(usize, usize)>,
}

impl Embedded {
    /// The text of a string that stands at `at` in `file_text` and means `meaning`.
    pub fn new(file_text: &str, at: Range<usize>, meaning: &str) -> Self {
        let written = file_text.get(at.clone()).unwrap_or_default();
        let lines = lines_of(written, meaning)
            .into_iter()
            .flatten()
            .map(|(inside, outside)| (inside, at.start + outside))
            .collect();
        Self { text: meaning.to_owned(), at, lines }
    }

    /// Where bytes of the text stand in the file; the whole string where that cannot be told.
    pub fn place(&self, bytes: &Range<usize>) -> Range<usize> {
        let Some(start) = self.offset(bytes.start) else {
            return self.at.clone();
        };
        if bytes.end <= bytes.start {
            return start..start;
        }
        // The last byte decides: the end of a line and the start of the next are one offset in the text but two in the file.
        match self.offset(bytes.end - 1) {
            Some(last) => start..last + 1,
            None => self.at.clone(),
        }
    }

    fn offset(&self, inside: usize) -> Option<usize> {
        let following = self.lines.partition_point(|(start, _)| *start <= inside);
        let (start, outside) = self.lines.get(following.checked_sub(1)?)?;
        Some(outside + (inside - start))
    }
}

/// The starts of the lines of a string's meaning, in the meaning and in the string as written; none where they cannot be
/// matched byte by byte.
fn lines_of(written: &str, meaning: &str) -> Option<Vec<(usize, usize)>> {
    let hashes = written.len() - written.trim_start_matches('#').len();
    let behind = written.get(hashes..)?;
    if let Some(body) = behind.strip_prefix("\"\"\"") {
        return multi_line(body.strip_suffix(closing("\"\"\"", hashes).as_str())?, hashes + 3, meaning);
    }
    let (inner, first) = match behind.strip_prefix('"') {
        Some(body) => (body.strip_suffix(closing("\"", hashes).as_str())?, hashes + 1),
        None => (written, 0),
    };
    (inner == meaning).then(|| vec![(0, first)])
}

fn closing(quotes: &str, hashes: usize) -> String {
    format!("{quotes}{}", "#".repeat(hashes))
}

fn multi_line(body: &str, first: usize, meaning: &str) -> Option<Vec<(usize, usize)>> {
    // What stands before the closing quotes is the indent that every line loses.
    let mut lines: Vec<(usize, &str)> = Vec::new();
    let mut at = 0;
    for line in body.split_inclusive('\n') {
        lines.push((at, line.trim_end_matches(['\n', '\r'])));
        at += line.len();
    }
    let indent = match body.ends_with('\n') {
        true => "",
        false => lines.pop()?.1,
    };
    let mut starts = Vec::new();
    let mut rebuilt = String::new();
    // The first line is only the line end behind the opening quotes.
    for (index, (at, line)) in lines.iter().enumerate().skip(1) {
        if index > 1 {
            rebuilt.push('\n');
        }
        let (content, skipped) = match line.strip_prefix(indent) {
            Some(content) if !line.trim().is_empty() => (content, indent.len()),
            _ => ("", line.len()),
        };
        starts.push((rebuilt.len(), first + at + skipped));
        rebuilt.push_str(content);
    }
    (rebuilt == meaning).then_some(starts)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(written: &str, meaning: &str, part: &str, expected: &str) {
        let file = format!("must {written}\n");
        let embedded = Embedded::new(&file, 5..5 + written.len(), meaning);
        let start = meaning.find(part).unwrap_or_default();
        let place = embedded.place(&(start..start + part.len()));
        assert_eq!(file.get(place), Some(expected), "{written}");
    }

    #[test]
    fn places_in_a_string_are_places_in_the_file() {
        check("\"a <= b\"", "a <= b", "b", "b");
        check("#\"a == \"x\"\"#", "a == \"x\"", "\"x\"", "\"x\"");
        check("yes", "yes", "es", "es");
        check("#\"\"\"\n    a <=\n      größe\n    \"\"\"#", "a <=\n  größe", "größe", "größe");
        check("\"\"\"\n  one\n\n  two\n  \"\"\"", "one\n\ntwo", "two", "two");
        check("#\"\"\"\r\n  one\r\n  two\r\n  \"\"\"#", "one\ntwo", "two", "two");
        check("\"\"\"\nx\ny\n\"\"\"", "x\ny", "y", "y");
    }

    #[test]
    fn an_escape_makes_the_whole_string_the_place() {
        check("\"a == \\\"x\\\"\"", "a == \"x\"", "x", "\"a == \\\"x\\\"\"");
    }

    #[test]
    fn a_place_over_two_lines_holds_both() {
        check("#\"\"\"\n    a &&\n    b\n    \"\"\"#", "a &&\nb", "a &&\nb", "a &&\n    b");
    }

    #[test]
    fn an_empty_place_stays_empty() {
        let embedded = Embedded::new("must \"ab\"", 5..9, "ab");
        assert_eq!(embedded.place(&(2..2)), 8..8);
    }
}
