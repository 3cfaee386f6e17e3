//! The protocol's requests and notifications. Each changes the state before anything is awaited, or works on a snapshot on a
//! thread of its own; none waits for an answer of the client.

use crate::check::Surroundings;
use crate::client::Client as Abilities;
use crate::disk::name_of;
use crate::document::Document;
use crate::state::{Shared, State};
use crate::worker::{Told, Wake};
use crate::{
    actions, capabilities, completion, formatting, hierarchy, hover, inlay, lens, links, navigation, outline, pull,
    refresh, selection, settings, symbols, tokens, watched,
};
use std::sync::mpsc::Sender;
use tokio::sync::mpsc::UnboundedSender;
use tokio::sync::watch;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::*;
use tower_lsp::{Client, LanguageServer};

/// The server.
pub struct Server {
    /// The client's end of the line.
    pub client: Client,
    /// What the server knows.
    pub shared: Shared,
    /// To the checking thread.
    pub wake: Sender<Wake>,
    /// To the publisher.
    pub tell: UnboundedSender<Told>,
    /// The state of the texts of which everything has been told.
    pub settles: watch::Receiver<u64>,
    /// What the server is given besides the texts.
    pub surroundings: Surroundings,
}

impl Server {
    /// Tells the checking thread; it is gone only when the server ends.
    fn changed(&self, urls: Vec<Url>) {
        let _ = self.wake.send(Wake::Changed(urls));
    }

    /// Answers a request from the state as it is now, on a thread of its own.
    async fn answer<T: Send + 'static>(
        &self,
        work: impl FnOnce(&State, &Surroundings) -> T + Send + 'static,
    ) -> Result<T> {
        let state = self.shared.snapshot();
        let surroundings = self.surroundings.clone();
        tokio::task::spawn_blocking(move || work(&state, &surroundings)).await.map_err(|_| Error::internal_error())
    }
}

