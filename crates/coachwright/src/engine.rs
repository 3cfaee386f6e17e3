//! What the commands need of the packs and the linker, beyond a review.

use rules::pack::Packs;
use spec::text::{BlockCache, Node, Scalar};

/// The rules that come with the tool.
///
/// # Errors
/// In words: this binary is damaged.
pub fn shipped() -> Result<&'static Packs, String> {
    packs::shipped().map_err(|fault| {
        format!(
            "The rules inside this program cannot be used: {fault}. Nothing was checked: install the program again."
        )
    })
}

/// The sentences of a rule as its pack writes them: the compiled rule keeps only their pieces.
#[derive(Debug, Default)]
pub struct Sentences {
    /// What it tells the builder.
    pub tell: String,
    /// The remedy.
    pub remedy: String,
}

/// The sentences of a rule in the text of its pack.
pub fn sentences(text: &str, name: &str) -> Sentences {
    let document = spec::text::read(text, &mut BlockCache::new());
    let rule = document.nodes.iter().find(|node| &*node.name.text == "rule" && argument(node) == Some(name));
    let sentence = |word: &str| {
        let node = rule?.children.iter().find(|child| &*child.name.text == word)?;
        Some(argument(node)?.to_owned())
    };
    Sentences { tell: sentence("tell").unwrap_or_default(), remedy: sentence("remedy").unwrap_or_default() }
}

/// The remedy of every shipped rule, as its pack writes it.
pub fn remedies() -> std::collections::HashMap<String, String> {
    let mut remedies = std::collections::HashMap::new();
    for (_, text) in packs::texts() {
        let document = spec::text::read(text, &mut BlockCache::new());
        for rule in document.nodes.iter().filter(|node| &*node.name.text == "rule") {
            let remedy = rule.children.iter().find(|child| &*child.name.text == "remedy").and_then(argument);
            if let (Some(name), Some(remedy)) = (argument(rule), remedy) {
                remedies.insert(name.to_owned(), remedy.to_owned());
            }
        }
    }
    remedies
}

fn argument(node: &Node) -> Option<&str> {
    node.entries.iter().find(|entry| entry.key.is_none()).and_then(|entry| match &entry.value {
        Scalar::Text(text) => Some(&**text),
        _ => None,
    })
}
