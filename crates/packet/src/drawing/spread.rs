//! Numbered marks that never lie over one another: each stands as near to its part as there is room, with a line to it.

use super::Bounds;
use std::collections::HashMap;

/// How far apart the places are that are tried, mm.
const STEP: f64 = 2.0;

/// Places boxes of a size near points, in order; none overlaps another or what is taken. Where the page has no room left there
/// is none.
pub fn spread(points: &[[f64; 2]], size: [f64; 2], taken: &[Bounds], page: Bounds) -> Vec<Option<[f64; 2]>> {
    let mut taken = Taken::of(taken, size);
    let rings = rings(page);
    // What finds no room from one point on the whole page finds none from another.
    let mut is_full = false;
    let mut place = |point: &[f64; 2]| {
        let found = if is_full { None } else { nearest(*point, size, &taken, page, &rings) };
        match found {
            Some(place) => taken.add(around(place, size)),
            None => is_full = true,
        }
        found
    };
    points.iter().map(&mut place).collect()
}

/// What is taken, by the cells of a grid, so that a place is held against its neighbours only.
struct Taken {
    cell: [f64; 2],
    cells: HashMap<(i64, i64), Vec<Bounds>>,
}

impl Taken {
    fn of(taken: &[Bounds], cell: [f64; 2]) -> Self {
        let mut all = Self { cell, cells: HashMap::new() };
        taken.iter().for_each(|one| all.add(*one));
        all
    }

    /// The cells that a box touches.
    fn cells(&self, one: &Bounds) -> impl Iterator<Item = (i64, i64)> + use<> {
        let number = |value: f64, size: f64| (value / size).floor() as i64;
        let (left, right) = (number(one.x, self.cell[0]), number(one.x + one.width, self.cell[0]));
        let (top, low) = (number(one.y, self.cell[1]), number(one.y + one.height, self.cell[1]));
        (left..=right).flat_map(move |x| (top..=low).map(move |y| (x, y)))
    }

    fn add(&mut self, one: Bounds) {
        for cell in self.cells(&one) {
            self.cells.entry(cell).or_default().push(one);
        }
    }

    fn is_free(&self, one: &Bounds) -> bool {
        self.cells(one).all(|cell| self.cells.get(&cell).is_none_or(|there| !there.iter().any(|own| own.overlaps(one))))
    }
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

/// The steps from a point, ring by ring until past every page's edge, those straight beside the point first in each.
fn rings(page: Bounds) -> Vec<(i32, i32)> {
    let most = (page.width.max(page.height) / STEP).ceil() as i32;
    let mut rings = Vec::new();
    for ring in 0..=most {
        let mut places: Vec<(i32, i32)> =
            (-ring..=ring).flat_map(|along| [(along, -ring), (along, ring), (-ring, along), (ring, along)]).collect();
        places.sort_by_key(|(x, y)| (x * x + y * y, *y, *x));
        places.dedup();
        rings.extend(places);
    }
    rings
}

fn nearest(point: [f64; 2], size: [f64; 2], taken: &Taken, page: Bounds, rings: &[(i32, i32)]) -> Option<[f64; 2]> {
    let places = rings.iter().map(|(x, y)| [point[0] + f64::from(*x) * STEP, point[1] + f64::from(*y) * STEP]);
    places.into_iter().find(|place| {
        let here = around(*place, size);
        inside(&here, &page) && taken.is_free(&here)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_page_leaves_the_rest_without_a_place_and_nothing_overlaps() {
        let page = Bounds { x: 0.0, y: 0.0, width: 40.0, height: 20.0 };
        let taken = [Bounds { x: 10.0, y: 5.0, width: 3.0, height: 3.0 }];
        let points: Vec<[f64; 2]> = (0..500).map(|_| [20.0, 10.0]).collect();
        let places: Vec<Bounds> = spread(&points, [7.0, 5.0], &taken, page)
            .into_iter()
            .flatten()
            .map(|place| around(place, [7.0, 5.0]))
            .collect();
        assert!(places.len() > 5 && places.len() < 30, "{}", places.len());
        for (index, one) in places.iter().enumerate() {
            assert!(inside(one, &page) && !one.overlaps(&taken[0]));
            assert!(!places[index + 1..].iter().any(|other| one.overlaps(other)));
        }
    }
}
