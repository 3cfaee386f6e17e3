//! `changes`: what differs between two revisions of a build.

use super::packet::{given, in_units};
use super::review::revision::Revision;
use super::{reason, shown};
use crate::command_line::Colour;
use crate::engine;
use crate::files::{self, Files};
use crate::output::Output;
use crate::status::Status;
use crate::surroundings::{terminal_options, today};
use clap::{Args, ValueEnum};
use design::Build;
use jiff::civil::Date;
use packet::Packet;
use packet::changes::{Side, changes};
use packet::write::{changes_html, changes_json, changes_sheet};
use report::{Style, TerminalOptions};
use rules::{ReviewOptions, Signal, Today};
use spec::text::BlockCache;
use spec::{Loader, Value};
use std::path::{Path, PathBuf};
use vocabulary::{fact, kind};

/// `changes`
#[derive(Debug, Args)]
#[command(
    after_help = "A revision is a file, or a file as git has it: rev-c:bramble.build.kdl, where rev-c is a branch, a tag or a commit. With one \
        revision only, it is compared with what was approved: the commit that its `approved` names.\n\nExit status: 0 the two were \
        compared; 2 one of them could not be read."
)]
pub struct Changes {
    /// The older and the newer revision; with one only, what was approved is the older one
    #[arg(required = true, num_args = 1..=2, value_names = ["OLD", "NEW"])]
    pub revisions: Vec<String>,
    /// For whom
    #[arg(long = "as", value_enum, default_value = "terminal", value_name = "FORM")]
    pub form: ChangesForm,
    /// The file to write, instead of standard output
    #[arg(long = "to", value_name = "FILE")]
    pub to: Option<PathBuf>,
    /// The units in which both are told; without it, those of the newer one
    #[arg(long, value_enum, value_name = "UNITS")]
    pub units: Option<super::packet::Units>,
    /// Treat both as drafts: undecided checks do not hold them
    #[arg(long)]
    pub draft: bool,
    /// The day on which waivers are judged, as 2026-03-14; without it, today
    #[arg(long, value_name = "DATE", value_parser = super::review::date)]
    pub today: Option<Date>,
}

/// For whom the changes are written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum ChangesForm {
    /// Someone at a terminal
    Terminal,
    /// Someone who listens, or a file
    Plain,
    /// A page for a browser
    Html,
    /// A program
    Json,
}

/// One revision with all that is made of it.
struct Made {
    build: Build,
    packet: Packet,
}

/// Compares two revisions.
pub fn run(arguments: &Changes, colour: Colour, output: &mut Output) -> Status {
    match compared(arguments, colour, output) {
        Ok(()) => Status::Done,
        Err(fault) => {
            output.complain(&fault);
            Status::Unable
        }
    }
}

fn compared(arguments: &Changes, colour: Colour, output: &mut Output) -> Result<(), String> {
    let new_name = arguments.revisions.last().map_or("", String::as_str);
    let new = read(new_name)?;
    let (old_name, old) = match arguments.revisions.as_slice() {
        [old, _] => (old.clone(), read(old)?),
        _ => approved(new_name, &new)?,
    };
    let written = [units_of(&old), units_of(&new)];
    let units = arguments.units.map_or(written[1], super::packet::Units::system);
    let options =
        ReviewOptions { today: arguments.today.map_or(Today::Asked(today), Today::Is), draft: arguments.draft };
    let day = arguments.today.unwrap_or_else(today);
    let made = |build: Build| -> Result<Made, String> {
        let build = in_units(build, units);
        let review = rules::review::review_build(&build, engine::shipped()?, options);
        let given = given(&review, day, Signal::Warning);
        let packet = packet::packet(&build, review.into(), &given);
        Ok(Made { build, packet })
    };
    let (old, new) = (made(old)?, made(new)?);
    if arguments.revisions.len() == 1
        && let Some(approved) = &new.packet.head.approved
        && !old.packet.head.hash.starts_with(&approved.mark)
    {
        output.complain(&format!(
            "{} is not what was approved: its mark is {}, and the approval names {}. It is compared all the same.",
            report::visible(&old_name),
            old.packet.head.short_hash(),
            report::visible(&approved.mark)
        ));
    }
    let side = |made| -> Side<'_> {
        let Made { build, packet }: &Made = made;
        Side { build, packet }
    };
    let found = changes(side(&old), side(&new), [&old_name, new_name], written);
    let style = match (arguments.form, &arguments.to) {
        (ChangesForm::Terminal, None) => Style::Terminal(terminal_options(colour)),
        // A file has no colours, and any width.
        (ChangesForm::Terminal, Some(_)) => {
            Style::Terminal(TerminalOptions { colour: false, links: false, ..terminal_options(colour) })
        }
        _ => Style::Plain,
    };
    let text = match arguments.form {
        ChangesForm::Terminal | ChangesForm::Plain => report::changes(&changes_sheet(&found), style),
        ChangesForm::Html => changes_html(&found),
        ChangesForm::Json => format!("{}\n", changes_json(&found)),
    };
    match &arguments.to {
        Some(path) => files::write(path, &text).map_err(|fault| format!("{} cannot be written: {fault}.", shown(path))),
        None => {
            output.print(&text);
            Ok(())
        }
    }
}

