//! Files on disk whose change asks for a new check: what builds include, and rule packs.

use crate::check::Sort;
use serde_json::json;
use tower_lsp::lsp_types::{Registration, Url};

/// Asks a client to watch them.
pub fn registration() -> Registration {
    Registration {
        id: "coachwright-files".to_owned(),
        method: "workspace/didChangeWatchedFiles".to_owned(),
        register_options: Some(json!({ "watchers": [{ "globPattern": "**/*.kdl" }] })),
    }
}

/// Whether a file may matter to a check.
pub fn concerns(url: &Url) -> bool {
    Sort::of(url).is_some() || url.path().ends_with(".kdl")
}
