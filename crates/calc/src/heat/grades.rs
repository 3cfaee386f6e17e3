//! Grades of thermal insulation and heating of motor caravans and caravans, EN 1646-1 and EN 1645-1.
//!
//! The clauses were not seen; what is here comes from pages that describe the climate test. Limits of heat transfer by grade are remembered
//! with doubt and left out.

use crate::citation::{Citation, Mark};
use crate::heat::warm_up::warm_up_power;
use crate::input::{InputError, need_positive, outcome};
use crate::temperature::kelvin;

/// A grade with a demand; grade 1 asks nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HeatingGrade {
    /// 20 °C inside held at 0 °C outside.
    Two,
    /// 20 °C inside held at −15 °C outside, reached within 4 h from cold.
    Three,
}

/// What a grade asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GradeDemand {
    /// Mean inside temperature to be held, K.
    pub inside: f64,
    /// Outside temperature of the test, K.
    pub outside: f64,
    /// Time in which the difference must be reached from a soaked start, s, where the sources tell one.
    pub warm_up: Option<f64>,
    /// Source.
    pub citation: &'static Citation,
}

/// Time for the rise of 35 K in the test of grade 3, s.
pub const GRADE_3_WARM_UP_SECONDS: f64 = 4.0 * 3_600.0;

/// How far each probe may stand from the one in the centre in the test of grade 3, K.
pub const GRADE_3_SPREAD: f64 = 7.0;

static SOURCE: Citation = Citation {
    document: "EN 1646-1 (EN 1645-1 for caravans)",
    place: "clause 9, grades of thermal insulation and heating",
    edition: "2018, described on pages about the climate test",
    mark: Mark::SecondHand,
    address: "",
};

/// The demand of a grade.
#[must_use]
pub const fn grade_demand(grade: HeatingGrade) -> GradeDemand {
    let inside = kelvin(20.0);
    match grade {
        HeatingGrade::Two => GradeDemand { inside, outside: kelvin(0.0), warm_up: None, citation: &SOURCE },
        HeatingGrade::Three => {
            GradeDemand { inside, outside: kelvin(-15.0), warm_up: Some(GRADE_3_WARM_UP_SECONDS), citation: &SOURCE }
        }
    }
}

/// Heating power that a grade needs, W, from the loss for each kelvin W/K and the heat capacity of shell and contents J/K: to hold, and where
/// the grade names a time, to reach.
///
/// # Errors
/// A loss or capacity that is not above zero.
pub fn grade_power(grade: HeatingGrade, loss: f64, capacity: f64) -> Result<f64, InputError> {
    let demand = grade_demand(grade);
    let rise = demand.inside - demand.outside;
    let loss = need_positive("loss for each kelvin", loss)?;
    need_positive("heat capacity", capacity)?;
    match demand.warm_up {
        Some(seconds) => warm_up_power(loss, capacity, rise, seconds),
        None => outcome("heating power", loss * rise),
    }
}
