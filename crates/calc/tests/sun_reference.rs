//! The sun against pvlib 0.16.1: `reference/make_sun_reference.py` makes the values (versions in `reference/requirements-sun.txt`) and
//! writes `reference/sun_reference.json`, which is read here.
//!
//! Tolerances: 1e-9 where both sides are the same formula (the file keeps twelve figures); 0.3° of the sun's place against NREL's
//! algorithm, since the year is not known: at an equinox the sun moves by 0.4° a day, and leap years shift a date by up to half a day to
//! either side; the wider ones are argued where they stand.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use std::f64::consts::TAU;

use calc::sun::{
    Array, Irradiance, Losses, Plane, SunPosition, Transposition, array_day, array_power, cell_temperature, clear_day,
    clear_sky, declination, equation_of_time, irradiance_above_air, mean_day, mean_day_of, on_plane, plane_irradiance,
    position_by_declination, pressure_at_altitude, refraction, relative_air_mass, sun_position,
};
use serde_json::Value;

const REFERENCE: &str = include_str!("reference/sun_reference.json");
/// Same formula on both sides.
const SAME: f64 = 1e-9;

/// The rows of a kind.
fn rows(kind: &str, at_least: usize) -> Vec<Value> {
    let file: Value = serde_json::from_str(REFERENCE).expect("the script writes JSON");
    let rows = file[kind].as_array().expect("the kind is there").clone();
    assert!(rows.len() >= at_least, "{} rows of {kind}", rows.len());
    rows
}

fn number(row: &Value, key: &str) -> f64 {
    row[key].as_f64().expect("the script writes numbers")
}

#[track_caller]
fn close(row: &Value, value: f64, key: &str, relative: f64, absolute: f64) {
    let expected = number(row, key);
    assert!(
        (value - expected).abs() <= relative * expected.abs() + absolute,
        "{key} {value} against {expected}: {row}"
    );
}

/// A direction's difference, degrees, over north too.
fn turn(one: f64, other: f64) -> f64 {
    let difference = (one - other).rem_euclid(360.0);
    difference.min(360.0 - difference)
}

/// NREL's algorithm in a common and a leap year. Half a day is up to 0.2° of declination, 15 s of the equation of time, and 0.02 % of the
/// irradiance.
#[test]
fn course_of_the_year() {
    for row in rows("year", 20) {
        let day = number(&row, "day");
        close(&row, declination(day), "declination", 0.0, 0.2_f64.to_radians());
        close(&row, equation_of_time(day), "equation_of_time", 0.0, 15.0);
        close(&row, irradiance_above_air(day), "above_air", 3e-4, 0.0);
    }
}

#[test]
fn position_by_geometry() {
    for row in rows("geometry", 80) {
        let latitude = number(&row, "latitude").to_radians();
        let at = position_by_declination(latitude, number(&row, "declination"), number(&row, "solar_seconds"))
            .expect("usable numbers");
        close(&row, at.zenith, "zenith", SAME, 0.0);
        // Near the meridian the reference takes an arc cosine, which keeps half of the figures.
        close(&row, at.azimuth, "azimuth", 1e-7, 0.0);
    }
}

/// By NREL's algorithm, in a common and a leap year. Azimuth counts by its arc in the sky: near the zenith a direction means little.
#[test]
fn position_by_the_nrel_algorithm() {
    for row in rows("position", 150) {
        let day = number(&row, "day");
        let solar = number(&row, "utc_seconds") + equation_of_time(day);
        let at = sun_position(number(&row, "latitude").to_radians(), day, solar).expect("usable numbers");
        let tolerance = 0.3;
        close(&row, at.zenith.to_degrees(), "zenith", 0.0, tolerance);
        close(&row, at.apparent_zenith.to_degrees(), "apparent_zenith", 0.0, tolerance);
        let arc = turn(at.azimuth.to_degrees(), number(&row, "azimuth")) * at.zenith.sin();
        assert!(arc <= tolerance, "azimuth {arc}: {row}");
    }
}

#[test]
fn air() {
    for row in rows("refraction", 6) {
        close(&row, refraction(number(&row, "elevation").to_radians()).to_degrees(), "degrees", SAME, 1e-12);
    }
    for row in rows("pressure", 4) {
        close(&row, pressure_at_altitude(number(&row, "metres")).expect("in the troposphere"), "pascals", SAME, 0.0);
    }
    for row in rows("air_mass", 6) {
        let mass = relative_air_mass(number(&row, "zenith").to_radians()).expect("above the horizon");
        close(&row, mass, "mass", SAME, 0.0);
    }
    for row in rows("clear_sky", 24) {
        let metres = number(&row, "metres");
        let light = clear_sky(
            number(&row, "zenith").to_radians(),
            pressure_at_altitude(metres).expect("in the troposphere"),
            number(&row, "turbidity"),
            metres,
            number(&row, "above_air"),
        )
        .expect("usable numbers");
        close(&row, light.global, "ghi", SAME, 0.0);
        close(&row, light.beam, "dni", SAME, 0.0);
        // A difference of two like numbers.
        close(&row, light.diffuse, "dhi", SAME, 1e-8);
    }
}

#[test]
fn tilted_planes() {
    for row in rows("plane", 30) {
        let radians = |key| number(&row, key).to_radians();
        let plane = Plane { tilt: radians("tilt"), azimuth: radians("facing"), albedo: 0.2 };
        let sun =
            SunPosition { zenith: radians("zenith"), apparent_zenith: radians("zenith"), azimuth: radians("azimuth") };
        let light = Irradiance { global: number(&row, "ghi"), beam: number(&row, "dni"), diffuse: number(&row, "dhi") };
        let on = |sky| plane_irradiance(&plane, &sun, &light, number(&row, "above_air"), sky).expect("usable");
        close(&row, on(Transposition::Isotropic), "isotropic", SAME, 0.0);
        close(&row, on(Transposition::HayDavies), "haydavies", SAME, 0.0);
    }
}

