//! Openings in a wall, the roof or the floor: windows, doors, hatches, vents, terminals with an extent.

use glam::{DVec2, DVec3};

use super::cuboid::position;
use super::error::size;
use super::{Cuboid, Outline, Side, SpaceError};

/// An opening: an outline on one side of the vehicle.
///
/// On a wall its width lies along the wall and its height is upright. On the roof and the underside its width lies across the vehicle and
/// its height along it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    side: Side,
    pub(super) centre: DVec3,
    outline: Outline,
}

impl Opening {
    /// An opening by its centre, m.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`].
    pub fn new(side: Side, centre: [f64; 3], outline: Outline) -> Result<Self, SpaceError> {
        Ok(Opening { side, centre: position(centre)?, outline })
    }

    /// An opening in a wall by the middle of its lower edge (its sill), m. On the roof and the underside, which have no sill, by its centre.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`].
    pub fn on_sill(side: Side, sill: [f64; 3], outline: Outline) -> Result<Self, SpaceError> {
        let up = if side.is_wall() { DVec3::Z * outline.half.y } else { DVec3::ZERO };
        Ok(Opening { side, centre: position(sill)? + up, outline })
    }

    /// The side it is in.
    #[must_use]
    pub fn side(&self) -> Side {
        self.side
    }

    /// Its outline.
    #[must_use]
    pub fn outline(&self) -> &Outline {
        &self.outline
    }

    /// The lowest height of the opening, m.
    #[must_use]
    pub fn sill(&self) -> f64 {
        self.bounds().least.z
    }

    /// The greatest height of the opening, m.
    #[must_use]
    pub fn head(&self) -> f64 {
        self.bounds().most.z
    }

    /// The flat box around it.
    #[must_use]
    pub fn bounds(&self) -> Cuboid {
        let (across, upright) = self.side.directions();
        let half = across * self.outline.half.x + upright * self.outline.half.y;
        Cuboid { least: self.centre - half, most: self.centre + half }
    }

    /// The space before the opening on the inside, `depth` deep, m: what stands in it is in the way of the opening or covers it.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`] and [`SpaceError::Negative`].
    pub fn space_inside(&self, depth: f64) -> Result<Cuboid, SpaceError> {
        let inward = -self.side.outward() * size(depth, "depth")?;
        let bounds = self.bounds();
        Ok(Cuboid { least: bounds.least.min(bounds.least + inward), most: bounds.most.max(bounds.most + inward) })
    }

    /// The same on the outside: a carrier or an awning box before a window.
    ///
    /// # Errors
    /// As [`Opening::space_inside`].
    pub fn space_outside(&self, depth: f64) -> Result<Cuboid, SpaceError> {
        Opening { side: self.side.opposite(), ..*self }.space_inside(depth)
    }

    /// The point of the opening that is nearest to a point, m, in a straight line.
    pub(super) fn nearest(&self, point: DVec3) -> DVec3 {
        let (across, upright) = self.side.directions();
        let from_centre = point - self.centre;
        let found = self.outline.nearest(DVec2::new(from_centre.dot(across), from_centre.dot(upright)));
        self.centre + across * found.x + upright * found.y
    }

    /// Least distance in a straight line from a point (a terminal, an outlet) to the opening, m. Zero for a point in it.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`].
    pub fn distance(&self, point: [f64; 3]) -> Result<f64, SpaceError> {
        let point = position(point)?;
        Ok(self.nearest(point).distance(point))
    }
}
