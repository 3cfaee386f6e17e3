//! What the week is told: batteries, loads, inverters and sources as entries of the calculation, with what would settle each that is
//! not known.

use super::{loads, sources, store};
use crate::fact::Outcome;
use crate::known::{CaseId, Gap, Gaps, PartId};
use crate::methods::bank::is_base;
use crate::methods::brief;
use crate::part::Build;
use crate::reader::Reader;
use calc::week::{DayProfile, Entries, Entry, Source};
use rustc_hash::FxHashMap;
use vocabulary::{FactId, fact as f, kind};

/// Seconds of an hour.
pub(super) const HOUR: f64 = 3_600.0;

/// When the week begins, s after midnight: six in the evening, when people arrive and the sun goes (chosen).
pub(super) const BEGINS: f64 = 18.0 * HOUR;

/// The share of the usable energy at which loads that were cut come on again: chosen, as low-voltage switches do that wait for a charge.
const RECONNECTS: f64 = 0.1;

/// What a source is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Sort {
    Sun,
    Driving,
    Shore,
    Generator,
}

impl Sort {
    /// Its word.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Sun => "sun",
            Self::Driving => "driving",
            Self::Shore => "shore",
            Self::Generator => "generator",
        }
    }
}

/// Everything that a week is told.
#[derive(Debug)]
pub(super) struct Told {
    /// The entries, with the sun at its least.
    entries: Entries,
    /// The batteries.
    pub batteries: Vec<PartId>,
    /// The load of each entry.
    pub loads: Vec<PartId>,
    /// The inverter of each entry.
    pub inverters: Vec<PartId>,
    /// The sort of each source.
    pub sources: Vec<Sort>,
    /// Of the sources of the sun, their most, by their place.
    most: Vec<(usize, DayProfile)>,
    /// What would settle how much sun there is, where it is only known as a range.
    pub range: Gaps,
    /// What would settle whether the sources are all.
    pub doubt: Gaps,
    /// What would settle each entry.
    gaps: FxHashMap<Entry, Gaps>,
}

impl Told {
    /// Gathers everything, and records it where a working is asked for.
    pub(super) fn gather(reader: &mut Reader<'_>, part: PartId, case: CaseId) -> Outcome<Self> {
        let batteries = batteries(reader, part, case)?;
        let Some(first) = batteries.first() else {
            return Err(Gaps::one(Gap::Absent(Build::ROOT, kind::BATTERY)));
        };
        let mut known = Known::of(reader, part, case);
        let battery = store::pool(reader, &batteries, *first, &mut known)?;
        let volts = battery.nominal_volts;
        let drawn = loads::gather(reader, &mut known);
        let brought = sources::gather(reader, &batteries, volts, &mut known);
        Ok(Self {
            entries: Entries {
                battery,
                loads: drawn.loads,
                inverters: drawn.inverters,
                sources: brought.sources,
                begins: BEGINS,
                reconnects: RECONNECTS,
            },
            batteries,
            loads: drawn.things,
            inverters: drawn.inverting,
            sources: brought.sorts,
            most: brought.most,
            range: brought.range,
            doubt: brought.doubt,
            gaps: known.gaps,
        })
    }

    /// The entries with the sun at its least.
    pub(super) fn least(&self) -> Entries {
        self.entries.clone()
    }

    /// The entries with the sun at its most.
    pub(super) fn most(&self) -> Entries {
        let mut entries = self.entries.clone();
        for (place, watts) in &self.most {
            if let Some(Source::Sun(sun)) = entries.sources.get_mut(*place) {
                sun.watts = Some(watts.clone());
            }
        }
        entries
    }

    /// The entries, to be read.
    pub(super) fn entries(&self) -> &Entries {
        &self.entries
    }

