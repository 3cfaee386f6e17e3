//! Notices `exit`, which the transport itself does not act on while the client leaves its end of the line open; and takes away
//! parameters that say nothing, which the transport would refuse.

use std::sync::Arc;
use std::task::{Context, Poll};
use tokio::sync::Notify;
use tower_lsp::jsonrpc::Request;
use tower_service::Service;

/// A service that tells when it has been asked to exit.
pub struct Ending<S> {
    /// The service.
    pub inner: S,
    /// Who is told.
    pub ended: Arc<Notify>,
}

impl<S: Service<Request>> Service<Request> for Ending<S> {
    type Response = S::Response;
    type Error = S::Error;
    type Future = S::Future;

    fn poll_ready(&mut self, context: &mut Context<'_>) -> Poll<Result<(), Self::Error>> {
        self.inner.poll_ready(context)
    }

    fn call(&mut self, request: Request) -> Self::Future {
        if request.method() == "exit" {
            self.ended.notify_one();
        }
        self.inner.call(without_null(request))
    }
}

/// The request without parameters that say nothing: some editors write `null` where the protocol has none.
fn without_null(request: Request) -> Request {
    let says_nothing = |params: &serde_json::Value| {
        params.is_null()
            || (request.method() == "shutdown" && params.as_object().is_some_and(serde_json::Map::is_empty))
    };
    if !request.params().is_some_and(says_nothing) {
        return request;
    }
    let bare = Request::build(request.method().to_owned());
    match request.id() {
        Some(id) => bare.id(id.clone()).finish(),
        None => bare.finish(),
    }
}
