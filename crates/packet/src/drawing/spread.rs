//! Numbered marks that never lie over one another: each stands as near to its part as there is room, with a line to it.

use super::Bounds;

/// How far apart the places are that are tried, mm.
const STEP: f64 = 2.0;
/// How many rings of places around a point are tried (chosen: more than a page is wide).
const RINGS: i32 = 400;

/// Places boxes of a size near points, in order; none overlaps another or what is taken.
pub fn spread(points: &[[f64; 2]], size: [f64; 2], taken: &mut Vec<Bounds>, page: Bounds) -> Vec<[f64; 2]> {
    points
        .iter()
        .map(|point| {
            let place = nearest(*point, size, taken, page);
            taken.push(around(place, size));
            place
        })
        .collect()
}

fn around([x, y]: [f64; 2], [width, height]: [f64; 2]) -> Bounds {
    Bounds { x: x - width / 2.0, y: y - height / 2.0, width, height }
}

fn inside(one: &Bounds, page: &Bounds) -> bool {
    one.x >= page.x
        && one.y >= page.y
        && one.x + one.width <= page.x + page.width
        && one.y + one.height <= page.y + page.height
}

fn nearest(point: [f64; 2], size: [f64; 2], taken: &[Bounds], page: Bounds) -> [f64; 2] {
    for ring in 0..=RINGS {
        // The places of a ring, those straight beside the point first.
        let mut places: Vec<(i32, i32)> =
            (-ring..=ring).flat_map(|along| [(along, -ring), (along, ring), (-ring, along), (ring, along)]).collect();
        places.sort_by_key(|(x, y)| (x * x + y * y, *y, *x));
        places.dedup();
        for (x, y) in places {
            let place = [point[0] + f64::from(x) * STEP, point[1] + f64::from(y) * STEP];
            let here = around(place, size);
            if inside(&here, &page) && !taken.iter().any(|other| other.overlaps(&here)) {
                return place;
            }
        }
    }
    point
}
