//! `prove`: runs the examples of rule packs.

use super::{complain_unread, shown};
use crate::command_line::Prove;
use crate::engine;
use crate::files;
use crate::output::Output;
use crate::status::Status;
use report::Style;
use rules::finding::FileText;
use rules::pack::{ENDING, Packs, read_sheet};
use std::collections::HashSet;
use std::path::{Path, PathBuf};

/// Folders of packs are this deep at most: rules, packs, domains and room for a shop's own order.
const DEEPEST: usize = 8;

/// Proves rule files, or those that come with the tool.
pub fn run(arguments: &Prove, style: Style, output: &mut Output) -> Status {
    let shipped = match engine::shipped() {
        Ok(packs) => packs,
        Err(fault) => {
            output.complain(&fault);
            return Status::Unable;
        }
    };
    let mut status = Status::Done;
    let mut texts: Vec<FileText> = Vec::new();
    if arguments.packs.is_empty() {
        texts.extend(
            packs::texts().iter().map(|(name, text)| FileText { name: (*name).to_owned(), text: (*text).into() }),
        );
    }
    for pack in &arguments.packs {
        let mut found = Vec::new();
        if let Err(error) = collect(pack, DEEPEST, &mut found) {
            output.complain(&format!("{} cannot be searched for rule files: {error}.", shown(pack)));
            status = Status::Unable;
            continue;
        }
        if found.is_empty() {
            output.complain(&format!(
                "{} holds no rule file: name a folder with files that end in {ENDING}, or such a file.",
                shown(pack)
            ));
            status = Status::Unable;
        }
        for path in found {
            match files::text(&path) {
                Ok(text) => texts.push(FileText { name: path.to_string_lossy().into_owned(), text: text.into() }),
                Err(fault) => {
                    complain_unread(&path, &fault, output);
                    status = Status::Unable;
                }
            }
        }
    }
    if texts.is_empty() {
        return status.and(Status::Unable);
    }
    let borrowed: Vec<(&str, &str)> = texts.iter().map(|file| (file.name.as_str(), &*file.text)).collect();
    let proof = rules::prove::run_beside(&borrowed, &beside(shipped, &borrowed), arguments.hard);
    output.print(&report::proof(&proof, &texts, style));
    if proof.faults.is_empty() { status } else { status.and(Status::Held) }
}

/// The shipped rules that are not themselves being proved: a shop's rules may follow from them and may not take their names.
fn beside(shipped: &Packs, files: &[(&str, &str)]) -> Packs {
    let of_a_shipped_file = |path: &str| {
        let path = path.replace('\\', "/");
        packs::texts().iter().any(|(shipped, _)| path.ends_with(shipped))
    };
    let proved: HashSet<String> = files
        .iter()
        .filter(|(path, _)| of_a_shipped_file(path))
        .flat_map(|(path, text)| read_sheet(path, text).0.names)
        .map(|(name, _)| name)
        .collect();
    Packs { rules: shipped.rules.iter().filter(|rule| !proved.contains(&rule.name)).cloned().collect() }
}

/// The rule files in a folder and its folders, in the order of their names; a file stands for itself.
fn collect(path: &Path, deepest: usize, found: &mut Vec<PathBuf>) -> std::io::Result<()> {
    if !std::fs::metadata(path)?.is_dir() {
        found.push(path.to_owned());
        return Ok(());
    }
    let mut inside = Vec::new();
    for entry in std::fs::read_dir(path)? {
        let entry = entry?;
        inside.push((entry.file_type()?.is_dir(), entry.path()));
    }
    inside.sort();
    for (is_folder, path) in inside {
        // Links to folders are not followed: they may lead in a circle.
        if is_folder && deepest > 0 {
            collect(&path, deepest - 1, found)?;
        } else if !is_folder && path.to_string_lossy().ends_with(ENDING) {
            found.push(path);
        }
    }
    Ok(())
}