#[test]
fn modules() {
    for row in rows("cell", 3) {
        let kelvin = cell_temperature(number(&row, "air") + 273.15, number(&row, "irradiance"), number(&row, "rise"));
        close(&row, kelvin.expect("usable") - 273.15, "cell", SAME, 1e-9);
    }
    for row in rows("power", 4) {
        let watts = array_power(
            number(&row, "rated"),
            number(&row, "irradiance"),
            number(&row, "cell") + 273.15,
            number(&row, "coefficient"),
        );
        close(&row, watts.expect("usable"), "watts", SAME, 0.0);
    }
    for row in rows("losses", 1) {
        let left = Losses::typical().with(calc::sun::Loss::Controller, 0.0).left().expect("all of them known");
        close(&row, (1.0 - left) * 100.0, "percent", SAME, 0.0);
    }
}

/// A plane of a row.
fn plane_of(row: &Value) -> Plane {
    Plane { tilt: number(row, "tilt").to_radians(), azimuth: number(row, "facing").to_radians(), albedo: 0.2 }
}

/// Whole clear days: the same models, but quarter hours against minutes and a sun of no year against that of 2023, whose tenths of a degree are
/// 1 % of the winter's low sun at 60°; 20 kJ/m² (6 Wh/m²) are the quarter hours of sunrise and sunset.
#[test]
fn clear_days_by_pvlib() {
    let array = Array { rated_watts: 1.0, power_coefficient: -0.0037, rise: 0.0342, left: 1.0 };
    for row in rows("clear_day", 100) {
        let month = number(&row, "month") as u8;
        let latitude = number(&row, "latitude").to_radians();
        let sky = clear_day(latitude, 100.0, mean_day_of(month).expect("a month"), 3.0).expect("usable numbers");
        close(&row, sky.irradiation(), "level", 0.01, 20e3);
        let plane = on_plane(&sky, &plane_of(&row), Transposition::HayDavies).expect("usable numbers");
        close(&row, plane.over_day(), "plane", 0.015, 20e3);
        let watts = array_day(&array, &plane, 15.0 + 273.15).expect("usable numbers");
        close(&row, watts.over_day(), "array", 0.015, 20.0);
    }
}

/// Mean days in quarter hours against the same formulas in minutes: 1 %, and 20 kJ/m² for the quarter hours of sunrise and sunset.
#[test]
fn mean_days_in_minutes() {
    for row in rows("mean_day", 100) {
        let month = number(&row, "month") as u8;
        let latitude = number(&row, "latitude").to_radians();
        let daily = number(&row, "daily");
        let sky = mean_day(latitude, mean_day_of(month).expect("a month"), daily).expect("usable numbers");
        close(&row, sky.irradiation(), "daily", SAME, 0.0);
        let diffuse: f64 = sky.light.iter().map(|light| light.diffuse).sum::<f64>() * 900.0;
        close(&row, diffuse, "diffuse", 0.01, 0.0);
        let plane = on_plane(&sky, &plane_of(&row), Transposition::HayDavies).expect("usable numbers");
        close(&row, plane.over_day(), "plane", 0.01, 20e3);
    }
}

/// The mean day against a typical year of hours (Greensboro, TMY3): what a month brings to planes, from its level irradiation alone.
///
/// The level plane must be exact but for the days of the month. On others the diffuse share decides, which the correlation gives for a mean
/// climate: this file's January has more diffuse light (0.47 of the whole) than its clearness tells, which a steep plane shows most. Months are
/// held to what such a share makes, the year, in which it evens out, to 2.5 %.
#[test]
fn mean_days_against_a_typical_year() {
    let mut years: Vec<((f64, f64), f64, f64)> = Vec::new();
    for row in rows("typical_year", 60) {
        let latitude = number(&row, "latitude").to_radians();
        let day = mean_day_of(number(&row, "month") as u8).expect("a month");
        let sky = mean_day(latitude, day, number(&row, "level")).expect("usable numbers");
        let plane = on_plane(&sky, &plane_of(&row), Transposition::HayDavies).expect("usable numbers");
        let tilt = number(&row, "tilt");
        let tolerance = match tilt {
            0.0 => 0.005,
            30.0 => 0.08,
            60.0 => 0.12,
            _ => 0.14,
        };
        close(&row, plane.over_day(), "plane", tolerance, 0.0);
        let kind = (tilt, number(&row, "facing"));
        if years.last().is_none_or(|year| year.0 != kind) {
            years.push((kind, 0.0, 0.0));
        }
        let year = years.last_mut().expect("pushed above");
        year.1 += plane.over_day();
        year.2 += number(&row, "plane");
    }
    assert_eq!(years.len(), 5);
    for (kind, ours, theirs) in years {
        assert!((ours / theirs - 1.0).abs() < 0.025, "{kind:?}: {}", ours / theirs);
    }
}

/// A year angle of the plane's direction makes no difference.
#[test]
fn whole_turns_are_nothing() {
    let sky = clear_day(0.9, 0.0, 100.0, 3.0).expect("usable numbers");
    let [one, other] = [1.0, 1.0 + TAU].map(|azimuth| {
        let plane = Plane { tilt: 0.5, azimuth, albedo: 0.2 };
        on_plane(&sky, &plane, Transposition::HayDavies).expect("usable numbers").over_day()
    });
    assert!((one - other).abs() <= 1e-9 * one);
}
