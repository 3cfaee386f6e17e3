//! Texts of the rescue card.

pub const TITLE: &str = "Rescue card";
pub const PURPOSE: &str = "For fire services, behind the windscreen: what this conversion carries that the base vehicle's own card does not show.";
pub const WHAT: &str = "What";
pub const WHERE: &str = "How much, where";
pub const BATTERY: &str = "Battery";
pub const ISOLATOR: &str = "Battery switch";
pub const MAINS: &str = "Mains inlet";
pub const MAINS_DO: &str = "may be live while a cable is plugged in; an inverter can feed the outlets without it";
pub const INVERTER: &str = "Inverter";
pub const SUN: &str = "Solar modules";
pub const SUN_DO: &str = "live whenever light falls on them";
pub const GAS: &str = "Gas cylinder";
pub const FUEL: &str = "Fuel tank";
pub const EXITS: &str = "Ways in and out";
pub const SLEEPERS: &str = "People who sleep aboard";
pub const NO_PLACE: &str = "place not described";
pub const NONE: &str = "None is described.";
pub const NOTE: &str =
    "Places: x rearward of the front axle, y to the right of the centre line, z above the living floor.";
