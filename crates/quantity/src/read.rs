//! Reading a quantity: numbers with units, one after the other, brought to the dimension that is expected.

use std::ops::Range;

use crate::misread::settle;
use crate::number::{Cursor, Number, number};
use crate::refusal;
use crate::spelling::{canonical, is_minus, is_prime, is_space};
use crate::unit::units_spelled;
use crate::{Currency, Dimension, Misread, Quantity, Unit};

/// The longest text that is looked at, in bytes; no quantity needs as many.
const LONGEST_TEXT: usize = 200;
/// Rounding of a temperature at absolute zero, kelvin: −273.15 °C and −459.67 °F both read as 0 K.
const ABSOLUTE_ZERO_ROUNDING: f64 = 1e-9;

/// Units that are written one after the other, with how many of the second make one of the first.
const PAIRS: [(&str, &str, f64); 5] =
    [("ft", "inch", 12.0), ("lb", "oz", 16.0), ("d", "h", 24.0), ("h", "min", 60.0), ("min", "s", 60.0)];

/// Reads a quantity of the expected dimension.
///
/// # Errors
/// A `Misread` with the place and the reason; impossible numbers and temperatures below absolute zero are refused too.
pub fn read(text: &str, expected: Dimension) -> Result<Quantity, Misread> {
    let once = |text: &str| read_once(text, expected);
    once(text).map_err(|misread| settle(misread, |mended| once(mended).err()))
}

/// Reads a quantity that cannot be negative, such as the length of a run or a rating.
///
/// # Errors
/// Those of `read`, and a negative value.
pub fn read_non_negative(text: &str, expected: Dimension) -> Result<Quantity, Misread> {
    let once = |text: &str| read_once(text, expected).and_then(|quantity| refuse_negative(text, quantity));
    once(text).map_err(|misread| settle(misread, |mended| once(mended).err()))
}

fn refuse_negative(text: &str, quantity: Quantity) -> Result<Quantity, Misread> {
    if quantity.value >= 0.0 {
        return Ok(quantity);
    }
    let signs = text.char_indices().find(|(_, character)| is_minus(*character));
    let at = signs.map_or(0..text.len(), |(at, sign)| at..at + sign.len_utf8());
    let name = quantity.dimension.name_with_article();
    Err(Misread::new(at, format!("{name} cannot be negative here")))
}

fn read_once(text: &str, expected: Dimension) -> Result<Quantity, Misread> {
    let within = content(text, || format!("write {}, {}", expected.name_with_article(), expected.such_as()))?;
    let terms = terms(text, within.clone(), expected)?;
    let (value, currency) = combine(text, &terms, expected)?;
    if expected.absolute && value < -ABSOLUTE_ZERO_ROUNDING {
        return Err(Misread::new(within, "this is below absolute zero, -273.15 degC (-459.67 degF)"));
    }
    Ok(Quantity {
        // Adding zero turns −0 into 0.
        value: value + 0.0,
        dimension: expected,
        currency,
    })
}

/// The bytes of a text without the spaces around; an error where nothing, or far too much, is written.
pub(crate) fn content(text: &str, hint: impl Fn() -> String) -> Result<Range<usize>, Misread> {
    let trimmed = text.trim_matches(is_space);
    if trimmed.is_empty() {
        return Err(Misread::new(0..text.len(), format!("nothing is written here; {}", hint())));
    }
    if trimmed.len() > LONGEST_TEXT {
        return Err(Misread::new(0..text.len(), format!("this is too long to be a quantity; {}", hint())));
    }
    let start = text.len() - text.trim_start_matches(is_space).len();
    Ok(start..start + trimmed.len())
}

/// A number and the place of its unit; the place is empty where no unit follows.
pub(crate) struct Term {
    pub number: Number,
    pub unit: Range<usize>,
}

/// What one of a written unit is, in coherent SI units.
#[derive(Clone, Copy)]
pub(crate) struct Measure {
    pub dimension: Dimension,
    pub factor: f64,
    pub offset: f64,
    pub currency: Option<Currency>,
    pub unit: Option<&'static Unit>,
}

/// Splits a text into numbers with units: "8 ft 6 in" into two.
pub(crate) fn terms(text: &str, within: Range<usize>, expected: Dimension) -> Result<Vec<Term>, Misread> {
    let mut cursor = Cursor::new(text, within);
    let mut terms: Vec<Term> = Vec::new();
    loop {
        cursor.skip_spaces();
        if cursor.peek().is_none() {
            return Ok(terms);
        }
        if !cursor.starts_number() {
            let rest = cursor.at..cursor.end;
            return Err(match terms.last() {
                None => refusal::no_number(text, rest, expected),
                Some(_) => {
                    Misread::new(rest, "this text does not belong to the quantity; write one number with its unit")
                }
            });
        }
        let number = number(&mut cursor)?;
        let after_number = cursor.at;
        cursor.skip_spaces();
        let unit = unit_place(&mut cursor);
        let unit = if unit.is_empty() { after_number..after_number } else { unit };
        terms.push(Term { number, unit });
    }
}

