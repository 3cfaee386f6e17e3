//! Rule files in the editor: their rules as an outline, what of them folds, a rule's page, and where its values are written.

use crate::check::Surroundings;
use crate::position::Lines;
use crate::state::State;
use crate::trees::{Tree, tree};
use report::{RulePage, Style};
use rules::pack::read_sheet;
use spec::text::{Bytes, Entry, Node, Scalar, Unread};
use std::ops::Range as Stretch;
use tower_lsp::lsp_types::*;
use vocabulary::PartKind;

/// The outline: each rule with its title, and its examples in it; each fixture.
#[allow(deprecated, reason = "the protocol's type has a field that it no longer uses")]
pub fn symbols(state: &State, url: &Url) -> Option<Vec<DocumentSymbol>> {
    let tree = tree(state, url)?;
    let lines = Lines::of(&tree.text);
    let range = |bytes: &Bytes| lines.range(&tree.text, &stretch(bytes), state.client.encoding);
    let symbol = |node: &Node, kind: SymbolKind, detail: Option<String>, inside: Vec<DocumentSymbol>| {
        let (name, at) = argument(node, 0)?;
        let name = report::visible(name.trim()).into_owned();
        Some(DocumentSymbol {
            name: if name.is_empty() { node.name.text.to_string() } else { name },
            detail,
            kind,
            tags: None,
            deprecated: None,
            range: range(&node.at),
            selection_range: range(&(node.name.at.start..at.end)),
            children: if inside.is_empty() { None } else { Some(inside) },
        })
    };
    let symbols =
        tree.document.nodes.iter().filter(|node| node.unread != Unread::Itself).filter_map(|node| {
            match &*node.name.text {
                "rule" => {
                    let examples = children(node, "example").filter_map(|example| {
                        let outcome = argument(example, 1).map(|(outcome, _)| report::visible(outcome).into_owned());
                        symbol(example, SymbolKind::EVENT, outcome, Vec::new())
                    });
                    let title = sentence(node, "title").map(|title| report::visible(title).into_owned());
                    symbol(node, SymbolKind::FUNCTION, title, examples.collect())
                }
                "fixture" => symbol(node, SymbolKind::CONSTANT, Some("fixture".to_owned()), Vec::new()),
                _ => None,
            }
        });
    Some(symbols.collect())
}

/// The rules, examples and long texts that stand on several lines.
pub fn folds(state: &State, url: &Url) -> Option<Vec<FoldingRange>> {
    let tree = tree(state, url)?;
    let lines = Lines::of(&tree.text);
    let mut folds = Vec::new();
    let mut open: Vec<&Node> = tree.document.nodes.iter().rev().collect();
    while let Some(node) = open.pop() {
        open.extend(node.children.iter().rev());
        let texts = node.entries.iter().filter(|entry| entry.quoted).map(|entry| &entry.value_at);
        for bytes in node.block_at.iter().chain(texts) {
            let range = lines.range(&tree.text, &stretch(bytes), state.client.encoding);
            let (start_line, end_line) = (range.start.line, range.end.line.saturating_sub(1));
            if end_line > start_line {
                folds.push(FoldingRange { start_line, end_line, ..FoldingRange::default() });
            }
        }
    }
    Some(folds)
}

/// The page of the rule whose name stands at a position.
pub fn hover(state: &State, surroundings: &Surroundings, url: &Url, position: Position) -> Option<Hover> {
    let tree = tree(state, url)?;
    let lines = Lines::of(&tree.text);
    let byte = lines.byte(&tree.text, position, state.client.encoding)?;
    let rule = rule_at(&tree, byte)?;
    let own = argument(rule, 0).filter(|(_, at)| holds(at, byte));
    let followed = children(rule, "follows").find_map(|line| argument(line, 0)).filter(|(_, at)| holds(at, byte));
    let (name, at) = own.or(followed)?;
    let page = match rule_called(&tree, name) {
        Some(node) => page(&tree, url, node)?,
        None => {
            let rule = surroundings.packs.rule(name)?;
            format!("{}, {}: {}\n\n{}", rule.name, rule.signal.word(), rule.title, rule.why)
        }
    };
    let contents = if state.client.markdown {
        // As it stands, in a fence that nothing in it can close.
        let longest = page.split(|letter| letter != '`').map(str::len).max().unwrap_or(0);
        let fence = "`".repeat(longest.max(2) + 1);
        MarkupContent { kind: MarkupKind::Markdown, value: format!("{fence}text\n{page}\n{fence}") }
    } else {
        MarkupContent { kind: MarkupKind::PlainText, value: page }
    };
    let range = lines.range(&tree.text, &stretch(at), state.client.encoding);
    Some(Hover { contents: HoverContents::Markup(contents), range: Some(range) })
}

