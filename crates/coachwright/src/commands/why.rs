//! `why`: a rule, its sources and its examples.

use super::{complain_unknown, nearest};
use crate::command_line::Why;
use crate::engine;
use crate::output::Output;
use crate::status::Status;
use report::{RulePage, Style};
use rules::Rule;
use rules::pack::{Packs, read_sheet};
use std::collections::BTreeMap;
use vocabulary::PartKind;

/// Explains a rule, or lists those of a domain; without a name, lists them all.
pub fn run(arguments: &Why, style: Style, output: &mut Output) -> Status {
    let packs = match engine::shipped() {
        Ok(packs) => packs,
        Err(fault) => {
            output.complain(&fault);
            return Status::Unable;
        }
    };
    let domains = domains(packs);
    let Some(name) = &arguments.rule else {
        output.print(&list(&domains, style));
        output.print(TURN);
        return Status::Done;
    };
    // A domain is asked for as it is listed, or as it begins the names of its rules.
    if let Some((domain, rules)) = domains.get_key_value(name.trim_end_matches('/')) {
        output.print(&list(&BTreeMap::from([(*domain, rules.clone())]), style));
        return Status::Done;
    }
    match packs.rule(name).and_then(|rule| page(rule, style)) {
        Some(page) => {
            output.print(&page);
            Status::Done
        }
        None => {
            // A word out of a rule's name is a better guess than a domain that is spelt a little like it.
            let mut near = nearest(name, packs.rules.iter().map(|rule| rule.name.as_str()));
            if near.is_empty() {
                near = nearest(name, domains.keys().copied());
            }
            let look = "`coachwright why` without a name lists every rule.";
            complain_unknown("rule or domain", name, &near, look, output);
            Status::Unable
        }
    }
}

/// What to do with the list.
const TURN: &str =
    "\nA rule with its sources and examples: coachwright why NAME. The rules of a domain: coachwright why DOMAIN.\n";

/// The rules by domain, in the order of the alphabet; in each, the worst signal word first.
fn domains(packs: &Packs) -> BTreeMap<&str, Vec<&Rule>> {
    let mut domains: BTreeMap<&str, Vec<&Rule>> = BTreeMap::new();
    for rule in &packs.rules {
        let domain = rule.name.split('/').next().unwrap_or_default();
        domains.entry(domain).or_default().push(rule);
    }
    for rules in domains.values_mut() {
        rules.sort_by(|one, other| other.signal.cmp(&one.signal).then_with(|| one.name.cmp(&other.name)));
    }
    domains
}

/// A list of domains and their rules, each with its signal word and its title.
fn list(domains: &BTreeMap<&str, Vec<&Rule>>, style: Style) -> String {
    let mut text = String::new();
    for (domain, rules) in domains {
        if !text.is_empty() {
            text.push('\n');
        }
        let count = if rules.len() == 1 { String::from("1 rule") } else { format!("{} rules", rules.len()) };
        text.push_str(&format!("{}: {count}\n", report::visible(domain)));
        let columns = rules.iter().map(|rule| rule.name.chars().count()).max().unwrap_or_default();
        for rule in rules {
            let (name, title) = (report::visible(&rule.name), report::visible(&rule.title));
            text.push_str(&match style {
                Style::Terminal(_) => format!("  {name:columns$}  {:SIGNAL$}  {title}\n", rule.signal.word()),
                Style::Plain => format!("{name}, {}: {title}.\n", rule.signal.word()),
            });
        }
    }
    text
}

/// Columns of the longest signal word.
const SIGNAL: usize = 7;

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
