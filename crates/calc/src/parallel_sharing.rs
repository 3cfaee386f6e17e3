//! How equal batteries in parallel share a load.

use crate::number::{not_negative, positive};

/// More batteries in one bank than any vehicle has. Chosen, so that nonsense gets no answer.
const MOST_BATTERIES: u32 = 1_000;

/// Current of each battery of a ladder, A, the one at the load first: equal batteries side by side, both load leads at the first.
///
/// `internal_ohms` of one battery, Ω; `link_ohms` of the plus and the minus link between two neighbours together, Ω; `total_amperes` of the
/// load. From the far end: a battery's current adds to the link toward the load, the drop there adds to what the next battery must make up,
/// so that i(k−1) = i(k) + (R_link/R_i)·Σ i(k…n) (Kirchhoff); then all are scaled to the load. `None` for no battery or above 1,000, for an
/// internal resistance or a load that is not positive and finite, and for links below zero.
#[must_use]
pub fn ladder_sharing(batteries: u32, internal_ohms: f64, link_ohms: f64, total_amperes: f64) -> Option<Vec<f64>> {
    let usable = (1..=MOST_BATTERIES).contains(&batteries)
        && positive(internal_ohms)
        && not_negative(link_ohms)
        && positive(total_amperes);
    if !usable {
        return None;
    }
    let ratio = link_ohms / internal_ohms;
    // The farthest battery gives one; each nearer one more.
    let (mut current, mut sum) = (1.0, 0.0);
    let mut from_far = Vec::new();
    for _ in 0..batteries {
        current += ratio * sum;
        sum += current;
        from_far.push(current);
    }
    let shared: Vec<f64> = from_far.into_iter().rev().map(|share| share / sum * total_amperes).collect();
    shared.iter().all(|share| share.is_finite()).then_some(shared)
}

/// Current of each of equal batteries on one bar, A: the load shared by the conductances 1/(R_i + R_lead).
///
/// `internal_ohms` of one battery, Ω; `lead_ohms` of each battery's plus and minus lead together, Ω. Leads of one length give equal shares.
/// `None` for no battery, for an internal resistance or a load A that is not positive and finite, and for leads below zero.
#[must_use]
pub fn bar_sharing(internal_ohms: f64, lead_ohms: &[f64], total_amperes: f64) -> Option<Vec<f64>> {
    let usable = !lead_ohms.is_empty()
        && positive(internal_ohms)
        && positive(total_amperes)
        && lead_ohms.iter().all(|&ohms| not_negative(ohms));
    if !usable {
        return None;
    }
    let siemens: Vec<f64> = lead_ohms.iter().map(|ohms| 1.0 / (internal_ohms + ohms)).collect();
    let all: f64 = siemens.iter().sum();
    let shared: Vec<f64> = siemens.into_iter().map(|own| own / all * total_amperes).collect();
    shared.iter().all(|share| share.is_finite()).then_some(shared)
}
