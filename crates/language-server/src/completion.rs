//! What can be written at a position: parts, properties, choices and names.

use crate::check::Surroundings;
use crate::navigation::written;
use crate::reading::Reading;
use crate::state::State;
use spec::Part;
use std::collections::BTreeSet;
use tower_lsp::lsp_types::{
    CompletionItem, CompletionItemKind, CompletionResponse, Documentation, InsertTextFormat, Position, Url,
};
use vocabulary::{FactKind, FactSpec, PartSpec};

/// The completions at a position.
pub fn complete(
    state: &State,
    surroundings: &Surroundings,
    url: &Url,
    position: Position,
) -> Option<CompletionResponse> {
    let reading = Reading::of(state, surroundings, url)?;
    let byte = reading.byte(state, position)?;
    let text = reading.spec.files.get(reading.file as usize)?.text.clone();
    let before = text.get(..byte as usize)?;
    let line = before.get(before.rfind(['\n', ';', '{', '}']).map_or(0, |at| at + 1)..)?;
    if line.trim_start().starts_with("//") || line.matches('"').count() % 2 == 1 && !line.contains('=') {
        return None;
    }
    let line_start = u32::try_from(before.len() - line.len()).ok()?;
    let around = reading.around(byte);
    // What the line itself is does not hold it: that is what is being written.
    let outer = around
        .iter()
        .rev()
        .find(|part| {
            part.word.bytes.start < line_start.saturating_sub(u32::from(line_start > 0))
                && opened_before(&text, part, line_start)
        })
        .copied();
    let word_start = line.trim_start();
    let first = word_start.split_whitespace().next().unwrap_or("");
    let items = if word_start.is_empty() || (first == word_start && !word_start.ends_with(char::is_whitespace)) {
        parts_and_lines(outer, state.client.snippets)
    } else {
        let spec = kind_of_line(first, outer)?;
        match value_of(line, spec) {
            Some(fact) => values(&reading, fact),
            None => properties(spec, line),
        }
    };
    Some(CompletionResponse::Array(items))
}

/// Whether a part's block was opened before a byte.
fn opened_before(text: &str, part: &Part, byte: u32) -> bool {
    text.get(part.head.bytes.start as usize..byte as usize).is_some_and(|written| written.contains('{'))
}

/// The part that a line begins to write.
fn kind_of_line(word: &str, outer: Option<&Part>) -> Option<&'static PartSpec> {
    let spec = vocabulary::part_by_word(word)?;
    let fits = match outer {
        None => spec.top,
        Some(outer) => vocabulary::part(outer.kind).may_contain(spec.kind),
    };
    if fits { Some(spec) } else { None }
}

/// The property whose value is being written at the end of a line.
fn value_of(line: &str, spec: &'static PartSpec) -> Option<&'static FactSpec> {
    let (before, value) = line.rsplit_once('=')?;
    let value = value.strip_prefix('"').unwrap_or(value);
    if value.contains('"') || (value.contains(char::is_whitespace) && !line.ends_with('"') && !value_is_open(line)) {
        return None;
    }
    let name = before.rsplit(|letter: char| letter.is_whitespace()).next()?;
    spec.fact(name).filter(|fact| fact.given)
}

fn value_is_open(line: &str) -> bool {
    line.matches('"').count() % 2 == 1
}

fn parts_and_lines(outer: Option<&Part>, snippets: bool) -> Vec<CompletionItem> {
    let kinds = vocabulary::parts().iter().filter(|spec| match outer {
        None => spec.top,
        Some(outer) => vocabulary::part(outer.kind).may_contain(spec.kind),
    });
    let mut items: Vec<CompletionItem> = kinds
        .map(|spec| CompletionItem {
            label: spec.word.to_owned(),
            kind: Some(CompletionItemKind::CLASS),
            documentation: Some(Documentation::String(format!("{}\n{}", spec.help, spec.example))),
            filter_text: Some(format!("{} {}", spec.word, spec.also.join(" "))),
            insert_text: Some(if snippets { format!("{} $0", spec.word) } else { spec.word.to_owned() }),
            insert_text_format: snippets.then_some(InsertTextFormat::SNIPPET),
            ..CompletionItem::default()
        })
        .collect();
    if let Some(outer) = outer {
        let missing = vocabulary::part(outer.kind).properties().filter(|fact| outer.given(fact.id).is_none());
        items.extend(missing.map(|fact| property(fact, " ")));
    }
    items
}

fn properties(spec: &'static PartSpec, line: &str) -> Vec<CompletionItem> {
    let written: BTreeSet<&str> =
        line.split_whitespace().filter_map(|word| word.split_once('=').map(|(name, _)| name)).collect();
    let open = spec.properties().filter(|fact| fact.written == vocabulary::Written::Property);
    open.filter(|fact| !written.contains(fact.name)).map(|fact| property(fact, "=")).collect()
}

fn property(fact: &FactSpec, sign: &str) -> CompletionItem {
    CompletionItem {
        label: fact.name.to_owned(),
        kind: Some(CompletionItemKind::PROPERTY),
        detail: Some(fact.example.to_owned()).filter(|example| !example.is_empty()),
        documentation: Some(Documentation::String(fact.help.to_owned())),
        insert_text: Some(format!("{}{sign}", fact.name)),
        ..CompletionItem::default()
    }
}

fn values(reading: &Reading, fact: &FactSpec) -> Vec<CompletionItem> {
    let item =
        |label: &str, kind| CompletionItem { label: label.to_owned(), kind: Some(kind), ..CompletionItem::default() };
    match fact.kind {
        FactKind::Flag => ["yes", "no"].map(|word| item(word, CompletionItemKind::VALUE)).to_vec(),
        FactKind::Choice(words) | FactKind::ChoiceSet(words) => {
            words.iter().map(|word| item(word, CompletionItemKind::ENUM_MEMBER)).collect()
        }
        FactKind::Part(kinds) | FactKind::Parts(kinds) => {
            let mut open: Vec<&Part> = reading.top().collect();
            let mut names = BTreeSet::new();
            while let Some(part) = open.pop() {
                open.extend(&part.inside);
                let defines = !matches!(vocabulary::part(part.kind).naming, vocabulary::Naming::Refers);
                if let Some(name) =
                    part.name.as_ref().filter(|_| defines && (kinds.is_empty() || kinds.contains(&part.kind)))
                {
                    names.insert(written(&name.text));
                }
            }
            names.iter().map(|name| item(name, CompletionItemKind::REFERENCE)).collect()
        }
        _ if !fact.example.is_empty() => vec![item(&format!("\"{}\"", fact.example), CompletionItemKind::VALUE)],
        _ => Vec::new(),
    }
}
