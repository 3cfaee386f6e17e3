//! The checking thread: whatever changed is checked, the newest state only, and one panic stops one check.

use crate::check::{Checked, Sort, Surroundings, check, faults_of_parts};
use crate::diagnostics;
use crate::state::{Shared, State};
use rules::pack::compile;
use spec::text::BlockCache;
use std::collections::{BTreeMap, BTreeSet};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::Duration;
use tokio::sync::mpsc::UnboundedSender;
use tower_lsp::lsp_types::{Diagnostic, Url};

/// How long the texts must rest before they are checked again, when edits follow one another: long enough to let a typed word
/// end, short enough to be felt as at once (chosen).
const REST: Duration = Duration::from_millis(60);

/// What wakes the thread.
#[derive(Debug)]
pub enum Wake {
    /// An open text changed; or, without a text, files on disk did.
    Changed(Option<Url>),
    /// There is nothing more to do.
    End,
}

/// What the thread tells the publisher.
#[derive(Debug)]
pub enum Told {
    /// What is to be shown of the files that a text brought in.
    Findings {
        /// The text that was checked.
        root: Url,
        /// The editor's number for that text.
        version: i32,
        /// What is to be shown, by file.
        by_file: BTreeMap<Url, Vec<Diagnostic>>,
    },
    /// A text was closed.
    Closed(Url),
    /// Everything up to this revision of the texts has been told.
    Settled(u64),
    /// Something that a person should know.
    Failed(String),
}

/// Works until it is told to end.
pub fn run(shared: &Shared, surroundings: &Surroundings, wakes: &Receiver<Wake>, tell: &UnboundedSender<Told>) {
    let mut caches: BTreeMap<Url, BlockCache> = BTreeMap::new();
    let mut busy = false;
    while let Ok(wake) = wakes.recv() {
        let mut dirty: BTreeSet<Url> = BTreeSet::new();
        let mut all = false;
        let mut pending = vec![wake];
        // The first change is checked at once; while changes keep coming, the texts must rest first.
        loop {
            for wake in pending.drain(..) {
                match wake {
                    Wake::End => return,
                    Wake::Changed(Some(url)) => {
                        dirty.insert(url);
                    }
                    Wake::Changed(None) => all = true,
                }
            }
            if !busy {
                pending.extend(wakes.try_iter());
                if pending.is_empty() {
                    break;
                }
                continue;
            }
            match wakes.recv_timeout(REST) {
                Ok(wake) => pending.push(wake),
                Err(RecvTimeoutError::Timeout) => break,
                Err(RecvTimeoutError::Disconnected) => return,
            }
        }
        let state = shared.snapshot();
        caches.retain(|url, _| state.documents.contains_key(url));
        let mut affected = affected(&state, &dirty, all);
        // Builds first: what they include is shown with them, and not once more by itself.
        affected.sort_by_key(|url| Sort::of(url) != Some(Sort::Build));
        for url in affected {
            settle(shared, &state, &url, surroundings, caches.entry(url.clone()).or_default(), tell);
        }
        let _ = tell.send(Told::Settled(state.revision));
        // Whoever types on while a check ran is typing: the next check waits for a rest.
        busy = shared.lock().revision != state.revision;
    }
}

/// The open texts that are to be checked: those that changed, and builds that read one that did.
fn affected(state: &State, dirty: &BTreeSet<Url>, all: bool) -> Vec<Url> {
    let sound = state.documents.iter().filter(|(_, document)| document.sound).map(|(url, _)| url);
    sound
        .filter(|url| {
            let reads = |checked: &Arc<Checked>| dirty.iter().any(|other| checked.file(other).is_some());
            all || dirty.contains(*url)
                || state.checked.get(*url).is_some_and(reads)
                || includes_unread(state, url, dirty)
        })
        .cloned()
        .collect()
}

/// Whether a build could not have a file when it was checked that is open now.
fn includes_unread(state: &State, url: &Url, dirty: &BTreeSet<Url>) -> bool {
    let missing =
        |checked: &Arc<Checked>| checked.review.failed.iter().any(|finding| &*finding.rule == "text/include-missing");
    Sort::of(url) == Some(Sort::Build)
        && state.checked.get(url).is_some_and(missing)
        && dirty.iter().any(|other| Sort::of(other) == Some(Sort::Parts))
}

/// Checks one text and tells what came out.
fn settle(
    shared: &Shared,
    state: &State,
    url: &Url,
    surroundings: &Surroundings,
    cache: &mut BlockCache,
    tell: &UnboundedSender<Told>,
) {
    let Some(document) = state.documents.get(url) else { return };
    let client = state.client;
    let found = catch_unwind(AssertUnwindSafe(|| match Sort::of(url) {
        Some(Sort::Build) => {
            let checked = Arc::new(check(state, url, surroundings, cache));
            let by_file = diagnostics::of_check(&checked, client);
            (by_file, Some(checked))
        }
        Some(Sort::Parts) if shared.lock().checked.values().any(|checked| checked.file(url).is_some()) => {
            (BTreeMap::from([(url.clone(), Vec::new())]), None)
        }
        Some(Sort::Parts) => {
            let slips = faults_of_parts(state, url, surroundings);
            (BTreeMap::from([(url.clone(), diagnostics::of_slips(&slips, &document.text, client))]), None)
        }
        Some(Sort::Rules) => {
            let faults = compile(&[("", &document.text)]).err().unwrap_or_default();
            (BTreeMap::from([(url.clone(), diagnostics::of_faults(&faults, &document.text, client))]), None)
        }
        None => (BTreeMap::new(), None),
    }));
    match found {
        Ok((by_file, checked)) => {
            let mut now = shared.lock();
            // A text that was closed or changed meanwhile is checked again; what was found of it is out of date.
            if now.documents.get(url).is_none_or(|own| own.text != document.text) {
                return;
            }
            if let Some(checked) = checked {
                now.checked.insert(url.clone(), checked);
            }
            drop(now);
            let _ = tell.send(Told::Findings { root: url.clone(), version: document.version, by_file });
        }
        Err(_) => {
            *cache = BlockCache::default();
            let message = format!("The check of {url} failed inside coachwright; the last findings stay.");
            let _ = tell.send(Told::Failed(message));
        }
    }
}
