//! A command line that cannot be followed: what is wrong with it, and what to write instead.

mod file;

pub use file::{beside, file};

use crate::command_line::CommandLine;
use crate::commands::nearest;
use crate::status::Status;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, Command, CommandFactory, Error, FromArgMatches};
use file::{Sort, sort};
use std::ffi::OsString;
use std::io::Write;

/// Words by which someone may look for a command, in no order.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("audit", "review"),
    ("bug", "report-problem"),
    ("check", "review"),
    ("complete", "completions"),
    ("create", "start"),
    ("compare", "changes"),
    ("diff", "changes"),
    ("documents", "packet"),
    ("drawings", "packet"),
    ("editor", "language-server"),
    ("explain", "why"),
    ("facts", "working"),
    ("fmt", "tidy"),
    ("format", "tidy"),
    ("init", "start"),
    ("inspect", "review"),
    ("lint", "review"),
    ("lsp", "language-server"),
    ("man", "manual"),
    ("new", "start"),
    ("papers", "packet"),
    ("pdf", "packet"),
    ("problem", "report-problem"),
    ("rule", "why"),
    ("rules", "why"),
    ("serve", "language-server"),
    ("sheets", "packet"),
    ("show", "working"),
    ("test", "prove"),
    ("validate", "review"),
    ("verify", "review"),
];

/// Reads a command line. What is asked of the reader itself (help, the version) is answered here.
///
/// # Errors
/// The status with which to end, when all is said.
pub fn read(words: impl IntoIterator<Item = OsString>) -> Result<CommandLine, Status> {
    let words: Vec<OsString> = words.into_iter().collect();
    parsed(&words)?.map_err(|error| match error.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => {
            // A reader that stops listening is no fault, and there is nowhere else to tell of another.
            let _ = error.print();
            Status::Done
        }
        _ => {
            // Standard error is all there is for it: a failure there has nowhere to go.
            let _ = writeln!(std::io::stderr(), "{}", message(&error, &words));
            Status::Unable
        }
    })
}

/// The command line as the library reads it, and what it cannot see: which form goes into which file.
fn parsed(words: &[OsString]) -> Result<Result<CommandLine, Error>, Status> {
    let read = CommandLine::command().try_get_matches_from(words).and_then(|matches| {
        let line = CommandLine::from_arg_matches(&matches)?;
        Ok((line, matches))
    });
    let (mut line, matches) = match read {
        Ok(read) => read,
        Err(error) => return Ok(Err(error)),
    };
    if let crate::command_line::Command::Review(review) = &mut line.command
        && let Some(matches) = matches.subcommand_matches("review")
        && let Err(said) = review.join(matches)
    {
        let _ = writeln!(std::io::stderr(), "{}", report::visible(&said));
        return Err(Status::Unable);
    }
    Ok(Ok(line))
}

/// What is wrong, and what to write instead.
fn message(error: &Error, words: &[OsString]) -> String {
    let mut program = CommandLine::command();
    program.build();
    let command = asked(&program, words);
    let text = |kind| match error.get(kind) {
        Some(ContextValue::String(text)) => report::visible(text).into_owned(),
        Some(ContextValue::Strings(texts)) => {
            texts.iter().map(|text| report::visible(text).into_owned()).collect::<Vec<_>>().join(", ")
        }
        _ => String::new(),
    };
    let said = match error.kind() {
        ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand | ErrorKind::MissingSubcommand => no_command(&program),
        ErrorKind::InvalidSubcommand => unknown_command(&program, &text(ContextKind::InvalidSubcommand)),
        ErrorKind::MissingRequiredArgument => missing(command, &text(ContextKind::InvalidArg)),
        ErrorKind::UnknownArgument => unknown_argument(&program, command, &text(ContextKind::InvalidArg)),
        ErrorKind::InvalidValue => wrong_value(
            command,
            &text(ContextKind::InvalidArg),
            &text(ContextKind::InvalidValue),
            &text(ContextKind::ValidValue),
        ),
        ErrorKind::ValueValidation => {
            let reason = std::error::Error::source(error).map(ToString::to_string).unwrap_or_default();
            let (option, value) = (text(ContextKind::InvalidArg), text(ContextKind::InvalidValue));
            format!("{} cannot be \"{value}\": {}.", bare(&option), report::visible(&reason))
        }
        ErrorKind::ArgumentConflict => {
            let (one, other) = (text(ContextKind::InvalidArg), text(ContextKind::PriorArg));
            if other.is_empty() || one == other {
                format!("{} stands twice: give it once.", bare(&one))
            } else {
                format!("{} and {} do not go together: give one of them.", bare(&one), bare(&other))
            }
        }
        ErrorKind::InvalidUtf8 => String::from("A word of the command is not text in UTF-8: write it anew."),
        _ => {
            let first = error.to_string();
            let first = first.lines().next().unwrap_or_default();
            format!("{}.", report::visible(first.strip_prefix("error: ").unwrap_or(first)))
        }
    };
    match command {
        Some(command) => {
            format!("{said}\nThe whole command: {}\nMore: coachwright {} --help", usage(command), command.get_name())
        }
        None => format!("{said}\nEvery command: coachwright --help"),
    }
}

