//! Command lines that cannot be followed: each is refused with what to write instead.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use workshop::{QUIET, Workshop};

/// What is typed, and what the message names.
const MISTAKES: &[(&[&str], &str)] = &[
    (&[], "coachwright start --to my.build.kdl"),
    (&["weld"], "The commands are: review, why"),
    (&["revew", "x"], "Did you mean: coachwright review SPEC..."),
    (&["Review", "x"], "Did you mean: coachwright review SPEC..."),
    (&["check", "x"], "Did you mean: coachwright review SPEC..."),
    (&["format", "x"], "Did you mean: coachwright tidy SPEC..."),
    (&["new"], "Did you mean: coachwright start"),
    (&["explain", "x"], "Did you mean: coachwright why [RULE]"),
    (&["bug"], "Did you mean: coachwright report-problem"),
    (&["my.build.kdl"], "To review this file: coachwright review my.build.kdl"),
    (&["--colour", "never", "my.build.kdl"], "To review this file: coachwright review my.build.kdl"),
    (&["my van.build.kdl"], "coachwright review \"my van.build.kdl\""),
    (&["shop.rules.kdl"], "coachwright prove shop.rules.kdl"),
    (&["shop.parts.kdl"], "review the build that includes it"),
    (&["review"], "review lacks SPEC (the specifications). For example: coachwright review my.build.kdl"),
    (&["tidy"], "coachwright tidy my.build.kdl"),
    (&["working"], "SPEC (the specification) and PART (the part). For example: coachwright working my.build.kdl house"),
    (&["working", "my.build.kdl"], "PART (the part)"),
    (&["manual"], "--to FOLDER (the folder)"),
    (&["completions"], "coachwright completions bash"),
    (&["report-problem"], "--to FILE"),
    (
        &["review", "x", "--as", "braille"],
        "--as cannot be \"braille\": it is one of terminal, plain, json, sarif, junit, gitlab, github, markdown.",
    ),
    (&["review", "x", "--as", "jsn"], "Did you mean json?"),
    (&["why", "--as", "jsn"], "--as cannot be \"jsn\": it is one of terminal, plain."),
    (&["review", "x", "--as"], "--as lacks its value: one of terminal, plain, json, sarif"),
    (&["review", "x", "--hold-at", "catastrophe"], "it is one of danger, warning, caution, notice."),
    (&["review", "x", "--today", "3"], "--today cannot be \"3\": write the day as year-month-day, 2026-03-14."),
    (&["review", "x", "--colour", "pink"], "it is one of auto, always, never."),
    (
        &["review", "x", "--check"],
        "review has no option --check: it belongs to another command. Did you mean: coachwright tidy SPEC... --check",
    ),
    (&["tidy", "x", "--hold-at", "danger"], "coachwright review SPEC... --hold-at WORD"),
    (&["review", "x", "--tody", "3"], "Did you mean --today?"),
    (&["tidy", "x", "--zzz"], "Its options are: --check, --as"),
    (&["--check", "x"], "--check stands behind its command: coachwright tidy SPEC... --check"),
    (&["why", "x", "--as", "plain", "--as", "terminal"], "--as stands twice: give it once."),
    (&["review", "x", "--as", "json", "--as", "plain"], "--as plain --to FILE"),
    (&["review", "x", "--to", "out.sarif"], "--as sarif --to out.sarif"),
    (&["review", "x", "--as", "json", "--to", "a", "--to", "b"], "--to b has no form"),
    (&["review", "x", "--share", "0/3"], "the third of eight as 3/8"),
    (&["review", "x", "--known", "a", "--write-known", "b"], "do not go together"),
    (&["review", "x", "--known", "a", "--only-new-since", "b"], "do not go together"),
    (&["review", "wren.build.kdl", "--known", "none.json"], "none.json cannot be used: there is no such file"),
    (&["review", "wren.build.kdl", "--as", "sarif", "--to", "other.build.kdl"], "it is named like a specification"),
    (&["review", "wren.build.kdl", "--as", "sarif", "--to", "folder"], "it is a folder: name a file in it"),
    (&["review", "wren.build.kdl", "--as", "sarif", "--to", "nowhere/x.sarif"], "make that first"),
    (&["review", "wren.build.kdl", "--only-new-since", "main"], "The revision main cannot be compared with"),
    (&["review", "vans/*.build.kdl"], "No file fits vans/*.build.kdl"),
    (&["why", "a", "b"], "\"b\" is one word too many"),
    (&["completions", "tcsh"], "it is one of bash, elvish, fish, powershell, zsh."),
    (&["review", "shop.rules.kdl"], "coachwright prove shop.rules.kdl"),
    (&["review", "wren.build.kdl", "Shop.Rules.KDL"], "coachwright prove Shop.Rules.KDL"),
    (&["working", "shop.rules.kdl", "house"], "coachwright prove shop.rules.kdl"),
    (&["review", "shop.parts.kdl"], "write include \"shop.parts.kdl\" in a build"),
    (&["prove", "wren.build.kdl"], "coachwright review wren.build.kdl"),
    (&["review", "wren.build"], "Did you mean wren.build.kdl?"),
    (&["review", "wern.build.kdl"], "Did you mean wren.build.kdl?"),
    (&["review", "nowhere/wren.build.kdl"], "There is no folder nowhere."),
    (&["tidy", "nowhere/wren.build.kdl"], "There is no folder nowhere."),
    (&["review", "folder"], "folder holds no file that ends in .build.kdl"),
    (&["manual", "--to", "nowhere/manual"], "make that first"),
    (&["manual", "--to", "wren.build.kdl"], "a file has that name; choose another"),
    (&["start", "--to", "nowhere/my.build.kdl"], "its folder does not exist"),
    (&["we\u{1b}[2Jld"], "There is no command \"we\\u{1b}[2Jld\""),
];

