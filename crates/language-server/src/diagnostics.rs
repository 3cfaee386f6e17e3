//! Findings as the protocol's diagnostics.

use crate::check::{Checked, RulePage};
use crate::client::Client;
use crate::position::Lines;
use rules::finding::{Finding, Outcome, Place};
use rules::pack::PackFault;
use rules::signal::Signal;
use serde_json::json;
use std::collections::BTreeMap;
use tower_lsp::lsp_types::{
    CodeDescription, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, Location, NumberOrString, Url,
};

/// The name under which editors show where a diagnostic comes from.
const SOURCE: &str = "coachwright";

/// How an editor marks a signal word. The harm decides; what cannot be told yet is information, whatever its word.
pub fn severity(finding: &Finding) -> DiagnosticSeverity {
    match (&finding.outcome, finding.signal) {
        (Outcome::Undecided { .. }, _) | (_, Signal::Caution) => DiagnosticSeverity::INFORMATION,
        (_, Signal::Danger) => DiagnosticSeverity::ERROR,
        (_, Signal::Warning) => DiagnosticSeverity::WARNING,
        (_, Signal::Notice) => DiagnosticSeverity::HINT,
    }
}

/// The lines of a check's files, made once for all of its findings.
struct Places<'c> {
    checked: &'c Checked,
    client: Client,
    page: &'c RulePage,
    lines: Vec<Lines>,
}

impl Places<'_> {
    fn location(&self, place: &Place) -> Option<Location> {
        let url = self.checked.urls.get(place.file)?.clone()?;
        let text = &self.checked.review.files.get(place.file)?.text;
        let range = self.lines.get(place.file)?.range(text, &place.bytes, self.client.encoding);
        Some(Location::new(url, range))
    }

    fn link(&self, rule: &str) -> Option<CodeDescription> {
        let href = Url::from_file_path((self.page)(rule)?).ok()?;
        Some(CodeDescription { href })
    }

    fn diagnostic(&self, finding: &Finding) -> Option<(Url, Diagnostic)> {
        let at = self.location(&finding.place)?;
        let mut message = visible_lines(&sentence(finding));
        let follow = finding.follow.iter().map(|follow| (&follow.place, follow.message.as_str()));
        let others = finding.related.iter().map(|related| (&related.place, related.label.as_str())).chain(follow);
        let mut related = Vec::new();
        for (place, label) in others {
            let Some(location) = self.location(place) else { continue };
            if self.client.related {
                related.push(DiagnosticRelatedInformation { location, message: visible_lines(label) });
            } else {
                let line = location.range.start.line + 1;
                let elsewhere =
                    if location.uri == at.uri { String::new() } else { format!(" of {}", location.uri.path()) };
                message.push_str(&format!("\nSee line {line}{elsewhere}: {}.", report::visible(label)));
            }
        }
        let diagnostic = Diagnostic {
            range: at.range,
            severity: Some(severity(finding)),
            code: Some(NumberOrString::String(finding.rule.to_string())),
            code_description: if self.client.links_codes { self.link(&finding.rule) } else { None },
            source: Some(SOURCE.to_owned()),
            message,
            related_information: if related.is_empty() { None } else { Some(related) },
            tags: None,
            data: Some(json!({
                "fingerprint": finding.fingerprint,
                "signal": finding.signal.word(),
                "undecided": matches!(finding.outcome, Outcome::Undecided { .. }),
            })),
        };
        Some((at.uri, diagnostic))
    }
}

impl Places<'_> {
    /// Several checks of one place that cannot be decided yet, as one.
    fn folded(&self, findings: &[&Finding]) -> Option<(Url, Diagnostic)> {
        let worst = findings.iter().max_by_key(|finding| finding.signal)?;
        let at = self.location(&worst.place)?;
        let mut entries: Vec<String> = Vec::new();
        for finding in findings {
            let Outcome::Undecided { missing } = &finding.outcome else { continue };
            for entry in missing.iter().map(|missing| missing.alternatives.join(" or ")) {
                if !entries.contains(&entry) {
                    entries.push(entry);
                }
            }
        }
        let titles: Vec<&str> = findings.iter().map(|finding| finding.title.as_str()).collect();
        let message = format!(
            "{} checks cannot be told yet: {}.\nTo settle them, write {}.",
            findings.len(),
            titles.join("; "),
            entries.join("; and ")
        );
        let fingerprints: Vec<&str> = findings.iter().map(|finding| finding.fingerprint.as_str()).collect();
        let diagnostic = Diagnostic {
            range: at.range,
            severity: Some(DiagnosticSeverity::INFORMATION),
            source: Some(SOURCE.to_owned()),
            message: visible_lines(&message),
            data: Some(json!({
                "fingerprints": fingerprints,
                "signal": worst.signal.word(),
                "undecided": true,
                "count": findings.len(),
            })),
            ..Diagnostic::default()
        };
        Some((at.uri, diagnostic))
    }
}

