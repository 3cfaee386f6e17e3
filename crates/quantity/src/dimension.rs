//! Dimensions: what a number measures, as powers of base dimensions.
//!
//! Source of the derived dimensions: SI Brochure, 9th edition, tables 4 and 5 (from memory). Angle and money are kept as
//! base dimensions of their own so that degrees and euros are never mistaken for plain ratios.

/// The powers of the base dimensions, and whether a temperature is a point or a difference.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord, Default)]
pub struct Dimension {
    /// Power of length (metre).
    pub length: i8,
    /// Power of mass (kilogram).
    pub mass: i8,
    /// Power of time (second).
    pub time: i8,
    /// Power of electric current (ampere).
    pub current: i8,
    /// Power of temperature (kelvin).
    pub temperature: i8,
    /// Power of plane angle (radian).
    pub angle: i8,
    /// Power of money (one unit of a currency).
    pub money: i8,
    /// True for a point on a thermometer, false for a temperature difference and for everything else.
    pub absolute: bool,
}

/// Length, mass, time, current, temperature.
const fn base(length: i8, mass: i8, time: i8, current: i8, temperature: i8) -> Dimension {
    Dimension { length, mass, time, current, temperature, angle: 0, money: 0, absolute: false }
}

impl Dimension {
    /// A plain ratio: efficiency, duty, slope.
    pub const RATIO: Self = base(0, 0, 0, 0, 0);
    /// Length, metre.
    pub const LENGTH: Self = base(1, 0, 0, 0, 0);
    /// Area, square metre.
    pub const AREA: Self = base(2, 0, 0, 0, 0);
    /// Volume, cubic metre.
    pub const VOLUME: Self = base(3, 0, 0, 0, 0);
    /// Mass, kilogram.
    pub const MASS: Self = base(0, 1, 0, 0, 0);
    /// Time, second.
    pub const TIME: Self = base(0, 0, 1, 0, 0);
    /// Electric current, ampere.
    pub const CURRENT: Self = base(0, 0, 0, 1, 0);
    /// Voltage, volt.
    pub const VOLTAGE: Self = base(2, 1, -3, -1, 0);
    /// Power, watt; apparent power too.
    pub const POWER: Self = base(2, 1, -3, 0, 0);
    /// Energy, joule; torque has the same dimension.
    pub const ENERGY: Self = base(2, 1, -2, 0, 0);
    /// Electric charge, ampere second.
    pub const CHARGE: Self = base(0, 0, 1, 1, 0);
    /// Electric resistance, ohm.
    pub const RESISTANCE: Self = base(2, 1, -3, -2, 0);
    /// A point on a thermometer, kelvin above absolute zero.
    pub const TEMPERATURE: Self = Self { absolute: true, ..Self::TEMPERATURE_DIFFERENCE };
    /// A temperature difference, kelvin.
    pub const TEMPERATURE_DIFFERENCE: Self = base(0, 0, 0, 0, 1);
    /// Pressure, pascal.
    pub const PRESSURE: Self = base(-1, 1, -2, 0, 0);
    /// Volume flow, cubic metre per second.
    pub const FLOW: Self = base(3, 0, -1, 0, 0);
    /// Force, newton.
    pub const FORCE: Self = base(1, 1, -2, 0, 0);
    /// Acceleration, metre per second squared.
    pub const ACCELERATION: Self = base(1, 0, -2, 0, 0);
    /// Plane angle, radian.
    pub const ANGLE: Self = Self { angle: 1, ..Self::RATIO };
    /// Thermal conductivity, watt per metre kelvin.
    pub const CONDUCTIVITY: Self = base(1, 1, -3, 0, -1);
    /// Thermal transmittance, watt per square metre kelvin.
    pub const U_VALUE: Self = base(0, 1, -3, 0, -1);
    /// Frequency, hertz.
    pub const FREQUENCY: Self = base(0, 0, -1, 0, 0);
    /// A sum of money.
    pub const MONEY: Self = Self { money: 1, ..Self::RATIO };
    /// Speed, metre per second.
    pub const SPEED: Self = base(1, 0, -1, 0, 0);
    /// Mass per volume, kilogram per cubic metre.
    pub const DENSITY: Self = base(-3, 1, 0, 0, 0);
    /// Mass per area, kilogram per square metre.
    pub const AREA_MASS: Self = base(-2, 1, 0, 0, 0);
    /// Mass flow, kilogram per second.
    pub const MASS_FLOW: Self = base(0, 1, -1, 0, 0);
    /// Power per area, watt per square metre.
    pub const IRRADIANCE: Self = base(0, 1, -3, 0, 0);
    /// Thermal resistance of an area, square metre kelvin per watt: the R-value.
    pub const R_VALUE: Self = base(0, -1, 3, 0, 1);
    /// Energy per mass, joule per kilogram.
    pub const HEATING_VALUE: Self = base(2, 0, -2, 0, 0);
    /// Change per kelvin, one per kelvin.
    pub const TEMPERATURE_COEFFICIENT: Self = base(0, 0, 0, 0, -1);
    /// Resistance per length, ohm per metre.
    pub const RESISTANCE_PER_LENGTH: Self = base(1, 1, -3, -2, 0);

