//! Batteries: cells in series, highest and lowest voltage, and what a short circuit draws.

use crate::citation::{Citation, Mark};

/// Cell chemistry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Chemistry {
    /// Vented lead-acid.
    FloodedLead,
    /// Lead-acid, absorbed electrolyte.
    Agm,
    /// Lead-acid, gelled electrolyte.
    Gel,
    /// Lithium iron phosphate.
    LithiumIronPhosphate,
    /// Lithium nickel manganese cobalt oxide.
    LithiumNickelManganeseCobalt,
    /// Nickel-cadmium.
    NickelCadmium,
}

impl Chemistry {
    /// Every chemistry, in the order of the manual.
    pub const ALL: [Chemistry; 6] = [
        Chemistry::FloodedLead,
        Chemistry::Agm,
        Chemistry::Gel,
        Chemistry::LithiumIronPhosphate,
        Chemistry::LithiumNickelManganeseCobalt,
        Chemistry::NickelCadmium,
    ];

    /// The word a specification uses.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Chemistry::FloodedLead => "flooded",
            Chemistry::Agm => "AGM",
            Chemistry::Gel => "gel",
            Chemistry::LithiumIronPhosphate => "LFP",
            Chemistry::LithiumNickelManganeseCobalt => "NMC",
            Chemistry::NickelCadmium => "NiCd",
        }
    }

    /// The chemistry of a specification's word, in upper or lower case; `None` for a word that names none.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|chemistry| chemistry.word().eq_ignore_ascii_case(word))
    }

    /// True for the lead-acid kinds.
    #[must_use]
    pub const fn is_lead(self) -> bool {
        matches!(self, Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel)
    }

    /// True for the lithium kinds.
    #[must_use]
    pub const fn is_lithium(self) -> bool {
        matches!(self, Chemistry::LithiumIronPhosphate | Chemistry::LithiumNickelManganeseCobalt)
    }
}

// Voltage per cell. The sources are in the citations of `full_charge_citation` and `discharged_voltage`.
const LFP_FULL: f64 = 3.65;
const LFP_EMPTY: f64 = 2.80;
const NMC_FULL: f64 = 4.20;
const NMC_EMPTY: f64 = 3.00;
const LEAD_FULL: f64 = 2.45;
const GEL_FULL: f64 = 2.40;
const LEAD_EMPTY: f64 = 1.80;
const NICD_FULL: f64 = 1.55;
const NICD_EMPTY: f64 = 1.00;

/// How far a written nominal voltage may lie from a multiple of the block voltage, as a part of it. Chosen: it takes in rounding to
/// one decimal and keeps 48.0 V from being read as 13 cells of 3.7 V.
const NOMINAL_TOLERANCE: f64 = 0.0015;

/// No battery of a vehicle has more cells in series. Chosen, so that nonsense gets no answer.
const MOST_CELLS: f64 = 400.0;

/// Cells in series of a nominal voltage, V. `None` where the voltage fits no usual way of naming such a battery.
///
/// Steps of 6 V first (12, 24, 48 V), then the voltage per cell: lead 2.0, 2.1 or the 6.4 V block, LFP 3.2 or 3.3, NMC 3.7 or 3.6,
/// nickel-cadmium 1.2. 12, 24 and 48 V say nothing certain of NMC cells.
fn cells_in_series(chemistry: Chemistry, nominal_volts: f64) -> Option<u32> {
    // (block voltage, cells in the block), the first that fits holds.
    let blocks: &[(f64, u32)] = match chemistry {
        Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel => &[(6.0, 3), (6.4, 3), (6.3, 3), (2.0, 1)],
        Chemistry::LithiumIronPhosphate => &[(6.0, 2), (3.2, 1), (3.3, 1)],
        Chemistry::LithiumNickelManganeseCobalt => &[(3.7, 1), (3.6, 1)],
        Chemistry::NickelCadmium => &[(1.2, 1)],
    };
    if !nominal_volts.is_finite() {
        return None;
    }
    blocks.iter().find_map(|&(volts, cells)| {
        let count = (nominal_volts / volts).round();
        let fits = (1.0..=MOST_CELLS).contains(&count)
            && (nominal_volts - count * volts).abs() <= NOMINAL_TOLERANCE * nominal_volts;
        // Evaluated only within the range checked above, where the conversion is exact.
        fits.then(|| count as u32 * cells)
    })
}

/// Highest charging voltage, V, and the cells in series.
///
/// Per cell: LFP 3.65 V, lead 2.45 V (upper end of usual absorption; gel 2.40 V), nickel-cadmium 1.55 V, NMC 4.20 V; sources in
/// [`full_charge_citation`]. `None` where the nominal voltage names no usual number of cells.
#[must_use]
pub fn full_charge_voltage(chemistry: Chemistry, nominal_volts: f64) -> Option<(f64, u32)> {
    let per_cell = match chemistry {
        Chemistry::FloodedLead | Chemistry::Agm => LEAD_FULL,
        Chemistry::Gel => GEL_FULL,
        Chemistry::LithiumIronPhosphate => LFP_FULL,
        Chemistry::LithiumNickelManganeseCobalt => NMC_FULL,
        Chemistry::NickelCadmium => NICD_FULL,
    };
    let cells = cells_in_series(chemistry, nominal_volts)?;
    Some((per_cell * f64::from(cells), cells))
}

