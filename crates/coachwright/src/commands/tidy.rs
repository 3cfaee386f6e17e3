//! `tidy`: lays out the text of specifications.

use super::{complain_unread, shown};
use crate::command_line::Tidy;
use crate::files;
use crate::output::Output;
use crate::status::Status;
use report::Style;
use rules::finding::FileText;
use std::path::Path;

/// Tidies each specification. One that cannot be read stays as it is and does not stop the others.
pub fn run(arguments: &Tidy, style: Style, output: &mut Output) -> Status {
    arguments.specs.iter().fold(Status::Done, |status, spec| status.and(one(spec, arguments.check, style, output)))
}

fn one(spec: &Path, check: bool, style: Style, output: &mut Output) -> Status {
    let text = match files::text(spec) {
        Ok(text) => text,
        Err(fault) => {
            complain_unread(spec, &fault, output);
            return Status::Unable;
        }
    };
    let tidied = match spec::text::tidy(&text) {
        Ok(tidied) => tidied,
        Err(faults) => {
            let file = FileText { name: spec.to_string_lossy().into_owned(), text: text.into() };
            output.print(&report::unread(&file, &faults, style));
            output
                .complain(&format!("{} was left as it is: mend what cannot be read, then tidy it again.", shown(spec)));
            return Status::Unable;
        }
    };
    if tidied == text {
        return Status::Done;
    }
    if check {
        output.print(&format!("{} is not tidy: coachwright tidy would change its layout.\n", shown(spec)));
        return Status::Held;
    }
    match files::replace(spec, &tidied) {
        Ok(()) => {
            output.print(&format!("{} is tidied.\n", shown(spec)));
            Status::Done
        }
        Err(reason) => {
            output.complain(&format!("{} cannot be written: {reason}. It was left as it is.", shown(spec)));
            Status::Unable
        }
    }
}
