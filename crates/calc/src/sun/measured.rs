//! Monthly mean irradiation by latitude, as a range over the places for which it could be read.

use super::mean_sky::daily_irradiation_above_air;
use super::position::{mean_day_of, usable_latitude};
use crate::citation::Citation;
use crate::tables::monthly_sun::{CITATION, PLACES};

/// Joules of a kilowatt-hour.
const KILOWATT_HOUR: f64 = 3.6e6;

/// The widest gap in latitude, degrees, over which a place's sky is taken as a sign of another's. Chosen: wide enough to leave no gap between
/// the places of the table.
const WIDEST_GAP: f64 = 8.0;

/// Months by which the seasons of the other hemisphere are shifted.
const HALF_YEAR: usize = 6;

/// A range of monthly mean irradiation.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredRange {
    /// The least over the places, J/m² a day on a level plane.
    pub least: f64,
    /// The most over the places, J/m² a day on a level plane.
    pub most: f64,
    /// The places that the range was taken from.
    pub places: Vec<&'static str>,
    /// Where their values come from.
    pub citation: &'static Citation,
}

/// Monthly mean global irradiation of a level plane at a latitude rad in a month 1 to 12, as the range over the places of the table within
/// 8° of latitude of either hemisphere (months shifted by six for the other one).
///
/// Each place lends its clearness, the share of the irradiation above the air, to the latitude asked for. Two places at one latitude differ
/// by a third, so only the range is an honest answer; measured values of the place itself are better. `None` with no place within reach,
/// where the sun does not rise, and for unusable numbers.
#[must_use]
pub fn measured_irradiation(latitude: f64, month: u8) -> Option<MeasuredRange> {
    if !usable_latitude(latitude) {
        return None;
    }
    let day = mean_day_of(month)?;
    let here = daily_irradiation_above_air(latitude, day)?;
    let index = usize::from(month).checked_sub(1)?;
    let mut range = MeasuredRange { least: f64::INFINITY, most: 0.0, places: Vec::new(), citation: &CITATION };
    for place in &PLACES {
        if (place.latitude.abs() - latitude.to_degrees().abs()).abs() > WIDEST_GAP {
            continue;
        }
        let same_side = place.latitude.is_sign_negative() == latitude.is_sign_negative();
        let there_index = if same_side { index } else { (index + HALF_YEAR) % place.months.len() };
        let there_day = mean_day_of(u8::try_from(there_index + 1).ok()?)?;
        let there = daily_irradiation_above_air(place.latitude.to_radians(), there_day)?;
        let measured = place.months.get(there_index)? * KILOWATT_HOUR;
        let value = measured / there * here;
        range.least = range.least.min(value);
        range.most = range.most.max(value);
        range.places.push(place.name);
    }
    (!range.places.is_empty() && range.most > 0.0).then_some(range)
}
