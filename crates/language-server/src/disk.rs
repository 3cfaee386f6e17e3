//! Files on disk, as the command line reads them, with the open texts laid over them.

use spec::{LoadFault, Loaded, Loader};
use std::cell::RefCell;
use std::collections::HashMap;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use tower_lsp::lsp_types::Url;

use crate::state::State;

/// Reads a file's text, with every caution of the command line.
pub type ReadFile = Arc<dyn Fn(&Path) -> Result<String, LoadFault> + Send + Sync>;

/// Where a path leads through all links; nothing when there is no such file.
pub type ResolvePath = Arc<dyn Fn(&Path) -> Option<PathBuf> + Send + Sync>;

/// The name by which a text is known in a review: its path, else its address.
pub fn name_of(url: &Url) -> String {
    match url.to_file_path() {
        Ok(path) => without_dots(&path).to_string_lossy().into_owned(),
        Err(()) => url.to_string(),
    }
}

/// The path without `.`; `..` stays, since behind a link it is not the folder that is written before it.
fn without_dots(path: &Path) -> PathBuf {
    path.components().filter(|part| *part != Component::CurDir).collect()
}

/// The path without `.` and with `..` taken back: the best guess for a file that is not on disk.
pub fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => {
                plain.pop();
            }
            other => plain.push(other),
        }
    }
    plain
}

/// Loads open texts first and files else. Each file keeps the name by which it was first asked for, and the address that the
/// editor gives it where it has it open.
pub struct Overlay {
    /// The open texts, by where they lead.
    open: HashMap<PathBuf, (Url, Arc<str>)>,
    read: ReadFile,
    resolve: ResolvePath,
    known: RefCell<Known>,
}

#[derive(Default)]
struct Known {
    /// The names of what was loaded, by where it leads.
    names: HashMap<PathBuf, String>,
    addresses: HashMap<String, Url>,
}

impl Overlay {
    /// The open texts of a state over the files of a disk.
    pub fn of(state: &State, read: &ReadFile, resolve: &ResolvePath) -> Self {
        let mut overlay =
            Self { open: HashMap::new(), read: read.clone(), resolve: resolve.clone(), known: RefCell::default() };
        for (url, document) in &state.documents {
            let path = overlay.resolved(Path::new(&name_of(url)));
            overlay.open.insert(path, (url.clone(), document.text.clone()));
        }
        overlay
    }

    /// The address of a file that was loaded.
    pub fn address(&self, name: &str) -> Option<Url> {
        self.known.borrow().addresses.get(name).cloned()
    }

    fn resolved(&self, path: &Path) -> PathBuf {
        (self.resolve)(path).unwrap_or_else(|| plain(path))
    }
}

impl Loader for Overlay {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let path = match from {
            None => PathBuf::from(name),
            Some(from) if !Path::new(from).is_absolute() => {
                return Err(LoadFault::Refused("this text has no folder yet; save it to a file first".to_owned()));
            }
            Some(from) => without_dots(&Path::new(from).parent().unwrap_or(Path::new("")).join(name)),
        };
        let resolved = self.resolved(&path);
        let open = self.open.get(&resolved);
        let text = match open {
            Some((_, text)) => text.to_string(),
            None => (self.read)(&path)?,
        };
        let address = match open {
            Some((url, _)) => Some(url.clone()),
            None => {
                let written = plain(&path);
                let leads_there = (self.resolve)(&written).is_none_or(|other| other == resolved);
                Url::from_file_path(if leads_there { &written } else { &resolved }).ok()
            }
        };
        let mut known = self.known.borrow_mut();
        let name = known.names.entry(resolved).or_insert_with(|| path.to_string_lossy().into_owned()).clone();
        if let Some(address) = address {
            known.addresses.entry(name.clone()).or_insert(address);
        }
        Ok(Loaded { name, text })
    }
}