    /// The dimension of a product. A point on a thermometer has no product: the caller refuses one first
    /// (`is_point`), because the result here is that of a difference.
    pub const fn times(self, other: Self) -> Self {
        Self {
            length: self.length.saturating_add(other.length),
            mass: self.mass.saturating_add(other.mass),
            time: self.time.saturating_add(other.time),
            current: self.current.saturating_add(other.current),
            temperature: self.temperature.saturating_add(other.temperature),
            angle: self.angle.saturating_add(other.angle),
            money: self.money.saturating_add(other.money),
            absolute: false,
        }
    }

    /// The dimension of a quotient. The remark on points at `times` applies.
    pub const fn over(self, other: Self) -> Self {
        self.times(other.power(-1))
    }

    /// The dimension of a whole power. The remark on points at `times` applies.
    pub const fn power(self, exponent: i8) -> Self {
        Self {
            length: self.length.saturating_mul(exponent),
            mass: self.mass.saturating_mul(exponent),
            time: self.time.saturating_mul(exponent),
            current: self.current.saturating_mul(exponent),
            temperature: self.temperature.saturating_mul(exponent),
            angle: self.angle.saturating_mul(exponent),
            money: self.money.saturating_mul(exponent),
            absolute: false,
        }
    }

    /// The dimension of a sum, or None where the two cannot be added. Point + difference = point; two points have no sum.
    pub fn plus(self, other: Self) -> Option<Self> {
        if self.as_difference() != other.as_difference() || (self.absolute && other.absolute) {
            return None;
        }
        Some(Self { absolute: self.absolute || other.absolute, ..self })
    }

    /// The dimension of a difference, or None where one cannot be taken. Point − point = difference, point − difference
    /// = point; a point cannot be taken from a difference.
    pub fn minus(self, other: Self) -> Option<Self> {
        if self.as_difference() != other.as_difference() || (!self.absolute && other.absolute) {
            return None;
        }
        Some(Self { absolute: self.absolute && !other.absolute, ..self })
    }

    /// True for a point on a thermometer, which can be compared and moved by a difference, but not multiplied.
    pub const fn is_point(self) -> bool {
        self.absolute
    }

    /// The same dimension with a temperature taken as a difference.
    pub const fn as_difference(self) -> Self {
        Self { absolute: false, ..self }
    }

    /// The name a builder knows ("current", "temperature difference"), or SI base units for one without a name.
    pub fn name(self) -> String {
        match NAMES.iter().find(|entry| entry.dimension == self) {
            Some(entry) => entry.key.replace('-', " ").replace("u value", "U-value").replace("r value", "R-value"),
            None => self.base_units(),
        }
    }

    /// The name with its article, for a sentence: "a current", "an area".
    pub(crate) fn name_with_article(self) -> String {
        if self == Self::MONEY {
            return "a sum of money".to_owned();
        }
        let name = self.name();
        let article = if !NAMES.iter().any(|entry| entry.dimension == self) {
            "a quantity in"
        } else if name.starts_with(['a', 'e', 'i', 'o', 'R']) {
            "an"
        } else {
            "a"
        };
        format!("{article} {name}")
    }

