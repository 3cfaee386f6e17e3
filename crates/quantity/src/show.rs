//! Printing of quantities in the reader's units.

use crate::numeral::{is_whole, print, tidy};
use crate::{Dimension, Quantity, System, unit_by_identifier, units};

const INCHES_IN_FOOT: f64 = 12.0;
/// The finest mark of a tape measure in inches.
const SIXTEENTHS: f64 = 16.0;
/// From here feet and inches are printed instead of inches (chosen).
const FEET_FROM_INCHES: f64 = 24.0;
const INCH: f64 = 0.0254;
/// Up to here a length is printed as on a drawing, in whole millimetres or in metres, and in feet and sixteenths.
const DRAWING_LENGTH: f64 = 10.0;
const MILLIMETRES: f64 = 1000.0;
/// Half of the last printed millimetre: an inch fraction that is as near says the same.
const HALF_MILLIMETRE: f64 = 0.5e-3;
/// Millimetres and kilograms (pounds) from this number are printed whole (common practice, no source).
const WHOLE_FROM: f64 = 100.0;

/// Prints a quantity in the reader's units: "2.4 m", "8 ft 6 in", "35 °C", "30 kA".
///
/// Values that were worked out get three significant digits (masses from 100 kg and lengths from 100 mm whole ones);
/// values that are short decimals are printed as written.
pub fn show(quantity: Quantity, system: System) -> String {
    shown(quantity, system, 0.0)
}

/// Prints a quantity in the reader's units and, where the other system has other units, in those behind it:
/// "178 mm (7 in)".
pub fn show_both(quantity: Quantity, system: System) -> String {
    let other = match system {
        System::Metric => System::UsCustomary,
        System::UsCustomary => System::Metric,
    };
    let first = show(quantity, system);
    // The first is rounded to whole millimetres at best, so that the second may be rounded to a near mark on a tape.
    let second = shown(quantity, other, HALF_MILLIMETRE);
    if first == second { first } else { format!("{first} ({second})") }
}

/// `slack` in metres: how far a length may be from the inch fraction that is printed for it.
fn shown(quantity: Quantity, system: System, slack: f64) -> String {
    let value = quantity.value;
    if !value.is_finite() {
        return format!("{} that is no number", quantity.dimension.name_with_article());
    }
    match (quantity.dimension, system) {
        (Dimension::LENGTH, System::Metric) => metric_length(value),
        (Dimension::LENGTH, System::UsCustomary) => us_length(value, slack),
        (Dimension::MONEY, _) => money(quantity),
        (dimension, _) => match family(dimension, system) {
            Some(steps) => in_family(value, steps),
            None => coherent(quantity, system),
        },
    }
}

fn metric_length(value: f64) -> String {
    if value.abs() >= DRAWING_LENGTH {
        return in_family(value, &[(0.0, "m"), (1e3, "km")]);
    }
    let millimetres = value * MILLIMETRES;
    let rounded = if millimetres.abs() >= WHOLE_FROM { millimetres.round() } else { tidy(millimetres) };
    let is_centimetres = rounded % 10.0 == 0.0;
    if rounded.abs() >= MILLIMETRES && is_centimetres {
        return format!("{} m", print(rounded / MILLIMETRES));
    }
    const SMALLEST_MILLIMETRES: f64 = 0.1;
    if rounded != 0.0 && rounded.abs() < SMALLEST_MILLIMETRES {
        return in_family(value, &[(0.0, "um")]);
    }
    format!("{} mm", print(rounded))
}

fn us_length(value: f64, slack: f64) -> String {
    let inches = value / INCH;
    let marks = (inches * SIXTEENTHS).round();
    let miss = (marks / SIXTEENTHS * INCH - value).abs();
    const SLACK_SHARE: f64 = 0.005;
    let slack = slack.min(value.abs() * SLACK_SHARE);
    let on_mark = is_whole(inches * SIXTEENTHS) || miss <= slack;
    if on_mark && (value == 0.0 || marks != 0.0) && value.abs() < DRAWING_LENGTH {
        return feet_and_inches(marks);
    }
    if inches.abs() < FEET_FROM_INCHES {
        return in_family(value, &[(0.0, "inch")]);
    }
    in_family(value, &[(0.0, "ft"), (1609.344, "mi")])
}

