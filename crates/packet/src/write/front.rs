//! The first page, and what stands on every sheet.

use crate::head::Head;
use crate::sheet::{Sheet, Value};
use crate::words::{findings, page as words};
use crate::{Packet, words as common};
use maud::{Markup, html};
use rules::Signal;

/// The counts in a line.
pub fn counts(head: &Head) -> String {
    let mut parts = Vec::new();
    for signal in Signal::ALL.iter().rev() {
        let count = head.failed.get(*signal as usize).copied().unwrap_or(0);
        if count > 0 {
            parts.push(format!("{count} {}", signal.word()));
        }
    }
    let failed = if parts.is_empty() { common::NONE.to_owned() } else { parts.join(", ") };
    format!(
        "{}: {failed}; {} {}; {} {}",
        words::COUNTS,
        head.undecided_in_all(),
        words::UNDECIDED,
        head.waived,
        words::WAIVED
    )
}

/// Text that a builder typed: nothing hidden in it, and its direction kept from its surroundings.
pub fn typed(text: &str) -> Markup {
    html! { bdi { (report::visible(text)) } }
}

/// A signal word as a badge: the word itself, and its colour of ANSI Z535 with that meaning only.
pub fn badge(signal: Signal) -> Markup {
    html! { span.badge.(signal.word()) { (signal.word()) } }
}

/// The first page: what it is, what holds it, what is in it.
pub fn first(packet: &Packet) -> Markup {
    let head = &packet.head;
    html! {
        section #first.first {
            p.kind { (words::PACKET) }
            h1 { (typed(&head.build)) }
            @if !head.purpose.is_empty() { p.purpose { (typed(&head.purpose)) } }
            @if head.not_for_construction { p.stop { strong { (words::NOT_FOR_CONSTRUCTION) } " " (words::DANGERS_OPEN) } }
            (facts(head))
            p.held { (typed(&head.held.reason)) }
            (worst(packet))
            (contents(packet))
            (signature())
            (caution())
        }
    }
}

/// What is told of the papers as a whole.
fn facts(head: &Head) -> Markup {
    let lines = [
        (words::VEHICLE, head.vehicle.as_str()),
        (words::REVISION, &head.revision),
        (words::STAGE, head.stage),
        (words::DATE, &head.date.to_string()),
        (words::PACKS, &head.packs_in_a_line()),
        (words::HASH, &head.hash),
        (words::APPROVED, &approved(head)),
        (words::PROGRAM, &head.program),
        (words::COUNTS, counts(head).split_once(": ").map_or("", |(_, rest)| rest)),
    ]
    .map(|(name, value)| (name, value.to_owned()));
    html! {
        dl.facts {
            @for (name, value) in &lines { div { dt { (name) } dd { (typed(value)) } } }
        }
    }
}

/// What was approved, and whether this is it.
pub fn approved(head: &Head) -> String {
    match &head.approved {
        None => words::NOT_APPROVED.to_owned(),
        Some(approved) => {
            let told = if approved.told.is_empty() { String::new() } else { format!("{}: ", approved.told) };
            format!("{told}{}", if approved.stands { words::APPROVED_SO } else { words::CHANGED_SINCE })
        }
    }
}

/// The open findings of danger and warning, in short.
fn worst(packet: &Packet) -> Markup {
    let Some(register) = packet.sheets.iter().find(|sheet| sheet.id == "findings") else { return html! {} };
    let open: Vec<_> = register
        .rows
        .iter()
        .filter(|row| row.group != findings::WAIVED && row.signal.is_some_and(|signal| signal >= Signal::Warning))
        .collect();
    if open.is_empty() {
        return html! {};
    }
    html! {
        h2 { (words::FIRST) }
        ul.worst {
            @for row in open {
                li {
                    @if let Some(signal) = row.signal { (badge(signal)) " " }
                    @let number = row.finding.unwrap_or_default();
                    a href=(format!("#f{number}")) { (words::FINDING) " " (number) } " "
                    @if row.group == findings::UNDECIDED { "(" (words::UNDECIDED) ") " }
                    (typed(text_of(row.cells.get(3).map(|cell| &cell.value))))
                }
            }
        }
    }
}

