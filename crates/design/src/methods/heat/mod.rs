//! Heat: the coldest night, the faces of a space for people, what it loses and what its heaters give.

mod airing;
mod cooling;
mod ducts;
mod heaters;
pub mod layers;
mod room;
pub mod shell;
mod warm_up;

use super::{brief, no_solution};
use crate::binding::{Bindings, Method};
use crate::fact::{Fact, Outcome};
use crate::known::{AnyOf, CaseId, Gap, Gaps, PartId};
use crate::reader::Reader;
use vocabulary::{FactId, fact as f, fact::brief as b, fact::zone as z};

pub use room::{belongs, find_living_spaces, layered, living_spaces};

/// 0 °C.
pub const FREEZING: f64 = 273.15;

/// Colder nights than this count as cold for faces, K: 5 °C (chosen by the fact book).
const COLD_NIGHT: f64 = FREEZING + 5.0;

/// Whether a build is used in a season, by the word of the brief; in both where no brief is written.
fn used_in(reader: &mut Reader<'_>, season: &str, case: CaseId) -> Outcome<bool> {
    let Some(brief) = brief::found(reader)? else { return Ok(true) };
    super::has_word(reader, brief, b::USED, season, case)
}

/// Whether a build is used in winter.
pub fn winter_nights(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    used_in(reader, "winter", case)
}

/// Whether a build is used in summer.
pub fn summer_days(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    used_in(reader, "summer", case)
}

/// The coldest night in which the build is used, K.
pub fn coldest_night(reader: &mut Reader<'_>, case: CaseId) -> Outcome<f64> {
    let brief = brief::due(reader)?;
    reader.need(brief, b::COLDEST_NIGHT, case)
}

/// Whether the coldest night of the build's winter is at or below a temperature K; no where it is not used in winter.
pub fn night_at_most(reader: &mut Reader<'_>, kelvin: f64, case: CaseId) -> Outcome<bool> {
    Ok(winter_nights(reader, case)? && coldest_night(reader, case)? <= kelvin)
}

/// Whether water freezes in the coldest night of the build's winter.
pub fn freezing_night(reader: &mut Reader<'_>, case: CaseId) -> Outcome<bool> {
    Ok(winter_nights(reader, case)? && coldest_night(reader, case)? < FREEZING)
}

fn hot_days(reader: &mut Reader<'_>, _: PartId, case: CaseId) -> Outcome {
    /// A hot day, K: 30 °C (chosen by the fact book).
    const HOT: f64 = FREEZING + 30.0;
    if !used_in(reader, "summer", case)? {
        return Ok(Fact::Flag(false));
    }
    let brief = brief::due(reader)?;
    Ok(Fact::Flag(reader.need(brief, b::HOTTEST_DAY, case)? >= HOT))
}

/// The sun on a level roof at noon in summer, W/m², and the film outside, W/(m²·K) (ASHRAE, from memory).
const NOON: f64 = 900.0;
const SUMMER_FILM: f64 = 17.0;

fn roof_in_sun(reader: &mut Reader<'_>, vehicle: PartId, case: CaseId) -> Outcome {
    let brief = brief::due(reader);
    let summer = brief.and_then(|brief| reader.need(brief, b::HOTTEST_DAY, case));
    let (colour, summer) = super::battery::both(reader.need_word(vehicle, f::vehicle::ROOF_COLOUR, case), summer)?;
    let (absorbed, source) = calc::heat::roof_absorptance(cooling::colour(colour));
    match calc::heat::sol_air_temperature(summer, absorbed.most(), NOON, SUMMER_FILM, true) {
        Ok(kelvin) => {
            reader.step(|| {
                let text = format!(
                    "{} + {:.2} × {NOON:.0} W/m² / {SUMMER_FILM:.0} W/m²K − 4 K: {}",
                    super::celsius(summer),
                    absorbed.most(),
                    super::celsius(kelvin)
                );
                crate::working::Step::cited(text, source)
            });
            Ok(Fact::Number(kelvin))
        }
        Err(_) => no_solution(vehicle, f::vehicle::ROOF_IN_SUN),
    }
}

/// The list of some parts, and whether it is complete.
pub fn listed(found: Vec<PartId>, gaps: &Gaps) -> Outcome {
    Ok(super::parts(found, gaps.is_empty()))
}

/// Either of these entries settles it.
pub fn any_of(entries: impl IntoIterator<Item = (PartId, FactId)>) -> Gaps {
    Gaps(vec![AnyOf(entries.into_iter().map(|(part, fact)| Gap::Entry(part, fact)).collect())])
}

/// Whether a space is a whole space for people.
fn whole(reader: &mut Reader<'_>, zone: PartId, case: CaseId) -> Outcome<bool> {
    reader.need_flag(zone, z::WHOLE_LIVING_SPACE, case)
}

/// The methods of this subject.
pub fn bindings() -> Bindings {
    use Method::Each;
    let mut all = vec![(f::vehicle::HOT_DAYS, Each(hot_days)), (f::vehicle::ROOF_IN_SUN, Each(roof_in_sun))];
    all.extend(shell::bindings());
    all.extend(room::bindings());
    all.extend(heaters::bindings());
    all.extend(cooling::bindings());
    all.extend(airing::bindings());
    all.extend(ducts::bindings());
    all.extend(warm_up::bindings());
    all
}
