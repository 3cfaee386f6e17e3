//! The floor as cells.

use glam::DVec2;

use super::floor::{Floor, Goal};
use super::narrow::{self, Narrow};
use super::place::Place;
use crate::space::plan::nearest_on_line;
use crate::space::{Cuboid, Plan, SpaceError};

/// A grid has no more cells than this. Chosen: four million, which a 12 m × 2.5 m floor has with cells of 3 mm.
pub const MOST_CELLS: f64 = 4e6;

/// No more obstacles than this are reckoned with (walls, parts of the floor and all furniture included). Chosen: far above any furnished vehicle.
pub const MOST_OBSTACLES: f64 = 2_000.0;

/// Cells times obstacles are no more than this. Chosen: a few seconds.
pub const MOST_WORK: f64 = 4e8;

/// Cells around the floor, so that a way can end outside.
const RIM: f64 = 2.0;

/// What a cell is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ground {
    Floor,
    Start,
    Outside,
}

/// A cell: what it is, how wide a way through it can be, and whether a way ends there.
#[derive(Debug, Clone, Copy)]
struct Cell {
    ground: Ground,
    goal: bool,
    /// Twice the distance from its centre to the nearest obstacle, m.
    clearance: f64,
    /// The distance between the two obstacles that it lies between, m; infinite between none.
    between: f64,
}

/// The cells, row by row.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    origin: DVec2,
    cell: f64,
    columns: usize,
    cells: Vec<Cell>,
    obstacles: Vec<Plan>,
}

impl Grid {
    pub(super) fn new(
        floor: &Floor,
        obstacles: &[Plan],
        furniture: &[Cuboid],
        place: &Place,
        goal: &Goal,
        cell: f64,
    ) -> Result<Self, SpaceError> {
        let bounds = floor.bounds();
        let size = ((bounds.most - bounds.least) / cell).ceil() + 2.0 * RIM;
        let number = (obstacles.len() + floor.parts.len() + furniture.len()) as f64;
        let count = size.element_product();
        if count.is_nan() || count > MOST_CELLS {
            return Err(SpaceError::TooManyCells { cells: count, most: MOST_CELLS });
        }
        if number > MOST_OBSTACLES {
            return Err(SpaceError::TooMuchWork { work: count * number, most: count * MOST_OBSTACLES });
        }
        if count * number > MOST_WORK {
            return Err(SpaceError::TooMuchWork { work: count * number, most: MOST_WORK });
        }
        let (columns, rows) = (size.x as usize, size.y as usize);
        let origin = bounds.least - cell * RIM;
        let obstacles = obstacles.to_vec();
        let mut grid = Grid { origin, cell, columns, cells: Vec::new(), obstacles };
        grid.cells = (0..columns * rows).map(|index| grid.measured(index, floor, place)).collect();
        grid.mark_start(place);
        grid.mark_goal(furniture, goal);
        grid.mark_narrow();
        Ok(grid)
    }

    fn measured(&self, index: usize, floor: &Floor, place: &Place) -> Cell {
        let centre = self.centre(index);
        let (clearance, between) = narrow::around(centre, &self.obstacles);
        let ground = match floor.holds(centre) {
            false => Ground::Outside,
            true if clearance > 0.0 && place.plan().holds(centre) => Ground::Start,
            true => Ground::Floor,
        };
        Cell { ground, goal: false, clearance, between }
    }

    /// A place too small to hold the centre of a cell starts from the cell that its middle is in.
    fn mark_start(&mut self, place: &Place) {
        if self.cells.iter().any(|cell| cell.ground == Ground::Start) {
            return;
        }
        let plan = place.plan();
        let index = self.index_at((plan.least + plan.most) / 2.0);
        let cell = index.and_then(|index| self.cells.get_mut(index));
        if let Some(cell) = cell.filter(|cell| cell.ground == Ground::Floor && cell.clearance > 0.0) {
            cell.ground = Ground::Start;
        }
    }

    fn mark_goal(&mut self, furniture: &[Cuboid], goal: &Goal) {
        let hides =
            |thing: &&Cuboid| thing.most.z > goal.sill && thing.least.z < goal.head.max(goal.sill + f64::EPSILON);
        let tall: Vec<Plan> = furniture.iter().filter(hides).map(Cuboid::plan).collect();
        for index in 0..self.cells.len() {
            let centre = self.centre(index);
            if let Some(cell) = self.cells.get_mut(index) {
                cell.goal = match cell.ground {
                    Ground::Outside => goal.outside,
                    Ground::Floor | Ground::Start => goal.in_reach(centre, &tall),
                };
            }
        }
        // A hatch too small to hold the centre of a cell is reached from the cell below its middle.
        if goal.reach.is_some() && !self.cells.iter().any(|cell| cell.goal && cell.ground != Ground::Outside) {
            let index = self.index_at((goal.plan.least + goal.plan.most) / 2.0);
            if let Some(cell) = index.and_then(|index| self.cells.get_mut(index)) {
                cell.goal |= cell.ground != Ground::Outside;
            }
        }
    }