/// Text of several lines with every other control character shown, as the terminal shows them.
fn visible_lines(text: &str) -> String {
    text.lines().map(|line| report::visible(line).into_owned()).collect::<Vec<_>>().join("\n")
}

/// A finding in a few lines: what is wrong and what to do; of what cannot be told, what to write.
fn sentence(finding: &Finding) -> String {
    let case = if finding.case.is_empty() { String::new() } else { format!("\nWorst case: {}.", finding.case) };
    match &finding.outcome {
        Outcome::Fails { .. } if finding.remedy.is_empty() => format!("{}{case}", report::sentence(&finding.message)),
        Outcome::Fails { .. } => {
            format!("{}{case}\n{}", report::sentence(&finding.message), report::sentence(&finding.remedy))
        }
        Outcome::Undecided { missing } => {
            let entries: Vec<String> = missing.iter().map(|missing| missing.alternatives.join(" or ")).collect();
            format!("It cannot be told yet: {}.\nTo settle it, write {}.", finding.title, entries.join("; and "))
        }
    }
}

/// The diagnostics of a check, by file; every file of the check has an entry, so that what has vanished is taken away.
pub fn of_check(checked: &Checked, client: Client, page: &RulePage) -> BTreeMap<Url, Vec<Diagnostic>> {
    let lines = checked.review.files.iter().map(|file| Lines::of(&file.text)).collect();
    let places = Places { checked, client, page, lines };
    let mut by_file: BTreeMap<Url, Vec<Diagnostic>> =
        checked.urls.iter().flatten().map(|url| (url.clone(), Vec::new())).collect();
    for finding in &checked.review.failed {
        if let Some((url, diagnostic)) = places.diagnostic(finding) {
            by_file.entry(url).or_default().push(diagnostic);
        }
    }
    let mut undecided: Vec<Vec<&Finding>> = Vec::new();
    for finding in &checked.review.undecided {
        let here = |others: &&mut Vec<&Finding>| others.iter().any(|other| other.place == finding.place);
        match undecided.iter_mut().find(here).filter(|_| client.folds_undecided) {
            Some(others) => others.push(finding),
            None => undecided.push(vec![finding]),
        }
    }
    for folded in undecided {
        let told = match folded.as_slice() {
            [only] => places.diagnostic(only),
            several => places.folded(several),
        };
        if let Some((url, diagnostic)) = told {
            by_file.entry(url).or_default().push(diagnostic);
        }
    }
    by_file
}

/// The diagnostics of what is wrong in a text of parts.
pub fn of_slips(slips: &[spec::Slip], text: &str, client: Client) -> Vec<Diagnostic> {
    let lines = Lines::of(text);
    let of = |slip: &spec::Slip| {
        let bytes = slip.at.bytes.start as usize..slip.at.bytes.end as usize;
        let help = slip.help.as_ref().map_or(String::new(), |help| format!("\n{help}"));
        Diagnostic {
            range: lines.range(text, &bytes, client.encoding),
            severity: Some(DiagnosticSeverity::WARNING),
            code: Some(NumberOrString::String(slip.rule.to_owned())),
            source: Some(SOURCE.to_owned()),
            message: visible_lines(&format!("{}{help}", slip.message)),
            ..Diagnostic::default()
        }
    };
    slips.iter().map(of).collect()
}

/// The diagnostics of what is wrong in a rule pack.
pub fn of_faults(faults: &[PackFault], text: &str, client: Client) -> Vec<Diagnostic> {
    let lines = Lines::of(text);
    let of = |fault: &PackFault| Diagnostic {
        range: lines.range(text, &fault.at, client.encoding),
        severity: Some(DiagnosticSeverity::ERROR),
        source: Some(SOURCE.to_owned()),
        message: visible_lines(format!("{}\n{}", fault.message, fault.help).trim_end()),
        ..Diagnostic::default()
    };
    faults.iter().map(of).collect()
}
