//! What someone typed to deceive a terminal or its reader does not reach it.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod fixture;

use fixture::review;
use report::{FactOrigin, FactRow, PartWorking, Style, TerminalOptions, json, plain, terminal, unread, working};
use rules::Signal;
use rules::finding::{FileText, Finding, Review};
use spec::text::{BlockCache, read};

const OPTIONS: TerminalOptions = TerminalOptions { colour: false, width: 100, unicode: true, links: false };

/// A change of colour, a cleared screen (8-bit too), a hyperlink, a title, a reordered line, a hidden character, line ends.
const TYPED: &str = "\u{1b}[31m\u{1b}[2J\u{9b}2J\u{1b}]8;;http://evil\u{1b}\\x\u{1b}]0;t\u{7}\u{202e}desrever\u{2066}\u{200b}\u{7f}\r\n\u{8}\u{0}";

fn hostile_finding(finding: &mut Finding) {
    let typed = || String::from(TYPED);
    finding.rule = TYPED.into();
    finding.title = typed();
    finding.part = typed();
    finding.part_key = typed();
    finding.message = typed();
    finding.why = typed();
    finding.remedy = typed();
    finding.caution = Some(typed());
    finding.case = typed();
    finding.circumstances = vec![typed()];
    finding.fingerprint = typed();
    finding.related.iter_mut().for_each(|related| related.label = typed());
    for fact in &mut finding.facts {
        fact.part = typed();
        fact.fact = typed();
        fact.value = Some(typed());
        for step in &mut fact.working {
            step.text = typed();
            step.source = Some(typed());
        }
    }
    for source in &mut finding.sources {
        source.document = typed();
        source.place = typed();
        source.edition = typed();
        source.address = Some(format!("https://{TYPED}"));
        source.note = Some(typed());
    }
    if let Some(mend) = &mut finding.mend {
        mend.title = typed();
        mend.text = typed();
    }
    if let Some(waived) = &mut finding.waived {
        waived.reason = typed();
        waived.by = typed();
        waived.until = Some(typed());
        waived.evidence = Some(typed());
    }
    if let rules::finding::Outcome::Undecided { missing } = &mut finding.outcome {
        missing.iter_mut().for_each(|missing| missing.alternatives = vec![typed()]);
    }
    finding.follow.iter_mut().for_each(hostile_finding);
}

fn hostile() -> Review {
    let mut review = review();
    review.build = Some(String::from(TYPED));
    for file in &mut review.files {
        file.name = format!("{TYPED}.build.kdl");
        file.text = file.text.replace("lamp", TYPED).into();
    }
    for finding in review.failed.iter_mut().chain(&mut review.undecided).chain(&mut review.waived) {
        hostile_finding(finding);
    }
    review.settle.iter_mut().for_each(|entry| entry.entry = String::from(TYPED));
    review
}

fn assert_harmless(text: &str) {
    for character in text.chars() {
        assert!(character == '\n' || !character.is_control(), "{character:?} in {text:?}");
        assert!(
            !matches!(character, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'),
            "{text:?}"
        );
    }
}

#[test]
fn terminal_and_plain_show_it_as_escapes() {
    for options in [OPTIONS, TerminalOptions { links: true, ..OPTIONS }, TerminalOptions { unicode: false, ..OPTIONS }]
    {
        let text = terminal(&hostile(), Signal::Warning, options);
        assert_harmless(&text);
        assert!(text.contains("\\u{1b}[31m\\u{1b}[2J\\u{9b}2J\\u{1b}]8;;http://evil"), "{text}");
        assert!(text.contains("\\u{202e}desrever"), "{text}");
    }
    let text = plain(&hostile(), Signal::Warning);
    assert_harmless(&text);
    assert!(text.contains("\\u{202e}desrever"), "{text}");
}

#[test]
fn a_painted_report_holds_no_other_escapes_than_its_own_colours() {
    let text = terminal(&hostile(), Signal::Warning, TerminalOptions { colour: true, ..OPTIONS });
    for behind in text.split('\u{1b}').skip(1) {
        let colour = behind.strip_prefix('[').and_then(|rest| rest.split_once('m')).map(|(codes, _)| codes);
        assert!(
            colour.is_some_and(|codes| codes.chars().all(|code| code.is_ascii_digit() || code == ';')),
            "{behind:?}"
        );
    }
}

#[test]
fn json_keeps_every_character_and_stays_json() {
    let review = hostile();
    let text = json(&review, Signal::Warning).to_string();
    assert!(!text.contains('\u{1b}') && !text.contains('\n'), "control characters are escaped");
    let read: serde_json::Value = serde_json::from_str(&text).expect("it is JSON");
    assert_eq!(read["findings"][0]["part"], TYPED);
}

#[test]
fn workings_and_faults_show_it_as_escapes_too() {
    let fact = rules::finding::FactUsed {
        part: String::from(TYPED),
        fact: String::from(TYPED),
        value: Some(String::from(TYPED)),
        number: None,
        dimension: None,
        working: Vec::new(),
    };
    let row = |origin: FactOrigin| FactRow { fact: fact.clone(), origin, help: String::from(TYPED) };
    let part = PartWorking {
        part: String::from(TYPED),
        place: String::from(TYPED),
        facts: vec![row(FactOrigin::Given), row(FactOrigin::Unknown { missing: vec![String::from(TYPED)] })],
    };
    let text = format!("battery \"{TYPED}\n}}}}\n");
    let faults = read(&text, &mut BlockCache::new()).faults;
    assert!(!faults.is_empty());
    let file = FileText { name: String::from(TYPED), text: text.into() };
    for style in [Style::Plain, Style::Terminal(OPTIONS)] {
        assert_harmless(&working(&part, style));
        assert_harmless(&unread(&file, &faults, style));
    }
}
