//! What the client said that it can do.

use crate::position::Encoding;
use tower_lsp::lsp_types::{InitializeParams, MarkupKind};

/// What of the protocol the client understands, as far as it changes what is sent.
#[derive(Clone, Copy, Debug, Default)]
pub struct Client {
    /// How it counts characters.
    pub encoding: Encoding,
    /// Whether it shows other places beside a finding.
    pub related: bool,
    /// Whether it reads edits with versions.
    pub document_changes: bool,
    /// Whether hovers may be Markdown.
    pub markdown: bool,
    /// Whether it watches files when it is asked to.
    pub watches: bool,
    /// Whether it takes snippets.
    pub snippets: bool,
    /// Which inlay hints the builder wants to see.
    pub hints: crate::settings::Hints,
    /// Whether it asks for inlay hints again when it is told that there are others.
    pub refreshes_hints: bool,
    /// Whether it asks for lenses again when it is told that there are others.
    pub refreshes_lenses: bool,
}

impl Client {
    /// What `initialize` says.
    pub fn of(params: &InitializeParams) -> Self {
        let capabilities = &params.capabilities;
        let text = capabilities.text_document.as_ref();
        let workspace = capabilities.workspace.as_ref();
        let offered = capabilities.general.as_ref().and_then(|general| general.position_encodings.as_deref());
        Self {
            encoding: Encoding::agreed(offered),
            related: text
                .and_then(|text| text.publish_diagnostics.as_ref())
                .and_then(|publish| publish.related_information)
                .unwrap_or(false),
            document_changes: workspace
                .and_then(|workspace| workspace.workspace_edit.as_ref())
                .and_then(|edit| edit.document_changes)
                .unwrap_or(false),
            markdown: text
                .and_then(|text| text.hover.as_ref())
                .and_then(|hover| hover.content_format.as_ref())
                .is_some_and(|formats| formats.contains(&MarkupKind::Markdown)),
            watches: workspace
                .and_then(|workspace| workspace.did_change_watched_files.as_ref())
                .and_then(|watched| watched.dynamic_registration)
                .unwrap_or(false),
            snippets: text
                .and_then(|text| text.completion.as_ref())
                .and_then(|completion| completion.completion_item.as_ref())
                .and_then(|item| item.snippet_support)
                .unwrap_or(false),
            hints: crate::settings::Hints::of_options(params.initialization_options.as_ref()),
            refreshes_hints: workspace
                .and_then(|workspace| workspace.inlay_hint.as_ref())
                .and_then(|hint| hint.refresh_support)
                .unwrap_or(false),
            refreshes_lenses: workspace
                .and_then(|workspace| workspace.code_lens.as_ref())
                .and_then(|lens| lens.refresh_support)
                .unwrap_or(false),
        }
    }
}
