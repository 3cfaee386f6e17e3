//! Times in which protective devices open, by class: points of "not before" and of "not after" over multiples of the rated current.
//!
//! * Blade, common size: one maker's sheets for 35 and 40 A (second-hand); the points marked memory are ISO 8820-3 as remembered. Where the
//!   two differ the wider band stands.
//! * Small blade (ISO 8820-3 type F), bolted strip (ISO 8820-5) and single bolt: memory; no text was seen.
//! * Large blade: one maker's sheets for 40 A (second-hand).
//! * Class T (UL 248-15): the overload tests of UL 248-1 as remembered. Class C (UL 248-2): read; the address is not given.
//! * Thermal breakers: SAE J553 as remembered.
//! * Breakers of IEC 60898-1: the conventional currents, the check at 2.55 times the rating and the ends of the magnetic range are
//!   second-hand (four pages agree); the longest times at the lower end of the magnetic range are memory. Of IEC 60898-2 on direct current
//!   the magnetic range is memory.
//! * Flat plate, cartridge, bladed and cylindrical contacts, glass, high-voltage bolt-down, moulded-case and hydraulic-magnetic devices: no
//!   times were seen or are remembered well enough; nothing is said.
//!
//! The maker's sheet of the device overrides all of it.

use crate::citation::{Citation, Mark};

/// A time at a multiple of the rated current, and where it comes from.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Point {
    pub(crate) multiple: f64,
    pub(crate) seconds: f64,
    pub(crate) citation: &'static Citation,
}

/// The band of a class over a range of ratings.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Band {
    /// Ratings up to this, A.
    pub(crate) up_to: f64,
    /// It does not open before these times; rising multiples.
    pub(crate) not_before: &'static [Point],
    /// It has opened after these times; rising multiples.
    pub(crate) not_after: &'static [Point],
    /// True where the last time holds for every larger multiple by the standard's own words.
    pub(crate) ends_open: bool,
}

const fn cite(document: &'static str, place: &'static str, mark: Mark) -> Citation {
    Citation { document, place, edition: "", mark, address: "" }
}

static BLADE_SHEET: Citation = cite("data sheet of blade fuses, 35 and 40 A", "time-current table", Mark::SecondHand);
static LARGE_SHEET: Citation = cite("data sheet of large blade fuses, 40 A", "time-current table", Mark::SecondHand);
static ISO_8820_3: Citation = cite("ISO 8820-3", "operating times, as remembered", Mark::Memory);
static ISO_8820_5: Citation = cite("ISO 8820-5", "operating times, as remembered", Mark::Memory);
static ISO_8820_6: Citation = cite("ISO 8820-6", "operating times, as remembered", Mark::Memory);
static UL_248_1: Citation =
    cite("UL 248-1 and UL 248-15", "overload operation of Class T, as remembered", Mark::Memory);
static UL_248_2: Citation = cite("UL 248-2", "8.2.3 and 8.3.4, 2019", Mark::Read);
static SAE_J553: Citation = cite("SAE J553", "trip times, as remembered", Mark::Memory);
static IEC_60898_1: Citation = cite("IEC 60898-1", "time-current operating characteristics", Mark::SecondHand);
static IEC_60898_1_LONGEST: Citation =
    cite("IEC 60898-1", "longest time at the lower end of the magnetic range, as remembered", Mark::Memory);
static IEC_60898_2: Citation = cite("IEC 60898-2", "magnetic range on direct current, as remembered", Mark::Memory);

const fn at(multiple: f64, seconds: f64, citation: &'static Citation) -> Point {
    Point { multiple, seconds, citation }
}

/// Every rating.
const ANY: f64 = f64::INFINITY;
/// A hundred hours, s.
const HUNDRED_HOURS: f64 = 360_000.0;
/// Four hours, s.
const FOUR_HOURS: f64 = 14_400.0;
const HOUR: f64 = 3_600.0;
const MINUTE: f64 = 60.0;

const fn fuse(not_before: &'static [Point], not_after: &'static [Point]) -> Band {
    Band { up_to: ANY, not_before, not_after, ends_open: false }
}

