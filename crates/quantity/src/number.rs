//! Numerals: whole numbers, decimals, powers of ten, fractions ("3/8", "1 1/2", "½"), each with its place in the text.

use std::ops::Range;

use crate::Misread;
use crate::spelling::{is_minus, is_space};

/// A place in a text, up to an end.
#[derive(Clone, Copy)]
pub(crate) struct Cursor<'a> {
    pub text: &'a str,
    pub at: usize,
    pub end: usize,
}

impl<'a> Cursor<'a> {
    pub fn new(text: &'a str, within: Range<usize>) -> Self {
        Self { text, at: within.start, end: within.end }
    }

    pub fn rest(&self) -> &'a str {
        self.text.get(self.at..self.end).unwrap_or_default()
    }

    pub fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub fn second(&self) -> Option<char> {
        self.rest().chars().nth(1)
    }

    pub fn bump(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }

    pub fn take_while(&mut self, wanted: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let length = rest.find(|character| !wanted(character)).unwrap_or(rest.len());
        self.at += length;
        rest.get(..length).unwrap_or_default()
    }

    pub fn skip_spaces(&mut self) {
        self.take_while(is_space);
    }

    pub fn digits(&mut self) -> &'a str {
        self.take_while(|character| character.is_ascii_digit())
    }

    /// True where a number starts here, with its sign if it has one.
    pub fn starts_number(&self) -> bool {
        let mut ahead = *self;
        if ahead.peek().is_some_and(|character| is_minus(character) || character == '+') {
            ahead.bump();
            ahead.skip_spaces();
        }
        match ahead.peek() {
            Some('.') => ahead.second().is_some_and(|character| character.is_ascii_digit()),
            Some(character) => character.is_ascii_digit() || vulgar_fraction(character).is_some(),
            None => false,
        }
    }
}

/// A number as written.
#[derive(Clone, Debug)]
pub(crate) struct Number {
    /// Without its sign; finite.
    pub magnitude: f64,
    pub negative: bool,
    /// Written without fraction, point or power of ten.
    pub whole: bool,
    pub span: Range<usize>,
}

impl Number {
    pub fn value(&self) -> f64 {
        if self.negative { -self.magnitude } else { self.magnitude }
    }
}

fn vulgar_fraction(character: char) -> Option<f64> {
    Some(match character {
        '½' => 1.0 / 2.0,
        '⅓' => 1.0 / 3.0,
        '⅔' => 2.0 / 3.0,
        '¼' => 1.0 / 4.0,
        '¾' => 3.0 / 4.0,
        '⅛' => 1.0 / 8.0,
        '⅜' => 3.0 / 8.0,
        '⅝' => 5.0 / 8.0,
        '⅞' => 7.0 / 8.0,
        _ => return None,
    })
}

fn is_fraction_bar(character: char) -> bool {
    matches!(character, '/' | '⁄' | '∕')
}

/// Reads the number at the cursor; the caller has seen that one starts there.
pub(crate) fn number(cursor: &mut Cursor<'_>) -> Result<Number, Misread> {
    let start = cursor.at;
    let negative = cursor.peek().is_some_and(is_minus);
    if negative || cursor.peek() == Some('+') {
        cursor.bump();
        cursor.skip_spaces();
    }
    let (magnitude, whole) = unsigned(cursor)?;
    let span = start..cursor.at;
    if !magnitude.is_finite() {
        return Err(Misread::new(span, "this number is too large to be a real quantity"));
    }
    refuse_range(cursor, start)?;
    Ok(Number { magnitude, negative, whole, span })
}

