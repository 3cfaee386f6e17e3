//! The outline of a text: which nodes there are, how they nest and where their entries stand, in one pass, without
//! recursion and without ever failing. What cannot be read becomes a fault; everything around it is kept.
//!
//! The outline knows the grammar of KDL 2 but no values: those are read by the parser, one line of the outline after the
//! other (see `parse`). So no text reaches the parser that nests, or that is known to be wrong.

use super::DEEPEST;
use super::fault::{FaultKind, TextFault};
use super::lexer::{Lexer, Token, TokenKind};
use super::recover;
use super::slips::{bytes, fault, with_mend};
use super::tree::Bytes;

/// No column: the place is not the first on its line.
pub(super) const WITHIN_LINE: u32 = u32::MAX;

/// The frame of a switched-off block, which belongs to no part of the outline.
pub(super) const NO_PART: usize = usize::MAX;

/// An outline keeps no more faults than this; a text of nothing but faults must not fill the memory.
const MOST_FAULTS_OF_A_BLOCK: usize = 1000;

/// An entry as it stands in the text.
#[derive(Clone, Debug)]
pub(super) struct Slot {
    pub(super) annotation: Option<Bytes>,
    pub(super) key: Option<Bytes>,
    pub(super) value: Bytes,
    pub(super) at: Bytes,
    pub(super) quoted: bool,
}

/// A node as it stands in the text; the nodes of an outline are in the order of the text, parents first.
#[derive(Clone, Debug)]
pub(super) struct Part {
    /// How many nodes this one stands in.
    pub(super) depth: usize,
    pub(super) annotation: Option<Bytes>,
    /// None where the name could not be told.
    pub(super) name: Option<Bytes>,
    /// The entries of the part within `Outline::slots`.
    pub(super) slots: std::ops::Range<usize>,
    pub(super) block: Option<Bytes>,
    pub(super) at: Bytes,
    /// The end of the node's own line: where its brace stands or would have to stand.
    pub(super) head_end: usize,
    /// The node's line could not be read.
    pub(super) unread: bool,
    /// Something in its braces could not be read, beyond what its children say themselves.
    pub(super) lost_inside: bool,
    /// The indentation of the node if it is the first on its line.
    pub(super) indent: u32,
    /// The indentation of its closing brace if that is the first on its line.
    pub(super) close_indent: u32,
}

/// The nodes and faults of a text.
#[derive(Clone, Debug, Default)]
pub(super) struct Outline {
    pub(super) parts: Vec<Part>,
    pub(super) slots: Vec<Slot>,
    pub(super) faults: Vec<TextFault>,
    /// The parts of depth 0.
    pub(super) tops: Vec<usize>,
    /// Faults that were found and are not kept.
    pub(super) hidden_faults: usize,
    /// Something at the top level could not be read.
    pub(super) incomplete: bool,
}

/// A block that is open.
#[derive(Clone, Debug)]
pub(super) struct Frame {
    pub(super) part: usize,
    /// Where its brace stands.
    pub(super) brace: usize,
    /// The indentation of the line with the brace.
    pub(super) indent: u32,
    /// The indentation of the first node within it that begins a line.
    pub(super) first_child_indent: Option<u32>,
}

/// Builds the outline of a text.
pub(super) struct Outliner<'t> {
    pub(super) text: &'t str,
    pub(super) lexer: Lexer<'t>,
    pub(super) out: Outline,
    pub(super) stack: Vec<Frame>,
    /// Whether blocks without a closing brace are ended where the indentation shows it.
    pub(super) by_indent: bool,
    /// Top-level parts before this one are not looked at again when a stray brace is found.
    pub(super) adopt_floor: usize,
    /// Blocks whose nodes are indented, and those whose nodes are not.
    pub(super) indented: [usize; 2],
    pub(super) line_start: usize,
    /// The indentation of the line of the current token.
    pub(super) indent: u32,
    /// Nothing but blanks stands before the current token on its line.
    pub(super) first_on_line: bool,
    /// Behind the last token that is neither blank nor comment.
    pub(super) last_end: usize,
    /// The end of a closing brace with nothing but blanks behind it so far.
    behind_block: Option<usize>,
}

/// Builds the outline of a whole text.
pub(super) fn outline(text: &str) -> Outline {
    outline_by(text, 0, || Lexer::new(text, 0))
}

/// Builds the outline of a block that ends where `text` is cut off, and starts at an offset.
pub(super) fn outline_of_block(text: &str, start: usize) -> Outline {
    outline_by(text, start, || Lexer::of_block(text, start))
}

fn outline_by<'t>(text: &'t str, start: usize, lexer: impl Fn() -> Lexer<'t>) -> Outline {
    let mut outliner = Outliner::new(text, start, lexer(), false);
    outliner.run();
    if outliner.stack.is_empty() {
        return outliner.finish();
    }
    // A brace is missing: read once more and end blocks where the indentation shows it, if the text is indented at all.
    let by_indent = outliner.indented[0] >= outliner.indented[1];
    if !by_indent {
        recover::end_of_text(&mut outliner);
        return outliner.finish();
    }
    let mut again = Outliner::new(text, start, lexer(), true);
    again.run();
    recover::end_of_text(&mut again);
    again.finish()
}

