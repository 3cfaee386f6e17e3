//! The six sides of a vehicle.

use glam::DVec3;

/// A side of the vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// Toward the front, the least x.
    Front,
    /// Toward the rear, the greatest x.
    Rear,
    /// The left wall, the least y.
    Left,
    /// The right wall, the greatest y.
    Right,
    /// The roof, the greatest z.
    Roof,
    /// The underside, the least z.
    Under,
}

impl Side {
    /// All six.
    pub const ALL: [Side; 6] = [Side::Front, Side::Rear, Side::Left, Side::Right, Side::Roof, Side::Under];

    /// The side across from it.
    #[must_use]
    pub const fn opposite(self) -> Side {
        match self {
            Side::Front => Side::Rear,
            Side::Rear => Side::Front,
            Side::Left => Side::Right,
            Side::Right => Side::Left,
            Side::Roof => Side::Under,
            Side::Under => Side::Roof,
        }
    }

    /// The direction that points away from the vehicle.
    pub(super) const fn outward(self) -> DVec3 {
        match self {
            Side::Front => DVec3::NEG_X,
            Side::Rear => DVec3::X,
            Side::Left => DVec3::NEG_Y,
            Side::Right => DVec3::Y,
            Side::Roof => DVec3::Z,
            Side::Under => DVec3::NEG_Z,
        }
    }

    /// Along the width and along the height of an opening on this side. On the roof and the underside the width lies across the vehicle
    /// and the height along it.
    pub(super) const fn directions(self) -> (DVec3, DVec3) {
        match self {
            Side::Front | Side::Rear => (DVec3::Y, DVec3::Z),
            Side::Left | Side::Right => (DVec3::X, DVec3::Z),
            Side::Roof | Side::Under => (DVec3::Y, DVec3::X),
        }
    }

    /// True for the four walls.
    #[must_use]
    pub const fn is_wall(self) -> bool {
        !matches!(self, Side::Roof | Side::Under)
    }
}
