//! `completions`: what a shell needs to complete commands and options.

use crate::command_line::CommandLine;
use crate::output::Output;
use crate::status::Status;
use clap::{Args, CommandFactory};
use clap_complete::Shell;

/// `completions`
#[derive(Debug, Args)]
#[command(
    after_help = "For bash: coachwright completions bash > ~/.local/share/bash-completion/completions/coachwright"
)]
pub struct Completions {
    /// The shell
    #[arg(value_enum, value_name = "SHELL")]
    pub shell: Shell,
}

/// Prints the script of a shell.
pub fn run(arguments: &Completions, output: &mut Output) -> Status {
    let mut script = Vec::new();
    clap_complete::generate(arguments.shell, &mut CommandLine::command(), "coachwright", &mut script);
    output.print(&String::from_utf8_lossy(&script));
    Status::Done
}
