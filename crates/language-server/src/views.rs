//! What is worked out of a finished check for those who look at the text: each once, when it is first asked for.

use crate::check::Checked;
use crate::feeds::Feeds;
use crate::inlay::{self, Kept};
use std::sync::OnceLock;

/// The views of one check.
#[derive(Default)]
pub struct Views {
    hints: OnceLock<Vec<Kept>>,
    feeds: OnceLock<Feeds>,
}

impl Checked {
    /// The inlay hints of all its files.
    pub fn hints(&self) -> &[Kept] {
        self.views.hints.get_or_init(|| inlay::of_check(self))
    }

    /// What feeds what.
    pub fn feeds(&self) -> &Feeds {
        self.views.feeds.get_or_init(|| Feeds::of_check(self))
    }
}
