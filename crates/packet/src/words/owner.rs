//! Texts of the owner's safety sheet: plain words for everybody aboard.

pub const TITLE: &str = "Safety sheet";
pub const PURPOSE: &str = "One page, to hang by the door.";
pub const TOPIC: &str = "What";
pub const DO: &str = "Where, and what to do";
pub const OUT: &str = "Ways out";
pub const OUT_DO: &str = "Keep them free. If there is fire or smoke, get out first, then call for help.";
pub const POWER_OFF: &str = "Switch the batteries off";
pub const NO_SWITCH: &str = "No battery switch is described.";
pub const SHORE_OFF: &str = "Cut the mains";
pub const SHORE_DO: &str =
    "Pull the shore cable at the site's post. An inverter can still feed the outlets: switch it off too.";
pub const GAS_OFF: &str = "Shut the gas";
pub const GAS_DO: &str = "Close the valve of each cylinder. If you smell gas: no flame, no switch, everybody out.";
pub const FUEL_HEATER: &str = "Fuel heater";
pub const FUEL_HEATER_DO: &str =
    "Off before refuelling and in closed spaces. Keep its exhaust and its air intake free of snow and mud.";
pub const ALARMS: &str = "Alarms";
pub const ALARMS_NONE: &str = "No alarm is described.";
pub const ALARM_DO: &str = "If the carbon monoxide alarm sounds: open the doors, everybody out, then call for help. Headache and sickness are its signs.";
pub const MONOXIDE: &str = "Carbon monoxide";
pub const MONOXIDE_DO: &str =
    "Never heat with a cooker, a barbecue, charcoal or a heater made for outdoors. Keep every vent open.";
pub const FIRE: &str = "Fire";
pub const FIRE_DO: &str =
    "Fight only a small fire with a free way out behind you. A burning lithium battery: get out and stay away.";
pub const EXTINGUISHER: &str = "Extinguisher";
pub const MASS: &str = "Mass";
pub const MASS_DO: &str = "Never more than this, people, water and luggage included. The finished vehicle is not weighed in this specification: have it weighed.";
pub const MASS_UNKNOWN: &str = "The permissible laden mass is not given: read it on the vehicle's plate.";
pub const BEFORE: &str = "Before driving";
pub const BEFORE_DO: &str = "Shore cable in, step in, roof vents and windows shut, latches closed, gas shut, berths and tables stowed, nothing loose.";
pub const FROST: &str = "Frost";
pub const FROST_DO: &str = "Drain the water before the vehicle freezes through.";
pub const CHARGE_COLD: &str = "Do not charge below";
pub const FUSES: &str = "Fuses";
pub const FUSES_DO: &str =
    "See the directory in the lid. Never a larger one. A fuse that blows again has found a fault: leave it out.";
pub const SERVICE: &str = "Service";
pub const SERVICE_DO: &str = "See the service calendar.";
pub const BUILT: &str = "Built by";
pub const REACH: &str = "reached by";
pub const MASS_WEIGHED: &str = "Never more than this, people, water and luggage included. Empty, as built, it weighs";
pub const MASS_WEIGHED_DO: &str = "the rest is yours to load. See the sheet of mass and axles for where.";