/// Takes the text of a unit: up to the next number, comma or end.
fn unit_place(cursor: &mut Cursor<'_>) -> Range<usize> {
    let start = cursor.at;
    if let Some(prime) = cursor.peek().filter(|character| is_prime(*character)) {
        cursor.bump();
        if prime != '"' && cursor.peek() == Some(prime) {
            cursor.bump();
        }
        let end = cursor.at;
        // In 5'-6" the hyphen joins; it is no minus.
        if cursor.peek() == Some('-') && cursor.second().is_some_and(|next| next.is_ascii_digit()) {
            cursor.bump();
        }
        return start..end;
    }
    if cursor.starts_number() {
        return start..start;
    }
    let mut end = start;
    while let Some(character) = cursor.peek() {
        if matches!(character, ',' | ';') {
            break;
        }
        if is_space(character) {
            let mut ahead = *cursor;
            ahead.skip_spaces();
            if ahead.starts_number() {
                break;
            }
        } else {
            end = cursor.at + character.len_utf8();
        }
        cursor.bump();
    }
    start..end
}

/// The value of the terms in coherent SI units.
pub(crate) fn combine(text: &str, terms: &[Term], expected: Dimension) -> Result<(f64, Option<Currency>), Misread> {
    let Some((first, others)) = terms.split_first() else {
        return Err(Misread::new(0..text.len(), "nothing is written here"));
    };
    let mut measure = measure_of(text, first, expected)?;
    let mut value = valued(first, first.number.value(), measure)?;
    let mut before = first;
    for term in others {
        let pair = measure.unit.and_then(|unit| PAIRS.iter().find(|(larger, _, _)| *larger == unit.identifier));
        if term.unit.is_empty() {
            return Err(unitless_second(text, term, pair.map(|(_, smaller, _)| *smaller)));
        }
        let next = measure_at(text, term.unit.clone(), expected)?;
        let Some((_, _, ratio)) =
            pair.filter(|(_, smaller, _)| next.unit.is_some_and(|unit| unit.identifier == *smaller))
        else {
            return Err(Misread::new(
                term.number.span.start..term.unit.end,
                "this is a second quantity; write one, in one unit (only such as \"8 ft 6 in\" and \"1 h 30 min\" go together)",
            ));
        };
        if term.number.negative {
            return Err(Misread::new(term.number.span.clone(), "the sign belongs before the first number only"));
        }
        if !before.number.whole {
            return Err(Misread::new(
                before.number.span.clone(),
                "the larger of two units is a whole number, such as \"8 ft 6 in\"",
            ));
        }
        if term.number.magnitude >= *ratio {
            return Err(Misread::new(
                term.number.span.clone(),
                format!("this must be below {ratio}, because {ratio} make one of the larger unit"),
            ));
        }
        let part = if first.number.negative { -term.number.magnitude } else { term.number.magnitude };
        value += valued(term, part, next)?;
        measure = next;
        before = term;
    }
    Ok((value, measure.currency))
}

fn unitless_second(text: &str, term: &Term, smaller: Option<&str>) -> Misread {
    let misread = Misread::new(term.number.span.clone(), "this second number has no unit");
    match smaller.filter(|smaller| *smaller == "inch") {
        Some(_) => misread.mend_at(text, term.unit.clone(), " in"),
        None => misread,
    }
}

/// A number of a measure in coherent SI units, refused where it leaves the numbers that can be held.
pub(crate) fn valued(term: &Term, number: f64, measure: Measure) -> Result<f64, Misread> {
    let value = number * measure.factor + measure.offset;
    if !value.is_finite() {
        return Err(Misread::new(term.number.span.clone(), "this number is too large to be a real quantity"));
    }
    if value == 0.0 && number != 0.0 && measure.offset == 0.0 {
        return Err(Misread::new(term.number.span.clone(), "this number is too small to be a real quantity"));
    }
    Ok(value)
}

