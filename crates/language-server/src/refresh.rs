//! Tells the client that there are other hints and lenses, or findings for one that asks for them, so that it asks for them again.

use crate::state::Shared;
use std::sync::Arc;
use std::sync::atomic::{AtomicU8, Ordering};
use tower_lsp::Client;
use tower_lsp::jsonrpc::Request;
use tower_service::Service as _;

const IDLE: u8 = 0;
const ASKED: u8 = 1;
/// Asked, and something changed since.
const ASKED_AND_CHANGED: u8 = 2;

/// What the client has been told and has not answered. A client that never answers is told once, however long the session.
#[derive(Debug, Default)]
pub struct Refresh {
    hints: AtomicU8,
    lenses: AtomicU8,
    findings: AtomicU8,
}

/// To be called when a check is finished or a setting changed; it waits for nothing.
pub fn after_check(client: &Client, shared: &Shared) {
    let (abilities, refresh) = {
        let state = shared.lock();
        (state.client, state.refresh.clone())
    };
    if abilities.refreshes_hints {
        tell(client, &refresh, "workspace/inlayHint/refresh", |refresh| &refresh.hints);
    }
    if abilities.refreshes_lenses {
        tell(client, &refresh, "workspace/codeLens/refresh", |refresh| &refresh.lenses);
    }
}

/// To be called when something else was found and the client asks for findings; it waits for nothing.
pub fn after_findings(client: &Client, shared: &Shared) {
    let (abilities, refresh) = {
        let state = shared.lock();
        (state.client, state.refresh.clone())
    };
    if abilities.pulls && abilities.pulls_again {
        tell(client, &refresh, "workspace/diagnostic/refresh", |refresh| &refresh.findings);
    }
}

fn tell(client: &Client, refresh: &Arc<Refresh>, method: &'static str, of: fn(&Refresh) -> &AtomicU8) {
    let before = of(refresh).fetch_update(Ordering::AcqRel, Ordering::Acquire, |told| {
        Some(if told == IDLE { ASKED } else { ASKED_AND_CHANGED })
    });
    if before != Ok(IDLE) {
        return;
    }
    let (mut client, refresh) = (client.clone(), refresh.clone());
    tokio::spawn(async move {
        // The first question always goes out; another one only if something changed until it was answered. It is built by
        // hand, since the transport would write `null` for its parameters, which the protocol does not have.
        loop {
            let request = Request::build(method).id(client.next_request_id()).finish();
            if client.call(request).await.is_err() {
                // The line is closed.
                return;
            }
            let told = of(&refresh);
            if told.compare_exchange(ASKED, IDLE, Ordering::AcqRel, Ordering::Acquire).is_ok() {
                return;
            }
            told.store(ASKED, Ordering::Release);
        }
    });
}
