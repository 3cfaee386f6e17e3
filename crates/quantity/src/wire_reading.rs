//! Reading of conductor sizes, with the traps of the trade: sizes that sound alike and hold different amounts of copper.
//!
//! Auto cable: outside diameter against copper, 2.5 mm = 0.64 mm², 3 mm = 0.85, 4 mm = 1.85, 5 mm = 2.9, 6 mm = 4.6 (a
//! makers' table, read). SAE gauge against AWG: about 5 to 12 % less copper (second-hand). B&S gauge is the older name of
//! AWG; "3G2.5" is the European way to write three cores of 2.5 mm² with a protective one (both common practice, no
//! source). 1 kcmil = 1000 · π/4 · (0.001 in)².

use std::ops::Range;

use crate::number::Cursor;
use crate::read::{Term, measure_at, terms};
use crate::refusal::quoted;
use crate::spelling::{canonical, is_space, is_times};
use crate::{Cores, Dimension, Misread, WireSize};

pub(crate) const SIZE_HINT: &str = "write a conductor size, such as \"2.5 mm2\" or \"6 AWG\"";
pub(crate) const CORES_HINT: &str = "write the cores of a cable, such as \"3 x 2.5 mm2\"";

/// The largest conductor of IEC 60228, in mm² (from memory); anything above is a slip of the pen.
const LARGEST_MM2: f64 = 2500.0;
/// The thinnest gauge of ASTM B258 that the scale is anchored on is 36; wire of electronics ends at 40 (from memory).
const THINNEST_GAUGE: i8 = 40;
/// Square millimetres in 1000 circular mils: π/4 · (0.0254 mm)² · 1000.
const MM2_PER_KCMIL: f64 = std::f64::consts::FRAC_PI_4 * 0.0254 * 0.0254 * 1000.0;
const MM2_PER_SQUARE_METRE: f64 = 1e6;
/// More cores than any cable of a vehicle has (chosen).
const MOST_CORES: u16 = 100;

const DIAMETER_WHY: &str = "auto cable is sold by its outside diameter in mm, which holds far less copper than the same number \
    of mm2: 4 mm auto cable has 1.85 mm2, 6 mm has 4.6 mm2; undersized wire overheats";
const SAE_WHY: &str = "an SAE gauge holds about 5 to 12 % less copper than the same AWG number; write the copper area that \
    the maker gives, in mm2";
const NO_GAUGE: &str = "there is no such gauge: AWG numbers go from 40 (thinnest) to 1, then 1/0 to 4/0 (thickest)";
const GAUGE_WHY: &str = "a bare gauge can be AWG or SAE, and SAE holds about 5 to 12 % less copper";

/// Reads one conductor size at a place in the text.
pub(crate) fn size_in(text: &str, within: Range<usize>) -> Result<WireSize, Misread> {
    let written = text.get(within.clone()).unwrap_or_default();
    let upper = written.to_uppercase();
    let words: Vec<&str> = upper.split(|character: char| !character.is_ascii_alphabetic()).collect();
    if words.contains(&"SAE") {
        return Err(Misread::new(within, "a conductor size in SAE gauge is not taken as AWG").why(SAE_WHY));
    }
    if words.contains(&"SWG") {
        return Err(Misread::new(within, "a conductor size in the British standard gauge (SWG) is not taken")
            .why("SWG and AWG numbers stand for different diameters; write the copper area in mm2"));
    }
    let mut cursor = Cursor::new(text, within.clone());
    let number_start = match prefixed_gauge(&mut cursor) {
        Some(start) => start,
        None => cursor.at,
    };
    let prefixed = number_start != within.start;
    let digits = cursor.digits();
    let over_zero = cursor.rest().strip_prefix('/').is_some_and(|rest| rest.starts_with('0'));
    if over_zero {
        cursor.bump();
        cursor.digits();
    }
    let number = number_start..cursor.at;
    cursor.skip_spaces();
    let unit = cursor.at..cursor.end;
    let word = canonical(cursor.rest());
    if prefixed {
        let numeral = text.get(number.clone()).unwrap_or_default();
        if numeral.is_empty() {
            return Err(Misread::new(within, format!("the number of the gauge is missing; {SIZE_HINT}")));
        }
        let misread = Misread::new(within, format!("a gauge is written behind its number: \"{numeral} AWG\""));
        return Err(match word.is_empty() || word.eq_ignore_ascii_case("AWG") {
            true => misread.mend(text, &format!("{numeral} AWG")),
            false => misread,
        });
    }
    if let Some(rest) = word.strip_prefix("AWG ") {
        let behind = text.get(unit.start + "AWG".len()..unit.end).unwrap_or_default();
        let start = unit.end - behind.trim_start_matches(is_space).len();
        return Err(Misread::new(
            start..unit.end,
            format!("{} does not belong to the size; write the gauge alone", quoted(rest)),
        ));
    }
    if !digits.is_empty() {
        match word.to_uppercase().as_str() {
            "AWG" if word == "AWG" => return gauge(text, number, digits, over_zero),
            "AWG" | "B&S" | "B & S" | "BS" => {
                let misread = Misread::new(unit.clone(), format!("{} is written \"AWG\"", quoted(&word)));
                let joined = unit.start == number.end;
                return Err(misread.mend(text, if joined { " AWG" } else { "AWG" }));
            }
            "GA" | "GA." | "GAUGE" | "G" | "GAGE" => {
                return Err(Misread::new(
                    unit,
                    format!("{} does not say which gauge; write \"AWG\" if it is that", quoted(&word)),
                )
                .why(GAUGE_WHY));
            }
            "" if over_zero => {
                return Err(Misread::new(number, "the gauge is missing: a size such as 2/0 is written \"2/0 AWG\"")
                    .mend_at(text, unit.start..unit.start, " AWG"));
            }
            _ => {}
        }
    }
    metric(text, within)
}

