//! The vehicle as a scene: where everything stands, by coordinates or by words, and the openings in its skin.
//!
//! Made from what is written alone, once for a build. What is not written stands nowhere and says what would give it a place; what
//! is written and not understood stays open. Lengths are in metres: x rearward, y to the right, z above the living floor.

mod body;
mod given;
mod openings;
mod stand;

pub use body::Interior;
pub use openings::Hole;
pub(crate) use openings::IN_SKIN;
pub use stand::Stand;

use crate::fact::Outcome;
use crate::known::{AnyOf, Gap, Gaps, PartId};
use crate::part::Build;
use calc::space::Cuboid;
use given::places;
use rustc_hash::FxHashMap;
use vocabulary::kind;

/// Where everything stands.
#[derive(Clone, Debug, Default)]
pub struct Scene {
    stands: FxHashMap<PartId, Stand>,
    /// The zones that have a box, the smallest first.
    zones: Vec<(PartId, Cuboid)>,
    /// What of the zones is written and not understood.
    doubt: Gaps,
}

impl Scene {
    /// The scene of a build.
    #[must_use]
    pub fn of(build: &Build) -> Self {
        let mut scene = Scene::default();
        for &zone in build.of_kind(kind::ZONE).members.iter() {
            let stand = stand::stand(build, &mut scene, zone);
            match stand.shape {
                Some(shape) => scene.zones.push((zone, shape)),
                None if stand.said => scene.doubt.add(&stand.gaps),
                None => {}
            }
            scene.stands.insert(zone, stand);
        }
        let volume = |shape: &Cuboid| shape.size().iter().product::<f64>();
        scene.zones.sort_by(|one, other| volume(&one.1).total_cmp(&volume(&other.1)));
        if !build.of_kind(kind::ZONE).complete {
            scene.doubt.add(&Gaps::one(Gap::Unread(Build::ROOT)));
        }
        for (number, part) in build.parts() {
            if places(part.kind).is_some() && part.kind != kind::ZONE {
                stand::remembered(build, &mut scene, number);
            }
        }
        scene
    }

    /// Where a part stands; nothing for what has no place of its own (a wire, the build).
    #[must_use]
    pub fn stand(&self, part: PartId) -> Option<&Stand> {
        self.stands.get(&part)
    }

    /// Every part that has a place, with its box or point.
    pub fn placed(&self) -> impl Iterator<Item = (PartId, &Cuboid)> {
        self.stands.iter().filter_map(|(part, stand)| Some((*part, stand.shape.as_ref()?)))
    }

    /// The box or point of a part, or what would give it one.
    ///
    /// # Errors
    /// What would give it a place.
    pub fn shape(&self, part: PartId) -> Outcome<Cuboid> {
        match self.stand(part) {
            Some(Stand { shape: Some(shape), .. }) => Ok(*shape),
            Some(stand) => Err(stand.gaps.clone()),
            None => Err(Gaps::one(Gap::Unread(part))),
        }
    }

    /// The box of a part, with a size along every axis.
    ///
    /// # Errors
    /// What would give it a box.
    pub fn solid(&self, build: &Build, part: PartId) -> Outcome<Cuboid> {
        let shape = self.shape(part)?;
        if shape.size().iter().all(|size| *size > 0.0) {
            return Ok(shape);
        }
        match places(build.part(part).kind).and_then(|places| places.size) {
            Some(size) => Err(Gaps::one(Gap::Entry(part, size))),
            None => Ok(shape),
        }
    }

    /// The zones that have a box, the smallest first.
    #[must_use]
    pub fn zones(&self) -> &[(PartId, Cuboid)] {
        &self.zones
    }

    /// What of the places of zones is written and not understood; empty where all of it is.
    #[must_use]
    pub fn doubt(&self) -> &Gaps {
        &self.doubt
    }

    /// The zone that a part stands in: as said, else the smallest that holds its middle; nothing where none holds it.
    ///
    /// # Errors
    /// What would settle it.
    pub fn zone(&self, build: &Build, part: PartId) -> Outcome<Option<PartId>> {
        let Some(stand) = self.stand(part) else { return Err(Gaps::one(Gap::Unread(part))) };
        if let Some(zone) = stand.zone.clone()? {
            return Ok(Some(zone));
        }
        let Some(shape) = stand.shape else {
            let mut gaps = stand.gaps.clone();
            // To name its zone is as good as to give it a place.
            if let Some(zone) = places(build.part(part).kind).and_then(|places| places.zone) {
                for AnyOf(any) in &mut gaps.0 {
                    any.push(Gap::Entry(part, zone));
                }
            }
            return Err(gaps);
        };
        if !self.doubt.is_empty() {
            return Err(self.doubt.clone());
        }
        let middle = shape.centre();
        Ok(self.zones.iter().find(|(_, zone)| holds(zone, middle)).map(|(zone, _)| *zone))
    }
}

/// Whether a box holds a point, its faces included.
pub(crate) fn holds(shape: &Cuboid, point: [f64; 3]) -> bool {
    Cuboid::point(point).is_ok_and(|point| shape.contains(&point, ROUNDING))
}

/// Lengths closer than this are one, m. Chosen: far below any drawing.
pub(crate) const ROUNDING: f64 = 1e-6;
