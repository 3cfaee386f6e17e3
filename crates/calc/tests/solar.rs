//! Solar strings against NEC Table 690.7(A) and hand-worked values.

use calc::{
    Mark, most_modules_in_series, source_circuit_current, source_circuit_rating, string_back_feed, string_cold_voltage,
    string_fuse_due, string_fuse_needed,
};

fn celsius(value: f64) -> f64 {
    value + 273.15
}

/// NEC Table 690.7(A) (from memory), each row at its warm and its cold end, and half a degree past the warm end, which is the colder row.
#[test]
fn table_factors() {
    let rows = [
        (24.0, 20.0, 1.02),
        (19.0, 15.0, 1.04),
        (14.0, 10.0, 1.06),
        (9.0, 5.0, 1.08),
        (4.0, 0.0, 1.10),
        (-1.0, -5.0, 1.12),
        (-6.0, -10.0, 1.14),
        (-11.0, -15.0, 1.16),
        (-16.0, -20.0, 1.18),
        (-21.0, -25.0, 1.20),
        (-26.0, -30.0, 1.21),
        (-31.0, -35.0, 1.23),
        (-36.0, -40.0, 1.25),
    ];
    for (warm, cold, factor) in rows {
        for temperature in [warm + 0.5, warm, cold] {
            let found = string_cold_voltage(40.0, 3, None, celsius(temperature)).expect("the table has a row");
            assert_eq!(found.factor, factor, "{temperature} °C");
            assert!((found.volts - 120.0 * factor).abs() < 1e-9);
            assert_eq!(found.citation.mark, Mark::Memory);
        }
    }
    assert_eq!(string_cold_voltage(40.0, 1, None, celsius(-41.0)), None);
    assert_eq!(string_cold_voltage(40.0, 1, None, celsius(25.0)).map(|found| found.volts), Some(40.0));
}

/// By hand: −0.28 %/K at −20 °C is 45 K of 0.0028, 1.126; the table without a coefficient is harsher, 1.18.
#[test]
fn coefficient_of_the_maker() {
    for coefficient in [-0.0028, 0.0028] {
        let found = string_cold_voltage(22.0, 2, Some(coefficient), celsius(-20.0)).expect("usable numbers");
        assert!((found.factor - 1.126).abs() < 1e-12 && (found.volts - 49.544).abs() < 1e-9);
    }
    // A string is not reckoned lower for a warm place: any clear morning is cold.
    assert_eq!(string_cold_voltage(22.0, 2, Some(-0.0028), celsius(40.0)).map(|found| found.volts), Some(44.0));
}

/// NEC 690.8 (from memory): 125 %, and 125 % of that, printed as 156 %. 690.9: fuses for more than two strings.
#[test]
fn currents_and_fuses() {
    assert_eq!(source_circuit_current(10.0, 3), Some(37.5));
    let rating = source_circuit_rating(10.0, 1).expect("usable numbers");
    assert!((rating - 15.6).abs() < 0.05);
    assert_eq!((1..=4).map(string_fuse_due).collect::<Vec<_>>(), [false, false, true, true]);
}

/// Published example: modules of 5 A with a largest fuse of 15 A; two strings drive 12.5 A into the third, which needs no fuse; with a fourth it
/// is 18.75 A. By hand: 10 A and 20 A, three strings drive 25 A.
#[test]
fn back_feed_of_the_other_strings() {
    assert_eq!(string_back_feed(5.0, 3), Some(12.5));
    let needed = |amperes, fuse| (1..=4).map(|strings| string_fuse_needed(amperes, strings, fuse)).collect::<Vec<_>>();
    assert_eq!(needed(5.0, 15.0), [Some(false), Some(false), Some(false), Some(true)]);
    assert_eq!(needed(10.0, 20.0), [Some(false), Some(false), Some(true), Some(true)]);
    // At the fuse's own rating the modules still stand it.
    assert_eq!(string_fuse_needed(8.0, 3, 20.0), Some(false));
    for (amperes, strings, fuse) in [(f64::NAN, 3, 15.0), (5.0, 0, 15.0), (5.0, 3, f64::INFINITY), (5.0, 3, 0.0)] {
        assert_eq!(string_fuse_needed(amperes, strings, fuse), None);
    }
}

/// By hand: 22 V, 1.126 at −20 °C by the maker's coefficient are 24.772 V; four of them 99.1 V of 100 V. By the table, 1.18, 25.96 V: three.
#[test]
fn longest_string() {
    let cold = celsius(-20.0);
    assert_eq!(most_modules_in_series(22.0, Some(-0.0028), cold, 100.0), Some(4));
    assert_eq!(most_modules_in_series(22.0, None, cold, 100.0), Some(3));
    assert_eq!(most_modules_in_series(22.0, None, cold, 20.0), Some(0));
    // An exact fit counts, though it does not divide evenly in binary.
    for modules in 1..40 {
        let one = string_cold_voltage(21.7, 1, Some(-0.0031), cold).expect("usable numbers").volts;
        assert_eq!(most_modules_in_series(21.7, Some(-0.0031), cold, one * f64::from(modules)), Some(modules));
    }
    assert_eq!(most_modules_in_series(22.0, None, celsius(-41.0), 100.0), None);
    assert_eq!(most_modules_in_series(22.0, None, cold, f64::NAN), None);
}
