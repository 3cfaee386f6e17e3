//! The Static Analysis Results Interchange Format, version 2.1.0 (OASIS standard of 27 March 2020, with its JSON schema).

use super::common::{self, Files, Level, Region};
use super::{Build, Context, Fix, RuleAbout, Totals};
use crate::sanitise::{prose, sentence};
use crate::words;
use rules::Signal;
use rules::finding::{Finding, Outcome, Place};
use serde_json::{Map, Value, json};

/// The name of the fingerprint; a new number when the way it is made changes.
const FINGERPRINT: &str = "buildRulePart/v1";

/// The document up to the results.
pub(super) fn head(context: &Context) -> String {
    let tool = json!({ "driver": {
        "name": "coachwright",
        "semanticVersion": context.tool_version,
        "version": context.tool_version,
        "shortDescription": { "text": text("Checks build specifications of vehicle conversions.") },
        "fullDescription": { "text": text(&format!("Checks build specifications of vehicle conversions. {}", words::CAUTION)) },
        "language": "en",
        "rules": context.rules.iter().map(rule).collect::<Vec<_>>(),
        "properties": {
            "holdAt": context.hold_at.word(),
            "packs": context
                .packs
                .iter()
                .map(|pack| json!({ "name": pack.name, "edition": pack.edition }))
                .collect::<Vec<_>>(),
        },
    }});
    // A carriage return alone ends a line too, as editors have it.
    format!(
        "{{\"$schema\":\"https://json.schemastore.org/sarif-2.1.0.json\",\"version\":\"2.1.0\",\"runs\":[{{\n\"tool\":{tool},\n\
         \"columnKind\":\"unicodeCodePoints\",\"newlineSequences\":[\"\\r\\n\",\"\\n\",\"\\r\"],\"results\":[\n"
    )
}

/// The results of a build.
pub(super) fn build(context: &Context, build: &Build) -> String {
    let files = Files::new(build);
    let review = build.review;
    let findings = review.failed.iter().chain(&review.undecided).chain(&review.waived);
    findings
        .map(|finding| result(context, build, &files, finding).to_string())
        .collect::<Vec<_>>()
        .join(super::MachineForm::Sarif.separator())
}

/// The document behind the results.
pub(super) fn tail(context: &Context, totals: &Totals) -> String {
    let mut notifications: Vec<Value> = totals
        .unread_listed
        .iter()
        .map(|unread| {
            json!({
                "level": "error",
                "message": { "text": text(&format!("This build could not be read, and nothing of it was checked: {}", sentence(&unread.message))) },
                "locations": [{ "physicalLocation": { "artifactLocation": { "uri": common::uri(&unread.path) } } }],
            })
        })
        .collect();
    let unlisted = totals.unread.saturating_sub(totals.unread_listed.len());
    if unlisted > 0 {
        let message = format!("{} more could not be read.", words::counted(unlisted, "build", "builds"));
        notifications.push(json!({ "level": "error", "message": { "text": message } }));
    }
    let invocations = json!([{
        "executionSuccessful": totals.unread == 0,
        "toolExecutionNotifications": notifications,
    }]);
    let properties = json!({
        "builds": totals.builds,
        "buildsHeld": totals.held,
        "buildsUnread": totals.unread,
        "holdAt": context.hold_at.word(),
        "failed": counts(totals.failed),
        "undecided": counts(totals.undecided),
        "waived": totals.waived,
        "caution": words::CAUTION,
    });
    format!("\n],\n\"invocations\":{invocations},\n\"properties\":{properties}\n}}]}}\n")
}

fn counts(counts: [usize; 4]) -> Value {
    let words = words::WORST_FIRST.iter();
    Value::Object(words.map(|signal| (signal.word().to_owned(), common::count(counts, *signal).into())).collect())
}

const fn level(signal: Signal) -> &'static str {
    match common::level(signal) {
        Level::Error => "error",
        Level::Warning => "warning",
        Level::Note => "note",
    }
}

/// A message string: brackets would begin a link (section 3.11.6), braces a placeholder (section 3.11.5).
fn text(words: &str) -> String {
    let mut escaped = String::with_capacity(words.len());
    for character in words.chars() {
        match character {
            '{' | '}' => escaped.push(character),
            '[' | ']' | '\\' => escaped.push('\\'),
            _ => {}
        }
        escaped.push(character);
    }
    escaped
}

