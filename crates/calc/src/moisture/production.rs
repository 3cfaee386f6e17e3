//! Water that people, cooking, washing and flames give to the air.
//!
//! * Persons asleep 50 mL/h and unflued gas heaters up to 1.6 L/kg: a metal-roofing code of practice, clause 10.8.1,
//!   <https://metalroofing.org.nz/occupant-behaviour>. Mark: read.
//! * Persons awake, cooking, shower, bath: <https://northernarchitecture.us> humidity Table 10.1.1. Mark: read.
//! * A measured study (Riga, 2016) found less than the literature for every source, so the upper bounds are safe to ventilate by.
//! * Water of combustion: from the formula of the fuel. Mark: computed.

use crate::citation::{Citation, Mark};
use crate::heat::{Fuel, heating_value};
use crate::input::{InputError, need_not_negative, need_share, outcome};
use crate::interval::Interval;

static ROOFING: Citation = Citation {
    document: "code of practice for metal roofing",
    place: "clause 10.8.1",
    edition: "undated",
    mark: Mark::Read,
    address: "https://metalroofing.org.nz/occupant-behaviour",
};

static HUMIDITY_TABLE: Citation = Citation {
    document: "page on humidity in buildings",
    place: "Table 10.1.1",
    edition: "undated",
    mark: Mark::Read,
    address: "https://northernarchitecture.us",
};

/// How a source gives water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SourceAmount {
    /// All the time, kg/s.
    Rate(Interval),
    /// With each use, kg.
    Use(Interval),
}

/// A source of moisture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoistureSource {
    /// Plain name.
    pub name: &'static str,
    /// What it gives.
    pub amount: SourceAmount,
    /// Source of the value.
    pub citation: &'static Citation,
}

const GRAMS_PER_HOUR: f64 = 1e-3 / 3_600.0;

const fn rate(name: &'static str, least: f64, most: f64, citation: &'static Citation) -> MoistureSource {
    let amount = SourceAmount::Rate(Interval::row(least * GRAMS_PER_HOUR, most * GRAMS_PER_HOUR));
    MoistureSource { name, amount, citation }
}

static SOURCES: [MoistureSource; 8] = [
    // 50 g/h is the roofers' value; the lower bound of 40 g/h is chosen, since measured nights lie below the literature.
    rate("person-asleep", 40.0, 50.0, &ROOFING),
    rate("person-sedentary", 40.0, 60.0, &HUMIDITY_TABLE),
    rate("person-active", 60.0, 120.0, &HUMIDITY_TABLE),
    rate("person-hard-work", 120.0, 200.0, &HUMIDITY_TABLE),
    rate("cooking", 600.0, 1_500.0, &HUMIDITY_TABLE),
    rate("shower", 2_500.0, 2_500.0, &HUMIDITY_TABLE),
    rate("bath", 700.0, 700.0, &HUMIDITY_TABLE),
    MoistureSource {
        name: "short-shower",
        amount: SourceAmount::Use(Interval::row(0.237, 0.237)),
        citation: &HOME_STUDY,
    },
];

static HOME_STUDY: Citation = Citation {
    document: "study of moisture sources in homes",
    place: "five-minute shower, half a US pint",
    edition: "1988, as quoted",
    mark: Mark::Read,
    address: "https://www.builditsolar.com",
};

/// The source of that name; `None` for a name that the table does not have.
#[must_use]
pub fn moisture_source(name: &str) -> Option<&'static MoistureSource> {
    SOURCES.iter().find(|source| source.name == name)
}

/// All sources of the table.
#[must_use]
pub fn moisture_sources() -> &'static [MoistureSource] {
    &SOURCES
}

// Molar masses, g/mol (IUPAC, rounded).
const CARBON: f64 = 12.011;
const HYDROGEN: f64 = 1.008;
const OXYGEN: f64 = 15.999;
const WATER: f64 = 2.0 * HYDROGEN + OXYGEN;

const fn of_molecule(carbon: f64, hydrogen: f64, oxygen: f64) -> f64 {
    hydrogen / 2.0 * WATER / (carbon * CARBON + hydrogen * HYDROGEN + oxygen * OXYGEN)
}

/// Share of hydrogen in the mass of motor fuels, from memory: diesel 13.0 to 13.8 %, petrol 13.0 to 14.5 %.
const DIESEL_HYDROGEN: (f64, f64) = (0.130, 0.138);
const PETROL_HYDROGEN: (f64, f64) = (0.130, 0.145);

/// Water for each kilogram of hydrogen burnt.
const WATER_PER_HYDROGEN: f64 = WATER / (2.0 * HYDROGEN);

/// Water from burning a kilogram of fuel, kg: propane 1.634, butane 1.550, ethanol 1.173, diesel and petrol 1.16 to 1.30.
#[must_use]
pub const fn combustion_water(fuel: Fuel) -> Interval {
    let (least, most) = match fuel {
        Fuel::Propane => (of_molecule(3.0, 8.0, 0.0), of_molecule(3.0, 8.0, 0.0)),
        Fuel::Butane => (of_molecule(4.0, 10.0, 0.0), of_molecule(4.0, 10.0, 0.0)),
        Fuel::Ethanol => (of_molecule(2.0, 6.0, 1.0), of_molecule(2.0, 6.0, 1.0)),
        Fuel::Diesel => (DIESEL_HYDROGEN.0 * WATER_PER_HYDROGEN, DIESEL_HYDROGEN.1 * WATER_PER_HYDROGEN),
        Fuel::Petrol => (PETROL_HYDROGEN.0 * WATER_PER_HYDROGEN, PETROL_HYDROGEN.1 * WATER_PER_HYDROGEN),
    };
    Interval::row(least, most)
}

/// Water that a flame without a flue gives to the room, kg/s: power W over heating value, times the water of combustion. `share` is the part
/// of its gas that stays inside (1 without a hood).
///
/// # Errors
/// A power below zero; a share outside 0 to 1.
pub fn flame_water(power: f64, fuel: Fuel, share: f64) -> Result<Interval, InputError> {
    let power = need_not_negative("power of the flame", power)?;
    let share = need_share("share of the flue gas inside", share)?;
    let value = heating_value(fuel).joules_per_kilogram;
    let water = combustion_water(fuel);
    Interval::new(
        outcome("water", power * share * water.least() / value.most())?,
        outcome("water", power * share * water.most() / value.least())?,
    )
}
