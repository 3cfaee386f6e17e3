//! A review as a terminal shows it.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod fixture;

use fixture::{BUILD, at, bare, clean, review};
use report::{TerminalOptions, terminal};
use rules::Signal;
use rules::finding::{FileText, Outcome, Place, Review, Stage};

const BARE: TerminalOptions = TerminalOptions { colour: false, width: 100, unicode: true, links: false };

#[test]
fn a_whole_review() {
    assert_eq!(terminal(&review(), Signal::Warning, BARE), include_str!("expected/terminal.txt"));
}

#[test]
fn a_narrow_terminal_without_line_drawing() {
    let options = TerminalOptions { width: 60, unicode: false, ..BARE };
    let text = terminal(&review(), Signal::Warning, options);
    assert_eq!(text, include_str!("expected/narrow.txt"));
}

#[test]
fn a_review_without_findings_is_no_approval() {
    let text = terminal(&clean(), Signal::Warning, BARE);
    assert_eq!(text, include_str!("expected/clean.txt"));
}

#[test]
fn nothing_is_ever_called_safe_and_the_caution_is_always_there() {
    let draft = Review { stage: Stage::Draft, ..review() };
    for review in [review(), clean(), draft] {
        for hold_at in Signal::ALL {
            let text = terminal(&review, *hold_at, BARE) + &report::plain(&review, *hold_at);
            assert!(!text.to_lowercase().contains("safe"), "{text}");
            assert_eq!(text.matches("is not an approval").count() + text.matches("is\nnot an approval").count(), 2);
        }
    }
}

#[test]
fn what_holds_a_build_is_said() {
    let mut only_notice = clean();
    only_notice.failed =
        vec![bare("a/b", Signal::Notice, Outcome::Fails { margin: None }, "x", fixture::place("door"))];
    let mut only_open = clean();
    only_open.undecided = vec![fixture::open()];
    let draft = Review { stage: Stage::Draft, ..only_open.clone() };
    let cases = [
        (
            &only_notice,
            Signal::Warning,
            false,
            "Nothing holds the build: no check of signal word warning or worse failed",
        ),
        (&only_notice, Signal::Notice, true, "The build is held: 1 check of signal word notice or worse failed."),
        (&only_open, Signal::Danger, true, "The build is held: 1 check is undecided where the harm could be grave"),
        (&draft, Signal::Danger, false, "in a draft undecided checks do not hold it"),
    ];
    for (review, hold_at, is_held, words) in cases {
        let held = report::held(review, hold_at);
        assert_eq!(held.held, is_held, "{words}");
        assert!(held.reason.contains(words), "{}", held.reason);
    }
}

#[test]
fn colour_and_links_come_only_when_asked_for() {
    assert!(!terminal(&review(), Signal::Warning, BARE).contains('\u{1b}'));
    let coloured = terminal(&review(), Signal::Warning, TerminalOptions { colour: true, ..BARE });
    assert!(coloured.contains("\u{1b}[31;1mDANGER"), "{coloured}");
    assert!(!coloured.contains("\u{1b}]8"), "no links without being asked");
    let linked = terminal(&review(), Signal::Warning, TerminalOptions { links: true, ..BARE });
    assert!(linked.contains("\u{1b}]8;;https://www.iso.org/standard/79092.html\u{1b}\\"), "{linked}");
    // What colour adds is colour only.
    let mut stripped = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, behind)) = rest.split_once('\u{1b}') {
        stripped.push_str(before);
        rest = behind.split_once('m').map_or("", |(_, rest)| rest);
    }
    stripped.push_str(rest);
    assert_eq!(stripped, terminal(&review(), Signal::Warning, BARE));
}

#[test]
fn addresses_that_are_no_web_addresses_do_not_become_links() {
    for address in ["javascript:alert(1)", "https://x/\u{1b}]8;;evil", "file:///etc/passwd"] {
        let mut review = review();
        review.failed[0].sources[0].address = Some(String::from(address));
        let text = terminal(&review, Signal::Warning, TerminalOptions { links: true, ..BARE });
        assert!(!text.contains("\u{1b}]8"), "{address}: {text}");
    }
}

