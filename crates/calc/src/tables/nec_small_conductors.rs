//! Largest overcurrent device of small copper conductors.
//!
//! * NEC 240.4(D): 14, 12, 10 AWG, after corrections. Mark: second-hand (code summaries agree; 2023 numbers the clauses (D)(4), (6), (8)).
//!   18 and 16 AWG, (D)(1) and (2): from memory, unverified.
//! * NEC Table 552.10(E)(1), low-voltage circuits of park trailers: that the table exists was read, its numbers are from memory.

use crate::citation::{Citation, Mark};

pub(crate) static SMALL: Citation = Citation {
    document: "NEC 240.4(D)",
    place: "14, 12 and 10 AWG copper: 15, 20 and 30 A",
    edition: "code summaries, the newest of 2023",
    mark: Mark::SecondHand,
    address: "",
};

pub(crate) static SMALLEST: Citation = Citation {
    document: "NEC 240.4(D)(1) and (2)",
    place: "18 and 16 AWG copper: 7 and 10 A",
    edition: "numbers not seen",
    mark: Mark::Memory,
    address: "",
};

pub(crate) static PARK_TRAILER: Citation = Citation {
    document: "NEC 552.10(E)(1)",
    place: "Table 552.10(E)(1), low-voltage overcurrent protection",
    edition: "2008 and 2020, numbers not seen",
    mark: Mark::Memory,
    address: "",
};

/// (gauge, A, source) of 240.4(D), falling gauge number: rising area.
pub(crate) static ROWS_240_4: [(i8, f64, &Citation); 5] =
    [(18, 7.0, &SMALLEST), (16, 10.0, &SMALLEST), (14, 15.0, &SMALL), (12, 20.0, &SMALL), (10, 30.0, &SMALL)];

/// (gauge, A, source) of 552.10(E)(1).
pub(crate) static ROWS_552_10: [(i8, f64, &Citation); 5] = [
    (18, 6.0, &PARK_TRAILER),
    (16, 8.0, &PARK_TRAILER),
    (14, 15.0, &PARK_TRAILER),
    (12, 20.0, &PARK_TRAILER),
    (10, 30.0, &PARK_TRAILER),
];
