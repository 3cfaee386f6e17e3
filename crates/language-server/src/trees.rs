//! The trees of the open texts as they stand now, read once for all who ask; after an edit only what changed is read again.

use crate::check::Sort;
use crate::state::State;
use spec::text::{BlockCache, Document, read};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};
use tower_lsp::lsp_types::Url;

/// A text and its tree.
#[derive(Clone)]
pub struct Tree {
    /// The text that was read.
    pub text: Arc<str>,
    /// What was read.
    pub document: Arc<Document>,
}

#[derive(Default)]
struct Kept {
    tree: Option<Tree>,
    cache: BlockCache,
}

/// The trees that are kept.
#[derive(Default)]
pub struct Trees(Mutex<BTreeMap<Url, Arc<Mutex<Kept>>>>);

/// The tree of an open text of ours.
pub fn tree(state: &State, url: &Url) -> Option<Tree> {
    let document = state.documents.get(url).filter(|document| document.sound)?;
    Sort::of(url)?;
    let kept = {
        let mut trees = state.trees.0.lock().unwrap_or_else(PoisonError::into_inner);
        trees.retain(|url, _| state.documents.contains_key(url));
        trees.entry(url.clone()).or_default().clone()
    };
    let mut kept = kept.lock().unwrap_or_else(|poisoned| {
        // What was half read is of no use.
        let mut kept = poisoned.into_inner();
        *kept = Kept::default();
        kept
    });
    if let Some(tree) = kept.tree.as_ref().filter(|tree| tree.text == document.text) {
        return Some(tree.clone());
    }
    let read = Arc::new(read(&document.text, &mut kept.cache));
    let tree = Tree { text: document.text.clone(), document: read };
    kept.tree = Some(tree.clone());
    Some(tree)
}
