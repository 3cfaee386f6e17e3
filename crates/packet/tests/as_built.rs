//! The vehicle as built: results beside what was expected, the mass model set right, approvals, cut list, job tickets.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use packet::{Packet, RowKind};
use workshop::{cell, demo_build, of_build, sheet, shown, text};

fn bramble(more: &str) -> Packet {
    of_build(&demo_build("bramble", more))
}

/// What a test of a part shows: what was measured, and whether it passed.
fn result(packet: &Packet, test: &str, part: &str) -> (String, String) {
    let tests = sheet(packet, "tests");
    let row = tests
        .rows
        .iter()
        .find(|row| {
            let own = row.part.as_ref().is_some_and(|own| own.title == part);
            own && shown(packet, tests, row, "test").starts_with(test)
        })
        .expect("a test of that part");
    (shown(packet, tests, row, "measured"), shown(packet, tests, row, "passed"))
}

#[test]
fn results_stand_beside_what_was_expected_and_are_held_against_it() {
    // Entry, test, part, what is measured, whether it passed.
    let cases = [
        (
            "measured voltage-drop on=\"inverter feed\" voltage=\"0.01 V\" date=\"2026-05-02\" by=JT",
            "Voltage drop",
            "circuit \"inverter feed\"",
            "10 mV, 2026-05-02, JT",
            "yes",
        ),
        (
            "measured voltage-drop on=\"inverter feed\" voltage=\"2 V\"",
            "Voltage drop",
            "circuit \"inverter feed\"",
            "2 V",
            "no",
        ),
        (
            "measured insulation on=sockets resistance=\"5000000 ohm\"",
            "Insulation",
            "way \"sockets\" in ac-board \"ac board\"",
            "5 MΩ",
            "yes",
        ),
        (
            "measured insulation on=sockets resistance=\"500000 ohm\"",
            "Insulation",
            "way \"sockets\" in ac-board \"ac board\"",
            "500 kΩ",
            "no",
        ),
        ("measured trip-time on=\"ac board\" time=\"0.03 s\"", "Trip time", "ac-board \"ac board\"", "", "yes"),
        ("measured trip-time on=\"ac board\" time=\"0.4 s\"", "Trip time", "ac-board \"ac board\"", "", "no"),
        ("measured volume on=fresh volume=\"68 l\"", "Volume", "tank \"fresh\"", "68 l", "yes"),
        ("measured volume on=fresh volume=\"50 l\"", "Volume", "tank \"fresh\"", "50 l", "no"),
        ("measured axle-mass on=rear scale=\"2450 kg\"", "Mass on the axle", "axle \"rear\"", "2450 kg", "no"),
        ("measured alarm on=\"smoke alarm\" passed=yes", "Sound the alarm", "alarm \"smoke alarm\"", "passed", "yes"),
        ("measured exit on=\"rear doors\" passed=no", "Open from inside", "exit \"rear doors\"", "not passed", "no"),
        // A later line is a later test.
        (
            "measured exit on=\"rear doors\" passed=no\nmeasured exit on=\"rear doors\" passed=yes",
            "Open from inside",
            "exit \"rear doors\"",
            "passed",
            "yes",
        ),
    ];
    for (entry, test, part, measured, passed) in cases {
        let packet = bramble(&format!("{entry}\n"));
        let (told, held) = result(&packet, test, part);
        assert!(measured.is_empty() || told == measured, "{entry}: {told}");
        assert_eq!(held, passed, "{entry}");
    }
    assert_eq!(result(&bramble(""), "Voltage drop", "circuit \"inverter feed\""), (String::new(), String::new()));
}

#[test]
fn a_result_of_nothing_that_is_described_is_told_all_the_same() {
    let packet = bramble("measured volume on=\"no such tank\" volume=\"50 l\"\n");
    let tests = sheet(&packet, "tests");
    let row = tests.rows.iter().find(|row| row.group == "Other results").expect("a row");
    assert!(shown(&packet, tests, row, "expected").contains("no such tank"));
    assert_eq!(shown(&packet, tests, row, "measured"), "50 l");
}

