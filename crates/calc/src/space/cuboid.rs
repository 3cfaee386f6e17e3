//! Axis-aligned boxes: distance, overlap, containment. A point is a box without extent.

use glam::DVec3;

use super::error::{coordinate, size};
use super::{Plan, SpaceError};

const AXES: [&str; 3] = ["x coordinate", "y coordinate", "z coordinate"];
const SIZES: [&str; 3] = ["length", "width", "height"];

/// An axis-aligned box, m. Its sizes may be zero: a sheet, a line, a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cuboid {
    pub(super) least: DVec3,
    pub(super) most: DVec3,
}

impl Cuboid {
    /// A box by the corner with the least x, y, z and its size (length along x, width along y, height along z), m.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`] and [`SpaceError::Negative`].
    pub fn new(from: [f64; 3], sizes: [f64; 3]) -> Result<Self, SpaceError> {
        let least = checked(from, AXES, coordinate)?;
        Ok(Cuboid { least, most: least + checked(sizes, SIZES, size)? })
    }

    /// A point, m.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`].
    pub fn point(at: [f64; 3]) -> Result<Self, SpaceError> {
        Cuboid::new(at, [0.0; 3])
    }

    /// The corner with the least x, y, z, m.
    #[must_use]
    pub fn least(&self) -> [f64; 3] {
        self.least.to_array()
    }

    /// The corner with the greatest x, y, z, m.
    #[must_use]
    pub fn most(&self) -> [f64; 3] {
        self.most.to_array()
    }

    /// Length, width and height, m.
    #[must_use]
    pub fn size(&self) -> [f64; 3] {
        (self.most - self.least).to_array()
    }

    /// The middle, m.
    #[must_use]
    pub fn centre(&self) -> [f64; 3] {
        ((self.least + self.most) / 2.0).to_array()
    }

    /// What it covers of the floor.
    #[must_use]
    pub fn plan(&self) -> Plan {
        Plan { least: self.least.truncate(), most: self.most.truncate() }
    }

    /// Gap along each axis, m; zero where they overlap along it.
    fn gaps(&self, other: &Cuboid) -> DVec3 {
        (other.least - self.most).max(self.least - other.most).max(DVec3::ZERO)
    }

    /// Least distance to another box or point, m; zero where they touch or overlap.
    #[must_use]
    pub fn distance(&self, other: &Cuboid) -> f64 {
        self.gaps(other).length()
    }

    /// Least distance in plan, m.
    #[must_use]
    pub fn horizontal_gap(&self, other: &Cuboid) -> f64 {
        self.gaps(other).truncate().length()
    }

    /// Gap in height, m; zero where they stand at the same height in part.
    #[must_use]
    pub fn vertical_gap(&self, other: &Cuboid) -> f64 {
        self.gaps(other).z
    }

    /// How much higher the middle of this one is than that of the other, m; below zero where it is lower.
    #[must_use]
    pub fn height_over(&self, other: &Cuboid) -> f64 {
        (self.least.z + self.most.z - other.least.z - other.most.z) / 2.0
    }

    /// True where the boxes share space deeper than `tolerance` (m) along every axis; those that only touch do not. A sheet or a point
    /// counts where it lies deeper than `tolerance` inside the other.
    #[must_use]
    pub fn intersects(&self, other: &Cuboid, tolerance: f64) -> bool {
        let deep = (other.most - self.least).min(self.most - other.least);
        deep.min_element() > tolerance
    }

    /// The shared space; `None` where there is none. Boxes that touch share a sheet, a line or a point.
    #[must_use]
    pub fn shared(&self, other: &Cuboid) -> Option<Cuboid> {
        let (least, most) = (self.least.max(other.least), self.most.min(other.most));
        least.cmple(most).all().then_some(Cuboid { least, most })
    }

    /// True where the other lies in this one, or sticks out of it by no more than `tolerance` (m).
    #[must_use]
    pub fn contains(&self, other: &Cuboid, tolerance: f64) -> bool {
        let out = (self.least - other.least).max(other.most - self.most);
        out.max_element() <= tolerance
    }

    /// True where this one stands over the other: its underside is not lower than the other's top, but for `tolerance` (m), and in plan
    /// they overlap deeper than `tolerance`.
    #[must_use]
    pub fn is_over(&self, other: &Cuboid, tolerance: f64) -> bool {
        self.least.z >= other.most.z - tolerance && self.plan().intersects(&other.plan(), tolerance)
    }
}

fn checked(
    values: [f64; 3],
    names: [&'static str; 3],
    check: fn(f64, &'static str) -> Result<f64, SpaceError>,
) -> Result<DVec3, SpaceError> {
    let ([x, y, z], [name_x, name_y, name_z]) = (values, names);
    Ok(DVec3::new(check(x, name_x)?, check(y, name_y)?, check(z, name_z)?))
}

pub(super) fn position(at: [f64; 3]) -> Result<DVec3, SpaceError> {
    checked(at, AXES, coordinate)
}
