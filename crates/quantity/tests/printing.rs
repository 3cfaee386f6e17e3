//! What a reader sees, and that it can be read back.

use quantity::{Dimension as D, Quantity, System, read, show, show_both, units};

#[test]
fn quantities_are_shown_in_the_readers_units() {
    let cases: &[(&str, D, &str, &str)] = &[
        ("2.4 m", D::LENGTH, "2.4 m", "7.87 ft"),
        ("178 mm", D::LENGTH, "178 mm", "7.01 in"),
        ("7 in", D::LENGTH, "178 mm", "7 in"),
        ("8 ft 6 in", D::LENGTH, "2591 mm", "8 ft 6 in"),
        ("8 ft", D::LENGTH, "2438 mm", "8 ft"),
        ("3/8 in", D::LENGTH, "9.525 mm", "3/8 in"),
        ("7 1/2 in", D::LENGTH, "191 mm", "7 1/2 in"),
        ("5 ft 6 1/16 in", D::LENGTH, "1678 mm", "5 ft 6 1/16 in"),
        ("-8 ft 6 in", D::LENGTH, "-2591 mm", "-8 ft 6 in"),
        ("4035 mm", D::LENGTH, "4035 mm", "13.2 ft"),
        ("6.36 m", D::LENGTH, "6.36 m", "20.9 ft"),
        ("0 mm", D::LENGTH, "0 mm", "0 in"),
        ("25 m", D::LENGTH, "25 m", "82 ft"),
        ("120 km", D::LENGTH, "120 km", "74.6 mi"),
        ("25 µm", D::LENGTH, "25 µm", "0.000984 in"),
        ("40 cm2", D::AREA, "40 cm²", "6.2 in²"),
        ("6.8 m2", D::AREA, "6.8 m²", "73.2 ft²"),
        ("70 l", D::VOLUME, "70 l", "18.5 galUS"),
        ("12 m3", D::VOLUME, "12 m³", "424 ft³"),
        ("3498.23 kg", D::MASS, "3498 kg", "7712 lb"),
        ("2.1 kg", D::MASS, "2.1 kg", "4.63 lb"),
        ("20 g", D::ACCELERATION, "20 g", "20 g"),
        ("90 min", D::TIME, "1.5 h", "1.5 h"),
        ("2 d", D::TIME, "2 d", "2 d"),
        ("30000 A", D::CURRENT, "30 kA", "30 kA"),
        ("30 mA", D::CURRENT, "30 mA", "30 mA"),
        ("0.008 ohm", D::RESISTANCE, "8 mΩ", "8 mΩ"),
        ("4999.9999 W", D::POWER, "5 kW", "5 kW"),
        ("999.9996 W", D::POWER, "1 kW", "1 kW"),
        ("25.6 V", D::VOLTAGE, "25.6 V", "25.6 V"),
        ("1.5 kWh", D::ENERGY, "1.5 kWh", "1.5 kWh"),
        ("200 Ah", D::CHARGE, "200 Ah", "200 Ah"),
        ("92 %", D::RATIO, "92 %", "92 %"),
        ("35 degC", D::TEMPERATURE, "35 °C", "95 °F"),
        ("-12 degC", D::TEMPERATURE, "-12 °C", "10.4 °F"),
        ("95 degF", D::TEMPERATURE, "35 °C", "95 °F"),
        ("5 K", D::TEMPERATURE_DIFFERENCE, "5 K", "9 °F difference"),
        ("30 mbar", D::PRESSURE, "30 mbar", "12 inwc"),
        ("2 bar", D::PRESSURE, "2 bar", "29 psi"),
        ("25 m3/min", D::FLOW, "1500 m³/h", "883 cfm"),
        ("10 l/min", D::FLOW, "10 l/min", "2.64 galUS/min"),
        ("58 deg", D::ANGLE, "58°", "58°"),
        ("2.8 W/m2K", D::U_VALUE, "2.8 W/m²K", "0.493 Btu/(h·ft²·°F)"),
        ("28000 EUR", D::MONEY, "28000 EUR", "28000 EUR"),
        ("12.5 EUR", D::MONEY, "12.50 EUR", "12.50 EUR"),
        ("-0 A", D::CURRENT, "0 A", "0 A"),
    ];
    for (text, dimension, metric, us) in cases {
        let quantity = read(text, *dimension).unwrap_or_else(|misread| panic!("{text}: {misread:?}"));
        assert_eq!(show(quantity, System::Metric), *metric, "{text}");
        assert_eq!(show(quantity, System::UsCustomary), *us, "{text}");
    }
}

#[test]
fn both_systems_are_shown_where_they_differ() {
    for (value, dimension, system, expected) in [
        (0.178, D::LENGTH, System::Metric, "178 mm (7 in)"),
        (0.1778, D::LENGTH, System::UsCustomary, "7 in (178 mm)"),
        (2.4, D::LENGTH, System::Metric, "2.4 m (7 ft 10 1/2 in)"),
        (308.15, D::TEMPERATURE, System::Metric, "35 °C (95 °F)"),
        (308.15, D::TEMPERATURE, System::UsCustomary, "95 °F (35 °C)"),
        (16.0, D::CURRENT, System::UsCustomary, "16 A"),
        (0.92, D::RATIO, System::Metric, "92 %"),
        (11.0 / 3.0, D::VOLTAGE, System::Metric, "3.67 V"),
        (f64::NAN, D::CURRENT, System::Metric, "a current that is no number"),
    ] {
        assert_eq!(show_both(Quantity::new(value, dimension), system), expected);
    }
    let no_currency = show(Quantity::new(28_000.0, D::MONEY), System::Metric);
    assert_eq!(no_currency, "28000 (currency not given)");
}

#[test]
fn what_is_shown_reads_back_within_its_printed_digits() {
    // Three significant digits, the last rounded; whole millimetres of 100 and more are finer than that.
    const RELATIVE: f64 = 0.5e-2;
    const THERMOMETER: f64 = 0.051;
    for unit in units() {
        for number in [1.0, 7.0, 12.5, 0.037, 123.456_789, 98_765.432_1, 999.999, 2.0 / 3.0] {
            for system in [System::Metric, System::UsCustomary] {
                let value = unit.to_si(number);
                let shown = show(Quantity::new(value, unit.dimension), system);
                let back = read(&shown, unit.dimension)
                    .unwrap_or_else(|misread| panic!("{number} {} is shown as {shown}: {misread:?}", unit.symbol));
                let slack = if unit.dimension == D::TEMPERATURE { THERMOMETER } else { RELATIVE * value.abs() };
                assert!((back.value - value).abs() <= slack, "{number} {} is shown as {shown}", unit.symbol);
            }
        }
    }
}

#[test]
fn dimensions_without_a_name_are_shown_and_read_in_base_units() {
    let dimension = D::MASS.times(D::LENGTH).over(D::TIME.power(3)).over(D::CURRENT);
    let shown = show(Quantity::new(12.5, dimension), System::Metric);
    assert_eq!(shown, "12.5 kg·m/A·s³");
    assert_eq!(read(&shown, dimension).unwrap().value, 12.5);
    let rate = D::TIME.power(-2);
    assert_eq!(show(Quantity::new(4.0, rate), System::Metric), "4 /s²");
    assert_eq!(read("4 /s²", rate).unwrap().value, 4.0);
}
