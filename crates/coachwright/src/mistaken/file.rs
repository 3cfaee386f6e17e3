//! A file that is given to a command which cannot do anything with it.

use crate::command_line::Command;
use crate::commands::nearest;
use std::path::Path;

/// What a file holds, by the ending of its name.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sort {
    /// A rule pack.
    Rules,
    /// Reusable parts.
    Parts,
    /// A build, or another text in this language.
    Build,
    /// Something else.
    Other,
}

/// What a file holds, by the ending of its name.
pub fn sort(name: &str) -> Sort {
    let lower = name.to_lowercase();
    if lower.ends_with(".rules.kdl") {
        Sort::Rules
    } else if lower.ends_with(".parts.kdl") {
        Sort::Parts
    } else if lower.ends_with(".kdl") {
        Sort::Build
    } else {
        Sort::Other
    }
}

/// The first file of a command that is not for it: what it is, and the command that it is for.
pub fn file(command: &Command) -> Option<String> {
    match command {
        Command::Review(arguments) => arguments.specs.iter().find_map(|spec| no_build(spec)),
        Command::Working(arguments) => no_build(&arguments.spec),
        Command::Packet(arguments) => no_build(&arguments.spec),
        Command::Modes(arguments) => no_build(&arguments.spec),
        Command::ReportProblem(arguments) => arguments.spec.as_deref().and_then(no_build),
        Command::Prove(arguments) => arguments.packs.iter().find_map(|pack| no_rules(pack)),
        _ => None,
    }
}

fn no_build(path: &Path) -> Option<String> {
    let name = report::visible(&path.to_string_lossy()).into_owned();
    match sort(&name) {
        Sort::Rules => {
            Some(format!("{name} is a rule pack, not a build: its examples are run by coachwright prove {name}"))
        }
        Sort::Parts => Some(format!(
            "{name} holds parts to take from, not a build: write include \"{}\" in a build, and review that: \
             coachwright review my.build.kdl",
            report::visible(&path.file_name().unwrap_or_default().to_string_lossy())
        )),
        Sort::Build | Sort::Other => None,
    }
}

fn no_rules(path: &Path) -> Option<String> {
    let name = report::visible(&path.to_string_lossy()).into_owned();
    let build = path.is_file() && matches!(sort(&name), Sort::Build) && name.to_lowercase().ends_with(".build.kdl");
    build.then(|| {
        format!("{name} is a build, not a rule pack: what the rules find in it, says coachwright review {name}")
    })
}

/// Names of a folder that are looked through for one like it.
const MOST_NAMES: usize = 1000;

/// Of a file that is not there: the part of its path that is missing, or the files like it. It goes on from a sentence.
pub fn beside(path: &Path) -> String {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    if !folder.exists() {
        return format!(". There is no folder {}.", report::visible(&folder.to_string_lossy()));
    }
    let Ok(entries) = std::fs::read_dir(folder) else { return String::new() };
    let mut names: Vec<String> = entries
        .take(MOST_NAMES)
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| sort(name) != Sort::Other)
        .collect();
    names.sort();
    let wanted = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let near: Vec<String> = nearest(&wanted, names.iter().map(String::as_str))
        .iter()
        .map(|name| report::visible(&path.with_file_name(name).to_string_lossy()).into_owned())
        .collect();
    if near.is_empty() { String::new() } else { format!(". Did you mean {}?", near.join(", or ")) }
}
