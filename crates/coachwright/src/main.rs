//! The command line: the only place with files, a clock, an environment and an exit status.

mod command_line;
mod commands;
mod engine;
mod files;
mod output;
mod pages;
mod status;
mod surroundings;

use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    commands::run(command_line::CommandLine::parse()).into()
}
