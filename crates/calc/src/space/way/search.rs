//! Searches over the cells: the widest and the shortest way (Dijkstra's algorithm; for the widest with the least value along a way in
//! place of its length). They work on plain arrays: the search of a graph library over a million cells spends its time in hashing, and
//! none that was looked at has the widest way.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::grid::Grid;

/// A cell that waits to be looked at; the heap gives the greatest rank first.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Waiting {
    rank: f64,
    cell: usize,
}

impl Eq for Waiting {}

impl Ord for Waiting {
    fn cmp(&self, other: &Self) -> Ordering {
        // Equal ranks in the order of the cells, so that the same drawing gives the same way.
        self.rank.total_cmp(&other.rank).then_with(|| other.cell.cmp(&self.cell))
    }
}

impl PartialOrd for Waiting {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// What a cell is worth; `None` where no way leads through it.
pub(super) type Field<'a> = dyn Fn(usize) -> Option<f64> + 'a;

/// True where a way may step from one cell to the next. Between cells of the way proper the clearance of both leaves no room for an
/// obstacle; on the own place none is asked, so that the step off it is looked at.
fn may_step(grid: &Grid, from: usize, to: usize) -> bool {
    !grid.is_start(to) && (!grid.is_start(from) || grid.steps_freely(from, to))
}

/// Of all ways from the start to a goal the one whose least value is greatest; that value. Infinite where the start is itself a goal.
pub(super) fn largest_least(grid: &Grid, field: &Field) -> Option<f64> {
    let mut best = vec![f64::NEG_INFINITY; grid.len()];
    let mut heap = BinaryHeap::new();
    for cell in (0..grid.len()).filter(|cell| grid.is_start(*cell)) {
        if let Some(value) = best.get_mut(cell) {
            *value = f64::INFINITY;
        }
        heap.push(Waiting { rank: f64::INFINITY, cell });
    }
    while let Some(Waiting { rank, cell }) = heap.pop() {
        if grid.is_goal(cell) {
            return Some(rank);
        }
        if best.get(cell).is_some_and(|best| rank < *best) {
            continue;
        }
        for (to, _) in grid.neighbours(cell) {
            let Some(value) = field(to) else { continue };
            let reached = value.min(rank);
            if best.get(to).is_some_and(|best| reached > *best) && may_step(grid, cell, to) {
                if let Some(best) = best.get_mut(to) {
                    *best = reached;
                }
                heap.push(Waiting { rank: reached, cell: to });
            }
        }
    }
    None
}

/// The shortest way from the start to a goal over cells that are open, as its cells.
pub(super) fn shortest(grid: &Grid, open: &dyn Fn(usize) -> bool) -> Option<Vec<usize>> {
    let mut lengths = vec![f64::INFINITY; grid.len()];
    let mut came_from = vec![None; grid.len()];
    let mut heap = BinaryHeap::new();
    for cell in (0..grid.len()).filter(|cell| grid.is_start(*cell)) {
        if let Some(length) = lengths.get_mut(cell) {
            *length = 0.0;
        }
        heap.push(Waiting { rank: -0.0, cell });
    }
    while let Some(Waiting { rank, cell }) = heap.pop() {
        let length = -rank;
        if grid.is_goal(cell) {
            return Some(back(&came_from, cell));
        }
        if lengths.get(cell).is_some_and(|known| length > *known) {
            continue;
        }
        for (to, step) in grid.neighbours(cell) {
            let reached = length + step;
            let shorter = lengths.get(to).is_some_and(|known| reached < *known);
            if shorter && open(to) && may_step(grid, cell, to) {
                if let (Some(length), Some(from)) = (lengths.get_mut(to), came_from.get_mut(to)) {
                    (*length, *from) = (reached, Some(cell));
                }
                heap.push(Waiting { rank: -reached, cell: to });
            }
        }
    }
    None
}

/// The cells of a way, from its start.
fn back(came_from: &[Option<usize>], goal: usize) -> Vec<usize> {
    let step = |cell: &usize| came_from.get(*cell).copied().flatten();
    let mut cells: Vec<usize> = std::iter::successors(Some(goal), step).collect();
    cells.reverse();
    cells
}
