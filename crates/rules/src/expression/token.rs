//! The words of an expression and what can be said of them before it is parsed: sizes, brackets, slips of the pen.
//!
//! The parser speaks of tokens and grammar; an author of rules needs to hear 'write 178 * mm'. What is refused here never
//! reaches the parser, whose stack a hostile text could otherwise exhaust.

use super::Fault;
use std::ops::Range;

/// The longest expression in bytes. Chosen: the longest rule imagined has a tenth of it.
const LONGEST: usize = 4096;
/// The most tokens. Chosen: measured, the parser's tree of 1,000 chained operators still fits a 2 MiB stack.
const MOST_TOKENS: usize = 600;
/// The deepest nesting of brackets and conditionals. Chosen; the stack of the parser's thread is sized for it.
const DEEPEST: usize = 24;

/// What a token is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Kind {
    Name,
    Number,
    Text,
    Open,
    Close,
    Mark,
}

/// One token.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Token {
    pub kind: Kind,
    pub at: Range<usize>,
    /// For a bracket, the index of the other one of its pair.
    pub pair: Option<usize>,
}

/// The tokens of a text.
#[derive(Debug)]
pub(super) struct Tokens<'t> {
    pub text: &'t str,
    pub list: Vec<Token>,
}

/// Words that the Common Expression Language keeps for itself.
const RESERVED: &[&str] = &[
    "as",
    "break",
    "const",
    "continue",
    "else",
    "for",
    "function",
    "if",
    "import",
    "let",
    "loop",
    "package",
    "namespace",
    "return",
    "var",
    "void",
    "while",
];

/// Signs that are no signs of the language, with what to write instead.
const INSTEAD: &[(char, &str)] = &[
    ('=', "compare words and parts with ==, quantities with <= or >="),
    ('&', "write && for 'and'"),
    ('|', "write || for 'or'"),
    ('≤', "write <="),
    ('≥', "write >="),
    ('≠', "write !="),
    ('×', "write *"),
    ('·', "write *"),
    ('÷', "write /"),
    ('−', "write the plain minus -"),
    ('“', "write the plain quote \""),
    ('”', "write the plain quote \""),
    ('°', "write degC(35) or degF(95) for a temperature, 5 * K for a difference, 30 * deg for an angle"),
    ('Ω', "write ohm, mohm or kohm"),
    ('µ', "write u: um, uA, uohm"),
    ('²', "write the digit: mm2"),
    ('³', "write the digit: m3"),
    ('%', "write 3 * percent"),
];

impl<'t> Tokens<'t> {
    /// The text of a token.
    pub fn word(&self, token: &Token) -> &'t str {
        self.text.get(token.at.clone()).unwrap_or("")
    }

    /// The token that starts at this byte, with its index.
    pub fn starting_at(&self, byte: usize) -> Option<(usize, &Token)> {
        let index = self.list.binary_search_by_key(&byte, |token| token.at.start).ok()?;
        self.list.get(index).map(|token| (index, token))
    }

    /// The range widened so that it holds both or none of each pair of brackets that it cuts.
    pub fn balanced(&self, mut at: Range<usize>) -> Range<usize> {
        for token in self.list.iter().filter(|token| token.kind == Kind::Open) {
            let Some(close) = token.pair.and_then(|pair| self.list.get(pair)) else {
                continue;
            };
            let (open_in, close_in) =
                (at.contains(&token.at.start), at.start <= close.at.start && close.at.end <= at.end);
            if open_in && !close_in {
                at.end = at.end.max(close.at.end);
            } else if close_in && !open_in {
                at.start = at.start.min(token.at.start);
            }
        }
        at
    }
}

fn fault(at: Range<usize>, message: impl Into<String>, help: impl Into<String>) -> Fault {
    Fault { at, message: message.into(), help: Some(help.into()) }
}

/// Splits a text into tokens, or says what is wrong with them.
pub(super) fn tokens(text: &str) -> Result<Tokens<'_>, Vec<Fault>> {
    if text.len() > LONGEST {
        return Err(vec![fault(
            0..text.len(),
            format!("this expression is longer than {LONGEST} bytes"),
            "split the rule into several",
        )]);
    }
    let mut faults = Vec::new();
    let mut tokens = Tokens { text, list: split(text, &mut faults) };
    if tokens.list.is_empty() && faults.is_empty() {
        faults.push(fault(0..text.len(), "this expression is empty", "write a condition, or leave the line out"));
    }
    if let Some(token) = tokens.list.get(MOST_TOKENS) {
        let message = format!("this expression has more than {MOST_TOKENS} words and signs");
        return Err(vec![fault(token.at.clone(), message, "split the rule into several")]);
    }
    pair(&mut tokens, &mut faults);
    // What a wrong sign left out makes neighbours of words that are none.
    if faults.is_empty() {
        neighbours(&tokens, &mut faults);
    }
    if faults.is_empty() {
        Ok(tokens)
    } else {
        faults.sort_by_key(|fault| (fault.at.start, fault.at.end));
        Err(faults)
    }
}

