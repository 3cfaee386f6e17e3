//! `language-server`: the same findings in an editor.

use crate::engine;
use crate::files;
use crate::output::Output;
use crate::pages;
use crate::status::Status;
use crate::surroundings::today;
use language_server::Surroundings;
use std::sync::Arc;

/// Serves one editor until it says that it is done.
pub fn run(output: &mut Output) -> Status {
    let packs = match engine::shipped() {
        Ok(packs) => packs,
        Err(fault) => {
            output.complain(&fault);
            return Status::Unable;
        }
    };
    let runtime = match tokio::runtime::Builder::new_multi_thread().enable_all().build() {
        Ok(runtime) => runtime,
        Err(fault) => {
            output.complain(&format!("The server cannot start: {fault}."));
            return Status::Unable;
        }
    };
    let surroundings = Surroundings {
        packs,
        today: rules::Today::Asked(today),
        read: Arc::new(files::text),
        resolve: Arc::new(|path| std::fs::canonicalize(path).ok()),
        page: pages::written(),
    };
    runtime.block_on(language_server::serve(tokio::io::stdin(), tokio::io::stdout(), surroundings));
    // A thread that waits for more input must not hold the end up.
    runtime.shutdown_background();
    Status::Done
}