/// A review with one finding at these words of a text.
fn one(text: &str, words: &str) -> Review {
    let place = Place { file: 0, bytes: at(text, words) };
    let finding = bare("a/b", Signal::Caution, Outcome::Fails { margin: None }, "battery house", place);
    let files = vec![FileText { name: String::from("x.build.kdl"), text: text.into() }];
    Review { files, failed: vec![finding], ..clean() }
}

fn excerpt_of(text: &str, words: &str) -> Vec<String> {
    let shown = terminal(&one(text, words), Signal::Warning, BARE);
    shown.lines().filter(|line| line.contains(['│', '┆'])).map(|line| line.trim_start().to_owned()).collect()
}

#[test]
fn marks_line_up_under_wide_characters_and_tabs() {
    assert_eq!(
        excerpt_of("battery \"電池🔋\" voltage=\"12\"\n", "\"12\""),
        ["1 │ battery \"電池🔋\" voltage=\"12\"", "┆                          ════"]
    );
    assert_eq!(excerpt_of("\tfuse\trating=5A\n", "5A"), ["1 │     fuse    rating=5A", "┆                    ══"]);
    assert_eq!(excerpt_of("größe=\"é\" x\n", "x"), ["1 │ größe=\"é\" x", "┆           ═"]);
}

#[test]
fn a_very_long_line_is_cut_on_both_sides() {
    let text = format!("note \"{}\" HERE \"{}\"\n", "a".repeat(10_000), "b".repeat(10_000));
    let lines = excerpt_of(&text, "HERE");
    assert!(lines[0].starts_with("1 │ …a") && lines[0].ends_with("b…"), "{}", lines[0]);
    assert!(lines.iter().all(|line| line.chars().count() <= 100), "{lines:?}");
}

#[test]
fn a_part_with_a_very_long_name_does_not_bury_the_report() {
    let mut review = one(BUILD, "battery house");
    review.failed[0].part = format!("battery \"{}\"", "n".repeat(10_000));
    review.failed[0].message = format!("The battery {} is loose.", "n".repeat(10_000));
    let text = terminal(&review, Signal::Warning, BARE);
    assert!(text.lines().count() < 60, "{} lines", text.lines().count());
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
}

#[test]
fn a_finding_at_the_end_of_a_large_file_has_its_own_line_number() {
    let mut text = "// a line that says nothing\n".repeat(178_000);
    text.push_str("battery house\n");
    assert!(text.len() > 4_900_000);
    let mut review = one(&text, "battery house");
    // Many findings there cost little more than one: no excerpt reads the text before its window.
    review.failed = vec![review.failed[0].clone(); 500];
    let shown = terminal(&review, Signal::Warning, BARE);
    assert_eq!(shown.matches("178001 │ battery house").count(), 500);
    assert_eq!(shown.matches("x.build.kdl:178001:1").count(), 500);
}

#[test]
fn a_finding_about_no_file_is_still_shown() {
    let mut review = one(BUILD, "battery house");
    review.files.clear();
    review.failed[0].message = String::from("Nothing says whether there is gas.");
    let text = terminal(&review, Signal::Warning, BARE);
    assert!(text.contains("Nothing says whether there is gas.\n    the build as a whole\n"), "{text}");
}

#[test]
fn places_that_do_not_fit_the_text_do_no_harm() {
    for (start, end) in [(0, 9_999_999), (9_999_998, 9_999_999), (7, 3), (1, 2), (3, 4)] {
        let bytes = start..end;
        let mut review = one("größe\n", "e");
        review.failed[0].place.bytes = bytes.clone();
        assert!(terminal(&review, Signal::Warning, BARE).contains("A message"), "{bytes:?}");
    }
}