/// Sixteenths of an inch as "8 ft 6 1/2 in".
fn feet_and_inches(marks: f64) -> String {
    let sign = if marks < 0.0 { "-" } else { "" };
    let marks = marks.abs();
    let has_feet = marks >= FEET_FROM_INCHES * SIXTEENTHS;
    let feet = if has_feet { (marks / (INCHES_IN_FOOT * SIXTEENTHS)).floor() } else { 0.0 };
    let marks = marks - feet * INCHES_IN_FOOT * SIXTEENTHS;
    let inches = (marks / SIXTEENTHS).floor();
    let (mut above, mut below) = (marks - inches * SIXTEENTHS, SIXTEENTHS);
    while above > 0.0 && above % 2.0 == 0.0 {
        above /= 2.0;
        below /= 2.0;
    }
    let mut parts = Vec::new();
    if has_feet {
        parts.push(format!("{feet} ft"));
    }
    if above > 0.0 && inches > 0.0 {
        parts.push(format!("{inches} {above}/{below} in"));
    } else if above > 0.0 {
        parts.push(format!("{above}/{below} in"));
    } else if inches > 0.0 || !has_feet {
        parts.push(format!("{inches} in"));
    }
    format!("{sign}{}", parts.join(" "))
}

fn money(quantity: Quantity) -> String {
    const CENTS: f64 = 100.0;
    let cents = (quantity.value * CENTS).round();
    let amount = if is_whole(quantity.value) || cents % CENTS == 0.0 {
        format!("{:.0}", quantity.value.round() + 0.0)
    } else {
        format!("{:.2}", quantity.value)
    };
    match quantity.currency {
        Some(currency) => format!("{amount} {currency}"),
        None => format!("{amount} (currency not given)"),
    }
}

/// The units that a dimension is printed in, each with the least value in coherent SI units that it is used from.
type Steps = &'static [(f64, &'static str)];

fn family(dimension: Dimension, system: System) -> Option<Steps> {
    let us = system == System::UsCustomary;
    let (metric_steps, us_steps): (Steps, Steps) = match dimension {
        Dimension::AREA => (&[(0.0, "mm2"), (1e-3, "cm2"), (0.1, "m2")], &[(0.0, "in2"), (0.092_903_04, "ft2")]),
        Dimension::VOLUME => {
            (&[(0.0, "ml"), (1e-3, "l"), (1.0, "m3")], &[(0.0, "flozUS"), (3.785e-4, "galUS"), (1.0, "ft3")])
        }
        Dimension::MASS => (&[(0.0, "g"), (1.0, "kg")], &[(0.0, "oz"), (0.453_592_37, "lb")]),
        Dimension::TEMPERATURE => (&[(0.0, "degC")], &[(0.0, "degF")]),
        Dimension::TEMPERATURE_DIFFERENCE => (&[(0.0, "K")], &[(0.0, "degF_difference")]),
        Dimension::PRESSURE => (&[(0.0, "Pa"), (100.0, "mbar"), (1e5, "bar")], &[(0.0, "inwc"), (6894.757, "psi")]),
        Dimension::FLOW => (
            &[(0.0, "l_per_h"), (1.0e-6, "l_per_min"), (1.0e-1 / 60.0, "m3_per_h")],
            &[(0.0, "galUS_per_h"), (3.0e-6, "galUS_per_min"), (1.0e-1 / 60.0, "cfm")],
        ),
        Dimension::FORCE => (&[(0.0, "N"), (1e3, "kN")], &[(0.0, "lbf")]),
        Dimension::SPEED => (&[(0.0, "km_per_h")], &[(0.0, "mph")]),
        Dimension::CONDUCTIVITY => (&[(0.0, "W_per_mK")], &[(0.0, "Btu_in_per_hft2degF")]),
        Dimension::U_VALUE => (&[(0.0, "W_per_m2K")], &[(0.0, "Btu_per_hft2degF")]),
        Dimension::R_VALUE => (&[(0.0, "m2K_per_W")], &[(0.0, "hft2degF_per_Btu")]),
        Dimension::IRRADIANCE => (&[(0.0, "W_per_m2")], &[(0.0, "Btu_per_hft2")]),
        Dimension::AREA_MASS => (&[(0.0, "kg_per_m2")], &[(0.0, "lb_per_ft2")]),
        Dimension::DENSITY => (&[(0.0, "kg_per_m3")], &[(0.0, "lb_per_ft3")]),
        Dimension::MASS_FLOW => (&[(0.0, "g_per_h"), (1.0 / 3600.0, "kg_per_h")], &[(0.0, "lb_per_h")]),
        Dimension::HEATING_VALUE => (&[(0.0, "MJ_per_kg")], &[(0.0, "Btu_per_lb")]),
        Dimension::TEMPERATURE_COEFFICIENT => (&[(0.0, "percent_per_K")], &[(0.0, "percent_per_degF")]),
        Dimension::RESISTANCE_PER_LENGTH => (&[(0.0, "mohm_per_m")], &[(0.0, "mohm_per_ft")]),
        _ => return shared_family(dimension),
    };
    Some(if us { us_steps } else { metric_steps })
}