fn split(text: &str, faults: &mut Vec<Fault>) -> Vec<Token> {
    let mut list = Vec::new();
    let mut start = 0;
    while let Some(rest) = text.get(start..)
        && let Some(first) = rest.chars().next()
    {
        let (kind, length) = match first {
            _ if first.is_whitespace() => (None, first.len_utf8()),
            '/' if rest.starts_with("//") => (None, rest.find('\n').unwrap_or(rest.len())),
            'a'..='z' | 'A'..='Z' | '_' => (Some(Kind::Name), span(rest, |c| c.is_ascii_alphanumeric() || c == '_')),
            '0'..='9' => (Some(Kind::Number), number(rest)),
            '.' if rest.get(1..).is_some_and(|more| more.starts_with(|c: char| c.is_ascii_digit())) => {
                (Some(Kind::Number), number(rest))
            }
            '"' | '\'' => match quoted(rest, first) {
                Some(length) => (Some(Kind::Text), length),
                None => {
                    faults.push(fault(
                        start..text.len(),
                        "this text has no closing quote",
                        format!("end it with {first}"),
                    ));
                    return list;
                }
            },
            '(' | '[' => (Some(Kind::Open), 1),
            ')' | ']' => (Some(Kind::Close), 1),
            _ => match mark(rest) {
                Some(length) => (Some(Kind::Mark), length),
                None => {
                    let length = first.len_utf8();
                    let instead = INSTEAD.iter().find(|(sign, _)| *sign == first).map(|(_, help)| (*help).to_owned());
                    faults.push(Fault {
                        at: start..start + length,
                        message: format!("'{}' is no sign of the rule language", first.escape_debug()),
                        help: instead,
                    });
                    (None, length)
                }
            },
        };
        if let Some(kind) = kind {
            list.push(Token { kind, at: start..start + length, pair: None });
        }
        start += length.max(1);
    }
    list
}

fn span(rest: &str, belongs: impl Fn(char) -> bool) -> usize {
    rest.find(|c| !belongs(c)).unwrap_or(rest.len())
}

/// The length of the number at the start: digits, a point with digits, an exponent.
fn number(rest: &str) -> usize {
    let digits = |from: usize| from + rest.get(from..).map_or(0, |more| span(more, |c| c.is_ascii_digit()));
    let mut end = digits(0);
    if rest.get(end..).is_some_and(|more| more.starts_with('.')) && digits(end + 1) > end + 1 {
        end = digits(end + 1);
    }
    let exponent = rest.get(end..).unwrap_or("");
    if exponent.starts_with(['e', 'E']) {
        let sign = usize::from(exponent.get(1..).is_some_and(|more| more.starts_with(['+', '-'])));
        let from = end + 1 + sign;
        if digits(from) > from {
            end = digits(from);
        }
    }
    end
}

/// The length of the quoted text at the start, with its quotes.
fn quoted(rest: &str, quote: char) -> Option<usize> {
    let mut escaped = false;
    for (index, character) in rest.char_indices().skip(1) {
        match character {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '\n' => return None,
            _ if character == quote => return Some(index + 1),
            _ => {}
        }
    }
    None
}

fn mark(rest: &str) -> Option<usize> {
    const MARKS: &[&str] = &["<=", ">=", "==", "!=", "&&", "||", "<", ">", "!", "+", "-", "*", "/", "?", ":", ".", ","];
    MARKS.iter().find(|mark| rest.starts_with(**mark)).map(|mark| mark.len())
}

