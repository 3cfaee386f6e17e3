//! What the sun brings the modules in a season.

use super::told::Known;
use crate::fact::Outcome;
use crate::known::{Gap, Gaps, PartId};
use crate::methods::battery::both;
use crate::methods::{brief, celsius, is_said, no_solution, show};
use crate::part::Build;
use crate::reader::Reader;
use crate::working::Step;
use calc::sun::{
    Array, Loss, Losses, Mounting, Plane, SkyDay, TYPICAL_ALBEDO, Transposition, array_day, clear_day, mean_day,
    mean_day_of, measured_irradiation, on_plane,
};
use calc::week::DayProfile;
use quantity::Dimension;
use vocabulary::{FactId, fact as f, fact::solar as s};

/// Irradiance of full sun, W/m² (the test's, IEC 60904-3).
const FULL_SUN: f64 = 1_000.0;

/// The darkest and the brightest month of the northern half of the world; of the southern half the other way round.
const MONTHS: [u8; 2] = [12, 6];

/// The turbidity of very clear cold air (chosen: no mean day is brighter than a day as clear as this).
const CLEAREST: f64 = 2.0;

/// By how much a winter's day is warmer than its coldest night, K (chosen; a wrong 10 K is a wrong 4 % of the modules' power).
const DAY_ABOVE_NIGHT: f64 = 8.0;

/// The fact of the brief that says the season's sun.
pub(super) fn of_season(known: &Known) -> FactId {
    if known.is_summer() { f::brief::SUMMER_SUN } else { f::brief::WINTER_SUN }
}

/// The latitude, rad, and the month of the season.
fn place_and_month(reader: &mut Reader<'_>, known: &Known) -> Outcome<(f64, u8)> {
    let brief = brief::due(reader)?;
    let latitude = reader.need(brief, f::brief::USED_LATITUDE, known.case)?;
    let [darkest, brightest] = MONTHS;
    let month = if known.is_summer() == (latitude >= 0.0) { brightest } else { darkest };
    Ok((latitude, month))
}

/// Whether the brief says the season's sun, and what.
pub(super) fn said(reader: &mut Reader<'_>, known: &Known) -> Outcome<Option<f64>> {
    let Some(brief) = brief::found(reader)? else { return Ok(None) };
    let fact = of_season(known);
    if !is_said(reader, brief, fact)? {
        return Ok(None);
    }
    reader.need(brief, fact, known.case).map(Some)
}

/// The share of the day in full sun that a clear day brings a level plane.
pub(super) fn clearest(reader: &mut Reader<'_>, known: &Known) -> Outcome<f64> {
    let (latitude, month) = place_and_month(reader, known)?;
    let day = mean_day_of(month).and_then(|day| clear_day(latitude, 0.0, day, CLEAREST));
    match day {
        Some(day) => {
            let share = day.irradiation() / FULL_SUN / calc::DAY_SECONDS;
            reader.step(|| {
                Step::cited(
                    format!("a clear day in month {month}, very clean air: {}", sun_hours(share)),
                    &calc::sun::CLEAR_SKY,
                )
            });
            Ok(share)
        }
        None => no_solution(Build::ROOT, f::brief::MOST_SUN),
    }
}

/// Hours of full sun of a share of the day, in words.
fn sun_hours(share: f64) -> String {
    format!("{} of full sun", super::loads::hours(share))
}

/// A range of what is brought, least and most.
pub(super) struct Sky {
    days: [SkyDay; 2],
    /// What would settle the range; nothing where the sun is said.
    pub open: Gaps,
}

