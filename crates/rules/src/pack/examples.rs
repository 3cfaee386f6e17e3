//! The examples of a rule, the pairs that it declares impossible, and whether it has examples enough.

use super::form::{Reader, all, argument, place, property_text};
use super::sheet::{Action, Example, Expected, Impossible, Sheet, ShownByTest, Step};
use crate::signal::Region;
use spec::text::{Node, Unread};
use std::collections::HashSet;
use std::ops::Range;
use vocabulary::nearest;

/// Examples that a rule with a threshold needs: one that fails, one that holds, the other side of the threshold, one open.
const FEWEST_WITH_THRESHOLD: usize = 4;

/// Reads the examples of a rule.
pub(super) fn read(reader: &mut Reader, rule: &Node) -> Vec<Example> {
    let mut examples: Vec<Example> = Vec::new();
    let mut titles = HashSet::new();
    for node in all(rule, "example") {
        let (Some((title, at)), Some((verdict, verdict_at))) = (argument(node, 0), argument(node, 1)) else {
            continue;
        };
        if !titles.insert(title) {
            reader.fault(at.clone(), format!("the example \"{title}\" stands twice"), "Say what differs.");
        }
        let expected = Expected::from_word(verdict);
        if expected.is_none() {
            reader.unknown(verdict_at, "verdict", verdict, &Expected::ALL.map(Expected::word));
        }
        let basis = property_text(node, "basis").and_then(|(word, at)| {
            let region = Region::from_word(word);
            if region.is_none() {
                let known: Vec<&str> = Region::ALL.iter().map(|region| region.word()).collect();
                reader.unknown(at, "region", word, &known);
            }
            region
        });
        let missing = property_text(node, "missing").map(|(name, at)| (name.to_owned(), at));
        if let Some((name, at)) = &missing {
            if expected != Some(Expected::Open) {
                let help = "Take it away, or expect `open`.";
                reader.fault(at.clone(), "`missing=` is for an example that stays open", help);
            }
            let facts = vocabulary::facts().iter().map(|fact| fact.name);
            let parts = vocabulary::parts().iter().map(|part| part.word);
            let known: Vec<&str> = facts.chain(parts).collect();
            if !known.contains(&name.as_str()) {
                let help = match nearest(name, known) {
                    Some(near) => format!("Did you mean `{near}`?"),
                    None => "Name a property or a part kind that a builder can write.".to_owned(),
                };
                reader.fault(at.clone(), format!("no property and no part kind is called `{name}`"), help);
            }
        }
        let on = property_text(node, "on").map(|(name, _)| name.to_owned());
        let steps = steps(node);
        if on.is_none() && node.unread == Unread::No && !steps.iter().any(|step| matches!(step.action, Action::Add(_)))
        {
            let help = "Say `on=` with a fixture, or `add` the whole text.";
            reader.fault(at.clone(), "the example has no text", help);
        }
        let Some(expected) = expected else { continue };
        examples.push(Example { title: title.to_owned(), at, expected, on, basis, missing, steps });
    }
    examples
}

fn steps(example: &Node) -> Vec<Step> {
    let mut steps = Vec::new();
    for node in example.children.iter().filter(|child| child.unread != Unread::Itself) {
        let Some((text, at)) = argument(node, 0) else {
            continue;
        };
        let text = text.to_owned();
        let action = match &*node.name.text {
            "change" => match property_text(node, "to") {
                Some((to, _)) => Action::Change { from: text, to: to.to_owned() },
                None => continue,
            },
            "remove" => Action::Remove(text),
            "add" => Action::Add(text),
            _ => continue,
        };
        steps.push(Step { action, at });
    }
    steps
}

/// Every `change` says what takes the place.
pub(super) fn check_changes(reader: &mut Reader, rule: &Node) {
    for node in all(rule, "example").flat_map(|example| all(example, "change")) {
        if property_text(node, "to").is_none() {
            let help = "It is written `change \"80 A\" to=\"125 A\"`.";
            reader.fault(place(&node.name.at), "`change` does not say what to", help);
        }
    }
}

