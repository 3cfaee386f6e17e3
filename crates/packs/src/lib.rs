//! The rule packs that the project ships: compiled when the project is built, so that a review starts without reading them.
//!
//! The rules stand in `rules/<pack>/<domain>.rules.kdl` at the top of the repository. A fault in one of them is an error
//! of the build. Examples are left out of the compiled packs; they stay in the texts, which `why` and `prove` read.

use rules::pack::{BlobFault, Packs};
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
