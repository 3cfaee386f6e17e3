//! Texts of the sheet of what stands around the vehicle.

pub const AROUND: &str = "Around the vehicle: engine's exhaust, awnings, ramps, spaces that stay free";
pub const AROUND_PURPOSE: &str = "For the builder and the reviewer: where the engine's gas leaves and its pipe is hot, what stands beside the vehicle.";
pub const FUEL: &str = "Fuel";
pub const MOUTH: &str = "Mouth";
pub const AHEAD_OF_REAR: &str = "Mouth ahead of the rear";
pub const OPENINGS_ABOVE: &str = "Opening straight above";
pub const GAS_NEAR: &str = "Gas near it";
pub const SHIELDED: &str = "Heat shield";
pub const OPEN_SIDES: &str = "Sides that stay open";
pub const REASON: &str = "Stays free for";
pub const THINGS_INSIDE: &str = "Reaches into it";
pub const LEADS_TO: &str = "Leads to";
pub const LENGTH: &str = "Length";
pub const CLEAR_WIDTH: &str = "Clear width";
pub const SLOPE: &str = "Slope";
pub const NOTHING: &str = "no exhaust of the engine, no awning, no ramp and no space that stays free is described";
