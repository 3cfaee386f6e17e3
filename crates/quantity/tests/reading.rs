//! What builders write is read to the right value.

use quantity::{Dimension as D, read, read_non_negative};

/// Largest relative difference between the value read and the value expected, which has all its digits here.
const TOLERANCE: f64 = 1e-9;

fn near(value: f64, expected: f64) -> bool {
    (value - expected).abs() <= TOLERANCE * expected.abs().max(1e-12)
}

#[test]
fn quantities_are_read_in_si_units() {
    let cases: &[(&str, D, f64)] = &[
        ("2.4 m", D::LENGTH, 2.4),
        ("1.88 m", D::LENGTH, 1.88),
        ("1500 mm", D::LENGTH, 1.5),
        ("2.4m", D::LENGTH, 2.4),
        ("  2.4   m ", D::LENGTH, 2.4),
        ("2.4\u{a0}m", D::LENGTH, 2.4),
        ("2.4\u{2009}m", D::LENGTH, 2.4),
        ("2.4\u{202f}m", D::LENGTH, 2.4),
        ("+2.4 m", D::LENGTH, 2.4),
        (".5 in", D::LENGTH, 0.0127),
        ("8 ft 6 in", D::LENGTH, 2.5908),
        ("8 ft 6 1/2 in", D::LENGTH, 2.6035),
        ("-8 ft 6 in", D::LENGTH, -2.5908),
        ("8' 6\"", D::LENGTH, 2.5908),
        ("8'6\"", D::LENGTH, 2.5908),
        ("8′ 6″", D::LENGTH, 2.5908),
        ("8’6”", D::LENGTH, 2.5908),
        ("5'-6 1/2\"", D::LENGTH, 1.6891),
        ("6''", D::LENGTH, 0.1524),
        ("3/8 in", D::LENGTH, 0.009525),
        ("3⁄8 in", D::LENGTH, 0.009525),
        ("1 1/2 in", D::LENGTH, 0.0381),
        ("1-1/2 in", D::LENGTH, 0.0381),
        ("1½ in", D::LENGTH, 0.0381),
        ("1 ½ in", D::LENGTH, 0.0381),
        ("¾ in", D::LENGTH, 0.01905),
        ("1e3 mm", D::LENGTH, 1.0),
        ("12 inch", D::LENGTH, 0.3048),
        ("25 µm", D::LENGTH, 25e-6),
        ("35 mm2", D::AREA, 35e-6),
        ("35 mm²", D::AREA, 35e-6),
        ("35 mm^2", D::AREA, 35e-6),
        ("40 cm2", D::AREA, 40e-4),
        ("6.8 m2", D::AREA, 6.8),
        ("10 sq ft", D::AREA, 0.9290304),
        ("14 in²", D::AREA, 14.0 * 0.00064516),
        ("70 l", D::VOLUME, 0.07),
        ("70 L", D::VOLUME, 0.07),
        ("5 galUS", D::VOLUME, 5.0 * 3.785411784e-3),
        ("5 US gal", D::VOLUME, 5.0 * 3.785411784e-3),
        ("5 galUK", D::VOLUME, 5.0 * 4.54609e-3),
        ("12 ft3", D::VOLUME, 12.0 * 0.028316846592),
        ("3500 kg", D::MASS, 3500.0),
        ("150 lb", D::MASS, 150.0 * 0.45359237),
        ("10 lb 8 oz", D::MASS, 10.5 * 0.45359237),
        ("20 g", D::MASS, 0.02),
        ("20 g", D::ACCELERATION, 196.133),
        ("0.95 g", D::ACCELERATION, 0.95 * 9.80665),
        ("2 d", D::TIME, 172_800.0),
        ("1 h 30 min", D::TIME, 5400.0),
        ("20 min/d", D::RATIO, 20.0 / 1440.0),
        ("1.5 h/d", D::RATIO, 0.0625),
        ("92 %", D::RATIO, 0.92),
        ("92%", D::RATIO, 0.92),
        ("0.92", D::RATIO, 0.92),
        ("10 mm/m", D::RATIO, 0.01),
        ("50 ppm", D::RATIO, 50e-6),
        ("16 A", D::CURRENT, 16.0),
        ("30 mA", D::CURRENT, 0.03),
        ("10 kA", D::CURRENT, 10_000.0),
        ("120 V", D::VOLTAGE, 120.0),
        ("2 kW", D::POWER, 2000.0),
        ("2000 VA", D::POWER, 2000.0),
        ("400 Wp", D::POWER, 400.0),
        ("12000 Btu/h", D::POWER, 12_000.0 * 1_055.055_852_62 / 3600.0),
        ("12000 BTU/h", D::POWER, 12_000.0 * 1_055.055_852_62 / 3600.0),
        ("5 MJ/h", D::POWER, 5e6 / 3600.0),
        ("500 Wh/d", D::POWER, 500.0 / 24.0),
        ("1.5 kWh", D::ENERGY, 5.4e6),
        ("12 N·m", D::ENERGY, 12.0),
        ("12 Nm", D::ENERGY, 12.0),
        ("200 Ah", D::CHARGE, 720_000.0),
        ("8 mohm", D::RESISTANCE, 0.008),
        ("8 mΩ", D::RESISTANCE, 0.008),
        ("8 m\u{2126}", D::RESISTANCE, 0.008),
        ("-12 degC", D::TEMPERATURE, 261.15),
        ("\u{2212}12 °C", D::TEMPERATURE, 261.15),
        ("35 ℃", D::TEMPERATURE, 308.15),
        ("10 °F", D::TEMPERATURE, 260.927_777_777_777_8),
        ("10 degF", D::TEMPERATURE, 260.927_777_777_777_8),
        ("-273.15 degC", D::TEMPERATURE, 0.0),
        ("5 K", D::TEMPERATURE_DIFFERENCE, 5.0),
        ("9 degF difference", D::TEMPERATURE_DIFFERENCE, 5.0),
        ("30 psi", D::PRESSURE, 30.0 * 6_894.757_293_168_361),
        ("30 mbar", D::PRESSURE, 3000.0),
        ("11 inwc", D::PRESSURE, 11.0 * 249.089),
        ("11 in wc", D::PRESSURE, 11.0 * 249.089),
        ("25 m3/min", D::FLOW, 25.0 / 60.0),
        ("100 cfm", D::FLOW, 100.0 * 0.028316846592 / 60.0),
        ("10 l/min", D::FLOW, 0.01 / 60.0),
        ("3 galUS/min", D::FLOW, 3.0 * 3.785411784e-3 / 60.0),
        ("400 N", D::FORCE, 400.0),
        ("90 lbf", D::FORCE, 90.0 * 4.448_221_615_260_5),
        ("58 deg", D::ANGLE, 58.0 * std::f64::consts::PI / 180.0),
        ("58°", D::ANGLE, 58.0 * std::f64::consts::PI / 180.0),
        ("0.022 W/mK", D::CONDUCTIVITY, 0.022),
        ("0.022 W/(m·K)", D::CONDUCTIVITY, 0.022),
        ("2.8 W/m2K", D::U_VALUE, 2.8),
        ("2.8 W/(m²·K)", D::U_VALUE, 2.8),
        ("50 Hz", D::FREQUENCY, 50.0),
        ("2 /d", D::FREQUENCY, 2.0 / 86_400.0),
        ("28000 EUR", D::MONEY, 28_000.0),
        ("28000 €", D::MONEY, 28_000.0),
        ("90 km/h", D::SPEED, 25.0),
        ("600 kg/m3", D::DENSITY, 600.0),
        ("1.5 kg/h", D::MASS_FLOW, 1.5 / 3600.0),
        ("3 kWh/m2/d", D::IRRADIANCE, 125.0),
        ("-0.28 %/K", D::TEMPERATURE_COEFFICIENT, -0.0028),
        ("5 kg·m/s²", D::FORCE, 5.0),
        ("-0 A", D::CURRENT, 0.0),
    ];
    for (text, dimension, expected) in cases {
        match read(text, *dimension) {
            Ok(quantity) => {
                assert!(near(quantity.value, *expected), "{text}: {} instead of {expected}", quantity.value);
                assert_eq!(quantity.dimension, *dimension, "{text}");
                assert!(quantity.value != 0.0 || quantity.value.is_sign_positive(), "{text}: a zero has no sign");
            }
            Err(misread) => panic!("{text}: {misread:?}"),
        }
    }
}