pub(crate) static BLADE: [Band; 1] = [fuse(
    &[
        at(1.0, HUNDRED_HOURS, &BLADE_SHEET),
        at(1.1, HUNDRED_HOURS, &ISO_8820_3),
        at(1.35, 0.75, &BLADE_SHEET),
        at(2.0, 0.15, &BLADE_SHEET),
        at(3.5, 0.04, &ISO_8820_3),
        at(6.0, 0.02, &ISO_8820_3),
    ],
    &[
        at(1.35, 600.0, &BLADE_SHEET),
        at(2.0, 5.0, &BLADE_SHEET),
        at(3.5, 0.5, &BLADE_SHEET),
        at(6.0, 0.15, &BLADE_SHEET),
    ],
)];

pub(crate) static BLADE_SMALL: [Band; 1] = [fuse(
    &[
        at(1.1, HUNDRED_HOURS, &ISO_8820_3),
        at(1.35, 0.75, &ISO_8820_3),
        at(2.0, 0.15, &ISO_8820_3),
        at(3.5, 0.04, &ISO_8820_3),
        at(6.0, 0.02, &ISO_8820_3),
    ],
    &[at(1.35, 600.0, &ISO_8820_3), at(2.0, 5.0, &ISO_8820_3), at(3.5, 0.5, &ISO_8820_3), at(6.0, 0.1, &ISO_8820_3)],
)];

pub(crate) static BLADE_LARGE: [Band; 1] = [fuse(
    &[
        at(1.0, HUNDRED_HOURS, &LARGE_SHEET),
        at(1.35, 60.0, &LARGE_SHEET),
        at(2.0, 2.0, &LARGE_SHEET),
        at(3.5, 0.2, &LARGE_SHEET),
        at(6.0, 0.04, &LARGE_SHEET),
    ],
    &[
        at(1.35, 1_800.0, &LARGE_SHEET),
        at(2.0, 50.0, &LARGE_SHEET),
        at(3.5, 7.0, &LARGE_SHEET),
        at(6.0, 1.0, &LARGE_SHEET),
    ],
)];

pub(crate) static STRIP: [Band; 1] = [fuse(
    &[
        at(1.0, FOUR_HOURS, &ISO_8820_5),
        at(1.35, 120.0, &ISO_8820_5),
        at(2.0, 1.0, &ISO_8820_5),
        at(3.5, 0.3, &ISO_8820_5),
        at(6.0, 0.1, &ISO_8820_5),
    ],
    &[at(1.35, 1_800.0, &ISO_8820_5), at(2.0, 15.0, &ISO_8820_5), at(3.5, 5.0, &ISO_8820_5), at(6.0, 1.0, &ISO_8820_5)],
)];

pub(crate) static SINGLE_BOLT: [Band; 1] = [fuse(
    &[
        at(1.0, FOUR_HOURS, &ISO_8820_6),
        at(1.35, 120.0, &ISO_8820_6),
        at(2.0, 1.0, &ISO_8820_6),
        at(3.5, 0.3, &ISO_8820_6),
        at(6.0, 0.1, &ISO_8820_6),
    ],
    &[at(1.35, 1_800.0, &ISO_8820_6), at(2.0, 15.0, &ISO_8820_6), at(3.5, 5.0, &ISO_8820_6), at(6.0, 1.0, &ISO_8820_6)],
)];

/// It carries 1.1 times the rating for a quarter of an hour, above 200 A for half an hour.
static T_HOLDS: [Point; 1] = [at(1.1, 15.0 * MINUTE, &UL_248_1)];
static T_HOLDS_LARGE: [Point; 1] = [at(1.1, 30.0 * MINUTE, &UL_248_1)];

const fn class_t(up_to: f64, not_before: &'static [Point], not_after: &'static [Point]) -> Band {
    Band { up_to, not_before, not_after, ends_open: false }
}

