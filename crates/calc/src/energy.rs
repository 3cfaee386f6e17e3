//! Energy of a day, what a battery holds of it, and how long a heavy load lasts.

use crate::battery::Chemistry;
use crate::citation::{Citation, Mark};
use crate::number::{finite, not_negative, positive, share};
use crate::tables::cold_capacity;
use crate::temperature::{CELSIUS_ZERO, SAME_KELVIN};

/// Seconds of a day.
pub const DAY_SECONDS: f64 = 86_400.0;

/// Energy of a load or a source in a day, J: power W × seconds a day in use × the share of them in which it works (0 to 1).
///
/// `None` for a power below zero, for more than a day's seconds, for a share outside 0 to 1, and where a number is not finite.
#[must_use]
pub fn energy_per_day(watts: f64, seconds_a_day: f64, duty: f64) -> Option<f64> {
    let usable = not_negative(watts) && (0.0..=DAY_SECONDS).contains(&seconds_a_day) && (0.0..=1.0).contains(&duty);
    if !usable {
        return None;
    }
    finite(watts * seconds_a_day * duty)
}

/// Share of the capacity that is used without wearing the battery out early, and where that comes from.
///
/// Lead 0.5, LFP 0.8; `None` for the other chemistries, for which no value was seen.
#[must_use]
pub fn usable_fraction(chemistry: Chemistry) -> Option<(f64, &'static Citation)> {
    static LEAD: Citation = Citation {
        document: "page on sizing off-grid batteries",
        place: "half of the capacity of lead batteries as the usual choice",
        edition: "undated",
        mark: Mark::SecondHand,
        address: "https://batteries-solar.blogspot.com",
    };
    static LFP: Citation = Citation {
        document: "no source seen",
        place: "80 % of the capacity of LFP batteries; makers allow 90 to 100 %",
        edition: "",
        mark: Mark::Memory,
        address: "",
    };
    match chemistry {
        Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel => Some((0.5, &LEAD)),
        Chemistry::LithiumIronPhosphate => Some((0.8, &LFP)),
        Chemistry::LithiumNickelManganeseCobalt | Chemistry::NickelCadmium => None,
    }
}

/// Efficiency of discharge to assume, and where that comes from: lead 0.85, LFP 0.95, both within the remembered ranges of whole-cycle
/// efficiency (lead 0.80 to 0.85, LFP 0.92 to 0.97). `None` for the other chemistries.
#[must_use]
pub fn discharge_efficiency(chemistry: Chemistry) -> Option<(f64, &'static Citation)> {
    static MEMORY: Citation = Citation {
        document: "no source seen",
        place: "energy efficiency of a whole cycle: lead 0.80 to 0.85, LFP 0.92 to 0.97",
        edition: "",
        mark: Mark::Memory,
        address: "",
    };
    match chemistry {
        Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel => Some((0.85, &MEMORY)),
        Chemistry::LithiumIronPhosphate => Some((0.95, &MEMORY)),
        Chemistry::LithiumNickelManganeseCobalt | Chemistry::NickelCadmium => None,
    }
}

/// Share of the rated capacity that a battery gives at a temperature (at most 1), and where that comes from.
///
/// Lead: one over the sizing multiplier of the simplified IEEE method, to −6.7 °C. LFP: 0.8 at 0 °C and 0.7 at −20 °C. Straight lines
/// between the rows; above the warmest row 1. `None` below the coldest row, for other chemistries, and for a temperature that is not a
/// positive finite number.
#[must_use]
pub fn cold_capacity_factor(chemistry: Chemistry, kelvin: f64) -> Option<(f64, &'static Citation)> {
    if !positive(kelvin) {
        return None;
    }
    let celsius = kelvin - CELSIUS_ZERO;
    match chemistry {
        Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel => {
            interpolated(&cold_capacity::LEAD_MULTIPLIERS, celsius)
                .map(|multiplier| (1.0 / multiplier, &cold_capacity::LEAD))
        }
        Chemistry::LithiumIronPhosphate => {
            interpolated(&cold_capacity::LFP_SHARES, celsius).map(|factor| (factor, &cold_capacity::LFP))
        }
        Chemistry::LithiumNickelManganeseCobalt | Chemistry::NickelCadmium => None,
    }
}

/// The value at `x` of rows in rising order of x: on straight lines between them, the last value above them, none below.
fn interpolated(rows: &[(f64, f64)], x: f64) -> Option<f64> {
    let first = rows.first()?;
    if x < first.0 - SAME_KELVIN {
        return None;
    }
    let mut below = first;
    for row in rows {
        if row.0 >= x {
            let width = row.0 - below.0;
            let part = if width > 0.0 { (x - below.0) / width } else { 0.0 };
            return Some(below.1 + (row.1 - below.1) * part);
        }
        below = row;
    }
    Some(below.1)
}

