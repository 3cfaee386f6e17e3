//! What is known of what stands at a position: the findings there, the property, and the part with its facts.

use crate::check::{Checked, Sort, Surroundings};
use crate::reading::{Reading, bytes, holds};
use crate::state::State;
use design::{Build, CaseId, PartId, Reader};
use rules::finding::{Finding, Outcome};
use rules::review::fact_used;
use std::collections::BTreeSet;
use tower_lsp::lsp_types::{Hover, HoverContents, MarkupContent, MarkupKind, Position, Url};
use vocabulary::{Absent, FactSpec, Family};

/// The most facts that a hover shows of a part.
const MOST_FACTS: usize = 8;

/// The most lines of working that a hover shows of a fact: the command `working` tells all of it.
const MOST_STEPS: usize = 3;

/// A page that is Markdown, or the same as plain text.
struct Page {
    markdown: bool,
    blocks: Vec<String>,
}

impl Page {
    fn strong(&self, text: &str) -> String {
        let text = report::visible(text);
        if self.markdown { format!("**{}**", escaped(&text)) } else { text.into_owned() }
    }

    fn text(&self, text: &str) -> String {
        let text = report::visible(text);
        if self.markdown { escaped(&text) } else { text.into_owned() }
    }

    fn code(&self, text: &str) -> String {
        let text = report::visible(text);
        if self.markdown { format!("`{}`", text.replace('`', "'")) } else { text.into_owned() }
    }

    fn bullet(&self) -> &'static str {
        if self.markdown { "- " } else { "  " }
    }
}

/// Text without the marks by which Markdown would read it otherwise.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in text.chars() {
        if matches!(letter, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '|') {
            escaped.push('\\');
        }
        escaped.push(letter);
    }
    escaped
}

/// The hover at a position.
pub fn hover(state: &State, surroundings: &Surroundings, url: &Url, position: Position) -> Option<Hover> {
    if Sort::of(url) == Some(Sort::Rules) {
        return crate::rule_files::hover(state, surroundings, url, position);
    }
    let reading = Reading::of(state, surroundings, url)?;
    let byte = reading.byte(state, position)?;
    let mut page = Page { markdown: state.client.markdown, blocks: Vec::new() };
    let around = reading.around(byte);
    let part = around.last().copied();
    let current = state.current(url);
    let found = current.is_some_and(|(_, checked)| findings(&mut page, checked, url, byte));
    let mut range = None;
    if let Some(part) = part {
        let own = |given: &&spec::Given| given.via.is_none() && given.at.file == reading.file && holds(&given.at, byte);
        if let Some(given) = part.given.iter().find(own) {
            property(&mut page, vocabulary::fact_spec(given.fact));
            range = reading.location(state, &given.at).map(|at| at.range);
        } else if let Some(spec) =
            word_at(&reading, part, byte).and_then(|word| vocabulary::part(part.kind).fact(&word))
        {
            property(&mut page, spec);
        } else if holds(&part.head, byte) {
            range = reading.location(state, &part.head).map(|at| at.range);
        }
        if holds(&part.head, byte) {
            about_part(&mut page, part);
            // A finding tells the facts that decide it; more of them beside it hide it.
            if let Some((_, checked)) = current.filter(|_| !found) {
                facts(&mut page, checked, url, part);
            }
        }
    }
    if page.blocks.is_empty() {
        return None;
    }
    let kind = if page.markdown { MarkupKind::Markdown } else { MarkupKind::PlainText };
    let value = page.blocks.join("\n\n");
    Some(Hover { contents: HoverContents::Markup(MarkupContent { kind, value }), range })
}

/// The plain word that a byte lies in.
fn word_at(reading: &Reading, part: &spec::Part, byte: u32) -> Option<String> {
    let text = &reading.spec.files.get(part.at.file as usize)?.text;
    let at = byte as usize;
    let is_word = |letter: char| letter.is_alphanumeric() || letter == '-';
    let start =
        text.get(..at)?.char_indices().rev().take_while(|(_, letter)| is_word(*letter)).last().map_or(at, |(at, _)| at);
    let end = at + text.get(at..)?.chars().take_while(|letter| is_word(*letter)).map(char::len_utf8).sum::<usize>();
    text.get(start..end).filter(|word| !word.is_empty()).map(str::to_owned)
}

