//! Least interrupting capacity of breakers in small craft, A.
//!
//! US small-craft guidance E-11. Tables V.A and V.B (an older edition): read in a copy whose address carries a trade name. The clause on
//! large banks, 11.10.1.2.3 of about 2022: second-hand, quoted in two discussions.

use crate::citation::{Citation, Mark};

pub(crate) static TABLE_V_A: Citation = Citation {
    document: "US small-craft guidance E-11",
    place: "Table V.A, 12 and 24 V by cold-cranking amperes",
    edition: "older edition, undated",
    mark: Mark::Read,
    address: "",
};

pub(crate) static TABLE_V_B: Citation = Citation {
    document: "US small-craft guidance E-11",
    place: "Table V.B, 120 V shore supply of 30 A and 50 A",
    edition: "older edition, undated",
    mark: Mark::Read,
    address: "",
};

pub(crate) static LARGE_BANK: Citation = Citation {
    document: "US small-craft guidance E-11",
    place: "11.10.1.2.3, banks above 2,200 cold-cranking amperes or 500 Ah",
    edition: "about 2022, as quoted",
    mark: Mark::SecondHand,
    address: "",
};

/// (cold-cranking amperes up to, main A, branch A), rising.
pub(crate) static BY_CRANKING: [(f64, f64, f64); 3] =
    [(650.0, 1_500.0, 750.0), (1_100.0, 3_000.0, 1_500.0), (f64::INFINITY, 5_000.0, 2_500.0)];

/// (shore supply A, main A, branch A).
pub(crate) static BY_SHORE: [(f64, f64, f64); 2] = [(30.0, 3_000.0, 3_000.0), (50.0, 3_000.0, 3_000.0)];