impl<'t> Outliner<'t> {
    fn new(text: &'t str, start: usize, lexer: Lexer<'t>, by_indent: bool) -> Self {
        Self {
            text,
            lexer,
            out: Outline::default(),
            stack: Vec::new(),
            by_indent,
            adopt_floor: 0,
            indented: [0, 0],
            line_start: start,
            indent: 0,
            first_on_line: true,
            last_end: start,
            behind_block: None,
        }
    }

    fn finish(mut self) -> Outline {
        self.out.faults.sort_by_key(|fault| (fault.at.start, fault.at.end));
        self.out
    }

    /// The next token, keeping track of lines and reporting comments without an end.
    pub(super) fn next(&mut self) -> Option<Token> {
        let token = self.lexer.next()?;
        match token.kind {
            TokenKind::Newline | TokenKind::Continuation => {
                self.line_start = token.end;
                self.first_on_line = true;
                self.indent = 0;
            }
            TokenKind::Blank => {
                if token.start == self.line_start {
                    let blanks = self.text.get(token.start..token.end).unwrap_or_default();
                    let count = blanks.chars().filter(|c| *c != '\u{FEFF}').count();
                    self.indent = u32::try_from(count).unwrap_or(WITHIN_LINE - 1);
                }
            }
            TokenKind::LineComment | TokenKind::BlockComment => {}
            TokenKind::UnclosedComment => self.out.faults.push(fault(
                FaultKind::UnclosedComment,
                token.start..token.start + 2,
                "This comment has no end".to_owned(),
                "It would hide everything behind it; only the rest of its line is taken as the comment.",
                "Write */ behind its last word, or begin it with // if it is one line.".to_owned(),
            )),
            _ => self.last_end = token.end,
        }
        Some(token)
    }

    /// Puts a token back. Only tokens that stand on their line behind what was read before may be put back.
    fn back(&mut self, token: Token, last_end: usize) {
        self.lexer.go_to(token.start);
        self.last_end = last_end;
    }

    fn run(&mut self) {
        let mut switch_off: Option<Token> = None;
        loop {
            let last_end = self.last_end;
            let Some(token) = self.next() else { break };
            match token.kind {
                TokenKind::Blank | TokenKind::BlockComment | TokenKind::Continuation => continue,
                TokenKind::Newline | TokenKind::LineComment | TokenKind::Semicolon | TokenKind::UnclosedComment => {
                    self.behind_block = None;
                    continue;
                }
                TokenKind::SwitchOff => {
                    if let Some(earlier) = switch_off.replace(token) {
                        self.empty_switch_off(earlier);
                    }
                    self.first_on_line = false;
                    continue;
                }
                TokenKind::Close => {
                    if let Some(earlier) = switch_off.take() {
                        self.empty_switch_off(earlier);
                    }
                    self.close(token);
                    self.limit();
                    self.first_on_line = false;
                    continue;
                }
                TokenKind::Open if switch_off.is_some() && self.behind_block.is_some() => {
                    // A further block of the node before, switched off.
                    switch_off = None;
                    if !self.skip_block(token) {
                        self.behind_block = None;
                    }
                    continue;
                }
                _ => {}
            }
            if self.by_indent && self.first_on_line && token.start == self.line_start && !self.stack.is_empty() {
                recover::end_blocks_before(self, last_end);
            }
            if let Some(end) = self.behind_block.take()
                && token.kind != TokenKind::Open
                && switch_off.is_none()
            {
                self.out.faults.push(with_mend(
                    fault(
                        FaultKind::MissingSemicolon,
                        token.start..token.end,
                        "Something stands behind a closing brace on the same line".to_owned(),
                        "It is read as a part of its own, which may not be what was meant.",
                        "Begin a new line behind the brace, or put a semicolon there.".to_owned(),
                    ),
                    end..end,
                    ";".to_owned(),
                ));
            }
            let muted = switch_off.take().is_some();
            self.back(token, last_end);
            self.node(muted);
            self.limit();
        }
        if let Some(earlier) = switch_off {
            self.empty_switch_off(earlier);
        }
    }

    /// Keeps the number of faults within bounds; how many were dropped is remembered.
    fn limit(&mut self) {
        if let Some(more) = self.out.faults.len().checked_sub(MOST_FAULTS_OF_A_BLOCK) {
            self.out.hidden_faults += more;
            self.out.faults.truncate(MOST_FAULTS_OF_A_BLOCK);
        }
    }

    pub(super) fn empty_switch_off(&mut self, token: Token) {
        self.out.faults.push(fault(
            FaultKind::EmptySwitchOff,
            token.start..token.end,
            "Nothing stands behind this /- that it could switch off".to_owned(),
            "What it was meant to switch off may still count.",
            "Write /- directly before the part, entry or brace that should not count, or delete it.".to_owned(),
        ));
    }

