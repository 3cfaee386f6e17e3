//! What differs between two revisions: parts, effects, findings, documents.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use packet::changes::{Changes, Issue, Side, Sort, Turn, changes};
use packet::write::{changes_html, changes_json, changes_sheet};
use quantity::System;
use spec::SingleText;
use workshop::{build, demo_build, of_build};

fn compared(old: &design::Build, new: &design::Build) -> Changes {
    let packets = [old, new].map(of_build);
    let side = |build, place: usize| Side { build, packet: &packets[place] };
    changes(side(old, 0), side(new, 1), ["old", "new"], [System::Metric; 2])
}

fn of_texts(old: &str, new: &str) -> Changes {
    compared(&build(&SingleText(old), "wren.build.kdl"), &build(&SingleText(new), "wren.build.kdl"))
}

const WREN: &str = "build Wren { stage draft; }\n\
battery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" mass=\"11 kg\"\n\
lamp bench power=\"18 W\" duty=\"4 h/d\"\n\
circuit feed from=house to=bench {\n    fuse rating=\"5 A\" class=T\n    wire size=\"1.5 mm2\" one-way=\"2 m\"\n    wire size=\"2.5 mm2\" one-way=\"3 m\"\n}\n";

/// Each part that differs: what became of it, its title, and its entries.
fn told(changes: &Changes) -> Vec<String> {
    changes
        .parts
        .iter()
        .map(|part| {
            let entries: Vec<String> = part
                .entries
                .iter()
                .map(|entry| {
                    let old = entry.old.as_deref().unwrap_or("-");
                    format!("{} {old} > {}", entry.name, entry.new.as_deref().unwrap_or("-"))
                })
                .collect();
            format!("{} {}: {}", part.sort.word(), part.part.title, entries.join("; "))
        })
        .collect()
}

#[test]
fn the_same_build_has_no_changes_whatever_its_layout_and_units() {
    let laid_out = WREN.replace("power=\"18 W\"", "power=\"0.018 kW\"").replace("battery", "// a remark\nbattery");
    for other in [WREN, &laid_out] {
        let changes = of_texts(WREN, other);
        assert!(changes.parts.is_empty() && changes.effects.is_empty() && changes.findings.is_empty());
    }
    assert!(of_texts(WREN, WREN).is_empty());
    // A default is told once, not of each part that takes it.
    let with = |standard: &str| format!("{WREN}defaults {{ wire standard=\"{standard}\"; }}\n");
    let defaults = told(&of_texts(&with("ISO 6722-1"), &with("UL 1426")));
    assert_eq!(defaults, ["altered wire 1 in defaults: standard ISO 6722-1 > UL 1426"]);
    // What is called otherwise is named otherwise by whatever refers to it.
    let renamed = told(&of_texts(WREN, &WREN.replace("house", "store")));
    assert_eq!(
        renamed,
        ["renamed battery \"store\": ", "altered circuit \"feed\": from battery \"house\" > battery \"store\""]
    );
    let bramble = demo_build("bramble", "");
    assert!(compared(&bramble, &bramble).is_empty());
}

#[test]
fn parts_are_matched_by_name_and_without_one_by_what_is_said() {
    let cases: [(&str, &str, &[&str]); 7] = [
        ("power=\"18 W\"", "power=\"24 W\"", &["altered lamp \"bench\": power 18 W > 24 W"]),
        ("duty=\"4 h/d\"", "", &["altered lamp \"bench\": duty"]),
        // A wire put before two others is one wire more, not three that changed.
        (
            "    wire size=\"1.5 mm2\"",
            "    wire size=\"6 mm2\" one-way=\"1 m\"\n    wire size=\"1.5 mm2\"",
            &["added wire 1 in circuit \"feed\": "],
        ),
        ("    wire size=\"1.5 mm2\" one-way=\"2 m\"\n", "", &["removed wire 1 in circuit \"feed\": "]),
        ("one-way=\"3 m\"", "one-way=\"4 m\"", &["altered wire 2 in circuit \"feed\": one-way 3 m > 4 m"]),
        ("lamp bench", "lamp step power=\"5 W\"\nlamp bench", &["added lamp \"step\": power - > 5 W"]),
        ("battery house", "battery store", &["renamed battery \"store\": "]),
    ];
    for (from, to, expected) in cases {
        let new = WREN.replacen(from, to, 1);
        assert_ne!(new, WREN, "{from}");
        let told = told(&of_texts(WREN, &new));
        assert_eq!(told.len(), expected.len(), "{from}: {told:#?}");
        for (one, expected) in told.iter().zip(expected) {
            assert!(one.starts_with(expected), "{from}: {one} is not {expected}");
        }
        // And back.
        let back = of_texts(&new, WREN);
        assert_eq!(back.parts.len(), expected.len(), "{from}");
    }
}

