//! What can be done about a finding, as edits that stand in the action itself. Offered only for the text that was checked.

use crate::check::{Checked, Surroundings};
use crate::navigation::workspace_edit;
use crate::position::Lines;
use crate::state::State;
use mends::{Edit, Subject};
use rules::finding::Finding;
use std::collections::BTreeMap;
use tower_lsp::lsp_types::*;

/// The actions for the findings that a range touches.
pub fn actions(state: &State, surroundings: &Surroundings, url: &Url, range: Range) -> Vec<CodeActionOrCommand> {
    let Some((_, checked)) = state.current(url) else { return Vec::new() };
    let Some(file) = checked.file(url) else { return Vec::new() };
    let Some(document) = state.documents.get(url) else { return Vec::new() };
    let Some(bytes) = document.lines.bytes(&document.text, range, state.client.encoding) else { return Vec::new() };
    let touches = |finding: &&Finding| {
        finding.place.file == file && finding.place.bytes.start <= bytes.end && bytes.start <= finding.place.bytes.end
    };
    let mut actions = Vec::new();
    let subject = Subject {
        build: &checked.build,
        review: &checked.review,
        packs: surroundings.packs,
        today: surroundings.today,
    };
    for finding in checked.review.failed.iter().chain(&checked.review.undecided).filter(touches) {
        let mut shown = checked.shown.get(url).into_iter().flatten();
        let diagnostic = shown.find(|diagnostic| tells_of(diagnostic, finding));
        for edit in subject.edits(finding) {
            if let Some(action) = action(state, checked, edit, diagnostic) {
                actions.push(CodeActionOrCommand::CodeAction(action));
            }
        }
    }
    actions
}

/// Whether a diagnostic tells of a finding, by itself or folded with others.
fn tells_of(diagnostic: &Diagnostic, finding: &Finding) -> bool {
    let Some(data) = &diagnostic.data else { return false };
    let folded = data.get("fingerprints").and_then(|all| all.as_array()).into_iter().flatten();
    data.get("fingerprint").into_iter().chain(folded).any(|own| *own == finding.fingerprint)
}

fn action(state: &State, checked: &Checked, edit: Edit, diagnostic: Option<&Diagnostic>) -> Option<CodeAction> {
    let mut edits: BTreeMap<Url, Vec<TextEdit>> = BTreeMap::new();
    for (place, new_text) in edit.changes {
        let url = checked.urls.get(place.file)?.clone()?;
        let text = &checked.review.files.get(place.file)?.text;
        let range = Lines::of(text).range(text, &place.bytes, state.client.encoding);
        edits.entry(url).or_default().push(TextEdit { range, new_text });
    }
    Some(CodeAction {
        title: report::sentence_start(&report::visible(&edit.title)),
        kind: Some(CodeActionKind::QUICKFIX),
        diagnostics: diagnostic.map(|diagnostic| vec![diagnostic.clone()]),
        edit: Some(workspace_edit(state, edits)),
        is_preferred: edit.preferred.then_some(true),
        ..CodeAction::default()
    })
}
