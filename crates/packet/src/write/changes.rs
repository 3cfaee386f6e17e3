//! The record of changes: as one page, as JSON, and as lines for a terminal.

use super::front::{badge, caution, signature, typed};
use super::html::STYLE;
use crate::changes::{Changes, Document, Entry, Field, Issue, PartChange, Sort, Turn, Turned, Version};
use crate::marks::Standing;
use crate::words::{changes as words, page};
use maud::{DOCTYPE, Markup, PreEscaped, html};
use report::{ChangeGroup, ChangeItem, ChangeSheet};
use serde_json::{Value as Json, json};

/// What the data say that they are.
pub const CHANGES_FORM: &str = "coachwright changes";
/// The version of their form. A new number when a reader of the old one could be misled.
pub const CHANGES_VERSION: u32 = 1;

/// The changes as JSON, by `schema/changes.schema.json`.
pub fn changes_json(changes: &Changes) -> Json {
    let version =
        |of: &Version| json!({ "named": of.named, "build": of.build, "revision": of.revision, "hash": of.hash });
    let entry = |of: &Entry| json!({ "name": of.name, "old": of.old, "new": of.new });
    json!({
        "form": CHANGES_FORM,
        "version": CHANGES_VERSION,
        "old": version(&changes.old),
        "new": version(&changes.new),
        "parts": changes.parts.iter().map(|part| json!({
            "change": part.sort.word(),
            "part": part.part.title,
            "key": part.part.key,
            "line": part.part.line.map(|(_, line)| line),
            "was": part.was,
            "entries": part.entries.iter().map(entry).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "effects": changes.effects.iter().map(|effect| json!({
            "field": effect.field.word(),
            "what": effect.what,
            "old": effect.old,
            "new": effect.new,
            "difference": effect.difference,
            "dimension": effect.dimension.map(|dimension| dimension.name()),
            "shown": effect.shown,
        })).collect::<Vec<_>>(),
        "findings": changes.findings.iter().map(|finding| json!({
            "turn": finding.turn.word(),
            "signal": finding.signal.word(),
            "rule": finding.rule,
            "part": finding.part,
            "message": finding.message,
            "was": finding.was.map(standing),
            "is": finding.is.map(standing),
            "fingerprint": finding.fingerprint,
        })).collect::<Vec<_>>(),
        "documents": changes.documents.iter().map(|document| json!({
            "id": document.id,
            "title": document.title,
            "issue": document.issue.word(),
            "rows": document.rows,
        })).collect::<Vec<_>>(),
        "caution": report::CAUTION,
    })
}

const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Failed => "failed",
        Standing::Undecided => "undecided",
        Standing::Waived => "waived",
    }
}

const fn standing_words(standing: Option<Standing>) -> &'static str {
    match standing {
        Some(Standing::Failed) => words::FAILS,
        Some(Standing::Undecided) => words::CANNOT_BE_TOLD,
        Some(Standing::Waived) => words::ACCEPTED,
        None => words::NOT_THERE,
    }
}

const fn sort_title(sort: Sort) -> &'static str {
    match sort {
        Sort::Added => words::ADDED,
        Sort::Removed => words::REMOVED,
        Sort::Renamed => words::RENAMED,
        Sort::Altered => words::ALTERED,
    }
}

const fn turn_title(turn: Turn) -> &'static str {
    match turn {
        Turn::Gained => words::GAINED,
        Turn::Turned => words::TURNED,
        Turn::Lost => words::LOST,
    }
}

const fn issue_words(issue: Issue) -> &'static str {
    match issue {
        Issue::Again => words::AGAIN,
        Issue::New => words::IS_NEW,
        Issue::Withdrawn => words::WITHDRAWN,
    }
}

/// What became of an entry in one line: `35 mm² → 25 mm²`.
fn entry_line(entry: &Entry) -> String {
    match (&entry.old, &entry.new) {
        (Some(old), Some(new)) => format!("{old} → {new}"),
        (Some(old), None) => format!("{old} → {}", words::NOTHING),
        (None, Some(new)) => new.clone(),
        (None, None) => String::new(),
    }
}

/// A part's title, with what it was called before.
fn title_of(part: &PartChange) -> String {
    match &part.was {
        Some(was) => format!("{} ({} {was})", part.part.title, words::WAS_CALLED),
        None => part.part.title.clone(),
    }
}

