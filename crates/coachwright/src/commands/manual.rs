//! `manual`: the manual pages of the commands.

use super::shown;
use crate::command_line::CommandLine;
use crate::files;
use crate::output::Output;
use crate::status::Status;
use clap::{Args, Command, CommandFactory};
use std::io::ErrorKind;
use std::path::PathBuf;

/// `manual`
#[derive(Debug, Args)]
#[command(after_help = "To read a page: man -l FOLDER/coachwright-review.1")]
pub struct Manual {
    /// The folder; it is made when it is not there
    #[arg(long, value_name = "FOLDER")]
    pub to: PathBuf,
}

/// Writes a page for the program and one for each of its commands.
pub fn run(arguments: &Manual, output: &mut Output) -> Status {
    let folder = &arguments.to;
    if let Err(error) = std::fs::create_dir(folder)
        && !folder.is_dir()
    {
        let reason = match error.kind() {
            ErrorKind::NotFound => String::from("the folder that it would stand in does not exist; make that first"),
            ErrorKind::AlreadyExists => String::from("a file has that name; choose another"),
            ErrorKind::PermissionDenied => String::from("its folder may not be written to"),
            _ => error.to_string(),
        };
        output.complain(&format!("The folder {} cannot be made: {reason}.", shown(folder)));
        return Status::Unable;
    }
    let pages = match pages() {
        Ok(pages) => pages,
        Err(error) => {
            output.complain(&format!("The manual cannot be made: {error}."));
            return Status::Unable;
        }
    };
    for (name, page) in &pages {
        let path = folder.join(name);
        if let Err(reason) = files::write(&path, page) {
            output.complain(&format!("{} cannot be written: {reason}.", shown(&path)));
            return Status::Unable;
        }
    }
    output.print(&format!("{} manual pages are in {}.\n", pages.len(), shown(folder)));
    Status::Done
}

/// The pages with the names of their files.
fn pages() -> std::io::Result<Vec<(String, String)>> {
    // The page of a command is its own: a command `help` beside them would list them all again.
    let mut program = CommandLine::command().disable_help_subcommand(true);
    program.build();
    let mut pages = vec![page(&program)?];
    for command in program.get_subcommands() {
        pages.push(page(command)?);
    }
    Ok(pages)
}

fn page(command: &Command) -> std::io::Result<(String, String)> {
    let man = clap_mangen::Man::new(command.clone());
    let mut text = Vec::new();
    man.render(&mut text)?;
    Ok((man.get_filename(), String::from_utf8_lossy(&text).into_owned()))
}