/// Pairs the brackets and bounds their depth; conditionals count as depth too.
fn pair(tokens: &mut Tokens<'_>, faults: &mut Vec<Fault>) {
    let mut open: Vec<usize> = Vec::new();
    let mut pairs = Vec::new();
    let mut conditionals = 0;
    for (index, token) in tokens.list.iter().enumerate() {
        let word = tokens.word(token);
        conditionals += usize::from(word == "?");
        match token.kind {
            Kind::Open => open.push(index),
            Kind::Close => match open.pop() {
                Some(start)
                    if (tokens.list.get(start).map(|token| tokens.word(token)) == Some("(")) == (word == ")") =>
                {
                    pairs.push((start, index));
                }
                Some(start) => {
                    let closing = if word == ")" { "]" } else { ")" };
                    faults.push(fault(
                        token.at.clone(),
                        format!("this '{word}' closes a bracket of another shape"),
                        format!("write {closing}"),
                    ));
                    pairs.push((start, index));
                }
                None => {
                    faults.push(fault(
                        token.at.clone(),
                        format!("this '{word}' closes nothing"),
                        "leave it out, or open it before",
                    ));
                }
            },
            _ => {}
        }
        if open.len() + conditionals > DEEPEST {
            let message = format!("this expression is nested deeper than {DEEPEST} levels");
            faults.clear();
            faults.push(fault(token.at.clone(), message, "split the rule into several"));
            return;
        }
    }
    for index in open {
        if let Some(token) = tokens.list.get(index) {
            let closing = if tokens.word(token) == "(" { ")" } else { "]" };
            faults.push(fault(token.at.clone(), "this bracket is never closed", format!("close it with {closing}")));
        }
    }
    for (start, end) in pairs {
        for (one, other) in [(start, end), (end, start)] {
            if let Some(token) = tokens.list.get_mut(one) {
                token.pair = Some(other);
            }
        }
    }
}

/// Faults that two neighbours show: a missing operator, an inch, a decimal comma, a word that the language keeps.
fn neighbours(tokens: &Tokens<'_>, faults: &mut Vec<Fault>) {
    let mut depth = 0usize;
    for (index, token) in tokens.list.iter().enumerate() {
        let word = tokens.word(token);
        let before = index.checked_sub(1).and_then(|index| tokens.list.get(index));
        let after = tokens.list.get(index + 1);
        match token.kind {
            Kind::Open => depth += 1,
            Kind::Close => depth = depth.saturating_sub(1),
            Kind::Mark
                if word == ","
                    && depth == 0
                    && before.is_some_and(|token| token.kind == Kind::Number)
                    && after.is_some_and(|token| token.kind == Kind::Number) =>
            {
                faults.push(fault(token.at.clone(), "a comma cannot stand in a number", "write a decimal point"));
            }
            _ => {}
        }
        if token.kind == Kind::Name {
            let is_field = before.is_some_and(|token| tokens.word(token) == ".");
            if word == "null" {
                faults.push(fault(
                    token.at.clone(),
                    "the rule language has no null",
                    "ask has(x) whether a fact is known",
                ));
            } else if !is_field && RESERVED.contains(&word) {
                faults.push(fault(
                    token.at.clone(),
                    format!("`{word}` is a word that the language keeps for itself"),
                    format!("for the fact of that name write self.{word}"),
                ));
            } else if word == "in" && !before.is_some_and(ends_operand(tokens)) {
                faults.push(fault(
                    token.at.clone(),
                    "`in` asks whether something is in a list",
                    "the unit is named `inch`",
                ));
            }
        }
        if let Some(before) = before
            && ends_operand(tokens)(before)
            && starts_operand(tokens, token)
        {
            faults.push(missing_operator(tokens, before, token));
        }
    }
}

fn ends_operand<'a>(tokens: &'a Tokens<'_>) -> impl Fn(&Token) -> bool + 'a {
    |token| match token.kind {
        Kind::Number | Kind::Text | Kind::Close => true,
        Kind::Name => tokens.word(token) != "in",
        Kind::Open | Kind::Mark => false,
    }
}

fn starts_operand(tokens: &Tokens<'_>, token: &Token) -> bool {
    match token.kind {
        Kind::Number | Kind::Text => true,
        Kind::Name => tokens.word(token) != "in",
        _ => false,
    }
}

fn missing_operator(tokens: &Tokens<'_>, before: &Token, token: &Token) -> Fault {
    let (left, right) = (tokens.word(before), tokens.word(token));
    for (word, sign) in [("and", "&&"), ("or", "||"), ("not", "!")] {
        for (candidate, place) in [(left, before), (right, token)] {
            if candidate == word {
                return fault(
                    place.at.clone(),
                    format!("`{word}` is no operator of the rule language"),
                    format!("write {sign}"),
                );
            }
        }
    }
    let at = before.at.start..token.at.end;
    let unit = (before.kind == Kind::Number && token.kind == Kind::Name)
        .then(|| quantity::unit_by_identifier(right))
        .flatten();
    if let Some(unit) = unit {
        let mend = if unit.dimension.is_point() { format!("{right}({left})") } else { format!("{left} * {right}") };
        return fault(at, "an operator is missing between a number and its unit", format!("write {mend}"));
    }
    fault(
        at,
        format!("an operator is missing between `{left}` and `{right}`"),
        "join them with an operator such as * or &&",
    )
}