/// Energy that a battery gives from full, J: nominal voltage V × capacity C × usable share × efficiency × cold factor (each above 0, at
/// most 1). `None` where a number is outside that.
#[must_use]
pub fn usable_energy(
    nominal_volts: f64,
    capacity_coulombs: f64,
    usable_fraction: f64,
    discharge_efficiency: f64,
    cold_factor: f64,
) -> Option<f64> {
    let usable = positive(nominal_volts)
        && positive(capacity_coulombs)
        && share(usable_fraction)
        && share(discharge_efficiency)
        && share(cold_factor);
    if !usable {
        return None;
    }
    finite(nominal_volts * capacity_coulombs * usable_fraction * discharge_efficiency * cold_factor)
}

/// Days that an energy J lasts at a need of J a day. `None` for a need that is not above zero (it would last for ever) and for numbers that
/// are below zero or not finite.
#[must_use]
pub fn days_of_autonomy(usable_joules: f64, joules_per_day: f64) -> Option<f64> {
    if !not_negative(usable_joules) || !positive(joules_per_day) {
        return None;
    }
    finite(usable_joules / joules_per_day)
}

/// The range of Peukert's exponent of a chemistry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PeukertExponent {
    /// Of the best batteries of the kind.
    pub least: f64,
    /// Of the worst: the shortest discharge.
    pub most: f64,
    /// Where the range comes from.
    pub citation: &'static Citation,
}

/// Peukert's exponent by chemistry: vented lead 1.2 to 1.6, absorbed 1.05 to 1.15, gelled 1.1 to 1.25, LFP 1.00 to 1.05.
/// `None` for the other chemistries.
#[must_use]
pub fn peukert_exponent(chemistry: Chemistry) -> Option<PeukertExponent> {
    static LEAD: Citation = Citation {
        document: "page on Peukert's law",
        place: "exponent: vented 1.2 to 1.6, absorbed 1.05 to 1.15, gelled 1.1 to 1.25",
        edition: "undated",
        mark: Mark::SecondHand,
        address: "",
    };
    static LFP: Citation = Citation {
        document: "no source seen",
        place: "exponent of LFP 1.00 to 1.05",
        edition: "",
        mark: Mark::Memory,
        address: "",
    };
    let range = |least, most, citation| Some(PeukertExponent { least, most, citation });
    match chemistry {
        Chemistry::FloodedLead => range(1.2, 1.6, &LEAD),
        Chemistry::Agm => range(1.05, 1.15, &LEAD),
        Chemistry::Gel => range(1.1, 1.25, &LEAD),
        Chemistry::LithiumIronPhosphate => range(1.0, 1.05, &LFP),
        Chemistry::LithiumNickelManganeseCobalt | Chemistry::NickelCadmium => None,
    }
}

/// Time to discharge a battery at a constant current, s: t = H·(C/(I·H))^k (Peukert's law, normalised to the rated time).
///
/// `rated_seconds` H is the time of the rating (20 h for a usual lead battery), `capacity_coulombs` C the capacity at it, `amperes` I the
/// load, `exponent` k (1 and above). The form C = Iᵏ·t with C in rated ampere-hours, which is widely published, is wrong by H^(k−1): this one
/// gives the rated time at the rated current. `None` where a number is not usable.
#[must_use]
pub fn discharge_seconds(rated_seconds: f64, capacity_coulombs: f64, amperes: f64, exponent: f64) -> Option<f64> {
    let usable = positive(rated_seconds)
        && positive(capacity_coulombs)
        && positive(amperes)
        && exponent.is_finite()
        && exponent >= 1.0;
    if !usable {
        return None;
    }
    finite(rated_seconds * (capacity_coulombs / (amperes * rated_seconds)).powf(exponent))
}

/// What an inverter that is switched on draws without load, as a share of its rated power. Chosen; two measured machines of 400 and 700 W
/// drew 1.3 and 1.7 %, one of 3 kW about 0.7 % (second-hand).
const INVERTER_IDLE_SHARE: f64 = 0.008;

/// Power of an inverter without load to assume, W: 0.8 % of its rated power W. `None` for a power that is not positive and finite.
#[must_use]
pub fn inverter_idle_power(rated_watts: f64) -> Option<(f64, &'static Citation)> {
    static ASSUMED: Citation = Citation {
        document: "assumption of this project",
        place: "an inverter without load draws 0.8 % of its rated power",
        edition: "",
        mark: Mark::Chosen,
        address: "",
    };
    positive(rated_watts).then_some((rated_watts * INVERTER_IDLE_SHARE, &ASSUMED))
}
