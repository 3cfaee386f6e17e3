//! Texts of the open questions.

pub const TITLE: &str = "Open questions";
pub const PURPOSE: &str = "For the designer: the entries that would settle most of what cannot be told.";
pub const ENTRY: &str = "What to write";
pub const CHECKS: &str = "Checks that it settles or brings nearer";
pub const ANSWER: &str = "Answer";
pub const NOTHING: &str = "every check that applies could be told";
