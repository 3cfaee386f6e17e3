//! How much of a bed or a seat has a clear height above it.

use super::Cuboid;

/// The part of `on`, seen from above, over which nothing of `things` reaches into the clear height `height` (m) above its top; from 0
/// to 1. A place without an area has the part 1. Exact: the area is cut along the edges of all things.
#[must_use]
pub fn clear_share(on: &Cuboid, things: &[Cuboid], height: f64) -> f64 {
    let (least, most) = (on.least, on.most);
    let top = most.z;
    let over: Vec<&Cuboid> = things.iter().filter(|thing| thing.most.z > top && thing.least.z < top + height).collect();
    let cuts = |from: f64, to: f64, edges: &mut dyn Iterator<Item = f64>| {
        let mut cuts = vec![from, to];
        cuts.extend(edges.filter(|edge| *edge > from && *edge < to));
        cuts.sort_by(f64::total_cmp);
        cuts
    };
    let along = cuts(least.x, most.x, &mut over.iter().flat_map(|thing| [thing.least.x, thing.most.x]));
    let across = cuts(least.y, most.y, &mut over.iter().flat_map(|thing| [thing.least.y, thing.most.y]));
    let area = (most.x - least.x) * (most.y - least.y);
    if area <= 0.0 {
        return 1.0;
    }
    let mut clear = 0.0;
    for length in along.windows(2) {
        let &[left, right] = length else { continue };
        for width in across.windows(2) {
            let &[near, far] = width else { continue };
            let (x, y) = (f64::midpoint(left, right), f64::midpoint(near, far));
            let covers =
                |thing: &&&Cuboid| thing.least.x <= x && x <= thing.most.x && thing.least.y <= y && y <= thing.most.y;
            if !over.iter().any(|thing| covers(&thing)) {
                clear += (right - left) * (far - near);
            }
        }
    }
    clear / area
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "boxes of the test are sound")]
mod tests {
    use super::clear_share;
    use crate::space::Cuboid;

    fn cuboid(from: [f64; 3], size: [f64; 3]) -> Cuboid {
        Cuboid::new(from, size).unwrap()
    }

    /// A berth of 2 m × 1 m whose top is at 0.5 m; expected parts by hand.
    #[test]
    fn what_reaches_into_the_clear_height_is_taken_off_once() {
        let berth = cuboid([0.0, 0.0, 0.4], [2.0, 1.0, 0.1]);
        let shelf = |x: f64, length: f64, z: f64| cuboid([x, 0.0, z], [length, 1.0, 0.3]);
        for (things, expected) in [
            (vec![], 1.0),
            (vec![shelf(0.0, 1.0, 0.9)], 0.5),
            // Just at the height it is not in the way; below the top neither.
            (vec![shelf(0.0, 1.0, 1.0), cuboid([0.0, 0.0, 0.0], [2.0, 1.0, 0.4])], 1.0),
            // Where two lie over one place it counts once.
            (vec![shelf(0.0, 1.0, 0.9), shelf(0.5, 1.0, 0.8)], 0.25),
            (vec![cuboid([0.5, 0.25, 0.6], [1.0, 0.5, 0.1])], 0.75),
            (vec![shelf(-5.0, 20.0, 0.6)], 0.0),
        ] {
            let share = clear_share(&berth, &things, 0.5);
            assert!((share - expected).abs() < 1e-12, "{things:?}: {share}");
        }
        assert!((clear_share(&cuboid([0.0; 3], [0.0, 1.0, 0.1]), &[], 0.5) - 1.0).abs() < 1e-12);
    }
}