/// The changes as lines for a terminal.
pub fn changes_sheet(changes: &Changes) -> ChangeSheet {
    let item = |title: String, lines: Vec<(String, String)>| ChangeItem { signal: None, title, lines };
    let mut groups = Vec::new();
    for sort in Sort::ALL {
        let parts = changes.parts.iter().filter(|part| part.sort == sort);
        let items: Vec<ChangeItem> = parts
            .map(|part| {
                // What went says nothing more of itself than that.
                let own = part.entries.iter().filter(|_| part.sort != Sort::Removed);
                let lines = own.map(|entry| (entry.name.to_owned(), entry_line(entry))).collect();
                item(title_of(part), lines)
            })
            .collect();
        if !items.is_empty() {
            groups.push(ChangeGroup { heading: sort_title(sort).to_owned(), none: String::new(), items });
        }
    }
    if groups.is_empty() {
        groups.push(ChangeGroup {
            heading: words::PARTS.to_owned(),
            none: words::NO_PARTS.to_owned(),
            items: Vec::new(),
        });
    }
    let effects = changes.effects.iter().map(|effect| {
        let difference = if effect.shown.is_empty() { String::new() } else { format!(" ({})", effect.shown) };
        item(format!("{}: {} → {}{difference}", effect.what, effect.old, effect.new), Vec::new())
    });
    groups.push(ChangeGroup {
        heading: words::EFFECTS.to_owned(),
        none: words::NO_EFFECTS.to_owned(),
        items: effects.collect(),
    });
    let before = groups.len();
    for turn in Turn::ALL {
        let items: Vec<ChangeItem> = changes.turned(turn).map(finding_item).collect();
        if !items.is_empty() {
            let heading = format!("{} {}", words::FINDINGS, turn_title(turn).to_lowercase());
            groups.push(ChangeGroup { heading, none: String::new(), items });
        }
    }
    if groups.len() == before {
        let none = words::NO_FINDINGS.to_owned();
        groups.push(ChangeGroup { heading: words::FINDINGS.to_owned(), none, items: Vec::new() });
    }
    groups.push(ChangeGroup {
        heading: words::DOCUMENTS.to_owned(),
        none: words::NO_DOCUMENTS.to_owned(),
        items: changes
            .documents
            .iter()
            .map(|document| item(format!("{}: {}", document.title, issue_words(document.issue)), Vec::new()))
            .collect(),
    });
    ChangeSheet {
        build: changes.new.build.clone(),
        versions: [&changes.old, &changes.new].map(|version| {
            let revision = if version.revision.is_empty() { String::new() } else { format!(", {}", version.revision) };
            format!("{}{revision}", version.named)
        }),
        groups,
    }
}

fn finding_item(finding: &Turned) -> ChangeItem {
    let turned = format!("{} → {}", standing_words(finding.was), standing_words(finding.is));
    ChangeItem {
        signal: Some(finding.signal),
        title: finding.message.clone(),
        lines: vec![(finding.rule.clone(), format!("{}; {turned}", finding.part))]
            .into_iter()
            .map(|(rule, rest)| (words::RULE.to_owned(), format!("{rule}, {rest}")))
            .collect(),
    }
}

/// The changes as one page without a network and without script.
pub fn changes_html(changes: &Changes) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";
                link rel="icon" href="data:,";
                title { (report::visible(&changes.new.build)) ", " (words::TITLE) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                main {
                    section.first {
                        p.kind { (words::TITLE) }
                        h1 { (typed(&changes.new.build)) }
                        p.purpose { (words::PURPOSE) }
                        (versions(changes))
                        (signature())
                        (caution())
                    }
                    (section("parts", words::PARTS, &parts(changes)))
                    (section("effects", words::EFFECTS, &effects(changes)))
                    (section("findings", words::FINDINGS, &findings(changes)))
                    (section("documents", words::DOCUMENTS, &documents(changes)))
                }
            }
        }
    };
    page.into_string()
}

fn section(id: &str, title: &str, body: &Markup) -> Markup {
    html! {
        section.paper.wide id=(id) aria-labelledby=(format!("h-{id}")) {
            h2 id=(format!("h-{id}")) { (title) }
            (body)
        }
    }
}

