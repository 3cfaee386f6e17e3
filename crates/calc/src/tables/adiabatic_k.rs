//! k of copper conductors for the adiabatic equation, A·√s per mm².
//!
//! Document BS 7671, Table 43.1. Mark: read. Address: <https://online.flipbuilder.com/hzzr/jtap/files/basic-html/page25.html>.
//! The 85 °C rubber value is from memory. Each agrees within 0.5 % with the formula of `adiabatic::adiabatic_k_from_temperatures`.

use crate::citation::{Citation, Mark};

pub(crate) static CITATION: Citation = Citation {
    document: "BS 7671",
    place: "Table 43.1, copper",
    edition: "edition not stated in the copy seen",
    mark: Mark::Read,
    address: "https://online.flipbuilder.com/hzzr/jtap/files/basic-html/page25.html",
};

pub(crate) static PROTECTIVE: Citation = Citation {
    document: "BS 7671",
    place: "Table 54.2, separate protective conductor of copper",
    edition: "edition not stated in the copy seen",
    mark: Mark::Read,
    address: "https://online.flipbuilder.com/hzzr/jtap/files/basic-html/page25.html",
};

pub(crate) static REMEMBERED: Citation = Citation {
    document: "BS 7671",
    place: "Table 43.1, copper, 85 °C rubber",
    edition: "from memory",
    mark: Mark::Memory,
    address: "",
};

pub(crate) static BY_CLASS: Citation = Citation {
    document: "IEC 60364-5-54",
    place: "formula for k; end temperature 160 °C up to a 105 °C class, 250 °C above",
    edition: "formula from memory, end temperatures chosen",
    mark: Mark::Chosen,
    address: "",
};

/// Above this area thermoplastic cables have the lower value, mm².
pub(crate) const LARGE_MM2: f64 = 300.0;

/// (up to 300 mm², above).
pub(crate) const THERMOPLASTIC_70: (f64, f64) = (115.0, 103.0);
pub(crate) const THERMOPLASTIC_90: (f64, f64) = (100.0, 86.0);
pub(crate) const THERMOSETTING_60: (f64, f64) = (141.0, 141.0);
pub(crate) const THERMOSETTING_85: (f64, f64) = (134.0, 134.0);
pub(crate) const THERMOSETTING_90: (f64, f64) = (143.0, 143.0);
pub(crate) const PROTECTIVE_THERMOPLASTIC_70: (f64, f64) = (143.0, 133.0);
pub(crate) const PROTECTIVE_THERMOSETTING_90: (f64, f64) = (176.0, 176.0);
