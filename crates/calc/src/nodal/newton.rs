//! Newton's method with a line search; every loop is bounded.

use super::cholesky::{End, Factor, Matrix};
use super::laws::{LEAK, Law};
use super::system::{System, across, at};

/// Most steps of one attempt. Chosen: linear networks take two, a load a billionth below the largest possible power about thirty.
const MOST_STEPS: usize = 100;
/// Halvings in the line search. Chosen: 2⁻⁵⁰ is about the rounding of a number.
const HALVINGS: usize = 50;
/// A step is taken whole when the slope at its end is below this share of the slope at its start. Chosen.
const FLAT: f64 = 1e-3;
/// In one step a constant-power load keeps at least this share of its voltage. Chosen.
const KEPT: f64 = 0.1;
/// A constant-power load that falls to this share of its first voltage has no solution. Chosen: at the largest power it is a half.
const COLLAPSED: f64 = 1e-3;
/// A step below this share of the largest voltage ends the iteration. Chosen: a hundred times the rounding.
const SMALL_STEP: f64 = 1e-14;
/// Rounding of a sum of a few products, as a share of their sizes. Chosen: 16 times the rounding of one number.
const ROUNDING: f64 = 16.0 * f64::EPSILON;
/// An imbalance of this many amperes is none. Chosen.
const NOTHING: f64 = 1e-13;
/// When the steps run out, an imbalance below this share of the largest current, or of an ampere, passes. Chosen.
const GOOD_ENOUGH: f64 = 1e-10;

/// Why an attempt gave nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Failure {
    /// Some constant power cannot be had.
    NoSolution,
    /// The numbers are too far apart.
    NotSettled,
}

/// What one look at the network gives.
struct Look {
    /// Sum of the currents that leave each unknown, A.
    imbalance: Vec<f64>,
    /// True where no imbalance is above its rounding.
    balanced: bool,
    /// The largest imbalance and the largest current, A.
    worst: f64,
    largest: f64,
    slopes: Vec<f64>,
}

/// The voltages under the given laws, from `start`, or from nothing. Adds the steps taken to `steps`.
pub(super) fn settle(
    system: &mut System,
    laws: &[Law],
    start: Option<&[f64]>,
    steps: &mut usize,
) -> Result<Vec<f64>, Failure> {
    let has_power = laws.iter().any(|law| matches!(law, Law::Power(_)));
    let failure = if has_power { Failure::NoSolution } else { Failure::NotSettled };
    let System { ends, matrix, unknowns, scale, .. } = system;
    let scale = scale.max(f64::MIN_POSITIVE);
    let mut volts = match start {
        Some(start) => start.to_vec(),
        None => first(matrix, ends, laws, *unknowns).ok_or(failure)?,
    };
    let collapsed: Vec<f64> = ends.iter().map(|&ends| COLLAPSED * across(ends, &volts)).collect();
    let mut held: Option<(Vec<f64>, Factor)> = None;
    let mut last = (f64::INFINITY, 0.0);
    for _ in 0..MOST_STEPS {
        let look = look(ends, laws, &volts);
        if look.balanced || look.worst <= NOTHING {
            return Ok(volts);
        }
        last = (look.worst, look.largest);
        *steps += 1;
        let factor = match held.take() {
            Some((slopes, factor)) if slopes == look.slopes => factor,
            _ => factorise(matrix, ends, laws, &look.slopes).ok_or(failure)?,
        };
        let mut step: Vec<f64> = look.imbalance.iter().map(|one| -one).collect();
        matrix.solve(&factor, &mut step);
        held = Some((look.slopes, factor));
        if step.iter().any(|one| !one.is_finite()) {
            return Err(failure);
        }
        let share = length(ends, laws, &volts, &step);
        let mut largest = 0.0_f64;
        for (value, step) in volts.iter_mut().zip(&step) {
            *value += share * step;
            largest = largest.max(step.abs());
        }
        let power = ends.iter().zip(laws).zip(&collapsed).filter(|((_, law), _)| matches!(law, Law::Power(_)));
        if power.into_iter().any(|((&ends, _), &least)| across(ends, &volts) <= least.max(0.0)) {
            return Err(Failure::NoSolution);
        }
        if largest <= SMALL_STEP * scale {
            return Ok(volts);
        }
    }
    let (worst, largest) = last;
    if worst <= GOOD_ENOUGH * largest.max(1.0) { Ok(volts) } else { Err(failure) }
}

