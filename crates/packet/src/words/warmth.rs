//! Texts of the sheets of warm air, compartments and holes.

pub const DUCTS: &str = "Warm air";
pub const DUCTS_PURPOSE: &str =
    "For the heating installer and the reviewer: what each duct takes and loses on the coldest night.";
pub const AIR_FLOW: &str = "Air without ducts";
pub const AIR_MOVED: &str = "Air through its ducts";
pub const BLOWN_AT: &str = "Leaves it at";
pub const DELIVERED: &str = "Heat that reaches people";
pub const WARMS: &str = "Warms";
pub const DUCT: &str = "Duct";
pub const BORE: &str = "Bore";
pub const BENDS: &str = "Bends";
pub const THROUGH: &str = "Runs through";
pub const INSULATION: &str = "Insulation";
pub const AIR_SHARE: &str = "Air";
pub const SENT: &str = "Heat that enters";
pub const LOST: &str = "Lost in the cold";
pub const ARRIVES: &str = "Comes out at";
pub const NO_DUCT: &str = "no heater tells its ducts and the air that it blows";
pub const COMPARTMENTS: &str = "Converters in their compartment";
pub const COMPARTMENTS_PURPOSE: &str =
    "For the electrician and the reviewer: how warm compartments get on the hottest day, and what inverters then give.";
pub const AMBIENT: &str = "Counted on";
pub const DEVICE_HEAT: &str = "Heat in it";
pub const AIR_INSIDE: &str = "Air in it";
pub const ASKED: &str = "Asked for hours";
pub const AIR_AROUND: &str = "Air round it";
pub const GIVEN: &str = "Gives then";
pub const NOTE_COMPARTMENTS: &str = "Standing air without wind; of batteries those count whose resistance is said.";
pub const NO_COMPARTMENT: &str =
    "no compartment tells its highest temperature and a load for hours, and no inverter what it gives in warm air";
pub const HOLES: &str = "Holes through the skin";
pub const HOLES_PURPOSE: &str = "For whoever cuts and seals, and for whoever looks at the seals later.";
pub const CARRIES: &str = "For";
pub const SEALED: &str = "Sealed with";
pub const EDGE: &str = "Cut edge";
pub const FOAM: &str = "Foam cut back";
pub const REACH: &str = "Looked at from";
pub const NO_HOLE: &str = "no hole through a face is described";
