//! What is worked out of a finished check for those who look at the text: each once, when it is first asked for.

use crate::check::Checked;
use crate::feeds::Feeds;
use crate::state::State;
use crate::{inlay, lens, symbols};
use std::sync::{Arc, OnceLock};
use tower_lsp::lsp_types::Url;

/// The views of one check.
#[derive(Default)]
pub struct Views {
    hints: OnceLock<Vec<inlay::Kept>>,
    lenses: OnceLock<Vec<lens::Kept>>,
    feeds: OnceLock<Feeds>,
    symbols: OnceLock<Vec<symbols::Kept>>,
}

impl Checked {
    /// The inlay hints of all its files.
    pub fn hints(&self) -> &[inlay::Kept] {
        self.views.hints.get_or_init(|| inlay::of_check(self))
    }

    /// What feeds what.
    pub fn feeds(&self) -> &Feeds {
        self.views.feeds.get_or_init(|| Feeds::of_check(self))
    }

    /// The lenses of all its files.
    pub fn lenses(&self) -> &[lens::Kept] {
        self.views.lenses.get_or_init(|| lens::of_check(self))
    }
}

impl Checked {
    /// The names that its files define.
    pub fn symbols(&self) -> &[symbols::Kept] {
        self.views.symbols.get_or_init(|| symbols::of_check(self))
    }
}

impl State {
    /// The last check that read a text: of the text as it is, if there is one, else of the text as it was.
    pub fn newest(&self, url: &Url) -> Option<&Arc<Checked>> {
        let reads = |checked: &&Arc<Checked>| checked.file(url).is_some();
        let current = self.current(url).map(|(_, checked)| checked);
        current.or_else(|| self.checked.get(url)).or_else(|| self.checked.values().find(reads))
    }
}