#[test]
fn every_example_of_a_dimension_reads_as_that_dimension() {
    let names = [
        "ratio",
        "duty",
        "length",
        "area",
        "volume",
        "mass",
        "time",
        "current",
        "voltage",
        "power",
        "energy",
        "charge",
        "resistance",
        "temperature",
        "temperature-difference",
        "pressure",
        "flow",
        "force",
        "acceleration",
        "angle",
        "conductivity",
        "u-value",
        "frequency",
        "money",
        "speed",
        "density",
        "area-mass",
        "mass-flow",
        "irradiance",
        "r-value",
        "heating-value",
        "temperature-coefficient",
        "resistance-per-length",
    ];
    for name in names {
        let dimension = D::from_name(name).unwrap_or_else(|| panic!("{name} has no dimension"));
        let read = read(dimension.example(), dimension);
        assert!(read.is_ok(), "{name}: {read:?}");
    }
    assert_eq!(D::from_name("curent"), None);
}

#[test]
fn money_keeps_its_currency() {
    let code = |text| read(text, D::MONEY).unwrap().currency.map(|currency| currency.code().to_owned());
    assert_eq!(code("28000 EUR").as_deref(), Some("EUR"));
    assert_eq!(code("500 €").as_deref(), Some("EUR"));
    assert_eq!(code("12.50 NZD").as_deref(), Some("NZD"));
    let price = read("0.35 EUR/kWh", D::MONEY.over(D::ENERGY)).unwrap();
    assert!(near(price.value, 0.35 / 3.6e6));
    assert_eq!(price.currency.map(|currency| currency.to_string()).as_deref(), Some("EUR"));
}

