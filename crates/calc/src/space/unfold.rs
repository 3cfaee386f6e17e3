//! Shortest ways over the surface of a box, by unfolding.
//!
//! A shortest way over a convex body meets each face at most once and is straight when the faces that it meets are laid flat in a row
//! (Sharir and Schorr 1986, "On shortest paths in polyhedral spaces"; from memory, and the tests compare with a search that does not
//! unfold). A box has six faces, so that all rows can be tried; a straight
//! line counts only where it truly crosses the edges between the faces of its row, so that each length found is that of a real way.

use glam::DVec3;

use super::{Cuboid, Side};

/// Part of the body's size by which a line may miss an edge through rounding. Chosen: far below any drawing, far above binary rounding.
const ROUNDING: f64 = 1e-9;

/// How far the plane of a side stands out along its outward direction.
pub(super) fn offset(body: &Cuboid, side: Side) -> f64 {
    let outward = side.outward();
    outward.dot(body.least).max(outward.dot(body.most))
}

/// A row of faces, each with the starting point as it lies when the faces before are folded into its plane.
type Row = Vec<(Side, DVec3)>;

/// The shortest way from a point of one side to the nearest point of a target on another, over the sides given. `nearest` answers which
/// point of the target is nearest to a point in the plane of the target's side. `None` where the target's side cannot be reached.
pub(super) fn shortest(
    body: &Cuboid,
    sides: &[Side],
    from: (Side, DVec3),
    target: Side,
    nearest: &dyn Fn(DVec3) -> DVec3,
) -> Option<f64> {
    let mut best = None;
    extend(body, sides, target, nearest, &mut vec![from], &mut best);
    best
}

fn extend(
    body: &Cuboid,
    sides: &[Side],
    target: Side,
    nearest: &dyn Fn(DVec3) -> DVec3,
    row: &mut Row,
    best: &mut Option<f64>,
) {
    let Some(&(last, image)) = row.last() else { return };
    if last == target {
        let end = nearest(image).clamp(body.least, body.most);
        let length = end.distance(image);
        if best.is_none_or(|best| length < best) && crosses(body, row, end) {
            *best = Some(length);
        }
        return;
    }
    // Each side occurs once at most, so that the rows are no longer than six.
    for &side in sides {
        if side != last.opposite() && row.iter().all(|&(met, _)| met != side) {
            let inward = offset(body, side) - side.outward().dot(image);
            row.push((side, image + (side.outward() + last.outward()) * inward));
            extend(body, sides, target, nearest, row, best);
            row.pop();
        }
    }
}

/// True where the straight line from the last image to `end` crosses each edge of the row within the body.
fn crosses(body: &Cuboid, row: &Row, mut end: DVec3) -> bool {
    let rounding = ROUNDING * (body.most - body.least).max_element();
    let (least, most) = (body.least - rounding, body.most + rounding);
    for pair in row.windows(2).rev() {
        let &[(before, _), (_, image)] = pair else { return false };
        let plane = offset(body, before);
        let outside = before.outward().dot(image) - plane;
        let inside = plane - before.outward().dot(end);
        if outside < -rounding || inside < -rounding {
            return false;
        }
        let whole = outside + inside;
        let crossing = if whole > 0.0 { image + (end - image) * (outside / whole) } else { end };
        if !(least.cmple(crossing).all() && crossing.cmple(most).all()) {
            return false;
        }
        end = crossing.clamp(body.least, body.most);
    }
    true
}
