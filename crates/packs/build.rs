//! Compiles the rule packs of the repository into bytes for the binary to carry. Faults are printed as a compiler prints
//! them, and stop the build.

// Cargo reads what a build script prints.
#![allow(clippy::print_stdout, clippy::print_stderr)]

use rules::pack::{ENDING, Packs, compile};
use std::error::Error;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The rule files, from this crate's folder.
const RULES: &str = "../../rules";

fn main() -> ExitCode {
    match build() {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(fault) => {
            eprintln!("error: {fault}");
            ExitCode::FAILURE
        }
    }
}

/// Whether the packs have no fault.
fn build() -> Result<bool, Box<dyn Error>> {
    let top = Path::new(&std::env::var("CARGO_MANIFEST_DIR")?).join(RULES);
    println!("cargo::rerun-if-changed={RULES}");
    let mut files = Vec::new();
    if top.is_dir() {
        gather(&top, &mut files)?;
    }
    files.sort();
    let mut texts: Vec<(String, String)> = Vec::new();
    for file in &files {
        let inside: Vec<_> =
            file.strip_prefix(&top)?.components().map(|part| part.as_os_str().to_string_lossy()).collect();
        let text = std::fs::read_to_string(file).map_err(|fault| format!("{}: {fault}", file.display()))?;
        texts.push((format!("rules/{}", inside.join("/")), text));
    }
    let borrowed: Vec<(&str, &str)> = texts.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
    let packs = match compile(&borrowed) {
        Ok(packs) => packs,
        Err(faults) => {
            for fault in &faults {
                let text = borrowed.iter().find(|(path, _)| *path == fault.file).map_or("", |(_, text)| text);
                eprintln!("{}", fault.show(text));
            }
            eprintln!("error: the rule packs have {} faults", faults.len());
            return Ok(false);
        }
    };
    let bytes = packs.to_bytes()?;
    // What cannot be read back would only show when a review starts.
    Packs::from_bytes(&bytes)?;

    let target = PathBuf::from(std::env::var("OUT_DIR")?);
    std::fs::write(target.join("packs.bin"), &bytes)?;
    let mut source =
        String::from("pub static COMPILED: &[u8] = include_bytes!(concat!(env!(\"OUT_DIR\"), \"/packs.bin\"));\n");
    source.push_str("pub static TEXTS: &[(&str, &str)] = &[\n");
    for (file, (path, _)) in files.iter().zip(&texts) {
        writeln!(source, "    ({path:?}, include_str!({:?})),", file.canonicalize()?)?;
    }
    source.push_str("];\n");
    std::fs::write(target.join("packs.rs"), source)?;
    Ok(true)
}

/// Every rule file in a folder and the folders within it.
fn gather(folder: &Path, files: &mut Vec<PathBuf>) -> Result<(), Box<dyn Error>> {
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            gather(&path, files)?;
        } else if path.to_string_lossy().ends_with(ENDING) {
            files.push(path);
        }
    }
    Ok(())
}
