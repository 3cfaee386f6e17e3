//! Masses with their evidence and bounds.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_finite, need_not_negative, need_within, outcome};
use crate::interval::Interval;

/// A value with its bounds; the value lies within them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounded {
    /// The value to reckon with.
    pub value: f64,
    /// Lower and upper bound.
    pub bounds: Interval,
}

/// How a mass is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Evidence {
    /// Weighed.
    Measured,
    /// From a data sheet.
    DataSheet,
    /// Estimated.
    Estimated,
}

/// Tolerance to assume where none is given, as a share of the mass, and its source: weighed 1 %, data sheet 5 %, estimated 20 %.
#[must_use]
pub const fn assumed_tolerance(evidence: Evidence) -> (f64, &'static Citation) {
    static CHOSEN: Citation = Citation {
        document: "assumption of this project",
        place: "tolerance of masses: weighed 1 %, data sheet 5 %, estimated 20 %",
        edition: "",
        mark: Mark::Chosen,
        address: "",
    };
    let share = match evidence {
        Evidence::Measured => 0.01,
        Evidence::DataSheet => 0.05,
        Evidence::Estimated => 0.20,
    };
    (share, &CHOSEN)
}

/// A mass, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mass {
    value: f64,
    bounds: Interval,
    evidence: Evidence,
}

impl Mass {
    /// A mass kg with a tolerance as a share of it; without one, that of [`assumed_tolerance`].
    ///
    /// # Errors
    /// A mass below zero or not finite; a tolerance outside 0 to 1.
    pub fn new(value: f64, tolerance: Option<f64>, evidence: Evidence) -> Result<Self, InputError> {
        let value = need_not_negative("mass", value)?;
        let tolerance = tolerance.unwrap_or(assumed_tolerance(evidence).0);
        Ok(Self { value, bounds: Interval::with_tolerance(value, tolerance)?, evidence })
    }

    /// The mass to reckon with, kg.
    #[must_use]
    pub const fn value(self) -> f64 {
        self.value
    }

    /// Lower and upper bound, kg.
    #[must_use]
    pub const fn bounds(self) -> Interval {
        self.bounds
    }

    /// How it is known.
    #[must_use]
    pub const fn evidence(self) -> Evidence {
        self.evidence
    }

    /// A share 0 to 1 of the mass.
    pub(crate) fn part(self, share: f64) -> Result<Self, InputError> {
        let share = need_within("share", share, 0.0, 1.0)?;
        Ok(Self { value: self.value * share, bounds: self.bounds.times(share)?, evidence: self.evidence })
    }
}

/// A mass at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Item {
    /// Its mass.
    pub mass: Mass,
    /// Its centre: x rearward, y to the right, z up, m.
    pub at: [f64; 3],
}

/// Sum of each mass times a factor of its own, with exact bounds: a factor below zero takes the other bound.
pub(crate) fn weighted_sum(
    items: &[Item],
    factor: impl Fn(&Item) -> Result<f64, InputError>,
) -> Result<Bounded, InputError> {
    let (mut value, mut least, mut most) = (0.0, 0.0, 0.0);
    for item in items {
        for coordinate in item.at {
            need_finite("position of a mass", coordinate)?;
        }
        let factor = need_finite("lever", factor(item)?)?;
        let bounds = item.mass.bounds.times(factor)?;
        value += item.mass.value * factor;
        least += bounds.least();
        most += bounds.most();
    }
    let value = outcome("load", value)?;
    // Summing in another order may move the last digit over a bound.
    Ok(Bounded { value, bounds: Interval::new(least.min(value), most.max(value))? })
}