/// The dimensions whose units both systems share.
fn shared_family(dimension: Dimension) -> Option<Steps> {
    Some(match dimension {
        Dimension::RATIO => &[(0.0, "percent")],
        Dimension::TIME => &[(0.0, "ms"), (1.0, "s"), (60.0, "min"), (3600.0, "h"), (172_800.0, "d")],
        Dimension::CURRENT => &[(0.0, "uA"), (1e-3, "mA"), (1.0, "A"), (1e3, "kA")],
        Dimension::VOLTAGE => &[(0.0, "mV"), (1.0, "V"), (1e3, "kV")],
        Dimension::RESISTANCE => &[(0.0, "uohm"), (1e-3, "mohm"), (1.0, "ohm"), (1e3, "kohm"), (1e6, "Mohm")],
        Dimension::POWER => &[(0.0, "mW"), (1.0, "W"), (1e3, "kW"), (1e6, "MW")],
        Dimension::ENERGY => &[(0.0, "J"), (3600.0, "Wh"), (3.6e6, "kWh")],
        Dimension::CHARGE => &[(0.0, "mAh"), (3600.0, "Ah")],
        Dimension::ACCELERATION => &[(0.0, "g_n")],
        Dimension::ANGLE => &[(0.0, "deg")],
        Dimension::FREQUENCY => &[(0.0, "Hz"), (1e3, "kHz")],
        _ => return None,
    })
}

/// The value in the largest unit of a family that leaves at least one before the point.
fn in_family(value: f64, steps: &[(f64, &'static str)]) -> String {
    // A value that rounds up to the next unit is printed in that: 999.7 W as 1 kW.
    const ALMOST: f64 = 1.0 - 1e-9;
    let chosen = |size: f64| {
        let fitting = steps.iter().rev().find(|(from, _)| size >= from * ALMOST);
        fitting.or(steps.first()).and_then(|(_, identifier)| unit_by_identifier(identifier))
    };
    // Zero is printed in the unit of everyday values, which is the one for 1.
    let size = if value == 0.0 { 1.0 } else { value.abs() };
    let Some(mut unit) = chosen(size) else {
        return print(value);
    };
    let mut number = rounded(unit.from_si(value), unit.identifier);
    if unit.offset == 0.0
        && value != 0.0
        && let Some(larger) = chosen(unit.to_si(number).abs()).filter(|larger| larger.factor > unit.factor)
    {
        unit = larger;
        number = rounded(unit.from_si(value), unit.identifier);
    }
    // The degree sign of an angle stands at the number.
    let space = if unit.symbol == "°" { "" } else { " " };
    format!("{}{space}{}", print(number), unit.symbol)
}

fn rounded(number: f64, identifier: &str) -> f64 {
    const TENTHS: f64 = 10.0;
    match identifier {
        "kg" | "lb" if number.abs() >= WHOLE_FROM => number.round(),
        // A thermometer is read to a tenth of a degree at best.
        "degC" | "degF" => (number * TENTHS).round() / TENTHS,
        _ => tidy(number),
    }
}

/// A dimension without units of its own: any unit of the table that has it, else SI base units.
fn coherent(quantity: Quantity, system: System) -> String {
    let listed =
        units().iter().find(|unit| unit.dimension == quantity.dimension && unit.system.is_none_or(|its| its == system));
    if let Some(unit) = listed {
        return format!("{} {}", print(tidy(unit.from_si(quantity.value))), unit.symbol);
    }
    let base = quantity.dimension.base_units();
    let base = match quantity.currency {
        Some(currency) => base.replace("money", currency.code()),
        None => base,
    };
    format!("{} {}", print(tidy(quantity.value)), base.strip_prefix('1').unwrap_or(&base))
}
