//! Courses over a day and over a week in quarter hours.

use crate::energy::DAY_SECONDS;

/// Seconds of a step: a quarter hour, short against every store and every charger of a vehicle. Chosen.
pub const STEP_SECONDS: f64 = 900.0;
/// Steps of a day.
pub const STEPS_PER_DAY: usize = 96;
/// Days of a week.
pub const DAYS: usize = 7;
/// Steps of a week.
pub const STEPS: usize = STEPS_PER_DAY * DAYS;
/// Steps of an hour.
pub(crate) const STEPS_PER_HOUR: usize = 4;
/// Hours of a day.
const HOURS: usize = 24;

/// A value for each quarter hour of a day, from midnight: a share of the time (0 to 1), a power in W or a temperature in K.
#[derive(Debug, Clone, PartialEq)]
pub struct DayProfile([f64; STEPS_PER_DAY]);

impl DayProfile {
    /// The same all day. A load that runs at a duty at no special time is such a course.
    #[must_use]
    pub const fn constant(value: f64) -> Self {
        DayProfile([value; STEPS_PER_DAY])
    }

    /// A value for each step.
    #[must_use]
    pub const fn by_step(values: [f64; STEPS_PER_DAY]) -> Self {
        DayProfile(values)
    }

    /// A value for each hour.
    #[must_use]
    pub fn by_hour(values: [f64; HOURS]) -> Self {
        let mut steps = [0.0; STEPS_PER_DAY];
        for (hour, value) in steps.chunks_exact_mut(STEPS_PER_HOUR).zip(values) {
            hour.fill(value);
        }
        DayProfile(steps)
    }

    /// A value from one time of the day to another, s after midnight, nothing in the rest; over midnight where the end lies before the
    /// beginning. A step that is covered in part has that part of the value. From a time to itself: all day. `None` for a time outside
    /// the day or a number that is not finite.
    #[must_use]
    pub fn between(from: f64, to: f64, value: f64) -> Option<Self> {
        let day = 0.0..=DAY_SECONDS;
        if !day.contains(&from) || !day.contains(&to) || !value.is_finite() {
            return None;
        }
        let mut steps = [0.0; STEPS_PER_DAY];
        for (index, step) in steps.iter_mut().enumerate() {
            let begin = index as f64 * STEP_SECONDS;
            let covered = |from: f64, to: f64| (to.min(begin + STEP_SECONDS) - from.max(begin)).max(0.0);
            let seconds = if from < to { covered(from, to) } else { covered(from, DAY_SECONDS) + covered(0.0, to) };
            *step = value * seconds / STEP_SECONDS;
        }
        Some(DayProfile(steps))
    }

    /// The values.
    #[must_use]
    pub const fn steps(&self) -> &[f64; STEPS_PER_DAY] {
        &self.0
    }

    /// The sum of value × seconds over the day: the energy of a power in J, the running time of a share in s.
    #[must_use]
    pub fn over_day(&self) -> f64 {
        self.0.iter().sum::<f64>() * STEP_SECONDS
    }
}

/// A value for each quarter hour of a week, from midnight of its first day.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekProfile(Box<[f64; STEPS]>);

impl WeekProfile {
    /// Nothing all week.
    #[must_use]
    pub fn never() -> Self {
        WeekProfile(Box::new([0.0; STEPS]))
    }

    /// The same all week.
    #[must_use]
    pub fn constant(value: f64) -> Self {
        WeekProfile(Box::new([value; STEPS]))
    }

    /// A day's course × the factor of each day.
    #[must_use]
    pub fn by_day(day: &DayProfile, factors: [f64; DAYS]) -> Self {
        let mut week = Self::never();
        for (steps, factor) in week.0.chunks_exact_mut(STEPS_PER_DAY).zip(factors) {
            for (step, value) in steps.iter_mut().zip(day.steps()) {
                *step = value * factor;
            }
        }
        week
    }

    /// A day's course every day.
    #[must_use]
    pub fn every_day(day: &DayProfile) -> Self {
        Self::by_day(day, [1.0; DAYS])
    }

    /// A day's course on some days.
    #[must_use]
    pub fn on_days(day: &DayProfile, days: [bool; DAYS]) -> Self {
        Self::by_day(day, days.map(|on| if on { 1.0 } else { 0.0 }))
    }

    /// Nights: 1 from one time of the day on the days marked, s after midnight, to another time, which lies on the next day where it is
    /// not later than the first. The night after the last day ends on the first. `None` as in [`DayProfile::between`].
    #[must_use]
    pub fn nights(days: [bool; DAYS], from: f64, to: f64) -> Option<Self> {
        if from < to {
            return Some(Self::on_days(&DayProfile::between(from, to, 1.0)?, days));
        }
        let evening = DayProfile::between(from, DAY_SECONDS, 1.0).filter(|_| from < DAY_SECONDS);
        let evening = evening.unwrap_or(DayProfile::constant(0.0));
        let morning = if to > 0.0 { DayProfile::between(0.0, to, 1.0)? } else { DayProfile::constant(0.0) };
        DayProfile::between(from, to, 1.0)?;
        let mut after = days;
        after.rotate_right(1);
        let mut week = Self::on_days(&evening, days);
        for (step, more) in week.0.iter_mut().zip(Self::on_days(&morning, after).0.iter()) {
            // Both at once only where a night lasts a whole day.
            *step = (*step + more).min(1.0);
        }
        Some(week)
    }

    /// The values.
    #[must_use]
    pub const fn steps(&self) -> &[f64; STEPS] {
        &self.0
    }

    /// Each value put together with that of another week.
    pub(crate) fn map_with(&self, other: &Self, put: impl Fn(f64, f64) -> f64) -> Self {
        let mut week = self.clone();
        for (value, &other) in week.0.iter_mut().zip(other.0.iter()) {
            *value = put(*value, other);
        }
        week
    }

    /// True where every value is zero.
    pub(crate) fn is_never(&self) -> bool {
        self.0.iter().all(|&value| value == 0.0)
    }
}
