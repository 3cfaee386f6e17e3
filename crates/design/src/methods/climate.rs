//! The climate of a build: what its brief says, else what the weather stations say that it names.

use super::{celsius, is_said, no_solution, show};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use crate::working::Step;
use calc::climate::Station;
use quantity::Dimension;
use vocabulary::{FactId, fact::brief as b};

/// The weather stations that a brief names; none where it names none.
fn stations(reader: &mut Reader<'_>, brief: PartId, case: CaseId) -> Outcome<Vec<&'static Station>> {
    if !is_said(reader, brief, b::NEAR)? {
        return Ok(Vec::new());
    }
    let words = vocabulary::fact_spec(b::NEAR).choices();
    match reader.fact(brief, b::NEAR, case)? {
        Fact::ChoiceSet(set) => {
            let named = words.iter().enumerate().filter(|(place, _)| set & (1 << place) != 0);
            Ok(named.filter_map(|(_, word)| calc::climate::station_of(word)).collect())
        }
        _ => no_solution(brief, b::NEAR),
    }
}

/// What the worst of the stations says.
struct Worst {
    of: fn(&Station) -> f64,
    /// What makes one worse than the other: the larger is.
    by: fn(f64) -> f64,
    shown: fn(f64) -> String,
    what: &'static str,
}

const NIGHT: Worst =
    Worst { of: Station::coldest, by: |kelvin| -kelvin, shown: celsius, what: "the coldest night of a usual year" };
const DAY: Worst =
    Worst { of: Station::hottest, by: |kelvin| kelvin, shown: celsius, what: "the hottest day of a usual year" };
/// Far from the equator winters are darkest, and no summer is brighter for it.
const LATITUDE: Worst =
    Worst { of: Station::latitude, by: f64::abs, shown: |angle| show(angle, Dimension::ANGLE), what: "latitude" };

fn of_stations(reader: &mut Reader<'_>, brief: PartId, worst: &Worst, case: CaseId) -> Outcome<Option<f64>> {
    let named = stations(reader, brief, case)?;
    let of = |station: &&Station| (worst.by)((worst.of)(station));
    let Some(station) = named.into_iter().max_by(|one, other| of(one).total_cmp(&of(other))) else { return Ok(None) };
    let value = (worst.of)(station);
    reader
        .step(|| Step::cited(format!("{}: {} {}", station.title, worst.what, (worst.shown)(value)), station.citation));
    Ok(Some(value))
}

/// What the brief says itself, else what the stations say that it names.
fn said_or_near(reader: &mut Reader<'_>, brief: PartId, own: FactId, worst: &Worst, case: CaseId) -> Outcome {
    if is_said(reader, brief, own) == Ok(true) {
        return reader.fact(brief, own, case);
    }
    if reader.build().part(brief).unread {
        return Err(Gaps::one(Gap::Unread(brief)));
    }
    match of_stations(reader, brief, worst, case) {
        Ok(Some(value)) => Ok(Fact::Number(value)),
        _ => Err(Gaps(vec![AnyOf(vec![Gap::Entry(brief, own), Gap::Entry(brief, b::NEAR)])])),
    }
}

fn coldest_night(reader: &mut Reader<'_>, brief: PartId, case: CaseId) -> Outcome {
    said_or_near(reader, brief, b::WINTER, &NIGHT, case)
}

fn hottest_day(reader: &mut Reader<'_>, brief: PartId, case: CaseId) -> Outcome {
    said_or_near(reader, brief, b::SUMMER, &DAY, case)
}

fn used_latitude(reader: &mut Reader<'_>, brief: PartId, case: CaseId) -> Outcome {
    said_or_near(reader, brief, b::LATITUDE, &LATITUDE, case)
}

/// What the stations say, whatever the brief says itself.
fn near(reader: &mut Reader<'_>, brief: PartId, worst: &Worst, case: CaseId) -> Outcome {
    match of_stations(reader, brief, worst, case)? {
        Some(value) => Ok(Fact::Number(value)),
        None => Err(Gaps::one(Gap::Entry(brief, b::NEAR))),
    }
}

fn station_night(reader: &mut Reader<'_>, brief: PartId, case: CaseId) -> Outcome {
    near(reader, brief, &NIGHT, case)
}

fn station_day(reader: &mut Reader<'_>, brief: PartId, case: CaseId) -> Outcome {
    near(reader, brief, &DAY, case)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    vec![
        (b::COLDEST_NIGHT, Each(coldest_night)),
        (b::HOTTEST_DAY, Each(hottest_day)),
        (b::USED_LATITUDE, Each(used_latitude)),
        (b::STATION_NIGHT, Each(station_night)),
        (b::STATION_DAY, Each(station_day)),
    ]
}

#[cfg(test)]
mod tests {
    use super::b;
    use calc::climate::STATIONS;

    #[test]
    fn the_words_of_a_brief_are_the_stations_of_the_table() {
        let words: Vec<&str> = STATIONS.iter().map(|station| station.word).collect();
        assert_eq!(vocabulary::fact_spec(b::NEAR).choices(), words);
    }
}
