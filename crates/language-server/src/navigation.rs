//! From a name to where it is defined and used, over all files of a build; and another name for it.

use crate::check::{Sort, Surroundings};
use crate::reading::{Mention, Reading, holds};
use crate::state::State;
use spec::text::write_name;
use std::collections::{BTreeMap, HashMap};
use tower_lsp::lsp_types::*;

/// The mentions of the name at a position.
fn mentions(
    state: &State,
    surroundings: &Surroundings,
    url: &Url,
    position: Position,
) -> Option<(Reading, Vec<Mention>)> {
    let reading = Reading::of(state, surroundings, url)?;
    let byte = reading.byte(state, position)?;
    let mut all = reading.mentions();
    let here = all.iter().find(|own| own.at.file == reading.file && holds(&own.at, byte))?;
    let (name, pattern) = (here.name.clone(), here.pattern);
    all.retain(|own| own.name == name && own.pattern == pattern);
    Some((reading, all))
}

/// Where the thing at a position is defined.
pub fn definition(state: &State, surroundings: &Surroundings, url: &Url, position: Position) -> Option<Location> {
    if Sort::of(url) == Some(Sort::Rules) {
        return crate::rule_files::definition(state, url, position);
    }
    let (reading, all) = mentions(state, surroundings, url, position)?;
    let defined = all.iter().find(|own| own.defines)?;
    reading.location(state, &defined.at)
}

/// Where the thing at a position is named.
pub fn references(
    state: &State,
    surroundings: &Surroundings,
    url: &Url,
    position: Position,
    with_definition: bool,
) -> Option<Vec<Location>> {
    let (reading, all) = mentions(state, surroundings, url, position)?;
    let wanted = all.iter().filter(|own| with_definition || !own.defines);
    Some(wanted.filter_map(|own| reading.location(state, &own.at)).collect())
}

/// The same within the text itself.
pub fn highlights(
    state: &State,
    surroundings: &Surroundings,
    url: &Url,
    position: Position,
) -> Option<Vec<DocumentHighlight>> {
    let (reading, all) = mentions(state, surroundings, url, position)?;
    let own = all.iter().filter(|own| own.at.file == reading.file);
    let highlight = |own: &Mention| {
        let kind = if own.defines { DocumentHighlightKind::WRITE } else { DocumentHighlightKind::READ };
        Some(DocumentHighlight { range: reading.location(state, &own.at)?.range, kind: Some(kind) })
    };
    Some(own.filter_map(highlight).collect())
}

/// The name at a position, if it can be changed: a thing that is defined in the texts.
pub fn prepare_rename(
    state: &State,
    surroundings: &Surroundings,
    url: &Url,
    position: Position,
) -> Option<PrepareRenameResponse> {
    let (reading, all) = mentions(state, surroundings, url, position)?;
    if !all.iter().any(|own| own.defines) {
        return None;
    }
    let byte = reading.byte(state, position)?;
    let here = all.iter().find(|own| own.at.file == reading.file && holds(&own.at, byte))?;
    let range = reading.location(state, &here.at)?.range;
    Some(PrepareRenameResponse::RangeWithPlaceholder { range, placeholder: here.name.clone() })
}

/// The edits that give the thing at a position another name.
///
/// # Errors
/// In words, when the name cannot be given.
pub fn rename(
    state: &State,
    surroundings: &Surroundings,
    url: &Url,
    position: Position,
    name: &str,
) -> Result<Option<WorkspaceEdit>, String> {
    let name = name.trim().trim_matches('"');
    if name.is_empty() || name.chars().any(|letter| letter.is_control() || matches!(letter, '"' | '\\' | ',')) {
        return Err("a name is not empty, and has no quotes, commas, backslashes or line breaks".to_owned());
    }
    let Some((reading, all)) = mentions(state, surroundings, url, position) else { return Ok(None) };
    let pattern = all.first().is_some_and(|own| own.pattern);
    let taken = |own: &&Mention| own.defines && own.name == name && own.pattern == pattern;
    if let Some(other) = reading.mentions().iter().find(taken) {
        let line = reading.location(state, &other.at).map_or(0, |location| location.range.start.line + 1);
        return Err(format!("another thing is called `{name}`, at line {line}"));
    }
    let mut by_file: BTreeMap<Url, Vec<TextEdit>> = BTreeMap::new();
    for own in &all {
        let Some(location) = reading.location(state, &own.at) else { continue };
        let new_text = if own.within_text { name.to_owned() } else { write_name(name) };
        by_file.entry(location.uri).or_default().push(TextEdit { range: location.range, new_text });
    }
    Ok(Some(workspace_edit(state, by_file)))
}

/// Edits by file, with the versions that they were made for where the client reads them.
pub fn workspace_edit(state: &State, by_file: BTreeMap<Url, Vec<TextEdit>>) -> WorkspaceEdit {
    if !state.client.document_changes {
        let changes: HashMap<Url, Vec<TextEdit>> = by_file.into_iter().collect();
        return WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() };
    }
    let edits = by_file.into_iter().map(|(uri, edits)| {
        let version = state.documents.get(&uri).map(|document| document.version);
        TextDocumentEdit {
            text_document: OptionalVersionedTextDocumentIdentifier { uri, version },
            edits: edits.into_iter().map(OneOf::Left).collect(),
        }
    });
    WorkspaceEdit { document_changes: Some(DocumentChanges::Edits(edits.collect())), ..WorkspaceEdit::default() }
}