/// The command that was asked for: the first word that is one.
fn asked<'a>(program: &'a Command, words: &[OsString]) -> Option<&'a Command> {
    let mut words = words.iter().skip(1).filter_map(|word| word.to_str());
    let first = loop {
        match words.next()? {
            // The one option of the program itself that takes a value.
            "--colour" | "--color" => drop(words.next()),
            word if word.starts_with('-') => {}
            word => break word,
        }
    };
    program.find_subcommand(first)
}

fn commands(program: &Command) -> Vec<&str> {
    program.get_subcommands().map(Command::get_name).filter(|name| *name != "help").collect()
}

fn no_command(program: &Command) -> String {
    let names = commands(program);
    format!(
        "Say what to do. To begin a specification: coachwright start --to my.build.kdl\n\
         To review one: coachwright review my.build.kdl\nThe commands are: {}.",
        names.join(", ")
    )
}

fn unknown_command(program: &Command, word: &str) -> String {
    let known = format!("There is no command \"{word}\".");
    match sort(word) {
        Sort::Rules => return format!("{known} To prove these rules: coachwright prove {}", quoted(word)),
        Sort::Parts => {
            return format!(
                "{known} That file holds parts: review the build that includes it, coachwright review my.build.kdl"
            );
        }
        Sort::Build => return format!("{known} To review this file: coachwright review {}", quoted(word)),
        Sort::Other => {}
    }
    let lower = word.to_lowercase();
    let meant = OTHER_WORDS.iter().find(|(other, _)| *other == lower).map(|(_, command)| (*command).to_owned());
    let near = meant.or_else(|| nearest(&lower, commands(program).iter().copied()).into_iter().next());
    match near.as_deref().and_then(|near| program.find_subcommand(near)) {
        Some(near) => format!("{known} Did you mean: {}", usage(near)),
        None => {
            let names = commands(program);
            format!("{known} The commands are: {}.", names.join(", "))
        }
    }
}

fn missing(command: Option<&Command>, arguments: &str) -> String {
    let Some(command) = command else { return format!("{} is missing.", plain(arguments)) };
    let wanted: Vec<&str> = command
        .get_arguments()
        .filter(|argument| argument.is_required_set())
        .filter(|argument| arguments.contains(&*shape(argument)))
        .filter_map(|argument| argument.get_help().map(|_| argument.get_id().as_str()))
        .collect();
    let example = example(command);
    let what = if wanted.is_empty() { plain(arguments) } else { listed(command, &wanted) };
    format!("{} lacks {what}. For example: {example}", command.get_name())
}

/// Arguments with what they are: 'SPEC (the specifications)'.
fn listed(command: &Command, wanted: &[&str]) -> String {
    let texts: Vec<String> = command
        .get_arguments()
        .filter(|argument| wanted.contains(&argument.get_id().as_str()))
        .map(|argument| {
            let help = argument.get_help().map(ToString::to_string).unwrap_or_default();
            let first = help.split([':', ';']).next().unwrap_or_default().to_lowercase();
            format!("{} ({first})", plain(&shape(argument)))
        })
        .collect();
    texts.join(" and ")
}

/// An argument as it is written: SPEC, or --to FOLDER.
fn shape(argument: &Arg) -> String {
    let value = argument.get_value_names().and_then(|names| names.first()).map(ToString::to_string);
    match (argument.get_long(), value) {
        (Some(long), Some(value)) if argument.get_action().takes_values() => format!("--{long} <{value}>"),
        (Some(long), _) => format!("--{long}"),
        (None, Some(value)) => format!("<{value}>"),
        (None, None) => argument.get_id().to_string(),
    }
}

