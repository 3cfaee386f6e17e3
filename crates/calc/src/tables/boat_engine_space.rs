//! Engine spaces (50 °C) against the 30 °C of the boat table.
//!
//! Document 33 CFR 183.425, Table 5 note 1. 105 °C: second-hand. 60, 75 and 90 °C: from memory, equal to the 46–50 °C row of
//! NEC 310.15(B)(1). For 80, 125 and 200 °C no text was seen, so the temperature formula answers (the remembered 1.00 of the
//! 200 °C column would be on the unsafe side of it).

use crate::citation::{Citation, Mark};

pub(crate) static SEEN: Citation = Citation {
    document: "33 CFR 183.425",
    place: "Table 5 note 1, 105 °C",
    edition: "quoted in two wiring guides, undated",
    mark: Mark::SecondHand,
    address: "https://www.jamestowndistributors.com/userportal/document.do?docId=84",
};

pub(crate) static REMEMBERED: Citation = Citation {
    document: "33 CFR 183.425",
    place: "Table 5 note 1",
    edition: "from memory, equal to the 46–50 °C row of NEC 310.15(B)(1)",
    mark: Mark::Memory,
    address: "",
};

/// The ambient temperature of the note, °C.
pub(crate) const AMBIENT_CELSIUS: f64 = 50.0;

/// The ambient temperature of the table, °C.
pub(crate) const BASE_CELSIUS: f64 = 30.0;

/// (insulation °C, factor, source).
pub(crate) static ROWS: [(f64, f64, &Citation); 4] =
    [(60.0, 0.58, &REMEMBERED), (75.0, 0.75, &REMEMBERED), (90.0, 0.82, &REMEMBERED), (105.0, 0.85, &SEEN)];