/// A rule's page as `why` shows it; of a rule that cannot be compiled yet, what it says.
fn page(tree: &Tree, url: &Url, rule: &Node) -> Option<String> {
    // Only this rule and the fixtures: the rest of the file says nothing about it.
    let wanted = |node: &&Node| &*node.name.text == "fixture" || node.at == rule.at;
    let pieces: Vec<&str> =
        tree.document.nodes.iter().filter(wanted).filter_map(|node| tree.text.get(stretch(&node.at))).collect();
    let (sheet, _) = read_sheet(url.path(), &pieces.join("\n"));
    let text = |word| sentence(rule, word).unwrap_or_default();
    let page = match sheet.rules.first() {
        Some(found) => report::why(
            &RulePage {
                sheet: found,
                fixtures: &sheet.fixtures,
                about: vocabulary::part(PartKind(found.rule.about)).word,
                tell: text("tell"),
                remedy: text("remedy"),
            },
            Style::Plain,
        ),
        None => {
            let (name, _) = argument(rule, 0)?;
            let lines = [name, text("title"), text("why"), text("remedy")];
            let lines: Vec<_> =
                lines.iter().filter(|line| !line.is_empty()).map(|line| report::visible(line)).collect();
            lines.join("\n")
        }
    };
    Some(page.trim_end().to_owned())
}

/// Where the value, the fixture or the rule that is named at a position is written in this file.
pub fn definition(state: &State, url: &Url, position: Position) -> Option<Location> {
    let tree = tree(state, url)?;
    let lines = Lines::of(&tree.text);
    let byte = lines.byte(&tree.text, position, state.client.encoding)?;
    let rule = rule_at(&tree, byte)?;
    let line = rule.children.iter().find(|line| holds(&line.at, byte))?;
    let at = match &*line.name.text {
        "follows" => argument(rule_called(&tree, argument(line, 0)?.0)?, 0)?.1,
        "example" => {
            let on = property(line, "on").filter(|on| holds(&on.value_at, byte))?;
            let mut fixtures = tree.document.nodes.iter().filter(|node| &*node.name.text == "fixture");
            argument(fixtures.find(|node| argument(node, 0).map(|(name, _)| name) == text(on))?, 0)?.1
        }
        "when" | "must" | "tell" | "remedy" => {
            let word = word_at(&tree.text, byte)?;
            children(rule, "value").filter_map(|value| argument(value, 0)).find(|(name, _)| *name == word)?.1
        }
        _ => return None,
    };
    Some(Location::new(url.clone(), lines.range(&tree.text, &stretch(at), state.client.encoding)))
}

/// The word of an expression that a byte lies in.
fn word_at(text: &str, byte: usize) -> Option<&str> {
    let is_word = |letter: &char| letter.is_alphanumeric() || *letter == '_';
    let before: usize = text.get(..byte)?.chars().rev().take_while(is_word).map(char::len_utf8).sum();
    let behind: usize = text.get(byte..)?.chars().take_while(is_word).map(char::len_utf8).sum();
    text.get(byte - before..byte + behind).filter(|word| !word.is_empty())
}

fn rule_at(tree: &Tree, byte: usize) -> Option<&Node> {
    tree.document.nodes.iter().find(|node| &*node.name.text == "rule" && holds(&node.at, byte))
}

fn rule_called<'t>(tree: &'t Tree, name: &str) -> Option<&'t Node> {
    let mut rules = tree.document.nodes.iter().filter(|node| &*node.name.text == "rule");
    rules.find(|node| argument(node, 0).is_some_and(|(own, _)| own == name))
}

fn children<'n>(node: &'n Node, word: &'static str) -> impl Iterator<Item = &'n Node> {
    node.children.iter().filter(move |child| &*child.name.text == word)
}

fn sentence<'n>(node: &'n Node, word: &'static str) -> Option<&'n str> {
    children(node, word).find_map(|line| argument(line, 0)).map(|(text, _)| text)
}

fn text(entry: &Entry) -> Option<&str> {
    match &entry.value {
        Scalar::Text(text) => Some(text),
        _ => None,
    }
}

fn argument(node: &Node, number: usize) -> Option<(&str, &Bytes)> {
    let entry = node.entries.iter().filter(|entry| entry.key.is_none()).nth(number)?;
    Some((text(entry)?, &entry.value_at))
}

fn property<'n>(node: &'n Node, key: &str) -> Option<&'n Entry> {
    node.entries.iter().find(|entry| entry.key.as_ref().is_some_and(|word| &*word.text == key))
}

fn holds(bytes: &Bytes, byte: usize) -> bool {
    stretch(bytes).contains(&byte) || bytes.end as usize == byte
}

fn stretch(bytes: &Bytes) -> Stretch<usize> {
    bytes.start as usize..bytes.end as usize
}
