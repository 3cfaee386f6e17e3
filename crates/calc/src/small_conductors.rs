//! Small conductors: the largest device the NEC lets them have, the next standard size up, and the smallest conductors of each text.

use crate::citation::{Citation, Mark};
use crate::conductor::{ConductorSize, SAME_AREA, awg_area};
use crate::device_window::standard_rating_from;
use crate::number::{at_most, positive};
use crate::protection::standard_ratings;
use crate::tables::nec_small_conductors as table;

/// Largest overcurrent device of a small copper conductor, A: NEC 240.4(D), for the NEC's own wiring.
///
/// An area takes the largest gauge that has no more copper (within 0.5 % it counts as that gauge). `None` above 10 AWG, to which the clause
/// does not apply, below 18 AWG, and for an area that is not positive and finite.
#[must_use]
pub fn small_conductor_limit(size: ConductorSize) -> Option<(f64, &'static Citation)> {
    by_gauge(&table::ROWS_240_4, size)
}

/// Largest overcurrent device of a conductor of a park trailer's low-voltage circuits, A: NEC Table 552.10(E)(1) (numbers from memory).
/// `None` as in [`small_conductor_limit`].
#[must_use]
pub fn park_trailer_limit(size: ConductorSize) -> Option<(f64, &'static Citation)> {
    by_gauge(&table::ROWS_552_10, size)
}

fn by_gauge(rows: &'static [(i8, f64, &'static Citation)], size: ConductorSize) -> Option<(f64, &'static Citation)> {
    let area = size.area();
    let &(largest, _, _) = rows.last()?;
    if !positive(area) || area > awg_area(largest) * (1.0 + SAME_AREA) {
        return None;
    }
    let &(_, amperes, citation) = rows.iter().rfind(|row| awg_area(row.0) * (1.0 - SAME_AREA) <= area)?;
    Some((amperes, citation))
}

/// Where [`next_size_up`] comes from.
pub static NEXT_SIZE_UP: Citation = Citation {
    document: "NEC 240.4(B)",
    place: "next standard size up to 800 A where no standard size matches",
    edition: "2023, as quoted; 700 and 800 A of 240.6(A) from memory",
    mark: Mark::SecondHand,
    address: "",
};

/// Standard ratings of 240.6(A) between the seen part of the list and the end of 240.4(B), A (from memory).
const LARGE_RATINGS: [f64; 2] = [700.0, 800.0];
const LARGEST_ROUNDED_UP: f64 = 800.0;

/// Largest standard device of a conductor's ampacity A by NEC 240.4(B), A ([`NEXT_SIZE_UP`]).
///
/// The ampacity itself where it is a standard size, else the next standard size. A branch circuit with more than one receptacle for
/// portable loads may not round up: it takes the next standard size down. `None` above 800 A, for nothing below the smallest standard size,
/// and for an ampacity that is not positive and finite.
#[must_use]
pub fn next_size_up(ampacity: f64, several_receptacles: bool) -> Option<f64> {
    if !positive(ampacity) || !at_most(ampacity, LARGEST_ROUNDED_UP) {
        return None;
    }
    if several_receptacles {
        let below = |rating: &&f64| at_most(**rating, ampacity);
        return LARGE_RATINGS.iter().rfind(below).or_else(|| standard_ratings(true).iter().rfind(below)).copied();
    }
    standard_rating_from(true, ampacity)
        .or_else(|| LARGE_RATINGS.iter().copied().find(|&rating| at_most(ampacity, rating)))
}

/// A text that sets a smallest conductor, and for what.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SmallestFor {
    /// 33 CFR 183.425(e): a boat's conductor that lies by itself.
    BoatLawSeparate,
    /// 33 CFR 183.425(d): a core of a boat's sheathed cable.
    BoatLawSheathed,
    /// ISO 10133 7.7: a small craft's conductor longer than 200 mm that lies by itself.
    SmallCraftSeparate,
    /// ISO 10133 7.7: a core of a small craft's sheathed cable.
    SmallCraftSheathed,
    /// 46 CFR 183.340(c): power and lighting of a small passenger vessel.
    PassengerVesselPower,
    /// 46 CFR 183.340(c): control circuits of a small passenger vessel.
    PassengerVesselControl,
    /// IEC 60364-7-721: mains wiring of a caravan.
    CaravanMains,
    /// NEC 310.3(A): mains wiring in the United States.
    UnitedStatesMains,
}

/// The smallest conductor that a text allows, and the text.
#[must_use]
pub fn smallest_conductor(what: SmallestFor) -> (ConductorSize, &'static Citation) {
    static BOAT_LAW: Citation = Citation {
        document: "33 CFR 183.425",
        place: "(d) in a sheath, (e) separate",
        edition: "eCFR text of about April 2023",
        mark: Mark::Read,
        address: "http://federal.elaws.us/cfr/title-33/section-183.425",
    };
    static SMALL_CRAFT: Citation =
        Citation { document: "ISO 10133", place: "7.7", edition: "2012", mark: Mark::Read, address: "" };
    static PASSENGER_VESSEL: Citation = Citation {
        document: "46 CFR 183.340(c)",
        place: "smallest conductors of power, lighting and control",
        edition: "undated copy",
        mark: Mark::Read,
        address: "http://laws9.com/cfr/text/46/183/340",
    };
    static CARAVAN: Citation = Citation {
        document: "IEC 60364-7-721",
        place: "smallest conductor of mains wiring; a national rule for caravans prints the same",
        edition: "clause not seen",
        mark: Mark::SecondHand,
        address: "",
    };
    static NEC: Citation = Citation {
        document: "NEC 310.3(A)",
        place: "smallest conductor up to 2,000 V",
        edition: "not seen",
        mark: Mark::Memory,
        address: "",
    };
    match what {
        SmallestFor::BoatLawSeparate => (ConductorSize::Awg(16), &BOAT_LAW),
        SmallestFor::BoatLawSheathed => (ConductorSize::Awg(18), &BOAT_LAW),
        SmallestFor::SmallCraftSeparate => (ConductorSize::Area(1e-6), &SMALL_CRAFT),
        SmallestFor::SmallCraftSheathed => (ConductorSize::Area(0.75e-6), &SMALL_CRAFT),
        SmallestFor::PassengerVesselPower => (ConductorSize::Awg(14), &PASSENGER_VESSEL),
        SmallestFor::PassengerVesselControl => (ConductorSize::Awg(22), &PASSENGER_VESSEL),
        SmallestFor::CaravanMains => (ConductorSize::Area(1.5e-6), &CARAVAN),
        SmallestFor::UnitedStatesMains => (ConductorSize::Awg(14), &NEC),
    }
}
