//! The figures of a rule's named values: a quantity as a builder would write it, its dimension told by its unit.

use quantity::{Dimension, Quantity, read, read_wire_size, units};

/// A figure as its author wrote it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Figure {
    /// The value in coherent SI units; a conductor's size as its copper area in square metres.
    pub(crate) value: f64,
    /// What it measures.
    pub(crate) dimension: Dimension,
}

/// Why a text is no figure: what is wrong, and what to do.
pub(crate) type Refusal = (String, String);

/// Reads a figure. A bare number is a ratio; `dimension` decides where a unit has two meanings, as `g` has.
///
/// # Errors
/// The text is no quantity, or its unit has several meanings and `dimension` is left out.
pub(crate) fn read_figure(text: &str, dimension: Option<Dimension>) -> Result<Figure, Refusal> {
    if let Some(dimension) = dimension {
        return match read_as(text, dimension) {
            Some(figure) => Ok(figure),
            None => Err((
                format!("\"{text}\" is no {}", dimension.name()),
                format!("It is written like \"{}\".", dimension.example()),
            )),
        };
    }
    if let Some(figure) = read_as(text, Dimension::RATIO) {
        return Ok(figure);
    }
    let mut found: Vec<Figure> = Vec::new();
    for unit in units() {
        if found.iter().any(|figure| figure.dimension == unit.dimension) {
            continue;
        }
        found.extend(read_as(text, unit.dimension));
    }
    match found.as_slice() {
        [figure] => Ok(*figure),
        [] => {
            read_wire_size(text).map(|size| Figure { value: size.area(), dimension: Dimension::AREA }).map_err(|_| {
                let help = "A figure is a number with its unit (\"300 mm\", \"1.5\", \"16 mm2\").";
                (format!("\"{text}\" is no quantity"), help.to_owned())
            })
        }
        several => {
            let names: Vec<String> = several.iter().map(|figure| figure.dimension.name()).collect();
            let key = names.first().map(|name| name.to_lowercase().replace(' ', "-")).unwrap_or_default();
            Err((
                format!("\"{text}\" may be read as {}", names.join(" or as ")),
                format!("Say which: `dimension={key}`."),
            ))
        }
    }
}

fn read_as(text: &str, dimension: Dimension) -> Option<Figure> {
    // A builder writes a ratio with its `%`; the author of a rule may write a factor as it is.
    let is_number = text.chars().all(|each| each.is_ascii_digit() || matches!(each, '.' | '-'));
    if dimension == Dimension::RATIO && is_number {
        return text.parse().ok().map(|value| Figure { value, dimension });
    }
    let Quantity { value, dimension, .. } = read(text, dimension).ok()?;
    value.is_finite().then_some(Figure { value, dimension })
}

/// The figure moved by one unit of its last written digit, up or down, as text and value; nothing where no such figure can
/// be read (the table of wire sizes has gaps).
pub(crate) fn stepped(text: &str, dimension: Dimension, up: bool) -> Option<(String, f64)> {
    let number = last_number(text)?;
    let written = text.get(number.clone())?;
    // A wire size of the AWG table exists for every second number only, from 10 AWG on up in size.
    (1..=2).find_map(|units| {
        let moved = move_last_digit(written, if up { units } else { -units })?;
        let mut whole = text.to_owned();
        whole.replace_range(number.clone(), &moved);
        let value = match read_as(&whole, dimension) {
            Some(figure) => figure.value,
            None => read_wire_size(&whole).ok().filter(|_| dimension == Dimension::AREA)?.area(),
        };
        Some((whole, value))
    })
}

/// The bytes of the last number in a text that is not part of a unit (`m2`) or of an exponent.
fn last_number(text: &str) -> Option<std::ops::Range<usize>> {
    let mut found = None;
    let mut before = ' ';
    let mut characters = text.char_indices().peekable();
    while let Some((start, character)) = characters.next() {
        if character.is_ascii_digit() && !before.is_alphanumeric() && before != '/' {
            let mut end = start + 1;
            while let Some((at, _)) = characters.next_if(|(_, next)| next.is_ascii_digit() || *next == '.') {
                end = at + 1;
            }
            found = Some(start..end);
        }
        before = character;
    }
    found
}

/// `1.50` moved by one is `1.51`; below zero there is nothing.
fn move_last_digit(number: &str, by: i64) -> Option<String> {
    let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
    let digits: i64 = format!("{whole}{decimals}").parse().ok()?;
    let moved = digits.checked_add(by).filter(|moved| *moved >= 0)?;
    if decimals.is_empty() {
        return Some(moved.to_string());
    }
    let padded = format!("{moved:0>width$}", width = decimals.len() + 1);
    let (whole, decimals) = padded.split_at_checked(padded.len() - decimals.len())?;
    Some(format!("{whole}.{decimals}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_digit_moves() {
        for (number, by, expected) in [
            ("1.5", 1, Some("1.6")),
            ("1.0", -1, Some("0.9")),
            ("0.05", 1, Some("0.06")),
            ("0.95", 5, Some("1.00")),
            ("178", -1, Some("177")),
            ("99", 1, Some("100")),
            ("0", -1, None),
        ] {
            assert_eq!(move_last_digit(number, by).as_deref(), expected, "{number} by {by}");
        }
    }

    #[test]
    fn the_number_that_moves_is_no_part_of_the_unit() {
        for (text, expected) in [
            ("1.5 m2", "1.5"),
            ("8 ft 6 in", "6"),
            ("3/8 in", "3"),
            ("-12 degC", "12"),
            ("20 min/d", "20"),
            ("2.8 W/m2K", "2.8"),
        ] {
            let number = last_number(text).unwrap_or_default();
            assert_eq!(text.get(number), Some(expected), "{text}");
        }
    }

    #[test]
    fn a_unit_tells_the_dimension() {
        for (text, dimension, value) in [
            ("1.5", Dimension::RATIO, 1.5),
            ("150 %", Dimension::RATIO, 1.5),
            ("300 mm", Dimension::LENGTH, 0.3),
            ("80 A", Dimension::CURRENT, 80.0),
        ] {
            let figure = read_figure(text, None).map(|figure| (figure.dimension, figure.value));
            assert_eq!(figure, Ok((dimension, value)), "{text}");
        }
    }

    #[test]
    fn a_unit_with_two_meanings_asks_which() {
        let refusal = read_figure("20 g", None).map_err(|(message, _)| message);
        assert!(refusal.is_err_and(|message| message.contains("mass") && message.contains("acceleration")));
        let known = read_figure("20 g", Some(Dimension::ACCELERATION)).map(|figure| figure.dimension);
        assert_eq!(known, Ok(Dimension::ACCELERATION));
    }

    #[test]
    fn a_figure_moves_by_one_of_its_last_digit() {
        for (text, dimension, up, expected) in [
            ("300 mm", Dimension::LENGTH, true, "301 mm"),
            ("1.5", Dimension::RATIO, false, "1.4"),
            ("-12 degC", Dimension::TEMPERATURE, true, "-13 degC"),
        ] {
            let moved = stepped(text, dimension, up).map(|(text, _)| text);
            assert_eq!(moved.as_deref(), Some(expected), "{text}");
        }
    }
}