#[test]
fn negative_values_are_refused_where_they_make_no_sense() {
    assert!(near(read_non_negative("0 A", D::CURRENT).unwrap().value + 1.0, 1.0));
    assert!(read("-3 m", D::LENGTH).is_ok());
    for text in ["-3 m", " \u{2212}3 m"] {
        let misread = read_non_negative(text, D::LENGTH).unwrap_err();
        assert_eq!(text.get(misread.at.clone()).unwrap().trim_matches(['-', '\u{2212}']), "");
        assert!(misread.message.contains("length"), "{}", misread.message);
        assert!(misread.message.contains("negative"), "{}", misread.message);
    }
}

#[test]
fn temperatures_add_and_subtract_as_points_and_differences() {
    let (point, difference) = (D::TEMPERATURE, D::TEMPERATURE_DIFFERENCE);
    assert_eq!(point.minus(point), Some(difference));
    assert_eq!(point.minus(difference), Some(point));
    assert_eq!(point.plus(difference), Some(point));
    assert_eq!(difference.plus(point), Some(point));
    assert_eq!(difference.plus(difference), Some(difference));
    assert_eq!(difference.minus(difference), Some(difference));
    assert_eq!(point.plus(point), None);
    assert_eq!(difference.minus(point), None);
    assert_eq!(D::LENGTH.plus(D::AREA), None);
    assert_eq!(D::LENGTH.minus(D::LENGTH), Some(D::LENGTH));
}

#[test]
fn derived_dimensions_follow_from_the_base() {
    for (made, expected) in [
        (D::VOLTAGE.times(D::CURRENT), D::POWER),
        (D::POWER.times(D::TIME), D::ENERGY),
        (D::VOLTAGE.over(D::CURRENT), D::RESISTANCE),
        (D::CURRENT.times(D::TIME), D::CHARGE),
        (D::MASS.times(D::ACCELERATION), D::FORCE),
        (D::FORCE.over(D::AREA), D::PRESSURE),
        (D::VOLUME.over(D::TIME), D::FLOW),
        (D::CONDUCTIVITY.over(D::LENGTH), D::U_VALUE),
        (D::U_VALUE.power(-1), D::R_VALUE),
        (D::LENGTH.power(3), D::VOLUME),
        (D::TIME.power(-1), D::FREQUENCY),
        (D::TIME.over(D::TIME), D::RATIO),
    ] {
        assert_eq!(made, expected);
    }
    assert_eq!(D::CURRENT.name(), "current");
    assert_eq!(D::TEMPERATURE_DIFFERENCE.name(), "temperature difference");
    assert_eq!(D::U_VALUE.name(), "U-value");
    assert_eq!(D::MASS.times(D::LENGTH).over(D::TIME.power(3)).name(), "kg·m/s³");
}
