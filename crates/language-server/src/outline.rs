//! The parts of a text as an outline, and what of it folds.

use crate::check::{Sort, Surroundings};
use crate::reading::Reading;
use crate::rule_files;
use crate::state::State;
use spec::Part;
use tower_lsp::lsp_types::{DocumentSymbol, FoldingRange, SymbolKind, Url};
use vocabulary::Family;

/// The outline.
pub fn symbols(state: &State, surroundings: &Surroundings, url: &Url) -> Option<Vec<DocumentSymbol>> {
    if Sort::of(url) == Some(Sort::Rules) {
        return rule_files::symbols(state, url);
    }
    let reading = Reading::of(state, surroundings, url)?;
    let own = reading.top().filter(|part| part.at.file == reading.file);
    Some(own.filter_map(|part| symbol(state, &reading, part)).collect())
}

/// The deepest nesting that a text may have, so this ends.
#[allow(deprecated, reason = "the protocol's type has a field that it no longer uses")]
fn symbol(state: &State, reading: &Reading, part: &Part) -> Option<DocumentSymbol> {
    let spec = vocabulary::part(part.kind);
    let name = part.name.as_ref().map(|name| name.text.trim().to_owned()).filter(|name| !name.is_empty());
    let inside: Vec<DocumentSymbol> = part.inside.iter().filter_map(|inner| symbol(state, reading, inner)).collect();
    Some(DocumentSymbol {
        detail: name.as_ref().map(|_| spec.word.to_owned()),
        name: name.unwrap_or_else(|| spec.word.to_owned()),
        kind: symbol_kind(spec.family),
        tags: None,
        deprecated: None,
        range: reading.location(state, &part.at)?.range,
        selection_range: reading.location(state, &part.head)?.range,
        children: if inside.is_empty() { None } else { Some(inside) },
    })
}

/// How editors mark a part of a family.
pub fn symbol_kind(family: Family) -> SymbolKind {
    match family {
        Family::Thing => SymbolKind::OBJECT,
        Family::Run => SymbolKind::EVENT,
        Family::Place => SymbolKind::NAMESPACE,
        Family::Piece => SymbolKind::FIELD,
        Family::Setting | Family::Worked => SymbolKind::PROPERTY,
    }
}

/// The parts that stand on several lines.
pub fn folds(state: &State, surroundings: &Surroundings, url: &Url) -> Option<Vec<FoldingRange>> {
    if Sort::of(url) == Some(Sort::Rules) {
        return rule_files::folds(state, url);
    }
    let reading = Reading::of(state, surroundings, url)?;
    let mut open: Vec<&Part> = reading.top().filter(|part| part.at.file == reading.file).rev().collect();
    let mut folds = Vec::new();
    while let Some(part) = open.pop() {
        open.extend(part.inside.iter().rev());
        let Some(location) = reading.location(state, &part.at) else { continue };
        let (start_line, end_line) = (location.range.start.line, location.range.end.line);
        if end_line > start_line {
            folds.push(FoldingRange {
                start_line,
                end_line: end_line.saturating_sub(1).max(start_line),
                ..FoldingRange::default()
            });
        }
    }
    folds.retain(|fold| fold.end_line > fold.start_line);
    Some(folds)
}
