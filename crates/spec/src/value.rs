//! The value of a given fact, and how it is read from what stands in the text.

#![expect(clippy::result_large_err, reason = "a slip is rare and leaves at once for the list of slips")]

use crate::part::Span;
use crate::slip::Slip;
use crate::text::{Entry, Scalar};
use quantity::{Cores, Dimension, Misread, Quantity, WireSize};
use std::ops::Range;
use std::sync::Arc;
use vocabulary::{Absent, FactKind, FactSpec};

/// The word that says of any property that its value is not known.
pub const UNKNOWN: &str = "unknown";

/// The value of a given fact.
#[derive(Clone, PartialEq, Debug)]
pub enum Value {
    /// A number with a dimension; counts are ratios.
    Quantity(Quantity),
    /// A conductor size.
    WireSize(WireSize),
    /// A count of conductors times a size.
    Cores(Cores),
    /// Three coordinates, m.
    Point([f64; 3]),
    /// Length, width and height, m.
    Box([f64; 3]),
    /// Width and height, m.
    Opening([f64; 2]),
    /// Yes or no.
    Flag(bool),
    /// The index of a word in the fact's list of words.
    Choice(u16),
    /// A bit for each word of the fact's list of words.
    ChoiceSet(u64),
    /// A text.
    Text(Arc<str>),
    /// A day.
    Date(jiff::civil::Date),
    /// The name of another part.
    Name(Arc<str>),
    /// The names of several other parts, each with its place.
    Names(Vec<(Arc<str>, Span)>),
    /// The builder wrote `unknown`.
    Unknown,
}

impl Value {
    /// A plain number: a count or a share.
    pub fn number(value: f64) -> Self {
        Self::Quantity(Quantity { value, dimension: Dimension::RATIO, currency: None })
    }
}

/// Reads the value that stands in `entry` as the fact asks.
///
/// # Errors
/// A slip at the narrowest place of the value.
pub fn read(fact: &FactSpec, entry: &Entry, at: &Span) -> Result<Value, Slip> {
    if let Scalar::Text(text) = &entry.value {
        if &**text == UNKNOWN && !entry.quoted {
            return Ok(Value::Unknown);
        }
        return from_text(fact, text, entry, at);
    }
    match (&entry.value, fact.kind) {
        (Scalar::Whole(number), FactKind::Count) => count(fact, *number, at),
        (Scalar::Flag(flag), FactKind::Flag) => {
            let word = if *flag { "yes" } else { "no" };
            Err(Slip::new("text/not-a-choice", at.clone(), format!("`{}` says yes or no", fact.name))
                .help(format!("write {}={word}", fact.name))
                .mend(format!("write {word}"), at.clone(), word))
        }
        (
            Scalar::Whole(_) | Scalar::Real(_),
            FactKind::Text | FactKind::Part(_) | FactKind::Parts(_) | FactKind::Choice(_),
        ) => from_text(fact, &entry.written, entry, at),
        (Scalar::Null, _) => {
            Err(Slip::new("text/value-not-understood", at.clone(), format!("`{}` has no value", fact.name))
                .help(format!("leave it out, or write {}={UNKNOWN}", fact.name))
                .mend("say that it is not known", at.clone(), UNKNOWN))
        }
        _ => from_text(fact, &entry.written, entry, at),
    }
}

/// Reads an assumed or implied value of the vocabulary itself; nothing when the vocabulary is at fault, which a test of
/// this crate rules out.
pub fn implied_value(fact: &FactSpec) -> Option<Value> {
    let text = match fact.absent {
        Absent::Means(text) => text,
        Absent::Assume { value, .. } => value,
        Absent::Required | Absent::Unknown => return None,
    };
    let at = Span { file: 0, bytes: 0..0 };
    let entry = Entry {
        key: None,
        annotation: None,
        value: Scalar::Text(text.into()),
        value_at: 0..0,
        at: 0..0,
        quoted: true,
        written: text.into(),
    };
    from_text(fact, text, &entry, &at).ok()
}

fn from_text(fact: &FactSpec, text: &str, entry: &Entry, at: &Span) -> Result<Value, Slip> {
    let misread = |fault: Misread| from_misread(fact, fault, text, entry, at);
    match fact.kind {
        FactKind::Quantity(dimension) if fact.signed || dimension.absolute => {
            quantity::read(text, dimension).map(Value::Quantity).map_err(misread)
        }
        FactKind::Quantity(dimension) => {
            let quantity = quantity::read_non_negative(text, dimension).map_err(misread)?;
            if fact.above_zero && quantity.value == 0.0 {
                Err(zero(fact, text, at))
            } else if fact.at_most_whole && quantity.value > 1.0 {
                Err(above_whole(fact, text, at))
            } else {
                Ok(Value::Quantity(quantity))
            }
        }
        FactKind::WireSize => quantity::read_wire_size(text).map(Value::WireSize).map_err(misread),
        FactKind::Cores => quantity::read_cores(text).map(Value::Cores).map_err(misread),
        FactKind::Point => quantity::read_point(text).map(Value::Point).map_err(misread),
        FactKind::Box => quantity::read_box(text).map(Value::Box).map_err(misread),
        FactKind::Opening => quantity::read_opening(text).map(Value::Opening).map_err(misread),
        FactKind::Count => match text.trim().parse::<i128>() {
            Ok(number) => count(fact, number, at),
            Err(_) => Err(not_understood(fact, at, format!("`{text}` is not a count"))
                .help(format!("write a whole number: {}={}", fact.name, fact.example))),
        },
        FactKind::Flag => match text {
            "yes" => Ok(Value::Flag(true)),
            "no" => Ok(Value::Flag(false)),
            _ => Err(not_a_choice(fact, text, &["yes", "no"], at)),
        },
        FactKind::Choice(words) => match words.iter().position(|word| *word == text) {
            Some(index) => Ok(Value::Choice(u16::try_from(index).unwrap_or(u16::MAX))),
            None => Err(not_a_choice(fact, text, words, at)),
        },
        FactKind::ChoiceSet(words) => {
            let mut set = 0_u64;
            for word in text.split([',', ' ']).filter(|word| !word.is_empty()) {
                match words.iter().position(|known| *known == word) {
                    Some(index) => set |= 1 << index,
                    None => return Err(not_in_set(fact, word, words, text, entry, at)),
                }
            }
            if set == 0 {
                return Err(not_understood(fact, at, "no word is given".to_owned())
                    .help(format!("one or more of: {}", words.join(", "))));
            }
            Ok(Value::ChoiceSet(set))
        }
        FactKind::Text => Ok(Value::Text(text.into())),
        FactKind::Date => text.parse().map(Value::Date).map_err(|_| {
            not_understood(fact, at, format!("`{text}` is not a day of the calendar"))
                .help("write year, month and day: \"2026-03-14\"")
        }),
        FactKind::Part(_) => Ok(Value::Name(text.into())),
        FactKind::Parts(_) => Ok(Value::Names(vec![(text.into(), at.clone())])),
    }
}

