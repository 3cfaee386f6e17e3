//! A way that was found.

use glam::DVec2;

use super::grid::Grid;
use crate::space::{Cuboid, Plan};

/// A way from the edge of a place to an exit.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// Clear width of its narrowest place, m; infinite where it passes between no two obstacles.
    pub clear_width: f64,
    /// Its narrowest place, in plan, m; `None` where no two obstacles limit it.
    pub narrowest: Option<[f64; 2]>,
    /// Its length, m.
    pub length: f64,
    /// Its corners in plan, from the place to the exit, m.
    pub points: Vec<[f64; 2]>,
}

impl Route {
    /// The way along cells, straightened where every cell of the straight line is open.
    pub(super) fn along(grid: &Grid, cells: &[usize], open: &dyn Fn(usize) -> bool) -> Self {
        let points: Vec<DVec2> = cells.iter().map(|cell| grid.centre(*cell)).collect();
        let corners = straightened(grid, &points, open);
        let crossed = corners.windows(2).flat_map(|pair| match pair {
            [from, to] => cells_between(grid, *from, *to).collect(),
            _ => Vec::new(),
        });
        let narrowest = crossed
            .filter(|cell| !grid.is_start(*cell))
            .map(|cell| (grid.between(cell), cell))
            .min_by(|one, other| one.0.total_cmp(&other.0))
            .filter(|(width, _)| width.is_finite());
        Route {
            clear_width: narrowest.map_or(f64::INFINITY, |(width, _)| width),
            narrowest: narrowest.map(|(_, cell)| grid.centre(cell).to_array()),
            length: corners
                .windows(2)
                .map(|pair| pair.first().zip(pair.last()).map_or(0.0, |(a, b)| a.distance(*b)))
                .sum(),
            points: corners.iter().map(DVec2::to_array).collect(),
        }
    }

    /// Least distance in plan from the middle line of the way to a thing, m.
    #[must_use]
    pub fn distance(&self, thing: &Cuboid) -> f64 {
        self.distance_in_plan(&thing.plan())
    }

    fn distance_in_plan(&self, plan: &Plan) -> f64 {
        let at = |point: &[f64; 2]| DVec2::from_array(*point);
        let lines = self.points.windows(2).filter_map(|pair| Some((at(pair.first()?), at(pair.last()?))));
        let alone = self.points.first().map_or(f64::INFINITY, |point| plan.distance_to(at(point)));
        lines.map(|(from, to)| plan.distance_to_line(from, to)).fold(alone, f64::min)
    }
}

/// The cells that a straight line crosses, sampled at half a cell.
fn cells_between(grid: &Grid, from: DVec2, to: DVec2) -> impl Iterator<Item = usize> {
    grid.samples(from, to).filter_map(|point| grid.index_at(point))
}

/// The corners of a way: from each the farthest point that a straight line reaches.
fn straightened(grid: &Grid, points: &[DVec2], open: &dyn Fn(usize) -> bool) -> Vec<DVec2> {
    // A sample is off the centre of its cell by up to 0.71 cells and off the next sample by half a cell: with 1.25 cells to the nearest
    // obstacle none can lie between the samples.
    let roomy = |cell: usize| open(cell) && grid.clearance(cell) > 2.5 * grid.size();
    let free = |from: DVec2, to: DVec2| cells_between(grid, from, to).all(roomy);
    // The first point is on the own place; the way proper begins with the second.
    let mut corners: Vec<DVec2> = points.iter().take(2).copied().collect();
    let mut anchor = corners.last().copied().unwrap_or_default();
    let rest = points.get(1..).unwrap_or_default();
    for pair in rest.windows(2) {
        let &[before, next] = pair else { continue };
        if !free(anchor, next) && anchor != before {
            corners.push(before);
            anchor = before;
        }
    }
    if let Some(last) = rest.last().filter(|last| **last != anchor) {
        corners.push(*last);
    }
    corners
}
