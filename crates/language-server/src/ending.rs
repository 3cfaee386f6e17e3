//! Notices `exit`, which the transport itself does not act on while the client leaves its end of the line open.

use crate::tolerance::tolerated;
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
        self.inner.call(tolerated(request))
    }
}
