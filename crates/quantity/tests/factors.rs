//! The factors of the table against published values, and the table against itself.

use std::collections::HashMap;

use quantity::{read, unit_by_identifier, units};

/// NIST SP 811 (2008), appendix B.8, factors to SI as printed there (from memory), with the relative rounding of the print.
const NIST_SP_811: &[(&str, f64, f64)] = &[
    ("inch", 2.54e-2, 0.0),
    ("ft", 3.048e-1, 0.0),
    ("yd", 9.144e-1, 0.0),
    ("mi", 1.609344e3, 0.0),
    ("in2", 6.4516e-4, 0.0),
    ("ft2", 9.290304e-2, 0.0),
    ("in3", 1.638706e-5, 1e-6),
    ("ft3", 2.831685e-2, 1e-6),
    ("flozUS", 2.957353e-5, 1e-6),
    ("galUS", 3.785412e-3, 1e-6),
    ("galUK", 4.54609e-3, 0.0),
    ("oz", 2.834952e-2, 1e-6),
    ("lb", 4.5359237e-1, 0.0),
    ("t", 1e3, 0.0),
    ("Btu", 1.055056e3, 1e-6),
    ("Btu_per_h", 2.930711e-1, 1e-6),
    ("hp", 7.456999e2, 1e-6),
    ("PS", 7.354988e2, 1e-6),
    ("Wh", 3.6e3, 0.0),
    ("kWh", 3.6e6, 0.0),
    ("Ah", 3.6e3, 0.0),
    ("ft_lbf", 1.355818, 1e-6),
    ("in_lbf", 1.129848e-1, 1e-6),
    ("psi", 6.894757e3, 1e-6),
    ("inwc", 2.490889e2, 1e-6),
    ("inHg", 3.386389e3, 1e-6),
    ("bar", 1e5, 0.0),
    ("cfm", 4.719474e-4, 1e-6),
    ("galUS_per_min", 6.309020e-5, 1e-6),
    ("galUS_per_d", 4.381264e-8, 1e-6),
    ("kgf", 9.80665, 0.0),
    ("lbf", 4.448222, 1e-6),
    ("g_n", 9.80665, 0.0),
    ("ft_per_s2", 3.048e-1, 0.0),
    ("mph", 4.4704e-1, 0.0),
    ("km_per_h", 2.777778e-1, 1e-6),
    ("ft_per_min", 5.08e-3, 0.0),
    ("deg", 1.745329e-2, 1e-6),
    ("rpm", 1.666667e-2, 1e-6),
    ("Btu_in_per_hft2degF", 1.442279e-1, 1e-6),
    ("Btu_per_hftdegF", 1.730735, 1e-6),
    ("Btu_per_hft2degF", 5.678263, 1e-6),
    ("hft2degF_per_Btu", 1.761102e-1, 1e-6),
    ("Btu_per_hft2", 3.154591, 1e-6),
    ("lb_per_ft2", 4.882428, 1e-6),
    ("lb_per_ft3", 1.601846e1, 1e-6),
    ("lb_per_h", 1.259979e-4, 1e-6),
    ("Btu_per_lb", 2.326e3, 1e-9),
    ("degF_difference", 5.555556e-1, 1e-6),
];

#[test]
fn factors_agree_with_published_ones() {
    const BINARY: f64 = 1e-14;
    for (identifier, printed, rounding) in NIST_SP_811 {
        let unit = unit_by_identifier(identifier).unwrap_or_else(|| panic!("no unit {identifier}"));
        let error = (unit.factor / printed - 1.0).abs();
        assert!(error <= rounding + BINARY, "{identifier}: {} against {printed}", unit.factor);
    }
}

#[test]
fn thermometers_meet_at_their_fixed_points() {
    for (celsius, fahrenheit) in [(0.0, 32.0), (100.0, 212.0), (-40.0, -40.0), (37.0, 98.6), (-273.15, -459.67)] {
        let celsius = unit_by_identifier("degC").unwrap().to_si(celsius);
        let fahrenheit = unit_by_identifier("degF").unwrap().to_si(fahrenheit);
        assert!((celsius - fahrenheit).abs() < 1e-9, "{celsius} {fahrenheit}");
    }
}

#[test]
fn identifiers_are_plain_names_and_distinct() {
    let mut seen = HashMap::new();
    for unit in units() {
        let plain = unit.identifier.chars().all(|character| character.is_ascii_alphanumeric() || character == '_');
        let starts = unit.identifier.starts_with(|character: char| character.is_ascii_alphabetic());
        assert!(plain && starts, "{}", unit.identifier);
        assert_eq!(seen.insert(unit.identifier, unit.symbol), None, "{} is there twice", unit.identifier);
        assert!(unit.factor > 0.0 && unit.factor.is_finite());
        assert_eq!(unit.offset != 0.0, unit.dimension.absolute, "{}", unit.identifier);
    }
    // `in` is a keyword of the rules' language.
    assert!(unit_by_identifier("in").is_none() && unit_by_identifier("inch").is_some());
}

#[test]
fn every_spelling_of_every_unit_is_read_as_that_unit() {
    for unit in units() {
        for spelling in [unit.symbol].iter().chain(unit.also) {
            for text in [format!("7 {spelling}"), format!("7{spelling}")] {
                match read(&text, unit.dimension) {
                    Ok(quantity) => assert_eq!(quantity.value, unit.to_si(7.0), "{text}"),
                    Err(misread) => panic!("{text} for {}: {misread:?}", unit.identifier),
                }
            }
        }
    }
}

#[test]
fn every_slip_is_refused_with_a_mend_that_means_the_unit() {
    for unit in units() {
        for slip in unit.slips {
            let text = format!("7 {slip}");
            let misread = read(&text, unit.dimension).expect_err(&text);
            let mended = misread.instead.unwrap_or_else(|| panic!("{text}: no mend, {}", misread.message));
            assert_eq!(read(&mended, unit.dimension).unwrap().value, unit.to_si(7.0), "{text} → {mended}");
        }
    }
}
