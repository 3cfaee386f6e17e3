//! Texts of the register of parts.

pub const TITLE: &str = "Register of parts";
pub const PURPOSE: &str =
    "For whoever looks something up: everything that the specification describes, with what it says of it.";
pub const SAYS: &str = "What is said of it";
pub const STANDS_IN: &str = "Stands in";
pub const NOTHING: &str = "no part is described";
