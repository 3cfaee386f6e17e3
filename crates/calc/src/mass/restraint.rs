//! Restraint: how hard a mass pulls in a crash or in braking, and how many fixings hold it.
//!
//! Sources of the accelerations stand beside each case; those of tanks in ISO 12991 are an analogy for anything else that must stay put.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_not_negative, need_positive, need_within, outcome};

/// Standard acceleration of gravity, m/s² (ISO 80000-3).
pub const STANDARD_GRAVITY: f64 = crate::heat::GRAVITY;

/// Accelerations, as multiples of g, that a published text asks a mounting to withstand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadCase {
    /// Plain name of the case.
    pub name: &'static str,
    /// In the direction of travel.
    pub forward: f64,
    /// To either side.
    pub sideways: f64,
    /// Against the direction of travel, where the text has a value.
    pub rearward: Option<f64>,
    /// Upward, where the text has a value.
    pub upward: Option<f64>,
    /// Source.
    pub citation: &'static Citation,
}

static ISO_12991: Citation = Citation {
    document: "ISO 12991",
    place: "Table 1, mounting of fuel tanks: along 20 / 10 / 6.6, across 8 / 5 / 5",
    edition: "2012",
    mark: Mark::Read,
    address: "https://www.scribd.com/document/486747060",
};

static CARGO_BREAKING: Citation = Citation {
    document: "49 CFR 393.102(a)(1)",
    place: "breaking strength of cargo securement: 0.8 forward, 0.5 rearward, 0.5 sideways",
    edition: "undated copy",
    mark: Mark::Read,
    address: "https://www.fmcsa.dot.gov",
};

static CARGO_WORKING: Citation = Citation {
    document: "49 CFR 393.102(a)(2)",
    place: "working load limit of cargo securement: 0.435 forward, 0.5 rearward, 0.25 sideways",
    edition: "undated copy",
    mark: Mark::Read,
    address: "https://www.fmcsa.dot.gov",
};

static ROAD_FREIGHT: Citation = Citation {
    document: "European practice of load securing",
    place: "0.8 forward, 0.5 sideways and rearward",
    edition: "undated handbook",
    mark: Mark::Read,
    address: "https://www.tis-gdv.de",
};

static AMBULANCE: Citation = Citation {
    document: "EN 1789",
    place: "equipment of ambulances, 10 in every direction",
    edition: "not seen; only its scope was",
    mark: Mark::Memory,
    address: "",
};

const fn tank(name: &'static str, along: f64, across: f64) -> LoadCase {
    LoadCase { name, forward: along, sideways: across, rearward: Some(along), upward: None, citation: &ISO_12991 }
}

static CASES: [LoadCase; 7] = [
    tank("crash-m1-n1", 20.0, 8.0),
    tank("crash-m2-n2", 10.0, 5.0),
    tank("crash-m3-n3", 6.6, 5.0),
    LoadCase {
        name: "ambulance-equipment",
        forward: 10.0,
        sideways: 10.0,
        rearward: Some(10.0),
        upward: Some(10.0),
        citation: &AMBULANCE,
    },
    LoadCase {
        name: "us-cargo-breaking",
        forward: 0.8,
        sideways: 0.5,
        rearward: Some(0.5),
        // 393.102(b): a fifth of the weight downward where the cargo is not held on all sides.
        upward: Some(0.2),
        citation: &CARGO_BREAKING,
    },
    LoadCase {
        name: "us-cargo-working",
        forward: 0.435,
        sideways: 0.25,
        rearward: Some(0.5),
        upward: Some(0.2),
        citation: &CARGO_WORKING,
    },
    LoadCase {
        name: "road-freight",
        forward: 0.8,
        sideways: 0.5,
        rearward: Some(0.5),
        upward: None,
        citation: &ROAD_FREIGHT,
    },
];

/// The published load cases.
#[must_use]
pub fn load_cases() -> &'static [LoadCase] {
    &CASES
}

/// Forces that a mounting must hold, N.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RestraintNeed {
    /// In the direction of travel.
    pub forward: f64,
    /// To either side.
    pub sideways: f64,
    /// Against the direction of travel, where the case has a value.
    pub rearward: Option<f64>,
    /// Upward, where the case has a value.
    pub upward: Option<f64>,
}

