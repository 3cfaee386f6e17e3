//! What the server knows: the open texts and the last finished checks. Changed in handlers before anything is awaited.

use crate::check::Checked;
use crate::client::Client;
use crate::document::Document;
use crate::readings::Readings;
use crate::worker::{Read, Stamp};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tower_lsp::lsp_types::{Diagnostic, Url};

/// The state at one moment.
#[derive(Clone, Default)]
pub struct State {
    /// Grows with every change.
    pub revision: u64,
    /// The open texts.
    pub documents: BTreeMap<Url, Document>,
    /// The last finished check of each open build.
    pub checked: BTreeMap<Url, Arc<Checked>>,
    /// What is shown of each file, or was given to a client that asked.
    pub shown: BTreeMap<Url, Arc<[Diagnostic]>>,
    /// The texts as they were read last.
    pub readings: Readings,
    /// What the client can do.
    pub client: Client,
    /// Which requests to ask again are under way.
    pub refresh: Arc<crate::refresh::Refresh>,
    /// The trees of the open texts, as far as somebody asked for them.
    pub trees: Arc<crate::trees::Trees>,
}

/// The state, shared between handlers and the checking thread.
#[derive(Clone, Default)]
pub struct Shared(Arc<Mutex<State>>);

impl Shared {
    /// The state, to be looked at or changed without awaiting anything.
    pub fn lock(&self) -> MutexGuard<'_, State> {
        // A panic elsewhere leaves texts that are whole: every change is a single assignment.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The state as it is now, for a request to work on.
    pub fn snapshot(&self) -> State {
        self.lock().clone()
    }
}

impl State {
    /// The last check that read a text, when it read it as it is now; the build itself first.
    pub fn current(&self, url: &Url) -> Option<(&Url, &Arc<Checked>)> {
        let text = &self.documents.get(url)?.text;
        let own = self.checked.get_key_value(url);
        let others = self.checked.iter().filter(|(root, _)| *root != url);
        own.into_iter().chain(others).find(|(_, checked)| {
            checked.file(url).is_some_and(|file| checked.review.files[file].text == *text) && self.is_current(checked)
        })
    }

    /// Whether every open text that a check read is as it was then.
    pub fn is_current(&self, checked: &Checked) -> bool {
        checked.urls.iter().zip(&checked.review.files).all(|(url, file)| {
            url.as_ref().and_then(|url| self.documents.get(url)).is_none_or(|document| document.text == file.text)
        })
    }

    /// The open ones among files, as they are now. A file that is not open has no entry.
    pub fn stamp<'a>(&self, files: impl Iterator<Item = &'a Url>) -> Stamp {
        let read = |url: &Url| {
            let document = self.documents.get(url)?;
            Some((url.clone(), Read { since: document.since, version: document.version }))
        };
        files.filter_map(read).collect()
    }

    /// Whether texts are still as they were read.
    pub fn stands(&self, of: &Stamp) -> bool {
        of.iter().all(|(url, read)| self.documents.get(url).is_some_and(|document| document.since == read.since))
    }

    /// Every file that an open build reads besides itself.
    pub fn brought_in(&self) -> BTreeSet<Url> {
        let files = self
            .checked
            .iter()
            .flat_map(|(root, checked)| checked.urls.iter().flatten().filter(move |url| *url != root).cloned());
        files.collect()
    }
}
