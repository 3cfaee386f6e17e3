//! The page as printed, by a Chromium that is on this computer.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// The names under which systems have it.
const NAMES: [&str; 5] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "msedge"];

/// How long a page may take to print (chosen: a hundred times what a large one takes).
const LONGEST: Duration = Duration::from_secs(180);

/// A program that prints.
pub struct Printer(PathBuf);

impl Printer {
    /// The one that is named in `$CHROMIUM`, else the first of the usual names in `$PATH`.
    ///
    /// # Errors
    /// In words: there is none.
    pub fn found() -> Result<Self, String> {
        if let Some(named) = std::env::var_os("CHROMIUM").filter(|named| !named.is_empty()) {
            let path = PathBuf::from(named);
            if path.is_file() {
                return Ok(Self(path));
            }
            return Err(format!(
                "There is no program at {}, which $CHROMIUM names, so that no PDF can be made. Name a Chromium there, or leave out --pdf: \
                 packet.html prints from any browser.",
                report::visible(&path.to_string_lossy())
            ));
        }
        let paths = std::env::var_os("PATH").unwrap_or_default();
        let found = std::env::split_paths(&paths)
            .flat_map(|folder| NAMES.map(|name| folder.join(format!("{name}{}", std::env::consts::EXE_SUFFIX))))
            .find(|path| path.is_file());
        found.map(Self).ok_or_else(|| {
            String::from(
                "There is no Chromium on this computer, so that no PDF can be made. Install one, name one in $CHROMIUM, or leave out --pdf: \
                 packet.html prints from any browser.",
            )
        })
    }

    /// Prints a page into a file.
    ///
    /// # Errors
    /// In words.
    pub fn print(&self, page: &Path, to: &Path) -> Result<(), String> {
        let failed = |why: &str| {
            format!(
                "{} did not print the packet: {why}. Nothing was changed; without --pdf the packet is written all the same.",
                report::visible(&self.0.to_string_lossy())
            )
        };
        let page = std::fs::canonicalize(page).map_err(|error| failed(&error.to_string()))?;
        let folder = to.parent().unwrap_or(Path::new("."));
        let folder = std::fs::canonicalize(folder).map_err(|error| failed(&error.to_string()))?;
        let to = folder.join(to.file_name().unwrap_or_default());
        let profile = tempfile::tempdir().map_err(|error| failed(&error.to_string()))?;
        let mut command = Command::new(&self.0);
        command
            // A page of our own without a network needs no walls around it, and they cannot be built where programs run
            // without rights of their own.
            .args(["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--no-pdf-header-footer"])
            .arg(format!("--user-data-dir={}", profile.path().display()))
            .arg(format!("--print-to-pdf={}", to.display()))
            .arg(&page)
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        let mut child = command.spawn().map_err(|error| failed(&error.to_string()))?;
        let begun = Instant::now();
        let status = loop {
            match child.try_wait() {
                Ok(Some(status)) => break status,
                Ok(None) if begun.elapsed() > LONGEST => {
                    let _ = child.kill();
                    let _ = child.wait();
                    return Err(failed("it did not end"));
                }
                Ok(None) => std::thread::sleep(Duration::from_millis(50)),
                Err(error) => return Err(failed(&error.to_string())),
            }
        };
        if !status.success() || !to.is_file() {
            return Err(failed("it ended without a file"));
        }
        Ok(())
    }
}
