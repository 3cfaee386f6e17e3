//! Hydrogen of batteries under charge: how much air takes it away, how large the openings are, and how far sparks must stay.

use crate::battery::Chemistry;
use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive, share};
use crate::tables::hydrogen_gas_currents as gas;

/// Coulombs in an ampere-hour.
const COULOMBS_PER_AMPERE_HOUR: f64 = 3_600.0;
const SECONDS_PER_HOUR: f64 = 3_600.0;

/// How a battery is charged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ChargeStage {
    /// Held full: 2.23 V (vented) or 2.27 V (valve-regulated) per lead cell, 1.40 V per nickel-cadmium cell.
    Float,
    /// Charged fast: 2.40 V per lead cell, 1.55 V per nickel-cadmium cell.
    Boost,
}

/// Gas-producing current, **mA per Ah** of rated capacity (to 40 °C), EN 50272-2 Table 1. Absorbed and gelled lead count as
/// valve-regulated.
///
/// `None` for lithium cells, of which the table says nothing: they give off no hydrogen in service, and the gas of a failed cell is
/// another matter.
#[must_use]
pub fn gas_current_milliamperes_per_ampere_hour(
    chemistry: Chemistry,
    stage: ChargeStage,
) -> Option<(f64, &'static Citation)> {
    let (float, boost) = match chemistry {
        Chemistry::FloodedLead => gas::VENTED_LEAD,
        Chemistry::Agm | Chemistry::Gel => gas::VALVE_REGULATED_LEAD,
        Chemistry::NickelCadmium => gas::VENTED_NICKEL_CADMIUM,
        Chemistry::LithiumIronPhosphate | Chemistry::LithiumNickelManganeseCobalt => return None,
    };
    let value = match stage {
        ChargeStage::Float => float,
        ChargeStage::Boost => boost,
    };
    Some((value, &gas::CITATION))
}

/// The ventilation formula, the openings and the distance of IEC 62485-2.
pub static VENTILATION: Citation = Citation {
    document: "IEC 62485-2",
    place: "Q = 0.05·n·Igas·Crt·10⁻³ m³/h; openings A = 28·Q cm² (as EN 50272-2)",
    edition: "EN 50272-2:2001, quoted on several pages",
    mark: Mark::SecondHand,
    address: "https://fr.scribd.com/document/421817105/Battery-Room-Ventilation",
};

/// The distance for sparks of IEC 62485-2.
pub static SPARK_DISTANCE: Citation = Citation {
    document: "IEC 62485-2",
    place: "clause 7.5, d = 28.8·∛Igas·∛Crt mm",
    edition: "formula not seen",
    mark: Mark::Memory,
    address: "",
};

/// Air for each ampere-hour of gassing and cell, m³/Ah, as the standard prints it. The product behind it is
/// 24 (dilution to 4 %) × 0.42e-3 m³/Ah × 5 (safety) = 0.0504, which is 0.8 % more; published sheets use both.
const AIR_PER_AMPERE_HOUR: f64 = 0.05;

/// Air that takes the hydrogen of a battery away, m³/s: Q = 0.05 m³/Ah · n · Igas · Crt (IEC 62485-2).
///
/// `cells` in series; for parallel strings take their summed capacity. `milliamperes_per_ampere_hour` as in
/// [`gas_current_milliamperes_per_ampere_hour`]; `capacity_coulombs` the rated capacity, C (lead C10, nickel-cadmium C5). `None` for no
/// cells and where a number is below zero or not finite.
#[must_use]
pub fn hydrogen_ventilation_flow(cells: u32, milliamperes_per_ampere_hour: f64, capacity_coulombs: f64) -> Option<f64> {
    if cells == 0 || !not_negative(milliamperes_per_ampere_hour) || !positive(capacity_coulombs) {
        return None;
    }
    let gassing_amperes = milliamperes_per_ampere_hour / 1e3 * (capacity_coulombs / COULOMBS_PER_AMPERE_HOUR);
    finite(AIR_PER_AMPERE_HOUR * f64::from(cells) * gassing_amperes / SECONDS_PER_HOUR)
}

/// Square centimetres of opening for each m³/h of air (an air speed of about 0.1 m/s), IEC 62485-2.
const OPENING_CM2_PER_CUBIC_METRE_PER_HOUR: f64 = 28.0;
const CM2_PER_M2: f64 = 1e4;

/// Free area that the inlet **and** the outlet of natural ventilation each need, m²: A = 28·Q cm² with Q in m³/h; `flow` here in m³/s.
/// `None` for a flow below zero or not finite.
#[must_use]
pub fn free_opening_area(flow: f64) -> Option<f64> {
    if !not_negative(flow) {
        return None;
    }
    finite(OPENING_CM2_PER_CUBIC_METRE_PER_HOUR * flow * SECONDS_PER_HOUR / CM2_PER_M2)
}

/// Millimetres for a gas current of 1 mA/Ah and a capacity of 1 Ah, IEC 62485-2 (from memory).
const SPARK_MILLIMETRES: f64 = 28.8;

