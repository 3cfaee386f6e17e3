//! How much of a bed or a seat has a clear height above it.

use super::Cuboid;

/// The part of `on`, seen from above, over which nothing of `things` reaches into the clear height `height` (m) above its top; from 0
/// to 1. A place without an area has the part 1. Exact: the area is cut along the edges of all things.
#[must_use]
pub fn clear_share(on: &Cuboid, things: &[Cuboid], height: f64) -> f64 {
    let (least, most) = (on.least, on.most);
    let top = most.z;
    let over: Vec<&Cuboid> =
        things.iter().filter(|thing| thing.most.z > top && thing.least.z < top + height).collect();
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
            let covers = |thing: &&&Cuboid| {
                thing.least.x <= x && x <= thing.most.x && thing.least.y <= y && y <= thing.most.y
            };
            if !over.iter().any(|thing| covers(&thing)) {
                clear += (right - left) * (far - near);
            }
        }
    }
    clear / area
}
