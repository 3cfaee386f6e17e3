//! The lexer: splits a text into tokens, one after the other, without recursion and without ever failing.
//!
//! It knows the traps of KDL version 2 (strings with escapes, raw and multi-line strings, nested comments, `/-`, line
//! continuation, the rarer line ends and blanks) and recovers at the end of a line from a string or comment that is never
//! closed. What it looks up ahead is remembered, so that no text makes it slower than linear.

use std::collections::HashMap;

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TokenKind {
    /// Blanks within a line, and the byte order mark at the start of a text.
    Blank,
    /// One line end.
    Newline,
    /// From `//` to before the line end.
    LineComment,
    /// `/* … */`, nested ones included.
    BlockComment,
    /// A `/*` that is never closed, to the end of its line.
    UnclosedComment,
    /// A backslash and the line end behind it, with the blanks and the comment between them.
    Continuation,
    /// `/-`, which switches off what follows.
    SwitchOff,
    /// `;`
    Semicolon,
    /// `{`
    Open,
    /// `}`
    Close,
    /// `(`
    ParenOpen,
    /// `)`
    ParenClose,
    /// `=`
    Equals,
    /// A bare word, number or keyword, with whatever characters stand in it.
    Word,
    /// A string of any kind, with its quotes.
    Quoted,
    /// A string that is not closed on its line, to where it probably should end.
    UnclosedString,
    /// `"""…"""` on one line, which KDL does not allow.
    TripleOnOneLine,
}

/// A token and where it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Token {
    pub(super) kind: TokenKind,
    pub(super) start: usize,
    pub(super) end: usize,
}

/// More `#` than this before a quote are not a raw string; it bounds what must be remembered about unclosed ones.
const MOST_HASHES: usize = 16;

/// The lexer over one text.
#[derive(Clone, Debug)]
pub(super) struct Lexer<'t> {
    text: &'t str,
    at: usize,
    /// The text goes on behind its end: a backslash there is no line continuation.
    cut: bool,
    /// Braces opened and not closed since the line began: an unclosed string must not swallow their closing ones.
    open_on_line: usize,
    /// Tokens that end before this are counted already: some are read twice.
    counted_to: usize,
    /// The token that was read last, which is often read again.
    last: Option<Token>,
    /// For each number of `#` (0: an ordinary string), whether a multi-line string was once found without an end.
    endless: [bool; MOST_HASHES + 1],
    /// Once a comment was found without an end: the ends of all comments behind it, by their start.
    comments: Option<HashMap<usize, usize>>,
}

impl<'t> Lexer<'t> {
    /// A lexer of a text, from a byte offset on.
    pub(super) fn new(text: &'t str, at: usize) -> Self {
        Self {
            text,
            at,
            cut: false,
            open_on_line: 0,
            counted_to: at,
            last: None,
            endless: [false; MOST_HASHES + 1],
            comments: None,
        }
    }

    /// A lexer of a block that was cut out of a text: what stands behind it is not the end of the text.
    pub(super) fn of_block(text: &'t str, at: usize) -> Self {
        Self { cut: true, ..Self::new(text, at) }
    }

    /// Where the next token starts.
    pub(super) fn at(&self) -> usize {
        self.at
    }

    /// Goes back to where a token started.
    pub(super) fn go_to(&mut self, at: usize) {
        self.at = at;
    }

    fn byte(&self, at: usize) -> u8 {
        self.text.as_bytes().get(at).copied().unwrap_or(0)
    }

    fn starts_with(&self, at: usize, what: &str) -> bool {
        self.text.as_bytes().get(at..).is_some_and(|rest| rest.starts_with(what.as_bytes()))
    }

