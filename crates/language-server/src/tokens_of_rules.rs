//! What the words of a rule file are.

use crate::tokens::{Class, Marks};
use spec::text::{Node, Unread};

/// Marks the words of a rule file.
pub fn mark(marks: &mut Marks, nodes: &[Node]) {
    for node in nodes {
        if node.unread != Unread::Itself {
            line(marks, node);
        }
        // The depth of a tree is bounded, so this recursion is too.
        mark(marks, &node.children);
    }
}

fn line(marks: &mut Marks, node: &Node) {
    marks.put(&node.name.at, Class::Word);
    let word = &*node.name.text;
    let mut arguments = 0;
    for entry in &node.entries {
        let class = match &entry.key {
            None => {
                arguments += 1;
                argument(word, arguments)
            }
            Some(key) => {
                marks.put(&key.at, Class::Property);
                property(word, &key.text)
            }
        };
        match class {
            Some(class) => marks.put(&entry.value_at, class),
            None => marks.plain(entry),
        }
    }
}

/// What the first, second, … argument of a line is, where its looks do not say it.
fn argument(word: &str, number: usize) -> Option<Class> {
    match (word, number) {
        ("rule" | "fixture" | "value", 1) => Some(Class::Definition),
        ("follows" | "once-per", 1) => Some(Class::Reference),
        ("rule" | "example", 2) => Some(Class::Choice),
        ("classes", _) => Some(Class::Choice),
        ("mend", 1) => Some(Class::Word),
        _ => None,
    }
}

/// What the value of a property is.
fn property(word: &str, key: &str) -> Option<Class> {
    match (word, key) {
        ("value", "any" | "us" | "eu" | "uk" | "au-nz") => Some(Class::Quantity),
        ("rule", "about") | ("example", "on" | "missing") => Some(Class::Reference),
        ("rule", "found") | ("example", "basis") | ("source", "mark" | "regions") | ("impossible", "side") => {
            Some(Class::Choice)
        }
        ("value", "dimension") | ("mend", _) => Some(Class::Choice),
        _ => None,
    }
}
