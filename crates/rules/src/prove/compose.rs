//! The text of an example: its fixture with the example's changes.

use crate::pack::{Action, Example, PackFault, Sheet};
use crate::signal::Region;
use spec::text::{BlockCache, Bytes, Node, Scalar, read};
use std::ops::Range;

/// The text of an example, with the basis that it or its rule's pack says.
///
/// # Errors
/// A text that is to be changed or removed does not stand there exactly once: then nobody can tell what was meant.
pub(super) fn compose(sheet: &Sheet, example: &Example, basis: Option<Region>) -> Result<String, PackFault> {
    let fixture = example.on.as_ref().and_then(|name| sheet.fixtures.iter().find(|fixture| fixture.name == *name));
    let mut text = fixture.map(|fixture| fixture.text.text.clone()).unwrap_or_default();
    for step in &example.steps {
        let (from, to) = match &step.action {
            Action::Change { from, to } => (from, to.as_str()),
            Action::Remove(from) => (from, ""),
            Action::Add(added) => {
                if !text.is_empty() && !text.ends_with('\n') {
                    text.push('\n');
                }
                text.push_str(added);
                continue;
            }
        };
        text = replace_once(&text, from, to).map_err(|(message, help)| PackFault {
            file: sheet.file.clone(),
            at: step.at.clone(),
            message,
            help,
        })?;
    }
    Ok(match basis {
        Some(region) if region != Region::Any => with_basis(text, region),
        _ => text,
    })
}

fn replace_once(text: &str, from: &str, to: &str) -> Result<String, (String, String)> {
    match text.matches(from).count() {
        _ if from.is_empty() => Err(("an empty text stands everywhere".to_owned(), "Write what is meant.".to_owned())),
        1 => Ok(text.replacen(from, to, 1)),
        0 => Err((
            format!("\"{from}\" does not stand in the text of the example"),
            "Write it exactly as the fixture has it; steps are taken in their order.".to_owned(),
        )),
        times => Err((
            format!("\"{from}\" stands {times} times in the text of the example"),
            "Take more of its line with it, so that it stands once.".to_owned(),
        )),
    }
}

/// The regions that a specification says it is built for.
pub(super) fn basis_of(text: &str) -> Vec<Region> {
    let document = read(text, &mut BlockCache::new());
    let Some(build) = document.nodes.iter().find(|node| &*node.name.text == BUILD) else {
        return Vec::new();
    };
    let written = written_basis(build);
    written.into_iter().filter_map(|(word, _)| Region::from_word(word)).collect()
}

const BUILD: &str = "build";
const BASIS: &str = "basis";

/// The words of a build's basis, as a property or as a line, with their places.
fn written_basis(build: &Node) -> Vec<(&str, Range<usize>)> {
    let line = build.children.iter().find(|child| &*child.name.text == BASIS);
    let of_line = line.into_iter().flat_map(|line| &line.entries).filter(|entry| entry.key.is_none());
    let keyed = build.entries.iter().filter(|entry| entry.key.as_ref().is_some_and(|key| &*key.text == BASIS));
    of_line
        .chain(keyed)
        .filter_map(|entry| match &entry.value {
            Scalar::Text(word) => Some((&**word, place(&entry.value_at))),
            _ => None,
        })
        .collect()
}

fn place(bytes: &Bytes) -> Range<usize> {
    bytes.start as usize..bytes.end as usize
}

/// The specification with another basis: facts may depend on it as figures do, so that an example for a region must say so
/// in its text too.
fn with_basis(mut text: String, region: Region) -> String {
    let document = read(&text, &mut BlockCache::new());
    let word = region.word();
    let Some(build) = document.nodes.iter().find(|node| &*node.name.text == BUILD) else {
        text.push_str(&format!("\n{BUILD} example {{ {BASIS} {word} }}\n"));
        return text;
    };
    let written = written_basis(build);
    let (at, with) = match (written.first(), written.last(), &build.block_at) {
        (Some((_, first)), Some((_, last)), _) => (first.start..last.end, word.to_owned()),
        (_, _, Some(block)) => {
            let inside = block.start as usize + 1;
            (inside..inside, format!(" {BASIS} {word}; "))
        }
        _ => {
            let end = build.at.end as usize;
            (end..end, format!(" {{ {BASIS} {word} }}"))
        }
    };
    if text.is_char_boundary(at.start) && text.is_char_boundary(at.end) {
        text.replace_range(at, &with);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_replaced_only_where_it_stands_once() {
        assert_eq!(replace_once("a 80 A b", "80 A", "125 A"), Ok("a 125 A b".to_owned()));
        for (from, message) in [("70 A", "does not stand"), ("A", "stands 2 times"), ("", "empty")] {
            let outcome = replace_once("80 A, 90 A", from, "x");
            assert!(outcome.is_err_and(|(told, _)| told.contains(message)), "{from}");
        }
    }

    #[test]
    fn the_basis_of_an_example_is_that_of_its_text() {
        for (text, expected) in [
            ("build Test { stage draft; basis eu uk }\n", "build Test { stage draft; basis us }\n"),
            ("build Test basis=eu\n", "build Test basis=us\n"),
            ("build Test {\n    stage draft\n}\n", "build Test { basis us; \n    stage draft\n}\n"),
            ("build Test\nzone cabin\n", "build Test { basis us }\nzone cabin\n"),
            ("zone cabin\n", "zone cabin\n\nbuild example { basis us }\n"),
        ] {
            let changed = with_basis(text.to_owned(), Region::Us);
            assert_eq!(changed, expected);
            assert_eq!(basis_of(&changed), [Region::Us], "{text}");
        }
        assert_eq!(basis_of("build Test { basis eu uk }"), [Region::Eu, Region::Uk]);
        assert_eq!(basis_of("build Test"), []);
    }
}
