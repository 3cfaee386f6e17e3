//! Texts of the register of findings and waivers.

pub const TITLE: &str = "Findings and waivers";
pub const PURPOSE: &str =
    "For everybody who signs: what the rules found, what cannot be told, and what somebody accepted.";
pub const SIGNAL: &str = "Signal word";
pub const FOUND: &str = "What is found";
pub const REMEDY: &str = "What to do";
pub const RULE: &str = "Rule";
pub const DECISION: &str = "Decision";
pub const REASON: &str = "Reason";
pub const BY: &str = "Accepted by";
pub const UNTIL: &str = "Until";
pub const DATE: &str = "Decided on";
pub const FAILED: &str = "Open: what is found";
pub const UNDECIDED: &str = "Open: what cannot be told";
pub const WAIVED: &str = "Accepted";
pub const MISSING: &str = "It cannot be told without: ";
pub const FOLLOWS: &str = "Following from it: ";
pub const ACCEPTED: &str = "accepted";
pub const CLEAN: &str = "No rule found anything, and none was left open. This is no approval: the rules see only what the specification says.";
