//! The only one that publishes: newest findings only, nothing twice, and nothing taken away before the new is there.

use crate::state::Shared;
use crate::worker::Told;
use std::collections::{BTreeMap, BTreeSet};
use tokio::sync::mpsc::UnboundedReceiver;
use tower_lsp::Client;
use tower_lsp::lsp_types::{Diagnostic, MessageType, Url};

/// What was found of each file, by the text that brought it in.
#[derive(Default)]
struct Shown {
    by_root: BTreeMap<Url, BTreeMap<Url, Vec<Diagnostic>>>,
    published: BTreeMap<Url, Vec<Diagnostic>>,
}

impl Shown {
    /// Takes in what was found, and gives the files of which something else is to be shown than is.
    fn take(&mut self, root: Url, by_file: BTreeMap<Url, Vec<Diagnostic>>) -> Vec<(Url, Vec<Diagnostic>)> {
        let before = self.by_root.insert(root, by_file).unwrap_or_default();
        self.changed(before.into_keys())
    }

    /// Forgets a text that was closed.
    fn forget(&mut self, root: &Url) -> Vec<(Url, Vec<Diagnostic>)> {
        let before = self.by_root.remove(root).unwrap_or_default();
        self.changed(before.into_keys())
    }

    fn changed(&mut self, before: impl Iterator<Item = Url>) -> Vec<(Url, Vec<Diagnostic>)> {
        let mut files: BTreeSet<Url> = before.collect();
        files.extend(self.by_root.values().flat_map(|by_file| by_file.keys().cloned()));
        let mut changed = Vec::new();
        for file in files {
            let mut all: Vec<Diagnostic> = Vec::new();
            // Two builds that include one file may find the same in it.
            for diagnostic in self.by_root.values().filter_map(|by_file| by_file.get(&file)).flatten() {
                if !all.contains(diagnostic) {
                    all.push(diagnostic.clone());
                }
            }
            let known = self.published.get(&file);
            if known != Some(&all) && (known.is_some() || !all.is_empty()) {
                changed.push((file.clone(), all.clone()));
            }
            if all.is_empty() && !self.by_root.contains_key(&file) {
                self.published.remove(&file);
            } else {
                self.published.insert(file, all);
            }
        }
        changed
    }
}

/// Is called with the number of each state of the texts of which everything has been published.
pub type Observer = Box<dyn Fn(u64) + Send>;

/// Publishes until the checking thread ends.
pub async fn run(client: Client, shared: Shared, mut told: UnboundedReceiver<Told>, observed: Observer) {
    let mut shown = Shown::default();
    let mut failures: BTreeSet<String> = BTreeSet::new();
    while let Some(told) = told.recv().await {
        match told {
            Told::Failed(message) => {
                // Once is enough: the same text fails at every key.
                if failures.insert(message.clone()) {
                    client.show_message(MessageType::ERROR, message).await;
                }
            }
            Told::Findings { root, version, by_file } => {
                // What was found of an older text is out of date; the newer one is being checked.
                let newest = shared.lock().documents.get(&root).is_some_and(|document| document.version == version);
                if newest {
                    let changed = shown.take(root, by_file);
                    publish(&client, &shared, changed).await;
                }
            }
            Told::Settled(revision) => {
                crate::refresh::after_check(&client, &shared);
                observed(revision);
            }
            Told::Closed(root) => {
                let changed = shown.forget(&root);
                publish(&client, &shared, changed).await;
            }
        }
    }
}

async fn publish(client: &Client, shared: &Shared, changed: Vec<(Url, Vec<Diagnostic>)>) {
    for (file, diagnostics) in changed {
        let version = shared.lock().documents.get(&file).map(|document| document.version);
        client.publish_diagnostics(file, diagnostics, version).await;
    }
}
