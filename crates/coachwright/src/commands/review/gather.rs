//! From what was named to the list of specifications: files, folders, patterns; each once, in a fixed order.

use globset::GlobBuilder;
use ignore::WalkBuilder;
use std::collections::HashSet;
use std::path::{Path, PathBuf};

/// The ending of the specifications that are looked for in folders.
const ENDING: &str = ".build.kdl";

/// A specification to review.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Named {
    /// Its file as it was named or found.
    pub path: PathBuf,
    /// Whether it was found in a folder: then a file without a build is a piece of others, and no mistake.
    pub found: bool,
}

/// What was named.
#[derive(Debug, Default)]
pub struct Gathered {
    /// The specifications, each once.
    pub specs: Vec<Named>,
    /// What could not be looked through: the rest is reviewed all the same.
    pub faults: Vec<String>,
    /// What is worth a word and no fault.
    pub notes: Vec<String>,
}

/// Gathers what was named, in the order in which it was named; what a folder or a pattern brings is sorted by its path.
pub fn gather(named: &[PathBuf]) -> Gathered {
    let mut gathered = Gathered::default();
    let mut seen: HashSet<PathBuf> = HashSet::new();
    for path in named {
        let mut found: Vec<Named> = Vec::new();
        let pattern = path.to_str().filter(|text| text.contains(['*', '?', '[', '{']));
        if path.is_dir() {
            walk(path, |path| path.to_string_lossy().ends_with(ENDING), &mut found, &mut gathered);
            if found.is_empty() {
                gathered.faults.push(format!(
                    "{} holds no file that ends in {ENDING}, but for what .gitignore and .ignore leave out: name the file itself.",
                    shown(path)
                ));
            }
        } else if let Some(pattern) = pattern.filter(|_| std::fs::symlink_metadata(path).is_err()) {
            of_pattern(pattern, &mut found, &mut gathered);
        } else {
            found.push(Named { path: path.clone(), found: false });
        }
        // A file that is reached in two ways is one file, by the name that came first.
        found.retain(|spec| std::fs::canonicalize(&spec.path).map_or(true, |own| seen.insert(own)));
        gathered.specs.extend(found);
    }
    gathered
}

fn of_pattern(pattern: &str, found: &mut Vec<Named>, gathered: &mut Gathered) {
    let glob = match GlobBuilder::new(pattern.trim_start_matches("./")).literal_separator(true).build() {
        Ok(glob) => glob.compile_matcher(),
        // No pattern after all: then it is the name of a file, which is not there.
        Err(_) => {
            found.push(Named { path: PathBuf::from(pattern), found: false });
            return;
        }
    };
    let start = fixed_part(pattern);
    if start.is_dir() {
        let fits = |path: &Path| glob.is_match(path.strip_prefix("./").unwrap_or(path));
        walk(&start, fits, found, gathered);
    }
    if found.is_empty() {
        gathered.faults.push(format!(
            "No file fits {}, but for what .gitignore and .ignore leave out.",
            shown(Path::new(pattern))
        ));
    }
}

/// The folders of a pattern before its first sign.
fn fixed_part(pattern: &str) -> PathBuf {
    let parts: Vec<&str> = pattern.split('/').take_while(|part| !part.contains(['*', '?', '[', '{'])).collect();
    let fixed = parts.join("/");
    match fixed.as_str() {
        "" if pattern.starts_with('/') => PathBuf::from("/"),
        "" => PathBuf::from("."),
        _ => PathBuf::from(fixed),
    }
}

fn walk(folder: &Path, fits: impl Fn(&Path) -> bool, found: &mut Vec<Named>, gathered: &mut Gathered) {
    let entries = WalkBuilder::new(folder).require_git(false).follow_links(true).sort_by_file_path(Ord::cmp).build();
    for entry in entries {
        match entry {
            Ok(entry) => {
                let path = entry.path().strip_prefix("./").unwrap_or(entry.path());
                if entry.file_type().is_some_and(|file_type| !file_type.is_dir()) && fits(path) {
                    found.push(Named { path: path.to_owned(), found: true });
                }
            }
            Err(error) => fault(&error, &fits, found, gathered),
        }
    }
}

fn fault(error: &ignore::Error, fits: &impl Fn(&Path) -> bool, found: &mut Vec<Named>, gathered: &mut Gathered) {
    match error {
        ignore::Error::WithPath { path, err } => {
            // A link that leads nowhere is reviewed, and told of, when it is named like a specification.
            if err.io_error().is_some_and(|error| error.kind() == std::io::ErrorKind::NotFound) {
                if fits(path) {
                    found.push(Named { path: path.clone(), found: true });
                }
                return;
            }
            match &**err {
                ignore::Error::Loop { .. } => fault(err, fits, found, gathered),
                other => gathered.faults.push(format!("{} cannot be looked through: {other}.", shown(path))),
            }
        }
        ignore::Error::WithDepth { err, .. } => fault(err, fits, found, gathered),
        ignore::Error::Loop { ancestor, child } => gathered.notes.push(format!(
            "{} leads back to {}: what is there was looked through once.",
            shown(child),
            shown(ancestor)
        )),
        ignore::Error::Partial(errors) => errors.iter().for_each(|error| fault(error, fits, found, gathered)),
        other => gathered.faults.push(format!("Not everything was looked through: {other}.")),
    }
}

fn shown(path: &Path) -> String {
    report::visible(&path.to_string_lossy()).into_owned()
}
