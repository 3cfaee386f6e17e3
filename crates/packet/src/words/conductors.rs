//! Texts of the conductor schedule.

pub const TITLE: &str = "Conductor schedule";
pub const PURPOSE: &str =
    "For whoever cuts and fits the cables: each length of conductor with its ends, its way and its label.";
pub const CUT: &str = "Cut length";
pub const INSULATION: &str = "Insulation to";
pub const STRANDS: &str = "Strands";
pub const BUNDLED: &str = "Conductors together";
pub const AIR: &str = "Air at most";
pub const PASSES: &str = "Passes through";
pub const EDGE: &str = "Edge protected by";
pub const LUG_A: &str = "Lug and stud at start";
pub const LUG_B: &str = "Lug and stud at end";
pub const LABEL: &str = "Label at both ends";
pub const RETURN: &str = "Return";
pub const NOTE_CUT: &str = "Cut length: the one-way length and 150 mm at each end for the service loop (common practice, no source). \
A return of the same size is cut as long again, unless the vehicle's metal leads back.";
pub const NOTE_LABEL: &str =
    "A label that the specification does not give is made of the circuit and the number of the length.";
pub const NOTE_LUG: &str = "Lugs follow the stud of the thing that is fitted: write them in.";
pub const NOTHING: &str = "no conductor is described";
