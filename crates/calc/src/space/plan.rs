//! Rectangles in plan (x rearward, y to the right).

use glam::DVec2;

use super::SpaceError;
use super::error::{coordinate, size};

/// An axis-aligned rectangle in plan, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plan {
    pub(super) least: DVec2,
    pub(super) most: DVec2,
}

impl Plan {
    /// A rectangle by the corner with the least x and y and its size (along x, along y), m. Sizes may be zero.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`] and [`SpaceError::Negative`].
    pub fn new([x, y]: [f64; 2], [along_x, along_y]: [f64; 2]) -> Result<Self, SpaceError> {
        let least = DVec2::new(coordinate(x, "x coordinate")?, coordinate(y, "y coordinate")?);
        Ok(Plan { least, most: least + DVec2::new(size(along_x, "length")?, size(along_y, "width")?) })
    }

    /// The rectangle with these two corners.
    pub(super) fn between(one: DVec2, other: DVec2) -> Self {
        Plan { least: one.min(other), most: one.max(other) }
    }

    /// The corner with the least x and y, m.
    #[must_use]
    pub fn least(&self) -> [f64; 2] {
        self.least.to_array()
    }

    /// The corner with the greatest x and y, m.
    #[must_use]
    pub fn most(&self) -> [f64; 2] {
        self.most.to_array()
    }

    /// Its area, m².
    #[must_use]
    pub fn area(&self) -> f64 {
        (self.most - self.least).element_product()
    }

    /// The area that both cover, m² (a tank over a battery, a mattress over a vent).
    #[must_use]
    pub fn overlap(&self, other: &Plan) -> f64 {
        let shared = self.most.min(other.most) - self.least.max(other.least);
        shared.max(DVec2::ZERO).element_product()
    }

    /// True where they overlap deeper than `tolerance` (m) along both axes; those that only touch do not.
    #[must_use]
    pub fn intersects(&self, other: &Plan, tolerance: f64) -> bool {
        (other.most - self.least).min(self.most - other.least).min_element() > tolerance
    }

    /// Least distance to the other, m; zero where they touch or overlap.
    #[must_use]
    pub fn distance(&self, other: &Plan) -> f64 {
        (other.least - self.most).max(self.least - other.most).max(DVec2::ZERO).length()
    }

    /// Least distance to a point, m.
    pub(super) fn distance_to(&self, point: DVec2) -> f64 {
        (self.least - point).max(point - self.most).max(DVec2::ZERO).length()
    }

    pub(super) fn holds(&self, point: DVec2) -> bool {
        self.least.cmple(point).all() && point.cmple(self.most).all()
    }

    /// Least distance to the straight line between two points, m.
    pub(super) fn distance_to_line(&self, from: DVec2, to: DVec2) -> f64 {
        if self.part_of_line(from, to).is_some() {
            return 0.0;
        }
        let corners =
            [self.least, DVec2::new(self.most.x, self.least.y), self.most, DVec2::new(self.least.x, self.most.y)];
        let from_corners = corners.into_iter().map(|corner| nearest_on_line(corner, from, to).distance(corner));
        from_corners.chain([self.distance_to(from), self.distance_to(to)]).fold(f64::INFINITY, f64::min)
    }

    /// The part of the straight line between two points that lies in the rectangle, as shares of the line from 0 to 1; `None` where it does
    /// not even touch.
    pub(super) fn part_of_line(&self, from: DVec2, to: DVec2) -> Option<(f64, f64)> {
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for ((start, step), (low, high)) in [
            ((from.x, to.x - from.x), (self.least.x, self.most.x)),
            ((from.y, to.y - from.y), (self.least.y, self.most.y)),
        ] {
            if step == 0.0 {
                if start < low || start > high {
                    return None;
                }
            } else {
                let (one, other) = ((low - start) / step, (high - start) / step);
                enters = enters.max(one.min(other));
                leaves = leaves.min(one.max(other));
            }
        }
        (enters <= leaves).then_some((enters, leaves))
    }

    /// The part that both cover; `None` where they do not even touch.
    pub(super) fn shared(&self, other: &Plan) -> Option<Plan> {
        let (least, most) = (self.least.max(other.least), self.most.min(other.most));
        least.cmple(most).all().then_some(Plan { least, most })
    }

    /// What is left of it outside the other, in up to four rectangles. A sheet that only lies along the other's edge is left whole.
    pub(super) fn without(&self, other: &Plan) -> Vec<Plan> {
        let inside = self.least.cmplt(other.most) & other.least.cmplt(self.most);
        let Some(cut) = self.shared(other).filter(|_| inside.all()) else { return vec![*self] };
        [
            Plan { least: self.least, most: DVec2::new(cut.least.x, self.most.y) },
            Plan { least: DVec2::new(cut.most.x, self.least.y), most: self.most },
            Plan { least: DVec2::new(cut.least.x, self.least.y), most: DVec2::new(cut.most.x, cut.least.y) },
            Plan { least: DVec2::new(cut.least.x, cut.most.y), most: DVec2::new(cut.most.x, self.most.y) },
        ]
        .into_iter()
        .zip([
            self.least.x < cut.least.x,
            cut.most.x < self.most.x,
            self.least.y < cut.least.y,
            cut.most.y < self.most.y,
        ])
        .filter_map(|(part, is_left)| is_left.then_some(part))
        .collect()
    }
}

/// The point of a straight line between two points that is nearest to a third.
pub(super) fn nearest_on_line(point: DVec2, from: DVec2, to: DVec2) -> DVec2 {
    let along = to - from;
    let square = along.length_squared();
    if square == 0.0 {
        return from;
    }
    from + along * ((point - from).dot(along) / square).clamp(0.0, 1.0)
}
