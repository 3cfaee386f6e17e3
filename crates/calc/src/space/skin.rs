//! The skin of the vehicle: distances along and around its walls and roof, as fumes or a hand would follow them.

use glam::DVec3;

use super::cuboid::position;
use super::error::extent;
use super::{Cuboid, Opening, Side, SpaceError, unfold};

/// The outside of a body, taken as a box: four walls and the roof, and the underside too where that is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Skin {
    body: Cuboid,
    sides: Vec<Side>,
}

/// A point of the skin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SkinPoint {
    side: Side,
    at: DVec3,
    off: f64,
}

impl SkinPoint {
    /// The side it is on.
    #[must_use]
    pub fn side(&self) -> Side {
        self.side
    }

    /// Where it is, m.
    #[must_use]
    pub fn at(&self) -> [f64; 3] {
        self.at.to_array()
    }

    /// How far the point that was put onto the skin had been off it, m.
    #[must_use]
    pub fn off(&self) -> f64 {
        self.off
    }
}

impl Skin {
    /// The walls and the roof of a body.
    ///
    /// # Errors
    /// [`SpaceError::Zero`] where the body has no length, width or height.
    pub fn new(body: Cuboid) -> Result<Self, SpaceError> {
        let [length, width, height] = body.size();
        extent(length, "length of the body")?;
        extent(width, "width of the body")?;
        extent(height, "height of the body")?;
        Ok(Skin { body, sides: Side::ALL.into_iter().filter(|side| *side != Side::Under).collect() })
    }

    /// The same with its underside, so that a way may lead below the vehicle.
    #[must_use]
    pub fn with_underside(self) -> Self {
        Skin { sides: Side::ALL.to_vec(), ..self }
    }

    /// The body.
    #[must_use]
    pub fn body(&self) -> &Cuboid {
        &self.body
    }

    /// The side of the body, underside included, whose plane is nearest to the middle of a thing inside; for a thing outside the one beyond
    /// whose plane it is farthest.
    #[must_use]
    pub fn side_of(&self, thing: &Cuboid) -> Side {
        self.nearest_side(DVec3::from_array(thing.centre()), &Side::ALL)
    }

    fn nearest_side(&self, point: DVec3, sides: &[Side]) -> Side {
        let inward = |side: Side| unfold::offset(&self.body, side) - side.outward().dot(point);
        sides.iter().copied().min_by(|one, other| inward(*one).total_cmp(&inward(*other))).unwrap_or(Side::Roof)
    }

    /// The point of the skin for a point near it (a terminal stands out a little): on the nearest side of the skin.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`].
    pub fn onto(&self, point: [f64; 3]) -> Result<SkinPoint, SpaceError> {
        let point = position(point)?;
        let side = self.nearest_side(point, &self.sides);
        let at = self.in_plane(point, side).clamp(self.body.least, self.body.most);
        Ok(SkinPoint { side, at, off: at.distance(point) })
    }

    fn in_plane(&self, point: DVec3, side: Side) -> DVec3 {
        point + side.outward() * (unfold::offset(&self.body, side) - side.outward().dot(point))
    }

    /// Length of the shortest way over the skin between two of its points, m: exact, over whichever walls and roof it leads. What the points
    /// stand off the skin is not counted.
    #[must_use]
    pub fn distance(&self, from: &SkinPoint, to: &SkinPoint) -> f64 {
        let from_at = from.at.clamp(self.body.least, self.body.most);
        let to_at = to.at.clamp(self.body.least, self.body.most);
        let found = unfold::shortest(&self.body, &self.sides, (from.side, from_at), to.side, &|_| to_at);
        // Points of another skin may be on a side that this one has not; a straight line is then never too long.
        found.unwrap_or_else(|| from_at.distance(to_at))
    }

    /// Length of the shortest way over the skin from a point to an opening, m: zero for a point in it. The opening is taken to lie in the
    /// plane of its side. `None` for an opening in the underside where the skin has none.
    #[must_use]
    pub fn distance_to_opening(&self, from: &SkinPoint, opening: &Opening) -> Option<f64> {
        let side = opening.side();
        if !self.sides.contains(&side) {
            return None;
        }
        let from_at = from.at.clamp(self.body.least, self.body.most);
        let nearest = |point: DVec3| self.in_plane(opening.nearest(point), side);
        let middle = self.in_plane(opening.centre, side).clamp(self.body.least, self.body.most);
        unfold::shortest(&self.body, &self.sides, (from.side, from_at), side, &nearest)
            .or_else(|| unfold::shortest(&self.body, &self.sides, (from.side, from_at), side, &|_| middle))
    }
}
