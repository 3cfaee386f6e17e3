//! `review`, by the program itself.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use workshop::{QUIET, Workshop};

#[test]
fn the_status_says_whether_the_build_is_held() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET);
    let quiet = shop.run(&["review", "wren.build.kdl", "--hold-at", "danger"]);
    assert_eq!(quiet.status, 0, "{}{}", quiet.out, quiet.err);
    assert!(quiet.out.contains("Nothing holds the build"), "{}", quiet.out);
    assert!(quiet.out.contains("not an approval"), "{}", quiet.out);
    // The same build, held by less: that its systems are neither described nor declared absent is a finding.
    let held = shop.run(&["review", "wren.build.kdl", "--hold-at", "notice"]);
    assert_eq!(held.status, 1, "{}{}", held.out, held.err);
    assert!(held.out.contains("The build is held"), "{}", held.out);
}

#[test]
fn a_draft_is_not_held_by_undecided_checks() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET.replace("draft", "review"));
    let asked = |arguments: &[&str]| {
        let ran = shop.run(&[&["review", "wren.build.kdl", "--as", "json"], arguments].concat());
        serde_json::from_str::<serde_json::Value>(&ran.out).expect("JSON")["stage"].clone()
    };
    assert_eq!(asked(&[]), "review");
    assert_eq!(asked(&["--draft"]), "draft");
}

#[test]
fn one_unreadable_specification_does_not_stop_the_others() {
    let shop = Workshop::new();
    shop.write("one.build.kdl", QUIET).write("two.build.kdl", QUIET.replace("Wren", "Heron"));
    let specs = ["review", "one.build.kdl", "missing.build.kdl", "two.build.kdl", "--hold-at", "danger"];
    let ran = shop.run(&specs);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("missing.build.kdl cannot be read: there is no such file; check the name"), "{}", ran.err);
    let (one, two) = (ran.out.find("Wren"), ran.out.find("Heron"));
    assert!(one.is_some() && one < two, "both are reviewed, in order: {}", ran.out);
    let ran = shop.run(&[specs.as_slice(), &["--as", "json"]].concat());
    let builds: Vec<serde_json::Value> = ran
        .out
        .lines()
        .map(|line| serde_json::from_str::<serde_json::Value>(line).expect("JSON")["build"].clone())
        .collect();
    assert_eq!(builds, ["Wren", "Heron"], "one document a line");
}

#[test]
fn a_plain_review_is_plain() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET);
    let ran = shop.run(&["review", "wren.build.kdl", "--as", "plain", "--colour", "always"]);
    assert!(ran.out.starts_with("Review of build Wren, at stage draft"), "{}", ran.out);
    assert!(!ran.out.contains(['\u{1b}', '─', '│']), "{}", ran.out);
}

#[test]
fn colour_is_for_terminals_or_for_those_who_ask() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET);
    assert!(!shop.run(&["review", "wren.build.kdl"]).out.contains('\u{1b}'));
    assert!(shop.run(&["review", "wren.build.kdl", "--colour", "always"]).out.contains('\u{1b}'));
    assert!(!shop.run(&["review", "wren.build.kdl", "--colour", "never"]).out.contains('\u{1b}'));
}

#[test]
fn the_day_is_checked() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET);
    for day in ["2026-02-30", "2026-3-14", "20260314", "tomorrow", "2026-03-14T00:00", "", "٢٠٢٦-٠٣-١٤", "-026-03-14"]
    {
        let ran = shop.run(&["review", "wren.build.kdl", &format!("--today={day}")]);
        assert_eq!(ran.status, 2, "{day}: {}", ran.out);
        assert!(ran.err.contains("year-month-day, 2026-03-14"), "{day}: {}", ran.err);
    }
    let ran = shop.run(&["review", "wren.build.kdl", "--today", "2024-02-29", "--hold-at", "danger"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
}

#[test]
fn a_waiver_runs_out_on_the_day_that_is_given() {
    let shop = Workshop::new();
    shop.write(
        "wren.build.kdl",
        format!(
            "{QUIET}waive \"system/not-described\" on=\"Wren\" reason=\"tried\" by=\"office\" until=\"2028-04-01\"\n"
        ),
    );
    let on = |day: &str| shop.run(&["review", "wren.build.kdl", "--as", "plain", "--today", day]).out;
    let last = on("2028-04-01");
    assert!(last.contains("Accepted by office, until 2028-04-01.") && last.contains("Waived: 1."), "{last}");
    let late = on("2028-04-02");
    assert!(late.contains("ran out on 2028-04-01") && late.contains("Waived: 0."), "{late}");
}

#[test]
fn includes_are_found_beside_the_file_that_asks_for_them() {
    let shop = Workshop::new();
    shop.write("builds/wren.build.kdl", format!("{QUIET}include \"../shared/more.build.kdl\"\n"))
        .write("shared/more.build.kdl", "include \"deep/last.build.kdl\"\n")
        .write("shared/deep/last.build.kdl", "battery house chemistry=LFP voltage=\"25.6 V\"\n");
    let ran = shop.run(&["review", "builds/wren.build.kdl", "--as", "json"]);
    let read: serde_json::Value = serde_json::from_str(&ran.out).expect("JSON");
    assert_eq!(
        read["files"],
        serde_json::json!([
            "builds/wren.build.kdl",
            "builds/../shared/more.build.kdl",
            "builds/../shared/deep/last.build.kdl"
        ]),
        "{}",
        ran.out
    );
}

#[test]
fn a_reader_that_stops_listening_is_no_fault() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET);
    let mut child = shop
        .command(&["review", "wren.build.kdl", "--hold-at", "danger"])
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .expect("the program runs");
    drop(child.stdout.take());
    let ran = workshop::ran(child.wait_with_output().expect("it ends"));
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
}

#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_is_told() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", QUIET);
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").expect("the device");
    let output = shop.command(&["review", "wren.build.kdl"]).stdout(full).output().expect("the program runs");
    let ran = workshop::ran(output);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("could not be written"), "{}", ran.err);
}