/// Adds the findings at a place; says whether there is one that failed.
fn findings(page: &mut Page, checked: &Checked, url: &Url, byte: u32) -> bool {
    let Some(file) = checked.file(url) else { return false };
    let mut failed = false;
    let here = |finding: &&Finding| {
        finding.place.file == file
            && finding.place.bytes.start <= byte as usize
            && byte as usize <= finding.place.bytes.end
    };
    for finding in checked.review.failed.iter().chain(&checked.review.undecided).filter(here) {
        let undecided = matches!(finding.outcome, Outcome::Undecided { .. });
        failed |= !undecided;
        let mut lines = vec![page.strong(&format!(
            "{}{}",
            finding.signal.word().to_uppercase(),
            if undecided { ", cannot be told yet" } else { "" }
        ))];
        // What is wrong and what to do stands in the diagnostic, which editors show above the hover.
        if let Outcome::Undecided { missing } = &finding.outcome {
            for missing in missing {
                lines.push(format!("{}write {}", page.bullet(), page.text(&missing.alternatives.join(" or "))));
            }
        }
        lines.push(page.text(&finding.why));
        if !undecided {
            lines.push(format!("Do this: {}", page.text(&report::sentence(&finding.remedy))));
            for fact in &finding.facts {
                let value = fact.value.as_deref().unwrap_or("unknown");
                lines.push(format!(
                    "{}{} {}",
                    page.bullet(),
                    page.text(&format!("{} of {}:", fact.fact, fact.part)),
                    page.text(value)
                ));
                for step in fact.working.iter().filter(|step| step.depth == 0).take(MOST_STEPS) {
                    let source = step.source.as_ref().map_or(String::new(), |source| format!(" [{source}]"));
                    let indent = if page.markdown { "  - " } else { "      " };
                    lines.push(format!("{indent}{}", page.text(&format!("{}{source}", step.text))));
                }
            }
        }
        for source in &finding.sources {
            lines.push(format!(
                "{}{}",
                page.bullet(),
                page.text(&format!("{} ({})", report::source(source), source.mark.word()))
            ));
        }
        if let Some(caution) = &finding.caution {
            lines.push(format!("Caution: {}", page.text(caution)));
        }
        lines.push(page.code(&finding.rule));
        page.blocks.push(lines.join(if page.markdown { "  \n" } else { "\n" }));
    }
    failed
}

fn property(page: &mut Page, spec: &FactSpec) {
    let absence = match spec.absent {
        Absent::Required => "It must be written.".to_owned(),
        Absent::Unknown => "Left out, it is not known, and checks that need it stay undecided.".to_owned(),
        Absent::Means(value) => format!("Left out, it means {value}."),
        Absent::Assume { value, source, mark } => format!("Left out, {value} is assumed ({source}; {mark})."),
    };
    let mut lines = vec![format!("{}: {}", page.strong(spec.name), page.text(spec.help)), page.text(&absence)];
    if !spec.example.is_empty() {
        lines.push(format!("Example: {}", page.code(&format!("{}=\"{}\"", spec.name, spec.example))));
    }
    let units = crate::units::of(spec.kind);
    if !units.is_empty() {
        lines.push(format!("In: {}", page.text(&units.join(", "))));
    }
    let choices = spec.choices();
    if !choices.is_empty() {
        lines.push(format!("One of: {}", page.text(&choices.join(", "))));
    }
    page.blocks.push(lines.join(if page.markdown { "  \n" } else { "\n" }));
}

fn about_part(page: &mut Page, part: &spec::Part) {
    let spec = vocabulary::part(part.kind);
    let mut text = format!("{}: {}", page.strong(spec.word), page.text(spec.help));
    if !spec.also.is_empty() {
        text.push_str(&page.text(&format!(" Also called {}.", spec.also.join(", "))));
    }
    page.blocks.push(text);
}

/// The worked-out facts of a part and of what the linker made of it, with their working.
fn facts(page: &mut Page, checked: &Checked, url: &Url, part: &spec::Part) {
    let Some(file) = checked.file(url) else { return };
    let build = &checked.build;
    let mut reader = Reader::new(build);
    let mut lines = Vec::new();
    // What was worked out for one fact is not told again for the next.
    let mut shown: BTreeSet<String> = BTreeSet::new();
    for id in made_of(build, file, part) {
        let spec = vocabulary::part(build.part(id).kind);
        for fact in spec.facts().iter().filter(|fact| !fact.given) {
            if lines.len() >= MOST_FACTS {
                break;
            }
            let used = fact_used(&mut reader, id, fact.id, CaseId(0), checked.review.units);
            let Some(value) = used.value.filter(|value| !value.is_empty()) else { continue };
            if used.number.is_none_or(|number| number >= f64::MAX) {
                continue;
            }
            let outer = used.working.iter().filter(|step| step.depth == 0).map(|step| step.text.as_str());
            let working: Vec<&str> = outer.filter(|text| shown.insert((*text).to_owned())).take(MOST_STEPS).collect();
            let how = if working.is_empty() { String::new() } else { format!(" ({})", working.join("; ")) };
            lines.push(format!("{}{}", page.bullet(), page.text(&format!("{} {value}{how}", fact.name))));
        }
    }
    if !lines.is_empty() {
        page.blocks.push(lines.join("\n"));
    }
}

/// The part of the build that is written here, and those that the linker made of it: its run, conductors and devices.
fn made_of(build: &Build, file: usize, part: &spec::Part) -> Vec<PartId> {
    let range = bytes(&part.at);
    build
        .parts()
        .filter(|(_, own)| own.whole.file as usize == file && bytes(&own.whole) == range)
        .filter(|(_, own)| {
            let family = vocabulary::part(own.kind).family;
            let word = vocabulary::part(own.kind).word;
            // The modes that a build has by itself stand at what they are about, and would crowd it out.
            let own_mode = word != "operating-mode" || part.kind == vocabulary::kind::MODE;
            family != Family::Worked || !matches!(word, "run-end" | "system" | "floor-thing") && own_mode
        })
        .map(|(id, _)| id)
        .collect()
}
