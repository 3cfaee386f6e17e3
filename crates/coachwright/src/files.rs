//! Files: read with care, written whole or not at all.

use spec::text::{FaultKind, LARGEST, TextFault, read_bytes};
use spec::{LoadFault, Loaded, Loader};
use std::cell::RefCell;
use std::collections::HashMap;
use std::fs::{File, Metadata};
use std::io::{Error, ErrorKind, Read, Write};
use std::path::{Component, Path, PathBuf};

/// Why a file was not read: what is wrong, and what to do.
fn refused(sentence: &str, remedy: &str) -> LoadFault {
    LoadFault::Refused(format!("{sentence}; {remedy}"))
}

/// The bytes of a file. Folders, pipes, devices and files that are too large are refused before they are read.
///
/// # Errors
/// In words for the one who named the file.
pub fn bytes(path: &Path) -> Result<Vec<u8>, LoadFault> {
    // Opening a pipe waits for a writer, so what it is comes first. It is asked again once it is open.
    check(&std::fs::metadata(path).map_err(|error| not_had(&error))?)?;
    let file = File::open(path).map_err(|error| not_had(&error))?;
    check(&file.metadata().map_err(|error| not_had(&error))?)?;
    let mut bytes = Vec::new();
    // One byte more than is read tells a file that grew, or that hides its size.
    file.take(LARGEST as u64 + 1).read_to_end(&mut bytes).map_err(|error| not_had(&error))?;
    if bytes.len() > LARGEST { Err(too_large(bytes.len() as u64)) } else { Ok(bytes) }
}

fn check(metadata: &Metadata) -> Result<(), LoadFault> {
    if metadata.is_dir() {
        return Err(refused("it is a folder", "name a file in it"));
    }
    if !metadata.is_file() {
        return Err(refused("it is a pipe or a device, not a file", "save the text to a file first"));
    }
    if metadata.len() > LARGEST as u64 {
        return Err(too_large(metadata.len()));
    }
    Ok(())
}

fn too_large(length: u64) -> LoadFault {
    /// Bytes in the megabyte that people see in a list of files.
    const MEGABYTE: u64 = 1_000_000;
    let (length, largest) = (length.div_ceil(MEGABYTE), LARGEST as u64 / MEGABYTE);
    // The same fault as that of a text which is measured once it was read: it stands under the same rule.
    LoadFault::NotText(TextFault {
        kind: FaultKind::TooLarge,
        at: 0..0,
        message: format!("it has about {length} MB, and files above {largest} MB are not read"),
        why: "Nothing in it is checked.".to_owned(),
        instead: None,
        help: "check that it is the right file, or split it with `include`".to_owned(),
    })
}

fn not_had(error: &Error) -> LoadFault {
    match error.kind() {
        ErrorKind::NotFound => refused("there is no such file", "check the name and the folder"),
        ErrorKind::PermissionDenied => refused("it may not be read", "ask its owner for the right to read it"),
        _ => refused(&error.to_string(), "check that the disk is there and whole"),
    }
}

/// The text of a file.
///
/// # Errors
/// As [`bytes`], and when it is not UTF-8.
pub fn text(path: &Path) -> Result<String, LoadFault> {
    let bytes = bytes(path)?;
    match String::from_utf8(bytes) {
        Ok(text) => Ok(text),
        Err(error) => match read_bytes(error.as_bytes()) {
            Err(fault) => Err(LoadFault::NotText(fault)),
            Ok(text) => Ok(text.to_owned()),
        },
    }
}

/// Writes a file as a whole: to a new file beside it, which then takes its place. Whoever reads meanwhile sees the old text
/// or the new one; when something fails, the old one stays. Permissions stay as they are, and a link stays a link.
///
/// # Errors
/// In words for the one who named the file.
pub fn replace(path: &Path, text: &str) -> Result<(), String> {
    std::fs::metadata(path).map_err(|error| uncreated(&error))?;
    write(path, text)
}

/// Writes a file as a whole, in place of one of that name if there is one, as [`replace`] does.
///
/// # Errors
/// In words for the one who named the file.
pub fn write(path: &Path, text: &str) -> Result<(), String> {
    let mut file = beside(path)?;
    file.write_all(text.as_bytes()).map_err(|error| uncreated(&error))?;
    put(file, path)
}

