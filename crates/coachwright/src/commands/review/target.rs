//! Where a form goes: standard output, or a file that is there as a whole or not at all.

use crate::files;
use crate::output::Output;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// Where a form goes.
#[derive(Debug)]
pub enum Target {
    /// Standard output.
    Shown,
    /// A file.
    File(Box<FileTarget>),
}

/// A file that is being written.
#[derive(Debug)]
pub struct FileTarget {
    path: PathBuf,
    to: To,
    fault: Option<String>,
}

#[derive(Debug)]
enum To {
    /// A new file beside, which takes its place in the end.
    Beside(BufWriter<NamedTempFile>),
    /// A pipe or a device, which is written as it comes.
    Straight(BufWriter<File>),
}

impl Target {
    /// Begins a file.
    ///
    /// # Errors
    /// In words for the one who named it.
    pub fn file(path: &Path) -> Result<Self, String> {
        if path.to_string_lossy().to_lowercase().ends_with(".kdl") {
            return Err(String::from("it is named like a specification, and would take its place: give another name"));
        }
        let straight = std::fs::metadata(path).is_ok_and(|there| !there.is_file() && !there.is_dir());
        let to = if straight {
            let file = std::fs::OpenOptions::new().write(true).open(path).map_err(|error| error.to_string())?;
            To::Straight(BufWriter::new(file))
        } else {
            To::Beside(BufWriter::new(files::beside(path)?))
        };
        Ok(Self::File(Box::new(FileTarget { path: path.to_owned(), to, fault: None })))
    }

    /// Writes on. What fails is told in the end.
    pub fn write(&mut self, text: &str, output: &mut Output) {
        match self {
            Self::Shown => output.print(text),
            Self::File(file) => {
                if file.fault.is_none() {
                    let written = match &mut file.to {
                        To::Beside(to) => to.write_all(text.as_bytes()),
                        To::Straight(to) => to.write_all(text.as_bytes()),
                    };
                    file.fault = written.err().map(|error| error.to_string());
                }
            }
        }
    }

    /// Ends the file.
    ///
    /// # Errors
    /// In words, when the file could not be written; what was there before is there still.
    pub fn finish(self) -> Result<(), String> {
        let Self::File(file) = self else { return Ok(()) };
        let FileTarget { path, to, fault } = *file;
        let name = report::visible(&path.to_string_lossy()).into_owned();
        let end = || {
            if let Some(fault) = fault {
                return Err(fault);
            }
            match to {
                To::Straight(mut to) => to.flush().map_err(|error| error.to_string()),
                To::Beside(to) => {
                    let file = to.into_inner().map_err(|error| error.error().to_string())?;
                    files::put(file, &path)
                }
            }
        };
        end().map_err(|fault| format!("{name} cannot be written: {fault}. What was there before is there still."))
    }
}
