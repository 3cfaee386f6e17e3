//! How many ways out a bus needs for the people in it.
//!
//! UN R107 Annex 3, 7.6.1: the least number of all exits of a compartment, service doors included; all hatches count as one. Read in a
//! draft of 2011 that became the 06 series. Mark: read (draft).

use crate::{Citation, Mark};

/// Where [`exits_for_people`] comes from.
pub static BUS_EXITS: Citation = Citation {
    document: "UN R107",
    place: "Annex 3, 7.6.1",
    edition: "draft of 2011 of the later 06 series",
    mark: Mark::Read,
    address: "",
};

/// The most people for each number of exits, from two exits on.
const MOST_PEOPLE: [u32; 9] = [8, 16, 30, 45, 60, 75, 90, 110, 130];

/// The exits for few people.
const FEWEST: u32 = 2;

/// The least number of exits for so many passengers and crew in one compartment; two for none.
#[must_use]
pub fn exits_for_people(people: u32) -> u32 {
    let more = MOST_PEOPLE.iter().filter(|most| people > **most).count();
    FEWEST.saturating_add(u32::try_from(more).unwrap_or(u32::MAX))
}