fn unsigned(cursor: &mut Cursor<'_>) -> Result<(f64, bool), Misread> {
    let start = cursor.at;
    if let Some(part) = cursor.peek().and_then(vulgar_fraction) {
        cursor.bump();
        return Ok((part, false));
    }
    refuse_separators(cursor)?;
    let whole = cursor.digits();
    if cursor.peek() == Some('.') && !cursor.rest().starts_with("..") {
        return decimal(cursor, start);
    }
    if exponent(cursor) {
        return parsed(cursor, start).map(|value| (value, false));
    }
    let value = whole.parse().unwrap_or(f64::INFINITY);
    if cursor.peek().is_some_and(is_fraction_bar) && cursor.second().is_some_and(|next| next.is_ascii_digit()) {
        return Ok((fraction(cursor, start, value)?, false));
    }
    Ok(match mixed_part(cursor)? {
        Some(part) => (value + part, false),
        None => (value, true),
    })
}

fn decimal(cursor: &mut Cursor<'_>, start: usize) -> Result<(f64, bool), Misread> {
    let point = cursor.at;
    cursor.bump();
    if cursor.digits().is_empty() {
        return Err(Misread::new(point..cursor.at, "a digit is missing after the decimal point").mend(cursor.text, ""));
    }
    exponent(cursor);
    if cursor.peek() == Some('.') && cursor.second().is_some_and(|next| next.is_ascii_digit()) {
        let second = cursor.at;
        return Err(Misread::new(second..second + 1, "a number has one decimal point at most"));
    }
    parsed(cursor, start).map(|value| (value, false))
}

/// Takes a power of ten, if one follows.
fn exponent(cursor: &mut Cursor<'_>) -> bool {
    let mut ahead = *cursor;
    if !matches!(ahead.peek(), Some('e' | 'E')) {
        return false;
    }
    ahead.bump();
    if matches!(ahead.peek(), Some('+' | '-')) {
        ahead.bump();
    }
    if ahead.digits().is_empty() {
        return false;
    }
    *cursor = ahead;
    true
}

fn parsed(cursor: &Cursor<'_>, start: usize) -> Result<f64, Misread> {
    let numeral = cursor.text.get(start..cursor.at).unwrap_or_default();
    let value: f64 = numeral.parse().unwrap_or(f64::INFINITY);
    let mantissa = numeral.split(['e', 'E']).next().unwrap_or_default();
    if value == 0.0 && mantissa.contains(|digit: char| digit.is_ascii_digit() && digit != '0') {
        return Err(Misread::new(start..cursor.at, "this number is too small to be a real quantity"));
    }
    Ok(value)
}

/// Reads "/8" after a numerator.
fn fraction(cursor: &mut Cursor<'_>, start: usize, numerator: f64) -> Result<f64, Misread> {
    cursor.bump();
    let denominator: f64 = cursor.digits().parse().unwrap_or(f64::INFINITY);
    let span = start..cursor.at;
    if denominator == 0.0 {
        return Err(Misread::new(span, "a fraction cannot have 0 below its bar")
            .why("only a conductor size is written so, such as \"2/0 AWG\""));
    }
    if numerator >= denominator || !denominator.is_finite() {
        return Err(Misread::new(
            span,
            "a fraction is written with the smaller number first, such as \"3/8\" or \"1 1/2\"",
        ));
    }
    Ok(numerator / denominator)
}

/// Reads the fraction of a mixed number: " 1/2", "-1/2", "½" after a whole number.
fn mixed_part(cursor: &mut Cursor<'_>) -> Result<Option<f64>, Misread> {
    let mut ahead = *cursor;
    ahead.skip_spaces();
    if let Some(part) = ahead.peek().and_then(vulgar_fraction) {
        ahead.bump();
        *cursor = ahead;
        return Ok(Some(part));
    }
    if ahead.peek() == Some('-') {
        ahead.bump();
    } else if ahead.at == cursor.at {
        return Ok(None);
    }
    let start = ahead.at;
    let digits = ahead.digits();
    let has_bar = ahead.peek().is_some_and(is_fraction_bar) && ahead.second().is_some_and(|next| next.is_ascii_digit());
    if digits.is_empty() || !has_bar {
        return Ok(None);
    }
    let numerator = digits.parse().unwrap_or(f64::INFINITY);
    let part = fraction(&mut ahead, start, numerator)?;
    *cursor = ahead;
    Ok(Some(part))
}

