//! `packet`: what is written, what is left alone, and what is told.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use std::fs;
use workshop::{QUIET, Workshop};

/// A lamp on a battery without a fuse.
const DANGER: &str = "build Wren { stage review; }\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\"\nlamp bench power=\"18 W\"\n\
circuit feed from=house to=bench { wire size=\"1.5 mm2\" one-way=\"2 m\"; }\n";

/// Every name below a folder, sorted.
fn everything(workshop: &Workshop, folder: &str) -> Vec<String> {
    let mut names = Vec::new();
    let mut open = vec![workshop.path(folder)];
    while let Some(here) = open.pop() {
        for entry in fs::read_dir(here).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                open.push(path);
            } else {
                names.push(
                    path.strip_prefix(workshop.path(folder)).expect("below").to_string_lossy().replace('\\', "/"),
                );
            }
        }
    }
    names.sort();
    names
}

#[test]
fn a_packet_is_written_whole_and_its_status_says_whether_the_build_is_held() {
    for (text, status) in [(QUIET, 0), (DANGER, 1)] {
        let workshop = Workshop::new();
        workshop.write("wren.build.kdl", text);
        let ran =
            workshop.run(&["packet", "wren.build.kdl", "--to", "out", "--today", "2026-06-01", "--hold-at", "danger"]);
        assert_eq!(ran.status, status, "{}{}", ran.out, ran.err);
        let names = everything(&workshop, "out");
        for name in ["packet.html", "packet.json", "tables/about.csv", "tables/findings.csv"] {
            assert!(names.contains(&name.to_owned()), "{name} is not among {names:?}");
        }
        assert_eq!(workshop.names(), ["out", "wren.build.kdl"], "nothing is left over");
        assert_eq!(workshop.read("out/packet.html").contains("NOT FOR CONSTRUCTION</p>"), status == 1);
        assert!(ran.out.contains("packet.html"), "{}", ran.out);
    }
}

#[test]
fn a_packet_that_is_there_is_replaced_as_a_whole() {
    let workshop = Workshop::new();
    workshop.write("wren.build.kdl", DANGER);
    workshop.run(&["packet", "wren.build.kdl", "--to", "out"]);
    let before = everything(&workshop, "out");
    assert!(before.contains(&"tables/circuits.csv".to_owned()), "{before:?}");
    workshop.write("wren.build.kdl", QUIET);
    let ran = workshop.run(&["packet", "wren.build.kdl", "--to", "out", "--hold-at", "danger"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(
        !everything(&workshop, "out").contains(&"tables/circuits.csv".to_owned()),
        "what is no longer made is gone"
    );
    // An empty folder may be filled.
    fs::create_dir(workshop.path("empty")).expect("a folder");
    assert_eq!(workshop.run(&["packet", "wren.build.kdl", "--to", "empty", "--hold-at", "danger"]).status, 0);
    assert_eq!(workshop.names(), ["empty", "out", "wren.build.kdl"]);
}

#[test]
fn what_is_no_packet_is_left_alone() {
    // What stands there, and what is said.
    for (file, said) in [
        ("out", "there is a file of that name"),
        ("out/letter.txt", "something else than a packet"),
        ("out/packet.html", "something else than a packet"),
        ("out/packet.json", "something else than a packet"),
        ("out/tables/mine.txt", "something else than a packet"),
    ] {
        let workshop = Workshop::new();
        workshop.write("wren.build.kdl", QUIET).write(file, "{\"form\": \"a letter\"}");
        let ran = workshop.run(&["packet", "wren.build.kdl", "--to", "out"]);
        assert_eq!(ran.status, 2, "{file}: {}", ran.out);
        assert!(ran.err.contains(said), "{file}: {}", ran.err);
        assert_eq!(workshop.read(file), "{\"form\": \"a letter\"}", "{file}");
        assert_eq!(workshop.names(), ["out", "wren.build.kdl"], "{file}");
    }
    // A packet beside which somebody put something.
    let workshop = Workshop::new();
    workshop.write("wren.build.kdl", QUIET);
    workshop.run(&["packet", "wren.build.kdl", "--to", "out"]);
    workshop.write("out/letter.txt", "mine");
    assert_eq!(workshop.run(&["packet", "wren.build.kdl", "--to", "out"]).status, 2);
    assert_eq!(workshop.read("out/letter.txt"), "mine");
}

#[test]
fn what_cannot_be_written_or_read_is_told_and_nothing_is_half_written() {
    let workshop = Workshop::new();
    workshop.write("wren.build.kdl", QUIET);
    for (arguments, said) in [
        (vec!["packet", "wren.build.kdl", "--to", "nowhere/out"], "does not exist"),
        (vec!["packet", "none.build.kdl", "--to", "out"], "there is no such file"),
        (vec!["packet", "wren.build.kdl", "--to", "out", "--today", "1 June"], "2026-03-14"),
        (vec!["packet", "wren.build.kdl"], "--to"),
        (vec!["packet", "x.rules.kdl", "--to", "out"], "is a rule pack"),
    ] {
        let ran = workshop.run(&arguments);
        assert_eq!(ran.status, 2, "{arguments:?}");
        assert!(ran.err.contains(said), "{arguments:?}: {}", ran.err);
        assert_eq!(workshop.names(), ["wren.build.kdl"], "{arguments:?}");
    }
}

#[test]
fn without_a_chromium_the_pdf_is_told_of_and_nothing_is_written() {
    let workshop = Workshop::new();
    workshop.write("wren.build.kdl", QUIET);
    for (name, value) in [("CHROMIUM", "/nowhere/chromium"), ("CHROMIUM", "")] {
        let mut command = workshop.command(&["packet", "wren.build.kdl", "--to", "out", "--pdf"]);
        let ran = command.env(name, value).env("PATH", "/nowhere").output().expect("it runs");
        assert_eq!(ran.status.code(), Some(2));
        let said = String::from_utf8_lossy(&ran.stderr).into_owned();
        assert!(said.contains("Chromium") && said.contains("--pdf"), "{said}");
        assert_eq!(workshop.names(), ["wren.build.kdl"]);
    }
}