fn unknown_argument(program: &Command, command: Option<&Command>, argument: &str) -> String {
    let long = argument.split('=').next().unwrap_or(argument);
    let Some(command) = command else {
        let owners = owners(program, long);
        return match owners.first() {
            Some(owner) => format!("{long} stands behind its command: {}", with_option(owner, long)),
            None => format!("There is no option {long}, and no command was given."),
        };
    };
    let name = command.get_name();
    if !argument.starts_with('-') {
        return format!(
            "{name} takes nothing more, and \"{argument}\" is one word too many. With spaces in a name, put it in quotes."
        );
    }
    let owners = owners(program, long);
    if !owners.is_empty() {
        let others: Vec<String> = owners.iter().map(|owner| with_option(owner, long)).collect();
        return format!(
            "{name} has no option {long}: it belongs to another command. Did you mean: {}",
            others.join("; or ")
        );
    }
    let known: Vec<String> = options(command).map(|known| format!("--{known}")).collect();
    match nearest(long, known.iter().map(String::as_str)).first() {
        Some(near) => format!("{name} has no option {long}. Did you mean {near}?"),
        None => format!("{name} has no option {long}. Its options are: {}.", known.join(", ")),
    }
}

fn options(command: &Command) -> impl Iterator<Item = &str> {
    command.get_arguments().filter_map(Arg::get_long)
}

/// The commands that have an option.
fn owners<'a>(program: &'a Command, long: &str) -> Vec<&'a Command> {
    let bare = long.trim_start_matches('-');
    program.get_subcommands().filter(|other| options(other).any(|known| known == bare)).collect()
}

/// A command with one of its options, as it is written.
fn with_option(command: &Command, long: &str) -> String {
    let wanted = long.trim_start_matches('-');
    let option = command.get_arguments().find(|argument| argument.get_long() == Some(wanted)).map(shape);
    let operands: String = command.get_positionals().map(|argument| format!(" {}", operand(argument))).collect();
    format!("coachwright {}{operands} {}", command.get_name(), plain(&option.unwrap_or_else(|| long.to_owned())))
}

fn wrong_value(command: Option<&Command>, option: &str, value: &str, valid: &str) -> String {
    let option = bare(option);
    let valid: Vec<&str> = valid.split(", ").filter(|word| !word.is_empty()).collect();
    if value.is_empty() && !valid.is_empty() {
        return format!("{option} lacks its value: one of {}.", valid.join(", "));
    }
    if value.is_empty() {
        let value = command
            .and_then(|command| command.get_arguments().find(|known| plain(&shape(known)).starts_with(&option)))
            .map_or_else(String::new, |known| format!(": {}", plain(&shape(known))));
        return format!("{option} lacks its value{value}.");
    }
    let near = nearest(value, valid.iter().copied());
    let near = near.first().map(|near| format!(" Did you mean {near}?")).unwrap_or_default();
    format!("{option} cannot be \"{value}\": it is one of {}.{near}", valid.join(", "))
}

/// The name of an option or operand without its value: `--as` of `--as <FORM>`.
fn bare(option: &str) -> String {
    match option.split_once(' ') {
        Some((name, _)) if name.starts_with("--") => name.to_owned(),
        _ => plain(option),
    }
}

fn plain(text: &str) -> String {
    text.chars().filter(|c| !matches!(c, '<' | '>')).collect()
}

fn operand(argument: &Arg) -> String {
    let name = argument.get_value_names().and_then(|names| names.first()).map_or("", |name| name.as_str());
    let several = if argument.get_num_args().is_some_and(|range| range.max_values() > 1) { "..." } else { "" };
    if argument.is_required_set() { format!("{name}{several}") } else { format!("[{name}{several}]") }
}

/// How a command is written, without its options.
fn usage(command: &Command) -> String {
    let mut text = format!("coachwright {}", command.get_name());
    for argument in command.get_positionals() {
        text.push_str(&format!(" {}", operand(argument)));
    }
    for argument in command.get_arguments().filter(|one| one.get_long().is_some() && one.is_required_set()) {
        text.push_str(&format!(" {}", plain(&shape(argument))));
    }
    text
}

/// A command with names in place of its operands.
fn example(command: &Command) -> String {
    let mut text = format!("coachwright {}", command.get_name());
    for argument in command.get_arguments().filter(|argument| argument.is_required_set()) {
        let value = match argument.get_value_names().and_then(|names| names.first()).map_or("", |name| name.as_str()) {
            "SPEC" => "my.build.kdl",
            "PART" => "house",
            "FOLDER" => "manual",
            "SHELL" => "bash",
            "FILE" => "problem.txt",
            other => other,
        };
        match argument.get_long() {
            Some(long) => text.push_str(&format!(" --{long} {value}")),
            None => text.push_str(&format!(" {value}")),
        }
    }
    text
}

/// A word as a shell takes it.
fn quoted(word: &str) -> String {
    if word.contains([' ', '(', ')', '&', ';']) { format!("\"{word}\"") } else { word.to_owned() }
}
