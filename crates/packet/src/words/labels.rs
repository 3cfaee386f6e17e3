//! Texts of the labels. The labels' own texts are ours; where an authority prescribes a wording, that goes first.

pub const TITLE: &str = "Labels";
pub const PURPOSE: &str =
    "For whoever prints and fixes the labels: each text with its place. Copying errors on labels alone cause recalls.";
pub const TEXT: &str = "Text";
pub const WHERE: &str = "Where";
pub const FIXED: &str = "Fixed by, on";
pub const BATTERIES: &str = "Batteries and switches";
pub const PANELS: &str = "Panels and boards";
pub const SHORE: &str = "Shore connection";
pub const FUEL: &str = "Fuel, gas and water";
pub const PEOPLE: &str = "People and mass";
pub const ISOLATOR: &str = "Battery switch. Off disconnects:";
pub const REPLACE: &str = "Replace only by the same type.";
pub const LITHIUM: &str = "Lithium iron phosphate battery";
pub const LEAD: &str = "Lead battery";
pub const PANEL: &str = "Fuse panel. Replace fuses only by the ratings of the directory.";
pub const BOARD: &str = "Mains board. Disconnect the shore cable and every inverter before opening.";
pub const INLET: &str = "Shore supply";
pub const ALTERNATING: &str = "alternating current";
pub const FREQUENCY_BY_HAND: &str = "frequency: write in";
pub const TEST_RCD: &str = "Press the test button of the residual-current device after each connection.";
pub const FILLER: &str = "Switch the fuel heater off before refuelling.";
pub const CYLINDERS: &str =
    "Gas cylinders. Close the valves when not in use. Upright, strapped, nothing else in this locker.";
pub const NOT_DRINKING: &str = "Waste water. Not for drinking.";
pub const DRINKING: &str = "Fresh water. Holds";
pub const EXIT: &str = "Way out";
pub const MASS: &str = "Permissible laden mass";
pub const AS_BUILT: &str = "Mass as built: not weighed";
pub const AS_BUILT_WHERE: &str = "beside the driver's door, once the finished vehicle is weighed";
pub const BY_DRIVER: &str = "beside the driver's door";
pub const AT_FILLER: &str = "at the fuel filler";
pub const AT: &str = "at";
pub const NOT_FOR_TRAVEL: &str = "Not a seat or berth for travel.";
pub const COMBUSTION: &str =
    "Never heat with a cooker or an appliance that is not part of this vehicle: carbon monoxide kills.";
pub const NOTE_MASS: &str =
    "A mass label is made from weighed values only. The specification holds no weighing of the finished vehicle.";
pub const NOTE_WORDING: &str = "Wordings that an authority prescribes come before these. Labels of conductors stand in the conductor schedule, those of the ways in the panel directory.";
pub const AS_WEIGHED: &str = "Mass as built, weighed:";
pub const NOTE_WEIGHED: &str = "A mass label is made from weighed values only: the mass as built is the sum of what the scale showed of every axle.";