fn text_of(value: Option<&Value>) -> &str {
    match value {
        Some(Value::Text(text)) => text,
        _ => "",
    }
}

fn contents(packet: &Packet) -> Markup {
    html! {
        nav.contents #contents aria-label=(words::CONTENTS) {
            h2 { (words::CONTENTS) }
            div.columns {
                div {
                    h3 { (words::SHEETS) }
                    ol {
                        @for sheet in &packet.sheets { li { a href=(format!("#{}", sheet.id)) { (sheet.title) } } }
                    }
                }
                div {
                    h3 { (words::DRAWINGS) }
                    ol {
                        @for drawing in &packet.drawings {
                            li { a href=(format!("#{}", drawing.id)) { (drawing.title) ": " (typed(&drawing.part_title)) } }
                        }
                        li.screen { a href="#specification" { (words::SPECIFICATION) } }
                    }
                }
                div {
                    h3 { (words::LEFT_OUT) }
                    p { (words::LEFT_OUT_INTRO) }
                    ul.left-out {
                        @for out in &packet.left_out { li { strong { (out.title) } ": " (out.why) "." } }
                    }
                }
            }
        }
    }
}

/// A place to sign.
pub fn signature() -> Markup {
    html! { p.signature { span { (words::SIGN) } span.line {} } }
}

/// The caution that ends everything.
pub fn caution() -> Markup {
    html! { p.caution { strong { (words::NOT_A_CERTIFICATE) } " " (report::CAUTION) } }
}

/// What stands above every sheet and drawing.
pub fn heading(head: &Head, id: &str, title: &str, shows: &str, purpose: &str) -> Markup {
    html! {
        header.heading {
            @if head.not_for_construction { p.across { (words::NOT_FOR_CONSTRUCTION) } }
            h2 id=(format!("h-{id}")) { (title) @if !shows.is_empty() { span.shows { " " (typed(shows)) } } }
            p.purpose { (purpose) }
            p.of {
                (typed(&head.build)) " · " (typed(&head.vehicle)) " · " (words::REVISION) " " (typed(&head.revision))
                " · " (words::DATE) " " (head.date.to_string())
            }
        }
    }
}

/// What stands below every sheet and drawing.
pub fn ending(head: &Head, file: &str, file_words: &str) -> Markup {
    html! {
        footer.ending {
            p.of {
                (counts(head)) ". " (words::PACKS) " " (typed(&head.packs_in_a_line())) ". " (words::HASH) " " (head.short_hash()) ". "
                a.screen href=(file) { (file_words) } " " a.screen href="#contents" { (words::TOP) }
            }
            (signature())
            (caution())
        }
    }
}

/// What a reader of a table must know: notes, sources, what would settle what is not known.
pub fn notes(sheet: &Sheet, settle: &[String]) -> Markup {
    let assumed = sheet.rows.iter().flat_map(|row| &row.cells).any(|cell| cell.assumed);
    let mut notes = sheet.notes.clone();
    if assumed {
        notes.push(words::ASSUMED_NOTE.to_owned());
    }
    html! {
        @if !notes.is_empty() {
            div.notes { h3 { (words::NOTES) } ul { @for note in &notes { li { (typed(note)) } } } }
        }
        @if !settle.is_empty() {
            div.notes.settle {
                h3 { (words::SETTLE) }
                ol { @for one in settle { li { (typed(one)) } } }
            }
        }
        @if !sheet.sources.is_empty() {
            div.notes { h3 { (words::SOURCES) } ul { @for source in &sheet.sources { li { (typed(source)) } } } }
        }
    }
}