/// The sky of the season: as the brief says, else as a range from typical years of places at a like latitude.
pub(super) fn sky(reader: &mut Reader<'_>, known: &Known) -> Outcome<Sky> {
    let brief = brief::due(reader)?;
    let fact = of_season(known);
    let (latitude, month) = place_and_month(reader, known)?;
    let said = said(reader, known)?;
    let day = mean_day_of(month).unwrap_or_default();
    let (least, most, open) = match said {
        Some(share) => {
            let joules = share * FULL_SUN * calc::DAY_SECONDS;
            reader.step(|| Step::of(format!("month {month}, as the brief says: {}", sun_hours(share))));
            (joules, joules, Gaps::default())
        }
        None => {
            let open = Gaps::one(Gap::Entry(brief, fact));
            let Some(range) = measured_irradiation(latitude, month) else { return Err(open) };
            let share = |joules: f64| joules / FULL_SUN / calc::DAY_SECONDS;
            reader.step(|| Step {
                assumed: true,
                ..Step::cited(
                    format!(
                        "month {month}, not said: {} to {}, by the clearness of the sky of {}",
                        super::loads::hours(share(range.least)),
                        sun_hours(share(range.most)),
                        range.places.join(", ")
                    ),
                    range.citation,
                )
            });
            (range.least, range.most, open)
        }
    };
    match (mean_day(latitude, day, least), mean_day(latitude, day, most)) {
        (Some(least), Some(most)) => Ok(Sky { days: [least, most], open }),
        // More sun than there is above the air, or any in the polar night.
        _ => no_solution(brief, fact),
    }
}

/// What modules bring to the batteries through a day, W: with the least and with the most sun.
pub(super) fn modules(reader: &mut Reader<'_>, modules: PartId, sky: &Sky, known: &Known) -> Outcome<[DayProfile; 2]> {
    let case = known.case;
    let (power, count) = both(reader.need(modules, s::POWER, case), reader.need(modules, s::MODULES, case))?;
    let tilt = reader.need(modules, s::TILT, case)?;
    let facing = if tilt > 0.0 { reader.need(modules, s::FACING, case)? } else { 0.0 };
    let mounting = match reader.need_word(modules, s::MOUNTING, case)? {
        "open" => Mounting::Open,
        "above-roof" => Mounting::AboveRoof,
        "close-to-roof" => Mounting::CloseToRoof,
        _ => Mounting::OnRoof,
    };
    let coefficient = reader.need(modules, s::POWER_PER_KELVIN, case)?;
    let shading = reader.need(modules, s::SHADING, case)?;
    let brief = brief::due(reader)?;
    let air = if known.is_summer() {
        reader.need(brief, f::brief::HOTTEST_DAY, case)?
    } else {
        reader.need(brief, f::brief::COLDEST_NIGHT, case)? + DAY_ABOVE_NIGHT
    };
    let losses = Losses::typical().with(Loss::Shading, shading);
    let Ok(left) = losses.left() else { return no_solution(modules, s::SHADING) };
    let array = Array { rated_watts: power * count, power_coefficient: coefficient, rise: mounting.rise(), left };
    let plane = Plane { tilt, azimuth: facing, albedo: TYPICAL_ALBEDO };
    let of_day = |sky: &SkyDay| array_day(&array, &on_plane(sky, &plane, Transposition::HayDavies)?, air);
    let [least, most] = &sky.days;
    let (Some(least), Some(most)) = (of_day(least), of_day(most)) else { return no_solution(modules, s::TILT) };
    let title = reader.build().part(modules).title.clone();
    reader.step(|| {
        let lies = if tilt > 0.0 {
            format!("tilted {:.0}° towards {:.0}°", tilt.to_degrees(), facing.to_degrees())
        } else {
            "level".to_owned()
        };
        let energy = |day: &DayProfile| show(day.over_day(), Dimension::ENERGY);
        let range =
            if sky.open.is_empty() { energy(&least) } else { format!("{} to {}", energy(&least), energy(&most)) };
        Step {
            assumed: true,
            ..Step::cited(
                format!(
                    "{title}: {}, {lies}, air of {}, {} left after dirt, shade, wires and controller: {range} a day",
                    show(power * count, Dimension::POWER),
                    celsius(air),
                    show(left, Dimension::RATIO)
                ),
                Loss::Soiling.typical().1,
            )
        }
    });
    Ok([least, most])
}