fn versions(changes: &Changes) -> Markup {
    let [old, new] = [&changes.old, &changes.new];
    let lines: [(&str, &str, &str); 3] = [
        (words::NAMED, &old.named, &new.named),
        (words::REVISION, &old.revision, &new.revision),
        (words::HASH, &old.hash, &new.hash),
    ];
    table(
        words::TITLE,
        &["", words::OLD, words::NEW],
        &html! {
            @for (what, one, other) in lines {
                tr { td { (what) } td.long { (typed(one)) } td.long { (typed(other)) } }
            }
        },
    )
}

fn table(label: &str, heads: &[&str], body: &Markup) -> Markup {
    html! {
        div.scroll tabindex="0" role="region" aria-label=(format!("{label}, {}", page::SCROLL)) {
            table.sheet {
                thead { tr { @for head in heads {
                    @if head.is_empty() { td {} } @else { th scope="col" { (head) } }
                } } }
                tbody { (body) }
            }
        }
    }
}

fn group(title: &str, columns: usize) -> Markup {
    html! { tr.group { th colspan=(columns) scope="colgroup" { (title) } } }
}

fn parts(changes: &Changes) -> Markup {
    if changes.parts.is_empty() {
        return html! { p { (words::NO_PARTS) } };
    }
    table(
        words::PARTS,
        &[words::PART, words::ENTRY, words::OLD, words::NEW],
        &html! {
            @for sort in Sort::ALL {
                @let parts: Vec<&PartChange> = changes.parts.iter().filter(|part| part.sort == sort).collect();
                @if !parts.is_empty() {
                    (group(sort_title(sort), 4))
                    @for part in parts { (part_rows(part)) }
                }
            }
        },
    )
}

fn part_rows(part: &PartChange) -> Markup {
    let told = |text: &Option<String>| text.clone().unwrap_or_default();
    html! {
        @if part.entries.is_empty() { tr { (part_cell(part)) td {} td {} td {} } }
        @for (index, entry) in part.entries.iter().enumerate() {
            tr {
                @if index == 0 { (part_cell(part)) } @else { td {} }
                td { (entry.name) }
                td.long { (typed(&told(&entry.old))) }
                td.long { (typed(&told(&entry.new))) }
            }
        }
    }
}

fn part_cell(part: &PartChange) -> Markup {
    html! {
        td.long {
            (typed(&title_of(part)))
            @if let Some((_, line)) = part.part.line { " " span.line { (words::LINE) " " (line) } }
        }
    }
}

fn effects(changes: &Changes) -> Markup {
    if changes.effects.is_empty() {
        return html! { p { (words::NO_EFFECTS) } };
    }
    table(
        words::EFFECTS,
        &[words::VALUE, words::OLD, words::NEW, words::DIFFERENCE],
        &html! {
            @for field in Field::ALL {
                @let own: Vec<_> = changes.effects.iter().filter(|effect| effect.field == field).collect();
                @if !own.is_empty() {
                    (group(field.title(), 4))
                    @for effect in own {
                        tr {
                            td { (typed(&effect.what)) }
                            td { (typed(&effect.old)) }
                            td { (typed(&effect.new)) }
                            td { (effect.shown) }
                        }
                    }
                }
            }
        },
    )
}

fn findings(changes: &Changes) -> Markup {
    if changes.findings.is_empty() {
        return html! { p { (words::NO_FINDINGS) } };
    }
    table(
        words::FINDINGS,
        &[words::SIGNAL, words::PART, words::FINDING, words::RULE, words::STANDING],
        &html! {
            @for turn in Turn::ALL {
                @let own: Vec<&Turned> = changes.turned(turn).collect();
                @if !own.is_empty() {
                    (group(turn_title(turn), 5))
                    @for finding in own {
                        tr {
                            td { (badge(finding.signal)) }
                            td.long { (typed(&finding.part)) }
                            td.long { (typed(&finding.message)) }
                            td { (typed(&finding.rule)) }
                            td { (standing_words(finding.was)) ", " (standing_words(finding.is)) }
                        }
                    }
                }
            }
        },
    )
}

fn documents(changes: &Changes) -> Markup {
    if changes.documents.is_empty() {
        return html! { p { (words::NO_DOCUMENTS) } };
    }
    table(
        words::DOCUMENTS,
        &[words::DOCUMENT, words::ISSUE, words::ROWS],
        &html! {
            @for document in &changes.documents {
                tr { td { (typed(&document.title)) } td { (issue_words(document.issue)) } td { (rows(document)) } }
            }
        },
    )
}

fn rows(document: &Document) -> String {
    document.rows.map_or_else(String::new, |[came, went]| format!("{came}, {went}"))
}
