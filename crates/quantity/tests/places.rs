//! Points, boxes and openings.

use quantity::{Misread, read_box, read_opening, read_point};

const TOLERANCE: f64 = 1e-12;

fn near<const N: usize>(text: &str, read: Result<[f64; N], Misread>, expected: [f64; N]) {
    assert!(read.is_ok(), "{text}: {read:?}");
    for (value, expected) in read.iter().flatten().zip(expected) {
        assert!((value - expected).abs() < TOLERANCE, "{text}: {read:?}");
        assert!(*value != 0.0 || value.is_sign_positive(), "{text}: a zero has no sign");
    }
}

#[test]
fn points_are_read_in_metres() {
    for (text, expected) in [
        ("1500, -890, 0 mm", [1.5, -0.89, 0.0]),
        ("1500,-890,0mm", [1.5, -0.89, 0.0]),
        ("1500, \u{2212}890, -0 mm", [1.5, -0.89, 0.0]),
        ("1.5 m, -890 mm, 0 m", [1.5, -0.89, 0.0]),
        ("1.5 m, -890 mm, 0", [1.5, -0.89, 0.0]),
        ("8 ft 6 in, 0 in, 3 1/2 in", [2.5908, 0.0, 0.0889]),
        ("10, -3 1/2, 0 in", [0.254, -0.0889, 0.0]),
    ] {
        near(text, read_point(text), expected);
    }
}

#[test]
fn boxes_and_openings_are_read_in_metres() {
    for text in
        ["1800 x 550 x 900 mm", "1800x550x900mm", "1800 × 550 × 900 mm", "1.8 m x 550 mm x 0.9 m", "180 X 55 X 90 cm"]
    {
        near(text, read_box(text), [1.8, 0.55, 0.9]);
    }
    near("6 ft x 2 ft x 18 in", read_box("6 ft x 2 ft x 18 in"), [1.8288, 0.6096, 0.4572]);
    near("820 x 1600 mm", read_opening("820 x 1600 mm"), [0.82, 1.6]);
    near("10 1/2 x 12 in", read_opening("10 1/2 x 12 in"), [0.2667, 0.3048]);
}

#[derive(Clone, Copy, Debug)]
enum Form {
    Point,
    Box,
    Opening,
}

type Refusal = (Form, &'static str, &'static str, &'static [&'static str], Option<&'static str>);

#[rustfmt::skip]
const REFUSED: &[Refusal] = &[
    (Form::Point, "", "", &["nothing is written", "1500, -890, 0 mm"], None),
    (Form::Point, "1500, -890 mm", "1500, -890 mm", &["three coordinates"], None),
    (Form::Point, "1,5, 2, 3 m", "3 m", &["three coordinates", "decimals have a point"], None),
    (Form::Point, "1500, -890, 0", "0", &["unit is missing at the end"], None),
    (Form::Point, "1500, -890 mm, 0 mm", "1500", &["unit is missing", "one unit at the end"], None),
    (Form::Point, "1500, 2, 8 ft 6 in", "1500", &["unit is missing"], None),
    (Form::Point, "1500, 5 A, 0 mm", "A", &["a current", "a length"], None),
    (Form::Point, "1500, 3, 0 kg", "kg", &["a mass"], None),
    (Form::Point, "1500, , 0 mm", " ", &["a number is missing"], None),
    (Form::Point, "a, b, c mm", "a", &["does not begin with a number"], None),
    (Form::Point, "1500 -890 0 mm", "1500 -890 0 mm", &["three coordinates"], None),
    (Form::Point, "1500 x -890 x 0 mm", "1500 x -890 x 0 mm", &["\",\" between"], Some("1500, -890, 0 mm")),
    (Form::Point, "1500; -890; 0 mm", "1500; -890; 0 mm", &["\",\" between"], Some("1500, -890, 0 mm")),
    (Form::Point, "1500, -890, 0 MM", "MM", &["\"mm\""], Some("1500, -890, 0 mm")),
    (Form::Point, "1e308, 1, 1 km", "1e308", &["too large"], None),
    (Form::Box, "1800, 550, 900 mm", "1800, 550, 900 mm", &["\"x\" between"], Some("1800 x 550 x 900 mm")),
    (Form::Box, "1800 x 550 mm", "1800 x 550 mm", &["length x width x height"], None),
    (Form::Box, "1 x 2 x 3 x 4 m", "4 m", &["length x width x height"], None),
    (Form::Box, "0 x 1 x 2 mm", "0", &["above 0"], None),
    (Form::Box, "1800 x -5 x 2 mm", "-5", &["above 0"], None),
    (Form::Box, "2,5 x 1 x 1 m", "2,5", &["comma"], Some("2.5 x 1 x 1 m")),
    (Form::Box, "1800 x 550 x 900", "900", &["unit is missing"], None),
    (Form::Opening, "820 x 0 mm", "0", &["above 0"], None),
    (Form::Opening, "820 mm", "820 mm", &["width x height"], None),
];

#[test]
fn places_that_cannot_be_read_are_marked() {
    for (form, text, marked, says, instead) in REFUSED {
        let misread = match form {
            Form::Point => read_point(text).expect_err(text),
            Form::Box => read_box(text).expect_err(text),
            Form::Opening => read_opening(text).expect_err(text),
        };
        let words = format!("{} {}", misread.message, misread.why.as_deref().unwrap_or_default());
        assert_eq!(text.get(misread.at.clone()), Some(*marked), "{form:?} {text}: {misread:?}");
        assert_eq!(misread.instead.as_deref(), *instead, "{form:?} {text}: {misread:?}");
        for part in *says {
            assert!(words.contains(part), "{form:?} {text}: {part} is not in {words}");
        }
    }
}
