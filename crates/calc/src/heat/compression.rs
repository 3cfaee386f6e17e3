//! Pressed wool: how much of its resistance stays.

use crate::citation::Citation;
use crate::input::{InputError, need_within};
use crate::tables::compression::{INTERPOLATED, KEPT, READ};

/// How fibrous insulation is pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Pressing {
    /// A batt between two plane faces.
    EvenBatt,
    /// A batt over ribs or into a curve.
    UnevenBatt,
    /// Blown wool into a curve.
    UnevenBlown,
}

/// Share of the nominal thermal resistance that fibrous insulation keeps at a share of its nominal thickness (0 to 1), and the source.
/// Straight lines between the rows of whole per cent. At half thickness an evenly pressed batt keeps 61 %.
///
/// # Errors
/// A share of the thickness outside 0 to 1.
pub fn resistance_kept(thickness_share: f64, pressing: Pressing) -> Result<(f64, &'static Citation), InputError> {
    const PER_CENT: f64 = 100.0;
    let per_cent = need_within("share of the nominal thickness", thickness_share, 0.0, 1.0)? * PER_CENT;
    let column = |row: &[u8; 3]| {
        f64::from(match pressing {
            Pressing::UnevenBatt => row[0],
            Pressing::UnevenBlown => row[1],
            Pressing::EvenBatt => row[2],
        })
    };
    let mut below = (0.0, 0.0);
    for (index, row) in KEPT.iter().enumerate() {
        let here = (index as f64, column(row));
        // 0.29 × 100 is not 29 in binary.
        if (per_cent - here.0).abs() < 1e-9 {
            return Ok((here.1 / PER_CENT, &READ));
        }
        if here.0 > per_cent {
            return Ok(((below.1 + (here.1 - below.1) * (per_cent - below.0)) / PER_CENT, &READ));
        }
        below = here;
    }
    let part = (per_cent - below.0) / (PER_CENT - below.0);
    Ok(((below.1 + (PER_CENT - below.1) * part) / PER_CENT, &INTERPOLATED))
}
