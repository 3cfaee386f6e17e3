//! Fuel and electricity for heat: heating values, and what a night or a week takes.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_not_negative, need_share, outcome};
use crate::interval::Interval;

/// A fuel of heaters and cookers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fuel {
    /// Diesel or gas oil.
    Diesel,
    /// Motor petrol.
    Petrol,
    /// Propane.
    Propane,
    /// Butane.
    Butane,
    /// Ethanol (spirit cookers), without water.
    Ethanol,
}

/// Lower heating value (the water leaves as vapour) and density of a fuel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatingValue {
    /// J/kg.
    pub joules_per_kilogram: Interval,
    /// kg/m³ of the liquid at 15 °C.
    pub density: Interval,
    /// Source of the heating value.
    pub citation: &'static Citation,
    /// Source of the density.
    pub density_citation: &'static Citation,
}

static IPCC: Citation = Citation {
    document: "2006 IPCC Guidelines, volume 2, chapter 1",
    place: "Table 1.2, net calorific values with 95 % limits",
    edition: "2006, quoted in a public repository",
    mark: Mark::SecondHand,
    address: "",
};

static ENTHALPY: Citation = Citation {
    document: "enthalpies of formation",
    place: "net heat of combustion at 25 °C as a gas (ethanol: liquid), to water vapour",
    edition: "chemicals 1.5.2",
    mark: Mark::Computed,
    address: "",
};

static FUEL_STANDARD: Citation = Citation {
    document: "EN 590 and EN 228",
    place: "density at 15 °C",
    edition: "not seen",
    mark: Mark::Memory,
    address: "",
};

static SATURATED_LIQUID: Citation = Citation {
    document: "CoolProp 8.0.0",
    place: "density of the saturated liquid at 15 °C",
    edition: "",
    mark: Mark::Computed,
    address: "",
};

static ETHANOL_DENSITY: Citation = Citation {
    document: "no source seen",
    place: "density of ethanol at 15 °C",
    edition: "",
    mark: Mark::Memory,
    address: "",
};

/// Heating value of a fuel: diesel 41.4 to 43.3, petrol 42.5 to 44.8 MJ/kg (IPCC); propane 46.3, butane 45.7 and ethanol 26.8 MJ/kg (heats
/// of formation).
#[must_use]
pub const fn heating_value(fuel: Fuel) -> HeatingValue {
    let (least, most, citation) = match fuel {
        Fuel::Diesel => (41.4e6, 43.3e6, &IPCC),
        Fuel::Petrol => (42.5e6, 44.8e6, &IPCC),
        Fuel::Propane => (46.3e6, 46.4e6, &ENTHALPY),
        Fuel::Butane => (45.7e6, 45.8e6, &ENTHALPY),
        Fuel::Ethanol => (26.7e6, 26.9e6, &ENTHALPY),
    };
    let (lighter, heavier, density_citation) = match fuel {
        Fuel::Diesel => (820.0, 845.0, &FUEL_STANDARD),
        Fuel::Petrol => (720.0, 775.0, &FUEL_STANDARD),
        Fuel::Propane => (507.5, 507.5, &SATURATED_LIQUID),
        Fuel::Butane => (584.3, 584.3, &SATURATED_LIQUID),
        Fuel::Ethanol => (790.0, 795.0, &ETHANOL_DENSITY),
    };
    HeatingValue {
        joules_per_kilogram: Interval::row(least, most),
        density: Interval::row(lighter, heavier),
        citation,
        density_citation,
    }
}

/// Fuel for an amount of useful heat J, kg: heat over efficiency (0 to 1, on the lower heating value) and heating value.
///
/// # Errors
/// A heat below zero; an efficiency outside 0 to 1.
pub fn fuel_mass_for(useful_heat: Interval, efficiency: f64, fuel: Fuel) -> Result<Interval, InputError> {
    need_not_negative("useful heat", useful_heat.least())?;
    let efficiency = need_share("efficiency", efficiency)?;
    let value = heating_value(fuel).joules_per_kilogram;
    Interval::new(
        outcome("fuel", useful_heat.least() / (efficiency * value.most()))?,
        outcome("fuel", useful_heat.most() / (efficiency * value.least()))?,
    )
}

/// The same as liquid, m³. Light fuel has the greater heating value by mass, so the bounds are a little wide.
///
/// # Errors
/// As for [`fuel_mass_for`].
pub fn fuel_volume_for(useful_heat: Interval, efficiency: f64, fuel: Fuel) -> Result<Interval, InputError> {
    let mass = fuel_mass_for(useful_heat, efficiency, fuel)?;
    let density = heating_value(fuel).density;
    Interval::new(outcome("fuel", mass.least() / density.most())?, outcome("fuel", mass.most() / density.least())?)
}

/// Electricity that a heater takes, J: running power W for the time that it burns s, and the energy of its starts J each.
///
/// # Errors
/// A number below zero.
pub fn electricity_for(running: f64, seconds: f64, starts: u32, joules_per_start: f64) -> Result<f64, InputError> {
    let running = need_not_negative("running power", running)? * need_not_negative("time", seconds)?;
    let starting = f64::from(starts) * need_not_negative("energy of a start", joules_per_start)?;
    outcome("electricity", running + starting)
}
