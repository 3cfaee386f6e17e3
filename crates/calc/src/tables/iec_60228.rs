//! Largest direct-current resistance of a copper conductor at 20 °C, Ω/km, plain annealed copper.
//!
//! Document IEC 60228:2004, the class 1/2 and class 5/6 columns; two independent copies agree. Mark: read.
//! Address: <https://www.etechnik-synergie.com/technical_information/condutor-resistance/>.
//! Tinned class 5 wires are up to 3 % above the plain column.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "IEC 60228",
    place: "largest conductor resistance at 20 °C, plain copper",
    edition: "2004",
    mark: Mark::Read,
    address: "https://www.etechnik-synergie.com/technical_information/condutor-resistance/",
};

pub(crate) static BETWEEN: Citation = Citation {
    document: "IEC 60228",
    place: "largest conductor resistance at 20 °C, lay factor between or beyond the rows over 1.7241e-8 Ω·m",
    edition: "2004",
    mark: Mark::Computed,
    address: "https://www.etechnik-synergie.com/technical_information/condutor-resistance/",
};

/// (mm², Ω/km) of class 1 and class 2.
pub(crate) static CLASS_1_2: [(f64, f64); 18] = [
    (0.5, 36.0),
    (0.75, 24.5),
    (1.0, 18.1),
    (1.5, 12.1),
    (2.5, 7.41),
    (4.0, 4.61),
    (6.0, 3.08),
    (10.0, 1.83),
    (16.0, 1.15),
    (25.0, 0.727),
    (35.0, 0.524),
    (50.0, 0.387),
    (70.0, 0.268),
    (95.0, 0.193),
    (120.0, 0.153),
    (150.0, 0.124),
    (185.0, 0.0991),
    (240.0, 0.0754),
];

/// (mm², Ω/km) of class 5 and class 6.
pub(crate) static CLASS_5_6: [(f64, f64); 18] = [
    (0.5, 39.0),
    (0.75, 26.0),
    (1.0, 19.5),
    (1.5, 13.3),
    (2.5, 7.98),
    (4.0, 4.95),
    (6.0, 3.30),
    (10.0, 1.91),
    (16.0, 1.21),
    (25.0, 0.780),
    (35.0, 0.554),
    (50.0, 0.386),
    (70.0, 0.272),
    (95.0, 0.206),
    (120.0, 0.161),
    (150.0, 0.129),
    (185.0, 0.106),
    (240.0, 0.0801),
];