/// Where the voltage per cell of [`full_charge_voltage`] comes from.
#[must_use]
pub fn full_charge_citation(chemistry: Chemistry) -> &'static Citation {
    static LEAD: Citation = Citation {
        document: "common practice, no source",
        place: "absorption up to 2.45 V per lead cell; EN 50272-2 reckons boost at 2.40 V (second-hand)",
        edition: "",
        mark: Mark::CommonPractice,
        address: "",
    };
    static GEL: Citation = Citation {
        document: "EN 50272-2",
        place: "boost voltage of valve-regulated lead cells, 2.40 V",
        edition: "table quoted on a public page, undated",
        mark: Mark::SecondHand,
        address: "",
    };
    static LFP: Citation = Citation {
        document: "common practice, no source",
        place: "charging end of LFP cells, 3.65 V",
        edition: "",
        mark: Mark::CommonPractice,
        address: "",
    };
    static NICD: Citation = Citation {
        document: "EN 50272-2",
        place: "boost voltage of vented nickel-cadmium cells, 1.55 V",
        edition: "table quoted on a public page, undated",
        mark: Mark::SecondHand,
        address: "",
    };
    static NMC: Citation = Citation {
        document: "common practice, no source",
        place: "charging end of NMC cells, 4.20 V",
        edition: "from memory",
        mark: Mark::Memory,
        address: "",
    };
    match chemistry {
        Chemistry::FloodedLead | Chemistry::Agm => &LEAD,
        Chemistry::Gel => &GEL,
        Chemistry::LithiumIronPhosphate => &LFP,
        Chemistry::LithiumNickelManganeseCobalt => &NMC,
        Chemistry::NickelCadmium => &NICD,
    }
}

/// Lowest working voltage, V, at which a constant-power load draws the most current, with its source.
///
/// Per cell: lead 1.80 V (the end voltage to which EN 50272-2 reckons C10, second-hand), LFP 2.80 V (chosen: where management systems
/// cut off under load lies between 2.5 and 3.0 V), nickel-cadmium 1.00 V and NMC 3.00 V (memory). `None` as in [`full_charge_voltage`].
#[must_use]
pub fn discharged_voltage(chemistry: Chemistry, nominal_volts: f64) -> Option<(f64, &'static Citation)> {
    static LEAD: Citation = Citation {
        document: "EN 50272-2",
        place: "C10 of lead cells to 1.80 V",
        edition: "quoted on a public page, undated",
        mark: Mark::SecondHand,
        address: "",
    };
    static LFP: Citation = Citation {
        document: "assumption of this project",
        place: "lowest working voltage of an LFP cell, 2.80 V",
        edition: "",
        mark: Mark::Chosen,
        address: "",
    };
    static OTHER: Citation = Citation {
        document: "from memory, unverified",
        place: "end of discharge: nickel-cadmium 1.00 V, NMC 3.00 V per cell",
        edition: "",
        mark: Mark::Memory,
        address: "",
    };
    let (per_cell, citation) = match chemistry {
        Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel => (LEAD_EMPTY, &LEAD),
        Chemistry::LithiumIronPhosphate => (LFP_EMPTY, &LFP),
        Chemistry::LithiumNickelManganeseCobalt => (NMC_EMPTY, &OTHER),
        Chemistry::NickelCadmium => (NICD_EMPTY, &OTHER),
    };
    let cells = cells_in_series(chemistry, nominal_volts)?;
    Some((per_cell * f64::from(cells), citation))
}

/// Assumed short-circuit current as a multiple of the capacity in ampere-hours, 1/h.
const LEAD_SHORT_CIRCUIT_MULTIPLE: f64 = 40.0;
const LFP_SHORT_CIRCUIT_MULTIPLE: f64 = 65.0;

/// Least short-circuit current of a lead battery over its 20 h capacity, A/Ah. Chosen: 100 Ah give 1,000 to 2,000 A by a rule of
/// thumb of the trade (second-hand).
const LEAD_LEAST_MULTIPLE: f64 = 10.0;

/// Least short-circuit current of an LFP battery over its capacity, A/Ah. Chosen: a 280 Ah pack of 2 mΩ with its links gives 24 A/Ah
/// (computed from cell data).
const LFP_LEAST_MULTIPLE: f64 = 20.0;

/// Coulombs in an ampere-hour.
const COULOMBS_PER_AMPERE_HOUR: f64 = 3_600.0;

