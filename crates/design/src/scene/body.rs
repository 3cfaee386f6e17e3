//! The space in which people live and its skin.

use super::Scene;
use super::given::{number, places, word};
use crate::fact::Outcome;
use crate::known::{AnyOf, Gap, Gaps, PartId};
use crate::part::Build;
use calc::space::{Cuboid, Skin};
use vocabulary::{fact as f, kind};

/// The space in which people are: the living space and the cab, as far as one can walk between them.
#[derive(Clone, Debug)]
pub struct Interior {
    /// Its zones, each with its box. What lies inside another zone (a washroom, a locker) is not among them.
    pub rooms: Vec<(PartId, Cuboid)>,
    /// The box around them.
    pub around: Cuboid,
}

impl Scene {
    /// The space in which people are.
    ///
    /// # Errors
    /// What would give it a box.
    pub fn interior(&self, build: &Build) -> Outcome<Interior> {
        let zones = build.of_kind(kind::ZONE);
        let mut rooms: Vec<(PartId, Cuboid)> = Vec::new();
        let mut gaps = Gaps::default();
        if !zones.complete {
            gaps.add(&self.doubt);
        }
        for &zone in zones.members.iter() {
            match word(build, zone, Some(f::zone::KIND)) {
                Ok(Some("living" | "cab")) if build.part(zone).given(f::zone::INSIDE).is_none() => {
                    match self.solid(build, zone) {
                        Ok(shape) => rooms.push((zone, shape)),
                        Err(more) => gaps.add(&more),
                    }
                }
                Ok(Some(_)) => {}
                // A zone of unknown kind may be one where people are.
                Ok(None) => gaps.add(&Gaps::one(Gap::Entry(zone, f::zone::KIND))),
                Err(more) => gaps.add(&more),
            }
        }
        if !gaps.is_empty() {
            return Err(gaps);
        }
        let Some(&(_, first)) = rooms.first() else { return Err(Gaps::one(Gap::Absent(Build::ROOT, kind::ZONE))) };
        let around = rooms.iter().skip(1).fold(first, |all, (_, room)| joined(&all, room));
        Ok(Interior { rooms, around })
    }

    /// The skin of the vehicle: its length and width as said of the vehicle, else those of the space in which people live; from
    /// the floor to the ceiling.
    ///
    /// # Errors
    /// What would settle it.
    pub fn skin(&self, build: &Build) -> Outcome<Skin> {
        let around = self.interior(build)?.around;
        let (mut least, mut most) = (around.least(), around.most());
        if let Some(vehicle) = build.only(kind::VEHICLE) {
            let of = |fact| number(build, vehicle, Some(fact));
            if let (Some(length), Some(overhang)) = (of(f::vehicle::LENGTH)?, of(f::vehicle::FRONT_OVERHANG)?) {
                least[0] = least[0].min(-overhang);
                most[0] = most[0].max(length - overhang);
            }
            if let Some(width) = of(f::vehicle::WIDTH)? {
                least[1] = least[1].min(-width / 2.0);
                most[1] = most[1].max(width / 2.0);
            }
        }
        let size = [0, 1, 2].map(|axis| most[axis] - least[axis]);
        Cuboid::new(least, size).and_then(Skin::new).map_err(|_| self.no_skin(build))
    }

    /// What gives the space in which people live a box that can be reckoned with.
    fn no_skin(&self, build: &Build) -> Gaps {
        let entries = build.of_kind(kind::ZONE).members.iter().flat_map(|zone| {
            places(kind::ZONE)
                .into_iter()
                .flat_map(|places| [places.from, places.size])
                .flatten()
                .map(|fact| Gap::Entry(*zone, fact))
        });
        Gaps(vec![AnyOf(entries.collect())])
    }
}

/// The box around two.
fn joined(one: &Cuboid, other: &Cuboid) -> Cuboid {
    let (least, most) = (one.least(), one.most());
    let (other_least, other_most) = (other.least(), other.most());
    let corner = [0, 1, 2].map(|axis: usize| least[axis].min(other_least[axis]));
    let size = [0, 1, 2].map(|axis: usize| most[axis].max(other_most[axis]) - corner[axis]);
    Cuboid::new(corner, size).unwrap_or(*one)
}
