//! Mains supply of a vehicle against the texts, and the worked example of an inverter that cannot trip a breaker.

use calc::{
    BreakerCurve, ConductorSize, CordEntry, Mark, alternating_input_current, cord_length_limits,
    most_circuits_on_inlet, reel_factor, smallest_chassis_bond, smallest_protective_conductor, supply_lead_area,
};

#[track_caller]
fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} against {expected}");
}

/// IEC 60364-7-721 Table 721.1: 16 A second-hand, the others from memory.
#[test]
fn supply_lead() {
    for (rating, mm2, mark) in [
        (10.0, 2.5, Mark::SecondHand),
        (16.0, 2.5, Mark::SecondHand),
        (20.0, 4.0, Mark::Memory),
        (25.0, 4.0, Mark::Memory),
        (32.0, 6.0, Mark::Memory),
        (63.0, 16.0, Mark::Memory),
        (100.0, 35.0, Mark::Memory),
    ] {
        let (area, citation) = supply_lead_area(rating).expect("the table has a row");
        close(area * 1e6, mm2, 1e-12);
        assert_eq!(citation.mark, mark, "{rating} A");
    }
    assert_eq!(supply_lead_area(125.0), None);
}

/// BS 7671, notes to Table 4F1A: one to four layers; a 25 A cord on four layers carries 8.75 A.
#[test]
fn cord_on_a_reel() {
    let factors: Vec<f64> = (0..=4).filter_map(|layers| reel_factor(layers).map(|found| found.0)).collect();
    assert_eq!(factors, [1.0, 0.85, 0.65, 0.45, 0.35]);
    close(25.0 * factors[4], 8.75, 1e-12);
    assert_eq!(reel_factor(5), None);
}

/// BS 7671 Table 54.7: the same to 16 mm², 16 mm² to 35 mm², half above.
#[test]
fn protective_conductor() {
    for (line, protective) in [(1.5, 1.5), (16.0, 16.0), (25.0, 16.0), (35.0, 16.0), (50.0, 25.0), (120.0, 60.0)] {
        let found = smallest_protective_conductor(line * 1e-6).expect("an area");
        close(found * 1e6, protective, 1e-9);
    }
}

/// NEC 551.56(C) and IEC 60364-7-721.
#[test]
fn bond_of_the_frame() {
    assert_eq!(smallest_chassis_bond(true).0, ConductorSize::Awg(8));
    assert_eq!(smallest_chassis_bond(false).0, ConductorSize::Area(4e-6));
    assert_eq!(smallest_chassis_bond(false).1.mark, Mark::Memory);
}

/// NEC 551.42: one circuit on 15 or 20 A, two to five on 30 A.
#[test]
fn circuits_of_an_inlet() {
    let most = |amperes| most_circuits_on_inlet(amperes).map(|found| found.0);
    assert_eq!([15.0, 20.0, 30.0, 50.0, 16.0].map(most), [Some(1), Some(1), Some(5), None, None]);
}

/// NEC 552.44(B): 7.0 m (23 ft) at the side, 8.5 m (28 ft) at the rear, more above 0.9 m; at most 11 m (36.5 ft).
#[test]
fn cord_of_a_park_trailer() {
    let limits = |entry, height| cord_length_limits(entry, height).expect("a height");
    assert_eq!(limits(CordEntry::Side, 0.5), (7.0, 11.0));
    assert_eq!(limits(CordEntry::Rear, 0.9), (8.5, 11.0));
    close(limits(CordEntry::Side, 1.2).0, 7.3, 1e-12);
    close(limits(CordEntry::Rear, 1.2).0, 8.8, 1e-12);
    // The printed feet.
    close(23.0 * 0.3048, 7.0, 0.005);
    close(36.5 * 0.3048, 11.0, 0.015);
}

/// Worked: a 3 kVA inverter gives twice its 13.0 A for a moment, 26.1 A; a B10 breaker needs 30 to 50 A to trip at once, so it does not.
/// A residual-current device of 30 mA at 50 V opens up to 1,667 Ω.
#[test]
fn an_inverter_does_not_trip_a_breaker() {
    let fault = 2.0 * alternating_input_current(3_000.0, 230.0, 1.0).expect("usable numbers");
    close(fault, 26.1, 0.001);
    let (never, always) = BreakerCurve::B.instantaneous_range();
    assert_eq!((never * 10.0, always * 10.0), (30.0, 50.0));
    assert!(fault < never * 10.0);
    close(50.0 / 30e-3, 1_667.0, 0.001);
}

/// Published in a forum for a roof unit: 65 A at 110 V at its start, 7,150 W.
#[test]
fn start_of_a_roof_unit() {
    close(alternating_input_current(7_150.0, 110.0, 1.0).expect("usable numbers"), 65.0, 1e-12);
}
