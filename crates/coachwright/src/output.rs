//! What is written to whoever called us.

use crate::status::Status;
use std::io::{ErrorKind, Write};

/// Standard output and standard error.
///
/// A reader that stops listening (`| head`) is no fault: the work goes on in silence, so that the exit status still tells
/// what was found.
#[derive(Debug, Default)]
pub struct Output {
    closed: bool,
    fault: Option<String>,
}

impl Output {
    /// Writes to standard output.
    pub fn print(&mut self, text: &str) {
        if self.closed {
            return;
        }
        let mut out = std::io::stdout().lock();
        if let Err(error) = out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
            self.closed = true;
            if error.kind() != ErrorKind::BrokenPipe {
                self.fault = Some(error.to_string());
            }
        }
    }

    /// Tells a person what the tool could not do. Standard error is all there is for it: a failure there has nowhere to go.
    pub fn complain(&mut self, text: &str) {
        let mut out = std::io::stderr().lock();
        let _ = out.write_all(text.as_bytes()).and_then(|()| out.write_all(b"\n"));
    }

    /// The status at the end: unable, when something could not be written.
    pub fn finish(mut self, status: Status) -> Status {
        match self.fault.take() {
            None => status,
            Some(fault) => {
                self.complain(&format!(
                    "The output could not be written: {fault}. What you see may be cut short: make room, or write elsewhere."
                ));
                Status::Unable
            }
        }
    }
}