/// Steps over "#" or "AWG" in front of a number, and gives the number's place.
fn prefixed_gauge(cursor: &mut Cursor<'_>) -> Option<usize> {
    let mut ahead = *cursor;
    let word = ahead.take_while(|character| !character.is_ascii_digit() && !is_space(character));
    if !matches!(word.to_uppercase().as_str(), "#" | "AWG" | "AWG#" | "NO." | "№") {
        return None;
    }
    ahead.skip_spaces();
    if ahead.peek() == Some('#') {
        ahead.bump();
    }
    *cursor = ahead;
    Some(cursor.at)
}

/// The gauge of "6", "0", "000" or "2/0".
fn gauge(text: &str, at: Range<usize>, digits: &str, over_zero: bool) -> Result<WireSize, Misread> {
    let refused = |message: &str| Err(Misread::new(at.clone(), message));
    if over_zero {
        let written = text.get(at.clone()).unwrap_or_default();
        return match written {
            "1/0" => Ok(WireSize::Awg(0)),
            "2/0" => Ok(WireSize::Awg(-1)),
            "3/0" => Ok(WireSize::Awg(-2)),
            "4/0" => Ok(WireSize::Awg(-3)),
            _ => refused("there is no such gauge: the sizes above 1 AWG are 1/0, 2/0, 3/0 and 4/0 AWG"),
        };
    }
    if digits.chars().all(|digit| digit == '0') {
        return match digits.len() {
            1 => Ok(WireSize::Awg(0)),
            2 => Ok(WireSize::Awg(-1)),
            3 => Ok(WireSize::Awg(-2)),
            4 => Ok(WireSize::Awg(-3)),
            _ => refused("there is no such gauge: the largest is 4/0 AWG"),
        };
    }
    match digits.parse::<i8>() {
        Ok(number) if number <= THINNEST_GAUGE => Ok(WireSize::Awg(number)),
        _ => refused(NO_GAUGE),
    }
}

fn metric(text: &str, within: Range<usize>) -> Result<WireSize, Misread> {
    let found = terms(text, within.clone(), Dimension::AREA)?;
    let [term] = found.as_slice() else {
        return Err(Misread::new(within, format!("this is no single conductor size; {SIZE_HINT}")));
    };
    let whole = within;
    if term.unit.is_empty() {
        return Err(
            Misread::new(term.number.span.clone(), format!("the unit is missing; {SIZE_HINT}")).why(DIAMETER_WHY)
        );
    }
    let mm2 = match area(text, term)? {
        Some(mm2) => mm2,
        None => return kcmil(text, term),
    };
    if term.number.value() < 0.0 || mm2 <= 0.0 {
        return Err(Misread::new(term.number.span.clone(), "a conductor size must be above 0"));
    }
    if mm2 > LARGEST_MM2 {
        return Err(Misread::new(whole, format!("no conductor is larger than {LARGEST_MM2} mm2; {SIZE_HINT}")));
    }
    Ok(WireSize::Metric { mm2 })
}

