//! Comments, which no tree holds: found between what a tree knows, and outside strings.

use std::collections::HashMap;
use std::ops::Range;

/// More `#` than this before a quote begin no raw string.
const MOST_HASHES: usize = 16;

/// The comments of a text, and what `/-` switches off up to the end of its line, in order. `known` are the places that the
/// tree has read, in order: nothing in them is a comment.
pub fn comments(text: &str, known: &[Range<usize>]) -> Vec<Range<usize>> {
    let mut scan =
        Scan { text, found: Vec::new(), off: None, ends: None, endless: [false; MOST_HASHES + 1], fresh: true };
    let mut known = known.iter().peekable();
    let mut at = 0;
    while at < text.len() {
        while known.next_if(|range| range.end <= at).is_some() {}
        if let Some(range) = known.peek().filter(|range| range.start <= at) {
            scan.end_off(at);
            scan.fresh = false;
            at = range.end;
            continue;
        }
        at = scan.step(at);
    }
    scan.end_off(text.len());
    scan.found
}

struct Scan<'t> {
    text: &'t str,
    found: Vec<Range<usize>>,
    /// Where a `/-` stands that still goes on.
    off: Option<usize>,
    /// Once a comment had no end: the ends of all behind it, by their start.
    ends: Option<HashMap<usize, usize>>,
    /// For each number of `#`, whether a string of several lines was found without an end.
    endless: [bool; MOST_HASHES + 1],
    /// Whether a word may begin here.
    fresh: bool,
}

impl Scan<'_> {
    /// Ends what is switched off.
    fn end_off(&mut self, at: usize) {
        if let Some(start) = self.off.take() {
            let written = self.text.get(start..at).unwrap_or_default().trim_end();
            self.found.push(start..start + written.len());
        }
    }

    /// Looks at one thing; says where the next one begins.
    fn step(&mut self, at: usize) -> usize {
        let rest = self.text.get(at..).unwrap_or_default();
        let fresh = std::mem::replace(&mut self.fresh, false);
        if rest.starts_with("//") {
            self.end_off(at);
            let end = at + line_length(rest);
            self.found.push(at..at + rest.get(..end - at).unwrap_or_default().trim_end().len());
            return end;
        }
        if rest.starts_with("/*") {
            self.end_off(at);
            let end = self.end_of_comment(at).unwrap_or_else(|| at + line_length(rest));
            self.found.push(at..end);
            self.fresh = true;
            return end;
        }
        if fresh && rest.starts_with("/-") {
            self.end_off(at);
            self.off = Some(at);
            return at + 2;
        }
        let hashes = rest.bytes().take(MOST_HASHES + 1).take_while(|byte| *byte == b'#').count();
        if hashes <= MOST_HASHES && rest.get(hashes..).is_some_and(|rest| rest.starts_with('"')) {
            return self.end_of_string(at, hashes);
        }
        let Some(letter) = rest.chars().next() else { return self.text.len() };
        match letter {
            letter if LINE_ENDS.contains(&letter) || matches!(letter, '{' | '}' | ';') => {
                self.end_off(at);
                self.fresh = true;
            }
            '(' | ')' | '=' => self.fresh = true,
            _ => self.fresh = letter.is_whitespace() || letter == '\u{feff}',
        }
        at + letter.len_utf8()
    }

    /// Behind a string; where it has no end, behind its quotes or at the end of its line.
    fn end_of_string(&mut self, at: usize, hashes: usize) -> usize {
        let hash_marks = "#".repeat(hashes);
        let inside = at + hashes + 1;
        let rest = self.text.get(inside..).unwrap_or_default();
        if let Some(body) = rest.strip_prefix("\"\"").filter(|body| body.starts_with(['\n', '\r', '\u{b}', '\u{c}'])) {
            if self.endless.get(hashes) == Some(&false) {
                let closing = format!("\"\"\"{hash_marks}");
                if let Ok(end) = find(body, &closing, hashes == 0, false) {
                    return inside + 2 + end + closing.len();
                }
                if let Some(endless) = self.endless.get_mut(hashes) {
                    *endless = true;
                }
            }
            return inside + 2;
        }
        let closing = format!("\"{hash_marks}");
        match find(rest, &closing, hashes == 0, true) {
            Ok(end) => inside + end + closing.len(),
            Err(end) => inside + end,
        }
    }

    fn end_of_comment(&mut self, at: usize) -> Option<usize> {
        if let Some(ends) = &self.ends {
            return ends.get(&at).copied();
        }
        let mut open = Vec::new();
        let mut ends = HashMap::new();
        let bytes = self.text.as_bytes();
        let mut here = at;
        while let (Some(first), Some(second)) = (bytes.get(here), bytes.get(here + 1)) {
            match (first, second) {
                (b'/', b'*') => {
                    open.push(here);
                    here += 2;
                }
                (b'*', b'/') => {
                    here += 2;
                    if let Some(start) = open.pop() {
                        ends.insert(start, here);
                    }
                    if open.is_empty() {
                        return Some(here);
                    }
                }
                _ => here += 1,
            }
        }
        // It has no end: those behind it were looked for on the way.
        self.ends = Some(ends);
        None
    }
}

