//! Polyisocyanurate foam in the cold: it insulates worse the colder its middle, against the habit of other foams.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_positive};
use crate::interval::Interval;
use crate::temperature::CELSIUS_ZERO;

/// Where [`polyisocyanurate_factor`] comes from.
pub static POLYISOCYANURATE_IN_COLD: Citation = Citation {
    document: "building-science information sheet 502 and roofing contractors' tests",
    place: "conductivity by mean temperature; the middle line through the tests",
    edition: "2013 and 2010",
    mark: Mark::Chosen,
    address: "https://buildingscience.com/documents/information-sheets/info-502-temperature-dependent-r-value",
};

/// (mean temperature °C; least, chosen and greatest factor on the conductivity that is measured at 23.9 °C). Tests as quoted:
/// 4.4 °C 1.056 and 1.12; −3.9 °C 1.24, a cold winter day 1.33. The series with 1.056 ends at 4.4 °C: the least factor at −4 °C draws it on
/// at its slope from 10 °C down. The greatest factor at 10 °C lies on the line from 1.12 to the label's test. The chosen line keeps 1 down
/// to 10 °C.
const ROWS: [(f64, [f64; 3]); 3] = [(-4.0, [1.14, 1.25, 1.33]), (4.4, [1.056, 1.10, 1.12]), (10.0, [1.0, 1.0, 1.086])];

fn at(mean_kelvin: f64, column: usize) -> Result<f64, InputError> {
    let celsius = need_positive("mean temperature of the foam", mean_kelvin)? - CELSIUS_ZERO;
    let value = |row: &[f64; 3]| row.get(column).copied().unwrap_or(1.0);
    let mut below: Option<(f64, f64)> = None;
    for (limit, row) in &ROWS {
        let here = value(row);
        if celsius <= *limit {
            return Ok(match below {
                None => here,
                Some((colder, factor)) => factor + (here - factor) * (celsius - colder) / (limit - colder),
            });
        }
        below = Some((*limit, here));
    }
    // The greatest factor comes down to 1 at the temperature of the label's test only.
    const LABEL_TEST: f64 = 23.9;
    Ok(match below {
        Some((warmest, factor)) if celsius < LABEL_TEST => {
            factor + (1.0 - factor) * (celsius - warmest) / (LABEL_TEST - warmest)
        }
        _ => 1.0,
    })
}

/// Factor on the conductivity of polyisocyanurate by the mean temperature of the foam K: 1 from 10 °C up, 1.10 at 4.4 °C, 1.25 at −4 °C and
/// below ([`POLYISOCYANURATE_IN_COLD`]). A van's wall at 18 °C inside and −10 °C outside has a mean of 4 °C.
///
/// # Errors
/// A temperature that is not above 0 K.
pub fn polyisocyanurate_factor(mean_kelvin: f64) -> Result<f64, InputError> {
    at(mean_kelvin, 1)
}

/// Bounds of the same factor by the tests that were seen: 1.06 to 1.12 at 4.4 °C, 1.14 to 1.33 at −4 °C.
///
/// # Errors
/// A temperature that is not above 0 K.
pub fn polyisocyanurate_factor_bounds(mean_kelvin: f64) -> Result<Interval, InputError> {
    Interval::new(at(mean_kelvin, 0)?, at(mean_kelvin, 2)?)
}
