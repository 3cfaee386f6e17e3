//! The rule packs that the project ships: compiled when the project is built, so that a review starts without reading them.
//!
//! The rules stand in `rules/<pack>/<domain>.rules.kdl` at the top of the repository. A fault in one of them is an error
//! of the build. Examples are left out of the compiled packs; they stay in the texts, which `why` and `prove` read.

use rules::pack::{BlobFault, Packs};
use std::collections::BTreeMap;
use std::sync::OnceLock;

mod built {
    // The bytes of the compiled packs and the texts of the rule files, written by the build script.
    include!(concat!(env!("OUT_DIR"), "/packs.rs"));
}

/// The shipped rules, sorted by name; decoded once.
///
/// # Errors
/// The bytes in this binary are damaged. A review must say so and stop: without rules, nothing would be found.
pub fn shipped() -> Result<&'static Packs, &'static BlobFault> {
    static SHIPPED: OnceLock<Result<Packs, BlobFault>> = OnceLock::new();
    SHIPPED.get_or_init(|| Packs::from_bytes(built::COMPILED)).as_ref()
}

/// The rule files: each file's path from the top of the repository, and its text; in the order of the paths.
pub fn texts() -> &'static [(&'static str, &'static str)] {
    built::TEXTS
}

/// A pack that is shipped, and which text of it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Edition {
    /// The name of its folder.
    pub name: &'static str,
    /// How many rules it holds.
    pub rules: usize,
    /// The version of the program with a mark of the pack's text: equal marks are equal rules.
    pub edition: String,
}

/// The shipped packs by name.
pub fn editions() -> Vec<Edition> {
    /// Enough of a mark to tell two texts apart at a glance.
    const MARK: usize = 8;
    let mut all: BTreeMap<&str, String> = BTreeMap::new();
    for (path, text) in texts() {
        // rules/PACK/DOMAIN.rules.kdl
        all.entry(path.split('/').rev().nth(1).unwrap_or_default()).or_default().push_str(text);
    }
    all.into_iter()
        .map(|(name, text)| {
            let mark = rules::review::fingerprint(name, &text);
            Edition {
                name,
                rules: text.lines().filter(|line| line.starts_with("rule ")).count(),
                edition: format!("{}+{}", env!("CARGO_PKG_VERSION"), mark.get(..MARK).unwrap_or(&mark)),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shipped_packs_are_those_of_the_texts() {
        let names = |packs: &Packs| packs.rules.iter().map(|rule| rule.name.clone()).collect::<Vec<_>>();
        let shipped = shipped().map(names).unwrap_or_default();
        let compiled = rules::pack::compile(texts()).map(|packs| names(&packs)).unwrap_or_default();
        assert_eq!(shipped, compiled);
        assert!(shipped.is_sorted());
        let written: usize =
            texts().iter().map(|(_, text)| text.lines().filter(|line| line.starts_with("rule ")).count()).sum();
        assert_eq!(shipped.len(), written, "every rule of the texts is shipped");
    }
}
