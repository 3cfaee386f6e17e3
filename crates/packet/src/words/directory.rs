//! Texts of the panel directory.

pub const TITLE: &str = "Panel directory";
pub const PURPOSE: &str = "For the lid of each panel and board: for the owner and for rescuers.";
pub const POSITION: &str = "Position";
pub const NAME: &str = "What it feeds";
pub const DEAD: &str = "Goes dead with it";
pub const LIMIT: &str = "Replace by no more than";
pub const MAIN: &str = "main";
pub const NOTE: &str =
    "Never fit a larger fuse or breaker than this list says: the conductor behind it would burn first.";
pub const NOTHING: &str = "no panel and no board is described";
