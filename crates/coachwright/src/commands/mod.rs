//! The commands, one file each.

pub mod changes;
pub mod completions;
mod language_server;
pub mod manual;
mod modes;
pub mod packet;
mod prove;
pub mod report_problem;
pub mod review;
pub mod start;
mod tidy;
mod why;
mod working;

pub use why::page as rule_page;

use crate::command_line::{Colour, Command, CommandLine, Form};
use crate::mistaken;
use crate::output::Output;
use crate::status::Status;
use crate::surroundings::terminal_options;
use report::Style;
use spec::LoadFault;
use std::path::Path;

/// Does what was asked.
pub fn run(line: CommandLine) -> Status {
    let mut output = Output::default();
    if let Some(mistake) = mistaken::file(&line.command) {
        output.complain(&mistake);
        return output.finish(Status::Unable);
    }
    let status = match &line.command {
        Command::Review(arguments) => review::run(arguments, line.colour, &mut output),
        Command::Why(arguments) => why::run(arguments, style(arguments.form, line.colour), &mut output),
        Command::Working(arguments) => working::run(arguments, style(arguments.form, line.colour), &mut output),
        Command::Packet(arguments) => packet::run(arguments, &mut output),
        Command::Changes(arguments) => changes::run(arguments, line.colour, &mut output),
        Command::Modes(arguments) => modes::run(arguments, style(arguments.form, line.colour), &mut output),
        Command::Tidy(arguments) => tidy::run(arguments, style(arguments.form, line.colour), &mut output),
        Command::LanguageServer => language_server::run(&mut output),
        Command::Prove(arguments) => prove::run(arguments, style(arguments.form, line.colour), &mut output),
        Command::Start(arguments) => start::run(arguments, &mut output),
        Command::ReportProblem(arguments) => report_problem::run(arguments, &mut output),
        Command::Completions(arguments) => completions::run(arguments, &mut output),
        Command::Manual(arguments) => manual::run(arguments, &mut output),
    };
    output.finish(status)
}

fn style(form: Form, colour: Colour) -> Style {
    match form {
        Form::Terminal => Style::Terminal(terminal_options(colour)),
        Form::Plain => Style::Plain,
    }
}

/// A file's name as it may be shown.
fn shown(path: &Path) -> String {
    report::visible(&path.to_string_lossy()).into_owned()
}

/// Why a file was not read, and what to do.
fn reason(path: &Path, fault: &LoadFault) -> String {
    let reason = match fault {
        LoadFault::Refused(reason) => reason.clone(),
        LoadFault::NotText(fault) => {
            // The help is a sentence of its own, or goes on with what the message begins.
            let goes_on = fault.help.starts_with(char::is_lowercase);
            format!("{}{} {}", fault.message, if goes_on { ";" } else { "." }, fault.help)
        }
    };
    let elsewhere = if path.exists() { String::new() } else { mistaken::beside(path) };
    format!("{}{elsewhere}", report::visible(&reason))
}

/// Tells that a file was not read: what, why, and what to do.
fn complain_unread(path: &Path, fault: &LoadFault, output: &mut Output) {
    output.complain(&format!("{} cannot be read: {}", shown(path), reason(path, fault)));
}

/// Tells that there is no such thing, with what it might have been.
fn complain_unknown(what: &str, name: &str, near: &[String], where_to_look: &str, output: &mut Output) {
    let mut text = format!("There is no {what} \"{}\".", report::visible(name));
    if !near.is_empty() {
        let near: Vec<_> = near.iter().map(|near| report::visible(near)).collect();
        text.push_str(&format!(" Did you mean {}?", near.join(", or ")));
    }
    output.complain(&format!("{text} {where_to_look}"));
}

/// Names like `name`: those a slip of the pen away, then those that hold it; a few.
pub fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a str> + Clone) -> Vec<String> {
    /// More suggestions than these are a list to look things up in, not a help.
    const MOST: usize = 4;
    /// A shorter piece of a name is in too many others.
    const SHORTEST: usize = 3;
    let lower = name.to_lowercase();
    let mut near: Vec<String> = Vec::new();
    let mut add = |candidate: &str| {
        if near.len() < MOST && !near.iter().any(|known| known == candidate) {
            near.push(candidate.to_owned());
        }
    };
    if let Some(found) = vocabulary::nearest(name, known.clone()) {
        add(found);
    }
    // A rule may be asked for without its domain: 'no-smoke-alarms'.
    for candidate in known.clone() {
        if let Some((_, last)) = candidate.rsplit_once('/')
            && vocabulary::nearest(name, [last]).is_some()
        {
            add(candidate);
        }
    }
    if lower.len() >= SHORTEST {
        for candidate in known.filter(|candidate| candidate.to_lowercase().contains(&lower)) {
            add(candidate);
        }
    }
    near
}
