//! Every refusal: the place, the essentials of the message, and the mend.

use quantity::{Dimension as D, Misread, read};

struct Case {
    text: &'static str,
    expected: D,
    /// The text at the place that is marked.
    marked: &'static str,
    /// Words that the message and the reason must hold.
    says: &'static [&'static str],
    instead: Option<&'static str>,
}

const fn case(
    text: &'static str,
    expected: D,
    marked: &'static str,
    says: &'static [&'static str],
    instead: Option<&'static str>,
) -> Case {
    Case { text, expected, marked, says, instead }
}

#[rustfmt::skip]
const CASES: &[Case] = &[
    // nothing, or nothing that is a number
    case("", D::CURRENT, "", &["nothing is written", "16 A"], None),
    case(" \u{a0} ", D::CURRENT, " \u{a0} ", &["nothing is written"], None),
    case("sixteen", D::CURRENT, "sixteen", &["does not begin with a number", "16 A"], None),
    case("NaN A", D::CURRENT, "NaN A", &["is no number"], None),
    case("inf A", D::CURRENT, "inf A", &["is no number"], None),
    case("1e400 A", D::CURRENT, "1e400", &["too large"], None),
    case("1e308 kA", D::CURRENT, "1e308", &["too large"], None),
    case("1e-400 A", D::CURRENT, "1e-400", &["too small"], None),
    case("-300 degC", D::TEMPERATURE, "-300 degC", &["absolute zero"], None),
    case("-500 degF", D::TEMPERATURE, "-500 degF", &["absolute zero"], None),
    // a number alone
    case("16", D::CURRENT, "16", &["unit is missing", "16 A"], None),
    case("12", D::VOLTAGE, "12", &["unit is missing"], Some("12 V")),
    case("50", D::FREQUENCY, "50", &["unit is missing"], Some("50 Hz")),
    case("92", D::RATIO, "92", &["92 %"], None),
    case("28000", D::MONEY, "28000", &["unit is missing", "EUR"], None),
    // commas, points, spaces
    case("2,5 mm2", D::AREA, "2,5", &["point", "comma"], Some("2.5 mm2")),
    case(",5 m", D::LENGTH, ",5", &["point", "comma"], Some("0.5 m")),
    case("0,125 l", D::VOLUME, "0,125", &["point"], Some("0.125 l")),
    case("12,000 Btu/h", D::POWER, "12,000", &["12000", "12.000"], None),
    case("1,234,567 W", D::POWER, "1,234,567", &["thousands"], Some("1234567 W")),
    case("1,234.5 W", D::POWER, "1,234.5", &["thousands"], Some("1234.5 W")),
    case("1.234,5 W", D::POWER, "1.234,5", &["thousands"], Some("1234.5 W")),
    case("12 000 W", D::POWER, "12 000", &["thousands"], Some("12000 W")),
    case("12\u{202f}000 W", D::POWER, "12\u{202f}000", &["thousands"], Some("12000 W")),
    case("12'000 W", D::POWER, "12'000", &["thousands"], Some("12000 W")),
    case("1.2.3 m", D::LENGTH, "1.2.3", &["cannot be read"], None),
    case("5. A", D::CURRENT, ".", &["digit is missing"], Some("5 A")),
    case("–12 degC", D::TEMPERATURE, "–", &["minus"], Some("-12 degC")),
    // units that are certainly another spelling
    case("12v", D::VOLTAGE, "v", &["\"V\""], Some("12 V")),
    case("16a", D::CURRENT, "a", &["\"A\"", "differ"], Some("16 A")),
    case("46 KG", D::MASS, "KG", &["\"kg\""], Some("46 kg")),
    case("5 KW", D::POWER, "KW", &["\"kW\""], Some("5 kW")),
    case("2.4 M", D::LENGTH, "M", &["\"m\""], Some("2.4 m")),
    case("178 MM", D::LENGTH, "MM", &["\"mm\""], Some("178 mm")),
    case("16 Amps", D::CURRENT, "Amps", &["\"A\""], Some("16 A")),
    case("12 VDC", D::VOLTAGE, "VDC", &["\"V\""], Some("12 V")),
    case("12,5v", D::VOLTAGE, "12,5", &["point"], Some("12.5 V")),
    case("20 min/day", D::RATIO, "day", &["\"d\""], Some("20 min/d")),
    case("20 min per day", D::RATIO, "min per day", &["slash"], Some("20 min/d")),
    case("6 in.", D::LENGTH, "in.", &["no point"], Some("6 in")),
    case("20 C", D::TEMPERATURE, "C", &["degC"], Some("20 degC")),
    case("500 eur", D::MONEY, "eur", &["capital"], Some("500 EUR")),
    case("€28000", D::MONEY, "€", &["behind"], Some("28000 EUR")),
    case("EUR 500", D::MONEY, "EUR", &["behind"], Some("500 EUR")),
    case("A 16", D::CURRENT, "A", &["behind"], Some("16 A")),
    // where m or M decides over milli and mega, nothing is certain
    case("30 MA", D::CURRENT, "MA", &["\"mA\"", "mega"], None),
    case("5 mw", D::POWER, "mw", &["\"mW\"", "\"MW\""], None),
    // two meanings
    case("5 gal", D::VOLUME, "gal", &["galUS", "galUK"], None),
    case("5 gallons", D::VOLUME, "gallons", &["galUS", "galUK"], None),
    case("3 gpm", D::FLOW, "gpm", &["galUS/min", "galUK/min"], None),
    case("2 ton", D::MASS, "ton", &["1000 kg", "2000 lb"], None),
    case("$500", D::MONEY, "$", &["more than one meaning"], None),
    case("500 $", D::MONEY, "$", &["more than one meaning"], None),
    // no unit at all
    case("5 mbr", D::PRESSURE, "mbr", &["did you mean \"mbar\""], None),
    case("5 kwhh", D::ENERGY, "kwhh", &["did you mean \"kWh\""], None),
    case("5 flurbs", D::CURRENT, "flurbs", &["no unit that is known", "16 A"], None),
    case("5 l/mxn", D::FLOW, "mxn", &["no unit that is known"], None),
    case("500 EUX", D::MONEY, "EUX", &["no unit that is known", "EUR"], None),
    case("6 AWG", D::AREA, "AWG", &["size of conductors"], None),
    // another dimension
    case("16 V", D::CURRENT, "V", &["16 V, a voltage", "a current", "16 A"], None),
    case("150 lb", D::FORCE, "lb", &["a mass", "a force", "lbf"], None),
    case("200 Ah", D::ENERGY, "Ah", &["a charge", "an energy", "voltage"], None),
    case("2.5 mm", D::AREA, "mm", &["a length", "an area"], None),
    case("4 h", D::RATIO, "h", &["a time", "4 h/d"], None),
    case("12000 Btu", D::POWER, "Btu", &["an energy", "a power"], Some("12000 Btu/h")),
    case("5 degC", D::TEMPERATURE_DIFFERENCE, "degC", &["a temperature difference"], Some("5 K")),
    case("10°F", D::TEMPERATURE_DIFFERENCE, "°F", &["a temperature difference"], Some("10 degF difference")),
    case("293 K", D::TEMPERATURE, "K", &["degC or degF"], None),
    case("5 m/s2/s", D::LENGTH, "m/s2/s", &["m/s³", "a length"], None),
    case("5 A", D::TIME.power(-3), "A", &["a quantity in 1/s³, as a number with its unit"], None),
    // more than one quantity, or text around it
    case("16 A continuous", D::CURRENT, "continuous", &["does not belong"], None),
    case("16 A (max)", D::CURRENT, "(max)", &["does not belong"], None),
    case("16 A, 12 V", D::CURRENT, ", 12 V", &["does not belong"], None),
    case("16 A 12 V", D::CURRENT, "12 V", &["second quantity"], None),
    case("10-12 V", D::VOLTAGE, "10-12", &["range"], None),
    case("10 to 12 V", D::VOLTAGE, "to", &["range"], None),
    case("10 ± 2 V", D::VOLTAGE, "± 2 V", &["tolerance"], None),
    case("~5 A", D::CURRENT, "~", &["does not belong"], None),
    case("about 5 A", D::CURRENT, "about", &["does not belong"], None),
    // feet and inches, fractions
    case("8 ft 14 in", D::LENGTH, "14", &["below 12"], None),
    case("8.5 ft 6 in", D::LENGTH, "8.5", &["whole number"], None),
    case("8 ft -6 in", D::LENGTH, "-6", &["sign"], None),
    case("8 ft 6", D::LENGTH, "6", &["no unit"], Some("8 ft 6 in")),
    case("5/0 in", D::LENGTH, "5/0", &["0 below its bar", "AWG"], None),
    case("9/8 in", D::LENGTH, "9/8", &["smaller number first"], None),
];

