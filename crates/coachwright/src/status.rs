//! The exit status.

use std::process::ExitCode;

/// How the work ended; ordered from the best to the worst, so that of several the worst counts.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Status {
    /// Nothing holds the build, or the work is done.
    Done = 0,
    /// A build is held, a text is not tidy, or a pack is not proved.
    Held = 1,
    /// The tool could not do its work.
    Unable = 2,
}

impl Status {
    /// The worse of two.
    pub fn and(self, other: Self) -> Self {
        self.max(other)
    }
}

impl From<Status> for ExitCode {
    fn from(status: Status) -> Self {
        Self::from(status as u8)
    }
}