/// Distance within which nothing may spark, glow or burn (or be above 300 °C), m: d = 28.8·∛Igas·∛Crt mm ([`SPARK_DISTANCE`], from memory).
/// Arguments and answers as in [`hydrogen_ventilation_flow`].
#[must_use]
pub fn spark_distance(milliamperes_per_ampere_hour: f64, capacity_coulombs: f64) -> Option<f64> {
    if !not_negative(milliamperes_per_ampere_hour) || !positive(capacity_coulombs) {
        return None;
    }
    let ampere_hours = capacity_coulombs / COULOMBS_PER_AMPERE_HOUR;
    finite(SPARK_MILLIMETRES * milliamperes_per_ampere_hour.cbrt() * ampere_hours.cbrt() / 1e3)
}

// Faraday's law and the gas law, CODATA values.
const FARADAY_COULOMBS_PER_MOLE: f64 = 96_485.332;
const GAS_CONSTANT: f64 = 8.314_463;
const ATMOSPHERE_PASCALS: f64 = 101_325.0;
/// Each hydrogen molecule takes two electrons.
const ELECTRONS_PER_HYDROGEN: f64 = 2.0;

/// Hydrogen that a gassing current releases, m³/s at `kelvin` and one atmosphere: n·I/(2F)·R·T/p (Faraday's law and the gas law).
///
/// `amperes` is the current that goes into gas, through `cells` in series. `None` for no cells and where a number is below zero (the
/// temperature: not above) or not finite.
#[must_use]
pub fn hydrogen_released(cells: u32, amperes: f64, kelvin: f64) -> Option<f64> {
    if cells == 0 || !not_negative(amperes) || !positive(kelvin) {
        return None;
    }
    let moles_per_second = f64::from(cells) * amperes / (ELECTRONS_PER_HYDROGEN * FARADAY_COULOMBS_PER_MOLE);
    finite(moles_per_second * GAS_CONSTANT * kelvin / ATMOSPHERE_PASCALS)
}

/// Air that keeps a gas below a share of the volume, m³/s: the gas flow in m³/s over the share (0 to 1). `None` as for the others here.
#[must_use]
pub fn air_to_dilute(gas_flow: f64, volume_share: f64) -> Option<f64> {
    if !not_negative(gas_flow) || !share(volume_share) {
        return None;
    }
    finite(gas_flow / volume_share)
}

/// Size of a battery installation by the power of its charger, 46 CFR 111.15-3.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ChargerOutput {
    /// Below 0.2 kW.
    Small,
    /// 0.2 to 2 kW.
    Moderate,
    /// Above 2 kW.
    Large,
}

impl ChargerOutput {
    /// The next lower category, which the section allows for sealed batteries that give off little hydrogen.
    #[must_use]
    pub const fn one_lower(self) -> Self {
        match self {
            ChargerOutput::Large => ChargerOutput::Moderate,
            ChargerOutput::Moderate | ChargerOutput::Small => ChargerOutput::Small,
        }
    }
}

/// Where [`charger_output`] comes from.
pub static CHARGER_OUTPUT: Citation = Citation {
    document: "46 CFR 111.15-3",
    place: "battery installations by charger output",
    edition: "undated copy",
    mark: Mark::Read,
    address: "https://law.lawstack.com/cfr/46/111.15-3/",
};

// 46 CFR 111.15-3, W.
const SMALL_BELOW_WATTS: f64 = 200.0;
const LARGE_ABOVE_WATTS: f64 = 2_000.0;

/// Category of a battery installation: highest charging current A × rated battery voltage V ([`CHARGER_OUTPUT`]).
/// `None` where a number is not positive and finite.
#[must_use]
pub fn charger_output(charge_amperes: f64, battery_volts: f64) -> Option<ChargerOutput> {
    if !(positive(charge_amperes) && positive(battery_volts)) {
        return None;
    }
    let watts = charge_amperes * battery_volts;
    Some(if watts > LARGE_ABOVE_WATTS {
        ChargerOutput::Large
    } else if watts < SMALL_BELOW_WATTS {
        ChargerOutput::Small
    } else {
        ChargerOutput::Moderate
    })
}

/// The openings of a battery compartment by NEC 552.10(D): at the top and at the bottom.
pub static COMPARTMENT_OPENINGS: Citation = Citation {
    document: "NEC 552.10(D)",
    place: "openings at top and bottom of the battery compartment",
    edition: "2008",
    mark: Mark::Read,
    address: "http://solar365.com/green-homes/national-electric-code-2008/park-trailers/page/0/1?page=0,1",
};

/// Least area of each of the two openings, m² (printed 1,100 mm² and 1.7 in²), [`COMPARTMENT_OPENINGS`].
pub const COMPARTMENT_OPENING_AREA: f64 = 1_100e-6;

/// In a door each opening lies within this of the top or the bottom, m (printed 50 mm and 2 in), [`COMPARTMENT_OPENINGS`].
pub const COMPARTMENT_OPENING_FROM_EDGE: f64 = 0.050;