/// The measure of a term, of the expected dimension.
fn measure_of(text: &str, term: &Term, expected: Dimension) -> Result<Measure, Misread> {
    if term.unit.is_empty() {
        // A share between 0 and 1 can only be meant as it stands; "92" could be 92 or 92 %.
        if expected == Dimension::RATIO && term.number.magnitude <= 1.0 {
            return Ok(Measure { dimension: expected, factor: 1.0, offset: 0.0, currency: None, unit: None });
        }
        return Err(refusal::no_unit(text, term, expected));
    }
    let measure = measure_at(text, term.unit.clone(), expected)?;
    if measure.dimension != expected {
        return Err(refusal::wrong_dimension(text, term, measure, expected));
    }
    Ok(measure)
}

/// The measure of the unit at a place in the text. Where a symbol has two meanings, the expected one is taken.
pub(crate) fn measure_at(text: &str, place: Range<usize>, expected: Dimension) -> Result<Measure, Misread> {
    let written = text.get(place.clone()).unwrap_or_default();
    let word = canonical(written);
    let meanings = units_spelled(&word);
    if let Some(unit) = meanings.iter().find(|unit| unit.dimension == expected).or(meanings.first()) {
        return Ok(Measure {
            dimension: unit.dimension,
            factor: unit.factor,
            offset: unit.offset,
            currency: None,
            unit: Some(unit),
        });
    }
    if let Some(misread) = refusal::certain_slip(text, place.clone(), &word, expected) {
        return Err(misread);
    }
    match compose(text, place.clone()) {
        Ok(measure) => Ok(measure),
        Err(Some(atom)) => Err(refusal::unknown_unit(text, atom, expected, true)),
        Err(None) => Err(refusal::unknown_unit(text, place, expected, false)),
    }
}

fn is_product(character: char) -> bool {
    matches!(character, '·' | '⋅' | '∙' | '•' | '*')
}

fn is_slash(character: char) -> bool {
    matches!(character, '/' | '∕' | '⁄')
}

/// Multiplies and divides known units: "min/d", "kWh/m2/d", "kg·m/s3". All that follows a slash divides. The error is the
/// place of the part that is not known, or None where the text is no such product.
fn compose(text: &str, place: Range<usize>) -> Result<Measure, Option<Range<usize>>> {
    let written = text.get(place.clone()).unwrap_or_default();
    let mut measure = Measure { dimension: Dimension::RATIO, factor: 1.0, offset: 0.0, currency: None, unit: None };
    let mut divides = false;
    let mut start = place.start;
    let joints = written
        .char_indices()
        .filter(|(_, character)| is_product(*character) || is_slash(*character))
        .map(|(at, character)| (place.start + at, Some(character)));
    let composed = written.contains(|character| is_product(character) || is_slash(character));
    for (end, joint) in joints.chain([(place.end, None)]) {
        let atom = start..end;
        let leads = atom.is_empty() && start == place.start && joint.is_some_and(is_slash);
        if !leads {
            let word = canonical(text.get(atom.clone()).unwrap_or_default());
            let Some((dimension, factor, currency)) = atom_measure(&word) else {
                return Err((composed && !word.is_empty()).then(|| trimmed(text, atom)));
            };
            measure.dimension =
                if divides { measure.dimension.over(dimension) } else { measure.dimension.times(dimension) };
            measure.factor = if divides { measure.factor / factor } else { measure.factor * factor };
            measure.currency = measure.currency.or(currency);
        }
        divides |= joint.is_some_and(is_slash);
        start = end + joint.map_or(0, char::len_utf8);
    }
    Ok(measure)
}

fn trimmed(text: &str, place: Range<usize>) -> Range<usize> {
    let written = text.get(place.clone()).unwrap_or_default();
    let unwanted = |character| is_space(character) || matches!(character, '(' | ')');
    let start = place.end - written.trim_start_matches(unwanted).len();
    start..start.max(place.start + written.trim_end_matches(unwanted).len())
}

/// One factor of a composed unit; a degree is a difference here.
fn atom_measure(word: &str) -> Option<(Dimension, f64, Option<Currency>)> {
    if let Some(unit) = units_spelled(word).first() {
        return Some((unit.dimension.as_difference(), unit.factor, None));
    }
    if let Some(currency) = Currency::from_code(word) {
        return Some((Dimension::MONEY, 1.0, Some(currency)));
    }
    let (exponent_at, digit) = word.char_indices().next_back()?;
    let exponent = digit.to_digit(10).filter(|exponent| (2..=9).contains(exponent))?;
    let unit = units_spelled(word.get(..exponent_at)?).first()?;
    let power = unit.dimension.power(i8::try_from(exponent).ok()?);
    Some((power, unit.factor.powi(i32::try_from(exponent).ok()?), None))
}
