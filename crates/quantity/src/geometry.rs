//! Points, boxes and openings, in metres.
//!
//! A comma separates coordinates and nothing else; "x" or "×" stands between the sizes of a box.

use std::ops::Range;

use crate::misread::settle;
use crate::read::{Term, combine, content, measure_at, terms, valued};
use crate::refusal;
use crate::spelling::{is_space, is_times};
use crate::{Dimension, Misread};

/// What is read: how it is named, how many numbers it has, and what stands between them.
struct Form {
    name: &'static str,
    parts: usize,
    between: &'static str,
    example: &'static str,
}

const POINT: Form =
    Form { name: "a point has three coordinates, x, y, z", parts: 3, between: ", ", example: "1500, -890, 0 mm" };
const BOX: Form =
    Form { name: "a size has length x width x height", parts: 3, between: " x ", example: "1800 x 550 x 900 mm" };
const OPENING: Form =
    Form { name: "an opening has width x height", parts: 2, between: " x ", example: "820 x 1600 mm" };

/// Reads a point, such as "1500, -890, 0 mm": x, y, z in metres. One unit at the end holds for all, or each coordinate
/// has its own.
///
/// # Errors
/// A `Misread` with the place and the reason.
pub fn read_point(text: &str) -> Result<[f64; 3], Misread> {
    let once = |text: &str| array(read_form(text, &POINT)?, text, &POINT);
    once(text).map_err(|misread| settle(misread, |mended| once(mended).err()))
}

/// Reads a box, such as "1800 x 550 x 900 mm": length, width, height in metres, each above 0.
///
/// # Errors
/// A `Misread` with the place and the reason.
pub fn read_box(text: &str) -> Result<[f64; 3], Misread> {
    let once = |text: &str| array(read_form(text, &BOX)?, text, &BOX);
    once(text).map_err(|misread| settle(misread, |mended| once(mended).err()))
}

/// Reads an opening, such as "820 x 1600 mm": width and height in metres, each above 0.
///
/// # Errors
/// A `Misread` with the place and the reason.
pub fn read_opening(text: &str) -> Result<[f64; 2], Misread> {
    let once = |text: &str| array(read_form(text, &OPENING)?, text, &OPENING);
    once(text).map_err(|misread| settle(misread, |mended| once(mended).err()))
}

fn array<const N: usize>(values: Vec<f64>, text: &str, form: &Form) -> Result<[f64; N], Misread> {
    values.try_into().map_err(|_| wrong_count(0..text.len(), form))
}

fn wrong_count(at: Range<usize>, form: &Form) -> Misread {
    Misread::new(at, format!("{}, such as \"{}\"", form.name, form.example))
}

/// The place without the spaces around it; unchanged where there is nothing but spaces, so that it can be marked.
fn trimmed(text: &str, place: Range<usize>) -> Range<usize> {
    let written = text.get(place.clone()).unwrap_or_default();
    let inner = written.trim_matches(is_space);
    if inner.is_empty() {
        return place;
    }
    let start = place.end - written.trim_start_matches(is_space).len();
    start..start + inner.len()
}

/// The places between the characters that separate, without the spaces around them.
fn split(text: &str, within: Range<usize>, separates: impl Fn(char) -> bool) -> Vec<Range<usize>> {
    let inner = text.get(within.clone()).unwrap_or_default();
    let mut start = within.start;
    let mut parts = Vec::new();
    for (at, separator) in inner.char_indices().filter(|(_, character)| separates(*character)) {
        parts.push(start..within.start + at);
        start = within.start + at + separator.len_utf8();
    }
    parts.push(start..within.end);
    parts.into_iter().map(|part| trimmed(text, part)).collect()
}

