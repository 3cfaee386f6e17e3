//! The pages of rules as files, for editors that link the code of a finding to its page. They are written when they are first
//! linked, to the place that the system has for files which can be made again.

use crate::commands::rule_page;
use crate::engine;
use language_server::RulePage;
use report::{Style, TerminalOptions};
use std::collections::HashMap;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// A page is drawn as on a terminal without colour.
const OPTIONS: TerminalOptions = TerminalOptions { colour: false, width: 100, unicode: true, links: false };

/// Gives the file of a rule's page; nothing for a rule that has none, or when the file cannot be written.
pub fn written() -> RulePage {
    let folder =
        dirs::cache_dir().map(|caches| caches.join("coachwright").join(env!("CARGO_PKG_VERSION")).join("rules"));
    let known: Mutex<HashMap<String, Option<PathBuf>>> = Mutex::default();
    Arc::new(move |rule| {
        let mut known = known.lock().unwrap_or_else(PoisonError::into_inner);
        let folder = folder.as_deref()?;
        known.entry(rule.to_owned()).or_insert_with(|| page(folder, rule)).clone()
    })
}

fn page(folder: &Path, name: &str) -> Option<PathBuf> {
    let rule = engine::shipped().ok()?.rule(name)?;
    let text = rule_page(rule, Style::Terminal(OPTIONS))?;
    let path = folder.join(format!("{name}.txt"));
    if std::fs::read_to_string(&path).is_ok_and(|known| known == text) {
        return Some(path);
    }
    let own = path.parent()?;
    std::fs::create_dir_all(own).ok()?;
    // Another editor may write the same page now: each writes its own file, and the last takes the place whole.
    let mut beside = tempfile::NamedTempFile::new_in(own).ok()?;
    beside.write_all(text.as_bytes()).ok()?;
    beside.persist(&path).ok()?;
    Some(path)
}
