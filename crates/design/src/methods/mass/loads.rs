//! What everything that weighs loads in one fill.

use super::burden::{Burden, Burdens, Sort};
use super::fills::{FILLS, State, Toward, share};
use crate::fact::Outcome;
use crate::known::{Gap, Gaps};
use crate::part::Build;
use calc::mass::{AxleLayout, Bounded, Evidence, Item, LoadState, Mass};
use vocabulary::fact as f;

/// A sum that may not be known, and what it is at least by what is known.
#[derive(Clone, Debug)]
pub struct Sum {
    /// The sum with its bounds.
    pub value: Outcome<Bounded>,
    /// A bound below which it cannot be, kg; nothing where none can be told.
    pub at_least: Option<f64>,
}

/// One burden in this fill.
#[derive(Clone, Debug)]
pub struct Aboard {
    /// Its place among the burdens.
    pub burden: usize,
    /// Its mass in this fill, kg, when known.
    pub mass: Option<f64>,
    /// What each kilogram of it loads each support with, when its place is known.
    pub parts: Option<Vec<f64>>,
}

/// All loads in one fill.
#[derive(Clone, Debug)]
pub struct Loads {
    /// Whatever is aboard.
    pub aboard: Vec<Aboard>,
    /// The whole mass.
    pub total: Sum,
    /// What each support carries, from front to rear.
    pub supports: Vec<Sum>,
    /// All masses with their places, z above the living floor; those of the base vehicle at 0.
    pub items: Outcome<Vec<Item>>,
    /// What the base vehicle's part of the items is.
    pub base: Vec<bool>,
}

/// The part of a kilogram at `x` that each support carries.
pub fn parts(layout: &AxleLayout, x: f64) -> Option<Vec<f64>> {
    let one = Mass::new(1.0, Some(0.0), Evidence::Measured).ok()?;
    let effect = calc::mass::option_effect(layout, one, x).ok()?;
    Some(effect.into_iter().map(|support| support.load.value).collect())
}

fn toward(toward: Toward, parts: Option<&Vec<f64>>, y: f64) -> Option<f64> {
    match toward {
        Toward::Front => parts?.first().copied(),
        Toward::Rear => parts.map(|parts| parts.iter().skip(1).sum()),
        Toward::Left => Some(-y),
        Toward::Right => Some(y),
    }
}

impl Loads {
    /// Of all burdens in a fill.
    pub fn of(burdens: &Burdens, fill: usize) -> Self {
        let state = FILLS.get(fill).map_or(State::Laden(LoadState::SETTING_OUT), |fill| fill.state);
        let layout = burdens.layout.as_ref().ok();
        let mut present: Vec<(usize, &Burden, Option<Vec<f64>>)> = Vec::new();
        let mut items: Vec<Item> = Vec::new();
        let mut aboard = Vec::new();
        let mut base = Vec::new();
        let mut no_mass = burdens.unread.clone();
        let mut no_place = burdens.layout.as_ref().err().cloned().unwrap_or_default();
        for (number, burden) in burdens.all.iter().enumerate() {
            let parts = match (layout, &burden.at) {
                (Some(layout), Ok(at)) => parts(layout, at[0]),
                _ => None,
            };
            let y = burden.at.as_ref().map_or(0.0, |at| at[1]);
            let part =
                share(state, burden, |side| burden.at.as_ref().ok().and_then(|_| toward(side, parts.as_ref(), y)));
            if part <= 0.0 {
                continue;
            }
            match (&burden.mass, &burden.at) {
                (Ok(mass), Ok(at)) => {
                    items.push(Item { mass: *mass, at: *at });
                    base.push(burden.sort == Sort::Base);
                }
                (Ok(_), Err(gaps)) => no_place.add(gaps),
                (Err(gaps), at) => {
                    no_mass.add(gaps);
                    if let Err(gaps) = at {
                        no_place.add(gaps);
                    }
                }
            }
            aboard.push(Aboard {
                burden: number,
                mass: burden.mass.as_ref().ok().map(|mass| mass.value()),
                parts: parts.clone(),
            });
            present.push((number, burden, parts));
        }
        let masses: Vec<Item> = present
            .iter()
            .filter_map(|(_, burden, _)| burden.mass.as_ref().ok())
            .map(|mass| Item { mass: *mass, at: [0.0; 3] })
            .collect();
        let total = total(&masses, &no_mass);
        let mut all = no_mass;
        all.add(&no_place);
        let supports = layout.map_or_else(
            || burdens.supports.iter().map(|_| Sum { value: Err(all.clone()), at_least: None }).collect(),
            |layout| supports(layout, &items, &present, &all),
        );
        let items = if all.is_empty() { Ok(items) } else { Err(all) };
        Self { aboard, total, supports, items, base }
    }
}

fn unusable() -> Gaps {
    Gaps::one(Gap::NoSolution(Build::ROOT, f::axle::LOAD))
}

fn total(masses: &[Item], gaps: &Gaps) -> Sum {
    let known =
        calc::mass::axle_loads(&AxleLayout::TwoAxles { front: 0.0, rear: 1.0 }, masses).map(|loads| loads.total);
    let at_least = known.as_ref().ok().map(|known| known.bounds.least());
    let value = if gaps.is_empty() { known.map_err(|_| unusable()) } else { Err(gaps.clone()) };
    Sum { value, at_least }
}

fn supports(
    layout: &AxleLayout,
    items: &[Item],
    present: &[(usize, &Burden, Option<Vec<f64>>)],
    gaps: &Gaps,
) -> Vec<Sum> {
    let Ok(known) = calc::mass::axle_loads(layout, items) else {
        let gaps = if gaps.is_empty() { unusable() } else { gaps.clone() };
        return present.iter().map(|_| Sum { value: Err(gaps.clone()), at_least: None }).collect();
    };
    let supports = known.supports.into_iter().enumerate();
    supports
        .map(|(place, support)| {
            // What is not known can only add to a support that it does not lift.
            let adds = present.iter().all(|(_, burden, parts)| {
                burden.mass.is_ok() && burden.at.is_ok()
                    || parts.as_ref().and_then(|parts| parts.get(place)).is_some_and(|part| *part >= 0.0)
            });
            Sum {
                value: if gaps.is_empty() { Ok(support.load) } else { Err(gaps.clone()) },
                at_least: adds.then_some(support.load.bounds.least()),
            }
        })
        .collect()
}