/// The units in which a build is written.
fn units_of(build: &Build) -> quantity::System {
    let us = match build.part(Build::ROOT).given(fact::build::UNITS).map(|given| &given.value) {
        Some(Value::Choice(place)) => {
            vocabulary::fact_spec(fact::build::UNITS).choices().get(usize::from(*place)) == Some(&"us")
        }
        _ => false,
    };
    if us { quantity::System::UsCustomary } else { quantity::System::Metric }
}

/// A revision by its name: a file, else a file as git has it.
fn read(named: &str) -> Result<Build, String> {
    let path = Path::new(named);
    match named.split_once(':') {
        Some((revision, file)) if !path.exists() && !revision.is_empty() => {
            at(Path::new("."), revision, Path::new(file))
        }
        _ => {
            let (files, name) = Files::of(path);
            files
                .load(None, &name)
                .map_err(|fault| format!("{} cannot be read: {}", shown(path), reason(path, &fault)))?;
            Ok(link(&files, &name))
        }
    }
}

fn link(loader: &dyn Loader, name: &str) -> Build {
    design::link(spec::read(loader, name, &mut BlockCache::new()))
}

/// A file of a git revision: as it is named from here, else from the top of the repository.
fn at(folder: &Path, revision: &str, file: &Path) -> Result<Build, String> {
    let shown_revision = report::visible(revision);
    let opened = Revision::open(folder, revision).map_err(|fault| {
        format!("There is no file {shown_revision}:{0}, and no git revision {shown_revision}: {fault}.", shown(file))
    })?;
    for (files, name) in [opened.files(file), opened.files_from_top(file)].into_iter().flatten() {
        if files.load(None, &name).is_ok() {
            return Ok(link(&files, &name));
        }
    }
    Err(format!(
        "The git revision {shown_revision} has no file {0} that can be read. Name it as seen from here, or from the top of the repository.",
        shown(file)
    ))
}

/// What was approved of a build, by the commit that it names.
fn approved(named: &str, build: &Build) -> Result<(String, Build), String> {
    let write =
        "write, inside build, approved \"MARK\" date=\"2026-03-20\" commit=\"rev-c\"; the packet tells the mark";
    let Some(&approval) = build.of_kind(kind::APPROVED).members.last() else {
        return Err(format!(
            "{} names no approval to compare with: give the older revision before it, or {write}.",
            report::visible(named)
        ));
    };
    let commit = match build.part(approval).given(fact::approved::COMMIT).map(|given| &given.value) {
        Some(Value::Text(commit)) => commit.to_string(),
        _ => {
            return Err(format!(
                "The approval in {} does not say which git revision was approved: add commit= to it, or give the older revision before it.",
                report::visible(named)
            ));
        }
    };
    let path = Path::new(named);
    let (folder, file) = match named.split_once(':') {
        Some((_, file)) if !path.exists() => (Path::new("."), Path::new(file)),
        _ => (path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new(".")), path),
    };
    Ok((format!("{commit}:{}", file.display()), at(folder, &commit, file)?))
}
