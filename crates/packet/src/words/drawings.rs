//! Texts of the drawings.

pub const SINGLE_LINE: &str = "Single-line diagram";
pub const SINGLE_LINE_PURPOSE: &str =
    "Every source, conductor, device and load, one line for each circuit. Symbols in the manner of IEC 60617.";
pub const FLOOR_PLAN: &str = "Floor plan";
pub const FLOOR_PLAN_PURPOSE: &str = "Seen from above; whatever has a position. Dashed: the base vehicle and spaces.";
pub const LEFT_SIDE: &str = "Left side";
pub const LEFT_SIDE_PURPOSE: &str = "What stands left of the centre line, seen from outside on the left.";
pub const RIGHT_SIDE: &str = "Right side";
pub const RIGHT_SIDE_PURPOSE: &str = "What stands right of the centre line, seen from outside on the right.";
pub const NO_CIRCUIT: &str = "no circuit is described";
pub const NO_POSITION: &str = "no part has a position";
pub const FRONT: &str = "front";
pub const AXLE: &str = "axle";
pub const CONTINUES: &str = "joined to";
pub const OPEN_END: &str = "not described";
pub const LEGEND: &str = "Thick: ways out. A stroke across: what is heavy and has to be held. Filled: alarms and extinguishers. Two rings: vents, exhausts, intakes. Dashed circles around exhausts: as far as the nearest opening.";
pub const WITHOUT: &str = "Without a position, and so not drawn:";
pub const GROUP_DIRECT: &str = "Direct current";
pub const GROUP_ALTERNATING: &str = "Alternating current";
pub const ELSEWHERE: &str = "drawn by itself";
