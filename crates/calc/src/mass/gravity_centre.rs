//! Centre of gravity in three dimensions.

use crate::input::{InputError, need_entries, need_finite, need_positive, outcome};
use crate::interval::Interval;
use crate::mass::value::{Bounded, Item, Mass, weighted_sum};

/// Centre of gravity and total mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CentreOfGravity {
    /// Rearward, m.
    pub x: Bounded,
    /// To the right, m.
    pub y: Bounded,
    /// Up, m.
    pub z: Bounded,
    /// Total mass, kg.
    pub mass: Bounded,
}

/// Centre of gravity of masses, with the exact bounds that their tolerances leave.
///
/// # Errors
/// No item; no mass at all; positions that are not finite.
pub fn centre_of_gravity(items: &[Item]) -> Result<CentreOfGravity, InputError> {
    need_entries("masses", items)?;
    let mass = weighted_sum(items, |_| Ok(1.0))?;
    need_positive("total mass", mass.value)?;
    Ok(CentreOfGravity { x: along(items, 0)?, y: along(items, 1)?, z: along(items, 2)?, mass })
}

fn along(items: &[Item], axis: usize) -> Result<Bounded, InputError> {
    let place = |item: &Item| item.at.get(axis).copied().unwrap_or(f64::NAN);
    let mut sorted = Vec::with_capacity(items.len());
    for item in items {
        sorted.push((need_finite("position of a mass", place(item))?, item.mass));
    }
    sorted.sort_by(|one, other| one.0.total_cmp(&other.0));
    let weight: f64 = sorted.iter().map(|(_, mass)| mass.value()).sum();
    let moment: f64 = sorted.iter().map(|(place, mass)| mass.value() * place).sum();
    let value = outcome("centre of gravity", moment / weight)?;
    // The mean is least when the masses before some place are heaviest and those behind it lightest: the best cut is found by trying all.
    let (least_mass, most_mass) = (|mass: &Mass| mass.bounds().least(), |mass: &Mass| mass.bounds().most());
    let least = best_cut(&sorted, most_mass, least_mass).fold(value, f64::min);
    let most = best_cut(&sorted, least_mass, most_mass).fold(value, f64::max);
    Ok(Bounded { value, bounds: Interval::new(least, most)? })
}

/// The mean place for each cut, the masses before it taken by one rule and those behind it by the other.
fn best_cut<'masses>(
    sorted: &'masses [(f64, Mass)],
    before: impl Fn(&Mass) -> f64 + 'masses,
    behind: impl Fn(&Mass) -> f64 + 'masses,
) -> impl Iterator<Item = f64> + 'masses {
    let mut weight: f64 = sorted.iter().map(|(_, mass)| behind(mass)).sum();
    let mut moment: f64 = sorted.iter().map(|(place, mass)| behind(mass) * place).sum();
    let start = (weight > 0.0).then(|| moment / weight);
    let steps = sorted.iter().filter_map(move |(place, mass)| {
        let change = before(mass) - behind(mass);
        weight += change;
        moment += change * place;
        (weight > 0.0).then(|| moment / weight)
    });
    start.into_iter().chain(steps).filter(|place| place.is_finite())
}
