//! The tutorial does what it says: every change and every command of it, with the real program.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use workshop::Workshop;

const TUTORIAL: &str = include_str!("tutorial/first-build.md");

/// The file that grows.
const SPEC: &str = "plover.build.kdl";

/// The fenced blocks: what stands behind the fence, and the text.
fn blocks(text: &str) -> Vec<(String, String)> {
    let mut blocks = Vec::new();
    let mut open: Option<(String, String)> = None;
    for line in text.lines() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(info)) => open = Some((info.to_owned(), String::new())),
            (Some(_), Some("")) => blocks.extend(open.take()),
            (Some((_, inside)), _) => {
                inside.push_str(line);
                inside.push('\n');
            }
            (None, None) => {}
        }
    }
    assert!(open.is_none(), "the last block is closed");
    blocks
}

/// The words of a command as a shell splits them.
fn words(command: &str) -> Vec<&str> {
    command
        .split('"')
        .enumerate()
        .flat_map(|(index, piece)| if index % 2 == 1 { vec![piece] } else { piece.split_whitespace().collect() })
        .collect()
}

/// Asserts that the lines which are shown are printed, in this order, whole, and one after the other where no `…` stands.
fn assert_shown(shown: &str, printed: &str, command: &str) {
    let printed: Vec<&str> = printed.trim_end().lines().collect();
    let mut at = 0;
    let mut gap = false;
    for piece in shown.trim_end().split_inclusive('\n') {
        let line = piece.trim_end_matches('\n');
        if line == "…" {
            gap = true;
            continue;
        }
        let found = if gap { printed[at..].iter().position(|other| *other == line) } else { Some(0) };
        at += found.unwrap_or(0);
        assert!(
            found.is_some() && printed.get(at) == Some(&line),
            "`{command}` does not print, where the tutorial shows it:\n{line}\nIt prints:\n{}",
            printed.join("\n")
        );
        at += 1;
        gap = false;
    }
    assert!(gap || at == printed.len(), "`{command}` prints more than the tutorial shows:\n{}", printed.join("\n"));
}

#[test]
fn every_step_does_what_is_shown() {
    let shop = Workshop::new();
    let mut spec = String::new();
    let mut wanted: Option<String> = None;
    let (mut commands, mut changes) = (0, 0);
    for (info, text) in blocks(TUTORIAL) {
        let mut info = info.split_whitespace();
        match (info.next().unwrap_or_default(), info.next().unwrap_or_default()) {
            ("kdl", "write") => spec = text,
            ("kdl", "add") => spec.push_str(&text),
            ("kdl", "find") => {
                assert_eq!(spec.matches(&text).count(), 1, "the tutorial can tell where to change:\n{text}");
                wanted = Some(text);
                continue;
            }
            ("kdl", "instead") => spec = spec.replace(&wanted.take().expect("what to find"), &text),
            ("console", status) => {
                let (first, shown) = text.split_once('\n').expect("a command");
                let command = first.strip_prefix("$ coachwright ").expect("a command of this program");
                let ran = shop.run(&words(command));
                assert_eq!(format!("status={}", ran.status), status, "{command}: {}{}", ran.out, ran.err);
                assert_eq!(ran.err, "", "{command}");
                assert_shown(shown, &ran.out, command);
                if let Some(gone) = info.next().and_then(|info| info.strip_prefix("without=")) {
                    assert!(!ran.out.contains(gone), "{command} prints {gone}: {}", ran.out);
                }
                commands += 1;
                continue;
            }
            other => unreachable!("a block of another sort: {other:?}"),
        }
        assert_eq!(spec::text::tidy(&spec).as_ref(), Ok(&spec), "what a beginner copies is laid out well");
        shop.write(SPEC, &spec);
        changes += 1;
    }
    assert_eq!(TUTORIAL.matches("\n## ").count(), 8, "eight steps");
    assert!(commands >= 8 && changes >= 8, "{commands} commands and {changes} changes");
}

#[test]
fn commands_in_the_text_are_commands() {
    let shop = Workshop::new();
    for command in TUTORIAL.split("`coachwright ").skip(1).filter_map(|rest| rest.split('`').next()) {
        let ran = shop.run(&words(command));
        assert_eq!(ran.status, 0, "{command}: {}", ran.err);
    }
}

#[test]
fn what_is_shown_must_be_printed() {
    for (shown, printed, same) in [
        ("a\nb\n", "a\nb\n", true),
        ("a\n…\nc\n", "a\nb\nc\n", true),
        ("…\nc\n…\n", "a\nb\nc\nd\n", true),
        ("a\nc\n", "a\nb\nc\n", false),
        ("…\nc\n…\nb\n…\n", "a\nb\nc\n", false),
        ("a\n", "a\nb\n", false),
        ("a\nb\n", "a\n", false),
        ("…\nb\n", "a\nbb\n", false),
    ] {
        let result = std::panic::catch_unwind(|| assert_shown(shown, printed, "x"));
        assert_eq!(result.is_ok(), same, "{shown:?} of {printed:?}");
    }
}
