//! `review`: what the rules find in specifications.

use super::complain_unread;
use crate::command_line::{Colour, Review, ReviewForm};
use crate::engine;
use crate::files::Files;
use crate::output::Output;
use crate::status::Status;
use crate::surroundings::{terminal_options, today};
use spec::Loader;

/// Reviews each specification in turn; one that cannot be read does not stop the others.
pub fn run(arguments: &Review, colour: Colour, output: &mut Output) -> Status {
    let packs = match engine::shipped() {
        Ok(packs) => packs,
        Err(fault) => {
            output.complain(&fault);
            return Status::Unable;
        }
    };
    let today = arguments.today.map_or(rules::Today::Asked(today), rules::Today::Is);
    let options = rules::ReviewOptions { today, draft: arguments.draft };
    let terminal = terminal_options(colour);
    let mut status = Status::Done;
    for (index, spec) in arguments.specs.iter().enumerate() {
        let (files, name) = Files::of(spec);
        // The specification is asked for first: without it there is nothing to review.
        if let Err(fault) = files.load(None, &name) {
            complain_unread(spec, &fault, output);
            status = status.and(Status::Unable);
            continue;
        }
        let review = rules::review(&files, &name, packs, options);
        if index > 0 && arguments.form != ReviewForm::Json {
            output.print("\n");
        }
        output.print(&match arguments.form {
            ReviewForm::Terminal => report::terminal(&review, arguments.hold_at, terminal),
            ReviewForm::Plain => report::plain(&review, arguments.hold_at),
            ReviewForm::Json => format!("{}\n", report::json(&review, arguments.hold_at)),
        });
        if review.held_at(arguments.hold_at) {
            status = status.and(Status::Held);
        }
    }
    status
}