    /// What would settle an entry.
    pub(super) fn missing(&self, entry: Entry) -> Gaps {
        if let Some(gaps) = self.gaps.get(&entry) {
            return gaps.clone();
        }
        // What follows from the chemistry, or was added up with another entry, is missing with that.
        let mut gaps = Gaps::default();
        for other in [Entry::Chemistry, Entry::NominalVolts, Entry::Capacity] {
            gaps.add(&self.gaps.get(&other).cloned().unwrap_or_default());
        }
        if gaps.is_empty() { Gaps::one(Gap::NoSolution(Build::ROOT, f::build::FITTED_BATTERIES)) } else { gaps }
    }
}

/// What is known while the entries are gathered.
pub(super) struct Known {
    /// The week.
    pub week: PartId,
    /// The case whose climate is reckoned.
    pub case: CaseId,
    /// The season.
    pub season: String,
    gaps: FxHashMap<Entry, Gaps>,
}

impl Known {
    /// Nothing known yet of a case's climate.
    pub(super) fn of(reader: &Reader<'_>, week: PartId, case: CaseId) -> Self {
        Self { week, case, season: reader.cases().climate(case).to_owned(), gaps: FxHashMap::default() }
    }

    /// A value; what is not known of it is kept for its entry.
    pub(super) fn take<T>(&mut self, value: Outcome<T>, entry: Entry) -> Option<T> {
        match value {
            Ok(value) => Some(value),
            Err(gaps) => {
                self.gaps.entry(entry).or_default().add(&gaps);
                None
            }
        }
    }

    /// What would settle an entry that was taken before.
    pub(super) fn gaps_of(&self, entry: Entry) -> Gaps {
        self.gaps.get(&entry).cloned().unwrap_or_default()
    }

    /// Whether the summer is reckoned.
    pub(super) fn is_summer(&self) -> bool {
        self.season == "summer"
    }
}

/// The batteries of a week.
pub(super) fn batteries(reader: &mut Reader<'_>, week: PartId, case: CaseId) -> Outcome<Vec<PartId>> {
    let weeks = &reader.build().circuitry().weeks;
    let of_bank = weeks.iter().find(|own| own.part == week).map_or(&[][..], |own| &own.batteries);
    let mut fitted = Vec::new();
    let mut gaps = Gaps::default();
    for &battery in of_bank {
        match is_base(reader, battery, case) {
            Ok(true) => {}
            Ok(false) => fitted.push(battery),
            Err(more) => gaps.add(&more),
        }
    }
    if !reader.build().of_kind(kind::BATTERY).complete {
        gaps.add(&Gaps::one(Gap::Unread(reader.unread_part(Build::ROOT))));
    }
    if gaps.is_empty() { Ok(fitted) } else { Err(gaps) }
}

/// Whether a node belongs to a week: joined with its bank without a relay between; behind a relay it belongs to the first bank that is joined
/// at all.
pub(super) fn belongs(reader: &Reader<'_>, node: usize, week: PartId) -> bool {
    let circuitry = reader.build().circuitry();
    if let Some(own) = circuitry.weeks.iter().find(|own| own.nodes.contains(&node)) {
        return own.part == week;
    }
    let at = [Some(node)];
    let joined: Vec<PartId> = circuitry.sources_joined(&at).map(|terminal| terminal.thing).collect();
    circuitry
        .weeks
        .iter()
        .find(|own| own.batteries.iter().any(|battery| joined.contains(battery)))
        .is_some_and(|own| own.part == week)
}

/// An entry of the brief.
pub(super) fn of_brief(reader: &mut Reader<'_>, fact: FactId, case: CaseId) -> Outcome<f64> {
    let brief = brief::due(reader)?;
    reader.need(brief, fact, case)
}

/// A day's course that begins at an hour and lasts for a share of the day.
pub(super) fn from_hour(hour: f64, share: f64) -> Option<DayProfile> {
    if share <= 0.0 {
        return Some(DayProfile::constant(0.0));
    }
    if share >= 1.0 {
        return Some(DayProfile::constant(1.0));
    }
    let day = calc::DAY_SECONDS;
    let begin = hour * HOUR;
    DayProfile::between(begin, (begin + share * day).rem_euclid(day), 1.0)
}
