//! The words of the refusals that `read` gives: what is wrong with a unit, and the mend where one is certain.

use std::ops::Range;

use crate::number::Cursor;
use crate::read::{Measure, Term};
use crate::spelling::{canonical, distance, is_minus, is_space};
use crate::unit::{units_but_for_case, units_slipped, units_spelled};
use crate::{Currency, Dimension, Misread, Unit, units};

/// The most characters of the builder's text that a message repeats.
const LONGEST_ECHO: usize = 40;

/// Words that name more than one unit: the word in small letters, the unit to write for each meaning, and why.
const AMBIGUOUS: &[(&[&str], [&str; 2], &str)] = &[
    (&["gal", "gallon", "gallons", "gals"], ["galUS", "galUK"], "a US gallon is 3.785 l, an imperial gallon 4.546 l"),
    (&["gpm", "gal/min"], ["galUS/min", "galUK/min"], "a US gallon is 3.785 l, an imperial gallon 4.546 l"),
    (&["gph", "gal/h", "gal/hr"], ["galUS/h", "galUK/h"], "a US gallon is 3.785 l, an imperial gallon 4.546 l"),
    (&["fl oz", "floz"], ["fl ozUS", "ml"], "a US fluid ounce is 29.57 ml, an imperial one 28.41 ml"),
    (&["ton", "tons"], ["t", "lb"], "a ton can be 1000 kg, 2000 lb or 2240 lb"),
    (&["$"], ["USD", "AUD"], "several currencies are written with this sign"),
    (&["£"], ["GBP", "EGP"], "several currencies are written with this sign"),
];

/// The builder's own text for a message: no control characters, not too long, in quotation marks.
pub(crate) fn quoted(text: &str) -> String {
    let clean: String = text.chars().filter(|character| !character.is_control()).collect();
    let clean = clean.trim_matches(is_space);
    match clean.char_indices().nth(LONGEST_ECHO) {
        Some((end, _)) => format!("\"{}…\"", clean.get(..end).unwrap_or_default()),
        None => format!("\"{clean}\""),
    }
}

fn wanted(expected: Dimension) -> String {
    format!("{} is written {}", expected.name_with_article(), expected.such_as())
}

/// Refuses a text that does not begin with a number.
pub(crate) fn no_number(text: &str, place: Range<usize>, expected: Dimension) -> Misread {
    let rest = text.get(place.clone()).unwrap_or_default();
    let mut cursor = Cursor::new(text, place.clone());
    let word = cursor.take_while(|character| {
        !is_space(character) && !character.is_ascii_digit() && !is_minus(character) && character != '.'
    });
    let head = place.start..place.start + word.len();
    cursor.skip_spaces();
    let number_follows = cursor.starts_number();
    let behind = cursor.rest();
    let lower = rest.to_lowercase();
    let first_word = lower.split(is_space).next().unwrap_or_default();
    if first_word == "nan" || ["inf", "-inf", "+inf", "∞"].iter().any(|infinite| lower.starts_with(infinite)) {
        return Misread::new(place, format!("{} is no number", quoted(rest)));
    }
    if let Some(decimals) =
        rest.strip_prefix(',').filter(|after| after.starts_with(|digit: char| digit.is_ascii_digit()))
    {
        let digits = decimals.len() - decimals.trim_start_matches(|digit: char| digit.is_ascii_digit()).len();
        let at = place.start..place.start + 1 + digits;
        return Misread::new(at, "the decimal sign is a point, not a comma").mend_at(
            text,
            place.start..place.start + 1,
            "0.",
        );
    }
    if rest.starts_with('–') && number_follows {
        return Misread::new(head, "this dash is no minus sign").mend(text, "-");
    }
    if number_follows
        && ["~", "≈", "<", ">", "<=", ">=", "≤", "≥", "=", "ca.", "ca", "approx.", "about", "±", "circa"]
            .contains(&word)
    {
        return Misread::new(
            head,
            format!("{} does not belong into the quantity; write the number that is meant", quoted(word)),
        );
    }
    let in_front = canonical(word);
    if number_follows && Currency::from_code(&in_front.to_uppercase()).is_some() {
        return Misread::new(head, "the currency is written behind the number").write(format!(
            "{} {}",
            behind.trim_end_matches(is_space),
            in_front.to_uppercase()
        ));
    }
    if number_follows && matches!(word, "$" | "£") {
        return ambiguous(head, word).unwrap_or_else(|| Misread::new(place, "a number is missing"));
    }
    if number_follows && !units_spelled(&in_front).is_empty() {
        return Misread::new(head, "the unit is written behind the number")
            .write(format!("{} {in_front}", behind.trim_end_matches(is_space)));
    }
    Misread::new(place, format!("{} does not begin with a number; {}", quoted(rest), wanted(expected)))
}