/// In Markdown a bracket is escaped already; the braces still are placeholders.
fn markdown(words: &str) -> String {
    super::markdown::escaped(words).replace('{', "{{").replace('}', "}}")
}

fn rule(rule: &RuleAbout) -> Value {
    let mut lines = vec![("Why", prose(&rule.why)), ("Do this", prose(&rule.remedy))];
    lines.push(("Caution", prose(rule.caution.as_deref().unwrap_or_default())));
    lines.extend(rule.sources.iter().map(|source| ("Source", common::source_words(source))));
    lines.retain(|(_, words)| !words.is_empty());
    let plain: Vec<String> = lines.iter().map(|(label, words)| format!("{label}: {}", text(words))).collect();
    let marked: Vec<String> = lines.iter().map(|(label, words)| format!("**{label}:** {}", markdown(words))).collect();
    let title = text(&sentence(&rule.title));
    let full = if rule.why.is_empty() { title.clone() } else { text(&sentence(&rule.why)) };
    let mut about = json!({
        "id": rule.name,
        "shortDescription": { "text": title },
        "fullDescription": { "text": full },
        "defaultConfiguration": { "level": level(rule.signal) },
        "properties": { "signal": rule.signal.word(), "tags": [rule.signal.word()] },
    });
    if !lines.is_empty() {
        insert(&mut about, "help", json!({ "text": plain.join("\n"), "markdown": marked.join("\n\n") }));
    }
    // The first source that can be read openly; the standard wants one address only.
    let address =
        rule.sources.iter().find_map(|source| source.address.as_deref().filter(|address| is_address(address)));
    if let Some(address) = address {
        insert(&mut about, "helpUri", address.into());
    }
    about
}

/// Whether a text can stand where an address is due: a scheme of the web and only characters of RFC 3986.
fn is_address(text: &str) -> bool {
    (text.starts_with("https://") || text.starts_with("http://"))
        && text.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-._~:/?#@!$&'()*+,;=%".contains(&byte))
}

fn result(context: &Context, build: &Build, files: &Files, finding: &Finding) -> Value {
    let undecided = common::is_undecided(finding);
    let held = finding.waived.is_none()
        && if undecided { common::holds_undecided(build.review, finding) } else { finding.signal >= context.hold_at };
    let message = format!("{} {}", common::said(finding), common::to_do(finding));
    let mut made = json!({
        "ruleId": &*finding.rule,
        "kind": if undecided { "open" } else { "fail" },
        "level": if undecided { "none" } else { level(finding.signal) },
        "message": { "text": text(message.trim_end()) },
        "locations": [located(files, finding)],
        "partialFingerprints": { FINGERPRINT: common::fingerprint(build.path, &finding.fingerprint, 0) },
        "properties": properties(build, finding, held),
    });
    if let Ok(index) = context.rules.binary_search_by(|rule| (*rule.name).cmp(&finding.rule)) {
        insert(&mut made, "ruleIndex", index.into());
    }
    let mut related: Vec<Value> =
        finding.related.iter().map(|other| beside(files, &other.place, &prose(&other.label), Value::Null)).collect();
    following(files, finding, &mut related);
    for (id, location) in related.iter_mut().enumerate() {
        insert(location, "id", id.into());
    }
    if !related.is_empty() {
        insert(&mut made, "relatedLocations", related.into());
    }
    if let Some(suppression) = suppression(files, finding) {
        insert(&mut made, "suppressions", json!([suppression]));
    }
    let fixes: Vec<Value> = files.fixes(finding).iter().map(|offered| fix(files, offered)).collect();
    if !fixes.is_empty() {
        insert(&mut made, "fixes", fixes.into());
    }
    made
}

fn insert(object: &mut Value, key: &str, value: Value) {
    if let Value::Object(members) = object {
        members.insert(key.to_owned(), value);
    }
}

