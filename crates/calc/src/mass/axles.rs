//! Axle loads by moments.

use crate::input::{InputError, need_entries, need_finite, need_within};
use crate::mass::value::{Bounded, Item, Mass, weighted_sum};

/// Where a vehicle stands on the road. Positions x in m, from front to rear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AxleLayout {
    /// A vehicle with two axles.
    TwoAxles {
        /// Front axle.
        front: f64,
        /// Rear axle.
        rear: f64,
    },
    /// A vehicle with a front axle and a tandem whose axles share their load in a fixed proportion.
    FrontAndTandem {
        /// Front axle.
        front: f64,
        /// First axle of the tandem.
        first: f64,
        /// Second axle of the tandem.
        second: f64,
        /// Share of the tandem's load on its first axle; 0.5 for equal springs with a rocker.
        first_share: f64,
    },
    /// A trailer with one axle.
    Trailer {
        /// Coupling.
        coupling: f64,
        /// Axle.
        axle: f64,
    },
    /// A trailer with a tandem whose axles share their load in a fixed proportion.
    TandemTrailer {
        /// Coupling.
        coupling: f64,
        /// First axle.
        first: f64,
        /// Second axle.
        second: f64,
        /// Share of the tandem's load on its first axle.
        first_share: f64,
    },
}

/// What carries a load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Support {
    /// The coupling of a trailer.
    Coupling,
    /// An axle, counted from the front from 1.
    Axle(u8),
}

/// A support and its part of the load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SupportLoad {
    /// Which support.
    pub support: Support,
    /// Its position, m.
    pub position: f64,
    /// What it carries, kg; below zero where the load would lift it.
    pub load: Bounded,
}

/// Loads of all supports.
#[derive(Debug, Clone, PartialEq)]
pub struct AxleLoads {
    /// From front to rear.
    pub supports: Vec<SupportLoad>,
    /// Sum of the masses, kg.
    pub total: Bounded,
}

/// A support with the two points on which the vehicle rests, and its share of the rear one.
pub(crate) struct Carrier {
    pub(crate) support: Support,
    position: f64,
    /// Position of the front support and of the rear group, m.
    rests: (f64, f64),
    /// Share of the rear group's load; `None` for the front support.
    rear_share: Option<f64>,
}

impl Carrier {
    /// The part of a mass at `x` that this support carries; the parts of all supports sum to 1.
    pub(crate) fn part(&self, x: f64) -> f64 {
        let (front, rear) = self.rests;
        let to_rear = (x - front) / (rear - front);
        self.rear_share.map_or(1.0 - to_rear, |share| to_rear * share)
    }
}

/// Positions closer than this are one, m: a wheelbase below it has no meaning. Chosen.
const LEAST_WHEELBASE: f64 = 0.01;

impl AxleLayout {
    /// The supports from front to rear.
    pub(crate) fn carriers(&self) -> Result<Vec<Carrier>, InputError> {
        let (front, support, group) = match *self {
            AxleLayout::TwoAxles { front, rear } => (front, Support::Axle(1), vec![(rear, 1.0)]),
            AxleLayout::Trailer { coupling, axle } => (coupling, Support::Coupling, vec![(axle, 1.0)]),
            AxleLayout::FrontAndTandem { front, first, second, first_share } => {
                (front, Support::Axle(1), pair(first, second, first_share)?)
            }
            AxleLayout::TandemTrailer { coupling, first, second, first_share } => {
                (coupling, Support::Coupling, pair(first, second, first_share)?)
            }
        };
        let front = need_finite("position of the front support", front)?;
        let mut rear = 0.0;
        for (position, share) in &group {
            rear += need_finite("position of an axle", *position)? * share;
        }
        if rear - front < LEAST_WHEELBASE {
            return Err(InputError::Crossed { quantity: "positions of the axles" });
        }
        let rests = (front, rear);
        let first_number = if support == Support::Coupling { 1 } else { 2 };
        let mut carriers = vec![Carrier { support, position: front, rests, rear_share: None }];
        for (number, (position, share)) in (first_number..).zip(group) {
            carriers.push(Carrier { support: Support::Axle(number), position, rests, rear_share: Some(share) });
        }
        Ok(carriers)
    }
}

fn pair(first: f64, second: f64, first_share: f64) -> Result<Vec<(f64, f64)>, InputError> {
    let share = need_within("share of the first axle", first_share, 0.0, 1.0)?;
    if need_finite("position of an axle", second)? < need_finite("position of an axle", first)? {
        return Err(InputError::Crossed { quantity: "positions of the tandem's axles" });
    }
    Ok(vec![(first, share), (second, 1.0 - share)])
}

/// Loads of axles and coupling: R = Σm·(x − front)/wheelbase, the rest in front, a tandem by its shares. The bounds are exact: a mass behind the
/// rear axle takes its greatest value for the least load in front.
///
/// # Errors
/// No item; positions that are not finite; axles that are not in order.
pub fn axle_loads(layout: &AxleLayout, items: &[Item]) -> Result<AxleLoads, InputError> {
    need_entries("masses", items)?;
    let mut supports = Vec::new();
    for carrier in layout.carriers()? {
        let load = weighted_sum(items, |item| Ok(carrier.part(item.at[0])))?;
        supports.push(SupportLoad { support: carrier.support, position: carrier.position, load });
    }
    Ok(AxleLoads { supports, total: weighted_sum(items, |_| Ok(1.0))? })
}

/// What one more mass at `x` m adds to each support, kg; below zero where it takes load off.
///
/// # Errors
/// A position that is not finite; axles that are not in order.
pub fn option_effect(layout: &AxleLayout, mass: Mass, x: f64) -> Result<Vec<SupportLoad>, InputError> {
    Ok(axle_loads(layout, &[Item { mass, at: [x, 0.0, 0.0] }])?.supports)
}

/// A weighed vehicle as masses on its supports, from front to rear, all at one height m above the road: so the base vehicle enters the sums.
///
/// # Errors
/// Another number of weighings than supports; a height that is not finite; axles that are not in order.
pub fn weighed(layout: &AxleLayout, weighings: &[Mass], height: f64) -> Result<Vec<Item>, InputError> {
    let carriers = layout.carriers()?;
    let height = need_finite("height of the centre of gravity", height)?;
    if carriers.len() != weighings.len() {
        let quantity = "number of weighings";
        let (value, wanted) = (weighings.len() as f64, carriers.len() as f64);
        return Err(InputError::OutOfRange { quantity, value, least: wanted, most: wanted });
    }
    let items = carriers.iter().zip(weighings);
    Ok(items.map(|(carrier, mass)| Item { mass: *mass, at: [carrier.position, 0.0, height] }).collect())
}
