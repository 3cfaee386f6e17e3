//! Symmetric positive definite equations on a pattern that stays, through the rsparse crate.

use rsparse::data::{Nmrc, Sprs, Symb};

/// The matrix of a graph: a diagonal entry for each unknown, and one pair beside it for each pair of joined unknowns.
pub(super) struct Matrix {
    values: Sprs<f64>,
    symbolic: Symb,
    /// Unknowns that are there only to fill the matrix.
    idle: std::ops::Range<usize>,
    /// Place of each diagonal entry.
    diagonal: Vec<usize>,
    /// Places of the two entries of each edge, where both its ends are unknowns.
    beside: Vec<Option<[usize; 2]>>,
}

/// A factorised matrix.
pub(super) struct Factor(Nmrc<f64>);

/// The library's ordering counts on at least two rows; one more keeps clear of that edge.
const LEAST_UNKNOWNS: usize = 3;

/// Growing shares of the largest diagonal entry that are added where rounding makes a matrix indefinite that is definite on paper.
const SHIFTS: [f64; 4] = [0.0, 1e-14, 1e-11, 1e-8];

/// An end of an edge: an unknown, or the reference.
pub(super) type End = Option<usize>;

impl Matrix {
    /// The pattern for the edges' ends; every edge has two different ends.
    pub(super) fn new(asked: usize, edges: &[[End; 2]]) -> Self {
        let unknowns = asked.max(LEAST_UNKNOWNS);
        let mut columns: Vec<Vec<usize>> = (0..unknowns).map(|column| vec![column]).collect();
        for ends in edges {
            if let [Some(one), Some(other)] = *ends {
                for (column, row) in [(one, other), (other, one)] {
                    if let Some(rows) = columns.get_mut(column) {
                        rows.push(row);
                    }
                }
            }
        }
        let mut pointers = vec![0_isize];
        let (mut starts, mut indices) = (vec![0_usize], Vec::new());
        for rows in &mut columns {
            rows.sort_unstable();
            rows.dedup();
            indices.extend_from_slice(rows);
            // A vector never holds more than isize::MAX entries.
            pointers.push(isize::try_from(indices.len()).unwrap_or(isize::MAX));
            starts.push(indices.len());
        }
        let place = |row: usize, column: usize| -> usize {
            let within = columns.get(column).map_or(0, |rows| rows.partition_point(|&one| one < row));
            starts.get(column).copied().unwrap_or(0) + within
        };
        let diagonal = (0..unknowns).map(|one| place(one, one)).collect();
        let beside = edges
            .iter()
            .map(|ends| match *ends {
                [Some(one), Some(other)] => Some([place(one, other), place(other, one)]),
                _ => None,
            })
            .collect();
        let count = indices.len();
        let values = Sprs { nzmax: count, m: unknowns, n: unknowns, p: pointers, i: indices, x: vec![0.0; count] };
        // Ordering 0: approximate minimum degree of the symmetric pattern.
        let symbolic = rsparse::schol(&values, 0);
        Self { values, symbolic, idle: asked..unknowns, diagonal, beside }
    }

    /// Factorises for the given conductances of the edges, S. `None` where the matrix is not positive definite; rounding is forgiven where
    /// the conductances are all positive.
    pub(super) fn factor(
        &mut self,
        edges: &[[End; 2]],
        siemens: impl Fn(usize) -> f64,
        forgiving: bool,
    ) -> Option<Factor> {
        self.values.x.fill(0.0);
        let mut add = |place: usize, value: f64| {
            if let Some(entry) = self.values.x.get_mut(place) {
                *entry += value;
            }
        };
        for (edge, ends) in edges.iter().enumerate() {
            let value = siemens(edge);
            for end in ends.iter().flatten() {
                if let Some(&place) = self.diagonal.get(*end) {
                    add(place, value);
                }
            }
            if let Some(Some(places)) = self.beside.get(edge) {
                for &place in places {
                    add(place, -value);
                }
            }
        }
        for &place in self.diagonal.get(self.idle.clone()).unwrap_or_default() {
            add(place, 1.0);
        }
        let entry = |place: &usize| self.values.x.get(*place).copied().unwrap_or(0.0);
        let largest = self.diagonal.iter().map(entry).fold(0.0_f64, f64::max);
        let mut shifted = 0.0;
        for share in SHIFTS {
            for &place in &self.diagonal {
                if let Some(entry) = self.values.x.get_mut(place) {
                    *entry += share * largest - shifted;
                }
            }
            shifted = share * largest;
            match rsparse::chol(&self.values, &mut self.symbolic) {
                Ok(factor) => return Some(Factor(factor)),
                Err(_) if !forgiving => return None,
                Err(_) => {}
            }
        }
        None
    }

    /// The unknowns for the given right-hand side, which they replace.
    pub(super) fn solve(&self, factor: &Factor, right: &mut [f64]) {
        let Some(order) = &self.symbolic.pinv else { return };
        let mut turned = vec![0.0; order.len()];
        let places = || order.iter().map(|&place| usize::try_from(place).unwrap_or(0));
        for (place, value) in places().zip(right.iter()) {
            if let Some(entry) = turned.get_mut(place) {
                *entry = *value;
            }
        }
        rsparse::lsolve(&factor.0.l, &mut turned);
        rsparse::ltsolve(&factor.0.l, &mut turned);
        for (place, value) in places().zip(right.iter_mut()) {
            *value = turned.get(place).copied().unwrap_or(0.0);
        }
    }
}
