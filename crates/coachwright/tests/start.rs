//! `start`, by the program itself: with options, and with answers to its questions.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use std::io::Write;
use std::process::Stdio;
use workshop::{Ran, Workshop};

const OPTIONS: &[&str] = &[
    "--name=Wren",
    "--vehicle=van",
    "--region=eu",
    "--voltage=12 V",
    "--chemistry=LFP",
    "--capacity=200 Ah",
    "--driving=yes",
    "--solar=no",
    "--inverter=1000 VA",
    "--shore=yes",
    "--gas=no",
    "--water=yes",
    "--heater=diesel",
    "--cooking=no",
    "--sleeps=2",
    "--toilet=no",
    "--seats=no",
];

/// The same answers, as someone types them.
const LINES: &str = "Wren\nvan\neu\n12 V\nLFP\n200 Ah\nyes\nno\n1000 VA\nyes\nno\nyes\ndiesel\nno\n2\nno\nno\n";

fn start(shop: &Workshop, arguments: &[&str], lines: &str) -> Ran {
    let mut child = shop
        .command(&[&["start"], arguments].concat())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    // A program that refuses its options does not read: that is no fault of this test.
    let _ = child.stdin.take().expect("a pipe").write_all(lines.as_bytes());
    workshop::ran(child.wait_with_output().expect("it ends"))
}

fn with<'a>(options: &[&'a str]) -> Vec<&'a str> {
    let named = |option: &&&str| !options.iter().any(|other| other.split('=').next() == option.split('=').next());
    [&OPTIONS.iter().filter(named).copied().collect::<Vec<_>>()[..], options].concat()
}

