//! Files on disk, as the command line reads them, with the open texts laid over them.

use spec::{LoadFault, Loaded, Loader};
use std::collections::HashMap;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use tower_lsp::lsp_types::Url;

/// Reads a file's text, with every caution of the command line.
pub type ReadFile = Arc<dyn Fn(&Path) -> Result<String, LoadFault> + Send + Sync>;

/// The name by which a text is known in a review: its path, else its address.
pub fn name_of(url: &Url) -> String {
    match url.to_file_path() {
        Ok(path) => plain(&path).to_string_lossy().into_owned(),
        Err(()) => url.to_string(),
    }
}

/// The address of a name.
pub fn url_of(name: &str) -> Option<Url> {
    Url::from_file_path(name).ok().or_else(|| Url::parse(name).ok())
}

/// The path without `.` and with `..` taken back, as editors write addresses.
fn plain(path: &Path) -> PathBuf {
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

/// Loads open texts first and files else.
pub struct Overlay {
    /// The open texts, by name.
    pub open: HashMap<String, Arc<str>>,
    /// How files are read.
    pub read: ReadFile,
}

impl Loader for Overlay {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let name = match from {
            None => name.to_owned(),
            Some(from) => {
                let folder = Path::new(from).parent().unwrap_or(Path::new(""));
                plain(&folder.join(name)).to_string_lossy().into_owned()
            }
        };
        let text = match self.open.get(&name) {
            Some(text) => text.to_string(),
            None => (self.read)(Path::new(&name))?,
        };
        Ok(Loaded { name, text })
    }
}
