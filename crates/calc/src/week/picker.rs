//! Takes each entry as it is written, or where it is not known its value at the side that is reckoned, and keeps a list of what was
//! missing.

use std::borrow::Cow;

use super::entries::Limit;
use super::outcome::{Entry, Reason, Unusable};
use super::profile::{DayProfile, WeekProfile};

/// Which end is reckoned where an entry is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    /// The most need and the least supply.
    Worst,
    /// The least need and the most supply.
    Best,
}

/// The range of a number.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Range {
    /// Above zero.
    Positive,
    /// Zero and above.
    NotNegative,
    /// Above 0 and at most 1.
    Share,
    /// 0 to 1.
    Part,
    /// 1 and above.
    OneAndAbove,
}

/// No entry of a vehicle comes near it; it keeps every product a number. Chosen.
const LARGEST: f64 = 1e12;
/// A number that has to be above zero is not smaller than this, for the same reason. Chosen.
const SMALLEST: f64 = 1e-9;

/// Why a number is outside a range; `None` where it lies within.
fn fault(value: f64, range: Range) -> Option<Reason> {
    if !value.is_finite() {
        return Some(Reason::NotFinite);
    }
    match range {
        Range::Positive if value <= 0.0 => Some(Reason::NotAboveZero),
        Range::NotNegative if value < 0.0 => Some(Reason::BelowZero),
        Range::Positive if value < SMALLEST => Some(Reason::OutOfRange),
        _ if value > LARGEST => Some(Reason::OutOfRange),
        Range::Share if !(SMALLEST..=1.0).contains(&value) => Some(Reason::OutOfRange),
        Range::Part if !(0.0..=1.0).contains(&value) => Some(Reason::OutOfRange),
        Range::OneAndAbove if value < 1.0 => Some(Reason::OutOfRange),
        _ => None,
    }
}

/// Takes entries for one side.
pub(crate) struct Picker {
    /// The side.
    pub(crate) side: Side,
    /// What was not known.
    pub(crate) missing: Vec<Entry>,
    /// True where this side has no bound.
    pub(crate) unbounded: bool,
}

impl Picker {
    pub(crate) const fn new(side: Side) -> Self {
        Picker { side, missing: Vec::new(), unbounded: false }
    }

    /// The value of the side.
    pub(crate) fn by_side<T>(&self, worst: T, best: T) -> T {
        match self.side {
            Side::Worst => worst,
            Side::Best => best,
        }
    }

    /// A number that is known, checked.
    pub(crate) fn check(value: f64, entry: Entry, range: Range) -> Result<f64, Unusable> {
        fault(value, range).map_or(Ok(value), |reason| Err(Unusable { entry, reason }))
    }

    /// A number, else its value at the worst or at the best. An infinite one stands for no bound; it may still be limited by another entry.
    pub(crate) fn number(
        &mut self,
        value: Option<f64>,
        entry: Entry,
        range: Range,
        (worst, best): (f64, f64),
    ) -> Result<f64, Unusable> {
        match value {
            Some(value) => Self::check(value, entry, range),
            None => {
                self.missing.push(entry);
                Ok(self.by_side(worst, best))
            }
        }
    }

    /// A number without which nothing can be told.
    pub(crate) fn needed(&mut self, value: Option<f64>, entry: Entry, range: Range) -> Result<Option<f64>, Unusable> {
        match value {
            Some(value) => Self::check(value, entry, range).map(Some),
            None => {
                self.missing.push(entry);
                self.unbounded = true;
                Ok(None)
            }
        }
    }

    /// A limit: infinite where there is none; an unknown one nothing at the worst and none at the best.
    pub(crate) fn limit(&mut self, limit: Limit, entry: Entry) -> Result<f64, Unusable> {
        match limit {
            Limit::None => Ok(f64::INFINITY),
            Limit::Known(value) => Self::check(value, entry, Range::NotNegative),
            Limit::Unknown => {
                self.missing.push(entry);
                Ok(self.by_side(0.0, f64::INFINITY))
            }
        }
    }

    /// A course over the day, else the same all day.
    pub(crate) fn day<'a>(
        &mut self,
        profile: Option<&'a DayProfile>,
        entry: Entry,
        range: Range,
        (worst, best): (f64, f64),
    ) -> Result<Cow<'a, DayProfile>, Unusable> {
        match profile {
            Some(profile) => {
                for &value in profile.steps() {
                    Self::check(value, entry, range)?;
                }
                Ok(Cow::Borrowed(profile))
            }
            None => {
                self.missing.push(entry);
                Ok(Cow::Owned(DayProfile::constant(self.by_side(worst, best))))
            }
        }
    }

    /// A share of the time over the week, else the same all week.
    pub(crate) fn week<'a>(
        &mut self,
        profile: Option<&'a WeekProfile>,
        entry: Entry,
        (worst, best): (f64, f64),
    ) -> Result<Cow<'a, WeekProfile>, Unusable> {
        match profile {
            Some(profile) => {
                for &value in profile.steps() {
                    Self::check(value, entry, Range::Part)?;
                }
                Ok(Cow::Borrowed(profile))
            }
            None => {
                self.missing.push(entry);
                Ok(Cow::Owned(WeekProfile::constant(self.by_side(worst, best))))
            }
        }
    }
}

/// A product in which nothing times without bound is nothing.
pub(crate) fn times(one: f64, other: f64) -> f64 {
    if one == 0.0 || other == 0.0 { 0.0 } else { one * other }
}