pub(crate) static CLASS_T: [Band; 6] = [
    class_t(30.0, &T_HOLDS, &[at(1.35, HOUR, &UL_248_1), at(2.0, 2.0 * MINUTE, &UL_248_1)]),
    class_t(60.0, &T_HOLDS, &[at(1.35, HOUR, &UL_248_1), at(2.0, 4.0 * MINUTE, &UL_248_1)]),
    class_t(100.0, &T_HOLDS, &[at(1.35, 2.0 * HOUR, &UL_248_1), at(2.0, 6.0 * MINUTE, &UL_248_1)]),
    class_t(200.0, &T_HOLDS, &[at(1.35, 2.0 * HOUR, &UL_248_1), at(2.0, 8.0 * MINUTE, &UL_248_1)]),
    class_t(400.0, &T_HOLDS_LARGE, &[at(1.35, 2.0 * HOUR, &UL_248_1), at(2.0, 10.0 * MINUTE, &UL_248_1)]),
    class_t(600.0, &T_HOLDS_LARGE, &[at(1.35, 2.0 * HOUR, &UL_248_1), at(2.0, 12.0 * MINUTE, &UL_248_1)]),
];

pub(crate) static CLASS_C: [Band; 3] = [
    // Of the smallest ratings the longest time was not seen.
    class_t(60.0, &[at(1.1, 15.0 * MINUTE, &UL_248_2)], &[]),
    class_t(200.0, &[at(1.1, 15.0 * MINUTE, &UL_248_2)], &[at(1.6, 2.0 * HOUR, &UL_248_2)]),
    class_t(600.0, &[at(1.1, 30.0 * MINUTE, &UL_248_2)], &[at(1.6, 4.0 * HOUR, &UL_248_2)]),
];

pub(crate) static THERMAL: [Band; 1] = [Band {
    up_to: 200.0,
    not_before: &[at(1.0, HOUR, &SAE_J553)],
    not_after: &[at(1.35, HOUR, &SAE_J553), at(2.0, MINUTE, &SAE_J553)],
    ends_open: false,
}];

/// The breaker trips within this at the upper end of the magnetic range and at every larger current, s.
const AT_ONCE: f64 = 0.1;

macro_rules! breaker {
    ($low:expr, $high:expr, $longest:expr, $range:expr) => {
        [
            breaker!(32.0, HOUR, 60.0, $low, $high, $longest[0], $range),
            breaker!(63.0, HOUR, 120.0, $low, $high, $longest[1], $range),
            // IEC 60898-1 ends at 125 A.
            breaker!(125.0, 2.0 * HOUR, 120.0, $low, $high, $longest[1], $range),
        ]
    };
    ($up_to:expr, $conventional:expr, $check:expr, $low:expr, $high:expr, $longest:expr, $range:expr) => {
        Band {
            up_to: $up_to,
            not_before: &[
                at(1.13, $conventional, &IEC_60898_1),
                at(2.55, 1.0, &IEC_60898_1),
                at($low, AT_ONCE, $range),
            ],
            not_after: &[
                at(1.45, $conventional, &IEC_60898_1),
                at(2.55, $check, &IEC_60898_1),
                at($low, $longest, &IEC_60898_1_LONGEST),
                // Up to here the slow part alone is sure to act; from here on the magnetic part is.
                at($high, $longest, &IEC_60898_1_LONGEST),
                at($high, AT_ONCE, $range),
            ],
            ends_open: true,
        }
    };
}

pub(crate) static BREAKER_B: [Band; 3] = breaker!(3.0, 5.0, [45.0, 90.0], &IEC_60898_1);
pub(crate) static BREAKER_C: [Band; 3] = breaker!(5.0, 10.0, [15.0, 30.0], &IEC_60898_1);
/// The longest time at ten times the rating is 8 s up to 10 A and 4 s above; the longer one stands.
pub(crate) static BREAKER_D: [Band; 3] = breaker!(10.0, 20.0, [8.0, 8.0], &IEC_60898_1);
pub(crate) static BREAKER_B_DIRECT: [Band; 3] = breaker!(4.0, 7.0, [45.0, 90.0], &IEC_60898_2);
pub(crate) static BREAKER_C_DIRECT: [Band; 3] = breaker!(7.0, 15.0, [15.0, 30.0], &IEC_60898_2);
