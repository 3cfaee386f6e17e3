//! Copper of road-vehicle cable by SAE gauge, circular mils: less than the same AWG number.
//!
//! Documents SAE J1127 and J1128 as a trade page prints them; the address carries a trade name. Mark: second-hand. The page's rows of 8 and
//! 10 gauge are shifted: 14,810 is given to gauge 8 here because it fits the pattern (0.897 of AWG); 10 gauge has no value.

use crate::citation::{Citation, Mark};

pub(crate) static PRINTED: Citation = Citation {
    document: "SAE J1127 and J1128",
    place: "circular mils by gauge",
    edition: "trade page, undated",
    mark: Mark::SecondHand,
    address: "",
};

pub(crate) static INFERRED: Citation = Citation {
    document: "SAE J1127 and J1128",
    place: "circular mils of gauge 8, placed by pattern from a shifted row",
    edition: "trade page, undated",
    mark: Mark::Chosen,
    address: "",
};

/// (gauge as for AWG, circular mils, source); 1/0 is 0, 2/0 is −1, 4/0 is −3.
pub(crate) static ROWS: [(i8, f64, &Citation); 7] = [
    (-3, 205_500.0, &PRINTED),
    (-1, 125_100.0, &PRINTED),
    (0, 98_980.0, &PRINTED),
    (2, 62_450.0, &PRINTED),
    (4, 37_360.0, &PRINTED),
    (6, 24_538.0, &PRINTED),
    (8, 14_810.0, &INFERRED),
];
