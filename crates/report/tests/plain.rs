//! A review as a listener hears it.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod fixture;

use fixture::{clean, review};
use report::plain;
use rules::Signal;

#[test]
fn a_whole_review() {
    assert_eq!(plain(&review(), Signal::Warning), include_str!("expected/plain.txt"));
}

#[test]
fn nothing_is_drawn_and_nothing_is_coloured() {
    for review in [review(), clean()] {
        let text = plain(&review, Signal::Warning);
        let drawn = |character: char| ('\u{2500}'..='\u{25ff}').contains(&character) || character == '\u{1b}';
        assert!(!text.contains(drawn), "{text}");
        for line in text.lines().filter(|line| !line.is_empty() && !line.starts_with("The line reads")) {
            assert!(line.ends_with(['.', ':', '?']), "every line is a sentence: {line}");
            assert!(!line.starts_with(' '), "nothing is laid out by blanks: {line}");
        }
    }
}