fn properties(build: &Build, finding: &Finding, held: bool) -> Value {
    let mut properties = Map::new();
    let mut put = |key: &str, value: Value| {
        if !matches!(&value, Value::Null) && value.as_array().is_none_or(|list| !list.is_empty()) {
            properties.insert(key.to_owned(), value);
        }
    };
    put("signal", finding.signal.word().into());
    put("title", finding.title.as_str().into());
    put("build", common::plain_path(build.path).into());
    put("part", finding.part.as_str().into());
    put("holdsBuild", held.into());
    put("fingerprint", finding.fingerprint.as_str().into());
    put("caution", finding.caution.as_deref().into());
    put("circumstances", finding.circumstances.as_slice().into());
    put("case", Some(finding.case.as_str()).filter(|case| !case.is_empty()).into());
    put(
        "facts",
        finding.facts.iter().map(|fact| json!({ "part": fact.part, "fact": fact.fact, "value": fact.value })).collect(),
    );
    match &finding.outcome {
        Outcome::Fails { margin } => put("margin", margin.filter(|margin| margin.is_finite()).into()),
        Outcome::Undecided { missing } => {
            put("missing", missing.iter().map(|one| json!({ "anyOf": one.alternatives })).collect());
        }
    }
    Value::Object(properties)
}

fn located(files: &Files, finding: &Finding) -> Value {
    json!({
        "physicalLocation": physical(files, &finding.place),
        "logicalLocations": [{ "name": prose(&finding.part), "fullyQualifiedName": prose(&finding.part_key), "kind": "object" }],
    })
}

fn physical(files: &Files, place: &Place) -> Value {
    let mut made = json!({ "artifactLocation": { "uri": common::uri(files.path(place)) } });
    if let Some(region) = files.region(place) {
        insert(&mut made, "region", self::region(region));
    }
    made
}

fn region(region: Region) -> Value {
    json!({
        "startLine": region.start_line,
        "startColumn": region.start_column,
        "endLine": region.end_line,
        "endColumn": region.end_column,
        "charOffset": region.offset,
        "charLength": region.length,
    })
}

fn beside(files: &Files, place: &Place, label: &str, properties: Value) -> Value {
    let mut made = json!({ "physicalLocation": physical(files, place), "message": { "text": text(label) } });
    if !properties.is_null() {
        insert(&mut made, "properties", properties);
    }
    made
}

/// What only follows from a finding, as places beside it.
fn following(files: &Files, finding: &Finding, related: &mut Vec<Value>) {
    for follow in &finding.follow {
        let label = format!("From this follows, for {}: {}", prose(&follow.part), sentence(&follow.message));
        let properties = json!({
            "rule": &*follow.rule,
            "signal": follow.signal.word(),
            "fingerprint": follow.fingerprint,
        });
        related.push(beside(files, &follow.place, &label, properties));
        following(files, follow, related);
    }
}

/// A waiver stands in the build's own text.
fn suppression(files: &Files, finding: &Finding) -> Option<Value> {
    let waived = finding.waived.as_ref()?;
    Some(json!({
        "kind": "inSource",
        "status": "accepted",
        "justification": common::justification(finding)?,
        "location": { "physicalLocation": physical(files, &waived.place) },
        "properties": { "by": waived.by, "until": waived.until, "evidence": waived.evidence, "reason": waived.reason },
    }))
}

fn fix(files: &Files, fix: &Fix) -> Value {
    let mut paths: Vec<&str> = Vec::new();
    for (place, _) in &fix.changes {
        if !paths.contains(&files.path(place)) {
            paths.push(files.path(place));
        }
    }
    let change = |path: &&str| {
        let own = fix.changes.iter().filter(|(place, _)| files.path(place) == *path);
        let replacement = |(place, new): &(Place, String)| {
            let deleted = files.region(place).map(region)?;
            Some(json!({ "deletedRegion": deleted, "insertedContent": { "text": new } }))
        };
        json!({
            "artifactLocation": { "uri": common::uri(path) },
            "replacements": own.filter_map(replacement).collect::<Vec<_>>(),
        })
    };
    json!({
        "description": { "text": text(&sentence(&fix.title)) },
        "artifactChanges": paths.iter().map(change).collect::<Vec<_>>(),
        "properties": { "preferred": fix.preferred },
    })
}