/// What is found while reading is found or not: nothing is open in it.
pub(super) fn check_found(reader: &mut Reader, examples: &[Example]) {
    for example in examples.iter().filter(|each| matches!(each.expected, Expected::Open | Expected::NotApplicable)) {
        let message = "an example of what is found while reading either fails or holds";
        reader.fault(example.at.clone(), message, "Write `fails` or `holds`.");
    }
}

/// The test that stands in for an example, where no text can bring what the rule finds.
pub(super) fn shown_by_test(
    reader: &mut Reader,
    rule: &Node,
    found_while_reading: bool,
    examples: &[Example],
) -> Option<ShownByTest> {
    let line = all(rule, "shown-by-test").next()?;
    let at = place(&line.name.at);
    if !found_while_reading {
        let message = "only what is found while reading can be beyond an example";
        reader.fault(at, message, "Write an example that fails instead.");
        return None;
    }
    if examples.iter().any(|example| example.expected == Expected::Fails) {
        let message = "an example of the rule fails, so that it needs no test to show it";
        reader.fault(at, message, "Take `shown-by-test` away.");
        return None;
    }
    let (test, test_at) = argument(line, 0)?;
    let Some((file, _)) = property_text(line, "in") else {
        let help = "Add `in=` with the file of the test, from the top of the repository.";
        reader.fault(at, "`shown-by-test` does not say where the test is", help);
        return None;
    };
    Some(ShownByTest { test: test.to_owned(), file: file.to_owned(), at: test_at })
}

/// Whether the rule has examples enough to be judged by.
pub(super) fn check_enough(
    reader: &mut Reader,
    examples: &[Example],
    at: &Range<usize>,
    found_while_reading: bool,
    threshold: bool,
) {
    let needed: &[Expected] = match found_while_reading {
        true => &[Expected::Fails],
        false => &[Expected::Fails, Expected::Holds, Expected::Open],
    };
    let lacking: Vec<&str> = needed
        .iter()
        .filter(|expected| !examples.iter().any(|example| example.expected == **expected))
        .map(|expected| expected.word())
        .collect();
    if !lacking.is_empty() {
        let message = format!("the rule has no example that is: {}", lacking.join(", "));
        reader.fault(at.clone(), message, "Add `example \"what it shows\" fails on=\"fixture\" { … }`.");
    } else if threshold && !found_while_reading && examples.len() < FEWEST_WITH_THRESHOLD {
        let message = "the rule has a threshold and too few examples: both sides of it need one";
        reader.fault(at.clone(), message, "Add examples just below and just above the threshold.");
    }
}

/// Reads what a rule declares impossible.
pub(super) fn impossible(reader: &mut Reader, rule: &Node) -> Vec<Impossible> {
    let mut found = Vec::new();
    for node in all(rule, "impossible") {
        let Some((condition, at)) = argument(node, 0) else {
            continue;
        };
        let reason = property_text(node, "reason").map(|(reason, _)| reason.trim().to_owned()).unwrap_or_default();
        if reason.is_empty() {
            reader.fault(at.clone(), "`impossible` gives no reason", "Add `reason=`: why no build can show it.");
        }
        let side = match property_text(node, "side") {
            None => None,
            Some(("yes", _)) => Some(true),
            Some(("no", _)) => Some(false),
            Some((word, at)) => {
                reader.unknown(at, "side", word, &["yes", "no"]);
                None
            }
        };
        found.push(Impossible { condition: condition.to_owned(), side, reason, at });
    }
    found
}

/// Every example starts from a fixture of its own file.
pub(super) fn check_fixtures(reader: &mut Reader, rules: &[Node], sheet: &Sheet) {
    let known: Vec<&str> = sheet.fixtures.iter().map(|fixture| fixture.name.as_str()).collect();
    for example in rules.iter().flat_map(|rule| all(rule, "example")) {
        let Some((name, at)) = property_text(example, "on") else {
            continue;
        };
        if !known.contains(&name) {
            let help = match nearest(name, known.iter().copied()) {
                Some(near) => format!("Did you mean \"{near}\"?"),
                None if known.is_empty() => "The file has no fixture: add `fixture \"name\" #\"…\"#`.".to_owned(),
                None => format!("The file has: {}.", known.join(", ")),
            };
            reader.fault(at, format!("no fixture is called \"{name}\""), help);
        }
    }
}
