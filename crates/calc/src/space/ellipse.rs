//! The nearest point of a filled ellipse.

use glam::DVec2;

/// Halvings of the search; each halves an interval of at most a thousand kilometres squared, so that more could not change a bit.
const HALVINGS: usize = 200;

/// The point of the filled ellipse with these half axes about the origin that is nearest to `point`.
///
/// The nearest point of the edge is (a²x/(t+a²), b²y/(t+b²)) with the one t ≥ 0 that puts it on the edge (Lagrange's multiplier); the
/// expression falls steadily with t, so that halving finds it.
pub(super) fn nearest(half: DVec2, point: DVec2) -> DVec2 {
    if (point / half).length_squared() <= 1.0 {
        return point;
    }
    let square = half * half;
    let beyond = |t: f64| (half * point / (square + t)).length_squared() > 1.0;
    // At t = longer half axis × distance the point is inside: a·|p|/(a·|p| + b²) is below 1.
    let (mut low, mut high) = (0.0, half.max_element() * point.length());
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            break;
        }
        if beyond(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    square * point / (square + high)
}
