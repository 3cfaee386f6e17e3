//! Smallest copper of the lead from a site's socket to a caravan, by the rating of its plug.
//!
//! Document IEC 60364-7-721, Table 721.1. The 16 A row is second-hand (four copies agree: section 721 as quoted at
//! <https://elektro.net/115175/elektrische-anlagen-in-caravans-und-motorcaravans>); the other rows are from memory, unverified.

use crate::citation::{Citation, Mark};

pub(crate) static FIRST_ROW: Citation = Citation {
    document: "IEC 60364-7-721",
    place: "Table 721.1, supply lead, 16 A",
    edition: "edition not stated in the copies seen",
    mark: Mark::SecondHand,
    address: "https://elektro.net/115175/elektrische-anlagen-in-caravans-und-motorcaravans",
};

pub(crate) static REMEMBERED: Citation = Citation {
    document: "IEC 60364-7-721",
    place: "Table 721.1, supply lead above 16 A",
    edition: "rows not seen",
    mark: Mark::Memory,
    address: "",
};

/// (rating A, mm², source), rising.
pub(crate) static ROWS: [(f64, f64, &Citation); 5] = [
    (16.0, 2.5, &FIRST_ROW),
    (25.0, 4.0, &REMEMBERED),
    (32.0, 6.0, &REMEMBERED),
    (63.0, 16.0, &REMEMBERED),
    (100.0, 35.0, &REMEMBERED),
];
