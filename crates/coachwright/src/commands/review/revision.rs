//! An earlier revision in git: its files, read through one process for all of them.

use spec::text::LARGEST;
use spec::{LoadFault, Loaded, Loader};
use std::collections::HashMap;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Component, Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::{Mutex, PoisonError};

/// A commit of the repository in which a folder lies.
#[derive(Debug)]
pub struct Revision {
    root: PathBuf,
    commit: String,
    process: Mutex<Process>,
}

#[derive(Debug)]
struct Process {
    child: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
}

impl Drop for Process {
    fn drop(&mut self) {
        // It ends by itself when its input ends; what it says then does not matter any more.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// git in a folder. A hook of a linked work tree is told its repository but not its top, which git then takes to be the folder
/// itself: without what the hook was told, git finds both from the folder.
fn git_in(folder: &Path) -> Command {
    let mut command = Command::new("git");
    command.arg("-C").arg(folder);
    if std::env::var_os("GIT_WORK_TREE").is_none() {
        command.env_remove("GIT_DIR").env_remove("GIT_INDEX_FILE").env_remove("GIT_PREFIX");
    }
    command
}

fn git(folder: &Path, arguments: &[&str]) -> Result<String, String> {
    let ran = git_in(folder).args(arguments).stdin(Stdio::null()).output();
    let ran = ran.map_err(|error| format!("git cannot be run ({error}); install it, or name a file instead"))?;
    if !ran.status.success() {
        let said = String::from_utf8_lossy(&ran.stderr);
        let said = said.lines().next().unwrap_or("").trim_start_matches("fatal: ").to_owned();
        return Err(if said.is_empty() {
            String::from("git knows no such revision")
        } else {
            format!("git says: {said}")
        });
    }
    String::from_utf8(ran.stdout)
        .map(|text| text.trim_end().to_owned())
        .map_err(|_| String::from("a path is not UTF-8"))
}

impl Revision {
    /// Opens a revision of the repository in which a folder lies.
    ///
    /// # Errors
    /// In words: no git, no repository, no such revision.
    pub fn open(folder: &Path, revision: &str) -> Result<Self, String> {
        let root = PathBuf::from(git(folder, &["rev-parse", "--show-toplevel"])?);
        let root = std::fs::canonicalize(&root).unwrap_or(root);
        let wanted = format!("{revision}^{{commit}}");
        let commit = git(&root, &["rev-parse", "--verify", "--quiet", "--end-of-options", &wanted])?;
        let mut child = git_in(&root)
            .args(["cat-file", "--batch"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("git cannot be run ({error})"))?;
        let (Some(to), Some(from)) = (child.stdin.take(), child.stdout.take()) else {
            return Err(String::from("git cannot be spoken to"));
        };
        let process = Mutex::new(Process { child, to, from: BufReader::new(from) });
        Ok(Self { root, commit, process })
    }

    /// The files of the revision for the review of one specification, and its name among them; nothing when the file lies
    /// outside the repository.
    pub fn files(&self, spec: &Path) -> Option<(Files<'_>, String)> {
        // The file itself may be a link; the folder is what git knows it by.
        let folder = spec.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let folder = std::fs::canonicalize(folder).ok()?;
        let name = folder.join(spec.file_name()?).strip_prefix(&self.root).ok()?.to_str()?.to_owned();
        Some((Files { revision: self, loaded: Mutex::default() }, name))
    }

    /// The files of the revision for a specification that is named from the top of the repository, and its name among them.
    pub fn files_from_top(&self, spec: &Path) -> Option<(Files<'_>, String)> {
        Some((Files { revision: self, loaded: Mutex::default() }, plain(spec)?))
    }

    /// The text of a file; nothing when the revision has none of that name.
    fn text(&self, name: &str) -> Option<Vec<u8>> {
        // One question is one line.
        if name.contains(['\n', '\r']) {
            return None;
        }
        let mut process = self.process.lock().unwrap_or_else(PoisonError::into_inner);
        writeln!(process.to, "{}:{name}", self.commit).ok()?;
        process.to.flush().ok()?;
        let mut head = String::new();
        process.from.read_line(&mut head).ok()?;
        // OBJECT TYPE SIZE, or a sentence when there is no such thing.
        let mut words = head.trim_end().rsplitn(3, ' ');
        let (size, sort) = (words.next()?.parse::<u64>().ok()?, words.next()?);
        let mut text = Vec::new();
        (&mut process.from).take(size.saturating_add(1)).read_to_end(&mut text).ok()?;
        text.pop();
        (sort == "blob" && text.len() <= LARGEST).then_some(text)
    }
}

/// The files of a revision.
#[derive(Debug)]
pub struct Files<'r> {
    revision: &'r Revision,
    loaded: Mutex<HashMap<String, Loaded>>,
}

impl Loader for Files<'_> {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let missing = || LoadFault::Refused(String::from("it was not there"));
        let folder = from.and_then(|from| Path::new(from).parent()).unwrap_or(Path::new(""));
        let name = plain(&folder.join(name)).ok_or_else(missing)?;
        let mut loaded = self.loaded.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = loaded.get(&name) {
            return Ok(known.clone());
        }
        let bytes = self.revision.text(&name).ok_or_else(missing)?;
        let text = spec::text::read_bytes(&bytes).map_err(LoadFault::NotText)?.to_owned();
        let new = Loaded { name: name.clone(), text };
        loaded.insert(name, new.clone());
        Ok(new)
    }
}

/// A path in the repository without `.` and `..`; nothing when it leads out of it.
fn plain(path: &Path) -> Option<String> {
    let mut parts: Vec<&str> = Vec::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => drop(parts.pop()?),
            Component::Normal(part) => parts.push(part.to_str()?),
            Component::RootDir | Component::Prefix(_) => return None,
        }
    }
    Some(parts.join("/"))
}