#[test]
fn a_draft_is_written_from_options() {
    let shop = Workshop::new();
    let ran = start(&shop, &with(&["--to=my.build.kdl"]), "");
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert_eq!(shop.names(), ["my.build.kdl"], "nothing else is left behind");
    let text = shop.read("my.build.kdl");
    for words in [
        "build Wren {",
        "battery house chemistry=LFP voltage=\"12.8 V\" capacity=\"200 Ah\"",
        "none gas cooking toilet travel-seats",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    // Every unknown entry is listed with its line and with what to look for.
    let listed = ran.out.lines().filter(|line| line.starts_with("  line ")).count();
    let unknown = text.lines().filter(|line| line.split("//").next().unwrap_or_default().contains("unknown")).count();
    assert!(listed == unknown && listed > 20, "{listed} of {unknown}: {}", ran.out);
    assert!(ran.out.contains("gross-mass: from the plate of the vehicle"), "{}", ran.out);
    assert!(ran.out.contains("restraint \"to be designed\" holds forward, sideways, up: "), "{}", ran.out);
    assert!(ran.out.contains("Next: coachwright review my.build.kdl"), "{}", ran.out);
    assert!(ran.out.contains("not an approval"), "{}", ran.out);
    let review = shop.run(&["review", "my.build.kdl", "--hold-at", "warning"]);
    assert_eq!(review.status, 0, "{}", review.out);
    assert!(review.out.contains("Nothing holds the build"), "{}", review.out);
    assert_eq!(shop.run(&["tidy", "--check", "my.build.kdl"]).status, 0);
}

#[test]
fn the_same_answers_give_the_same_draft() {
    let shop = Workshop::new();
    start(&shop, &with(&["--to=one.build.kdl"]), "");
    let ran = start(&shop, &["--ask"], &format!("two.build.kdl\n{LINES}"));
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert_eq!(shop.read("one.build.kdl"), shop.read("two.build.kdl"));
    // What an option answers is not asked.
    let ran = start(&shop, &["--ask", "--to=three.build.kdl", "--name=Wren"], LINES.trim_start_matches("Wren\n"));
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    assert!(!ran.out.contains("What is the build called?"), "{}", ran.out);
    assert_eq!(shop.read("one.build.kdl"), shop.read("three.build.kdl"));
}

#[test]
fn an_answer_without_sense_is_asked_again() {
    let shop = Workshop::new();
    shop.write("there.build.kdl", "mine");
    let lines = LINES
        .replace("Wren\n", "there.build.kdl\nx.kdl\nmy.build.kdl\n\nWren\n")
        .replace("12 V\n", "12\n13 V\n12 V\n")
        .replace("1000 VA\n", "yes\n9000 VA\n1000 VA\n")
        .replace("diesel\n", "gas\ndisel\ndiesel\n");
    let ran = start(&shop, &["--ask"], &lines);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    for told in [
        "there.build.kdl cannot be written: there is such a file already, and it is not overwritten",
        "x.kdl cannot be written: end its name in .build.kdl",
        "write a name of 1 to 60 characters",
        "the unit is missing",
        "12 V, 24 V or 48 V",
        "write its power, as 1000 VA, or no",
        "at 12 V write 2500 VA or less",
        "a gas heater needs gas",
        "did you mean diesel?",
    ] {
        assert!(ran.out.contains(told), "{told}: {}", ran.out);
    }
    assert!(shop.read("my.build.kdl").contains("fuel=diesel"));
    assert_eq!(shop.read("there.build.kdl"), "mine");
}

#[test]
fn answers_that_end_early_write_nothing() {
    let shop = Workshop::new();
    let lines: Vec<&str> = LINES.lines().collect();
    for count in 0..lines.len() {
        let ran = start(&shop, &["--ask", "--to=my.build.kdl"], &lines[..count].join("\n"));
        assert_eq!(ran.status, 2, "{count}: {}", ran.out);
        assert!(ran.err.contains("Nothing was written."), "{count}: {}", ran.err);
    }
    let endless = "x".repeat(100_000);
    assert_eq!(start(&shop, &["--ask", "--to=my.build.kdl"], &endless).status, 2);
    assert_eq!(shop.names(), Vec::<String>::new());
}

#[test]
fn what_cannot_be_is_refused() {
    let shop = Workshop::new();
    shop.write("there.build.kdl", "mine");
    #[cfg(unix)]
    std::os::unix::fs::symlink("nowhere", shop.path("link.build.kdl")).expect("a link");
    for (options, told) in [
        (
            &["--to=there.build.kdl"][..],
            "there.build.kdl cannot be written: there is such a file already, and it is not overwritten; choose another name.",
        ),
        (&["--to=link.build.kdl"], "there is such a file already"),
        (&["--to=nowhere/my.build.kdl"], "its folder does not exist; make that first, or name another."),
        (&["--to=there.build.kdl/my.build.kdl"], "is not a folder"),
        (&["--to=my.kdl"], "end its name in .build.kdl, as my.build.kdl."),
        (&["--to=.build.kdl"], "end its name in .build.kdl"),
        (&["--to="], "--to lacks its value"),
        (&["--to=my.build.kdl", "--voltage=12"], "--voltage cannot be \"12\": the unit is missing"),
        (&["--to=my.build.kdl", "--region=mars"], "--region cannot be \"mars\": write one of us, eu, uk, au-nz"),
        (&["--to=my.build.kdl", "--heater=gas"], "--heater cannot be \"gas\": a gas heater needs gas"),
        (&["--to=my.build.kdl", "--vehicle=trailer", "--seats=yes"], "nobody travels in a trailer: write no"),
        (&["--to=my.build.kdl", "--name=\u{1b}[2J"], "--name cannot be \"\\u{1b}[2J\""),
    ] {
        let ran = start(&shop, &with(options), "");
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{options:?}");
        assert!(ran.err.contains(told), "{options:?} is told {told:?}: {}", ran.err);
    }
    assert_eq!(shop.read("there.build.kdl"), "mine");
    assert_eq!(shop.names(), ["link.build.kdl", "there.build.kdl"]);
}

#[test]
fn without_a_terminal_the_options_are_told() {
    let shop = Workshop::new();
    let ran = start(&shop, &["--name=Wren"], LINES);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    for option in OPTIONS.iter().map(|option| option.split('=').next().expect("a name")) {
        let line = ran.err.lines().any(|line| line.trim_start().starts_with(&format!("{option}: ")));
        assert_eq!(line, option != "--name", "{option}: {}", ran.err);
    }
    assert!(ran.err.contains("  --to FILE: ") && ran.err.contains("--ask"), "{}", ran.err);
    // The example is one that works.
    let example = ran.err.lines().find_map(|line| line.strip_prefix("For example: coachwright ")).expect("an example");
    let words: Vec<&str> = example
        .split('"')
        .enumerate()
        .flat_map(|(index, piece)| if index % 2 == 1 { vec![piece] } else { piece.split_whitespace().collect() })
        .collect();
    let ran = shop.run(&words);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{words:?}");
    assert_eq!(shop.names(), ["my.build.kdl"]);
}