#[test]
fn the_mass_model_is_set_right_by_the_scale_and_the_label_is_made_from_it() {
    let packet = bramble(
        "measured axle-mass on=front scale=\"1400 kg\" date=\"2026-05-02\"\nmeasured wheel-mass on=rear side=left scale=\"700 kg\"\n\
         measured wheel-mass on=rear side=right scale=\"680 kg\" date=\"2026-05-02\"\n",
    );
    let built = sheet(&packet, "as-built");
    let row = |group: &str, title: &str| {
        built
            .rows
            .iter()
            .find(|row| row.group == group && row.part.as_ref().is_some_and(|part| part.title == title))
            .expect("a row")
    };
    let rear = row("As built", "axle \"rear\"");
    assert_eq!(shown(&packet, built, rear, "weighed"), "1380 kg");
    assert_eq!(shown(&packet, built, rear, "left"), "700 kg");
    let number = |row: &packet::Row, key: &str| match &cell(built, row, key).value {
        packet::Value::Quantity(mass) => mass.value,
        other => panic!("{key}: {other:?} in {:?}", row.cells),
    };
    let off = number(rear, "difference");
    assert!((off - (1380.0 - number(rear, "reckoned"))).abs() < 1e-9);
    let laden = row("Set right by the scale: laden, setting out", "axle \"rear\"");
    assert!((number(laden, "set-right") - number(laden, "reckoned") - off).abs() < 1e-9);
    assert!((number(laden, "margin") - (2400.0 - number(laden, "set-right"))).abs() < 1e-9);
    let whole = built.rows.iter().find(|row| row.kind == RowKind::Total).expect("the vehicle");
    assert_eq!(shown(&packet, built, whole, "weighed"), "2780 kg");
    let labels = sheet(&packet, "labels");
    let texts: Vec<String> = labels.rows.iter().map(|row| shown(&packet, labels, row, "text")).collect();
    assert!(texts.contains(&"Mass as built, weighed: 2780 kg, 2026-05-02".to_owned()), "{texts:?}");
    // One axle alone makes no label.
    let half = bramble("measured axle-mass on=front scale=\"1400 kg\"\n");
    let labels = sheet(&half, "labels");
    assert!(labels.rows.iter().any(|row| shown(&half, labels, row, "text") == "Mass as built: not weighed"));
}

#[test]
fn an_approval_stands_until_the_text_changes_and_is_no_part_of_its_mark() {
    let plain = "build Wren {\n    stage draft\n    purpose \"a test\"\n}\nlamp bench power=\"18 W\"\n";
    let hash = text(plain).head.hash;
    for (lead, approval, tail) in [
        ("", format!("    approved \"{hash}\" date=\"2026-03-20\" by=\"plan office\"\n"), ""),
        ("", format!("    approved \"{}\" {{ by \"plan office\"; }}\n", &hash[..12]), ""),
        ("    approved \"000000000000\"\n", format!("    approved \"{hash}\"\n"), ""),
    ] {
        let with = plain.replace("    purpose", &format!("{lead}{approval}{tail}    purpose"));
        let packet = text(&with);
        assert_eq!(packet.head.hash, hash, "{approval}");
        assert!(packet.head.approved.expect("an approval").stands, "{approval}");
        let changed = text(&with.replace("18 W", "19 W"));
        assert_ne!(changed.head.hash, hash);
        assert!(!changed.head.approved.expect("an approval").stands, "{approval}");
    }
    // Beside something else on its line only the approval itself is left out.
    let one_line = "build Wren { stage draft; approved \"0123456789ab\"; units metric; }\n";
    let other = "build Wren { stage draft; approved \"0123456789ab\"; units us; }\n";
    assert_ne!(text(one_line).head.hash, text(other).head.hash);
    assert!(text(plain).head.approved.is_none());
    // A mark that is too short to know a text by is none.
    let short = plain.replace("    purpose", &format!("    approved \"{}\"\n    purpose", &hash[..4]));
    assert!(!text(&short).head.approved.expect("an approval").stands);
}

#[test]
fn boards_and_jobs_have_their_lists() {
    let packet = text(
        "build Wren { stage draft; }\nfurnishing galley { board side count=2 size=\"900 x 550 mm\" thickness=\"15 mm\" material=\"poplar plywood\"; \
         board top size=\"1200 x 600 mm\" thickness=\"15 mm\" material=\"poplar plywood\"; board back thickness=\"4 mm\"; }\n\
         lamp bench power=\"18 W\"\njob \"hang the lamp\" station=electrics hours=\"1 h\" after=\"line the walls\" { covers bench nothing; hold \"polarity seen\" by=foreman; }\n",
    );
    let list = sheet(&packet, "cut-list");
    let sum =
        list.rows.iter().find(|row| row.kind == RowKind::Total && row.group.starts_with("poplar")).expect("a sum");
    match &cell(list, sum, "area").value {
        packet::Value::Quantity(area) => {
            assert!((area.value - (2.0 * 0.9 * 0.55 + 1.2 * 0.6)).abs() < 1e-9, "{}", area.value);
        }
        other => panic!("{other:?}"),
    }
    let jobs = sheet(&packet, "jobs");
    assert!(jobs.rows.iter().all(|row| row.group == "electrics"));
    assert_eq!(shown(&packet, jobs, &jobs.rows[0], "parts"), "lamp \"bench\"");
    assert_eq!(shown(&packet, jobs, &jobs.rows[0], "not-described"), "nothing");
    assert!(shown(&packet, jobs, &jobs.rows[0], "after").contains("no such job"));
    assert_eq!(shown(&packet, jobs, &jobs.rows[1], "step"), "HOLD: polarity seen (foreman)");
}
