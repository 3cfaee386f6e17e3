//! Tells the client that there are other hints and lenses, so that it asks for them again.

use crate::client::Client as Abilities;
use crate::state::Shared;
use std::future::Future;
use std::sync::Arc;
use std::sync::atomic::{AtomicU8, Ordering};
use tower_lsp::Client;
use tower_lsp::jsonrpc::Result;

const IDLE: u8 = 0;
const ASKED: u8 = 1;
/// Asked, and something changed since.
const ASKED_AND_CHANGED: u8 = 2;

/// What the client has been told and has not answered. A client that never answers is told once, however long the session.
#[derive(Debug, Default)]
pub struct Refresh {
    hints: AtomicU8,
    lenses: AtomicU8,
}

/// To be called when a check is finished or a setting changed; it waits for nothing.
pub fn after_check(client: &Client, shared: &Shared) {
    let (abilities, refresh) = {
        let state = shared.lock();
        (state.client, state.refresh.clone())
    };
    let Abilities { refreshes_hints, refreshes_lenses, .. } = abilities;
    if refreshes_hints {
        let client = client.clone();
        tell(
            refresh.clone(),
            |refresh| &refresh.hints,
            move || {
                let client = client.clone();
                async move { client.inlay_hint_refresh().await }
            },
        );
    }
    if refreshes_lenses {
        let client = client.clone();
        tell(
            refresh,
            |refresh| &refresh.lenses,
            move || {
                let client = client.clone();
                async move { client.code_lens_refresh().await }
            },
        );
    }
}

fn tell<T>(
    refresh: Arc<Refresh>,
    of: impl Fn(&Refresh) -> &AtomicU8 + Send + 'static,
    ask: impl Fn() -> T + Send + 'static,
) where
    T: Future<Output = Result<()>> + Send,
{
    let before = of(&refresh).fetch_update(Ordering::AcqRel, Ordering::Acquire, |told| {
        Some(if told == IDLE { ASKED } else { ASKED_AND_CHANGED })
    });
    if before != Ok(IDLE) {
        return;
    }
    tokio::spawn(async move {
        // The first question always goes out; another one only if something changed until it was answered.
        while ask().await.is_ok() {
            let told = of(&refresh);
            if told.compare_exchange(ASKED, IDLE, Ordering::AcqRel, Ordering::Acquire).is_ok() {
                return;
            }
            told.store(ASKED, Ordering::Release);
        }
        of(&refresh).store(IDLE, Ordering::Release);
    });
}
