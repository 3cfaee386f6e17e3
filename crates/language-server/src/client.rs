//! What the client said that it can do.

use crate::position::Encoding;
use serde::Deserialize;
use tower_lsp::lsp_types::{InitializeParams, MarkupKind};

/// What a client may ask for when it starts the server.
#[derive(Debug, Default, Deserialize)]
#[serde(rename_all = "camelCase")]
struct Wishes {
    diagnostics: Option<Diagnostics>,
    /// Whether completions of parts bring their usual entries; an editor with snippets of its own says no.
    snippets: Option<bool>,
}

/// How findings come to the client.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(rename_all = "camelCase")]
enum Diagnostics {
    /// The server tells them.
    Push,
    /// The client asks for them.
    Pull,
}

/// What of the protocol the client understands, as far as it changes what is sent.
#[derive(Clone, Copy, Debug, Default)]
pub struct Client {
    /// How it counts characters.
    pub encoding: Encoding,
    /// Whether it shows other places beside a finding.
    pub related: bool,
    /// Whether it links the code of a finding to a page.
    pub links_codes: bool,
    /// Whether undecided checks of one place are folded into one.
    pub folds_undecided: bool,
    /// Whether it wants to ask for findings, instead of being told: it can, and it said so when it started the server.
    pub pulls: bool,
    /// Whether it asks again when it is told that findings elsewhere have changed.
    pub pulls_again: bool,
    /// Whether it reads edits with versions.
    pub document_changes: bool,
    /// Whether hovers may be Markdown.
    pub markdown: bool,
    /// Whether it watches files when it is asked to.
    pub watches: bool,
    /// Whether the documentation of completions may be Markdown.
    pub markdown_documentation: bool,
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
        // Wishes that cannot be read are none: an editor's settings must not keep the server from starting.
        let wishes: Wishes = params
            .initialization_options
            .as_ref()
            .and_then(|options| serde_json::from_value(options.clone()).ok())
            .unwrap_or_default();
        let offered = capabilities.general.as_ref().and_then(|general| general.position_encodings.as_deref());
        Self {
            encoding: Encoding::agreed(offered),
            related: text
                .and_then(|text| text.publish_diagnostics.as_ref())
                .and_then(|publish| publish.related_information)
                .unwrap_or(false),
            links_codes: text
                .and_then(|text| text.publish_diagnostics.as_ref())
                .and_then(|publish| publish.code_description_support)
                .unwrap_or(false),
            folds_undecided: crate::settings::folds(params.initialization_options.as_ref(), false),
            pulls: wishes.diagnostics == Some(Diagnostics::Pull) && text.is_some_and(|text| text.diagnostic.is_some()),
            pulls_again: workspace
                .and_then(|workspace| workspace.diagnostic.as_ref())
                .and_then(|diagnostic| diagnostic.refresh_support)
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
            markdown_documentation: text
                .and_then(|text| text.completion.as_ref())
                .and_then(|completion| completion.completion_item.as_ref())
                .and_then(|item| item.documentation_format.as_ref())
                .is_some_and(|formats| formats.contains(&MarkupKind::Markdown)),
            snippets: wishes.snippets != Some(false)
                && text
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