#[test]
fn a_mistaken_command_line_is_told_what_to_write() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET).write("folder/inside", "");
    for (words, told) in MISTAKES {
        let ran = shop.run(words);
        assert_eq!(ran.status, 2, "{words:?}: {}", ran.err);
        assert_eq!(ran.out, "", "{words:?}: nothing is mistaken for a result");
        assert!(ran.err.contains(told), "{words:?} is told {told:?}: {}", ran.err);
        assert!(!ran.err.contains('\u{1b}') && !ran.err.contains(['<', '>']), "{words:?}: {}", ran.err);
    }
}

#[test]
fn what_is_mistaken_writes_nothing() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET).write("folder/inside", "");
    for (words, _) in MISTAKES {
        shop.run(words);
    }
    assert_eq!(shop.names(), ["folder", "wren.build.kdl"]);
    assert_eq!(shop.read("wren.build.kdl"), QUIET);
}

/// The commands, as the help lists them.
fn commands(shop: &Workshop) -> Vec<String> {
    let help = shop.run(&["--help"]).out;
    let list = help.split("Commands:\n").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("a list");
    list.lines()
        .filter_map(|line| line.split_whitespace().next())
        .filter(|name| *name != "help")
        .map(str::to_owned)
        .collect()
}

#[test]
fn shells_take_their_completions() {
    let shop = Workshop::new();
    let commands = commands(&shop);
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let ran = shop.run(&["completions", shell]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        for word in commands.iter().map(String::as_str).chain(["hold-at"]) {
            assert!(ran.out.contains(word), "{shell} completes {word}");
        }
        if shell == "bash" {
            shop.write("complete", &ran.out);
            // The script runs in a shell, and completes what is begun.
            let tried = "source ./complete && COMP_WORDS=(coachwright rev) COMP_CWORD=1 \
                         && _coachwright coachwright rev coachwright && echo \"${COMPREPLY[*]}\"";
            let bash = std::process::Command::new("bash")
                .args(["--noprofile", "--norc", "-c", tried])
                .current_dir(shop.path(""))
                .output()
                .expect("bash runs");
            let bash = workshop::ran(bash);
            assert_eq!((bash.status, bash.err.as_str(), bash.out.trim()), (0, "", "review"));
        }
    }
}

#[test]
fn every_command_has_a_page_of_the_manual() {
    let shop = Workshop::new();
    let ran = shop.run(&["manual", "--to", "pages"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let commands = commands(&shop);
    assert!(commands.len() > 8, "{commands:?}");
    assert!(ran.out.contains(&format!("{} manual pages are in pages.", commands.len() + 1)), "{}", ran.out);
    for command in &commands {
        let name = format!("pages/coachwright-{command}.1");
        let drawn = std::process::Command::new("groff")
            .args(["-man", "-Tutf8", "-ww", "-P-cbou"])
            .arg(shop.path(&name))
            .output()
            .expect("groff is installed (on Debian: groff-base)");
        let drawn = workshop::ran(drawn);
        assert_eq!((drawn.status, drawn.err.as_str()), (0, ""), "{name} is clean");
        for words in ["NAME", "SYNOPSIS", "OPTIONS", command.as_str()] {
            assert!(drawn.out.contains(words), "{name} says {words}: {}", drawn.out);
        }
    }
    let all = shop.read("pages/coachwright.1");
    for command in &commands {
        assert!(all.contains(&command.replace('-', "\\-")), "the page of the program names {command}");
    }
    // Written again, it stays whole.
    assert_eq!(shop.run(&["manual", "--to", "pages"]).status, 0);
    assert_eq!(shop.read("pages/coachwright.1"), all);
}