    /// The next token; none at the end of the text.
    pub(super) fn next(&mut self) -> Option<Token> {
        let start = self.at;
        if let Some(last) = self.last.filter(|last| last.start == start) {
            self.at = last.end;
            return Some(last);
        }
        let first = *self.text.as_bytes().get(start)?;
        let (kind, end) = match first {
            b' ' | b'\t' => (TokenKind::Blank, self.end_of_blanks(start)),
            b'\n' | 0x0B | 0x0C => (TokenKind::Newline, start + 1),
            b'\r' => (TokenKind::Newline, start + newline_length(self.text, start)),
            b';' => (TokenKind::Semicolon, start + 1),
            b'{' => (TokenKind::Open, start + 1),
            b'}' => (TokenKind::Close, start + 1),
            b'(' => (TokenKind::ParenOpen, start + 1),
            b')' => (TokenKind::ParenClose, start + 1),
            b'=' => (TokenKind::Equals, start + 1),
            b'"' => self.string(start),
            b'#' => self.hash(start),
            b'/' => match self.byte(start + 1) {
                b'/' => (TokenKind::LineComment, end_of_line(self.text, start)),
                b'*' => self.block_comment(start),
                b'-' => (TokenKind::SwitchOff, start + 2),
                _ => (TokenKind::Word, self.end_of_word(start)),
            },
            b'\\' => match self.end_of_continuation(start) {
                Some(end) => (TokenKind::Continuation, end),
                None => (TokenKind::Word, self.end_of_word(start)),
            },
            128.. => {
                if newline_length(self.text, start) > 0 {
                    (TokenKind::Newline, start + newline_length(self.text, start))
                } else if (start == 0 && self.starts_with(0, "\u{FEFF}")) || blank_length(self.text, start) > 0 {
                    (TokenKind::Blank, self.end_of_blanks(start))
                } else {
                    (TokenKind::Word, self.end_of_word(start))
                }
            }
            _ => (TokenKind::Word, self.end_of_word(start)),
        };
        match kind {
            _ if end <= self.counted_to => {}
            TokenKind::Open => self.open_on_line += 1,
            TokenKind::Close => self.open_on_line = self.open_on_line.saturating_sub(1),
            TokenKind::Newline => self.open_on_line = 0,
            _ => {}
        }
        self.at = end;
        self.counted_to = self.counted_to.max(end);
        self.last = Some(Token { kind, start, end });
        self.last
    }

    fn end_of_blanks(&self, start: usize) -> usize {
        let mut at = start;
        if at == 0 && self.starts_with(0, "\u{FEFF}") {
            at = "\u{FEFF}".len();
        }
        loop {
            let length = blank_length(self.text, at);
            if length == 0 {
                return at;
            }
            at += length;
        }
    }

    fn end_of_word(&self, start: usize) -> usize {
        let bytes = self.text.as_bytes();
        let mut at = start;
        while let Some(&byte) = bytes.get(at) {
            let length = match byte {
                b' ' | b'\t' | b'\n' | b'\r' | 0x0B | 0x0C | b'{' | b'}' | b'(' | b')' | b';' | b'"' | b'=' => break,
                b'/' if at > start && matches!(self.byte(at + 1), b'/' | b'*') => break,
                b'\\' if at > start && self.end_of_continuation(at).is_some() => break,
                b'#' => {
                    let hashes = run_length(bytes, at, b'#');
                    if at > start && hashes <= MOST_HASHES && self.byte(at + hashes) == b'"' {
                        break;
                    }
                    hashes
                }
                0..=127 => 1,
                _ => {
                    if blank_length(self.text, at) > 0 || newline_length(self.text, at) > 0 {
                        break;
                    }
                    char_length(byte)
                }
            };
            at += length;
        }
        at.min(bytes.len())
    }

    /// `\`, blanks, perhaps a line comment, and a line end or the end of the text.
    fn end_of_continuation(&self, start: usize) -> Option<usize> {
        let mut at = self.end_of_blanks(start + 1);
        if self.starts_with(at, "//") {
            at = end_of_line(self.text, at);
        }
        if at >= self.text.len() {
            return (!self.cut).then_some(at);
        }
        match newline_length(self.text, at) {
            0 => None,
            length => Some(at + length),
        }
    }

