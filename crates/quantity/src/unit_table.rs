//! The units, with the source of every factor.
//!
//! Sources of the exact definitions:
//! - SI and the units accepted with it (minute, hour, day, litre, tonne, degree, bar): SI Brochure, 9th edition, 2019,
//!   tables 4, 5, 7 and 8 (from memory); degree Celsius 0 °C = 273.15 K, section 2.3.1.
//! - Inch 25.4 mm, foot, yard, mile, pound 0.453 592 37 kg, ounce, degree Fahrenheit: NIST SP 811 (2008), appendix B, and
//!   NIST Handbook 44, appendix C (from memory). US gallon = 231 in³; US fluid ounce = 1/128 gallon: Handbook 44.
//! - Imperial gallon 4.546 09 l: Units of Measurement Regulations 1995 (United Kingdom), schedule (from memory).
//! - Standard gravity 9.806 65 m/s²: 3rd General Conference on Weights and Measures, 1901.
//! - British thermal unit, International Table: 1055.055 852 62 J (NIST SP 811, B.8).
//! - Horsepower 550 ft·lbf/s; metric horsepower 75 kgf·m/s (NIST SP 811, B.8).
//! - Inch of water at 4 °C (39.2 °F) 249.082 Pa; conventional inch of water (1000 kg/m³) 249.089 Pa, which is used here
//!   because gauges are scaled so; inch of mercury, conventional, 3386.389 Pa (NIST SP 811, B.8).
//!
//! The other factors follow from these by calculation.

use crate::unit::Unit;
use crate::{Dimension as D, System};

const METRIC: Option<System> = Some(System::Metric);
const US: Option<System> = Some(System::UsCustomary);
const BOTH: Option<System> = None;

const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;
const INCH: f64 = 0.0254;
const FOOT: f64 = 12.0 * INCH;
const YARD: f64 = 3.0 * FOOT;
const MILE: f64 = 5280.0 * FOOT;
const LITRE: f64 = 1e-3;
const US_GALLON: f64 = 231.0 * INCH * INCH * INCH;
const IMPERIAL_GALLON: f64 = 4.546_09 * LITRE;
const CUBIC_FOOT: f64 = FOOT * FOOT * FOOT;
const POUND: f64 = 0.453_592_37;
const OUNCE: f64 = POUND / 16.0;
const STANDARD_GRAVITY: f64 = 9.806_65;
const POUND_FORCE: f64 = POUND * STANDARD_GRAVITY;
const WATT_HOUR: f64 = 3600.0;
const BTU: f64 = 1_055.055_852_62;
const HORSEPOWER: f64 = 550.0 * FOOT * POUND_FORCE;
const METRIC_HORSEPOWER: f64 = 75.0 * STANDARD_GRAVITY;
const BAR: f64 = 1e5;
const INCH_OF_WATER: f64 = 249.089;
const INCH_OF_MERCURY: f64 = 3386.389;
const FAHRENHEIT: f64 = 5.0 / 9.0;
const ZERO_CELSIUS: f64 = 273.15;
const ZERO_FAHRENHEIT: f64 = 459.67 * FAHRENHEIT;
const DEGREE: f64 = std::f64::consts::PI / 180.0;
const US_R_VALUE: f64 = FOOT * FOOT * HOUR * FAHRENHEIT / BTU;

type Words = &'static [&'static str];

const fn unit(
    symbol: &'static str,
    identifier: &'static str,
    dimension: D,
    factor: f64,
    system: Option<System>,
    also: Words,
    slips: Words,
) -> Unit {
    Unit { symbol, identifier, dimension, factor, offset: 0.0, system, also, slips }
}

const fn scale(
    symbol: &'static str,
    identifier: &'static str,
    factor: f64,
    offset: f64,
    system: Option<System>,
    also: Words,
    slips: Words,
) -> Unit {
    Unit { symbol, identifier, dimension: D::TEMPERATURE, factor, offset, system, also, slips }
}

