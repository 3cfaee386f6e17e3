//! The language server: the same findings as the command `review`, in any editor that speaks the Language Server Protocol.
//!
//! The texts are held by their bytes; only `position` knows how a client counts. Handlers change the state before anything is
//! awaited, one thread checks, one task publishes. This crate knows nothing of terminals; files and the clock are handed in.

mod actions;
mod capabilities;
mod check;
mod client;
mod comments;
mod completion;
mod diagnostics;
mod disk;
mod document;
mod ending;
mod feeds;
mod formatting;
mod hierarchy;
mod hover;
mod inlay;
mod lens;
mod links;
mod navigation;
mod outline;
pub mod position;
mod publisher;
mod pull;
mod reading;
mod readings;
mod refresh;
mod rule_files;
mod selection;
mod server;
mod settings;
mod snippets;
mod state;
mod symbols;
mod tokens;
mod tokens_of_rules;
mod tolerance;
mod trees;
mod unchanged;
mod units;
mod views;
mod watched;
mod worker;

pub use check::{RulePage, Surroundings};
pub use disk::{ReadFile, ResolvePath};
pub use publisher::Observer;

use ending::Ending;
use state::Shared;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::mpsc::channel;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::sync::Notify;
use tokio::sync::mpsc::unbounded_channel;
use tokio::sync::watch;
use tower_lsp::lsp_types::{Diagnostic, Url};
use tower_lsp::{LspService, Server};

/// How many requests may be under way at once: they work on threads of their own, so waiting ones cost little.
const REQUESTS_AT_ONCE: usize = 64;

/// Serves one client until it says `exit` or its end of the line is closed.
pub async fn serve<I, O>(input: I, output: O, surroundings: Surroundings)
where
    I: AsyncRead + Unpin,
    O: AsyncWrite,
{
    serve_observed(input, output, surroundings, Box::new(|_| ())).await;
}

/// As [`serve`], with somebody who is told what has been settled.
pub async fn serve_observed<I, O>(input: I, output: O, surroundings: Surroundings, observed: Observer)
where
    I: AsyncRead + Unpin,
    O: AsyncWrite,
{
    let shared = Shared::default();
    let (wake, wakes) = channel();
    let (tell, told) = unbounded_channel();
    let checking = {
        let (shared, surroundings, tell) = (shared.clone(), surroundings.clone(), tell.clone());
        std::thread::spawn(move || worker::run(&shared, &surroundings, &wakes, &tell))
    };
    let ending = wake.clone();
    let (settled, settles) = watch::channel(0);
    let (service, socket) = LspService::new(|client| {
        tokio::spawn(publisher::run(client.clone(), shared.clone(), told, settled, observed));
        server::Server { client, shared: shared.clone(), wake, tell, settles, surroundings }
    });
    let ended = Arc::new(Notify::new());
    let service = Ending { inner: service, ended: ended.clone() };
    let serving = Server::new(input, output, socket).concurrency_level(REQUESTS_AT_ONCE).serve(service);
    // A client may say `exit` and leave the line open.
    tokio::select! {
        () = serving => {}
        () = ended.notified() => {}
    }
    let _ = ending.send(worker::Wake::End);
    let _ = checking.join();
}

/// What a client without the protocol's extras is to be shown of a build and what it includes, from nothing: what the server
/// shows after any edits must be the same. The first of the open texts is the build.
pub fn shown_of(
    open: &[(Url, &str)],
    surroundings: &Surroundings,
    encoding: position::Encoding,
) -> BTreeMap<Url, Vec<Diagnostic>> {
    let mut state = state::State::default();
    state.client.encoding = encoding;
    for (url, text) in open {
        state.documents.insert(url.clone(), document::Document::new(0, 0, (*text).to_owned()));
    }
    let Some((root, _)) = open.first() else { return BTreeMap::new() };
    check::check(&state, root, surroundings, &mut spec::text::BlockCache::off()).shown
}
