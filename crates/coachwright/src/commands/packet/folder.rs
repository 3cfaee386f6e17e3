//! The folder of a packet: written whole beside its place, then put there.

use packet::write::{FILE_JSON, FILE_PAGE, FILE_PDF, FOLDER_DRAWINGS, FOLDER_TABLES, FORM};
use std::io::{Error, ErrorKind, Write};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// Where a packet goes.
pub struct Place {
    /// The folder, links resolved.
    target: PathBuf,
    /// The folder in which it stands.
    parent: PathBuf,
    /// Whether a packet or an empty folder is there.
    is_there: bool,
}

impl Place {
    /// The place of a folder, if a packet may be put there.
    ///
    /// # Errors
    /// In words: what stands there, or why nothing can.
    pub fn of(folder: &Path) -> Result<Self, String> {
        let target = std::fs::canonicalize(folder).unwrap_or_else(|_| folder.to_owned());
        let parent = match target.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
            Some(_) => PathBuf::from("."),
            None => return Err(String::from("it is the root of the file system; name a folder in it")),
        };
        if target.file_name().is_none() {
            return Err(String::from("that is no name of a folder; end it with one"));
        }
        // A link that leads nowhere is there as well.
        let is_there = std::fs::symlink_metadata(&target).is_ok();
        if is_there {
            let metadata = std::fs::metadata(&target).map_err(|error| said(&error))?;
            if !metadata.is_dir() {
                return Err(String::from("there is a file of that name; name a folder"));
            }
            if !is_packet(&target).map_err(|error| said(&error))? {
                return Err(String::from(
                    "there is such a folder, and it holds something else than a packet; it is left alone. Name a new folder",
                ));
            }
        } else if !parent.is_dir() {
            return Err(String::from("the folder that it would stand in does not exist; make that first"));
        }
        Ok(Self { target, parent, is_there })
    }

    /// A new folder beside the place, to be filled.
    ///
    /// # Errors
    /// In words.
    pub fn begin(self) -> Result<New, String> {
        let beside =
            tempfile::Builder::new().prefix(".new-packet-").tempdir_in(&self.parent).map_err(|error| said(&error))?;
        #[cfg(unix)]
        {
            // A temporary folder is for its owner's eyes; a packet is for everybody who may read here.
            use std::os::unix::fs::PermissionsExt as _;
            let open = std::fs::Permissions::from_mode(0o755);
            std::fs::set_permissions(beside.path(), open).map_err(|error| said(&error))?;
        }
        Ok(New { place: self, beside })
    }
}

/// A packet in the making. Dropped before it is put in its place, it is gone.
pub struct New {
    place: Place,
    beside: TempDir,
}

impl New {
    /// Where a file of it is while it is made.
    pub fn path(&self, name: &str) -> PathBuf {
        name.split('/').fold(self.beside.path().to_owned(), |path, part| path.join(part))
    }

    /// Writes one file.
    ///
    /// # Errors
    /// In words.
    pub fn write(&mut self, name: &str, bytes: &[u8]) -> Result<(), String> {
        let path = self.path(name);
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder).map_err(|error| said(&error))?;
        }
        let mut file = std::fs::File::create(&path).map_err(|error| said(&error))?;
        file.write_all(bytes).and_then(|()| file.sync_all()).map_err(|error| said(&error))
    }

    /// Puts it in its place; what was there goes only when the new one stands.
    ///
    /// # Errors
    /// In words; what was there is there again.
    pub fn put(self) -> Result<(), String> {
        if !self.place.is_there {
            std::fs::rename(self.beside.path(), &self.place.target).map_err(|error| said(&error))?;
            // It stands under its own name now: there is nothing left to remove.
            let _ = self.beside.keep();
            return Ok(());
        }
        let old = tempfile::Builder::new()
            .prefix(".old-packet-")
            .tempdir_in(&self.place.parent)
            .map_err(|error| said(&error))?;
        let aside = old.path().join("packet");
        std::fs::rename(&self.place.target, &aside).map_err(|error| said(&error))?;
        if let Err(error) = std::fs::rename(self.beside.path(), &self.place.target) {
            let back = std::fs::rename(&aside, &self.place.target);
            if back.is_err() {
                // Better a folder left over than a packet lost.
                let kept = old.keep();
                return Err(format!("{}; the packet that was there is in {}", said(&error), kept.display()));
            }
            return Err(said(&error));
        }
        let _ = self.beside.keep();
        Ok(())
    }
}

/// Whether a folder is empty or holds a packet and nothing else.
fn is_packet(folder: &Path) -> Result<bool, Error> {
    let mut names = Vec::new();
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        let Ok(name) = entry.file_name().into_string() else { return Ok(false) };
        let is_folder = entry.file_type()?.is_dir();
        let is_ours = match (name.as_str(), is_folder) {
            (FILE_PAGE | FILE_JSON | FILE_PDF, false) => true,
            (FOLDER_TABLES, true) => holds_only(&entry.path(), "csv")?,
            (FOLDER_DRAWINGS, true) => holds_only(&entry.path(), "svg")?,
            _ => false,
        };
        if !is_ours {
            return Ok(false);
        }
        names.push(name);
    }
    if names.is_empty() {
        return Ok(true);
    }
    // A page alone might be anybody's: the data say what it is.
    Ok(names.iter().any(|name| name == FILE_JSON) && says_so(&folder.join(FILE_JSON)))
}

fn holds_only(folder: &Path, ending: &str) -> Result<bool, Error> {
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        let fits = entry.path().extension().is_some_and(|own| own == ending);
        if !fits || !entry.file_type()?.is_file() {
            return Ok(false);
        }
    }
    Ok(true)
}

fn says_so(path: &Path) -> bool {
    /// What the data need to say what they are; more is not read of a file that may be anybody's.
    #[derive(serde::Deserialize)]
    struct Form {
        form: String,
    }
    let Ok(file) = std::fs::File::open(path) else { return false };
    let read: Result<Form, _> = serde_json::from_reader(std::io::BufReader::new(file));
    read.is_ok_and(|read| read.form == FORM)
}

fn said(error: &Error) -> String {
    match error.kind() {
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
            String::from("the folder that it would stand in may not be written to; nothing was changed")
        }
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => String::from("the disk is full; nothing was changed"),
        ErrorKind::NotFound => String::from("the folder that it would stand in does not exist; make that first"),
        _ => format!("{error}; nothing was changed"),
    }
}