impl RestraintNeed {
    /// The greatest of the forces, N.
    #[must_use]
    pub fn greatest(&self) -> f64 {
        [self.rearward, self.upward].into_iter().flatten().fold(self.forward.max(self.sideways), f64::max)
    }
}

/// Forces of a mass kg in a load case, N: m·a in each direction. Take the upper bound of the mass, and of a tank the full one.
///
/// # Errors
/// A mass below zero.
pub fn restraint_force(mass: f64, case: &LoadCase) -> Result<RestraintNeed, InputError> {
    let weight = outcome("weight", need_not_negative("mass", mass)? * STANDARD_GRAVITY)?;
    let times = |multiple: f64| outcome("force", weight * need_not_negative("acceleration", multiple)?);
    Ok(RestraintNeed {
        forward: times(case.forward)?,
        sideways: times(case.sideways)?,
        rearward: case.rearward.map(times).transpose()?,
        upward: case.upward.map(times).transpose()?,
    })
}

/// Pull in any direction at which a boat's battery may not move more than 25 mm, N, and its source: the lesser of 90 lbf (400.3 N) and twice
/// the battery's weight, for a minute. A crash pulls many times harder.
///
/// # Errors
/// A mass below zero.
pub fn battery_pull_test(mass: f64) -> Result<(f64, &'static Citation), InputError> {
    static SOURCE: Citation = Citation {
        document: "33 CFR 183.420(a)",
        place: "batteries: 90 lbf or twice the battery's weight, whichever is less",
        edition: "2026",
        mark: Mark::Read,
        address: "https://law.lawstack.com",
    };
    /// Ninety pounds-force, N.
    const NINETY_POUNDS: f64 = 400.34;
    let weight = need_not_negative("mass", mass)? * STANDARD_GRAVITY;
    Ok(((2.0 * weight).min(NINETY_POUNDS), &SOURCE))
}

/// Metric bolts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BoltSize {
    /// M6, 20.1 mm².
    M6,
    /// M8, 36.6 mm².
    M8,
    /// M10, 58.0 mm².
    M10,
}

/// Strength classes of bolts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BoltClass {
    /// 4.6, proof stress 225 MPa.
    C4_6,
    /// 8.8, proof stress 580 MPa.
    C8_8,
}

/// Proof load of a bolt in tension, N, and its source: stress area × proof stress. The sheet that it is fixed to gives way long before, so
/// that spreader plates decide, and across its axis a bolt holds about six tenths of this.
#[must_use]
pub const fn bolt_proof_load(size: BoltSize, class: BoltClass) -> (f64, &'static Citation) {
    static SOURCE: Citation = Citation {
        document: "ISO 898-1",
        place: "stress areas and proof stresses",
        edition: "not seen",
        mark: Mark::Memory,
        address: "",
    };
    let area = match size {
        BoltSize::M6 => 20.1e-6,
        BoltSize::M8 => 36.6e-6,
        BoltSize::M10 => 58.0e-6,
    };
    let stress = match class {
        BoltClass::C4_6 => 225e6,
        BoltClass::C8_8 => 580e6,
    };
    (area * stress, &SOURCE)
}

/// What one fixing holds in its place: bolt, insert, sheet and plate together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Anchorage {
    /// Force that one fixing holds, N.
    pub capacity: f64,
    /// Factor that is kept between capacity and force, 1 and above.
    pub safety: f64,
}

/// Fixings that a force N needs, at least one: force × safety over capacity, rounded up.
///
/// # Errors
/// A force below zero; a capacity that is not above zero; a safety factor below 1; more fixings than a number of 32 bits can hold.
pub fn fixings_needed(force: f64, anchorage: &Anchorage) -> Result<u32, InputError> {
    let safety = need_within("safety factor", anchorage.safety, 1.0, f64::MAX)?;
    let wanted =
        need_not_negative("force", force)? * safety / need_positive("capacity of a fixing", anchorage.capacity)?;
    // 4 × 0.1 over 0.1 must not be five.
    const ROUNDING: f64 = 1e-9;
    let count = (wanted * (1.0 - ROUNDING)).ceil().max(1.0);
    if count <= f64::from(u32::MAX) { Ok(count as u32) } else { Err(InputError::Overflow { quantity: "fixings" }) }
}
