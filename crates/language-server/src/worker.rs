//! The checking thread: whatever changed is checked, the newest state only, and one panic stops one check.

use crate::check::{Checked, Sort, Surroundings, check, faults_of_parts};
use crate::diagnostics;
use crate::disk::name_of;
use crate::state::{Shared, State};
use crate::trees::{Tree, tree};
use rules::pack::faults_of_file;
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
    /// Open texts changed, were opened or closed.
    Changed(Vec<Url>),
    /// Files on disk changed, any of them.
    Disk,
    /// There is nothing more to do.
    End,
}

/// The open texts that were read for a check, as they were then.
pub type Stamp = BTreeMap<Url, Read>;

/// A text as it was read: the state in which it last changed, and the editor's number for it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Read {
    /// The state of all texts in which it became what was read.
    pub since: u64,
    /// The editor's number.
    pub version: i32,
}

/// What the thread tells the publisher.
#[derive(Debug)]
pub enum Told {
    /// What is to be shown of the files that a text brought in.
    Findings {
        /// The text that was checked.
        root: Url,
        /// What was read for it.
        of: Stamp,
        /// What is to be shown, by file.
        by_file: BTreeMap<Url, Vec<Diagnostic>>,
    },
    /// A text was closed.
    Closed(Url),
    /// Everything up to this revision of the texts has been told.
    Settled(u64),
    /// A check failed inside, and a person should know.
    Failed(String),
    /// A text is no longer what the editor has, and a person should know.
    Lost(String),
}

/// Works until it is told to end.
pub fn run(shared: &Shared, surroundings: &Surroundings, wakes: &Receiver<Wake>, tell: &UnboundedSender<Told>) {
    let mut caches: BTreeMap<Url, BlockCache> = BTreeMap::new();
    // Texts of parts, and pieces of builds, that are shown by themselves, since no open build brings them in.
    let mut alone: BTreeSet<Url> = BTreeSet::new();
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
                    Wake::Changed(urls) => dirty.extend(urls),
                    Wake::Disk => all = true,
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
        alone.retain(|url| state.documents.contains_key(url));
        let mut settle = |url: &Url| {
            let cache = caches.entry(url.clone()).or_default();
            settle(shared, &state, url, surroundings, cache, tell);
        };
        // Builds first: what they include is shown with them, and not once more by itself.
        let affected = affected(&state, &dirty, all);
        let (pieces, wholes): (Vec<&Url>, Vec<&Url>) = state.documents.keys().partition(|url| is_piece(&state, url));
        wholes.into_iter().filter(|url| affected.contains(*url)).for_each(&mut settle);
        let brought: BTreeSet<Url> = shared.lock().brought_in();
        for url in pieces {
            if brought.contains(url) {
                if alone.remove(url) {
                    shared.lock().checked.remove(url);
                    let _ = tell.send(Told::Closed(url.clone()));
                }
            } else if alone.insert(url.clone()) || affected.contains(url) {
                settle(url);
            }
        }
        let _ = tell.send(Told::Settled(state.revision));
        // Whoever types on while a check ran is typing: the next check waits for a rest.
        busy = shared.lock().revision != state.revision;
    }
}

/// Whether a text is a piece for others to include: a text of parts, or one that describes no build of its own.
fn is_piece(state: &State, url: &Url) -> bool {
    match Sort::of(url) {
        Some(Sort::Parts) => true,
        Some(Sort::Build) => {
            let describes = |tree: Tree| tree.document.nodes.iter().any(|node| &*node.name.text == "build");
            !tree(state, url).is_some_and(describes)
        }
        _ => false,
    }
}

/// The open texts that are to be checked: those that changed, and builds that read one that did.
fn affected(state: &State, dirty: &BTreeSet<Url>, all: bool) -> BTreeSet<Url> {
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
    let missing = |checked: &Arc<Checked>| {
        let mut failed = checked.review.failed.iter();
        failed.any(|finding| matches!(&*finding.rule, "text/include-missing" | "text/house-rules-unread"))
    };
    Sort::of(url) == Some(Sort::Build)
        && state.checked.get(url).is_some_and(missing)
        && dirty.iter().any(|other| other.path().ends_with(".kdl"))
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
    let by_itself = |shown| (BTreeMap::from([(url.clone(), shown)]), None);
    let found = catch_unwind(AssertUnwindSafe(|| match Sort::of(url) {
        Some(Sort::Build) => {
            let checked = Arc::new(check(state, url, surroundings, cache));
            (checked.shown.clone(), Some(checked))
        }
        Some(Sort::Parts) => {
            let slips = faults_of_parts(state, url, surroundings);
            by_itself(diagnostics::of_slips(&slips, &document.text, client))
        }
        Some(Sort::Rules) => {
            let faults = faults_of_file(&name_of(url), &document.text, surroundings.packs);
            by_itself(diagnostics::of_faults(&faults, &document.text, client))
        }
        None => (BTreeMap::new(), None),
    }));
    match found {
        Ok((by_file, checked)) => {
            let of = state.stamp(by_file.keys());
            let mut now = shared.lock();
            // A text that was closed or changed meanwhile is checked again; what was found of it is out of date.
            if !now.stands(&of) {
                return;
            }
            if let Some(checked) = checked {
                now.checked.insert(url.clone(), checked);
            }
            drop(now);
            let _ = tell.send(Told::Findings { root: url.clone(), of, by_file });
        }
        Err(_) => {
            *cache = BlockCache::default();
            let name = report::visible(&name_of(url)).into_owned();
            let message = format!(
                "The check of {name} failed inside Coachwright; the last findings stay. Please report it with the text."
            );
            let _ = tell.send(Told::Failed(message));
        }
    }
}
