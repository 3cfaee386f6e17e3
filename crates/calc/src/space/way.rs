//! Ways out on foot: from a berth or a seat over the floor to an exit, with the furniture in place.
//!
//! **Method.** The floor is a grid of square cells. Each cell knows how far the nearest obstacle is from its centre, exactly, since obstacles
//! are rectangles. A way of a clear width w is one along which nothing is nearer than w/2 (the obstacles grown by w/2).
//!
//! **Why the widths are not rounded to the grid.** As w grows, ways close only at *narrow places*: between two obstacles, at the distance
//! between them. (At such a place the clearance is greatest across and least along the way, so that the two nearest obstacles lie opposite
//! each other.) Cells between two obstacles are therefore capped at the distance of the two, measured on the drawing, and everywhere else a
//! cell is given the benefit of the grid, since its centre can miss the best line by half of its diagonal. An aisle of 450 mm is 450 mm
//! wide on any grid. Lengths are those of a straightened way over cells; it may cut a corner by half the diagonal of a cell.
//!
//! **Limits.** A grid cannot tell ways narrower than 2√2 cells. A way leads over the own berth or seat and what it stands on, over what is not
//! higher than a step, and over nothing else. Obstacles count in the whole height of the person: nobody bends or climbs.

mod floor;
mod grid;
mod narrow;
mod place;
mod route;
mod search;

pub use floor::{Exit, Floor, WALL_TOLERANCE};
pub use grid::{MOST_CELLS, MOST_OBSTACLES, MOST_WORK};
pub use place::{Person, Place};
pub use route::Route;

use grid::Grid;
use search::{largest_least, shortest};

use super::error::{extent, size};
use super::{Cuboid, SpaceError};

/// A clear width may differ by this part in binary numbers: 450 mm made of two lengths equals 450 mm. Chosen.
const ROUNDING: f64 = 1e-9;

/// All ways from one place to one exit.
#[derive(Debug, Clone)]
pub struct Ways {
    grid: Grid,
}

impl Ways {
    /// The ways from `place` to `exit` past the `furniture`, for a person, on a grid with cells of `resolution` (m, such as 0.025).
    ///
    /// `furniture` may hold the place itself and things below or above the way; they do not count as in the way.
    ///
    /// # Errors
    /// [`SpaceError::Zero`] and the like for the resolution; [`SpaceError::NotInWall`]; [`SpaceError::TooManyCells`] above [`MOST_CELLS`]
    /// and [`SpaceError::TooMuchWork`] above [`MOST_OBSTACLES`] or [`MOST_WORK`].
    pub fn new(
        floor: &Floor,
        furniture: &[Cuboid],
        place: &Place,
        exit: &Exit,
        person: &Person,
        resolution: f64,
    ) -> Result<Self, SpaceError> {
        let resolution = extent(resolution, "cell of the grid")?;
        let (walls, goal) = exit.open(floor)?;
        let mut obstacles = place::in_the_way(floor, furniture, place, person);
        obstacles.extend(walls);
        Ok(Ways { grid: Grid::new(floor, &obstacles, furniture, place, &goal, resolution)? })
    }

    /// The smallest clear width that this grid can tell, m.
    #[must_use]
    pub fn least_width(&self) -> f64 {
        2.0 * self.grid.slack()
    }

    /// The widest way: of all ways the one whose narrowest place is widest. `None` where there is no way at all.
    ///
    /// Where what is close to the place or to the exit limits it and no two obstacles do, the clear width is a lower bound, at most two
    /// diagonals of a cell short, and the route names no narrowest place.
    #[must_use]
    pub fn widest(&self) -> Option<Route> {
        let grid = &self.grid;
        let width = largest_least(grid, &|cell| Some(grid.capacity(cell)).filter(|width| *width > 0.0))?;
        let route = self.route(width)?;
        if route.clear_width <= width {
            return Some(route);
        }
        // No narrow place limits it but what is close to its beginning or its end. Then the benefit of the grid is taken back, twice: the
        // true width is not below that.
        Some(Route { clear_width: width - 2.0 * grid.slack(), narrowest: None, ..route })
    }

    /// The shortest way whose clear width is at least `clear_width` (m). `None` where there is none.
    ///
    /// # Errors
    /// [`SpaceError::NotFinite`] and [`SpaceError::Negative`] for the width; [`SpaceError::TooCoarse`] where it is below [`Ways::least_width`].
    pub fn shortest(&self, clear_width: f64) -> Result<Option<Route>, SpaceError> {
        Ok(self.route(self.asked(clear_width)?))
    }

    /// The greatest distance in plan that a way of this clear width (m) can keep from all the hazards (cookers, heaters), m: of all such ways
    /// the one whose middle line stays farthest away. `None` where there is no such way; infinite where there is no hazard, or where the
    /// place itself is at the exit. On the own place no distance is asked. It is known to a diagonal of a cell, and given on the short side.
    ///
    /// # Errors
    /// As [`Ways::shortest`]; [`SpaceError::TooMuchWork`] where cells times hazards are more than [`MOST_WORK`].
    pub fn farthest_from(&self, hazards: &[Cuboid], clear_width: f64) -> Result<Option<f64>, SpaceError> {
        let clear_width = self.asked(clear_width)?;
        let grid = &self.grid;
        let work = grid.len() as f64 * hazards.len() as f64;
        if work > MOST_WORK {
            return Err(SpaceError::TooMuchWork { work, most: MOST_WORK });
        }
        let plans: Vec<_> = hazards.iter().map(Cuboid::plan).collect();
        let distance = |cell: usize| {
            let centre = grid.centre(cell);
            plans.iter().map(|plan| plan.distance_to(centre)).fold(f64::INFINITY, f64::min)
        };
        let distances: Vec<_> =
            (0..grid.len()).map(|cell| (grid.capacity(cell) >= clear_width).then(|| distance(cell))).collect();
        let farthest = largest_least(grid, &|cell| distances.get(cell).copied().flatten());
        // The cells have had the benefit of half a diagonal toward the obstacles.
        Ok(farthest.map(|farthest| (farthest - grid.slack() / 2.0).max(0.0)))
    }

    fn asked(&self, clear_width: f64) -> Result<f64, SpaceError> {
        let least = self.least_width();
        let clear_width = size(clear_width, "clear width")?;
        if clear_width < least { Err(SpaceError::TooCoarse { least }) } else { Ok(clear_width * (1.0 - ROUNDING)) }
    }

    fn route(&self, width: f64) -> Option<Route> {
        let grid = &self.grid;
        let open = |cell: usize| grid.capacity(cell) >= width;
        shortest(grid, &open).map(|cells| Route::along(grid, &cells, &open))
    }
}
