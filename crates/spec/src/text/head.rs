//! One line of the outline: the annotation, name and entries of a node, up to its brace or the end of the line.

use super::fault::{FaultKind, TextFault};
use super::lexer::{Token, TokenKind};
use super::outline::{Outliner, Slot};
use super::slips::{self, LINE_UNREAD, Place, bytes, fault, with_mend};
use super::tree::Bytes;

/// A line with more faults than this is not explained any better by more.
const MOST_FAULTS_OF_A_LINE: usize = 20;

/// What was read of a node's line.
pub(super) struct Head {
    pub(super) start: usize,
    pub(super) end: usize,
    pub(super) annotation: Option<Bytes>,
    pub(super) name: Option<Bytes>,
    pub(super) unread: bool,
    pub(super) open: Option<Token>,
}

/// What is known of the first argument while the rest of a line is read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum First {
    Unseen,
    /// A bare word: it may be the start of a text that lacks its quotation mark.
    Bare,
    Certain,
    Uncertain,
}

impl Outliner<'_> {
    /// Passes blanks, comments and line continuations; with `lines` also line ends. Says whether there were any.
    fn skip(&mut self, lines: bool) -> bool {
        let mut any = false;
        loop {
            let last_end = self.last_end;
            let before = (self.line_start, self.indent, self.first_on_line);
            let Some(token) = self.lexer.next() else {
                return any;
            };
            self.lexer.go_to(token.start);
            let pass = match token.kind {
                TokenKind::Blank | TokenKind::BlockComment | TokenKind::Continuation => true,
                TokenKind::Newline | TokenKind::LineComment => lines,
                _ => false,
            };
            if !pass {
                return any;
            }
            self.next();
            self.last_end = last_end;
            if token.kind != TokenKind::Newline {
                // A line continuation or comment does not begin a new line of the text's layout.
                (self.line_start, self.indent, self.first_on_line) = before;
            }
            any = true;
        }
    }

    fn peek(&mut self) -> Option<Token> {
        let token = self.lexer.next()?;
        self.lexer.go_to(token.start);
        Some(token)
    }

    /// `(word)`, if it stands next. A faulty one is a fault and none.
    fn annotation(&mut self) -> Option<Bytes> {
        let open = self.peek().filter(|token| token.kind == TokenKind::ParenOpen)?;
        self.next();
        self.skip(false);
        let word = self.peek().filter(|token| matches!(token.kind, TokenKind::Word | TokenKind::Quoted));
        if let Some(word) = word {
            self.next();
            if let Some(slip) = slips::check(self.text, word, Place::Annotation) {
                self.out.faults.push(slip);
            }
            self.skip(false);
            if self.peek().is_some_and(|token| token.kind == TokenKind::ParenClose) {
                self.next();
                self.skip(false);
                return Some(bytes(word.start..word.end));
            }
        }
        self.out.faults.push(fault(
            FaultKind::Unreadable,
            open.start..self.last_end,
            "A parenthesis outside quotes holds one word and ends behind it".to_owned(),
            LINE_UNREAD,
            "Put the text in quotes if the parenthesis belongs to it.".to_owned(),
        ));
        None
    }

    pub(super) fn head(&mut self) -> Head {
        let faults_before = self.out.faults.len();
        let start = self.lexer.at();
        let before = self.last_end;
        let annotation = self.annotation();
        let name = self.name();
        let mut line = Line {
            faults_before,
            slots_before: self.out.slots.len(),
            first: First::Unseen,
            entries: 0,
            unclosed: None,
            glued: None,
            curly: false,
        };
        self.first_on_line = false;
        let open = self.entries(&mut line, name.is_some() || self.last_end > before);
        if let Some((at, several)) = line.unclosed.clone() {
            // Quotation marks are out of step: what else seems wrong on the line follows from it.
            let kept: Vec<TextFault> = self.out.faults.split_off(faults_before);
            let kept = kept.into_iter().filter(|fault| fault.kind == FaultKind::UnclosedComment);
            let slip = match line.glued {
                Some(ref glued) if !several => slips::unpaired_quotes(glued.clone()),
                _ => slips::unclosed_string(self.text.get(at.clone()).unwrap_or_default(), at),
            };
            self.out.faults.extend(kept);
            self.out.faults.push(slip);
        }
        let unread = self
            .out
            .faults
            .get(faults_before..)
            .unwrap_or_default()
            .iter()
            .any(|fault| fault.kind != FaultKind::UnclosedComment && fault.kind != FaultKind::UnclosedBlock);
        if unread {
            let keep = usize::from(matches!(line.first, First::Certain | First::Bare) && line.first_counts());
            self.out.slots.truncate(line.slots_before + keep);
        }
        Head { start, end: self.last_end.max(start), annotation, name, unread, open }
    }

    /// The name of a node; none and a fault if there is none.
    fn name(&mut self) -> Option<Bytes> {
        let token = self.peek();
        let kind = token.map(|token| token.kind);
        if let (Some(token), Some(TokenKind::Word | TokenKind::Quoted)) = (token, kind) {
            self.next();
            let old_raw = self.old_raw_string(token);
            if let Some(slip) = slips::check(self.text, token, Place::Name).or(old_raw) {
                self.out.faults.push(slip);
                return None;
            }
            return Some(bytes(token.start..token.end));
        }
        if let Some(TokenKind::TripleOnOneLine | TokenKind::UnclosedString) = kind {
            // Reported as the first entry of a line without a name.
            return None;
        }
        let at = token.map_or(self.last_end..self.last_end, |token| token.start..token.end);
        self.out.faults.push(fault(
            FaultKind::MissingName,
            at,
            match kind {
                Some(TokenKind::Open) => "This brace stands behind no name".to_owned(),
                _ => "A line begins with the name of a part or property".to_owned(),
            },
            "It cannot be told what this describes.",
            "Write the name first, then its values, then an opening brace on the same line.".to_owned(),
        ));
        None
    }

    /// `r"…"` and `r#"…"#` of KDL version 1.
    fn old_raw_string(&mut self, token: Token) -> Option<TextFault> {
        if self.text.get(token.start..token.end) != Some("r") {
            return None;
        }
        let string = self.peek().filter(|next| next.kind == TokenKind::Quoted && next.start == token.end)?;
        let written = self.text.get(string.start..string.end).unwrap_or_default();
        let new = if written.starts_with('#') { written.to_owned() } else { format!("#{written}#") };
        let found = fault(
            FaultKind::OldSyntax,
            token.start..string.end,
            "r\"…\" is a raw text of KDL version 1".to_owned(),
            LINE_UNREAD,
            "Write #\"…\"# instead.".to_owned(),
        );
        Some(with_mend(found, token.start..string.end, new))
    }

    /// The entries of a line up to its end; the opening brace if it ends with one.
    fn entries(&mut self, line: &mut Line, mut after_value: bool) -> Option<Token> {
        let mut dropping: Option<Token> = None;
        loop {
            let spaced = self.skip(dropping.is_some());
            let token = self.peek();
            let ends = match token.map(|token| token.kind) {
                None
                | Some(TokenKind::Newline | TokenKind::LineComment | TokenKind::Semicolon | TokenKind::Close)
                | Some(TokenKind::UnclosedComment) => true,
                Some(TokenKind::Open) => dropping.is_none(),
                _ => false,
            };
            if ends && let Some(switch_off) = dropping {
                self.empty_switch_off(switch_off);
            }
            let token = token?;
            match token.kind {
                _ if ends => {
                    if token.kind == TokenKind::Open {
                        self.next();
                        // The brace is not part of the line's own text.
                        return Some(token);
                    }
                    return None;
                }
                TokenKind::Open => {
                    self.next();
                    let last_end = self.last_end;
                    if !self.skip_block(token) {
                        return None;
                    }
                    self.last_end = self.last_end.max(last_end);
                    dropping = None;
                    after_value = true;
                }
                TokenKind::SwitchOff => {
                    self.next();
                    if let Some(earlier) = dropping.replace(token) {
                        self.empty_switch_off(earlier);
                    }
                    after_value = false;
                }
                TokenKind::Equals => {
                    self.next();
                    self.stray_equals(token, line);
                    after_value = false;
                }
                TokenKind::ParenClose => {
                    self.next();
                    if line.entries == 0 {
                        line.first = First::Uncertain;
                    }
                    self.out.faults.push(fault(
                        FaultKind::Unreadable,
                        token.start..token.end,
                        "A parenthesis is closed that is not opened".to_owned(),
                        LINE_UNREAD,
                        "Put the text in quotes if the parenthesis belongs to it.".to_owned(),
                    ));
                    after_value = false;
                }
                _ => {
                    if after_value && !spaced && !line.curly {
                        line.glue(token);
                        self.missing_blank(token);
                    }
                    after_value = self.entry(line, dropping.take().is_some());
                    self.out.faults.truncate(line.faults_before + MOST_FAULTS_OF_A_LINE);
                }
            }
        }
    }

    fn missing_blank(&mut self, token: Token) {
        let found = fault(
            FaultKind::MissingBlank,
            token.start..token.end,
            "A blank is missing before this".to_owned(),
            LINE_UNREAD,
            "Separate what stands on a line by blanks; a text in quotes ends at its second quotation mark.".to_owned(),
        );
        self.out.faults.push(with_mend(found, token.start..token.start, " ".to_owned()));
    }

    fn stray_equals(&mut self, token: Token, line: &mut Line) {
        let first = line.entries == 0 && self.out.faults.len() == line.faults_before;
        if line.entries == 0 {
            line.first = First::Uncertain;
        }
        let found = if first {
            let found = fault(
                FaultKind::StrayEquals,
                token.start..token.end,
                "The first word of a line is followed by its value without an equals sign".to_owned(),
                LINE_UNREAD,
                "Write a blank instead: name \"12 V\"; or move the property to the line of the part it belongs to."
                    .to_owned(),
            );
            with_mend(found, token.start..token.end, " ".to_owned())
        } else {
            fault(
                FaultKind::StrayEquals,
                token.start..token.end,
                "This equals sign has no name before it".to_owned(),
                LINE_UNREAD,
                "Write name=value, with one equals sign, and put texts that hold one in quotes.".to_owned(),
            )
        };
        self.out.faults.push(found);
    }

    /// One entry, which begins at the next token. Says whether it ends with a value.
    fn entry(&mut self, line: &mut Line, dropped: bool) -> bool {
        let faults_before = self.out.faults.len();
        let start = self.lexer.at();
        line.entries += 1;
        let mut annotation = self.annotation();
        let mut key = None;
        let mut value = self.peek().filter(|token| is_value(token.kind));
        if let Some(word) = value
            && annotation.is_none()
        {
            self.next();
            let (at, last_end) = (self.lexer.at(), self.last_end);
            self.skip(false);
            let equals = self.peek().filter(|token| token.kind == TokenKind::Equals);
            match equals {
                Some(equals) if matches!(word.kind, TokenKind::Word | TokenKind::Quoted) => {
                    self.next();
                    if let Some(slip) = slips::check(self.text, word, Place::Key) {
                        self.out.faults.push(slip);
                    }
                    self.doubled_equals();
                    key = Some(bytes(word.start..word.end));
                    self.skip(false);
                    annotation = self.annotation();
                    value = self.peek().filter(|token| is_value(token.kind));
                    let next_key = value.is_some_and(|value| self.is_key(value, equals));
                    match value {
                        Some(_) if !next_key => {
                            self.next();
                        }
                        _ => {
                            self.missing_value(word, equals);
                            value = None;
                        }
                    }
                }
                _ => {
                    self.lexer.go_to(at);
                    self.last_end = last_end;
                }
            }
        } else if value.is_some() {
            self.next();
        }
        let Some(value) = value else {
            if self.out.faults.len() == faults_before {
                self.out.faults.push(fault(
                    FaultKind::MissingValue,
                    start..self.last_end.max(start),
                    "A value is missing behind this".to_owned(),
                    LINE_UNREAD,
                    "Write the value behind it, on the same line.".to_owned(),
                ));
            }
            if line.entries == 1 {
                line.first = First::Uncertain;
            }
            return false;
        };
        self.value(line, value);
        if dropped && line.unclosed.is_none() {
            // What is switched off may be anything, as long as it can be told where it ends.
            self.out.faults.truncate(faults_before);
        }
        let faulty = self.out.faults.len() > faults_before;
        line.note(key.is_some(), value.kind, faulty, dropped);
        if !faulty && !dropped {
            self.out.slots.push(Slot {
                annotation,
                key,
                value: bytes(value.start..value.end),
                at: bytes(start..value.end),
                quoted: value.kind == TokenKind::Quoted,
            });
        }
        true
    }

    fn value(&mut self, line: &mut Line, value: Token) {
        if value.kind == TokenKind::UnclosedString {
            let several = self.text.get(value.start..value.end).is_some_and(|written| written.ends_with("\"\"\""));
            line.unclosed.get_or_insert((value.start..value.end, several));
            self.out.faults.push(slips::unclosed_string("", value.start..value.end));
            return;
        }
        if let Some(slip) = self.old_raw_string(value) {
            self.next();
            self.out.faults.push(slip);
            return;
        }
        let Some(slip) = slips::check(self.text, value, Place::Value) else {
            return;
        };
        if slip.kind == FaultKind::CurlyQuotes && line.curly {
            return;
        }
        line.curly |= slip.kind == FaultKind::CurlyQuotes;
        if slip.kind == FaultKind::CurlyQuotes && slip.instead.is_none() {
            let mend = self.curly_mend(value);
            self.out.faults.push(match mend {
                Some((at, text)) => with_mend(slip, at, text),
                None => slip,
            });
            return;
        }
        self.out.faults.push(slip);
    }

    /// The whole of `“two words”`, if it ends on its line and holds nothing that would need an escape.
    fn curly_mend(&self, value: Token) -> Option<(std::ops::Range<usize>, String)> {
        let written = self.text.get(value.start..)?;
        let opening = written.chars().next().filter(|c| matches!(c, '“' | '„' | '”' | '«'))?;
        let line = written.get(opening.len_utf8()..super::lexer::end_of_line(self.text, value.start) - value.start)?;
        let closing = line.find(['”', '“', '»'])?;
        let mark = line.get(closing..)?.chars().next()?;
        let inner = line.get(..closing).filter(|inner| !inner.contains(['"', '\\', '=', '{', '}']))?;
        let end = value.start + opening.len_utf8() + closing + mark.len_utf8();
        Some((value.start..end, format!("\"{inner}\"")))
    }

    /// Whether a word is followed by its own equals sign, and so begins the next property: `size= rating="5 A"`.
    fn is_key(&mut self, value: Token, equals: Token) -> bool {
        let at = self.lexer.at();
        self.lexer.go_to(value.end);
        let follows = self.peek().is_some_and(|token| token.kind == TokenKind::Equals);
        self.lexer.go_to(at);
        follows && value.start > equals.end
    }

    /// `a==5`: what follows the first equals sign is passed, with one fault.
    fn doubled_equals(&mut self) {
        let Some(first) = self.peek().filter(|token| token.kind == TokenKind::Equals) else {
            return;
        };
        let mut last = first;
        while let Some(token) = self.peek().filter(|token| token.kind == TokenKind::Equals) {
            self.next();
            last = token;
        }
        let found = fault(
            FaultKind::StrayEquals,
            first.start..last.end,
            "One equals sign is enough".to_owned(),
            LINE_UNREAD,
            "Write name=value.".to_owned(),
        );
        self.out.faults.push(with_mend(found, first.start..last.end, String::new()));
    }

    fn missing_value(&mut self, key: Token, equals: Token) {
        let name = self.text.get(key.start..key.end).unwrap_or_default();
        self.out.faults.push(fault(
            FaultKind::MissingValue,
            key.start..equals.end,
            format!("Nothing stands behind {name}="),
            LINE_UNREAD,
            "Write the value directly behind the equals sign, or leave the entry out: an unknown value is allowed."
                .to_owned(),
        ));
    }
}

