//! `why`: a rule, its sources and its examples.

use super::{complain_unknown, nearest};
use crate::command_line::Why;
use crate::engine;
use crate::output::Output;
use crate::status::Status;
use report::{RulePage, Style};
use rules::pack::{Packs, read_sheet};
use rules::{Rule, Signal};
use vocabulary::PartKind;

/// Explains a rule; without a name, lists them all.
pub fn run(arguments: &Why, style: Style, output: &mut Output) -> Status {
    let packs = match engine::shipped() {
        Ok(packs) => packs,
        Err(fault) => {
            output.complain(&fault);
            return Status::Unable;
        }
    };
    let Some(name) = &arguments.rule else {
        output.print(&list(packs));
        return Status::Done;
    };
    match packs.rule(name).and_then(|rule| page(rule, style)) {
        Some(page) => {
            output.print(&page);
            Status::Done
        }
        None => {
            let near = nearest(name, packs.rules.iter().map(|rule| rule.name.as_str()));
            let look = "`coachwright why` without a name lists every rule.";
            complain_unknown("rule", name, &near, look, output);
            Status::Unable
        }
    }
}

/// Every rule, the worst signal word first.
fn list(packs: &Packs) -> String {
    let mut text = String::new();
    for signal in Signal::ALL.iter().rev() {
        let rules: Vec<&Rule> = packs.rules.iter().filter(|rule| rule.signal == *signal).collect();
        if rules.is_empty() {
            continue;
        }
        if !text.is_empty() {
            text.push('\n');
        }
        text.push_str(&format!("{}:\n", signal.word()));
        for rule in rules {
            text.push_str(&format!("  {}: {}\n", report::visible(&rule.name), report::visible(&rule.title)));
        }
    }
    text
}

/// A rule's page, with what only the text of its pack says.
pub fn page(rule: &Rule, style: Style) -> Option<String> {
    packs::texts().iter().filter(|(_, text)| text.contains(rule.name.as_str())).find_map(|(path, text)| {
        let (sheet, _) = read_sheet(path, text);
        let found = sheet.rules.iter().find(|found| found.rule.name == rule.name)?;
        let sentences = engine::sentences(text, &rule.name);
        Some(report::why(
            &RulePage {
                sheet: found,
                fixtures: &sheet.fixtures,
                about: vocabulary::part(PartKind(rule.about)).word,
                tell: &sentences.tell,
                remedy: &sentences.remedy,
            },
            style,
        ))
    })
}