    /// A closing brace.
    fn close(&mut self, token: Token) {
        let indent = if self.first_on_line { self.indent } else { WITHIN_LINE };
        if self.by_indent && indent != WITHIN_LINE {
            recover::end_blocks_within(self, indent, token.start);
        }
        match self.stack.pop() {
            Some(frame) => {
                self.end_block(&frame, token.end);
                if let Some(part) = self.out.parts.get_mut(frame.part) {
                    part.close_indent = indent;
                }
                self.behind_block = Some(token.end);
            }
            None => recover::stray_brace(self, token, indent),
        }
    }

    /// Gives the part of a frame its block, which ends at `end`.
    pub(super) fn end_block(&mut self, frame: &Frame, end: usize) {
        if let Some(part) = self.out.parts.get_mut(frame.part) {
            part.block = Some(bytes(frame.brace..end));
            part.at.end = bytes(end..end).end;
        }
    }

    /// Skips a block with all that stands in it, from behind its opening brace. Says whether it is closed.
    pub(super) fn skip_block(&mut self, open: Token) -> bool {
        let mut depth = 1_usize;
        self.first_on_line = false;
        loop {
            let last_end = self.last_end;
            let Some(token) = self.next() else { break };
            match token.kind {
                TokenKind::Blank | TokenKind::Newline | TokenKind::LineComment | TokenKind::BlockComment => continue,
                TokenKind::Open => depth += 1,
                TokenKind::Close => {
                    depth -= 1;
                    if depth == 0 {
                        self.first_on_line = false;
                        return true;
                    }
                }
                TokenKind::Word | TokenKind::Quoted
                    if self.by_indent && self.first_on_line && token.start == self.line_start =>
                {
                    self.back(token, last_end);
                    break;
                }
                _ => {}
            }
            self.first_on_line = false;
        }
        self.out.faults.push(recover::unclosed(open.start, 1));
        self.mark_lost();
        if !self.by_indent && self.stack.is_empty() {
            // Nothing else tells the caller that a brace is missing: so that the text is read again by its indentation.
            self.stack.push(Frame { part: NO_PART, brace: open.start, indent: self.indent, first_child_indent: None });
        }
        false
    }

    /// Something among the children of the innermost open block, or at the top level, could not be read.
    fn mark_lost(&mut self) {
        match self.stack.last().and_then(|frame| self.out.parts.get_mut(frame.part)) {
            Some(part) => part.lost_inside = true,
            None => self.out.incomplete = true,
        }
    }

    /// One node: its line, and its opening brace if it has one.
    fn node(&mut self, muted: bool) {
        let (slots_before, faults_before) = (self.out.slots.len(), self.out.faults.len());
        let line_indent = self.indent;
        let indent = if self.first_on_line { self.indent } else { WITHIN_LINE };
        let head = self.head();
        if muted {
            self.out.slots.truncate(slots_before);
            let dropped = self.out.faults.split_off(faults_before);
            let kept = dropped.into_iter().filter(|fault| {
                matches!(fault.kind, FaultKind::UnclosedString | FaultKind::UnclosedComment | FaultKind::UnclosedBlock)
            });
            self.out.faults.extend(kept);
            if let Some(open) = head.open {
                self.behind_block = self.skip_block(open).then_some(self.last_end);
            }
            return;
        }
        if head.name.is_none() {
            self.mark_lost();
        }
        let depth = self.stack.len();
        let index = self.out.parts.len();
        if let Some(frame) = self.stack.last_mut()
            && indent != WITHIN_LINE
            && frame.first_child_indent.is_none()
        {
            frame.first_child_indent = Some(indent);
            self.indented[usize::from(indent == 0)] += 1;
        }
        if depth == 0 {
            self.out.tops.push(index);
        }
        self.out.parts.push(Part {
            depth,
            annotation: head.annotation,
            name: head.name,
            slots: slots_before..self.out.slots.len(),
            block: None,
            at: bytes(head.start..head.end),
            head_end: head.end,
            unread: head.unread,
            lost_inside: false,
            indent,
            close_indent: WITHIN_LINE,
        });
        let Some(open) = head.open else { return };
        let frame = Frame { part: index, brace: open.start, indent: line_indent, first_child_indent: None };
        self.stack.push(frame.clone());
        if depth < DEEPEST {
            return;
        }
        self.out.faults.push(fault(
            FaultKind::TooDeep,
            open.start..open.end,
            format!("This brace is nested deeper than {DEEPEST} levels"),
            "What stands within it is not read, and not checked.",
            "Nest less deeply; most often a closing brace is missing further up.".to_owned(),
        ));
        let closed = self.skip_block(open);
        self.mark_lost();
        self.stack.pop();
        self.end_block(&frame, self.last_end);
        self.behind_block = closed.then_some(self.last_end);
    }
}