/// Refuses a bare number.
pub(crate) fn no_unit(text: &str, term: &Term, expected: Dimension) -> Misread {
    let span = term.number.span.clone();
    if expected == Dimension::RATIO {
        return Misread::new(span, "a share above 1 needs its unit, such as \"92 %\" or \"4 h/d\"")
            .why("without one, 92 could mean 92 % or 92 times");
    }
    let misread = Misread::new(span, format!("the unit is missing: {}", wanted(expected)))
        .why("a number alone can be read in several units");
    // Only these are never written in another unit in a vehicle; a current may be mA, a length mm or in.
    let certain = match expected {
        Dimension::VOLTAGE => "V",
        Dimension::FREQUENCY => "Hz",
        Dimension::ANGLE => "deg",
        _ => return misread,
    };
    misread.mend_at(text, term.unit.clone(), &format!(" {certain}"))
}

/// Refuses a quantity of another dimension than the expected one.
pub(crate) fn wrong_dimension(text: &str, term: &Term, measure: Measure, expected: Dimension) -> Misread {
    let place = term.unit.clone();
    let whole = text.get(term.number.span.start..place.end).unwrap_or_default();
    let says = quoted(whole);
    let misread = Misread::new(
        place,
        format!(
            "this says {}, {}; wanted here is {}, {}",
            says.trim_matches('"'),
            measure.dimension.name_with_article(),
            expected.name_with_article(),
            expected.such_as(),
        ),
    );
    let identifier = measure.unit.map_or("", |unit| unit.identifier);
    match (measure.dimension, expected) {
        (Dimension::TEMPERATURE, Dimension::TEMPERATURE_DIFFERENCE) => {
            let difference = if identifier == "degF" { "degF difference" } else { "K" };
            misread.why("a reading of a thermometer and a difference of two readings convert differently").mend_at(
                text,
                term.unit.clone(),
                &spaced(text, &term.unit, difference),
            )
        }
        (Dimension::TEMPERATURE_DIFFERENCE, Dimension::TEMPERATURE) => {
            misread.why("K is written for differences; a reading of a thermometer is written in degC or degF")
        }
        (Dimension::ENERGY, Dimension::POWER) if identifier == "Btu" => misread
            .why("Btu is an amount of heat; the power of a heater is so much heat an hour")
            .mend_at(text, term.unit.clone(), &spaced(text, &term.unit, "Btu/h")),
        (Dimension::ENERGY, Dimension::POWER) => {
            misread.why("energy is power times time: a kWh is an amount, a kW a rate")
        }
        (Dimension::POWER, Dimension::ENERGY) => {
            misread.why("energy is power times time: a kW is a rate, a kWh an amount")
        }
        (Dimension::CHARGE, Dimension::ENERGY) => {
            misread.why("Ah become energy only with the voltage: Wh = Ah times V")
        }
        (Dimension::ENERGY, Dimension::CHARGE) => {
            misread.why("Wh become charge only with the voltage: Ah = Wh divided by V")
        }
        (Dimension::FORCE, Dimension::MASS) => misread
            .why("newtons and pounds-force are what a mass weighs: 9.81 N, or 1 lbf for each pound, are not kg or lb"),
        (Dimension::MASS, Dimension::FORCE) => misread.why("a force is written in N or lbf; kg and lb are masses"),
        (Dimension::TIME, Dimension::RATIO) => misread.why("a duty says per what, such as \"4 h/d\" or \"20 min/d\""),
        (Dimension::LENGTH, Dimension::AREA) => {
            misread.why("mm and mm2 differ: an area is written in mm2, cm2, m2, in2 or ft2")
        }
        (Dimension::CHARGE, Dimension::CURRENT) => misread.why("Ah is what a battery holds; A is what flows"),
        _ => misread,
    }
}