/// The voltages when every element is taken on its active line, without the powers.
fn first(matrix: &mut Matrix, ends: &[[End; 2]], laws: &[Law], unknowns: usize) -> Option<Vec<f64>> {
    let line = |edge: usize| laws.get(edge).map_or((LEAK, 0.0), |law| law.first_line());
    let mut right = vec![0.0; unknowns];
    for (edge, ends) in ends.iter().enumerate() {
        put(&mut right, *ends, -line(edge).1);
    }
    let factor = matrix.factor(ends, |edge| line(edge).0, true)?;
    matrix.solve(&factor, &mut right);
    right.iter().all(|volts| volts.is_finite()).then_some(right)
}

/// The slopes as they are; where they do not make a definite matrix, without those of the powers: that step leads down toward the
/// solution as well, only in smaller strides.
fn factorise(matrix: &mut Matrix, ends: &[[End; 2]], laws: &[Law], slopes: &[f64]) -> Option<Factor> {
    let slope = |edge: usize| slopes.get(edge).copied().unwrap_or(LEAK);
    let falling = slopes.iter().any(|&slope| slope < 0.0);
    if let Some(factor) = matrix.factor(ends, slope, !falling) {
        return Some(factor);
    }
    let is_power = |edge: usize| matches!(laws.get(edge), Some(Law::Power(_)));
    matrix.factor(ends, |edge| if is_power(edge) { LEAK } else { slope(edge) }, true)
}

fn put(sums: &mut [f64], [one, other]: [End; 2], value: f64) {
    if let Some(entry) = one.and_then(|one| sums.get_mut(one)) {
        *entry += value;
    }
    if let Some(entry) = other.and_then(|other| sums.get_mut(other)) {
        *entry -= value;
    }
}

fn look(ends: &[[End; 2]], laws: &[Law], volts: &[f64]) -> Look {
    let (mut imbalance, mut sizes) = (vec![0.0; volts.len()], vec![0.0; volts.len()]);
    let mut slopes = Vec::with_capacity(ends.len());
    let mut largest = 0.0_f64;
    for (&[one, other], law) in ends.iter().zip(laws) {
        let (high, low) = (at(one, volts), at(other, volts));
        let (current, slope) = law.respond(high - low);
        put(&mut imbalance, [one, other], current);
        let size = law.size(high, low);
        for end in [one, other].into_iter().flatten() {
            if let Some(entry) = sizes.get_mut(end) {
                *entry += size;
            }
        }
        largest = largest.max(current.abs());
        slopes.push(slope);
    }
    let balanced = imbalance.iter().zip(&sizes).all(|(one, size)| one.abs() <= ROUNDING * size);
    let worst = imbalance.iter().fold(0.0_f64, |worst, one| worst.max(one.abs()));
    Look { imbalance, balanced, worst, largest, slopes }
}

/// How much of a step to take: down to where the function that the laws are the slopes of stops falling.
fn length(ends: &[[End; 2]], laws: &[Law], volts: &[f64], step: &[f64]) -> f64 {
    let mut most = 1.0_f64;
    for (&ends, law) in ends.iter().zip(laws) {
        if let Law::Power(_) = law {
            let (now, change) = (across(ends, volts), across(ends, step));
            if change < 0.0 {
                most = most.min((1.0 - KEPT) * now / -change);
            }
        }
    }
    let slope = |share: f64| -> f64 {
        let along = ends.iter().zip(laws).map(|(&ends, law)| {
            let change = across(ends, step);
            law.respond(across(ends, volts) + share * change).0 * change
        });
        along.sum()
    };
    if slope(most) <= FLAT * slope(0.0).abs() {
        return most;
    }
    let (mut low, mut high) = (0.0, most);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if slope(middle) <= 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    if low > 0.0 { low } else { high }
}