fn read_form(text: &str, form: &Form) -> Result<Vec<f64>, Misread> {
    let within = content(text, || format!("{}, such as \"{}\"", form.name, form.example))?;
    let is_comma = |character| character == ',';
    let (parts, others) = if form.between == POINT.between {
        (split(text, within.clone(), is_comma), split(text, within.clone(), is_times))
    } else {
        (split(text, within.clone(), is_times), split(text, within.clone(), is_comma))
    };
    if parts.len() != form.parts {
        let semicolons = split(text, within.clone(), |character| character == ';');
        let others = if others.len() == 1 { semicolons } else { others };
        if parts.len() == 1 && others.len() == form.parts {
            let joined: Vec<&str> = others.into_iter().filter_map(|part| text.get(part)).map(str::trim).collect();
            let separator = form.between.trim();
            return Err(Misread::new(within, format!("{}, with \"{separator}\" between", form.name))
                .write(joined.join(form.between)));
        }
        let misread = match parts.get(form.parts) {
            Some(extra) => wrong_count(extra.start..within.end, form),
            None => wrong_count(within.clone(), form),
        };
        return Err(match form.between.trim() {
            "," if parts.len() > form.parts => misread.why("a comma separates coordinates only; decimals have a point"),
            _ => misread,
        });
    }
    let parts = parts.into_iter().map(|part| part_terms(text, part, form)).collect::<Result<Vec<_>, _>>()?;
    let values = part_values(text, &parts, form)?;
    if form.between == POINT.between {
        return Ok(values);
    }
    for (value, part) in values.iter().zip(&parts) {
        if *value <= 0.0 {
            let at = part.first().map_or(within.clone(), |term| term.number.span.clone());
            return Err(Misread::new(at, "each of these sizes must be above 0"));
        }
    }
    Ok(values)
}

fn part_terms(text: &str, part: Range<usize>, form: &Form) -> Result<Vec<Term>, Misread> {
    let found = terms(text, part.clone(), Dimension::LENGTH)?;
    if found.is_empty() {
        return Err(Misread::new(part, format!("a number is missing: {}, such as \"{}\"", form.name, form.example)));
    }
    Ok(found)
}

/// The term of a part that is a number alone.
fn bare(part: &[Term]) -> Option<&Term> {
    match part {
        [term] if term.unit.is_empty() => Some(term),
        _ => None,
    }
}

fn part_values(text: &str, parts: &[Vec<Term>], form: &Form) -> Result<Vec<f64>, Misread> {
    let Some((last, others)) = parts.split_last() else {
        return Ok(Vec::new());
    };
    let has_unit = others.iter().any(|part| bare(part).is_none());
    // Where each has its own unit, a 0 needs none.
    if let Some(term) = bare(last).filter(|term| !has_unit || term.number.magnitude != 0.0) {
        let at = term.number.span.clone();
        return Err(Misread::new(at, format!("the unit is missing at the end, such as \"{}\"", form.example))
            .why("a number alone can be read in mm, in or m"));
    }
    // One unit holds for all only where no other is written and the last part is a plain "0 mm".
    let shared = match last.as_slice() {
        [only] if !has_unit => Some(measure_at(text, only.unit.clone(), Dimension::LENGTH)?),
        _ => None,
    };
    let shared = shared.filter(|measure| measure.dimension == Dimension::LENGTH);
    // What has a unit is read first, so that a wrong unit is reported where it stands.
    for part in parts.iter().filter(|part| bare(part).is_none()) {
        combine(text, part, Dimension::LENGTH)?;
    }
    parts
        .iter()
        .map(|part| match (bare(part), shared) {
            (None, _) => combine(text, part, Dimension::LENGTH).map(|(value, _)| value + 0.0),
            (Some(term), Some(measure)) => valued(term, term.number.value(), measure).map(|value| value + 0.0),
            (Some(term), None) if term.number.magnitude == 0.0 => Ok(0.0),
            (Some(term), None) => Err(refusal::no_unit(text, term, Dimension::LENGTH)
                .why("one unit at the end holds for all only where no other unit is written")),
        })
        .collect()
}