fn count(fact: &FactSpec, number: i128, at: &Span) -> Result<Value, Slip> {
    match u32::try_from(number) {
        Ok(number) => Ok(Value::number(f64::from(number))),
        Err(_) => Err(not_understood(fact, at, format!("{number} is not a count of anything"))
            .help(format!("write a whole number from 0: {}={}", fact.name, fact.example))),
    }
}

/// A zero where there is none in any vehicle.
fn zero(fact: &FactSpec, text: &str, at: &Span) -> Slip {
    Slip::new("text/zero-quantity", at.clone(), format!("`{}` cannot be {text}", fact.name)).help(format!(
        "write what it is, for example {0}=\"{1}\"; {0}={UNKNOWN} while it is not known",
        fact.name, fact.example
    ))
}

/// More than the whole of something.
fn above_whole(fact: &FactSpec, text: &str, at: &Span) -> Slip {
    Slip::new("text/more-than-whole", at.clone(), format!("`{}` cannot be {text}", fact.name)).help(format!(
        "it is a part of a whole, 100 % at most; perhaps a digit is too many: {0}=\"{1}\"",
        fact.name, fact.example
    ))
}

fn not_understood(fact: &FactSpec, at: &Span, message: String) -> Slip {
    Slip::new("text/value-not-understood", at.clone(), format!("{}: {message}", fact.name))
}

fn not_a_choice(fact: &FactSpec, text: &str, words: &[&str], at: &Span) -> Slip {
    let list = words.join(", ");
    let slip = Slip::new("text/not-a-choice", at.clone(), format!("`{text}` is no word for `{}`", fact.name))
        .help(format!("one of: {list}; or {UNKNOWN}"));
    let lower = text.to_lowercase();
    let near = words
        .iter()
        .copied()
        .find(|word| word.to_lowercase() == lower)
        .or_else(|| vocabulary::nearest(text, words.iter().copied()));
    match near {
        Some(near) => slip.mend(format!("write {near}"), at.clone(), near),
        None => slip,
    }
}

/// A word of a set that is none of its words. Its mend replaces this word only, and leaves the others.
fn not_in_set(fact: &FactSpec, word: &str, words: &[&str], text: &str, entry: &Entry, at: &Span) -> Slip {
    // `word` is a piece of `text`, so its place is the distance between them.
    let start = word.as_ptr() as usize - text.as_ptr() as usize;
    match within(text, entry, at, &(start..start + word.len())) {
        Some(narrow) => not_a_choice(fact, word, words, &narrow),
        None => Slip { mend: None, ..not_a_choice(fact, word, words, at) },
    }
}

/// The place of a piece of a value, when the value stands in the file as written.
fn within(text: &str, entry: &Entry, at: &Span, piece: &Range<usize>) -> Option<Span> {
    let quote = usize::from(entry.quoted);
    let plain =
        entry.written.len() == text.len() + 2 * quote && entry.written.get(quote..quote + text.len()) == Some(text);
    if !plain || piece.is_empty() {
        return None;
    }
    let shift = |offset: usize| at.bytes.start + u32::try_from(quote + offset).unwrap_or(0);
    Some(Span { file: at.file, bytes: shift(piece.start)..shift(piece.end) })
}

/// Brings a misread value into the file: the span inside the value when the text stands there as written.
fn from_misread(fact: &FactSpec, fault: Misread, text: &str, entry: &Entry, at: &Span) -> Slip {
    let narrow = within(text, entry, at, &fault.at).unwrap_or_else(|| at.clone());
    let mut slip = Slip::new("text/value-not-understood", narrow, format!("{}: {}", fact.name, fault.message));
    let mut help = fault.why.unwrap_or_default();
    if let Some(instead) = fault.instead {
        if !help.is_empty() {
            help.push_str("; ");
        }
        help.push_str(&format!("write \"{instead}\""));
        slip = slip.mend(format!("write \"{instead}\""), at.clone(), format!("\"{instead}\""));
    } else if !fact.example.is_empty() {
        if !help.is_empty() {
            help.push_str("; ");
        }
        help.push_str(&format!("for example {}=\"{}\"", fact.name, fact.example));
    }
    slip.help = Some(help);
    slip
}
