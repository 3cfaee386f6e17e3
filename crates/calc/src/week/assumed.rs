//! What to assume of charging, and at which temperatures it is allowed.

use crate::battery::Chemistry;
use crate::citation::{Citation, Mark};
use crate::number::positive;
use crate::temperature::kelvin;

/// State of charge at which a battery counts as recharged. Chosen: the last hundredths of a lead battery take days.
pub const RECHARGED: f64 = 0.98;

/// How a chemistry takes its charge; all of it assumed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AssumedCharge {
    /// Largest charging current over the capacity, 1/s.
    pub rate: f64,
    /// State of charge from which the accepted current falls.
    pub taper_from: f64,
    /// Energy stored over energy given to it below that.
    pub efficiency: f64,
    /// The same above it.
    pub taper_efficiency: f64,
    /// Where the rate comes from.
    pub rate_citation: &'static Citation,
    /// Where the beginning of the taper comes from.
    pub taper_citation: &'static Citation,
    /// Where the efficiencies come from.
    pub efficiency_citation: &'static Citation,
}

/// Seconds of an hour.
const HOUR: f64 = 3_600.0;

/// What to assume of charging by chemistry, at the upper end of the usual rates. `None` for chemistries without values.
///
/// The efficiencies go with [`crate::discharge_efficiency`]: their product lies within the remembered range of a whole cycle.
#[must_use]
pub fn assumed_charge(chemistry: Chemistry) -> Option<AssumedCharge> {
    static RATE: Citation = Citation {
        document: "no source seen",
        place: "largest usual charging current over the ampere-hours: vented lead 0.25, absorbed 0.3, gelled 0.2, LFP 0.5",
        edition: "10 to 30 % for lead second-hand",
        mark: Mark::Memory,
        address: "",
    };
    static LEAD_TAPER: Citation = Citation {
        document: "page on charging lead batteries",
        place: "the last 20 % of the capacity cannot be charged fast",
        edition: "undated",
        mark: Mark::SecondHand,
        address: "",
    };
    static LFP_TAPER: Citation = Citation {
        document: "assumption of this project",
        place: "the charging current of LFP falls from 95 % on",
        edition: "",
        mark: Mark::Chosen,
        address: "",
    };
    static LEAD_EFFICIENCY: Citation = Citation {
        document: "J. W. Stevens and G. P. Corey, A Study of Lead-Acid Battery Efficiency Near Top-of-Charge, Sandia National Laboratories",
        place: "charge efficiency above 95 % at low states of charge (abstract, read); about half near full (from memory)",
        edition: "1996",
        mark: Mark::Memory,
        address: "",
    };
    static LFP_EFFICIENCY: Citation = Citation {
        document: "no source seen",
        place: "nearly all of the charge given to LFP cells is stored, 0.99",
        edition: "",
        mark: Mark::Memory,
        address: "",
    };
    let lead = |per_hour: f64| AssumedCharge {
        rate: per_hour / HOUR,
        taper_from: 0.8,
        efficiency: 0.95,
        taper_efficiency: 0.5,
        rate_citation: &RATE,
        taper_citation: &LEAD_TAPER,
        efficiency_citation: &LEAD_EFFICIENCY,
    };
    match chemistry {
        Chemistry::FloodedLead => Some(lead(0.25)),
        Chemistry::Agm => Some(lead(0.3)),
        Chemistry::Gel => Some(lead(0.2)),
        Chemistry::LithiumIronPhosphate => Some(AssumedCharge {
            rate: 0.5 / HOUR,
            taper_from: 0.95,
            efficiency: 0.99,
            taper_efficiency: 0.99,
            rate_citation: &RATE,
            taper_citation: &LFP_TAPER,
            efficiency_citation: &LFP_EFFICIENCY,
        }),
        Chemistry::LithiumNickelManganeseCobalt | Chemistry::NickelCadmium => None,
    }
}

/// Where [`charging_allowed`] comes from.
pub static CHARGING_TEMPERATURE: Citation = Citation {
    document: "pages on LFP cells, one of them a cell's data sheet",
    place: "charging from 0 to 60 °C; below 0 °C lithium is plated and the cell is damaged",
    edition: "undated",
    mark: Mark::SecondHand,
    address: "https://energiepanda.com/why-you-cannot-charge-lifepo4-battery-cell-under-0c32f/",
};

/// Whether a battery may be charged at a temperature K: LFP from 0 to 60 °C ([`CHARGING_TEMPERATURE`]), lead at any. `None` for other
/// chemistries and a temperature that is not positive and finite.
#[must_use]
pub fn charging_allowed(chemistry: Chemistry, battery_kelvin: f64) -> Option<bool> {
    if !positive(battery_kelvin) {
        return None;
    }
    match chemistry {
        Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel => Some(true),
        Chemistry::LithiumIronPhosphate => {
            let same = crate::temperature::SAME_KELVIN;
            Some((kelvin(0.0) - same..=kelvin(60.0) + same).contains(&battery_kelvin))
        }
        Chemistry::LithiumNickelManganeseCobalt | Chemistry::NickelCadmium => None,
    }
}
