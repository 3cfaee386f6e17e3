//! What has the plans of a unit approved, against the numbers of the text in its own units.

use calc::{PLAN_LIMITS, load_by_area};

fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} is not {expected}");
}

/// 500 lb is 226.8 kg, 16 ft² 1.4864 m², 30 A at 120 V 3.6 kW.
#[test]
fn the_limits_are_those_of_the_text() {
    close(PLAN_LIMITS.load, 226.796, 1e-5);
    close(PLAN_LIMITS.load_area, 1.486_45, 1e-5);
    close(PLAN_LIMITS.power, 3_600.0, 1e-12);
}

/// 24 CFR 3280.305: 40 lb/ft² is printed as 195 kg/m².
#[test]
fn load_by_area_is_mass_over_area() {
    let load = load_by_area(40.0 * 0.453_592_37, 0.3048 * 0.3048);
    assert!(load.is_some_and(|load| (load - 195.0).abs() < 0.5), "{load:?}");
    for (mass, area) in [(f64::NAN, 1.0), (1.0, 0.0), (-1.0, 1.0), (1.0, f64::INFINITY), (f64::MAX, 1e-9)] {
        assert_eq!(load_by_area(mass, area), None, "{mass} {area}");
    }
}