/// The unit to put in place of the one written, with a space before it if the text has none.
fn spaced(text: &str, place: &Range<usize>, unit: &str) -> String {
    let joined = text.get(..place.start).and_then(|before| before.chars().next_back()).is_some_and(char::is_numeric);
    if joined { format!(" {unit}") } else { unit.to_owned() }
}

fn ambiguous(place: Range<usize>, word: &str) -> Option<Misread> {
    let lower = word.to_lowercase();
    let (_, [first, second], why) = AMBIGUOUS.iter().find(|(words, _, _)| words.contains(&lower.as_str()))?;
    Some(
        Misread::new(place, format!("{} has more than one meaning; write \"{first}\" or \"{second}\"", quoted(word)))
            .why(*why),
    )
}

/// Refuses a word that certainly, or in one of two known ways, means something else: "amps", "12v", "gal".
pub(crate) fn certain_slip(text: &str, place: Range<usize>, word: &str, expected: Dimension) -> Option<Misread> {
    if let Some(misread) = ambiguous(place.clone(), word) {
        return Some(misread);
    }
    if word == "pt" || word == "qt" {
        return Some(Misread::new(
            place,
            format!("{} has more than one meaning; write litres, such as \"2 l\"", quoted(word)),
        ));
    }
    if let Some(unit) = chosen(units_slipped(word), expected) {
        return Some(
            Misread::new(place.clone(), format!("{} is written \"{}\"", quoted(word), unit.plain_symbol()))
                .mend(text, &spaced(text, &place, &unit.plain_symbol())),
        );
    }
    if let Some(name) = word.strip_suffix('.').filter(|name| !units_spelled(name).is_empty()) {
        return Some(
            Misread::new(place.clone(), "a unit has no point behind it").mend(text, &spaced(text, &place, name)),
        );
    }
    if word.contains(" per ") {
        return Some(Misread::new(place, "per is written as a slash").mend(text, &word.replace(" per ", "/")));
    }
    case_slip(text, place, word, expected)
}

