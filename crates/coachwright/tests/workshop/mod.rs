//! A fresh folder with specifications, and the real program run in it.
#![allow(dead_code, reason = "each test binary uses its own part of this")]

use std::path::PathBuf;
use std::process::{Command, Output};
use tempfile::TempDir;

pub const PROGRAM: &str = env!("CARGO_BIN_EXE_coachwright");

/// A build about which no rule finds a danger.
pub const QUIET: &str = "build Wren {\n    stage draft\n    basis eu\n}\n";

pub struct Workshop(TempDir);

pub struct Ran {
    pub status: i32,
    pub out: String,
    pub err: String,
}

impl Workshop {
    pub fn new() -> Self {
        Self(tempfile::tempdir().expect("a folder"))
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn write(&self, name: &str, text: impl AsRef<[u8]>) -> &Self {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        std::fs::write(path, text).expect("a file");
        self
    }

    pub fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).expect("a text")
    }

    /// The names in the folder, sorted.
    pub fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(self.0.path())
            .expect("a folder")
            .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(PROGRAM);
        command
            .args(arguments)
            .current_dir(self.0.path())
            .env_remove("NO_COLOR")
            .env("TERM", "xterm")
            .env("LC_ALL", "C.UTF-8");
        command
    }

    pub fn run(&self, arguments: &[&str]) -> Ran {
        ran(self.command(arguments).output().expect("the program runs"))
    }
}

pub fn ran(output: Output) -> Ran {
    let ran = Ran {
        status: output.status.code().expect("no signal ended it"),
        out: String::from_utf8(output.stdout).expect("its output is UTF-8"),
        err: String::from_utf8(output.stderr).expect("its messages are UTF-8"),
    };
    assert!(!ran.err.contains("panicked"), "{}", ran.err);
    ran
}
