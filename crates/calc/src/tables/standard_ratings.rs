//! Standard ratings of fuses and breakers, A.
//!
//! * NEC 240.6(A) up to 600 A: second-hand (several code summaries agree). The fuse extras 1, 3, 6 and 10 A: read at
//!   <https://www.ecmweb.com/national-electrical-code/qa/article/20904390/code-qa-fuse-and-breaker-ratings>.
//! * The other list is what road-vehicle and bolted direct-current fuses are commonly sold in: common practice, no source.

use crate::citation::{Citation, Mark};

pub(crate) static NEC: Citation = Citation {
    document: "NEC 240.6(A)",
    place: "standard ampere ratings up to 600 A, with the fuse ratings 1, 3, 6 and 10 A",
    edition: "edition not stated in the summaries seen",
    mark: Mark::SecondHand,
    address: "https://www.ecmweb.com/national-electrical-code/qa/article/20904390/code-qa-fuse-and-breaker-ratings",
};

pub(crate) static TRADE: Citation = Citation {
    document: "common practice, no source",
    place: "ratings that direct-current fuses are commonly sold in",
    edition: "",
    mark: Mark::CommonPractice,
    address: "",
};

pub(crate) static NEC_RATINGS: [f64; 30] = [
    1.0, 3.0, 6.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0,
    150.0, 175.0, 200.0, 225.0, 250.0, 300.0, 350.0, 400.0, 450.0, 500.0, 600.0,
];

pub(crate) static TRADE_RATINGS: [f64; 29] = [
    1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0, 125.0,
    150.0, 175.0, 200.0, 225.0, 250.0, 300.0, 350.0, 400.0, 450.0, 500.0,
];
