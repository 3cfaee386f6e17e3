//! Opening times of protective devices, their selectivity, and the conductor that stands until they open.

#![allow(clippy::expect_used, clippy::panic)]

use calc::time_current::{
    Device, Selectivity, area_between, area_that_stands, current_that_is_carried, current_that_opens, opening_time,
    opens_within, selectivity,
};
use calc::{BreakerCurve, DeviceClass, Mark};

fn fuse(class: DeviceClass, rating: f64) -> Device {
    Device { class, curve: None, rating }
}

fn breaker(curve: BreakerCurve, rating: f64) -> Device {
    Device { class: DeviceClass::Breaker60898, curve: Some(curve), rating }
}

fn seconds(device: Device, amperes: f64) -> (Option<f64>, Option<f64>) {
    let time = opening_time(device, amperes);
    (time.least.map(|time| time.seconds), time.most.map(|time| time.seconds))
}

#[track_caller]
fn same(found: Option<f64>, expected: Option<f64>, what: &str) {
    match (found, expected) {
        (None, None) => {}
        (Some(found), Some(expected)) if (found - expected).abs() <= 1e-6 * expected => {}
        _ => panic!("{what}: {found:?} against {expected:?}"),
    }
}

#[test]
fn bands_at_and_between_their_points() {
    let (blade, large) = (fuse(DeviceClass::Blade, 40.0), fuse(DeviceClass::BladeLarge, 40.0));
    let t = |rating| fuse(DeviceClass::ClassT, rating);
    // A straight line of logarithms between (2, 50 s) and (3.5, 7 s).
    let at_three = (50_f64.ln() + (1.5_f64.ln() / 1.75_f64.ln()) * (7.0_f64 / 50.0).ln()).exp();
    for (device, multiple, least, most) in [
        (blade, 0.9, Some(360_000.0), None),
        (blade, 1.1, Some(360_000.0), None),
        (blade, 1.35, Some(0.75), Some(600.0)),
        (blade, 2.0, Some(0.15), Some(5.0)),
        (blade, 6.0, Some(0.02), Some(0.15)),
        (blade, 6.1, None, None),
        (large, 3.5, Some(0.2), Some(7.0)),
        (t(200.0), 1.1, Some(900.0), None),
        (t(400.0), 1.1, Some(1_800.0), None),
        (t(60.0), 2.0, None, Some(240.0)),
        (t(400.0), 2.0, None, Some(600.0)),
        (t(1_000.0), 2.0, None, None),
        (breaker(BreakerCurve::B, 16.0), 1.13, Some(3_600.0), None),
        (breaker(BreakerCurve::B, 80.0), 1.13, Some(7_200.0), None),
        (breaker(BreakerCurve::C, 16.0), 2.55, Some(1.0), Some(60.0)),
        (breaker(BreakerCurve::C, 40.0), 2.55, Some(1.0), Some(120.0)),
        (breaker(BreakerCurve::B, 16.0), 3.0, Some(0.1), Some(45.0)),
        // At the upper end of the magnetic range the longer time stands, above it the short one.
        (breaker(BreakerCurve::B, 16.0), 5.0, None, Some(45.0)),
        (breaker(BreakerCurve::B, 16.0), 5.01, None, Some(0.1)),
        (breaker(BreakerCurve::D, 16.0), 500.0, None, Some(0.1)),
        (fuse(DeviceClass::FlatPlate, 200.0), 2.0, None, None),
        (fuse(DeviceClass::Breaker60898, 16.0), 2.55, None, None),
        (fuse(DeviceClass::Blade, -5.0), 2.0, None, None),
        (fuse(DeviceClass::Blade, f64::NAN), 2.0, None, None),
        (blade, f64::INFINITY, None, None),
    ] {
        let what = format!("{device:?} at {multiple}");
        let (found_least, found_most) = seconds(device, multiple * device.rating);
        same(found_least, least, &what);
        same(found_most, most, &what);
    }
    let between = opening_time(large, 120.0).most.expect("between two points");
    assert!((between.seconds - at_three).abs() < 1e-9);
    assert_eq!(between.mark, Mark::SecondHand);
    assert_eq!(opening_time(fuse(DeviceClass::Strip, 100.0), 300.0).most.expect("known").mark, Mark::Memory);
    // Between points that were read the line is computed.
    assert_eq!(opening_time(fuse(DeviceClass::ClassC, 100.0), 110.0).least.expect("known").mark, Mark::Read);
}

/// A device never opens later at a larger current, and never before its least time, wherever both are known.
#[test]
fn bands_fall_and_stay_open() {
    let fuses = DeviceClass::ALL.map(|class| (class, None));
    let curves = BreakerCurve::ALL.into_iter().flat_map(|curve| {
        [DeviceClass::Breaker60898, DeviceClass::Breaker60898Direct].map(|class| (class, Some(curve)))
    });
    let mut known = 0;
    for (class, curve) in fuses.into_iter().chain(curves) {
        for rating in [10.0, 50.0, 80.0, 125.0, 300.0] {
            let mut last = (f64::INFINITY, f64::INFINITY);
            for step in 0..2_000 {
                let multiple = 0.9 * 1.002_f64.powi(step);
                let (least, most) = seconds(Device { class, curve, rating }, multiple * rating);
                if let (Some(least), Some(most)) = (least, most) {
                    assert!(least < most, "{class:?} {curve:?} at {multiple}");
                    known += 1;
                }
                let now = (least.unwrap_or(last.0), most.unwrap_or(last.1));
                assert!(now.0 <= last.0 && now.1 <= last.1, "{class:?} {curve:?} at {multiple}");
                last = now;
            }
        }
    }
    assert!(known > 10_000, "{known}");
}