/// The one unit of the expected dimension, or the one unit at all.
fn chosen(candidates: &[&'static Unit], expected: Dimension) -> Option<&'static Unit> {
    let mut fitting = candidates.iter().filter(|unit| unit.dimension == expected);
    match (fitting.next(), fitting.next()) {
        (Some(unit), None) => Some(unit),
        (None, _) if candidates.len() == 1 => candidates.first().copied(),
        _ => None,
    }
}

/// True where m and M would change milli to mega: "MA" may be a slip for mA, but nobody can be sure.
fn may_be_prefix(word: &str, unit: &Unit) -> bool {
    let symbol = canonical(unit.symbol);
    let (Some(written), Some(meant)) = (word.get(..1), symbol.get(..1)) else {
        return false;
    };
    let plain_length = matches!(unit.identifier, "mm" | "mm2");
    written != meant
        && written.eq_ignore_ascii_case("m")
        && !plain_length
        && symbol.get(1..).is_some_and(|base| units_spelled(base).iter().any(|other| other.dimension == unit.dimension))
}

fn case_slip(text: &str, place: Range<usize>, word: &str, expected: Dimension) -> Option<Misread> {
    let candidates = units_but_for_case(word);
    if candidates.is_empty() {
        let code = word.to_uppercase();
        Currency::from_code(&code).filter(|_| expected.money != 0 && code != word)?;
        return Some(
            Misread::new(place.clone(), format!("a currency is written in capital letters: \"{code}\""))
                .mend(text, &spaced(text, &place, &code)),
        );
    }
    match chosen(candidates, expected) {
        Some(unit) if !may_be_prefix(word, unit) => {
            let symbol = unit.plain_symbol();
            Some(
                Misread::new(place.clone(), format!("{} is written \"{symbol}\"", quoted(word)))
                    .why("capital and small letters differ in units: m is metre or milli, M is mega")
                    .mend(text, &spaced(text, &place, &symbol)),
            )
        }
        _ => {
            let symbols: Vec<String> = candidates.iter().map(|unit| format!("\"{}\"", unit.plain_symbol())).collect();
            Some(
                Misread::new(
                    place,
                    format!("{} is no unit; write {} if that is meant", quoted(word), symbols.join(" or ")),
                )
                .why("capital and small letters differ in units: m is milli, M is mega, a thousand million apart"),
            )
        }
    }
}

/// Refuses a word that is no unit, with the nearest name. `part` says that the word is one factor of a composed unit.
pub(crate) fn unknown_unit(text: &str, place: Range<usize>, expected: Dimension, part: bool) -> Misread {
    let written = text.get(place.clone()).unwrap_or_default();
    let word = canonical(written);
    if part && let Some(misread) = certain_slip(text, place.clone(), &word, expected) {
        return misread;
    }
    if matches!(word.split(' ').next(), Some("to" | "or" | "till" | "until" | "bis")) {
        return Misread::new(place, "this reads like a range; write one number");
    }
    if word.eq_ignore_ascii_case("AWG") {
        let message = format!("AWG is a size of conductors; {}", wanted(expected));
        return Misread::new(place, message);
    }
    if let Some(known) = known_beginning(written) {
        let unit_end = place.start + known;
        let rest = text.get(unit_end..place.end).unwrap_or_default();
        let start = place.end - rest.trim_start_matches(is_space).len();
        return Misread::new(
            start..place.end,
            format!("{} does not belong to the quantity; write the number and its unit alone", quoted(rest)),
        );
    }
    let misread = match nearest(&word, expected) {
        Some(unit) => {
            format!("{} is no unit that is known here; did you mean \"{}\"?", quoted(written), unit.plain_symbol())
        }
        None => format!("{} is no unit that is known here; {}", quoted(written), wanted(expected)),
    };
    Misread::new(place, misread)
}

/// The length of the longest known unit at the start of a text of several words.
fn known_beginning(written: &str) -> Option<usize> {
    written
        .char_indices()
        .rev()
        .filter(|(_, character)| is_space(*character) || matches!(character, '(' | ',' | '.' | '-' | '@' | '='))
        .map(|(at, _)| at)
        .find(|at| {
            let head = written.get(..*at).map(canonical).unwrap_or_default();
            !units_spelled(&head).is_empty() || Currency::from_code(&head).is_some()
        })
}

fn nearest(word: &str, expected: Dimension) -> Option<&'static Unit> {
    const SHORT_WORD: usize = 3;
    let limit = if word.chars().count() <= SHORT_WORD { 1 } else { 2 };
    let spellings_of = |unit: &Unit| -> Vec<&'static str> { [&[unit.symbol], unit.also, unit.slips].concat() };
    units()
        .iter()
        .filter(|unit| unit.dimension == expected)
        .flat_map(|unit| spellings_of(unit).into_iter().map(move |spelling| (unit, canonical(spelling))))
        // A one-letter unit is near to every word of two letters: no help.
        .filter(|(_, spelling)| spelling.chars().count() > 1)
        .map(|(unit, spelling)| (distance(word, &spelling, limit), unit))
        .filter(|(steps, _)| *steps <= limit)
        .min_by_key(|(steps, _)| *steps)
        .map(|(_, unit)| unit)
}