    /// SI base units: "kg·m/s³"; "1" for a ratio.
    pub(crate) fn base_units(self) -> String {
        let powers = [
            ("kg", self.mass),
            ("m", self.length),
            ("A", self.current),
            ("K", self.temperature),
            ("rad", self.angle),
            ("money", self.money),
            ("s", self.time),
        ];
        let side = |sign: i16| {
            powers
                .iter()
                .filter(|(_, power)| i16::from(*power) * sign > 0)
                .map(|(symbol, power)| format!("{symbol}{}", superscript(power.unsigned_abs())))
                .collect::<Vec<_>>()
                .join("·")
        };
        let (above, below) = (side(1), side(-1));
        match (above.is_empty(), below.is_empty()) {
            (true, true) => "1".to_owned(),
            (false, true) => above,
            (true, false) => format!("1/{below}"),
            (false, false) => format!("{above}/{below}"),
        }
    }

    /// The dimension of a name as the vocabulary writes it: "length", "u-value", "temperature-difference"; "duty" is a
    /// ratio.
    pub fn from_name(name: &str) -> Option<Self> {
        if name == "duty" {
            return Some(Self::RATIO);
        }
        NAMES.iter().find(|entry| entry.key == name).map(|entry| entry.dimension)
    }

    /// "such as "16 A"", to follow on the name in a sentence.
    pub(crate) fn such_as(self) -> String {
        match NAMES.iter().find(|entry| entry.dimension == self) {
            Some(entry) => format!("such as \"{}\"", entry.example),
            None => "as a number with its unit".to_owned(),
        }
    }

    /// What a builder would write: "16 A", "2.4 m". For a dimension without a name, a hint in words.
    pub fn example(self) -> &'static str {
        NAMES.iter().find(|entry| entry.dimension == self).map_or("a number and its unit", |entry| entry.example)
    }
}

/// ², ³ … for a power above one; nothing for one.
fn superscript(power: u8) -> String {
    if power == 1 {
        return String::new();
    }
    const DIGITS: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    power
        .to_string()
        .chars()
        .filter_map(|digit| digit.to_digit(10))
        .filter_map(|digit| DIGITS.get(digit as usize))
        .collect()
}

/// A dimension that has a name of its own.
struct Named {
    key: &'static str,
    dimension: Dimension,
    example: &'static str,
}

const fn named(key: &'static str, dimension: Dimension, example: &'static str) -> Named {
    Named { key, dimension, example }
}

static NAMES: &[Named] = &[
    named("ratio", Dimension::RATIO, "92 %"),
    named("length", Dimension::LENGTH, "2.4 m"),
    named("area", Dimension::AREA, "40 cm2"),
    named("volume", Dimension::VOLUME, "70 l"),
    named("mass", Dimension::MASS, "46 kg"),
    named("time", Dimension::TIME, "20 min"),
    named("current", Dimension::CURRENT, "16 A"),
    named("voltage", Dimension::VOLTAGE, "12 V"),
    named("power", Dimension::POWER, "800 W"),
    named("energy", Dimension::ENERGY, "1.5 kWh"),
    named("charge", Dimension::CHARGE, "200 Ah"),
    named("resistance", Dimension::RESISTANCE, "8 mohm"),
    named("temperature", Dimension::TEMPERATURE, "35 degC"),
    named("temperature-difference", Dimension::TEMPERATURE_DIFFERENCE, "5 K"),
    named("pressure", Dimension::PRESSURE, "30 mbar"),
    named("flow", Dimension::FLOW, "25 m3/min"),
    named("force", Dimension::FORCE, "400 N"),
    named("acceleration", Dimension::ACCELERATION, "20 g"),
    named("angle", Dimension::ANGLE, "58 deg"),
    named("conductivity", Dimension::CONDUCTIVITY, "0.022 W/mK"),
    named("u-value", Dimension::U_VALUE, "2.8 W/m2K"),
    named("frequency", Dimension::FREQUENCY, "50 Hz"),
    named("money", Dimension::MONEY, "28000 EUR"),
    named("speed", Dimension::SPEED, "90 km/h"),
    named("density", Dimension::DENSITY, "600 kg/m3"),
    named("area-mass", Dimension::AREA_MASS, "7.5 kg/m2"),
    named("mass-flow", Dimension::MASS_FLOW, "150 g/h"),
    named("irradiance", Dimension::IRRADIANCE, "1000 W/m2"),
    named("r-value", Dimension::R_VALUE, "1.2 m2K/W"),
    named("heating-value", Dimension::HEATING_VALUE, "46 MJ/kg"),
    named("temperature-coefficient", Dimension::TEMPERATURE_COEFFICIENT, "-0.28 %/K"),
    named("resistance-per-length", Dimension::RESISTANCE_PER_LENGTH, "3.3 mohm/m"),
];
