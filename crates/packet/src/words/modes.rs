//! Texts of the modes table and of what stays live.

pub const TITLE: &str = "Modes";
pub const PURPOSE: &str = "For the electrician, and for the owner's handbook: which sources feed and which switches are open in each use of the build.";
pub const LIVE_TITLE: &str = "Live when off";
pub const LIVE_PURPOSE: &str =
    "For whoever works on the wiring: what still carries voltage with each battery switch off, and from which source.";
pub const CUT_TITLE: &str = "When a battery's management cuts off";
pub const CUT_PURPOSE: &str =
    "For the electrician: what goes dark when a battery's own electronics cut it off, and what is still fed.";
pub const MODE: &str = "Mode";
pub const DESCRIBED: &str = "Described in the specification";
pub const FEEDING: &str = "Feeds all the time";
pub const AT_TIMES: &str = "Feeds at times";
pub const OPEN: &str = "Open";
pub const EITHER: &str = "May stand either way";
pub const DEAD: &str = "Fed while parked, here not all the time";
pub const UNSAID: &str = "Would change with";
pub const STATE: &str = "State";
pub const THINGS: &str = "What";
pub const FROM: &str = "Fed all the time by";
pub const FROM_AT_TIMES: &str = "Fed at times by";
pub const LIVE: &str = "live";
pub const LIVE_AT_TIMES: &str = "live at times";
pub const DIES: &str = "dead";
pub const NOTE: &str = "The first modes are there in every build of this sort; the specification can describe more, and say of each what feeds and what is open.";
pub const NOTE_DEAD: &str =
    "While parked, the build lives on its own stores, in the dark, with every disconnect closed.";
pub const NOTE_LIVE: &str = "Prove that there is no voltage before work, whatever this table says.";
pub const NOTE_CUT: &str = "A management cuts off without asking: nothing that must stay on may hang on one battery.";
pub const NOTHING: &str = "no circuit is described";
pub const NO_DISCONNECT: &str = "no disconnect is described";
pub const NO_MANAGEMENT: &str = "no battery with a management that cuts off is described";
