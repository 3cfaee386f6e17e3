//! Texts of the bill of materials.

pub const TITLE: &str = "Bill of materials";
pub const PURPOSE: &str =
    "For the buyer: the things, conductors and devices of the build, with supplier and cost where they are given.";
pub const WHAT: &str = "What";
pub const DETAIL: &str = "As specified";
pub const SUPPLIER: &str = "Supplier";
pub const PART_NUMBER: &str = "Supplier's number";
pub const COST: &str = "Cost";
pub const MASS_FROM: &str = "Mass from";
pub const STATUS: &str = "Ordered, fitted, serial number";
pub const THINGS: &str = "Things";
pub const CONDUCTORS: &str = "Conductors, cut length out and back";
pub const DEVICES: &str = "Fuses and breakers";
pub const SUM: &str = "Sum of the costs given";
pub const NOTE_LENGTH: &str =
    "Lengths are what the conductor schedule says to cut, the return included where it is a conductor; waste is not.";
pub const NOTE_COST: &str = "Sums cover only what a cost is given for; without a cost:";
pub const FUSE: &str = "fuse";
pub const BREAKER: &str = "breaker";
pub const COUNT: &str = "Count";
pub const LENGTH: &str = "Length";
pub const UNKNOWN_LENGTHS: &str = "lengths that are not known are left out";
pub const NOTHING: &str = "no part is described";
pub const WASTE: &str = "Waste";
pub const HOURS: &str = "Work";
pub const COSTS: &str = "Costs";
pub const PARTS_COST: &str = "All parts, with waste and what has no price of its own";
pub const WORK_HOURS: &str = "Work on all parts";
pub const TOTAL_COST: &str = "Parts and work";
pub const BUDGET: &str = "The client will pay";
