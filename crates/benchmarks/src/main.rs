//! Benchmarks: what a review, a cold start and one check take beside the libraries that could have done part of the work.
//!
//! Everything is measured side by side in one run, and told as a ratio: a ratio says the same on a fast machine and on a
//! slow one, and on a busy machine both sides lose. Nothing here passes or fails; the table says which goals are met.
//!
//! `cargo run --release --manifest-path crates/benchmarks/Cargo.toml [-- [memory] [review] [keystroke] [cold] [many] [check] [network] [packet] [--binary PATH]]`

mod check;
mod cold;
mod generate;
mod keystroke;
mod many;
mod network;
mod pairs;
mod papers;
mod review;
mod table;

use std::error::Error;
use std::path::{Path, PathBuf};
use std::time::Instant;
use table::Table;

/// What is passed on from whatever failed.
type Outcome<T> = Result<T, Box<dyn Error>>;

fn main() -> Outcome<()> {
    let mut only: Vec<String> = Vec::new();
    let mut binary: Option<PathBuf> = None;
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "memory" | "review" | "keystroke" | "cold" | "many" | "check" | "network" | "packet" => only.push(argument),
            // The text that is measured, to look at it with other tools.
            "--text" => {
                let lines =
                    arguments.next().and_then(|lines| lines.parse().ok()).ok_or("--text needs a number of lines")?;
                print!("{}", review::specification(lines)?);
                return Ok(());
            }
            "--binary" => binary = Some(arguments.next().ok_or("--binary needs the path of coachwright")?.into()),
            other => {
                return Err(format!(
                    "'{other}' is not known; write memory, review, keystroke, cold, many, check, network, packet, --text LINES or --binary PATH"
                )
                .into());
            }
        }
    }
    let asked = |name: &str| only.is_empty() || only.iter().any(|one| one == name);
    // Built before anything is measured, so that no compiler runs beside the measuring.
    let binary = match binary {
        None if asked("cold") || asked("many") => Some(cold::build()?),
        binary => binary,
    };
    let started = Instant::now();
    let mut table = Table::default();
    // First, while this process holds nothing else.
    if asked("memory") {
        keystroke::memory(&mut table)?;
    }
    if asked("review") {
        review::measure(&mut table)?;
    }
    if asked("keystroke") {
        keystroke::measure(&mut table)?;
    }
    if asked("cold")
        && let Some(binary) = &binary
    {
        cold::measure(binary, &mut table)?;
    }
    if asked("many")
        && let Some(binary) = &binary
    {
        many::measure(binary, &mut table)?;
    }
    if asked("check") {
        check::measure(&mut table)?;
    }
    if asked("network") {
        network::measure(&mut table)?;
    }
    if asked("packet") {
        papers::measure(&mut table)?;
    }
    print!("\n{table}");
    println!("\n{}; measured in {:.0} s.", machine(), started.elapsed().as_secs_f64());
    Ok(())
}

/// The top of the repository.
fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The folder of the demo builds.
fn builds() -> PathBuf {
    repository().join("tests/builds")
}

/// The smallest demo build.
const SMALLEST_DEMO: &str = "bramble.build.kdl";

/// The machine in words.
fn machine() -> String {
    let model = std::fs::read_to_string("/proc/cpuinfo").ok().and_then(|text| {
        let line = text.lines().find(|line| line.starts_with("model name"))?;
        Some(line.split_once(':')?.1.trim().to_owned())
    });
    let busy = std::fs::read_to_string("/proc/loadavg")
        .ok()
        .and_then(|text| Some(format!(", load {} in the last minute", text.split(' ').next()?)));
    let cores = std::thread::available_parallelism().map_or_else(|_| "?".to_owned(), |cores| cores.to_string());
    format!("Machine: {cores} cores, {}{}", model.as_deref().unwrap_or("model not told"), busy.unwrap_or_default())
}
