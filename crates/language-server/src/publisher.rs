//! The only one that tells findings: the newest only, nothing twice, and nothing taken away before the new is there.

use crate::refresh;
use crate::state::Shared;
use crate::worker::{Stamp, Told};
use std::collections::{BTreeMap, BTreeSet, HashSet};
use tokio::sync::mpsc::UnboundedReceiver;
use tokio::sync::watch;
use tower_lsp::Client;
use tower_lsp::lsp_types::{Diagnostic, MessageType, Url};

/// What was found of each file, by the text that brought it in.
#[derive(Default)]
struct Found {
    by_root: BTreeMap<Url, BTreeMap<Url, Vec<Diagnostic>>>,
}

impl Found {
    /// Takes in what was found of a text, and gives the files of which something else may be to show.
    fn take(&mut self, root: Url, by_file: BTreeMap<Url, Vec<Diagnostic>>) -> BTreeSet<Url> {
        let mut files: BTreeSet<Url> = by_file.keys().cloned().collect();
        files.extend(self.by_root.insert(root, by_file).unwrap_or_default().into_keys());
        files
    }

    /// Forgets a text that was closed.
    fn forget(&mut self, root: &Url) -> BTreeSet<Url> {
        self.by_root.remove(root).unwrap_or_default().into_keys().collect()
    }

    /// What is to be shown of a file; nothing when no text brings it in any more.
    fn of(&self, file: &Url) -> Option<Vec<Diagnostic>> {
        let mut found = self.by_root.values().filter_map(|by_file| by_file.get(file));
        let mut all = found.next()?.clone();
        let others: Vec<&Diagnostic> = found.flatten().collect();
        if !others.is_empty() {
            // Two builds that include one file may find the same in it.
            let words = |diagnostic: &Diagnostic| serde_json::to_string(diagnostic).unwrap_or_default();
            let mut known: HashSet<String> = all.iter().map(words).collect();
            all.extend(others.into_iter().filter(|diagnostic| known.insert(words(diagnostic))).cloned());
        }
        Some(all)
    }
}

/// Is called with the number of each state of the texts of which everything has been told.
pub type Observer = Box<dyn Fn(u64) + Send>;

/// Tells findings until the checking thread ends.
pub async fn run(
    client: Client,
    shared: Shared,
    mut told: UnboundedReceiver<Told>,
    settled: watch::Sender<u64>,
    observed: Observer,
) {
    let mut found = Found::default();
    let mut failures: BTreeSet<String> = BTreeSet::new();
    let mut again = false;
    while let Some(told) = told.recv().await {
        match told {
            Told::Failed(message) => {
                // Once is enough: the same text fails at every key.
                if failures.insert(message.clone()) {
                    client.show_message(MessageType::ERROR, message).await;
                }
            }
            Told::Lost(message) => client.show_message(MessageType::WARNING, message).await,
            Told::Findings { root, of, by_file } => {
                // What was found of an older text is out of date; the newer one is being checked.
                if shared.lock().stands(&of) {
                    let files = found.take(root, by_file);
                    again |= show(&client, &shared, &found, files, &of).await;
                }
            }
            Told::Closed(root) => {
                let files = found.forget(&root);
                let of = shared.lock().stamp(files.iter());
                again |= show(&client, &shared, &found, files, &of).await;
            }
            Told::Settled(revision) => {
                settled.send_replace(revision);
                refresh::after_check(&client, &shared);
                if std::mem::take(&mut again) {
                    refresh::after_findings(&client, &shared);
                }
                observed(revision);
            }
        }
    }
}

/// Shows files anew as far as there is something else to show; says whether that was left to the client to ask for.
async fn show(client: &Client, shared: &Shared, found: &Found, files: BTreeSet<Url>, of: &Stamp) -> bool {
    let mut left = false;
    for file in files {
        let all = found.of(&file);
        let (pulls, version) = {
            let mut state = shared.lock();
            let known = state.shown.get(&file);
            let same = match (&all, known) {
                (Some(all), Some(known)) => **known == *all,
                (Some(all), None) => all.is_empty(),
                (None, known) => known.is_none_or(|known| known.is_empty()),
            };
            match &all {
                Some(all) if !same || known.is_none() => {
                    state.shown.insert(file.clone(), all.clone().into());
                }
                Some(_) => {}
                None => {
                    state.shown.remove(&file);
                }
            }
            if same {
                continue;
            }
            (state.client.pulls, of.get(&file).map(|read| read.version))
        };
        if pulls {
            left = true;
        } else {
            client.publish_diagnostics(file, all.unwrap_or_default(), version).await;
        }
    }
    left
}
