//! Texts as they were read last, so that the many requests after one edit read it once.

use crate::check::{Surroundings, Text, read};
use crate::state::State;
use spec::text::BlockCache;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use tower_lsp::lsp_types::Url;

/// The last reading of each text that was asked about, with what it includes.
#[derive(Clone, Default)]
pub struct Readings(Arc<Mutex<BTreeMap<Url, Slot>>>);

#[derive(Clone, Default)]
struct Slot {
    /// The state of the texts that it was read in.
    revision: u64,
    text: Arc<OnceLock<Arc<Text>>>,
    cache: Arc<Mutex<BlockCache>>,
}

impl Readings {
    /// A text as it stands in a state.
    pub fn get(&self, state: &State, surroundings: &Surroundings, root: &Url) -> Arc<Text> {
        let slot = {
            let mut slots = self.0.lock().unwrap_or_else(PoisonError::into_inner);
            let slot = slots.entry(root.clone()).or_default();
            if slot.revision < state.revision {
                slot.revision = state.revision;
                slot.text = Arc::default();
            }
            slot.clone()
        };
        if slot.revision != state.revision {
            // Asked about a state that is past: its answer is hardly wanted any more, and must not stand for the newer.
            return Arc::new(read(state, root, surroundings, &mut BlockCache::off()));
        }
        let fresh = || {
            let mut cache = slot.cache.lock().unwrap_or_else(PoisonError::into_inner);
            Arc::new(read(state, root, surroundings, &mut cache))
        };
        slot.text.get_or_init(fresh).clone()
    }

    /// Forgets a text that was closed.
    pub fn forget(&self, root: &Url) {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).remove(root);
    }
}