    fn hash(&mut self, start: usize) -> (TokenKind, usize) {
        let bytes = self.text.as_bytes();
        let hashes = run_length(bytes, start, b'#');
        let quote = start + hashes;
        if hashes > MOST_HASHES || self.byte(quote) != b'"' {
            return (TokenKind::Word, self.end_of_word(start));
        }
        let after_triple = quote + 3;
        if self.starts_with(quote, "\"\"\"") && newline_length(self.text, after_triple) > 0 {
            if let Some(end) = self.end_of_multi_line(after_triple, hashes) {
                return (TokenKind::Quoted, end);
            }
            return (TokenKind::UnclosedString, after_triple);
        }
        let line_end = end_of_line(self.text, quote);
        let mut at = quote + 1;
        while at < line_end {
            if self.byte(at) == b'"' && run_length(bytes, at + 1, b'#') >= hashes {
                return (TokenKind::Quoted, at + 1 + hashes);
            }
            at += 1;
        }
        (TokenKind::UnclosedString, self.end_of_unclosed(start, line_end))
    }

    fn string(&mut self, start: usize) -> (TokenKind, usize) {
        if self.starts_with(start, "\"\"\"") {
            let inside = start + 3;
            if newline_length(self.text, inside) > 0 {
                return match self.end_of_multi_line(inside, 0) {
                    Some(end) => (TokenKind::Quoted, end),
                    None => (TokenKind::UnclosedString, inside),
                };
            }
            let line_end = end_of_line(self.text, inside);
            let rest = self.text.get(inside..line_end).unwrap_or_default();
            return match rest.find("\"\"\"") {
                Some(closing) => (TokenKind::TripleOnOneLine, inside + closing + 3),
                None => (TokenKind::UnclosedString, self.end_of_unclosed(start, line_end)),
            };
        }
        let bytes = self.text.as_bytes();
        let mut at = start + 1;
        loop {
            match self.byte(at) {
                b'"' => return (TokenKind::Quoted, at + 1),
                b'\\' => {
                    // A backslash before blanks and line ends joins the lines; before anything else it escapes it.
                    let mut behind = at + 1;
                    loop {
                        let length = blank_length(self.text, behind) + newline_length(self.text, behind);
                        if length == 0 {
                            break;
                        }
                        behind += length;
                    }
                    if behind == at + 1 {
                        behind += char_length(self.byte(behind));
                    }
                    at = behind;
                }
                b'\n' | b'\r' | 0x0B | 0x0C => break,
                0..=127 => at += 1,
                lead => {
                    if newline_length(self.text, at) > 0 {
                        break;
                    }
                    at += char_length(lead);
                }
            }
            if at >= bytes.len() {
                break;
            }
        }
        // The first line's end, even if escaped line ends were crossed: the rest is read as it stands.
        let line_end = end_of_line(self.text, start);
        (TokenKind::UnclosedString, self.end_of_unclosed(start, line_end))
    }

    /// The end of a multi-line string, if it has one.
    fn end_of_multi_line(&mut self, inside: usize, hashes: usize) -> Option<usize> {
        if self.endless.get(hashes).copied().unwrap_or(true) {
            return None;
        }
        let bytes = self.text.as_bytes();
        let mut at = inside;
        while at < bytes.len() {
            match self.byte(at) {
                b'\\' if hashes == 0 => at += 2,
                b'"' if self.starts_with(at, "\"\"\"") && run_length_up_to(bytes, at + 3, b'#', hashes) == hashes => {
                    return Some(at + 3 + hashes);
                }
                _ => at += 1,
            }
        }
        if let Some(endless) = self.endless.get_mut(hashes) {
            *endless = true;
        }
        None
    }

    /// Where an unclosed string probably ends: before a comment, before a brace that ends the line, or at the line's end.
    fn end_of_unclosed(&self, start: usize, line_end: usize) -> usize {
        let written = self.text.get(start + 1..line_end).unwrap_or_default();
        let written = written.find(" //").and_then(|end| written.get(..end)).unwrap_or(written).trim_end();
        let without_braces = if written.ends_with('{') {
            written.trim_end_matches('{')
        } else if self.open_on_line > 0 && written.ends_with('}') {
            written.trim_end_matches(['}', ';', ' '])
        } else {
            written
        };
        start + 1 + without_braces.trim_end().len()
    }

