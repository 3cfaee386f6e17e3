//! Heights above what a person stands on.

use super::{Cuboid, Plan};

/// How high a point is above what a person can stand on beside it, m; below zero where it is lower.
///
/// `steps` are the things that one may stand on (steps, bunks, benches): the highest of them counts whose plan is within `beside` (m) of the
/// point's plan and whose top is not above the point; else the floor at the height `floor`.
#[must_use]
pub fn height_above_standing(point: &Cuboid, floor: f64, steps: &[Cuboid], beside: f64) -> f64 {
    let height = point.least.z;
    let near = |step: &&Cuboid| step.horizontal_gap(point) <= beside && step.most.z <= height;
    let stand = steps.iter().filter(near).map(|step| step.most.z).fold(floor, f64::max);
    height - stand
}

/// True where a person standing on `stand` at the height `level` can put a hand on the point: not farther than `arm` (m) in plan, and not
/// lower than `low` nor higher than `high` (m) above the level.
#[must_use]
pub fn within_reach(point: &Cuboid, stand: &Plan, level: f64, arm: f64, low: f64, high: f64) -> bool {
    let height = point.least.z - level;
    point.plan().distance(stand) <= arm && height >= low && height <= high
}