    /// Caps the cells at the narrow places that do not lie along the axes.
    fn mark_narrow(&mut self) {
        let (slack, all) = (self.slack(), self.bounds());
        for Narrow { from, to } in narrow::between_corners(&self.obstacles, slack, 2.0 * self.cell) {
            let width = from.distance(to);
            // Only what lies on the grid is sampled: an obstacle may stand far away.
            let Some((enters, leaves)) = all.part_of_line(from, to) else { continue };
            let (first, last) = (from.lerp(to, enters), from.lerp(to, leaves));
            for point in self.samples(first, last) {
                for index in self.around(point) {
                    let centre = self.centre(index);
                    let off = nearest_on_line(centre, from, to).distance(centre);
                    if let Some(cell) = self.cells.get_mut(index).filter(|_| off <= slack / 2.0) {
                        cell.between = cell.between.min(width);
                    }
                }
            }
        }
    }

    /// The rectangle around all cells.
    fn bounds(&self) -> Plan {
        let rows = self.cells.len() / self.columns.max(1);
        Plan { least: self.origin, most: self.origin + DVec2::new(self.columns as f64, rows as f64) * self.cell }
    }

    /// Points along a straight line on the grid, half a cell from each to the next, so that no cell is missed by more than its corner.
    pub(super) fn samples(&self, from: DVec2, to: DVec2) -> impl Iterator<Item = DVec2> + use<> {
        let count = (from.distance(to) / self.cell * 2.0).ceil().max(1.0);
        (0..=(count as usize)).map(move |sample| from.lerp(to, sample as f64 / count))
    }

    /// Twice what the centre of a cell can be off the best line: the diagonal of a cell, m.
    pub(super) fn slack(&self) -> f64 {
        self.cell * std::f64::consts::SQRT_2
    }

    pub(super) fn len(&self) -> usize {
        self.cells.len()
    }

    /// The side of a cell, m.
    pub(super) fn size(&self) -> f64 {
        self.cell
    }

    pub(super) fn centre(&self, index: usize) -> DVec2 {
        let (row, column) = (index / self.columns.max(1), index % self.columns.max(1));
        self.origin + DVec2::new(column as f64 + 0.5, row as f64 + 0.5) * self.cell
    }

    /// The cell that a point is in.
    pub(super) fn index_at(&self, point: DVec2) -> Option<usize> {
        let at = ((point - self.origin) / self.cell).floor();
        if at.x < 0.0 || at.y < 0.0 || at.x >= self.columns as f64 {
            return None;
        }
        // What is not a number becomes 0 here, and what is too large is no cell.
        let index = (at.y as usize).saturating_mul(self.columns).saturating_add(at.x as usize);
        (index < self.cells.len()).then_some(index)
    }

    /// The cell that a point is in and the eight around it.
    fn around(&self, point: DVec2) -> Vec<usize> {
        let steps = [-1.0, 0.0, 1.0];
        let points = steps.into_iter().flat_map(|x| steps.map(|y| point + DVec2::new(x, y) * self.cell));
        points.filter_map(|point| self.index_at(point)).collect()
    }

    /// The eight neighbours of a cell with the length of the step, m.
    pub(super) fn neighbours(&self, index: usize) -> impl Iterator<Item = (usize, f64)> {
        let (columns, count) = (self.columns as isize, self.cells.len() as isize);
        let (index, column) = (index as isize, (index % self.columns.max(1)) as isize);
        let (straight, diagonal) = (self.cell, self.slack());
        [(-1, -1), (0, -1), (1, -1), (-1, 0), (1, 0), (-1, 1), (0, 1), (1, 1)]
            .into_iter()
            .filter(move |(x, _)| (0..columns).contains(&(column + x)))
            .map(move |(x, y)| (index + x + y * columns, if x * y == 0 { straight } else { diagonal }))
            .filter(move |(to, _)| (0..count).contains(to))
            .map(|(to, length)| (to as usize, length))
    }

    fn cell(&self, index: usize) -> Option<&Cell> {
        self.cells.get(index)
    }

    /// How wide a way through a cell can be, m: zero where a step to its neighbour could meet an obstacle.
    pub(super) fn capacity(&self, index: usize) -> f64 {
        let slack = self.slack();
        match self.cell(index) {
            Some(cell) if cell.clearance > slack => (cell.clearance + slack).min(cell.between),
            _ => 0.0,
        }
    }

    /// The distance between the two obstacles that a cell lies between, m; infinite between none.
    pub(super) fn between(&self, index: usize) -> f64 {
        self.cell(index).map_or(f64::INFINITY, |cell| cell.between)
    }

    /// Twice the distance from the centre of a cell to the nearest obstacle, m.
    pub(super) fn clearance(&self, index: usize) -> f64 {
        self.cell(index).map_or(0.0, |cell| cell.clearance)
    }

    pub(super) fn is_start(&self, index: usize) -> bool {
        self.cell(index).is_some_and(|cell| cell.ground == Ground::Start)
    }

    pub(super) fn is_goal(&self, index: usize) -> bool {
        self.cell(index).is_some_and(|cell| cell.goal)
    }

    /// True where the step between two cells meets no obstacle.
    pub(super) fn steps_freely(&self, from: usize, to: usize) -> bool {
        let (from, to) = (self.centre(from), self.centre(to));
        self.obstacles.iter().all(|plan| plan.distance_to_line(from, to) > 0.0)
    }
}
