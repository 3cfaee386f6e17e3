//! Texts of the cut list.

pub const TITLE: &str = "Cut list";
pub const PURPOSE: &str = "For the joiner: every board by material and thickness, as cut.";
pub const BOARD: &str = "Board";
pub const OF: &str = "Of";
pub const COUNT: &str = "Count";
pub const LENGTH: &str = "Length, along the grain";
pub const WIDTH: &str = "Width";
pub const AREA: &str = "Area, all of it";
pub const EDGING: &str = "Edges";
pub const CUT: &str = "Cut, initials";
pub const SUM: &str = "In all, without offcuts";
pub const NO_MATERIAL: &str = "Material not given";
pub const SETTLE: &str = "the size of each board";
pub const NOTE: &str = "Sizes are those after cutting, before edges are banded. Waste is not counted.";
pub const NOTHING: &str = "no board of the furniture is described";