#[test]
fn a_change_of_one_entry_names_its_effects_and_the_documents_to_issue_again() {
    let old = demo_build("bramble", "");
    let new = demo_build(
        "bramble",
        "cargo \"spare frames\" mass=\"30 kg\" at=\"5000, 0, 300 mm\"\nlamp \"step lamp\" power=\"10 W\" duty=\"5 h/d\"\ncircuit \"step\" from=\"dc panel\" to=\"step lamp\" { fuse rating=\"3 A\"; wire size=\"1 mm2\" one-way=\"2 m\"; }\n",
    );
    let changes = compared(&old, &new);
    let effect = |what: &str| changes.effects.iter().find(|effect| effect.what == what).expect("an effect");
    // The lamp weighs little. 5000 mm behind a front axle with 4035 mm of wheelbase: 30 kg × 5000 ÷ 4035 on the rear axle.
    let rear = effect("axle \"rear\" carries at most");
    let difference = rear.difference.expect("a difference");
    assert!((difference - 30.0 * 5000.0 / 4035.0).abs() < 1.0, "{difference}");
    assert!(rear.shown.starts_with('+'), "{}", rear.shown);
    let laden = effect("laden mass").difference.expect("a difference");
    assert!((laden - 30.0).abs() < 1.0, "{laden}");
    let taken = effect("Winter: loads take in a day").difference.expect("a difference");
    assert!((taken - 50.0 * 3600.0).abs() < 1.0, "{taken}");
    let documents: Vec<(&str, Issue)> =
        changes.documents.iter().map(|document| (document.id.as_str(), document.issue)).collect();
    for id in ["axles", "masses", "energy", "circuits", "panel-directory", "floor-plan", "single-line-2"] {
        assert!(documents.contains(&(id, Issue::Again)), "{id} is not among {documents:?}");
    }
    for id in ["terminals", "exits", "service"] {
        assert!(!documents.iter().any(|(own, _)| *own == id), "{id} does not differ");
    }
}

#[test]
fn findings_are_gained_and_lost() {
    let (clean, faulty) = (demo_build("bramble", ""), demo_build("bramble-faulty", ""));
    let rules = |changes: &Changes, turn| -> Vec<String> {
        let mut rules: Vec<String> = changes.turned(turn).map(|one| one.rule.clone()).collect();
        rules.sort();
        rules
    };
    let gained = compared(&clean, &faulty);
    assert!(rules(&gained, Turn::Gained).len() > 20, "{:?}", rules(&gained, Turn::Gained));
    assert!(gained.turned(Turn::Lost).count() == 0, "{:?}", rules(&gained, Turn::Lost));
    let lost = compared(&faulty, &clean);
    assert_eq!(rules(&gained, Turn::Gained), rules(&lost, Turn::Lost), "there and back");
}

#[test]
fn every_form_tells_all_of_it_and_no_name_does_harm() {
    let schema: serde_json::Value =
        serde_json::from_str(include_str!("../schema/changes.schema.json")).expect("the schema is JSON");
    let validator = jsonschema::draft202012::new(&schema).expect("the schema is a schema");
    for name in ["spare", "<script>alert(1)</script>", "=1+1", "\\u{202e}x", "a & b"] {
        let new = format!("{WREN}lamp \"{name}\" power=\"5 W\" note=\"{name}\"\n");
        let changes = of_texts(WREN, &new);
        let page = changes_html(&changes);
        assert!(!page.contains("<script") && !page.contains('\u{202e}'), "{name}");
        let faults: Vec<String> =
            validator.iter_errors(&changes_json(&changes)).map(|fault| fault.to_string()).collect();
        assert!(faults.is_empty(), "{name}: {faults:#?}");
        let text = report::changes(&changes_sheet(&changes), report::Style::Plain);
        assert!(text.contains("Added (1)") && !text.contains('\u{202e}'), "{text}");
    }
    let mut odd = changes_json(&of_texts(WREN, WREN));
    odd["colour"] = "red".into();
    assert!(!validator.is_valid(&odd));
}

#[test]
fn text_that_cannot_be_read_is_compared_as_it_stands() {
    let broken = WREN.replace("power=\"18 W\"", "power=\"18 W\" powr=");
    let changes = of_texts(WREN, &broken);
    assert!(!changes.is_empty());
    let other = WREN.replace("lamp bench", "lampp bench");
    let changes = of_texts(WREN, &other);
    assert!(changes.parts.iter().any(|part| part.sort == Sort::Removed && part.part.title == "lamp \"bench\""));
    assert!(changes.turned(Turn::Gained).count() > 0, "what cannot be read is found");
}