/// Refuses "10-12", "10 – 12", "10..12" and "10 ± 2": a specification holds one number at a time.
fn refuse_range(cursor: &Cursor<'_>, start: usize) -> Result<(), Misread> {
    let mut ahead = *cursor;
    ahead.skip_spaces();
    let rest = ahead.rest();
    if rest.starts_with('±') || rest.starts_with("+/-") || rest.starts_with("+-") {
        return Err(Misread::new(
            ahead.at..ahead.end,
            "a tolerance does not belong into the quantity; write the number alone",
        ));
    }
    let joined = ahead.take_while(|character| matches!(character, '-' | '\u{2212}' | '–' | '—' | '…' | '.'));
    ahead.skip_spaces();
    if joined.is_empty() || !ahead.peek().is_some_and(|next| next.is_ascii_digit()) {
        return Ok(());
    }
    ahead.digits();
    Err(Misread::new(start..ahead.at, "this reads like a range; write one number"))
}

/// Refuses commas, points, spaces and apostrophes that separate thousands, and decimal commas.
fn refuse_separators(cursor: &Cursor<'_>) -> Result<(), Misread> {
    let mut ahead = *cursor;
    let start = ahead.at;
    let first = ahead.digits();
    let mut groups: Vec<(char, &str)> = Vec::new();
    while let Some(separator) = ahead.peek() {
        let mut next = ahead;
        next.bump();
        let digits = next.digits();
        let spaced = is_space(separator) || matches!(separator, '\'' | '’' | '_');
        // "5 100/128 in" is a mixed number and no grouping.
        let closed = !next.peek().is_some_and(is_fraction_bar);
        let joins = if spaced {
            digits.len() == 3 && closed && (1..=3).contains(&first.len())
        } else {
            matches!(separator, ',' | '.') && !digits.is_empty()
        };
        if !joins {
            break;
        }
        groups.push((separator, digits));
        ahead = next;
    }
    let Some((separator, digits)) = groups.first().copied() else {
        return Ok(());
    };
    if groups.len() == 1 && separator == '.' {
        return Ok(());
    }
    let at = start..ahead.at;
    let only_first = groups.iter().all(|(other, _)| *other == separator);
    let threes = groups.iter().rev().skip(1).all(|(other, group)| *other == separator && group.len() == 3);
    let (last_separator, last) = groups.last().copied().unwrap_or((separator, digits));
    let joined = || groups.iter().rev().skip(1).rev().fold(first.to_owned(), |sum, (_, group)| sum + group);
    let grouped = (1..=3).contains(&first.len()) && !first.starts_with('0') && threes;
    const PLAIN: &str = "write the digits of a number together, with a point before decimals";
    const TWO_MEANINGS: &str =
        "a comma means thousands to one reader and decimals to another, so here it only separates coordinates";

    if groups.len() == 1 && separator == ',' {
        let decimal = format!("{first}.{digits}");
        if digits.len() == 3 && grouped {
            return Err(Misread::new(
                at,
                format!("\"{first},{digits}\" can mean {first}{digits} or {decimal}; write the one that is meant, without a comma"),
            )
            .why(TWO_MEANINGS));
        }
        let leading = if first.is_empty() { "0" } else { "" };
        return Err(Misread::new(at, "the decimal sign is a point, not a comma")
            .why(TWO_MEANINGS)
            .mend(cursor.text, &format!("{leading}{decimal}")));
    }
    if only_first && last.len() == 3 && grouped {
        return Err(Misread::new(at, format!("no separator between thousands: {PLAIN}"))
            .mend(cursor.text, &format!("{}{last}", joined())));
    }
    if grouped && groups.len() > 1 && matches!(last_separator, ',' | '.') && last_separator != separator {
        return Err(Misread::new(at, format!("no separator between thousands: {PLAIN}"))
            .mend(cursor.text, &format!("{}.{last}", joined())));
    }
    Err(Misread::new(at, format!("this number cannot be read: {PLAIN}")))
}
