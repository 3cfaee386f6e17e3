//! Texts of the mass and axle sheets.

pub const TITLE: &str = "Mass and axles";
pub const PURPOSE: &str =
    "For the reviewer and whoever loads the vehicle: what each axle carries in each state, and what is left.";
pub const BALANCE: &str = "Balance";
pub const BALANCE_PURPOSE: &str =
    "For the reviewer: how the mass stands from side to side, along the vehicle and in height, in each state.";
pub const THINGS: &str = "Masses and what they load";
pub const THINGS_PURPOSE: &str =
    "For the designer: everything that weighs, the heaviest first, with what of it each axle carries.";
pub const MOVES: &str = "Moves that help most";
pub const MOVES_PURPOSE: &str = "For the designer: what to move first where an axle carries too much.";
pub const SUPPORT: &str = "Axle or coupling";
pub const LOAD: &str = "Carries";
pub const AT_MOST: &str = "With tolerances, at most";
pub const LIMIT: &str = "May carry";
pub const MARGIN: &str = "To spare";
pub const TYRES: &str = "Tyres carry";
pub const WHOLE: &str = "Whole vehicle";
pub const STATE: &str = "State";
pub const WORST_STATE: &str = "Loaded most";
pub const LEFT: &str = "Left wheels";
pub const RIGHT: &str = "Right wheels";
pub const DIFFERENCE: &str = "Difference";
pub const FRONT_SHARE: &str = "On the front axle";
pub const CENTRE_BEHIND: &str = "Centre of gravity behind where x begins";
pub const CENTRE_HEIGHT: &str = "Centre of gravity above the road";
pub const STABILITY: &str = "Half the track over that height";
pub const WHAT: &str = "What of it";
pub const FROM: &str = "Mass from";
pub const ON_FRONT: &str = "On the front axle or coupling";
pub const ON_REAR: &str = "On the axles behind";
pub const REAR_SHARE: &str = "Of each kilogram on the axles behind";
pub const SCALE: &str = "weighed";
pub const BASE: &str = "Base vehicle, as weighed";
pub const ABOARD: &str = "Fitted and aboard";
pub const SUM: &str = "Sum";
pub const MOVES_COLUMN: &str = "Moves";
pub const NOTE_STATES: &str =
    "“Filled worst” is whatever of people, tanks and cargo loads that side most, the rest left ashore.";
pub const NOTE_NOT_WEIGHED: &str =
    "These are reckoned values. The finished vehicle is weighed before it is handed over; only that goes on a label.";
pub const NOTE_EVEN: &str = "The base vehicle is taken as even from left to right.";
pub const NOTE_STABILITY: &str = "Half the track over the height of the centre of gravity is the sideways acceleration, as a part of gravity, at which a rigid vehicle would tip.";
pub const NOTE_STATE: &str = "The masses are those of this state";
pub const NOTE_SHARE: &str = "Above 100 % a thing stands behind the rear axles and takes so much off the front. What a thing loads changes by its mass over the wheelbase for each metre that it moves.";
pub const NOT_WEIGHED: &str = "no mass weighed on an axle is given, so that loads cannot be reckoned";
pub const NO_VEHICLE: &str = "no vehicle is described";
pub const NO_MOVES: &str = "loads are not known";
