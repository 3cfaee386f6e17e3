//! Who walks, from where, and what is in the way.

use super::Floor;
use crate::space::error::size;
use crate::space::{Cuboid, Plan, SpaceError};

/// Heights closer than this are one, m. Chosen: a tenth of a millimetre.
const LEVEL: f64 = 1e-4;

/// Who walks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Person {
    height: f64,
    step: f64,
}

impl Person {
    /// A person for whom the way is to be clear up to `height` and who steps over or onto what is not higher than `step`, m above the floor.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`] and [`SpaceError::Negative`].
    pub fn new(height: f64, step: f64) -> Result<Self, SpaceError> {
        Ok(Person { height: size(height, "height of the person")?, step: size(step, "height of a step")? })
    }
}

/// Where a way begins: a berth or a seat. On it no clear width is asked, and the person may leave it at any edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    on: Cuboid,
    headroom: f64,
}

impl Place {
    /// A berth or seat by its box; `headroom` (m) above its top is what the person needs there.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`] and [`SpaceError::Negative`].
    pub fn new(on: Cuboid, headroom: f64) -> Result<Self, SpaceError> {
        Ok(Place { on, headroom: size(headroom, "headroom")? })
    }

    pub(super) fn plan(&self) -> Plan {
        self.on.plan()
    }

    /// True for what the place stands on: below it in part and not higher.
    fn stands_on(&self, thing: &Cuboid) -> bool {
        thing.most.z <= self.on.most.z + LEVEL && thing.plan().intersects(&self.plan(), 0.0)
    }
}

/// What of the furniture is in the way, in plan: beside the own place what stands between floor and head, above it what is in the headroom.
pub(super) fn in_the_way(floor: &Floor, furniture: &[Cuboid], place: &Place, person: &Person) -> Vec<Plan> {
    let (low, high) = (floor.level + person.step + LEVEL, floor.level + person.height - LEVEL);
    let (seat, top) = (place.plan(), place.on.most.z);
    let beside = furniture
        .iter()
        .filter(|thing| thing.most.z > low && thing.least.z < high && !place.stands_on(thing))
        .flat_map(|thing| thing.plan().without(&seat));
    let above = furniture
        .iter()
        .filter(|thing| thing.most.z > top + LEVEL && thing.least.z < top + place.headroom - LEVEL)
        .filter_map(|thing| thing.plan().shared(&seat));
    beside.chain(above).collect()
}
