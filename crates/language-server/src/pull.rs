//! Findings for clients that ask for them.

use crate::state::State;
use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;
use tower_lsp::lsp_types::*;

/// What is found in a text, and in the files that it brings in.
pub fn report(state: &State, url: &Url, known: Option<&str>) -> DocumentDiagnosticReportResult {
    let brought_in = state.checked.get(url).into_iter().flat_map(|checked| checked.urls.iter().flatten());
    let related: HashMap<Url, DocumentDiagnosticReportKind> = brought_in
        .filter(|file| *file != url)
        .map(|file| (file.clone(), DocumentDiagnosticReportKind::Full(full(state, file))))
        .collect();
    let related_documents = if related.is_empty() { None } else { Some(related) };
    let own = full(state, url);
    let report = match own.result_id {
        Some(result_id) if known == Some(result_id.as_str()) => {
            DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
                related_documents,
                unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport { result_id },
            })
        }
        _ => DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
            related_documents,
            full_document_diagnostic_report: own,
        }),
    };
    report.into()
}

fn full(state: &State, url: &Url) -> FullDocumentDiagnosticReport {
    let items = state.shown.get(url).map(Arc::clone).unwrap_or_default();
    FullDocumentDiagnosticReport { result_id: Some(name_of_result(&items)), items: items.to_vec() }
}

/// A name for what is shown of a file, by which a client that asks again can be told that it is the same.
fn name_of_result(diagnostics: &[Diagnostic]) -> String {
    let mut hasher = DefaultHasher::new();
    serde_json::to_string(diagnostics).unwrap_or_default().hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}
