//! Solar strings against NEC Table 690.7(A) and hand-worked values.

use calc::{Mark, source_circuit_current, source_circuit_rating, string_cold_voltage, string_fuse_due};

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