/// Where a text first stands in another, passing over what a backslash escapes; else where the line ends, if it must stand on
/// the first one, or the text.
fn find(within: &str, wanted: &str, escapes: bool, on_line: bool) -> Result<usize, usize> {
    let mut escaped = false;
    for (at, letter) in within.char_indices() {
        if std::mem::take(&mut escaped) {
            continue;
        }
        if within.get(at..).is_some_and(|rest| rest.starts_with(wanted)) {
            return Ok(at);
        }
        if on_line && LINE_ENDS.contains(&letter) {
            return Err(at);
        }
        escaped = escapes && letter == '\\';
    }
    Err(within.len())
}

/// What ends a line in a specification.
const LINE_ENDS: [char; 7] = ['\n', '\r', '\u{b}', '\u{c}', '\u{85}', '\u{2028}', '\u{2029}'];

/// The bytes up to the end of the line.
fn line_length(rest: &str) -> usize {
    rest.find(LINE_ENDS).unwrap_or(rest.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_are_found_outside_strings() {
        for (text, expected) in [
            ("a // b\nc", vec!["// b"]),
            ("a \"// no\" /* yes /* nested */ */ b", vec!["/* yes /* nested */ */"]),
            ("a #\"// no \" // no\"# // yes  \r\n", vec!["// yes"]),
            ("a \"\\\" // no\" // größe", vec!["// größe"]),
            ("x \"\"\"\n // no\n\"\"\" // yes", vec!["// yes"]),
            ("x #\"\"\"\n // no\n\"\"\"# // yes", vec!["// yes"]),
            ("x \"open // to the end\ny // yes", vec!["// yes"]),
            ("/- kdl-version 2\nx", vec!["/- kdl-version 2"]),
            ("x /-a=\"b // c\" { /-y 1; z; }", vec!["/-a=\"b // c\"", "/-y 1"]),
            ("/* open\nx // yes\n/* one */", vec!["/* open", "// yes", "/* one */"]),
            ("a/-b", vec![]),
        ] {
            let found: Vec<&str> = comments(text, &[]).into_iter().map(|range| &text[range]).collect();
            assert_eq!(found, expected, "{text:?}");
        }
    }

    #[test]
    fn many_openings_without_an_end_take_no_longer_than_their_length() {
        for piece in ["\"\"\"\n", "#\"\"\"\n", "/* ", "\"", "/-"] {
            let text = piece.repeat(200_000);
            let start = std::time::Instant::now();
            let _ = comments(&text, &[]);
            assert!(start.elapsed().as_secs() < 5, "{piece:?}");
        }
    }
}