static ASSUMED_LEAD: Citation = Citation {
    document: "assumption of this project",
    place: "short circuit of a lead battery 40 A per ampere-hour of its 20 h capacity, on the high side of published ranges",
    edition: "",
    mark: Mark::Chosen,
    address: "",
};

static ASSUMED_LFP: Citation = Citation {
    document: "assumption of this project",
    place: "short circuit of an LFP battery 65 A per ampere-hour, deliberately high",
    edition: "",
    mark: Mark::Chosen,
    address: "",
};

static ASSUMED_LEAD_WEAK: Citation = Citation {
    document: "assumption of this project",
    place: "short circuit of a lead battery at least 10 A per ampere-hour of its 20 h capacity, the low side of published ranges",
    edition: "",
    mark: Mark::Chosen,
    address: "",
};

static ASSUMED_LFP_WEAK: Citation = Citation {
    document: "assumption of this project",
    place: "short circuit of an LFP battery at least 20 A per ampere-hour, below what large packs with their links give",
    edition: "",
    mark: Mark::Chosen,
    address: "",
};

/// Which end of the published range of short-circuit currents an assumption takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AssumedStrength {
    /// The most that such a battery gives: the least resistance.
    Most,
    /// The least that such a battery gives: the greatest resistance.
    Least,
}

/// Internal resistance to assume when nothing is known, Ω: R = V/(k·C) with V the nominal voltage, C the capacity in ampere-hours
/// (given here in coulombs) and k = 40 (lead) or 65 (LFP) A/Ah for the strongest battery, 10 or 20 A/Ah for the weakest. An
/// assumption, to be shown as one.
///
/// `None` for other chemistries and where voltage or capacity is not a positive finite number.
#[must_use]
pub fn assumed_internal_resistance(
    chemistry: Chemistry,
    nominal_volts: f64,
    capacity_coulombs: f64,
    strength: AssumedStrength,
) -> Option<(f64, &'static Citation)> {
    let (multiple, citation) = match (chemistry, strength) {
        (Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel, AssumedStrength::Most) => {
            (LEAD_SHORT_CIRCUIT_MULTIPLE, &ASSUMED_LEAD)
        }
        (Chemistry::FloodedLead | Chemistry::Agm | Chemistry::Gel, AssumedStrength::Least) => {
            (LEAD_LEAST_MULTIPLE, &ASSUMED_LEAD_WEAK)
        }
        (Chemistry::LithiumIronPhosphate, AssumedStrength::Most) => (LFP_SHORT_CIRCUIT_MULTIPLE, &ASSUMED_LFP),
        (Chemistry::LithiumIronPhosphate, AssumedStrength::Least) => (LFP_LEAST_MULTIPLE, &ASSUMED_LFP_WEAK),
        (Chemistry::LithiumNickelManganeseCobalt | Chemistry::NickelCadmium, _) => return None,
    };
    let usable =
        nominal_volts.is_finite() && nominal_volts > 0.0 && capacity_coulombs.is_finite() && capacity_coulombs > 0.0;
    let ohms = nominal_volts / (multiple * capacity_coulombs / COULOMBS_PER_AMPERE_HOUR);
    (usable && ohms.is_finite() && ohms > 0.0).then_some((ohms, citation))
}

/// Short-circuit current, A: open-circuit voltage over the resistance of the whole loop (Ohm).
///
/// Without resistance it is infinite, and so it is for a resistance below zero; not a number stays so.
#[must_use]
pub fn short_circuit_current(open_circuit_volts: f64, ohms: f64) -> f64 {
    if ohms <= 0.0 && open_circuit_volts > 0.0 {
        return f64::INFINITY;
    }
    open_circuit_volts / ohms
}

/// Internal resistance from two loads, Ω: (U1 − U2)/(I2 − I1), the method of IEC 60896-21 6.3 (from memory).
///
/// `None` where the second load is not the heavier one at the lower voltage, or a value is not finite.
#[must_use]
pub fn two_point_resistance(volts_1: f64, amperes_1: f64, volts_2: f64, amperes_2: f64) -> Option<f64> {
    let ohms = (volts_1 - volts_2) / (amperes_2 - amperes_1);
    (volts_1 > volts_2 && amperes_2 > amperes_1 && ohms.is_finite() && ohms > 0.0).then_some(ohms)
}

/// Short-circuit current from two loads, A: (U1·I2 − U2·I1)/(U1 − U2), the method of IEC 60896-21 6.3 (from memory).
///
/// `None` as in [`two_point_resistance`].
#[must_use]
pub fn two_point_short_circuit(volts_1: f64, amperes_1: f64, volts_2: f64, amperes_2: f64) -> Option<f64> {
    let ohms = two_point_resistance(volts_1, amperes_1, volts_2, amperes_2)?;
    let amperes = (volts_1 + ohms * amperes_1) / ohms;
    amperes.is_finite().then_some(amperes)
}