#[test]
fn devices_in_series() {
    let (small, large) = (fuse(DeviceClass::Blade, 10.0), fuse(DeviceClass::BladeLarge, 60.0));
    // 10 A blade below a 60 A large blade: at 60 A the small one is out in 0.15 s, the large one holds for hours.
    assert_eq!(selectivity(large, small, 20.0, 60.0), Some(Selectivity::Selective));
    // Beyond six times its rating nothing is said of the small one.
    assert!(matches!(selectivity(large, small, 20.0, 90.0), Some(Selectivity::Unknown { amperes }) if amperes > 60.0));
    // Two of nearly one rating open in either order.
    let near = fuse(DeviceClass::Blade, 15.0);
    assert!(matches!(selectivity(near, small, 20.0, 60.0), Some(Selectivity::NotSelective { .. })));
    // Of the upstream device no band is known.
    let plate = fuse(DeviceClass::FlatPlate, 300.0);
    assert_eq!(selectivity(plate, small, 20.0, 60.0), Some(Selectivity::Unknown { amperes: 20.0 }));
    // A breaker's magnetic part is sure from five times its rating; the large fuse upstream lasts longer than 0.1 s up to 3.5 times its own.
    let b10 = breaker(BreakerCurve::B, 10.0);
    assert_eq!(selectivity(fuse(DeviceClass::BladeLarge, 80.0), b10, 81.0, 280.0), Some(Selectivity::Selective));
    for (from, to) in [(60.0, 20.0), (0.0, 20.0), (f64::NAN, 20.0), (1.0, f64::INFINITY)] {
        assert_eq!(selectivity(large, small, from, to), None);
    }
}

#[test]
fn conductor_until_the_device_opens() {
    // k 115 A·√s/mm², 140 A through a 40 A blade: 3.5 times, at most 0.5 s.
    let area = area_that_stands(fuse(DeviceClass::Blade, 40.0), 140.0, 115e6).expect("half a second");
    assert!((area * 1e6 - 140.0 * 0.5_f64.sqrt() / 115.0).abs() < 1e-9);
    // Ten minutes are no adiabatic case, and an unknown time is no pass.
    assert_eq!(area_that_stands(fuse(DeviceClass::Blade, 40.0), 54.0, 115e6), None);
    assert_eq!(area_that_stands(fuse(DeviceClass::FlatPlate, 40.0), 400.0, 115e6), None);
}

#[test]
fn the_current_from_which_a_device_opens_in_time() {
    let (blade, large) = (fuse(DeviceClass::Blade, 10.0), fuse(DeviceClass::BladeLarge, 40.0));
    let strip = fuse(DeviceClass::Strip, 100.0);
    // Straight lines of logarithms: blade from (1.35, 600 s) to (2, 5 s), large blade from (2, 50 s) to (3.5, 7 s).
    let between =
        |low: f64, slow: f64, high: f64, quick: f64| low * (high / low).powf((10.0 / slow).ln() / (quick / slow).ln());
    for (device, expected) in [
        (blade, Some(10.0 * between(1.35, 600.0, 2.0, 5.0))),
        (large, Some(40.0 * between(2.0, 50.0, 3.5, 7.0))),
        (strip, Some(100.0 * between(2.0, 15.0, 3.5, 5.0))),
        // Of a breaker only the magnetic part is quick enough.
        (breaker(BreakerCurve::B, 16.0), Some(80.0)),
        (breaker(BreakerCurve::C, 16.0), Some(160.0)),
        (fuse(DeviceClass::ClassT, 100.0), None),
        (fuse(DeviceClass::FlatPlate, 100.0), None),
        (fuse(DeviceClass::Blade, 0.0), None),
    ] {
        same(current_that_opens(device, 10.0).map(|found| found.amperes), expected, &format!("{device:?}"));
        // What opens from there on opens in that time there.
        if let Some(found) = expected {
            let time = opens_within(device, found * (1.0 + 1e-6)).expect("a time");
            assert!(time.seconds <= 10.0 + 1e-6, "{device:?}: {}", time.seconds);
        }
    }
    same(current_that_is_carried(fuse(DeviceClass::ClassT, 100.0), 10.0).map(|found| found.amperes), Some(110.0), "T");
    let carried = current_that_is_carried(blade, 10.0).expect("a point").amperes;
    assert!((11.0..13.5).contains(&carried), "{carried}");
    assert_eq!(current_that_is_carried(fuse(DeviceClass::Cylindrical, 10.0), 10.0), None);
    assert_eq!(current_that_opens(blade, f64::NAN), None);
    // A larger current opens a fuse no later than the last point of its band.
    same(opens_within(blade, 1_000.0).map(|time| time.seconds), Some(0.15), "beyond");
}

#[test]
fn the_most_that_a_fuse_lets_through() {
    let strip = fuse(DeviceClass::Strip, 40.0);
    let k = 87e6;
    // At 3.5 times 5 s, at 6 times 1 s: I²t is largest where it is slowest, and does not rise beyond the last point.
    let slow = 140.0 * 5_f64.sqrt() / k;
    same(area_between(strip, 140.0, 5_000.0, k), Some(slow), "from the slow point on");
    let quick = 240.0 / k;
    same(area_between(strip, 1_000.0, 5_000.0, k), Some(quick), "beyond the last point");
    // Below the slow point it takes longer than the equation holds; of a breaker and of class T nothing is said.
    assert_eq!(area_between(strip, 100.0, 5_000.0, k), None);
    assert_eq!(area_between(breaker(BreakerCurve::C, 16.0), 200.0, 400.0, k), None);
    assert_eq!(area_between(fuse(DeviceClass::ClassT, 100.0), 500.0, 900.0, k), None);
    assert_eq!(area_between(strip, 200.0, 100.0, k), None);
}
