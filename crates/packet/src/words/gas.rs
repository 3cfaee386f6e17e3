//! Texts of the gas sheets.

pub const STORES: &str = "Gas: cylinders and cartridges";
pub const STORES_PURPOSE: &str = "For the gas fitter and the reviewer: what gas is aboard, and how it stands.";
pub const LOCKERS: &str = "Gas: lockers";
pub const LOCKERS_PURPOSE: &str =
    "For the gas fitter: each closed space with a cylinder in it, its openings and what could set gas alight.";
pub const LINES: &str = "Gas: lines";
pub const LINES_PURPOSE: &str =
    "For the gas fitter: each line with everything that it feeds, and how its tightness is tested.";
pub const PIPES: &str = "Gas: regulators, hoses, pipes, valves";
pub const PIPES_PURPOSE: &str = "For the gas fitter: each piece in the order in which the gas meets it.";
pub const APPLIANCES: &str = "Gas: appliances";
pub const APPLIANCES_PURPOSE: &str =
    "For the gas fitter: what burns at the end of each line, at which pressure, and how it is shut off.";
pub const GAS: &str = "Gas";
pub const CONTENT: &str = "Content";
pub const STANDS_IN: &str = "Stands in";
pub const UPRIGHT: &str = "Upright";
pub const FIXINGS: &str = "Fixings";
pub const ON_THE_ROAD: &str = "Valve while driving";
pub const SEALED: &str = "Sealed from the living space";
pub const STOPS_IN_CRASH: &str = "Shut off in a crash";
pub const SHARE_OF_LIMIT: &str = "Emptied into its space: part of the lower explosive limit";
pub const CYLINDERS: &str = "Cylinders";
pub const FLOOR_AREA: &str = "Floor";
pub const FIXED_LOW: &str = "Fixed low openings";
pub const DRAINED: &str = "Drained to the open air";
pub const SUFFICE: &str = "Openings suffice";
pub const REACHED: &str = "Opened from";
pub const SILL: &str = "Sill";
pub const IGNITION: &str = "Sparks, glows or burns in it";
pub const FROM: &str = "From";
pub const FED: &str = "Feeds";
pub const CONNECTED_LOAD: &str = "Connected load, gross";
pub const GAS_FLOW: &str = "Gas that it takes";
pub const CYLINDER_GIVES: &str = "The cylinder gives for long, half empty, in the coldest night";
pub const LONGEST: &str = "Longest way";
pub const REGULATED: &str = "Regulator before everything";
pub const TIGHTNESS: &str = "Tightness test";
pub const TESTED: &str = "Tested on";
pub const SIZE: &str = "Outside diameter";
pub const WALL: &str = "Wall";
pub const MATERIAL: &str = "Material";
pub const BORE: &str = "Bore";
pub const LENGTH: &str = "Length";
pub const LOAD_BEHIND: &str = "Heat of everything behind it";
pub const CARRIES: &str = "Heat that it carries over the longest way";
pub const GIVES: &str = "Pressure that it gives";
pub const LETS_THROUGH: &str = "Gas that it lets through";
pub const REPLACE_BY: &str = "Replace by";
pub const REACH: &str = "From its appliance";
pub const JOINTS: &str = "Joints";
pub const SUPPORTS: &str = "Between supports, at most";
pub const APPLIANCE: &str = "Appliance";
pub const TAKES: &str = "Heat that it takes, gross";
pub const SUPPLY_PRESSURE: &str = "Regulator gives";
pub const RATED_PRESSURE: &str = "Made for";
pub const PRESSURE_LOST: &str = "Lost on the way, everything burning";
pub const HAS_REGULATOR: &str = "Regulator before it";
pub const HAS_VALVE: &str = "Hand valve before it";
pub const VALVE_REACH: &str = "Valve from it";
pub const NOTE_LOAD: &str =
    "The connected load counts everything on a line as burning at once; heat is gross, as the gas is bought.";
pub const NOTHING: &str = "no gas is described";
pub const NO_LOCKER: &str = "no closed space with a gas cylinder is described";
