//! Openings of gas lockers.
//!
//! * EN 1949 / DVGW G 607: low only, at least 2 % of the floor and 100 cm²; or low and high, at least 1 % and 50 cm² each.
//!   Three and two inspectors' pages agree. Mark: second-hand.
//! * 675 IAC 15-2-74(c)(2), <https://inrules.elaws.us/code/675iac15-2-74>: vents at top and bottom, together at least 2 % of the floor,
//!   equally distributed. Mark: read.

use crate::citation::{Citation, Mark};
use crate::number::{finite, positive};

/// Where [`en_1949_openings`] comes from.
pub static EN_1949_OPENINGS: Citation = Citation {
    document: "EN 1949",
    place: "openings of the gas locker (as DVGW G 607 inspects them)",
    edition: "2011+A1:2013, as quoted by inspectors",
    mark: Mark::SecondHand,
    address: "",
};

/// Where [`us_openings`] comes from.
pub static US_OPENINGS: Citation = Citation {
    document: "675 IAC 15-2-74",
    place: "(c)(2), openings of the gas compartment",
    edition: "current to 18 September 2024",
    mark: Mark::Read,
    address: "https://regulations.justia.com/states/indiana/title-675/article-15/rule-2/section-74",
};

/// Free areas that a gas locker needs, m².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Openings {
    /// The low opening, where there is no high one; `None` where a high one is due in any case.
    pub low_alone: Option<f64>,
    /// Each of a low and a high opening.
    pub each: f64,
}

const LOW_ALONE_SHARE: f64 = 0.02;
const LOW_ALONE_LEAST: f64 = 100e-4;
const EACH_SHARE: f64 = 0.01;
const EACH_LEAST: f64 = 50e-4;

/// Openings by EN 1949 for a locker floor, m².
#[must_use]
pub fn en_1949_openings(floor: f64) -> Option<Openings> {
    if !positive(floor) {
        return None;
    }
    Some(Openings {
        low_alone: Some(finite(LOW_ALONE_SHARE * floor)?.max(LOW_ALONE_LEAST)),
        each: (EACH_SHARE * floor).max(EACH_LEAST),
    })
}

/// Openings by the United States text for a compartment floor, m²: half of 2 % at the top and at the bottom.
#[must_use]
pub fn us_openings(floor: f64) -> Option<Openings> {
    if positive(floor) { Some(Openings { low_alone: None, each: finite(EACH_SHARE * floor)? }) } else { None }
}
