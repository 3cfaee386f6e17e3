//! What the fact books propose is accounted for: each candidate stands in exactly one triage table, with a rule that is
//! shipped or with a reason.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a fault in the tables fails the test")]

use kdl::{KdlDocument, KdlNode};
use std::collections::BTreeMap;
use std::path::Path;

/// The tables, from this crate's folder.
const TABLES: &str = "../../rules/triage";

/// The list of all candidates, in the folder of the tables.
const CANDIDATES: &str = "candidates.kdl";

/// What a line may say of a candidate; exactly one of these.
const FATES: [&str; 4] = ["rule", "merged-into", "not-visible", "later"];

fn read(path: &Path) -> KdlDocument {
    let text = std::fs::read_to_string(path).unwrap();
    text.parse().unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}

fn argument(node: &KdlNode) -> String {
    node.entries().iter().find(|entry| entry.name().is_none()).unwrap().value().as_string().unwrap().to_owned()
}

fn property<'n>(node: &'n KdlNode, name: &str) -> Option<&'n str> {
    node.get(name).and_then(|value| value.as_string())
}

/// Each candidate with its book.
fn candidates() -> Vec<(String, String)> {
    let mut all = Vec::new();
    for book in read(&Path::new(TABLES).join(CANDIDATES)).nodes() {
        for line in book.children().unwrap().nodes() {
            all.push((argument(book), argument(line)));
        }
    }
    all
}

#[test]
fn every_candidate_is_accounted_for_once() {
    let packs = packs::shipped().unwrap();
    let mut faults = Vec::new();
    let mut seen: BTreeMap<(String, String), String> = BTreeMap::new();
    for file in std::fs::read_dir(TABLES).unwrap() {
        let path = file.unwrap().path();
        if path.file_name().unwrap() == CANDIDATES {
            continue;
        }
        for line in read(&path).nodes() {
            let key = (property(line, "in").unwrap_or("no book").to_owned(), argument(line));
            let place = format!("{}: {} in {}", path.display(), key.1, key.0);
            let fates: Vec<&str> = FATES.into_iter().filter(|fate| property(line, fate).is_some()).collect();
            match fates[..] {
                [fate] => {
                    let said = property(line, fate).unwrap();
                    if matches!(fate, "rule" | "merged-into") && packs.rule(said).is_none() {
                        faults.push(format!("{place}: no rule is called {said}"));
                    }
                    if said.trim().is_empty() {
                        faults.push(format!("{place}: {fate} says nothing"));
                    }
                }
                _ => faults.push(format!("{place}: exactly one of {} is due", FATES.join(", "))),
            }
            if let Some(before) = seen.insert(key, path.display().to_string()) {
                faults.push(format!("{place}: stands also in {before}"));
            }
        }
    }
    let all = candidates();
    assert!(all.len() > 100, "the list of candidates is not whole");
    for key in &all {
        if !seen.contains_key(key) {
            faults.push(format!("{} of {} is in no table", key.1, key.0));
        }
    }
    for key in seen.keys().filter(|key| !all.contains(key)) {
        faults.push(format!("{} of {} is no candidate", key.1, key.0));
    }
    assert_eq!(faults, [""; 0]);
}
