//! Voltage-drop limits by text and purpose.
//!
//! * US small-craft guidance E-11, 11.14.2.6: 3 % and 10 %; two quotations agree, their addresses carry trade names. Mark: second-hand.
//!   ISO 10133 lists 3 % for about the same circuits (read excerpt).
//! * EN 1648-2 (12 V motor caravans): 0.2 V and 0.8 V, quoted at <https://campingforum.at/campingforum/archive/index.php/t-4364.html>.
//!   Mark: second-hand.
//! * AS/NZS 3001.2 5 %, NEC 210.19(A) 3 % and 5 % (a recommendation), IEC 60364-5-52 Annex G 3 % and 5 %: from memory.
//! * Vehicle lamps: California 13 CCR 1249(c), at least 85 % of the design voltage at the socket with the engine running. Mark: read.
//!   Address: <http://gamutonline.net/district/chawanakee/DisplayPolicy/368275/2>.

use crate::citation::{Citation, Mark};

const fn citation(
    document: &'static str,
    place: &'static str,
    edition: &'static str,
    mark: Mark,
    address: &'static str,
) -> Citation {
    Citation { document, place, edition, mark, address }
}

pub(crate) static SMALL_CRAFT_CRITICAL: Citation = citation(
    "US small-craft guidance E-11",
    "11.14.2.6, main feeders, electronics, navigation lights, bilge blowers: 3 %",
    "quoted, undated",
    Mark::SecondHand,
    "",
);
pub(crate) static SMALL_CRAFT_OTHER: Citation = citation(
    "US small-craft guidance E-11",
    "11.14.2.6, other circuits: 10 %",
    "quoted, undated",
    Mark::SecondHand,
    "",
);
pub(crate) static MOTOR_CARAVAN_CHARGING: Citation = citation(
    "EN 1648-2",
    "charging line from the vehicle to the habitation battery: 0.2 V at 12 V, named as an example",
    "as quoted, undated",
    Mark::SecondHand,
    "https://campingforum.at/campingforum/archive/index.php/t-4364.html",
);
pub(crate) static MOTOR_CARAVAN_OTHER: Citation = citation(
    "EN 1648-2",
    "other habitation lines: 0.8 V at 12 V, unless the appliance's maker asks for less",
    "as quoted, undated",
    Mark::SecondHand,
    "https://campingforum.at/campingforum/archive/index.php/t-4364.html",
);
pub(crate) static AUSTRALIA: Citation =
    citation("AS/NZS 3001.2", "extra-low voltage: 5 %", "not seen", Mark::Memory, "");
pub(crate) static NEC: Citation = citation(
    "NEC 210.19(A)",
    "informational note: 3 % branch, 5 % in all (a recommendation)",
    "not seen",
    Mark::Memory,
    "",
);
pub(crate) static IEC: Citation = citation(
    "IEC 60364-5-52",
    "Annex G: lighting 3 %, other uses 5 % (as BS 7671 Appendix 4)",
    "not seen",
    Mark::Memory,
    "",
);
pub(crate) static VEHICLE_LAMPS: Citation = citation(
    "California 13 CCR 1249(c)",
    "at least 85 % of the design voltage at the lamp's socket, engine running",
    "copy, undated",
    Mark::Read,
    "http://gamutonline.net/district/chawanakee/DisplayPolicy/368275/2",
);
