//! Rules, workings, proofs and faults as pages.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

use report::{FactOrigin, FactRow, PartWorking, RulePage, Style, TerminalOptions, proof, unread, why, working};
use rules::finding::{FactUsed, FileText, WorkingStep};
use rules::pack::read_sheet;
use spec::text::{BlockCache, read};

const TERMINAL: Style = Style::Terminal(TerminalOptions { colour: false, width: 100, unicode: true, links: false });

const PATH: &str = "rules/any/alarm.rules.kdl";
const RULES: &str = r##"/- kdl-version 2
fixture "sleeper" #"""
    build Test {
        stage review
        basis eu
    }
    brief berths=1
    alarm "smoke alarm" senses=smoke
    """#
rule "alarm/no-alarm" warning about=alarm {
    title "An alarm senses nothing"
    must "smoke in senses"
    tell "This alarm does not sense smoke."
    why "Most who die in a fire aboard were asleep."
    remedy "Fit one that does: alarm \"smoke alarm\" senses=smoke"
    caution "Test every alarm before the first night."
    source "24 CFR 3280.209" place="(c)(1)" edition="2023" mark=read note="by analogy" address="https://www.ecfr.gov"
    source "675 IAC 15-2-27" place="all" edition="not stated" mark=memory regions="us"
    example "it senses smoke" holds on="sleeper"
    example "it senses heat" fails on="sleeper" { change "senses=smoke" to="senses=heat" }
    example "nobody knows what it senses" open on="sleeper" missing="senses" { change "senses=smoke" to="senses=unknown" }
    example "a second one" fails on="sleeper" { add #"alarm "other" senses=heat"# }
}
"##;

#[test]
fn a_rule_as_a_page() {
    let (sheet, faults) = read_sheet(PATH, RULES);
    assert!(faults.is_empty(), "{faults:?}");
    let page = RulePage {
        sheet: &sheet.rules[0],
        fixtures: &sheet.fixtures,
        about: "alarm",
        tell: "This alarm does not sense smoke.",
        remedy: "Fit one that does: alarm \"smoke alarm\" senses=smoke",
    };
    assert_eq!(why(&page, TERMINAL), include_str!("expected/why.txt"));
    assert_eq!(why(&page, Style::Plain), include_str!("expected/why-plain.txt"));
}

fn fact(fact: &str, value: Option<&str>, working: Vec<WorkingStep>) -> FactUsed {
    FactUsed {
        part: String::from("fuse 1 in circuit \"house main\""),
        fact: fact.to_owned(),
        value: value.map(str::to_owned),
        number: None,
        dimension: None,
        working,
    }
}

fn step(text: &str, source: Option<&str>, assumed: bool, depth: usize) -> WorkingStep {
    WorkingStep { text: text.to_owned(), source: source.map(str::to_owned), assumed, depth }
}

#[test]
fn facts_as_a_table() {
    let row = |fact, origin, help: &str| FactRow { fact, origin, help: help.to_owned() };
    let part = PartWorking {
        part: String::from("fuse 1 in circuit \"house main\""),
        place: String::from("wren.build.kdl:12:5"),
        facts: vec![
            row(fact("rating", Some("250 A"), vec![]), FactOrigin::Given, "what it carries"),
            row(
                fact("ambient", Some("30 °C"), vec![step("ambient assumed 30 degC", Some("chosen (chosen)"), true, 0)]),
                FactOrigin::Assumed,
                "the air around it",
            ),
            row(
                fact(
                    "fault-current",
                    Some("3.2 kA"),
                    vec![
                        step("27.2 V / 8.5 mΩ = 3.2 kA", Some("Ohm's law (computed)"), false, 0),
                        step("table value 0.49 mΩ/m × 1.02 m", Some("IEC 60228 Table 3 (read)"), false, 1),
                    ],
                ),
                FactOrigin::WorkedOut,
                "the largest current of a fault",
            ),
            row(
                fact("interrupting-rating", None, vec![]),
                FactOrigin::Unknown { missing: vec![String::from("class of fuse 1"), String::from("voltage of bus")] },
                "what it can break",
            ),
        ],
    };
    assert_eq!(working(&part, TERMINAL), include_str!("expected/working.txt"));
    assert_eq!(working(&part, Style::Plain), include_str!("expected/working-plain.txt"));
}

#[test]
fn what_examples_prove_and_what_they_miss() {
    let files = [FileText { name: String::from(PATH), text: RULES.into() }];
    let proved = rules::prove::run(&[(PATH, RULES)], true);
    let text = proof(&proved, &files, TERMINAL);
    assert!(text.starts_with("1 rule with 4 examples, masking MC/DC 100 %\n"), "{text}");
    assert!(text.contains("  alarm/no-alarm\n      4 of 4 examples as they say, MC/DC 100 % (2 of 2 sides)"), "{text}");
    assert!(text.contains("wrong versions noticed"), "{text}");
    assert!(text.ends_with("Every example comes out as it says, and every condition is shown to decide.\n"), "{text}");

    let lying = RULES.replace("\"it senses heat\" fails", "\"it senses heat\" holds");
    let files = [FileText { name: String::from(PATH), text: lying.as_str().into() }];
    let proved = rules::prove::run(&[(PATH, &lying)], false);
    for (style, place) in [(TERMINAL, "rules/any/alarm.rules.kdl:20:"), (Style::Plain, "line 20, column")] {
        let text = proof(&proved, &files, style).to_lowercase();
        assert!(text.contains("\"it senses heat\" is failing, not holding"), "{text}");
        assert!(text.contains(place), "{text}");
        assert!(text.contains("not proved: 1 fault."), "{text}");
    }
}

#[test]
fn the_faults_of_a_text() {
    let text = "battery house {\n    capacity 16A\n}\n}\n";
    let faults = read(text, &mut BlockCache::new()).faults;
    let file = FileText { name: String::from("wren.build.kdl"), text: text.into() };
    let shown = unread(&file, &faults, TERMINAL);
    assert!(shown.starts_with("wren.build.kdl cannot be read: 2 faults\n"), "{shown}");
    assert!(shown.contains("    wren.build.kdl:2:14\n"), "{shown}");
    assert!(shown.contains("2 │     capacity 16A"), "{shown}");
    assert!(shown.contains("text/missing-quotes"), "{shown}");
    assert!(shown.contains("text/stray-closing-brace"), "{shown}");
    let heard = unread(&file, &faults, Style::Plain);
    assert!(heard.contains("Place: line 2, column 14 of file wren.build.kdl."), "{heard}");
    assert!(!heard.contains('│'), "{heard}");
}
