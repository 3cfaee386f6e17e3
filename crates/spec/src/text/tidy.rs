//! Tidying: the layout of a text, and nothing but its layout.
//!
//! Lines are indented by four blanks for each brace around them, blanks at line ends go, at most one empty line stands in a
//! row, one blank stands before `{`, and the text ends with one line end. Everything else is kept as it is: comments, what
//! is switched off by `/-`, the blanks that align entries and trailing comments, and the inside of strings and block
//! comments of several lines, where indentation has a meaning.

use super::blocks::{BlockCache, read};
use super::fault::TextFault;
use super::lexer::{Lexer, TokenKind};
use super::tree::{Node, Scalar, Word};

/// The indentation of one level.
const INDENT: &str = "    ";

/// Lays out a text. Tidying a tidy text changes nothing.
///
/// The result reads as the same tree; should it not, the text is returned unchanged.
///
/// # Errors
///
/// The faults of a text that cannot be read: its layout is left to its author until it can.
pub fn tidy(text: &str) -> Result<String, Vec<TextFault>> {
    let before = read(text, &mut BlockCache::off());
    if !before.faults.is_empty() || before.incomplete {
        return Err(before.faults);
    }
    let tidied = lay_out(text);
    if tidied == text {
        return Ok(tidied);
    }
    let after = read(&tidied, &mut BlockCache::off());
    let same = after.faults.is_empty() && !after.incomplete && same_nodes(&before.nodes, &after.nodes);
    Ok(if same { tidied } else { text.to_owned() })
}

/// The text under way.
struct Layout<'t> {
    out: String,
    newline: &'static str,
    /// Line ends since the last token that was written.
    newlines: usize,
    /// The blanks since then.
    blanks: &'t str,
    /// The last line goes on behind a backslash.
    continued: bool,
    depth: usize,
}

impl Layout<'_> {
    /// Writes a token, with the line ends or blanks that belong before it.
    fn write(&mut self, written: &str, depth: usize) {
        let empty = self.out.is_empty() || self.out == "\u{FEFF}";
        if self.newlines > 0 && !empty {
            for _ in 0..self.newlines.min(2) {
                self.out.push_str(self.newline);
            }
        }
        if self.newlines > 0 || empty {
            // A second line end ends the node, backslash or not.
            let extra = usize::from(self.continued && self.newlines == 1);
            for _ in 0..depth + extra {
                self.out.push_str(INDENT);
            }
        } else {
            self.out.push_str(self.blanks);
        }
        self.newlines = 0;
        self.blanks = "";
        self.continued = false;
        self.out.push_str(written);
    }
}

fn lay_out(text: &str) -> String {
    let mut layout = Layout {
        out: String::with_capacity(text.len() + text.len() / 8),
        newline: first_newline(text),
        newlines: 0,
        blanks: "",
        continued: false,
        depth: 0,
    };
    let mut lexer = Lexer::new(text, 0);
    let mut switch_off = false;
    while let Some(token) = lexer.next() {
        let written = text.get(token.start..token.end).unwrap_or_default();
        let was_switch_off = std::mem::replace(&mut switch_off, token.kind == TokenKind::SwitchOff);
        match token.kind {
            TokenKind::Blank => {
                if let Some(blanks) = written.strip_prefix('\u{FEFF}').filter(|_| token.start == 0) {
                    layout.out.push('\u{FEFF}');
                    layout.blanks = blanks;
                } else {
                    layout.blanks = written;
                }
                switch_off = was_switch_off;
            }
            TokenKind::Newline => {
                layout.newlines += 1;
                layout.blanks = "";
            }
            TokenKind::Continuation => {
                let depth = layout.depth;
                layout.write(written.trim_end(), depth);
                layout.newlines = 1;
                layout.continued = true;
            }
            TokenKind::LineComment => {
                let depth = layout.depth;
                layout.write(written.trim_end(), depth);
            }
            TokenKind::Open => {
                if layout.newlines == 0 && !was_switch_off {
                    layout.blanks = " ";
                }
                let depth = layout.depth;
                layout.write(written, depth);
                layout.depth += 1;
            }
            TokenKind::Close => {
                layout.depth = layout.depth.saturating_sub(1);
                let depth = layout.depth;
                layout.write(written, depth);
            }
            _ => {
                let depth = layout.depth;
                layout.write(written, depth);
            }
        }
    }
    let mut out = layout.out;
    if !out.is_empty() && out != "\u{FEFF}" {
        out.push_str(layout.newline);
    }
    out
}

/// The line end that the text uses first.
fn first_newline(text: &str) -> &'static str {
    match text.find('\n').and_then(|at| at.checked_sub(1)).and_then(|at| text.as_bytes().get(at)) {
        Some(b'\r') => "\r\n",
        _ => "\n",
    }
}

/// Whether two lists of nodes say the same, wherever they stand.
fn same_nodes(left: &[Node], right: &[Node]) -> bool {
    // The depth of a tree is bounded by `DEEPEST`, so this recursion is too.
    left.len() == right.len() && left.iter().zip(right).all(|(left, right)| same_node(left, right))
}

fn same_node(left: &Node, right: &Node) -> bool {
    let text = |word: &Option<Word>| word.as_ref().map(|word| word.text.clone());
    left.name.text == right.name.text
        && text(&left.annotation) == text(&right.annotation)
        && left.has_block == right.has_block
        && left.entries.len() == right.entries.len()
        && left.entries.iter().zip(&right.entries).all(|(left, right)| {
            text(&left.key) == text(&right.key)
                && text(&left.annotation) == text(&right.annotation)
                && same_value(&left.value, &right.value)
                && left.written == right.written
        })
        && same_nodes(&left.children, &right.children)
}

fn same_value(left: &Scalar, right: &Scalar) -> bool {
    match (left, right) {
        // `#nan` is the same as `#nan` here.
        (Scalar::Real(left), Scalar::Real(right)) => left.to_bits() == right.to_bits(),
        _ => left == right,
    }
}
