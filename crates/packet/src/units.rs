//! The unit of each column: table files keep numbers as numbers, so that all of one column are given in one unit.

use quantity::{Dimension, System, Unit, unit_by_identifier};

/// The unit in which a column of this dimension is given; nothing for money, whose currency stands in each row, and for
/// dimensions without units of their own.
pub fn column_unit(dimension: Dimension, system: System) -> Option<&'static Unit> {
    let us = system == System::UsCustomary;
    let pick = |metric: &'static str, customary: &'static str| Some(if us { customary } else { metric });
    let identifier = match dimension {
        Dimension::LENGTH => pick("mm", "inch"),
        // Areas of columns are those of openings; conductors have a type of their own.
        Dimension::AREA => pick("cm2", "in2"),
        Dimension::VOLUME => pick("l", "galUS"),
        Dimension::MASS => pick("kg", "lb"),
        Dimension::TEMPERATURE => pick("degC", "degF"),
        Dimension::PRESSURE => pick("mbar", "psi"),
        Dimension::FLOW => pick("l_per_min", "galUS_per_min"),
        Dimension::MASS_FLOW => pick("kg_per_h", "lb_per_h"),
        Dimension::SPEED => pick("m_per_s", "ft_per_min"),
        Dimension::U_VALUE => pick("W_per_m2K", "Btu_per_hft2degF"),
        Dimension::FORCE => pick("N", "lbf"),
        Dimension::RATIO => Some("percent"),
        Dimension::ANGLE => Some("deg"),
        Dimension::TIME => Some("h"),
        Dimension::CURRENT => Some("A"),
        Dimension::VOLTAGE => Some("V"),
        Dimension::RESISTANCE => Some("mohm"),
        Dimension::POWER => Some("W"),
        Dimension::ENERGY => Some("Wh"),
        Dimension::CHARGE => Some("Ah"),
        Dimension::ACCELERATION => Some("g_n"),
        _ => None,
    }?;
    unit_by_identifier(identifier)
}

/// A number of SI in the column's unit, as a table file holds it: enough digits that nothing that was written is lost, and
/// none that only rounding made.
pub fn in_unit(value: f64, unit: Option<&Unit>) -> String {
    /// Digits that a number keeps: more than anything on a drawing has, fewer than a double holds.
    const DIGITS: usize = 9;
    let number = unit.map_or(value, |unit| unit.from_si(value));
    if !number.is_finite() {
        return String::new();
    }
    let rounded: f64 = format!("{number:.DIGITS$e}").parse().unwrap_or(number);
    format!("{}", rounded + 0.0)
}

/// The unit of copper areas in table files, whatever the reader's system: every market reads mm².
pub fn copper_unit() -> Option<&'static Unit> {
    unit_by_identifier("mm2")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_keep_what_was_written_and_nothing_that_rounding_made() {
        let cases = [
            (0.12, Dimension::LENGTH, System::Metric, "120"),
            (0.1778, Dimension::LENGTH, System::UsCustomary, "7"),
            (261.15, Dimension::TEMPERATURE, System::Metric, "-12"),
            (250.0, Dimension::CURRENT, System::Metric, "250"),
            (0.1 + 0.2, Dimension::CURRENT, System::Metric, "0.3"),
            (0.7, Dimension::RATIO, System::Metric, "70"),
            (f64::NAN, Dimension::CURRENT, System::Metric, ""),
        ];
        for (value, dimension, system, expected) in cases {
            assert_eq!(in_unit(value, column_unit(dimension, system)), expected, "{value}");
        }
    }
}
