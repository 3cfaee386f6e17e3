//! Direct-current resistance at 75 °C, Ω per 1,000 ft, uncoated copper.
//!
//! Document NEC chapter 9, Table 8. Mark: read. Address: <http://www.sfasoft.com/look/35/Conductor_Properties> (a printed copy).

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "NEC chapter 9",
    place: "Table 8, uncoated copper",
    edition: "edition not stated in the copy seen",
    mark: Mark::Read,
    address: "http://www.sfasoft.com/look/35/Conductor_Properties",
};

pub(crate) static BETWEEN: Citation = Citation {
    document: "NEC chapter 9 and ASTM B258",
    place: "area of the gauge over 1.7241e-8 Ω·m; the lay factor of stranded wire from Table 8",
    edition: "edition not stated in the copy seen",
    mark: Mark::Computed,
    address: "http://www.sfasoft.com/look/35/Conductor_Properties",
};

/// Temperature of the table, °C.
pub(crate) const CELSIUS: f64 = 75.0;

/// 1,000 ft in metres (1 ft = 0.3048 m exactly).
pub(crate) const METRES_PER_1000_FEET: f64 = 304.8;

/// (gauge, Ω/kft), stranded, in rising order of area.
// One printed value happens to look like a well-known constant.
#[allow(clippy::approx_constant)]
pub(crate) static STRANDED: [(i8, f64); 15] = [
    (18, 7.95),
    (16, 4.99),
    (14, 3.14),
    (12, 1.98),
    (10, 1.24),
    (8, 0.778),
    (6, 0.491),
    (4, 0.308),
    (3, 0.245),
    (2, 0.194),
    (1, 0.154),
    (0, 0.122),
    (-1, 0.0967),
    (-2, 0.0766),
    (-3, 0.0608),
];

/// (gauge, Ω/kft), solid; the copy gives these four.
pub(crate) static SOLID: [(i8, f64); 4] = [(14, 3.07), (12, 1.93), (10, 1.21), (8, 0.764)];
