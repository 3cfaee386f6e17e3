//! Texts of the sheet of the vehicle as built.

pub const TITLE: &str = "As built: weighed beside reckoned";
pub const PURPOSE: &str = "For the reviewer and the handover: what the scale showed of the finished vehicle, how far the reckoning is off, and what follows for each state.";
pub const SUPPORT: &str = "Axle or coupling";
pub const RECKONED: &str = "Reckoned";
pub const WEIGHED: &str = "Weighed";
pub const LEFT: &str = "Left wheel";
pub const RIGHT: &str = "Right wheel";
pub const DIFFERENCE: &str = "Weighed less reckoned";
pub const TOLERANCE: &str = "Tolerance of what was reckoned";
pub const WITHIN: &str = "Within it";
pub const SET_RIGHT: &str = "Set right";
pub const LIMIT: &str = "May carry";
pub const MARGIN: &str = "To spare";
pub const WHOLE: &str = "Whole vehicle";
pub const COMPARED: &str = "As built";
pub const STATE: &str = "Set right by the scale";
pub const NOTE: &str = "“Set right” adds to each state what the scale showed more or less than was reckoned: whatever is not described rides along in every state.";
pub const NOTE_TOLERANCE: &str = "The tolerance is that of all masses together. A difference outside it means that something is not described, or weighs something else.";
pub const NOT_WEIGHED: &str = "the finished vehicle is not weighed: write what the scale shows as measured axle-mass";
pub const NOT_RECKONED: &str = "what the base vehicle weighed is not given, so that nothing can be compared";
