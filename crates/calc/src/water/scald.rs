//! How fast hot water burns skin, and published limits of mixed water.
//!
//! * Time to a deep burn of adult skin: a utility's and a hospital's page on scalds. Mark: second-hand. Children burn faster.
//! * Limits of mixed outlets in UK care premises: a page that quotes the health service. Mark: second-hand.
//! * 49 °C (120 °F) of US anti-scald valves, ASSE 1016: from memory.

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_positive};
use crate::temperature::{CELSIUS_ZERO, kelvin};

/// Source of [`scald_seconds`].
pub static SCALD: Citation = Citation {
    document: "pages on scalds of a utility and of a children's hospital",
    place: "time to a second or third degree burn by water temperature",
    edition: "undated",
    mark: Mark::SecondHand,
    address: "",
};

/// (°C, least s). 48.9 °C is printed as more than five minutes; 62.8 °C as less than three seconds, so that the time of the next row counts.
const ROWS: [(f64, f64); 9] = [
    (48.9, 300.0),
    (51.7, 90.0),
    (54.4, 30.0),
    (57.2, 10.0),
    (60.0, 3.0),
    (62.8, 1.5),
    (65.6, 1.5),
    (68.3, 1.0),
    (71.1, 0.5),
];

/// Shortest time in which water of that temperature K burns deep, s ([`SCALD`]); `None` below 48.9 °C, where the table has no value. Between
/// two rows the hotter one counts, so that the time is never too long; above the last row it is 0.
///
/// # Errors
/// A temperature that is not above 0 K.
pub fn scald_seconds(temperature: f64) -> Result<Option<f64>, InputError> {
    const SAME: f64 = 1e-6;
    let celsius = need_positive("water temperature", temperature)? - CELSIUS_ZERO;
    let coldest = ROWS.first().map_or(f64::INFINITY, |row| row.0);
    if celsius < coldest - SAME {
        return Ok(None);
    }
    Ok(Some(ROWS.iter().find(|row| row.0 >= celsius - SAME).map_or(0.0, |row| row.1)))
}

/// A published greatest temperature of mixed water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutletLimit {
    /// Outlet: `bath`, `assisted-bath`, `shower`, `basin`, `bidet`.
    pub outlet: &'static str,
    /// Temperature, K.
    pub temperature: f64,
    /// Source.
    pub citation: &'static Citation,
}

static CARE: Citation = Citation {
    document: "NHS guidance on mixed water in care premises",
    place: "greatest temperature by outlet",
    edition: "quoted on two pages",
    mark: Mark::SecondHand,
    address: "",
};

/// Greatest temperatures of mixed water in UK care premises.
pub static MIXED_OUTLET: [OutletLimit; 5] = [
    OutletLimit { outlet: "bath", temperature: kelvin(44.0), citation: &CARE },
    OutletLimit { outlet: "assisted-bath", temperature: kelvin(46.0), citation: &CARE },
    OutletLimit { outlet: "shower", temperature: kelvin(41.0), citation: &CARE },
    OutletLimit { outlet: "basin", temperature: kelvin(41.0), citation: &CARE },
    OutletLimit { outlet: "bidet", temperature: kelvin(38.0), citation: &CARE },
];

/// Limit of US anti-scald valves, K, with its source.
pub static ANTI_SCALD: (f64, Citation) = (
    kelvin(48.9),
    Citation {
        document: "ASSE 1016",
        place: "120 °F at showers and baths",
        edition: "not seen",
        mark: Mark::Memory,
        address: "",
    },
);
