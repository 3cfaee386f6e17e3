//! `review --watching`: reviews again what is saved.

use super::gather::{Named, gather};
use super::one::{Bench, Outcome};
use super::{shown, told};
use crate::output::Output;
use crate::status::Status;
use notify_debouncer_mini::notify::{RecommendedWatcher, RecursiveMode};
use notify_debouncer_mini::{DebounceEventResult, Debouncer, new_debouncer};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::mpsc::channel;
use std::time::Duration;

/// How long a file rests before it is read: editors write in several steps (chosen).
const REST: Duration = Duration::from_millis(150);

/// What was read for each build.
type Readings = BTreeMap<PathBuf, BTreeSet<PathBuf>>;

/// Reviews everything once, and then whatever is saved, until the program is stopped.
pub fn run(bench: &Bench<'_>, output: &mut Output) -> Status {
    let (tell, told_of) = channel::<DebounceEventResult>();
    let mut watcher = match new_debouncer(REST, tell) {
        Ok(watcher) => watcher,
        Err(error) => {
            output.complain(&format!("Files cannot be watched here: {error}. Review them without --watching."));
            return Status::Unable;
        }
    };
    let mut readings = Readings::new();
    let mut watched: BTreeSet<PathBuf> = BTreeSet::new();
    let gathered = gather(&bench.options.specs);
    told(&gathered, output);
    for named in &bench.options.specs {
        // New builds in a folder are seen too.
        if named.is_dir() {
            watch(&mut watcher, named, RecursiveMode::Recursive, &mut watched);
        }
    }
    for named in &gathered.specs {
        show(bench, named, &mut readings, output);
    }
    follow(&mut watcher, &readings, &mut watched);
    output.complain("Watching. What is saved is reviewed again; Ctrl+C ends it.");
    while let Ok(events) = told_of.recv() {
        let Ok(events) = events else { continue };
        let changed: BTreeSet<PathBuf> = events.into_iter().map(|event| resolved(&event.path)).collect();
        for named in gather(&bench.options.specs).specs {
            let concerns = match readings.get(&named.path) {
                Some(read) => read.iter().any(|file| changed.contains(file)),
                None => changed.contains(&resolved(&named.path)),
            };
            if concerns {
                output.print(&format!("\nSaved: {}\n\n", shown(&named.path)));
                show(bench, &named, &mut readings, output);
            }
        }
        follow(&mut watcher, &readings, &mut watched);
    }
    Status::Done
}

fn show(bench: &Bench<'_>, named: &Named, readings: &mut Readings, output: &mut Output) {
    let own = BTreeSet::from([resolved(&named.path)]);
    match bench.review(named) {
        Outcome::Reviewed(reviewed) => {
            reviewed.fragments.iter().for_each(|text| output.print(text));
            let read = reviewed.read.iter().map(|path| resolved(path)).chain(own).collect();
            readings.insert(named.path.clone(), read);
        }
        Outcome::Unread { message, .. } => {
            output.complain(&format!("{} cannot be read: {}", shown(&named.path), report::visible(&message)));
            readings.insert(named.path.clone(), own);
        }
        Outcome::Piece => {
            readings.insert(named.path.clone(), own);
        }
    }
}

/// Watches the folders of every file that was read: editors put a new file in the place of the old one.
fn follow(watcher: &mut Debouncer<RecommendedWatcher>, readings: &Readings, watched: &mut BTreeSet<PathBuf>) {
    for folder in readings.values().flatten().filter_map(|file| file.parent()) {
        watch(watcher, folder, RecursiveMode::NonRecursive, watched);
    }
}

fn watch(
    watcher: &mut Debouncer<RecommendedWatcher>,
    folder: &Path,
    mode: RecursiveMode,
    watched: &mut BTreeSet<PathBuf>,
) {
    let folder = resolved(folder);
    let known = watched.iter().any(|other| *other == folder);
    if !known && watcher.watcher().watch(&folder, mode).is_ok() {
        watched.insert(folder);
    }
}

/// The path without links; of a file that is gone, its folder's.
fn resolved(path: &Path) -> PathBuf {
    if let Ok(path) = std::fs::canonicalize(path) {
        return path;
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (std::fs::canonicalize(folder), path.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => path.to_owned(),
    }
}