/// What the outliner knows about the line it reads.
struct Line {
    faults_before: usize,
    slots_before: usize,
    first: First,
    entries: usize,
    /// A string without an end, and whether it is one of several lines.
    unclosed: Option<(std::ops::Range<usize>, bool)>,
    /// The first place where two things touch.
    glued: Option<std::ops::Range<usize>>,
    /// A typographic quotation mark was found: what touches behind it, and its second half, follow from it.
    curly: bool,
}

impl Line {
    fn glue(&mut self, token: Token) {
        self.glued.get_or_insert(token.start..token.end);
        if self.entries <= 1 && self.first != First::Unseen {
            self.first = First::Uncertain;
        }
        if self.entries == 0 {
            self.first = First::Uncertain;
        }
    }

    /// Notes an entry that was just read.
    fn note(&mut self, has_key: bool, kind: TokenKind, faulty: bool, dropped: bool) {
        match self.entries {
            1 => {
                let certain = !has_key && !faulty && !dropped && self.first != First::Uncertain;
                self.first = match kind {
                    TokenKind::Quoted if certain => First::Certain,
                    TokenKind::Word if certain => First::Bare,
                    _ => First::Uncertain,
                };
            }
            2 if self.first == First::Bare => {
                if has_key {
                    self.first = First::Certain;
                } else if faulty {
                    self.first = First::Uncertain;
                }
            }
            _ => {}
        }
    }

    /// Whether the first argument is certain now that the whole line is known.
    fn first_counts(&self) -> bool {
        self.first == First::Certain || (self.first == First::Bare && self.unclosed.is_none())
    }
}

fn is_value(kind: TokenKind) -> bool {
    matches!(kind, TokenKind::Word | TokenKind::Quoted | TokenKind::UnclosedString | TokenKind::TripleOnOneLine)
}
