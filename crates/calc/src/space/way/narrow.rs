//! Narrow places between two obstacles.

use glam::DVec2;

use crate::space::Plan;

/// Rounding of lengths, as a part of them.
const ROUNDING: f64 = 1e-9;

/// The straight line across a narrow place, from obstacle to obstacle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Narrow {
    pub(super) from: DVec2,
    pub(super) to: DVec2,
}

/// Twice the distance from a point to the nearest obstacle, and the least distance between two obstacles that face each other with the point
/// between them, along x or along y. Both infinite where there is none.
pub(super) fn around(point: DVec2, obstacles: &[Plan]) -> (f64, f64) {
    let mut nearest = f64::INFINITY;
    let (mut below, mut above) = (DVec2::NEG_INFINITY, DVec2::INFINITY);
    for plan in obstacles {
        let gap = (plan.least - point).max(point - plan.most).max(DVec2::ZERO);
        nearest = nearest.min(gap.length_squared());
        // Without a gap along y it faces the point along x, and the other way round.
        if gap.y == 0.0 {
            if plan.most.x <= point.x {
                below.x = below.x.max(plan.most.x);
            } else {
                above.x = above.x.min(plan.least.x);
            }
        }
        if gap.x == 0.0 {
            if plan.most.y <= point.y {
                below.y = below.y.max(plan.most.y);
            } else {
                above.y = above.y.min(plan.least.y);
            }
        }
    }
    (2.0 * nearest.sqrt(), (above - below).min_element())
}

/// The narrow places that a cell's centre need not lie between: from corner to corner, and where two obstacles face each other along less
/// than `short`. Those narrower than `least` are left out, and those into which a third obstacle reaches, since it makes narrower ones.
pub(super) fn between_corners(obstacles: &[Plan], least: f64, short: f64) -> Vec<Narrow> {
    let mut found = Vec::new();
    for (index, one) in obstacles.iter().enumerate() {
        for other in obstacles.iter().skip(index + 1) {
            let narrow = across(one, other);
            let width = narrow.from.distance(narrow.to);
            let facing = (one.most.min(other.most) - one.least.max(other.least)).max_element();
            if width <= least || facing >= short {
                continue;
            }
            let middle = narrow.from.midpoint(narrow.to);
            let free = width / 2.0 * (1.0 - ROUNDING);
            if obstacles.iter().all(|plan| plan.distance_to(middle) >= free) {
                found.push(narrow);
            }
        }
    }
    found
}

/// The shortest line between two rectangles; where they face each other, in the middle of what they share.
fn across(one: &Plan, other: &Plan) -> Narrow {
    let (low, high) = (one.least.max(other.least), one.most.min(other.most));
    let middle = (low + high) / 2.0;
    let shares = low.cmple(high);
    let nearest = |plan: &Plan, toward: &Plan| {
        let corner = DVec2::select(toward.least.cmpgt(plan.most), plan.most, plan.least);
        DVec2::select(shares, middle, corner)
    };
    Narrow { from: nearest(one, other), to: nearest(other, one) }
}
