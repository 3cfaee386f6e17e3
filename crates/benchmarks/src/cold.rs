//! A review as a whole process, beside a process of the same binary that only reads the same text.
//!
//! No command only parses. The one that does least beyond it is `tidy --check`: it reads the file, parses it, lays it out
//! and compares; on a tidy file it parses once and prints nothing. It reads neither the included file nor a rule pack.

use crate::pairs::{Effort, Who, pairs};
use crate::table::Table;
use crate::{Outcome, SMALLEST_DEMO, builds, repository};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

const GOAL: f64 = 1.3;
const EFFORT: Effort = Effort { least: 50, most: 1_000, time: Duration::from_secs(15) };

/// Builds the binary as the main workspace does, and says where it is.
pub fn build() -> Outcome<PathBuf> {
    let output = Command::new(env!("CARGO"))
        .args(["build", "--release", "--bin", "coachwright", "--message-format", "json-render-diagnostics"])
        .arg("--manifest-path")
        .arg(repository().join("Cargo.toml"))
        .stderr(Stdio::inherit())
        .output()?;
    if !output.status.success() {
        return Err("coachwright could not be built".into());
    }
    let text = String::from_utf8(output.stdout)?;
    text.lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter_map(|message| message.get("executable")?.as_str().map(PathBuf::from))
        .next_back()
        .ok_or_else(|| "cargo did not say where coachwright is".into())
}

/// Measures whole processes.
pub fn measure(binary: &Path, table: &mut Table) -> Outcome<()> {
    let demo = builds().join(SMALLEST_DEMO);
    let review = || run(Command::new(binary).arg("review").arg(&demo));
    let read = || run(Command::new(binary).args(["tidy", "--check"]).arg(&demo));
    let start = || run(Command::new(binary).arg("--version"));
    let reviewed = pairs(EFFORT, Who::Children, review, read)?;
    table.add(
        &format!("cold review / cold reading (tidy --check), {SMALLEST_DEMO}"),
        ("review", "tidy --check"),
        &reviewed,
        1,
        Some(GOAL),
    );
    let started = pairs(EFFORT, Who::Children, read, start)?;
    table.add("cold reading / start alone (--version)", ("tidy --check", "--version"), &started, 1, None);
    Ok(())
}

/// Runs a command that must succeed, without its output.
fn run(command: &mut Command) -> Outcome<()> {
    let status = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).status()?;
    if status.success() { Ok(()) } else { Err(format!("{command:?} ended with {status}").into()) }
}