/// Whether a new file can be made there, as far as can be told without making it.
///
/// # Errors
/// In words for the one who named the file.
pub fn can_be_created(path: &Path) -> Result<(), String> {
    if !folder_of(path).exists() {
        return Err(uncreated(&ErrorKind::NotFound.into()));
    }
    if path.file_name().is_none() {
        return Err(String::from("that is no name of a file; end it with one, as my.build.kdl"));
    }
    // A link that leads nowhere is there as well.
    if std::fs::symlink_metadata(path).is_ok() {
        return Err(uncreated(&ErrorKind::AlreadyExists.into()));
    }
    Ok(())
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

fn uncreated(error: &Error) -> String {
    match error.kind() {
        ErrorKind::AlreadyExists => {
            String::from("there is such a file already, and it is not overwritten; choose another name")
        }
        ErrorKind::NotFound => String::from("its folder does not exist; make that first, or name another"),
        ErrorKind::NotADirectory => String::from("what it would stand in is not a folder; name another"),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => String::from("its folder may not be written to"),
        _ => error.to_string(),
    }
}

/// Writes a new file as a whole. Nothing that is there is overwritten, not even what another program puts there meanwhile.
///
/// # Errors
/// In words for the one who named the file.
pub fn create(path: &Path, text: &str) -> Result<(), String> {
    can_be_created(path)?;
    let said = |error: Error| uncreated(&error);
    let mut beside = beside(path)?;
    beside.write_all(text.as_bytes()).map_err(said)?;
    beside.as_file().sync_all().map_err(said)?;
    beside.persist_noclobber(path).map_err(|error| said(error.error))?;
    Ok(())
}

/// A new file beside another one, to be put in its place when it is whole.
///
/// # Errors
/// In words for the one who named the file.
pub fn beside(path: &Path) -> Result<tempfile::NamedTempFile, String> {
    let target = std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    if target.is_dir() {
        return Err(String::from("it is a folder: name a file in it"));
    }
    if std::fs::metadata(&target).is_ok_and(|metadata| metadata.permissions().readonly()) {
        return Err(String::from("it is write-protected"));
    }
    let mut builder = tempfile::Builder::new();
    builder.prefix(".new-");
    // A temporary file is for its owner's eyes; what is written here is a file like any other of this person.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(folder_of(&target)).map_err(|error| uncreated(&error))
}

/// Puts a file that was written beside another one in its place. Its permissions stay as they were, and a link stays a link.
///
/// # Errors
/// In words for the one who named the file.
pub fn put(file: tempfile::NamedTempFile, path: &Path) -> Result<(), String> {
    let target = std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    if let Ok(there) = std::fs::metadata(&target) {
        file.as_file().set_permissions(there.permissions()).map_err(|error| uncreated(&error))?;
    }
    file.as_file().sync_all().map_err(|error| uncreated(&error))?;
    file.persist(&target).map_err(|error| uncreated(&error.error))?;
    Ok(())
}

/// Files named from a specification, relative to the file that names them.
///
/// Every file is read once and keeps the name by which it was first asked for, so that a circle of includes is seen even
/// through links.
#[derive(Debug, Default)]
pub struct Files {
    known: RefCell<Known>,
}

#[derive(Debug, Default)]
struct Known {
    /// Where the file of each name is.
    paths: HashMap<String, PathBuf>,
    /// What was loaded, by the path that the system resolves it to.
    loaded: HashMap<PathBuf, Loaded>,
}

impl Files {
    /// The loader for one specification, and the name by which the specification is known in it.
    pub fn of(path: &Path) -> (Self, String) {
        let name = path.to_string_lossy().into_owned();
        let files = Self::default();
        files.known.borrow_mut().paths.insert(name.clone(), path.to_owned());
        (files, name)
    }

    /// The files that were read.
    pub fn read(&self) -> Vec<PathBuf> {
        self.known.borrow().loaded.keys().cloned().collect()
    }

    fn path(&self, from: Option<&str>, name: &str) -> PathBuf {
        let known = self.known.borrow();
        match from {
            None => known.paths.get(name).cloned().unwrap_or_else(|| PathBuf::from(name)),
            Some(from) => {
                let from = known.paths.get(from).cloned().unwrap_or_else(|| PathBuf::from(from));
                plain_path(&from.parent().unwrap_or(Path::new("")).join(name))
            }
        }
    }
}

/// The path without `.`; `..` stays, since behind a link it is not the folder that is written before it.
fn plain_path(path: &Path) -> PathBuf {
    path.components().filter(|part| *part != Component::CurDir).collect()
}

impl Loader for Files {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let path = self.path(from, name);
        let resolved = std::fs::canonicalize(&path).map_err(|error| not_had(&error))?;
        if let Some(loaded) = self.known.borrow().loaded.get(&resolved) {
            return Ok(loaded.clone());
        }
        let loaded = Loaded { name: path.to_string_lossy().into_owned(), text: text(&resolved)? };
        let mut known = self.known.borrow_mut();
        known.paths.insert(loaded.name.clone(), path);
        known.loaded.insert(resolved, loaded.clone());
        Ok(loaded)
    }
}
