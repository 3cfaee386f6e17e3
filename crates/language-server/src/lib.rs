//! The language server: the same findings as the command `review`, in any editor that speaks the Language Server Protocol.
//!
//! The texts are held by their bytes; only `position` knows how a client counts. Handlers change the state before anything is
//! awaited, one thread checks, one task publishes. This crate knows nothing of terminals; files and the clock are handed in.

mod actions;
mod capabilities;
mod check;
mod client;
mod completion;
mod declare;
mod diagnostics;
mod disk;
mod document;
mod formatting;
mod hover;
mod navigation;
mod outline;
pub mod position;
mod protect;
mod publisher;
mod reading;
mod server;
mod state;
mod watched;
mod worker;

pub use check::Surroundings;
pub use disk::ReadFile;

use state::Shared;
use std::sync::mpsc::channel;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::sync::mpsc::unbounded_channel;
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

/// As [`serve`]; `observed` is called with the number of each state of the texts whose check has been settled.
pub async fn serve_observed<I, O>(input: I, output: O, surroundings: Surroundings, observed: Box<dyn Fn(u64) + Send>)
where
    I: AsyncRead + Unpin,
    O: AsyncWrite,
{
    let shared = Shared::default();
    let (wake, wakes) = channel();
    let (tell, told) = unbounded_channel();
    let checking = {
        let (shared, surroundings, tell) = (shared.clone(), surroundings.clone(), tell.clone());
        std::thread::spawn(move || worker::run(&shared, &surroundings, &wakes, &tell, &*observed))
    };
    let ending = wake.clone();
    let (service, socket) = LspService::new(|client| {
        tokio::spawn(publisher::run(client.clone(), shared.clone(), told));
        server::Server::new(client, shared.clone(), wake, tell, surroundings)
    });
    Server::new(input, output, socket).concurrency_level(REQUESTS_AT_ONCE).serve(service).await;
    let _ = ending.send(worker::Wake::End);
    let _ = checking.join();
}
