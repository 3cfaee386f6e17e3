//! What the server knows: the open texts and the last finished checks. Changed in handlers before anything is awaited.

use crate::check::Checked;
use crate::client::Client;
use crate::disk::{name_of, url_of};
use crate::document::Document;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tower_lsp::lsp_types::Url;

/// The state at one moment.
#[derive(Clone, Default)]
pub struct State {
    /// Grows with every change.
    pub revision: u64,
    /// The open texts.
    pub documents: BTreeMap<Url, Document>,
    /// The last finished check of each open build.
    pub checked: BTreeMap<Url, Arc<Checked>>,
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

    /// The address of a file: as the editor writes it, where it has it open.
    pub fn address(&self, name: &str) -> Option<Url> {
        let open = self.documents.keys().find(|url| name_of(url) == name);
        open.cloned().or_else(|| url_of(name))
    }

    /// Whether every open text that a check read is as it was then.
    pub fn is_current(&self, checked: &Checked) -> bool {
        checked.urls.iter().zip(&checked.review.files).all(|(url, file)| {
            url.as_ref().and_then(|url| self.documents.get(url)).is_none_or(|document| document.text == file.text)
        })
    }
}
