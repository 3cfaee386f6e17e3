//! Mains supply of a vehicle: the lead, a reel, protective conductors, and how many circuits an inlet feeds.

use crate::citation::{Citation, Mark};
use crate::conductor::{ConductorSize, MM2_PER_M2, SAME_AREA};
use crate::number::{not_negative, positive};
use crate::tables::{bs7671_reel, iec_721_supply_lead};

/// Smallest copper area of the lead to a caravan, m², by the rating of the supply A: IEC 60364-7-721 Table 721.1 (16 A second-hand, the
/// others from memory).
///
/// A rating between two rows takes the row above. `None` above 100 A and for a rating that is not positive and finite.
#[must_use]
pub fn supply_lead_area(rating_amperes: f64) -> Option<(f64, &'static Citation)> {
    if !positive(rating_amperes) {
        return None;
    }
    let row = iec_721_supply_lead::ROWS.iter().find(|row| rating_amperes <= row.0)?;
    Some((row.1 / MM2_PER_M2, row.2))
}

/// Factor on the capacity of a cord that lies wound on a reel, by the layers: BS 7671, notes to Table 4F1A. No layer: 1.
///
/// `None` above four layers, where the notes end.
#[must_use]
pub fn reel_factor(layers: u32) -> Option<(f64, &'static Citation)> {
    let factor = match usize::try_from(layers).ok()?.checked_sub(1) {
        None => 1.0,
        Some(index) => *bs7671_reel::LAYERS.get(index)?,
    };
    Some((factor, &bs7671_reel::CITATION))
}

/// Where [`smallest_protective_conductor`] comes from.
pub static PROTECTIVE_CONDUCTOR: Citation = Citation {
    document: "BS 7671",
    place: "Table 54.7, protective conductor by the line conductor",
    edition: "edition not stated in the copy seen",
    mark: Mark::Read,
    address: "",
};

// BS 7671 Table 54.7, m².
const SAME_UP_TO: f64 = 16e-6;
const SIXTEEN_UP_TO: f64 = 35e-6;

/// Smallest protective conductor of the same copper, m², by the line conductor's area m²: the same to 16 mm², 16 mm² to 35 mm² (an area
/// within 0.5 % counts as these), half above ([`PROTECTIVE_CONDUCTOR`]).
///
/// A smaller one can be shown to be enough by [`crate::smallest_area`]. `None` for an area that is not positive and finite.
#[must_use]
pub fn smallest_protective_conductor(line_area: f64) -> Option<f64> {
    if !positive(line_area) {
        return None;
    }
    Some(if line_area <= SAME_UP_TO * (1.0 + SAME_AREA) {
        line_area
    } else if line_area <= SIXTEEN_UP_TO * (1.0 + SAME_AREA) {
        SAME_UP_TO
    } else {
        line_area / 2.0
    })
}

/// Smallest conductor that bonds the vehicle's frame: 8 AWG in the United States (NEC 551.56(C), second-hand), 4 mm² elsewhere
/// (IEC 60364-7-721, from memory).
#[must_use]
pub fn smallest_chassis_bond(united_states: bool) -> (ConductorSize, &'static Citation) {
    static NEC: Citation = Citation {
        document: "NEC 551.56(C)",
        place: "bonding of metal parts, copper",
        edition: "2020",
        mark: Mark::SecondHand,
        address: "https://codebookcity.com/codearticles/nec/necarticle551-2.htm",
    };
    static IEC: Citation = Citation {
        document: "IEC 60364-7-721",
        place: "bonding of metal parts of the frame, stranded copper",
        edition: "figure not seen",
        mark: Mark::Memory,
        address: "",
    };
    if united_states { (ConductorSize::Awg(8), &NEC) } else { (ConductorSize::Area(4e-6), &IEC) }
}

/// Most branch circuits of 15 or 20 A on an inlet by its rating A, NEC 551.42: one on 15 or 20 A (from memory), five on 30 A (read in
/// 552.46(A), and in a state's text that lets a sixth).
///
/// `None` for other ratings: the 50 A assembly of the article has no such limit, and for others it has no words.
#[must_use]
pub fn most_circuits_on_inlet(inlet_amperes: f64) -> Option<(u32, &'static Citation)> {
    static FIVE: Citation = Citation {
        document: "NEC 552.46(A)",
        place: "two to five circuits of 15 or 20 A on a 30 A supply; that 551.42(C) ends at five shows in OAR 918-525-0042(3)",
        edition: "2008, and the state's text of 2012",
        mark: Mark::Read,
        address: "",
    };
    static ONE: Citation = Citation {
        document: "NEC 551.42(A) and (B)",
        place: "one circuit on a 15 A or 20 A supply",
        edition: "not seen",
        mark: Mark::Memory,
        address: "",
    };
    if inlet_amperes == 15.0 || inlet_amperes == 20.0 {
        Some((1, &ONE))
    } else if inlet_amperes == 30.0 {
        Some((5, &FIVE))
    } else {
        None
    }
}

/// Where the cord of a park trailer enters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CordEntry {
    /// On a side.
    Side,
    /// At the rear.
    Rear,
}

/// Where [`cord_length_limits`] comes from.
pub static CORD_LENGTH: Citation = Citation {
    document: "NEC 552.44(B)",
    place: "length of the power-supply cord of a park trailer",
    edition: "2008",
    mark: Mark::Read,
    address: "http://solar365.com/green-homes/national-electric-code-2008/park-trailers/page/0/5?page=0,5",
};

// NEC 552.44(B), m.
const SHORTEST_SIDE_CORD: f64 = 7.0;
const SHORTEST_REAR_CORD: f64 = 8.5;
const LONGEST_CORD: f64 = 11.0;
const ENTRY_HEIGHT_WITHOUT_EXTRA: f64 = 0.9;

/// Shortest and longest length of a park trailer's supply cord, m: 7.0 m (side) or 8.5 m (rear) plus what the entry lies above 0.9 m, and
/// 11 m ([`CORD_LENGTH`]).
///
/// `entry_height` above the ground, m. `None` where it is below zero or not finite.
#[must_use]
pub fn cord_length_limits(entry: CordEntry, entry_height: f64) -> Option<(f64, f64)> {
    if !not_negative(entry_height) {
        return None;
    }
    let base = match entry {
        CordEntry::Side => SHORTEST_SIDE_CORD,
        CordEntry::Rear => SHORTEST_REAR_CORD,
    };
    Some((base + (entry_height - ENTRY_HEIGHT_WITHOUT_EXTRA).max(0.0), LONGEST_CORD))
}