/// The area of a term in mm²; None for thousands of circular mils.
fn area(text: &str, term: &Term) -> Result<Option<f64>, Misread> {
    let word = canonical(text.get(term.unit.clone()).unwrap_or_default());
    if matches!(word.to_uppercase().as_str(), "KCMIL" | "MCM") {
        return Ok(None);
    }
    if word.eq_ignore_ascii_case("AWG") {
        return Err(Misread::new(term.number.span.clone(), NO_GAUGE));
    }
    let measure = measure_at(text, term.unit.clone(), Dimension::AREA)?;
    if measure.dimension == Dimension::LENGTH {
        return Err(Misread::new(
            term.unit.clone(),
            format!(
                "{} is a diameter and no conductor size; write the copper area, such as \"2.5 mm2\"",
                quoted(&word)
            ),
        )
        .why(DIAMETER_WHY));
    }
    if measure.dimension != Dimension::AREA {
        let whole = text.get(term.number.span.start..term.unit.end).unwrap_or_default();
        return Err(Misread::new(
            term.unit.clone(),
            format!(
                "this says {}, {}; {SIZE_HINT}",
                quoted(whole).trim_matches('"'),
                measure.dimension.name_with_article()
            ),
        ));
    }
    // Written mm2 are kept to the digit, without a detour over square metres.
    let is_mm2 = measure.unit.is_some_and(|unit| unit.identifier == "mm2");
    let number = term.number.value();
    Ok(Some(if is_mm2 { number } else { number * measure.factor * MM2_PER_SQUARE_METRE }))
}

/// Sizes in thousands of circular mils are certain areas, to be written in mm².
fn kcmil(text: &str, term: &Term) -> Result<WireSize, Misread> {
    let mm2 = term.number.value() * MM2_PER_KCMIL;
    let whole = term.number.span.start..term.unit.end;
    let misread = Misread::new(term.unit.clone(), "circular mils are not read; write the copper area in mm2");
    Err(if mm2 > 0.0 && mm2 <= LARGEST_MM2 { misread.mend_at(text, whole, &format!("{mm2:.1} mm2")) } else { misread })
}

/// Reads count and size of cores at a place in the text.
pub(crate) fn cores_in(text: &str, within: Range<usize>) -> Result<Cores, Misread> {
    let mut cursor = Cursor::new(text, within.clone());
    let digits = cursor.digits();
    let count_place = within.start..cursor.at;
    cursor.skip_spaces();
    let sign = cursor.peek();
    if digits.is_empty() || !sign.is_some_and(|sign| is_times(sign) || matches!(sign, 'G' | 'g' | '/' | '*')) {
        return Err(Misread::new(within, CORES_HINT));
    }
    let sign_place = cursor.at..cursor.at + sign.map_or(0, char::len_utf8);
    cursor.bump();
    cursor.skip_spaces();
    let rest = cursor.at..cursor.end;
    match sign {
        Some('/') => {
            return Err(Misread::new(within, format!("this does not say how many conductors there are; {CORES_HINT}"))
                .why("in \"12/3\" the bare earth is not counted, and 12 may be AWG or SAE"));
        }
        Some('G' | 'g') => {
            let size = text.get(rest.clone()).unwrap_or_default();
            let unit = if cursor.rest().chars().all(|character| character.is_ascii_digit() || character == '.') {
                " mm2"
            } else {
                ""
            };
            let misread = Misread::new(sign_place, "the number of cores and the size are joined by \"x\"");
            return Err(match cursor.starts_number() {
                true => misread.mend_at(text, count_place.end..rest.end, &format!(" x {size}{unit}")),
                false => misread,
            });
        }
        Some('*') => {
            return Err(
                Misread::new(sign_place, "the number of cores and the size are joined by \"x\"").mend(text, "x")
            );
        }
        _ => {}
    }
    let count = match digits.parse::<u16>() {
        Ok(0) => return Err(Misread::new(count_place, "a cable has one core at least")),
        Ok(count) if count <= MOST_CORES => count,
        _ => {
            return Err(Misread::new(count_place, format!("no cable has more than {MOST_CORES} cores")));
        }
    };
    if rest.is_empty() {
        return Err(Misread::new(within, format!("the size of the cores is missing; {CORES_HINT}")));
    }
    Ok(Cores { count, size: size_in(text, rest)? })
}
