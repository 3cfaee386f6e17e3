//! Voltage and interrupting ratings of protective devices by generic class.
//!
//! * ISO 8820-3:2015 (blade), -4:2016 (cartridge), -5:2015 (strip), -6:2019 (single bolt): the scopes of the standards were read;
//!   the addresses are not given. Parts 3 and 4 come in 32 V or 58 V: the lower holds until the specification gives the rating.
//! * Class T (UL 248-15): 20 kA at 125 V direct, second-hand.
//! * IEC 60269 (bladed contacts) and ISO 8820-8: a trade overview, <https://ecs-online.org/Fuses-Circuit-Breakers:::25.html?language=en>,
//!   second-hand; the lower end of each range.
//! * IEC 60898-1 breakers: for alternating current only, second-hand (four pages agree).
//! * All other classes: no source was seen, so nothing is said; the specification must give the rating of the device.

use crate::citation::{Citation, Mark};
use crate::protection::ClassRating;

static ISO_8820_3: Citation = Citation {
    document: "ISO 8820-3",
    place: "scope: 32 V or 58 V, up to 100 A, 1,000 A",
    edition: "2015",
    mark: Mark::Read,
    address: "",
};

static ISO_8820_4: Citation = Citation {
    document: "ISO 8820-4",
    place: "scope: 32 V or 58 V, up to 140 A, 1,000 A",
    edition: "2016",
    mark: Mark::Read,
    address: "",
};

static ISO_8820_5: Citation = Citation {
    document: "ISO 8820-5",
    place: "scope: types SF 30 and SF 51, 32 V, 30 to 500 A, 2,000 A",
    edition: "2015",
    mark: Mark::Read,
    address: "",
};

static ISO_8820_6: Citation = Citation {
    document: "ISO 8820-6",
    place: "scope: 58 V, up to 300 A, 2,000 A",
    edition: "2019",
    mark: Mark::Read,
    address: "",
};

static ISO_8820_8: Citation = Citation {
    document: "ISO 8820-8",
    place: "at least 450 V, 10 to 50 kA",
    edition: "trade overview, undated",
    mark: Mark::SecondHand,
    address: "https://ecs-online.org/Fuses-Circuit-Breakers:::25.html?language=en",
};

static UL_248_15: Citation = Citation {
    document: "UL 248-15",
    place: "Class T, 20 kA at 125 V direct current",
    edition: "quoted in a discussion, undated",
    mark: Mark::SecondHand,
    address: "https://forum.expeditionportal.com/threads/help-me-not-burn-my-truck-down.248842/post-3226349",
};

static UL_248_2: Citation = Citation {
    document: "UL 248-2",
    place: "Class C, 600 V and 200 kA alternating; direct-current ratings are optional",
    edition: "2019",
    mark: Mark::Read,
    address: "",
};

static IEC_60269: Citation = Citation {
    document: "IEC 60269",
    place: "bladed contacts gG, 250 to 440 V direct, 25 kA or more",
    edition: "trade overview, undated",
    mark: Mark::SecondHand,
    address: "https://ecs-online.org/Fuses-Circuit-Breakers:::25.html?language=en",
};

static IEC_60898_1: Citation = Citation {
    document: "IEC 60898-1",
    place: "scope: alternating current only",
    edition: "quoted on several pages, undated",
    mark: Mark::SecondHand,
    address: "",
};

static NOT_KNOWN: Citation = Citation {
    document: "no source seen",
    place: "rating by the maker's data sheet only",
    edition: "",
    mark: Mark::Memory,
    address: "",
};

const fn nothing(citation: &'static Citation) -> ClassRating {
    ClassRating {
        direct_voltage: None,
        interrupting: None,
        alternating_voltage: None,
        alternating_interrupting: None,
        largest_rating: None,
        citation,
    }
}

const fn direct(volts: f64, amperes: f64, largest: Option<f64>, citation: &'static Citation) -> ClassRating {
    ClassRating {
        direct_voltage: Some(volts),
        interrupting: Some(amperes),
        alternating_voltage: None,
        alternating_interrupting: None,
        largest_rating: largest,
        citation,
    }
}

pub(crate) const BLADE: ClassRating = direct(32.0, 1_000.0, Some(100.0), &ISO_8820_3);
pub(crate) const CARTRIDGE: ClassRating = direct(32.0, 1_000.0, Some(140.0), &ISO_8820_4);
pub(crate) const STRIP: ClassRating = direct(32.0, 2_000.0, Some(500.0), &ISO_8820_5);
pub(crate) const SINGLE_BOLT: ClassRating = direct(58.0, 2_000.0, Some(300.0), &ISO_8820_6);
pub(crate) const HIGH_VOLTAGE_BOLT_DOWN: ClassRating = direct(450.0, 10_000.0, None, &ISO_8820_8);
pub(crate) const CLASS_T: ClassRating = direct(125.0, 20_000.0, None, &UL_248_15);
pub(crate) const NH: ClassRating = direct(250.0, 25_000.0, None, &IEC_60269);
pub(crate) const CLASS_C: ClassRating = ClassRating {
    direct_voltage: None,
    interrupting: None,
    alternating_voltage: Some(600.0),
    alternating_interrupting: Some(200_000.0),
    largest_rating: Some(1_200.0),
    citation: &UL_248_2,
};
pub(crate) const ALTERNATING_BREAKER: ClassRating = nothing(&IEC_60898_1);
pub(crate) const BY_DATA_SHEET: ClassRating = nothing(&NOT_KNOWN);
