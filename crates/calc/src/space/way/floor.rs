//! The floor, its walls and the ways out of it.

use glam::DVec2;

use crate::space::error::{coordinate, size};
use crate::space::{Opening, Plan, SpaceError};

/// Parts of the floor that are no farther apart than this are one floor, m. Chosen: a joint.
const JOINT: f64 = 0.001;

/// An exit may be drawn this far from the wall of the floor that it is in, m. Chosen: the thickness of a lined wall.
pub const WALL_TOLERANCE: f64 = 0.15;

/// A floor to walk on: rectangles that touch or overlap, with walls around all of them together, at one height.
#[derive(Debug, Clone, PartialEq)]
pub struct Floor {
    pub(super) parts: Vec<Plan>,
    pub(super) level: f64,
}

impl Floor {
    /// A floor of these parts at the height `level`, m.
    ///
    /// # Errors
    /// [`SpaceError::NoFloor`] where no part has an area; [`SpaceError::NotFinite`].
    pub fn new(parts: &[Plan], level: f64) -> Result<Self, SpaceError> {
        let parts: Vec<_> = parts.iter().filter(|part| part.area() > 0.0).copied().collect();
        if parts.is_empty() {
            return Err(SpaceError::NoFloor);
        }
        Ok(Floor { parts, level: coordinate(level, "height of the floor")? })
    }

    pub(super) fn holds(&self, point: DVec2) -> bool {
        self.parts.iter().any(|part| part.holds(point))
    }

    /// The rectangle around all of it.
    pub(super) fn bounds(&self) -> Plan {
        let none = Plan { least: DVec2::INFINITY, most: DVec2::NEG_INFINITY };
        self.parts
            .iter()
            .fold(none, |all, part| Plan { least: all.least.min(part.least), most: all.most.max(part.most) })
    }

    /// The walls: the edges of the parts without what leads on into another part.
    fn walls(&self) -> Vec<Plan> {
        self.parts.iter().flat_map(edges).flat_map(|(edge, outward)| self.not_joined(edge, outward)).collect()
    }

    fn not_joined(&self, edge: Plan, outward: DVec2) -> Vec<Plan> {
        // The strip beyond the edge, a little farther than the joint: what another part covers of it is no wall.
        let beyond = Plan::between(edge.least + outward * JOINT, edge.most + outward * JOINT);
        let covers = |part: &&Plan| {
            let (low, high) = (part.least.dot(outward.abs()), part.most.dot(outward.abs()));
            let line = beyond.least.dot(outward.abs());
            low <= line && line <= high
        };
        self.parts.iter().filter(covers).fold(vec![edge], |walls, part| without_span(walls, part, outward))
    }
}

/// What is left of walls along one line where a rectangle's extent along it is cut out.
fn without_span(walls: Vec<Plan>, part: &Plan, outward: DVec2) -> Vec<Plan> {
    walls
        .into_iter()
        .flat_map(|wall| {
            let across = outward.abs();
            // The rectangle is widened across, so that only its extent along the wall counts.
            let line = wall.least * across;
            let span = Plan {
                least: part.least * (DVec2::ONE - across) + line - across,
                most: part.most * (DVec2::ONE - across) + line + across,
            };
            wall.without(&span)
        })
        .collect()
}

/// The four edges of a rectangle with the directions out of it.
fn edges(part: &Plan) -> [(Plan, DVec2); 4] {
    let (least, most) = (part.least, part.most);
    [
        (Plan { least, most: DVec2::new(least.x, most.y) }, DVec2::NEG_X),
        (Plan { least: DVec2::new(most.x, least.y), most }, DVec2::X),
        (Plan { least, most: DVec2::new(most.x, least.y) }, DVec2::NEG_Y),
        (Plan { least: DVec2::new(least.x, most.y), most }, DVec2::Y),
    ]
}

/// A way out: an opening in a wall of the floor, or over it (a roof hatch) or in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exit {
    plan: Plan,
    in_wall: bool,
    reach: f64,
    sill: f64,
    head: f64,
}

impl Exit {
    /// The way out through an opening.
    #[must_use]
    pub fn through(opening: &Opening) -> Self {
        let bounds = opening.bounds();
        Exit {
            plan: bounds.plan(),
            in_wall: opening.side().is_wall(),
            reach: 0.0,
            sill: bounds.least.z,
            head: bounds.most.z,
        }
    }

    /// The same, but it counts as reached from this distance in plan (m), over what is not higher than its sill: a window above a worktop.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`] and [`SpaceError::Negative`].
    pub fn within(self, reach: f64) -> Result<Self, SpaceError> {
        Ok(Exit { reach: size(reach, "reach")?, ..self })
    }

    /// The walls of the floor with this exit open and all others closed, and where the way ends.
    pub(super) fn open(&self, floor: &Floor) -> Result<(Vec<Plan>, Goal), SpaceError> {
        let walls = floor.walls();
        let goal = Goal {
            plan: self.plan,
            outside: self.in_wall,
            reach: if self.in_wall { Some(self.reach).filter(|reach| *reach > 0.0) } else { Some(self.reach) },
            sill: self.sill,
            head: self.head,
        };
        if !self.in_wall {
            return Ok((walls, goal));
        }
        let size = self.plan.most - self.plan.least;
        let across = if size.x > size.y { DVec2::Y } else { DVec2::X };
        let gaps = walls.iter().map(|wall| self.gap(wall, across));
        let nearest = gaps.clone().fold(f64::INFINITY, f64::min);
        if nearest > WALL_TOLERANCE {
            return Err(SpaceError::NotInWall { distance: nearest });
        }
        let cut: Vec<bool> = gaps.map(|gap| gap <= nearest + JOINT).collect();
        let opened = walls
            .into_iter()
            .zip(cut)
            .flat_map(|(wall, cut)| if cut { without_span(vec![wall], &self.plan, across) } else { vec![wall] });
        Ok((opened.collect(), goal))
    }

    /// How far a wall is off the exit, where it runs along it; infinite where it does not.
    fn gap(&self, wall: &Plan, across: DVec2) -> f64 {
        let along = DVec2::ONE - across;
        let runs_along = (wall.most - wall.least).dot(across) == 0.0;
        let shared = (wall.most.min(self.plan.most) - wall.least.max(self.plan.least)).dot(along);
        if !runs_along || shared <= 0.0 {
            return f64::INFINITY;
        }
        ((self.plan.least + self.plan.most) / 2.0 - wall.least).dot(across).abs()
    }
}

/// Where a way ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Goal {
    pub(super) plan: Plan,
    /// Outside the floor.
    pub(super) outside: bool,
    /// On the floor, within this distance of the plan.
    pub(super) reach: Option<f64>,
    pub(super) sill: f64,
    pub(super) head: f64,
}

impl Goal {
    /// True where a straight hand from a point to the opening meets none of the rectangles.
    pub(super) fn in_reach(&self, point: DVec2, tall: &[Plan]) -> bool {
        let Some(reach) = self.reach else { return false };
        if self.plan.distance_to(point) > reach {
            return false;
        }
        let hand = point.clamp(self.plan.least, self.plan.most);
        tall.iter().all(|plan| plan.distance_to_line(point, hand) > 0.0)
    }
}
