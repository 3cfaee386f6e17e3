//! Alternators: what they give when hot and at idle, their protection, and what they bear for hours.

use crate::citation::{Citation, Mark};
use crate::number::{finite, positive};

/// Output to assume of a machine of which only the rated current is known, which is a cold value at full speed. The published 50 A machine
/// gives, hot, 16, 41 and 48 A at 1,300, 2,500 and 5,000 turns a minute of the alternator: a weak ground for a default.
pub static ASSUMED_OUTPUT: Citation = Citation {
    document: "assumption of this project",
    place: "0.80 of the rated current when hot, 0.35 at idle, after the published hot output of one 50 A machine",
    edition: "",
    mark: Mark::Chosen,
    address: "",
};

/// A share of a rated current, A.
fn part(rated_amperes: f64, share: f64) -> Option<f64> {
    if positive(rated_amperes) { finite(rated_amperes * share) } else { None }
}

// See `ASSUMED_OUTPUT`.
const HOT_SHARE: f64 = 0.80;
const IDLE_SHARE: f64 = 0.35;

/// Current to assume of a hot alternator at driving speed, A: 0.80 of its rated current A ([`ASSUMED_OUTPUT`], weak).
/// `None` for a current that is not positive and finite; so for the others here.
#[must_use]
pub fn alternator_hot_output(rated_amperes: f64) -> Option<f64> {
    part(rated_amperes, HOT_SHARE)
}

/// Current to assume of a hot alternator at idle, A: 0.35 of its rated current A ([`ASSUMED_OUTPUT`], weak).
#[must_use]
pub fn alternator_idle_output(rated_amperes: f64) -> Option<f64> {
    part(rated_amperes, IDLE_SHARE)
}

/// Where [`largest_alternator_protection`] comes from.
pub static ALTERNATOR_PROTECTION: Citation = Citation {
    document: "33 CFR 183.460(b)",
    place: "fuse or breaker of a generator or alternator output that does not limit itself",
    edition: "eCFR text of about April 2023",
    mark: Mark::Read,
    address: "",
};

/// 33 CFR 183.460(b).
const PROTECTION_SHARE: f64 = 1.2;

/// Largest rating of the device in an alternator's output, A: 120 % of its highest rated current A at 60 °C. Machines that limit
/// themselves are exempt ([`ALTERNATOR_PROTECTION`]).
#[must_use]
pub fn largest_alternator_protection(rated_amperes: f64) -> Option<f64> {
    part(rated_amperes, PROTECTION_SHARE)
}

/// Where [`alternator_continuous_limit`] comes from.
pub static CONTINUOUS_DRAW: Citation = Citation {
    document: "common practice, no source",
    place: "no more than half of an alternator's rated current for hours",
    edition: "",
    mark: Mark::CommonPractice,
    address: "",
};

/// See [`CONTINUOUS_DRAW`].
const CONTINUOUS_SHARE: f64 = 0.5;

/// Current that the vehicle's loads and the charging of house batteries may draw together for hours, A: half of the rated current A
/// ([`CONTINUOUS_DRAW`]).
#[must_use]
pub fn alternator_continuous_limit(rated_amperes: f64) -> Option<f64> {
    part(rated_amperes, CONTINUOUS_SHARE)
}
