//! The README shows what the program really prints.

#![allow(clippy::expect_used, reason = "a test may stop where the repository is not as it must be")]

use std::path::Path;
use std::process::Command;

/// The root of the repository, where a reader of the README stands.
fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."))
}

fn printed(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_coachwright"))
        .args(arguments)
        .args(["--colour", "never"])
        .env_remove("COLUMNS")
        .current_dir(root())
        .output()
        .expect("the program starts");
    String::from_utf8(output.stdout).expect("the output is UTF-8")
}

/// The blocks of output that the README shows, in order.
fn shown() -> Vec<String> {
    let readme = std::fs::read_to_string(root().join("README.md")).expect("the README is there");
    readme.split("```text\n").skip(1).filter_map(|rest| rest.split("\n```").next().map(str::to_owned)).collect()
}

#[test]
fn the_tour_shows_real_output() {
    let blocks = shown();
    let commands: [&[&str]; 2] = [
        &["review", "tests/builds/bramble-faulty.build.kdl", "--today", "2026-11-25"],
        &["working", "tests/builds/bramble.build.kdl", "house"],
    ];
    assert_eq!(blocks.len(), commands.len());
    for (block, command) in blocks.iter().zip(commands) {
        let printed = printed(command);
        for piece in block.split("\n…\n") {
            assert!(printed.contains(piece), "`coachwright {}` does not print:\n{piece}", command.join(" "));
        }
    }
}

#[test]
fn the_first_paragraph_states_the_job() {
    let readme = std::fs::read_to_string(root().join("README.md")).expect("the README is there");
    let paragraph = readme.split("\n\n").nth(1).unwrap_or_default();
    for word in ["checks", "specification", "vehicle conversion", "source"] {
        assert!(paragraph.contains(word), "{word} is missing in: {paragraph}");
    }
}
