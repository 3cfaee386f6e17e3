//! The design week: what it is told, what it comes to, and the facts that follow.
//!
//! There is a week for each bank of batteries. It is made once for each climate and kept by the reader; no step of it asks the network. It begins at six in the
//! evening with full batteries. Where an entry is not known, or the sun only as a range, both ends are reckoned.

mod facts;
mod heating;
mod loads;
mod shares;
mod sky;
mod sources;
mod store;
mod told;
mod words;

pub use facts::bindings;

use crate::fact::Outcome;
use crate::known::{CaseId, Gaps, PartId};
use crate::reader::Reader;
use crate::shares::EnergyShare;
use calc::week::{Entries, Report};
use told::Told;

/// The week of a season, as far as it is known.
#[derive(Debug)]
pub struct Week {
    /// Its part.
    part: PartId,
    /// What it was told.
    told: Outcome<Told>,
    /// With whatever is not known at its worst; nothing where that has no bound.
    worst: Option<End>,
    /// With whatever is not known at its best.
    best: Option<End>,
    /// What would settle the difference.
    gaps: Gaps,
}

/// The week with every entry at one end.
#[derive(Debug, PartialEq)]
struct End {
    /// What it comes to.
    report: Report,
    /// Whether it could be repeated for ever.
    sustained: bool,
    /// What is missing in a day, J.
    deficit: f64,
}

/// What the batteries may have lost over a week that follows another and still count as kept, of their capacity: chosen, far below
/// what a monitor tells.
const KEPT: f64 = 0.01;

/// Days of a week.
const DAYS: f64 = 7.0;

impl Week {
    /// A week in a case's climate.
    pub(crate) fn of(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Self {
        let told = Told::gather(reader, part, case);
        let Ok(told) = told else {
            return Self {
                part,
                gaps: told.as_ref().err().cloned().unwrap_or_default(),
                told,
                worst: None,
                best: None,
            };
        };
        let mut gaps = told.range.clone();
        let mut ends = [None, None];
        for (end, (entries, least)) in ends.iter_mut().zip([(told.least(), true), (told.most(), false)]) {
            *end = one_end(&told, &entries, least, &mut gaps);
        }
        let [worst, best] = ends;
        Self { part, told: Ok(told), worst, best, gaps }
    }
}

/// One end of what may be.
fn one_end(told: &Told, entries: &Entries, worst: bool, gaps: &mut Gaps) -> Option<End> {
    let report = pick(told, calc::week::simulate(entries), worst, gaps)?;
    let capacity = entries.battery.nominal_volts.unwrap_or(0.0) * entries.battery.capacity_coulombs.unwrap_or(0.0);
    let end = report.state_of_charge.last().copied().unwrap_or(0.0);
    let start = entries.battery.start.unwrap_or(1.0);
    let missing = |report: &Report| report.unserved_joules - report.stored.min(0.0);
    if report.unserved_joules > 0.0 {
        return Some(End { deficit: missing(&report) / DAYS, sustained: false, report });
    }
    if end >= start - KEPT {
        return Some(End { deficit: 0.0, sustained: true, report });
    }
    // A first week from full ends lower than it began though all is well: only the second shows whether it sinks.
    let mut again = entries.clone();
    again.battery.start = Some(end);
    let second = pick(told, calc::week::simulate(&again), worst, gaps)?;
    let fell = -second.stored;
    let sustained = second.unserved_joules <= 0.0 && fell <= KEPT * capacity;
    let deficit = if sustained { 0.0 } else { missing(&second) / DAYS };
    Some(End { report, sustained, deficit })
}

/// The report of one end; what is missing is gathered.
fn pick(
    told: &Told,
    outcome: Result<calc::week::Outcome, calc::week::Unusable>,
    worst: bool,
    gaps: &mut Gaps,
) -> Option<Report> {
    use calc::week::Outcome as Came;
    match outcome {
        Ok(Came::Told(report)) => Some(*report),
        Ok(Came::Between { at_worst, at_best, missing }) => {
            missing.iter().for_each(|entry| gaps.add(&told.missing(*entry)));
            (if worst { at_worst } else { at_best }).map(|report| *report)
        }
        Ok(Came::CannotTell(missing)) => {
            missing.iter().for_each(|entry| gaps.add(&told.missing(*entry)));
            None
        }
        Err(unusable) => {
            gaps.add(&told.missing(unusable.entry));
            None
        }
    }
}

/// The course of the batteries through a design week.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct WeekCurve {
    /// The season.
    pub season: String,
    /// Time of the first day at which it begins, s after midnight.
    pub begins: f64,
    /// Share of the rated capacity that is stored, at the beginning and after each of the 168 hours.
    pub state_of_charge: Vec<f64>,
    /// Share of the usable energy that is left, at the same times.
    pub usable_left: Vec<f64>,
}

impl Reader<'_> {
    /// What makes up the energy of a day of a design week in a case's climate: its sum is the week's `energy-a-day` where all
    /// of it is known.
    ///
    /// # Errors
    /// What would settle the batteries of the week.
    pub fn energy_shares(&mut self, week: PartId, case: CaseId) -> Outcome<Vec<EnergyShare>> {
        Ok(shares::of(self.week(week, case).told.as_ref().map_err(Clone::clone)?))
    }

    /// The course of the batteries through a design week (a part of the kind `week`) in a case's climate, with whatever is not known at its worst and at its best: the
    /// two are alike where all is known, and one is missing where it has no bound.
    ///
    /// # Errors
    /// What would settle it, where nothing can be told.
    pub fn week_curve(&mut self, week: PartId, case: CaseId) -> Outcome<[Option<WeekCurve>; 2]> {
        let season = self.cases().climate(case).to_owned();
        let week = self.week(week, case);
        if week.worst.is_none() && week.best.is_none() {
            return Err(week.gaps.clone());
        }
        Ok([&week.worst, &week.best].map(|end| {
            end.as_ref().map(|end| WeekCurve {
                season: season.clone(),
                begins: told::BEGINS,
                state_of_charge: end.report.state_of_charge.clone(),
                usable_left: end.report.usable_left.clone(),
            })
        }))
    }
}
