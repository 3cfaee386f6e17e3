//! `modes`: which sources feed in each mode, what stays live when a disconnect opens, what dies when management cuts off.

use super::complain_unread;
use crate::command_line::Modes;
use crate::files::Files;
use crate::output::Output;
use crate::status::Status;
use design::{Build, Gaps, ModeOverview, PartId, Reader};
use report::{FedRow, LiveTable, ModeRow, ModeSheet, Style};
use rules::review::gap_words;
use spec::Loader;
use spec::text::BlockCache;

/// Shows the modes of a build.
pub fn run(arguments: &Modes, style: Style, output: &mut Output) -> Status {
    let (files, name) = Files::of(&arguments.spec);
    if let Err(fault) = files.load(None, &name) {
        complain_unread(&arguments.spec, &fault, output);
        return Status::Unable;
    }
    let build = design::link(spec::read(&files, &name, &mut BlockCache::new()));
    output.print(&report::modes(&sheet(&build), style));
    Status::Done
}

fn sheet(build: &Build) -> ModeSheet {
    let overviews = Reader::new(build).mode_overviews();
    let tables = |sort: &str| -> Vec<LiveTable> {
        overviews.iter().filter(|mode| mode.sort == sort).map(|mode| table(build, mode)).collect()
    };
    ModeSheet {
        build: build.part(Build::ROOT).name.as_deref().unwrap_or("the build").to_owned(),
        modes: overviews.iter().map(|mode| row(build, mode)).collect(),
        disconnects: tables("disconnect"),
        managements: tables("management"),
    }
}

fn row(build: &Build, mode: &ModeOverview) -> ModeRow {
    ModeRow {
        name: mode.name.to_string(),
        feeding: names(build, &mode.feeding),
        at_times: names(build, &mode.at_times),
        open: names(build, &mode.open),
        either: names(build, &mode.either),
        unsaid: unsaid(build, &mode.unsaid),
    }
}

fn table(build: &Build, mode: &ModeOverview) -> LiveTable {
    let fed = mode.fed.iter().map(|fed| FedRow {
        things: names(build, &fed.things),
        always: names(build, &fed.always),
        at_times: names(build, &fed.at_times),
    });
    LiveTable {
        name: mode.name.to_string(),
        fed: fed.collect(),
        lost: names(build, &mode.lost),
        unsaid: unsaid(build, &mode.unsaid),
    }
}

/// What a builder calls these parts: by name, else by what they are.
fn names(build: &Build, parts: &[PartId]) -> Vec<String> {
    let name = |part: &PartId| {
        let part = build.part(*part);
        part.name.clone().unwrap_or_else(|| part.title.clone()).to_string()
    };
    parts.iter().map(name).collect()
}

/// The entries that would settle what is not known, in words.
fn unsaid(build: &Build, gaps: &Gaps) -> Vec<String> {
    gaps.0.iter().map(|any| any.0.iter().map(|gap| gap_words(build, gap)).collect::<Vec<_>>().join(" or ")).collect()
}