#[tower_lsp::async_trait]
impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        let client = Abilities::of(&params);
        self.shared.lock().client = client;
        Ok(capabilities::result(client))
    }

    async fn initialized(&self, _: InitializedParams) {
        if self.shared.lock().client.watches {
            // The answer is not waited for: a client that never gives one must not hold anything up.
            let client = self.client.clone();
            tokio::spawn(async move {
                let _ = client.register_capability(vec![watched::registration()]).await;
            });
        }
    }

    async fn shutdown(&self) -> Result<()> {
        let _ = self.wake.send(Wake::End);
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        let TextDocumentItem { uri, version, text, .. } = params.text_document;
        {
            let mut state = self.shared.lock();
            state.revision += 1;
            let document = Document::new(state.revision, version, text);
            state.documents.insert(uri.clone(), document);
        }
        self.changed(vec![uri]);
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let VersionedTextDocumentIdentifier { uri, version } = params.text_document;
        {
            let mut state = self.shared.lock();
            state.revision += 1;
            let (revision, encoding) = (state.revision, state.client.encoding);
            if let Some(document) = state.documents.get_mut(&uri) {
                let was_sound = document.sound;
                document.edit(revision, version, params.content_changes, encoding);
                if was_sound && !document.sound {
                    let message = format!(
                        "An edit of {} does not fit its text. Nothing of it is checked until it is closed and opened again.",
                        report::visible(&name_of(&uri)),
                    );
                    let _ = self.tell.send(Told::Lost(message));
                }
            }
        }
        self.changed(vec![uri]);
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        let uri = params.text_document.uri;
        {
            let mut state = self.shared.lock();
            state.revision += 1;
            state.documents.remove(&uri);
            state.checked.remove(&uri);
            state.readings.forget(&uri);
        }
        let _ = self.tell.send(Told::Closed(uri.clone()));
        // Builds that include it read it from disk again.
        self.changed(vec![uri]);
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        if params.changes.iter().any(|change| watched::concerns(&change.uri)) {
            self.shared.lock().revision += 1;
            let _ = self.wake.send(Wake::Disk);
        }
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        let at = params.text_document_position_params;
        self.answer(move |state, surroundings| hover::hover(state, surroundings, &at.text_document.uri, at.position))
            .await
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        let at = params.text_document_position;
        self.answer(move |state, surroundings| {
            completion::complete(state, surroundings, &at.text_document.uri, at.position)
        })
        .await
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        self.answer(move |state, surroundings| {
            // A client may ask for some kinds only, of which `quickfix` may be a part: "" or "quickfix" itself.
            let wanted = |kinds: &Vec<CodeActionKind>| {
                kinds.iter().any(|kind| kind.as_str().is_empty() || *kind == CodeActionKind::QUICKFIX)
            };
            if params.context.only.as_ref().is_some_and(|kinds| !wanted(kinds)) {
                return Some(Vec::new());
            }
            Some(actions::actions(state, surroundings, &params.text_document.uri, params.range))
        })
        .await
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.answer(move |state, _| formatting::whole(state, &params.text_document.uri)).await
    }

    async fn range_formatting(&self, params: DocumentRangeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.answer(move |state, _| formatting::range(state, &params.text_document.uri, params.range)).await
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let at = params.text_document_position_params;
        self.answer(move |state, surroundings| {
            navigation::definition(state, surroundings, &at.text_document.uri, at.position)
                .map(GotoDefinitionResponse::Scalar)
        })
        .await
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let at = params.text_document_position;
        let with_definition = params.context.include_declaration;
        self.answer(move |state, surroundings| {
            navigation::references(state, surroundings, &at.text_document.uri, at.position, with_definition)
        })
        .await
    }

    async fn document_highlight(&self, params: DocumentHighlightParams) -> Result<Option<Vec<DocumentHighlight>>> {
        let at = params.text_document_position_params;
        self.answer(move |state, surroundings| {
            navigation::highlights(state, surroundings, &at.text_document.uri, at.position)
        })
        .await
    }

    async fn prepare_rename(&self, params: TextDocumentPositionParams) -> Result<Option<PrepareRenameResponse>> {
        self.answer(move |state, surroundings| {
            navigation::prepare_rename(state, surroundings, &params.text_document.uri, params.position)
        })
        .await
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let at = params.text_document_position;
        let name = params.new_name;
        self.answer(move |state, surroundings| {
            navigation::rename(state, surroundings, &at.text_document.uri, at.position, &name)
        })
        .await?
        .map_err(Error::invalid_params)
    }

    async fn document_symbol(&self, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>> {
        self.answer(move |state, surroundings| {
            outline::symbols(state, surroundings, &params.text_document.uri).map(DocumentSymbolResponse::Nested)
        })
        .await
    }

    async fn folding_range(&self, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> {
        self.answer(move |state, surroundings| outline::folds(state, surroundings, &params.text_document.uri)).await
    }

    async fn diagnostic(&self, params: DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> {
        let wanted = self.shared.lock().revision;
        let mut settles = self.settles.clone();
        // The sender is gone only when the server ends.
        settles.wait_for(|settled| *settled >= wanted).await.map_err(|_| Error::request_cancelled())?;
        let state = self.shared.snapshot();
        Ok(pull::report(&state, &params.text_document.uri, params.previous_result_id.as_deref()))
    }

    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        let (changed, folded) = {
            let mut state = self.shared.lock();
            let (hints, folds) = (state.client.hints, state.client.folds_undecided);
            state.client.hints = hints.changed(&params.settings);
            state.client.folds_undecided = settings::folds(Some(&params.settings), folds);
            let folded = folds != state.client.folds_undecided;
            state.revision += u64::from(folded);
            (hints != state.client.hints, folded)
        };
        if folded {
            let _ = self.wake.send(Wake::Disk);
        }
        if changed {
            refresh::after_check(&self.client, &self.shared);
        }
    }

    async fn inlay_hint(&self, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>> {
        self.answer(move |state, _| inlay::hints(state, &params.text_document.uri, params.range)).await
    }

    async fn semantic_tokens_full(&self, params: SemanticTokensParams) -> Result<Option<SemanticTokensResult>> {
        self.answer(move |state, _| {
            let data = tokens::tokens(state, &params.text_document.uri, None)?;
            Some(SemanticTokensResult::Tokens(SemanticTokens { result_id: None, data }))
        })
        .await
    }

    async fn semantic_tokens_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        self.answer(move |state, _| {
            let data = tokens::tokens(state, &params.text_document.uri, Some(params.range))?;
            Some(SemanticTokensRangeResult::Tokens(SemanticTokens { result_id: None, data }))
        })
        .await
    }

    async fn prepare_call_hierarchy(
        &self,
        params: CallHierarchyPrepareParams,
    ) -> Result<Option<Vec<CallHierarchyItem>>> {
        let at = params.text_document_position_params;
        self.answer(move |state, _| hierarchy::prepare(state, &at.text_document.uri, at.position)).await
    }

    async fn incoming_calls(
        &self,
        params: CallHierarchyIncomingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
        self.answer(move |state, _| hierarchy::incoming(state, &params.item)).await
    }

    async fn outgoing_calls(
        &self,
        params: CallHierarchyOutgoingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
        self.answer(move |state, _| hierarchy::outgoing(state, &params.item)).await
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        self.answer(move |state, _| lens::lenses(state, &params.text_document.uri)).await
    }

    async fn selection_range(&self, params: SelectionRangeParams) -> Result<Option<Vec<SelectionRange>>> {
        self.answer(move |state, _| selection::selections(state, &params.text_document.uri, &params.positions)).await
    }

    async fn symbol(&self, params: WorkspaceSymbolParams) -> Result<Option<Vec<SymbolInformation>>> {
        self.answer(move |state, _| Some(symbols::symbols(state, &params.query))).await
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        self.answer(move |state, _| links::links(state, &params.text_document.uri)).await
    }
}
