//! What a hinged leaf (a door, a flap, a folding table) sweeps when it turns about an upright hinge.

use std::f64::consts::TAU;

use glam::DVec2;

use super::error::{coordinate, extent, size};
use super::plan::nearest_on_line;
use super::{Cuboid, Plan, SpaceError};

/// A leaf on an upright hinge, from closed to open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swing {
    hinge: DVec2,
    /// The free edge while closed, from the hinge.
    leaf: DVec2,
    angle: f64,
    bottom: f64,
    top: f64,
}

impl Swing {
    /// A leaf by its hinge and its free edge in plan while closed (m), the angle it opens by (rad; above 0 turns from x toward y, that is
    /// clockwise seen from above with the front up), the height of its underside and its own height (m).
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`] (also for an angle of more than a full turn), [`SpaceError::Negative`], and [`SpaceError::Zero`] for a leaf
    /// without width.
    pub fn new(hinge: [f64; 2], edge: [f64; 2], angle: f64, bottom: f64, height: f64) -> Result<Self, SpaceError> {
        let point = |[x, y]: [f64; 2]| -> Result<DVec2, SpaceError> {
            Ok(DVec2::new(coordinate(x, "x coordinate")?, coordinate(y, "y coordinate")?))
        };
        let (hinge, edge) = (point(hinge)?, point(edge)?);
        extent(hinge.distance(edge), "width of the leaf")?;
        if angle.is_nan() || angle.abs() > TAU {
            return Err(SpaceError::NotFinite("opening angle"));
        }
        let bottom = coordinate(bottom, "height of its underside")?;
        Ok(Swing { hinge, leaf: edge - hinge, angle, bottom, top: bottom + size(height, "height of the leaf")? })
    }

    /// The angle from closed at which the leaf first meets a thing, rad; zero where they meet while it is closed. `None` where it does not
    /// meet it.
    ///
    /// A thing that the leaf enters by no more than `tolerance` (m) does not count. As the leaf turns, it first meets a rectangle at a corner
    /// or with its free edge at a side, so that trying those is exact.
    #[must_use]
    pub fn first_contact(&self, thing: &Cuboid, tolerance: f64) -> Option<f64> {
        if self.top.min(thing.most.z) - self.bottom.max(thing.least.z) <= tolerance {
            return None;
        }
        let plan = shrunk(&thing.plan(), tolerance);
        if plan.distance_to_line(self.hinge, self.hinge + self.leaf) == 0.0 {
            return Some(0.0);
        }
        let corners =
            [plan.least, DVec2::new(plan.most.x, plan.least.y), plan.most, DVec2::new(plan.least.x, plan.most.y)];
        let [one, two, three, four] = corners;
        let sides = [(one, two), (two, three), (three, four), (four, one)];
        let radius = self.leaf.length();
        let within = corners.into_iter().filter(|corner| corner.distance(self.hinge) <= radius);
        let on_arc = sides.into_iter().flat_map(|(from, to)| self.arc_meets(from, to));
        within
            .chain(on_arc)
            .map(|point| self.turn_to(point))
            .filter(|turn| *turn <= self.angle.abs())
            .min_by(f64::total_cmp)
    }

    /// How far the leaf turns before it meets the first of the things, rad; its whole angle where it meets none.
    #[must_use]
    pub fn opens_by(&self, things: &[Cuboid], tolerance: f64) -> f64 {
        things.iter().filter_map(|thing| self.first_contact(thing, tolerance)).fold(self.angle.abs(), f64::min)
    }

    /// The turn from closed, in the direction of opening, at which the leaf points to a point, rad.
    fn turn_to(&self, point: DVec2) -> f64 {
        let turn = self.leaf.angle_to(point - self.hinge) * self.angle.signum();
        if turn < 0.0 { turn + TAU } else { turn }
    }

    /// Where the circle of the free edge meets the straight line between two points.
    fn arc_meets(&self, from: DVec2, to: DVec2) -> impl Iterator<Item = DVec2> {
        let radius = self.leaf.length();
        let (start, along) = (from - self.hinge, to - from);
        let (a, half_b, c) = (along.length_squared(), start.dot(along), start.length_squared() - radius * radius);
        let root = (half_b * half_b - a * c).sqrt();
        [(-half_b - root) / a, (-half_b + root) / a]
            .into_iter()
            .filter(|share| (0.0..=1.0).contains(share))
            .map(move |share| from + along * share)
    }

    /// Least distance in plan from the swept sector to a point, m: zero within it.
    #[must_use]
    pub fn distance_in_plan(&self, point: [f64; 2]) -> f64 {
        let point = DVec2::from_array(point);
        let open = self.hinge + DVec2::from_angle(self.angle).rotate(self.leaf);
        let (from_hinge, radius) = (point.distance(self.hinge), self.leaf.length());
        if from_hinge > 0.0 && self.turn_to(point) <= self.angle.abs() {
            return (from_hinge - radius).max(0.0);
        }
        let to_closed = nearest_on_line(point, self.hinge, self.hinge + self.leaf).distance(point);
        to_closed.min(nearest_on_line(point, self.hinge, open).distance(point))
    }
}

/// The rectangle without its rim, but never turned inside out.
fn shrunk(plan: &Plan, rim: f64) -> Plan {
    let half = (plan.most - plan.least) / 2.0;
    let cut = half.min(DVec2::splat(rim.max(0.0)));
    Plan { least: plan.least + cut, most: plan.most - cut }
}
