//! What the server offers.

use crate::client::Client;
use crate::tokens;
use tower_lsp::lsp_types::*;

/// The answer to `initialize`.
pub fn result(client: Client) -> InitializeResult {
    let words = |words: &[&str]| Some(words.iter().map(|word| (*word).to_owned()).collect());
    InitializeResult {
        capabilities: ServerCapabilities {
            position_encoding: Some(client.encoding.kind()),
            text_document_sync: Some(TextDocumentSyncCapability::Options(TextDocumentSyncOptions {
                open_close: Some(true),
                change: Some(TextDocumentSyncKind::INCREMENTAL),
                ..TextDocumentSyncOptions::default()
            })),
            hover_provider: Some(HoverProviderCapability::Simple(true)),
            completion_provider: Some(CompletionOptions {
                trigger_characters: words(&["=", "\"", " "]),
                ..CompletionOptions::default()
            }),
            code_action_provider: Some(CodeActionProviderCapability::Options(CodeActionOptions {
                code_action_kinds: Some(vec![CodeActionKind::QUICKFIX]),
                ..CodeActionOptions::default()
            })),
            document_formatting_provider: Some(OneOf::Left(true)),
            document_range_formatting_provider: Some(OneOf::Left(true)),
            definition_provider: Some(OneOf::Left(true)),
            references_provider: Some(OneOf::Left(true)),
            document_highlight_provider: Some(OneOf::Left(true)),
            rename_provider: Some(OneOf::Right(RenameOptions {
                prepare_provider: Some(true),
                work_done_progress_options: WorkDoneProgressOptions::default(),
            })),
            document_symbol_provider: Some(OneOf::Left(true)),
            // Findings are told, or asked for; never both.
            diagnostic_provider: client.pulls.then(|| {
                DiagnosticServerCapabilities::Options(DiagnosticOptions {
                    identifier: Some("coachwright".to_owned()),
                    inter_file_dependencies: true,
                    workspace_diagnostics: false,
                    ..DiagnosticOptions::default()
                })
            }),
            folding_range_provider: Some(FoldingRangeProviderCapability::Simple(true)),
            inlay_hint_provider: Some(OneOf::Left(true)),
            call_hierarchy_provider: Some(CallHierarchyServerCapability::Simple(true)),
            code_lens_provider: Some(CodeLensOptions { resolve_provider: Some(false) }),
            selection_range_provider: Some(SelectionRangeProviderCapability::Simple(true)),
            workspace_symbol_provider: Some(OneOf::Left(true)),
            document_link_provider: Some(DocumentLinkOptions {
                resolve_provider: Some(false),
                work_done_progress_options: WorkDoneProgressOptions::default(),
            }),
            semantic_tokens_provider: Some(tokens::options().into()),
            ..ServerCapabilities::default()
        },
        server_info: Some(ServerInfo {
            name: "coachwright".to_owned(),
            version: Some(env!("CARGO_PKG_VERSION").to_owned()),
        }),
    }
}