fn whole(misread: &Misread) -> String {
    format!("{} {}", misread.message, misread.why.as_deref().unwrap_or_default())
}

#[test]
fn refusals_mark_the_place_say_why_and_mend_what_is_certain() {
    let mut faults = Vec::new();
    for case in CASES {
        let Err(misread) = read(case.text, case.expected) else {
            faults.push(format!("{:?} was read", case.text));
            continue;
        };
        let marked = case.text.get(misread.at.clone());
        let words = whole(&misread);
        let silent: Vec<_> = case.says.iter().filter(|part| !words.contains(**part)).collect();
        if marked != Some(case.marked) || misread.instead.as_deref() != case.instead || !silent.is_empty() {
            faults.push(format!("{:?}: marked {marked:?}, not said {silent:?}, {misread:?}", case.text));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn a_message_does_not_repeat_control_characters_or_endless_text() {
    let misread = read("5 \u{1b}[31mred\u{7}", D::CURRENT).unwrap_err();
    assert!(!misread.message.contains(char::is_control), "{:?}", misread.message);
    let long = format!("5 {}", "x".repeat(150));
    assert!(read(&long, D::CURRENT).unwrap_err().message.len() < 150);
    let endless = "9".repeat(100_000);
    assert!(read(&endless, D::CURRENT).unwrap_err().message.contains("too long"));
}