    fn block_comment(&mut self, start: usize) -> (TokenKind, usize) {
        let end = match &self.comments {
            Some(ends) => ends.get(&start).copied(),
            None => {
                let end = self.end_of_comment(start);
                if end.is_none() {
                    self.comments = Some(comment_ends(self.text, start));
                }
                end
            }
        };
        match end {
            Some(end) => (TokenKind::BlockComment, end),
            None => (TokenKind::UnclosedComment, end_of_line(self.text, start)),
        }
    }

    fn end_of_comment(&self, start: usize) -> Option<usize> {
        let bytes = self.text.as_bytes();
        let mut depth = 0_usize;
        let mut at = start;
        while at + 1 < bytes.len() {
            match (self.byte(at), self.byte(at + 1)) {
                (b'/', b'*') => {
                    depth += 1;
                    at += 2;
                }
                (b'*', b'/') => {
                    depth -= 1;
                    at += 2;
                    if depth == 0 {
                        return Some(at);
                    }
                }
                _ => at += 1,
            }
        }
        None
    }
}

/// The ends of all block comments from an offset on, by their start.
fn comment_ends(text: &str, start: usize) -> HashMap<usize, usize> {
    let mut open = Vec::new();
    let mut ends = HashMap::new();
    let mut at = start;
    let bytes = text.as_bytes();
    while let (Some(first), Some(second)) = (bytes.get(at), bytes.get(at + 1)) {
        match (first, second) {
            (b'/', b'*') => {
                open.push(at);
                at += 2;
            }
            (b'*', b'/') => {
                at += 2;
                if let Some(opened) = open.pop() {
                    ends.insert(opened, at);
                }
            }
            _ => at += 1,
        }
    }
    ends
}

fn run_length(bytes: &[u8], at: usize, of: u8) -> usize {
    bytes.get(at..).unwrap_or_default().iter().take_while(|byte| **byte == of).count()
}

fn run_length_up_to(bytes: &[u8], at: usize, of: u8, most: usize) -> usize {
    bytes.get(at..).unwrap_or_default().iter().take(most).take_while(|byte| **byte == of).count()
}

fn char_length(lead: u8) -> usize {
    match lead {
        0..=0xBF => 1,
        0xC0..=0xDF => 2,
        0xE0..=0xEF => 3,
        0xF0.. => 4,
    }
}

/// The offset of the line end at or behind an offset.
pub(super) fn end_of_line(text: &str, start: usize) -> usize {
    let bytes = text.as_bytes();
    let mut at = start;
    while let Some(byte) = bytes.get(at) {
        let may_end = matches!(byte, b'\n' | b'\r' | 0x0B | 0x0C | 0xC2 | 0xE2);
        if may_end && newline_length(text, at) > 0 {
            return at;
        }
        at += 1;
    }
    bytes.len()
}

/// The length in bytes of the line end at an offset; 0 if there is none. The line ends are those of KDL 2.
pub(super) fn newline_length(text: &str, at: usize) -> usize {
    let rest = text.as_bytes().get(at..).unwrap_or_default();
    match rest {
        [b'\r', b'\n', ..] => 2,
        [b'\n' | b'\r' | 0x0B | 0x0C, ..] => 1,
        // U+0085, U+2028 and U+2029.
        [0xC2, 0x85, ..] => 2,
        [0xE2, 0x80, 0xA8 | 0xA9, ..] => 3,
        _ => 0,
    }
}

/// The length in bytes of the blank at an offset; 0 if there is none. The blanks are those of KDL 2.
pub(super) fn blank_length(text: &str, at: usize) -> usize {
    let rest = text.as_bytes().get(at..).unwrap_or_default();
    match rest {
        [b' ' | b'\t', ..] => 1,
        // U+00A0.
        [0xC2, 0xA0, ..] => 2,
        // U+1680, U+2000 to U+200A, U+202F, U+205F, U+3000.
        [0xE1, 0x9A, 0x80, ..]
        | [0xE2, 0x80, 0x80..=0x8A | 0xAF, ..]
        | [0xE2, 0x81, 0x9F, ..]
        | [0xE3, 0x80, 0x80, ..] => 3,
        _ => 0,
    }
}
