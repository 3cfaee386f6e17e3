//! Currents of joints: what flows through conductors without resistance.

use super::cholesky::{End, Matrix};
use super::input::Network;
use super::system::{System, is_joint};

/// For each element that is a joint of a live node its current, A, in the order of the elements; the others have none.
///
/// Kirchhoff's current law settles it where joints form no loop. In a loop they share as equal small resistances would.
pub(super) fn currents(network: &Network, system: &System, known: &[f64]) -> Vec<(usize, f64)> {
    let joint = |place: usize| network.elements.get(place).is_some_and(|element| is_joint(&element.part));
    let joints: Vec<usize> = (0..network.elements.len())
        .filter(|&place| {
            let [from, to] = system.nodes_of.get(place).copied().unwrap_or_default();
            joint(place) && from != to && system.unknown_of.get(from).copied().flatten().is_some()
        })
        .collect();
    if joints.is_empty() {
        return Vec::new();
    }
    // Each joint's leading node stands still, all its others are unknown.
    let mut number: Vec<End> = vec![None; system.ids.len()];
    let mut unknowns = 0;
    for &place in &joints {
        for node in system.nodes_of.get(place).copied().unwrap_or_default() {
            if system.merged.get(node) != Some(&node)
                && let Some(entry @ None) = number.get_mut(node)
            {
                *entry = Some(unknowns);
                unknowns += 1;
            }
        }
    }
    let end = |node: usize| number.get(node).copied().flatten();
    let mut right = vec![0.0; unknowns];
    for (place, current) in known.iter().enumerate().filter(|&(place, _)| !joint(place)) {
        let [from, to] = system.nodes_of.get(place).copied().unwrap_or_default();
        for (node, out) in [(from, *current), (to, -*current)] {
            if let Some(entry) = end(node).and_then(|unknown| right.get_mut(unknown)) {
                *entry -= out;
            }
        }
    }
    let ends: Vec<[End; 2]> =
        joints.iter().map(|&place| system.nodes_of.get(place).copied().unwrap_or_default().map(end)).collect();
    let mut matrix = Matrix::new(unknowns, &ends);
    let Some(factor) = matrix.factor(&ends, |_| 1.0, true) else { return Vec::new() };
    matrix.solve(&factor, &mut right);
    joints.into_iter().zip(&ends).map(|(place, &ends)| (place, super::system::across(ends, &right))).collect()
}
