//! One self-contained page: it opens from a stick without a network, prints, and works without script.

use super::front::{ending, first, heading, notes, typed};
use super::rows::{Homes, table};
use super::svg::inline;
use super::{FOLDER_DRAWINGS, FOLDER_TABLES};
use crate::Packet;
use crate::sheet::Form;
use crate::system::System;
use crate::words::page as words;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use rules::Signal;

/// The style of the page.
pub(super) const STYLE: &str = include_str!("page.css");
/// What searches, sorts and filters; the page says everything without it.
const SCRIPT: &str = include_str!("page.js");

/// A packet as a page.
pub fn html(packet: &Packet) -> String {
    let head = &packet.head;
    let homes = Homes::of(packet);
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                // Nothing is loaded and nothing is sent, whatever a name in the specification holds.
                meta http-equiv="Content-Security-Policy"
                    content="default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";
                meta name="referrer" content="no-referrer";
                meta name="generator" content=(head.program);
                // An empty icon of its own: browsers would ask for one otherwise.
                link rel="icon" href="data:,";
                title { (report::visible(&head.build)) ", " (words::PACKET) }
                style { (PreEscaped(STYLE)) }
            }
            body class=[head.not_for_construction.then_some("stopped")] {
                a.skip href="#first" { (words::SKIP) }
                (tools())
                main {
                    (first(packet))
                    @for (number, sheet) in packet.sheets.iter().enumerate() {
                        @let (rows, settle) = table(packet, sheet, number, &homes);
                        section.paper.(if sheet.form == Form::Card { "large" } else { "wide" }) id=(sheet.id) aria-labelledby=(format!("h-{}", sheet.id)) {
                            (heading(head, sheet.id, sheet.title, "", sheet.purpose))
                            (rows)
                            (notes(sheet, &settle))
                            (ending(head, &format!("{FOLDER_TABLES}/{}.csv", sheet.id), words::TABLE_FILE))
                        }
                    }
                    @for drawing in &packet.drawings {
                        section.paper.drawn id=(drawing.id) aria-labelledby=(format!("h-{}", drawing.id)) {
                            (heading(head, &drawing.id, drawing.title, &drawing.part_title, drawing.purpose))
                            div.scroll tabindex="0" role="region" aria-label=(format!("{}, {}, {}", drawing.title, report::visible(&drawing.part_title), words::SCROLL)) {
                                (PreEscaped(inline(drawing, packet, &|part| homes.has(part))))
                            }
                            @for note in &drawing.notes { p.note { (typed(note)) } }
                            (ending(head, &format!("{FOLDER_DRAWINGS}/{}.svg", drawing.id), words::DRAWING_FILE))
                        }
                    }
                    (specification(packet))
                }
                script { (PreEscaped(SCRIPT)) }
            }
        }
    };
    page.into_string()
}

/// The search and the filters: shown by the script, since they do nothing without it.
fn tools() -> Markup {
    html! {
        form.tools.screen #tools role="search" aria-label=(words::FILTERS) hidden {
            label { (words::SEARCH) " " input #search type="search" placeholder=(words::SEARCH_HINT) autocomplete="off"; }
            label {
                (words::SYSTEM) " "
                select #system {
                    option value="" { (words::EVERY) }
                    @for system in System::ALL { option value=(system.word()) { (system.title()) } }
                }
            }
            label {
                (words::SIGNAL) " "
                select #signal {
                    option value="" { (words::EVERY) }
                    option value="any" { (words::ANY_SIGNAL) }
                    @for signal in Signal::ALL.iter().rev() { option value=(signal.word()) { (signal.word()) } }
                }
            }
            button #clear type="button" { (words::CLEAR) }
            button #print type="button" { (words::PRINT) }
            output #shown data-words=(words::ROWS_SHOWN) {}
            a href="#contents" { (words::TOP) }
        }
    }
}

/// The text that everything was made from, with a link to each of its lines.
fn specification(packet: &Packet) -> Markup {
    html! {
        section.paper.screen #specification aria-labelledby="h-specification" {
            h2 #h-specification { (words::SPECIFICATION) }
            p.purpose { (words::SPECIFICATION_INTRO) }
            @for (file, (name, text)) in packet.files.iter().enumerate() {
                details open[file == 0] {
                    summary { (typed(name.rsplit(['/', '\\']).next().unwrap_or_default())) }
                    div.scroll tabindex="0" role="region" aria-label=(format!("{}, {}", report::visible(name.rsplit(['/', '\\']).next().unwrap_or_default()), words::SCROLL)) {
                        ol.text {
                            @for (line, words) in text.lines().enumerate() {
                                li id=(format!("l{file}-{}", line + 1)) { code { (typed(&words.replace('\t', "    "))) } }
                            }
                        }
                    }
                }
            }
        }
    }
}
