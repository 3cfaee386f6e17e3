//! The command line: the only place with files, a clock, an environment and an exit status.

mod command_line;
mod commands;
mod engine;
mod files;
mod mistaken;
mod output;
mod pages;
mod status;
mod surroundings;

use std::process::ExitCode;

fn main() -> ExitCode {
    match mistaken::read(std::env::args_os()) {
        Ok(line) => commands::run(line).into(),
        Err(status) => status.into(),
    }
}
