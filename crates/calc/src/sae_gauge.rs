//! SAE gauge of road-vehicle cable: a system of its own, with less copper than the same AWG number.

use crate::citation::Citation;
use crate::conductor::M2_PER_CIRCULAR_MIL;
use crate::tables::sae_gauge as table;

/// Copper area of an SAE gauge, m²; 1/0 is 0, 2/0 is −1, 4/0 is −3. For 4/0, 2/0, 1/0, 2, 4, 6 (second-hand) and 8 (inferred).
///
/// `None` for all others: the AWG area would be too much by 3 to 11 %.
#[must_use]
pub fn sae_gauge_area(gauge: i8) -> Option<(f64, &'static Citation)> {
    let &(_, circular_mils, citation) = table::ROWS.iter().find(|row| row.0 == gauge)?;
    Some((circular_mils * M2_PER_CIRCULAR_MIL, citation))
}