// One row to a unit: symbol, identifier, dimension, factor, system, further spellings, slips.
#[rustfmt::skip]
pub(crate) static UNITS: &[Unit] = &[
    unit("%", "percent", D::RATIO, 0.01, BOTH, &[], &["percent", "per cent", "pct"]),
    unit("ppm", "ppm", D::RATIO, 1e-6, BOTH, &[], &[]),

    unit("mm", "mm", D::LENGTH, 1e-3, METRIC, &[], &["millimetre", "millimetres", "millimeter", "millimeters"]),
    unit("cm", "cm", D::LENGTH, 1e-2, METRIC, &[], &["centimetre", "centimetres", "centimeter", "centimeters"]),
    unit("m", "m", D::LENGTH, 1.0, METRIC, &[], &["metre", "metres", "meter", "meters", "mtr", "mtrs"]),
    unit("km", "km", D::LENGTH, 1e3, METRIC, &[], &["kilometre", "kilometres", "kilometer", "kilometers", "kms"]),
    unit("µm", "um", D::LENGTH, 1e-6, METRIC, &[], &["micron", "microns"]),
    unit("in", "inch", D::LENGTH, INCH, US, &["\"", "''", "inch"], &["inches", "ins"]),
    unit("ft", "ft", D::LENGTH, FOOT, US, &["'"], &["foot", "feet"]),
    unit("yd", "yd", D::LENGTH, YARD, US, &[], &["yard", "yards", "yds"]),
    unit("mi", "mi", D::LENGTH, MILE, US, &[], &["mile", "miles"]),

    unit("mm²", "mm2", D::AREA, 1e-6, METRIC, &[], &["sq mm", "sqmm", "mm sq", "mmsq"]),
    unit("cm²", "cm2", D::AREA, 1e-4, METRIC, &[], &["sq cm", "sqcm"]),
    unit("m²", "m2", D::AREA, 1.0, METRIC, &[], &["sq m", "sqm"]),
    unit("in²", "in2", D::AREA, INCH * INCH, US, &["sq in"], &["sqin", "square inches", "square inch"]),
    unit("ft²", "ft2", D::AREA, FOOT * FOOT, US, &["sq ft"], &["sqft", "square feet", "square foot"]),

    unit("ml", "ml", D::VOLUME, 1e-3 * LITRE, METRIC, &["mL"], &["millilitre", "millilitres", "milliliter", "milliliters"]),
    unit("cm³", "cm3", D::VOLUME, 1e-6, METRIC, &[], &["cc", "ccm"]),
    unit("l", "l", D::VOLUME, LITRE, METRIC, &["L", "dm3"], &["litre", "litres", "liter", "liters", "ltr", "lt"]),
    unit("m³", "m3", D::VOLUME, 1.0, METRIC, &[], &["cbm", "cubic metres", "cubic meters"]),
    unit("in³", "in3", D::VOLUME, INCH * INCH * INCH, US, &["cu in"], &["cuin", "cubic inches"]),
    unit("ft³", "ft3", D::VOLUME, CUBIC_FOOT, US, &["cu ft"], &["cuft", "cubic feet"]),
    unit("fl ozUS", "flozUS", D::VOLUME, US_GALLON / 128.0, US, &["US fl oz"], &["fl oz US"]),
    unit("galUS", "galUS", D::VOLUME, US_GALLON, US, &["US gal"], &["gal US", "US gallon", "US gallons", "USgal", "usg"]),
    unit("galUK", "galUK", D::VOLUME, IMPERIAL_GALLON, METRIC, &["UK gal", "imp gal"], &["gal UK", "UK gallon", "UK gallons", "UKgal", "imperial gallon", "imperial gallons", "impgal", "galImp"]),

    unit("mg", "mg", D::MASS, 1e-6, METRIC, &[], &[]),
    unit("g", "g", D::MASS, 1e-3, METRIC, &[], &["gram", "grams", "gramme", "grammes"]),
    unit("kg", "kg", D::MASS, 1.0, METRIC, &[], &["kilo", "kilos", "kilogram", "kilograms", "kgs"]),
    unit("t", "t", D::MASS, 1e3, METRIC, &[], &["tonne", "tonnes"]),
    unit("oz", "oz", D::MASS, OUNCE, US, &[], &["ounce", "ounces"]),
    unit("lb", "lb", D::MASS, POUND, US, &[], &["lbs", "pound", "pounds"]),

    unit("ms", "ms", D::TIME, 1e-3, BOTH, &[], &["millisecond", "milliseconds"]),
    unit("s", "s", D::TIME, 1.0, BOTH, &[], &["sec", "secs", "second", "seconds"]),
    unit("min", "min", D::TIME, MINUTE, BOTH, &[], &["mins", "minute", "minutes"]),
    unit("h", "h", D::TIME, HOUR, BOTH, &[], &["hr", "hrs", "hour", "hours"]),
    unit("d", "d", D::TIME, DAY, BOTH, &[], &["day", "days"]),

    unit("µA", "uA", D::CURRENT, 1e-6, BOTH, &[], &[]),
    unit("mA", "mA", D::CURRENT, 1e-3, BOTH, &[], &["milliamp", "milliamps"]),
    unit("A", "A", D::CURRENT, 1.0, BOTH, &[], &["amp", "amps", "ampere", "amperes"]),
    unit("kA", "kA", D::CURRENT, 1e3, BOTH, &[], &[]),
    unit("mV", "mV", D::VOLTAGE, 1e-3, BOTH, &[], &["millivolt", "millivolts"]),
    unit("V", "V", D::VOLTAGE, 1.0, BOTH, &[], &["volt", "volts", "VDC", "VAC", "V DC", "V AC"]),
    unit("kV", "kV", D::VOLTAGE, 1e3, BOTH, &[], &[]),
    unit("µΩ", "uohm", D::RESISTANCE, 1e-6, BOTH, &[], &[]),
    unit("mΩ", "mohm", D::RESISTANCE, 1e-3, BOTH, &[], &["milliohm", "milliohms"]),
    unit("Ω", "ohm", D::RESISTANCE, 1.0, BOTH, &[], &["ohms"]),
    unit("kΩ", "kohm", D::RESISTANCE, 1e3, BOTH, &[], &[]),
    unit("MΩ", "Mohm", D::RESISTANCE, 1e6, BOTH, &[], &["megohm", "megohms"]),
    unit("mAh", "mAh", D::CHARGE, 1e-3 * HOUR, BOTH, &[], &[]),
    unit("Ah", "Ah", D::CHARGE, HOUR, BOTH, &["A h", "A·h"], &["amp hour", "amp hours", "ampere hours", "amp-hours"]),
    unit("Ω/m", "ohm_per_m", D::RESISTANCE_PER_LENGTH, 1.0, METRIC, &[], &[]),
    unit("mΩ/m", "mohm_per_m", D::RESISTANCE_PER_LENGTH, 1e-3, METRIC, &["ohm/km"], &[]),
    unit("mΩ/ft", "mohm_per_ft", D::RESISTANCE_PER_LENGTH, 1e-3 / FOOT, US, &[], &[]),

    unit("mW", "mW", D::POWER, 1e-3, BOTH, &[], &["milliwatt", "milliwatts"]),
    unit("W", "W", D::POWER, 1.0, BOTH, &["Wp"], &["watt", "watts"]),
    unit("kW", "kW", D::POWER, 1e3, BOTH, &["kWp"], &["kilowatt", "kilowatts"]),
    unit("MW", "MW", D::POWER, 1e6, BOTH, &[], &["megawatt", "megawatts"]),
    unit("VA", "VA", D::POWER, 1.0, BOTH, &["V·A"], &[]),
    unit("kVA", "kVA", D::POWER, 1e3, BOTH, &[], &[]),
    unit("Btu/h", "Btu_per_h", D::POWER, BTU / HOUR, US, &["BTU/h"], &["btuh", "btu/hr", "btu/hour"]),
    unit("hp", "hp", D::POWER, HORSEPOWER, US, &[], &[]),
    unit("PS", "PS", D::POWER, METRIC_HORSEPOWER, METRIC, &[], &[]),
    unit("J", "J", D::ENERGY, 1.0, BOTH, &[], &["joule", "joules"]),
    unit("kJ", "kJ", D::ENERGY, 1e3, BOTH, &[], &[]),
    unit("MJ", "MJ", D::ENERGY, 1e6, BOTH, &[], &[]),
    unit("Wh", "Wh", D::ENERGY, WATT_HOUR, BOTH, &["W h", "W·h"], &["watt hour", "watt hours"]),
    unit("kWh", "kWh", D::ENERGY, 1e3 * WATT_HOUR, BOTH, &["kW h", "kW·h"], &["kilowatt hours"]),
    unit("Btu", "Btu", D::ENERGY, BTU, US, &["BTU"], &["btus"]),
    unit("N·m", "Nm", D::ENERGY, 1.0, METRIC, &["Nm", "N m"], &[]),
    unit("ft·lbf", "ft_lbf", D::ENERGY, FOOT * POUND_FORCE, US, &["lbf·ft", "ft lbf", "lbf ft"], &["ft-lb", "lb-ft", "ft lb", "lb ft", "ft-lbs", "ft-lbf"]),
    unit("in·lbf", "in_lbf", D::ENERGY, INCH * POUND_FORCE, US, &["lbf·in", "in lbf", "lbf in"], &["in-lb", "lb-in", "in lb", "in-lbs", "in-lbf"]),

    scale("°C", "degC", 1.0, ZERO_CELSIUS, METRIC, &["deg C"], &["C", "celsius", "degrees C", "deg celsius", "degrees celsius", "centigrade"]),
    scale("°F", "degF", FAHRENHEIT, ZERO_FAHRENHEIT, US, &["deg F"], &["F", "fahrenheit", "degrees F", "degrees fahrenheit"]),
    unit("K", "K", D::TEMPERATURE_DIFFERENCE, 1.0, METRIC, &["°C difference"], &["kelvin", "kelvins", "°K", "deg K"]),
    unit("°F difference", "degF_difference", D::TEMPERATURE_DIFFERENCE, FAHRENHEIT, US, &[], &["°F diff"]),

    unit("Pa", "Pa", D::PRESSURE, 1.0, METRIC, &[], &["pascal", "pascals"]),
    unit("hPa", "hPa", D::PRESSURE, 100.0, METRIC, &[], &[]),
    unit("kPa", "kPa", D::PRESSURE, 1e3, METRIC, &[], &[]),
    unit("MPa", "MPa", D::PRESSURE, 1e6, METRIC, &["N/mm2"], &[]),
    unit("mbar", "mbar", D::PRESSURE, 1e-3 * BAR, METRIC, &[], &["millibar", "millibars"]),
    unit("bar", "bar", D::PRESSURE, BAR, METRIC, &[], &["bars"]),
    unit("psi", "psi", D::PRESSURE, POUND_FORCE / (INCH * INCH), US, &["lbf/in2"], &["lb/in2", "lbs/in2"]),
    unit("inwc", "inwc", D::PRESSURE, INCH_OF_WATER, US, &["in wc", "inH2O", "in H2O"], &["inwg", "in wg", "in. wc", "inches wc", "inch wc", "inches of water"]),
    unit("inHg", "inHg", D::PRESSURE, INCH_OF_MERCURY, US, &["in Hg"], &[]),

    unit("l/h", "l_per_h", D::FLOW, LITRE / HOUR, METRIC, &["L/h"], &["lph", "l/hr"]),
    unit("l/min", "l_per_min", D::FLOW, LITRE / MINUTE, METRIC, &["L/min"], &["lpm", "l/m"]),
    unit("l/s", "l_per_s", D::FLOW, LITRE, METRIC, &["L/s"], &["lps"]),
    unit("l/d", "l_per_d", D::FLOW, LITRE / DAY, METRIC, &["L/d"], &["l/day"]),
    unit("m³/h", "m3_per_h", D::FLOW, 1.0 / HOUR, METRIC, &[], &["m3/hr", "cmh"]),
    unit("m³/min", "m3_per_min", D::FLOW, 1.0 / MINUTE, METRIC, &[], &["cmm"]),
    unit("m³/s", "m3_per_s", D::FLOW, 1.0, METRIC, &[], &[]),
    unit("cfm", "cfm", D::FLOW, CUBIC_FOOT / MINUTE, US, &["ft3/min"], &[]),
    unit("galUS/min", "galUS_per_min", D::FLOW, US_GALLON / MINUTE, US, &[], &["USgpm", "US gpm"]),
    unit("galUS/h", "galUS_per_h", D::FLOW, US_GALLON / HOUR, US, &[], &["USgph", "US gph"]),
    unit("galUS/d", "galUS_per_d", D::FLOW, US_GALLON / DAY, US, &[], &[]),
    unit("galUK/min", "galUK_per_min", D::FLOW, IMPERIAL_GALLON / MINUTE, METRIC, &[], &[]),

    unit("N", "N", D::FORCE, 1.0, METRIC, &[], &["newton", "newtons"]),
    unit("daN", "daN", D::FORCE, 10.0, METRIC, &[], &[]),
    unit("kN", "kN", D::FORCE, 1e3, METRIC, &[], &[]),
    unit("kgf", "kgf", D::FORCE, STANDARD_GRAVITY, METRIC, &[], &[]),
    unit("lbf", "lbf", D::FORCE, POUND_FORCE, US, &[], &["lbsf"]),
    unit("g", "g_n", D::ACCELERATION, STANDARD_GRAVITY, BOTH, &["gn"], &[]),
    unit("m/s²", "m_per_s2", D::ACCELERATION, 1.0, METRIC, &[], &[]),
    unit("ft/s²", "ft_per_s2", D::ACCELERATION, FOOT, US, &[], &[]),
    unit("km/h", "km_per_h", D::SPEED, 1e3 / HOUR, METRIC, &[], &["kph", "kmh"]),
    unit("m/s", "m_per_s", D::SPEED, 1.0, METRIC, &[], &["mps"]),
    unit("mph", "mph", D::SPEED, MILE / HOUR, US, &["mi/h"], &[]),
    unit("ft/min", "ft_per_min", D::SPEED, FOOT / MINUTE, US, &[], &["fpm"]),

    unit("°", "deg", D::ANGLE, DEGREE, BOTH, &[], &["degree", "degrees"]),
    unit("rad", "rad", D::ANGLE, 1.0, BOTH, &[], &["radian", "radians"]),
    unit("Hz", "Hz", D::FREQUENCY, 1.0, BOTH, &[], &["hertz", "cps"]),
    unit("kHz", "kHz", D::FREQUENCY, 1e3, BOTH, &[], &[]),
    unit("rpm", "rpm", D::FREQUENCY, 1.0 / MINUTE, BOTH, &["/min"], &["r/min", "rev/min"]),

    unit("W/mK", "W_per_mK", D::CONDUCTIVITY, 1.0, METRIC, &["W/m·K", "W/m K"], &["W/mdegC"]),
    unit("Btu·in/(h·ft²·°F)", "Btu_in_per_hft2degF", D::CONDUCTIVITY, BTU * INCH / (HOUR * FOOT * FOOT * FAHRENHEIT), US, &["Btu in/h ft2 degF", "BTU·in/h·ft2·degF", "Btu·in/hft2degF", "BTU·in/hft2degF"], &["Btu·in/hr·ft2·degF", "Btu·in/hr·ft2·F", "Btu·in/h·ft2·F"]),
    unit("Btu/(h·ft·°F)", "Btu_per_hftdegF", D::CONDUCTIVITY, BTU / (HOUR * FOOT * FAHRENHEIT), US, &["Btu/h ft degF", "BTU/h·ft·degF", "Btu/hftdegF"], &["Btu/hr·ft·degF", "Btu/h·ft·F"]),
    unit("W/m²K", "W_per_m2K", D::U_VALUE, 1.0, METRIC, &["W/m2·K", "W/m2 K"], &["W/m2degC"]),
    unit("Btu/(h·ft²·°F)", "Btu_per_hft2degF", D::U_VALUE, 1.0 / US_R_VALUE, US, &["Btu/h ft2 degF", "BTU/h·ft2·degF", "Btu/hft2degF", "BTU/hft2degF"], &["Btu/hr·ft2·degF", "Btu/h·ft2·F", "Btu/hr·ft2·F"]),
    unit("m²K/W", "m2K_per_W", D::R_VALUE, 1.0, METRIC, &["m2·K/W", "m2 K/W"], &["m2degC/W"]),
    unit("h·ft²·°F/Btu", "hft2degF_per_Btu", D::R_VALUE, US_R_VALUE, US, &["ft2·h·degF/Btu", "ft2·degF·h/Btu", "hft2degF/Btu", "h·ft2·degF/BTU", "ft2·degF·h/BTU"], &["ft2·hr·degF/Btu", "h·ft2·F/Btu", "ft2·F·h/Btu"]),

    unit("W/m²", "W_per_m2", D::IRRADIANCE, 1.0, METRIC, &[], &[]),
    unit("Btu/(h·ft²)", "Btu_per_hft2", D::IRRADIANCE, BTU / (HOUR * FOOT * FOOT), US, &["Btu/h·ft2", "BTU/h·ft2"], &[]),
    unit("kg/m²", "kg_per_m2", D::AREA_MASS, 1.0, METRIC, &[], &[]),
    unit("lb/ft²", "lb_per_ft2", D::AREA_MASS, POUND / (FOOT * FOOT), US, &[], &[]),
    unit("kg/m³", "kg_per_m3", D::DENSITY, 1.0, METRIC, &[], &[]),
    unit("kg/l", "kg_per_l", D::DENSITY, 1e3, METRIC, &["kg/L"], &[]),
    unit("lb/ft³", "lb_per_ft3", D::DENSITY, POUND / CUBIC_FOOT, US, &[], &["pcf"]),
    unit("g/h", "g_per_h", D::MASS_FLOW, 1e-3 / HOUR, METRIC, &[], &["g/hr"]),
    unit("kg/h", "kg_per_h", D::MASS_FLOW, 1.0 / HOUR, METRIC, &[], &["kg/hr"]),
    unit("lb/h", "lb_per_h", D::MASS_FLOW, POUND / HOUR, US, &[], &["lb/hr", "lbs/hr", "lbs/h"]),
    unit("MJ/kg", "MJ_per_kg", D::HEATING_VALUE, 1e6, METRIC, &[], &[]),
    unit("kWh/kg", "kWh_per_kg", D::HEATING_VALUE, 1e3 * WATT_HOUR, METRIC, &[], &[]),
    unit("Btu/lb", "Btu_per_lb", D::HEATING_VALUE, BTU / POUND, US, &["BTU/lb"], &[]),
    unit("%/K", "percent_per_K", D::TEMPERATURE_COEFFICIENT, 0.01, METRIC, &["%/°C"], &["%/C"]),
    unit("/K", "per_K", D::TEMPERATURE_COEFFICIENT, 1.0, METRIC, &[], &[]),
    unit("%/°F", "percent_per_degF", D::TEMPERATURE_COEFFICIENT, 0.01 / FAHRENHEIT, US, &[], &["%/F"]),
];
