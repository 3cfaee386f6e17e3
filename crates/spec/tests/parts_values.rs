//! Properties and arguments: how they are written, what their absence says, and what happens to a value that cannot be read.

mod parts_support;

use parts_support::{mended, number, part, read, slips, text_at, value, word};
use spec::{Value, implied_value};
use vocabulary::{Absent, fact as f};

#[test]
fn absence_says_for_each_property_what_the_vocabulary_says() {
    let spec = read("inverter i power=\"2000 VA\"\nberth b\nlamp l\n");
    assert_eq!(slips(&spec), []);
    for (kind, property) in [("inverter", "efficiency"), ("berth", "sleeps"), ("lamp", "power")] {
        assert_eq!(
            value(part(&spec, kind), property),
            None,
            "{kind} {property}: nothing is written, so nothing is given"
        );
    }
    // The value behind an absence is the vocabulary's, and always one that the reader itself can read.
    for fact in vocabulary::facts().iter().filter(|fact| fact.given) {
        let implied = implied_value(fact);
        match fact.absent {
            Absent::Means(_) | Absent::Assume { .. } => assert!(implied.is_some(), "{} of {:?}", fact.name, fact.part),
            Absent::Required | Absent::Unknown => assert_eq!(implied, None, "{}", fact.name),
        }
    }
    let efficiency = implied_value(vocabulary::fact_spec(f::inverter::EFFICIENCY));
    assert!(matches!(efficiency, Some(Value::Quantity(share)) if (share.value - 0.92).abs() < 1e-12));
}

#[test]
fn a_required_entry_that_is_missing_is_named_at_the_first_line() {
    for (text, entry, at) in [
        ("cooker hob output=\"3 kW\"", "fuel", "cooker hob"),
        ("include", "file", "include"),
        ("waive on=x reason=y", "rule", "waive"),
    ] {
        let spec = read(text);
        let found = slips(&spec);
        assert_eq!(found, [("text/missing-entry", at)], "{text}");
        assert!(spec.slips[0].message.contains(&format!("`{entry}`")), "{}", spec.slips[0].message);
        assert!(spec.slips[0].help.as_ref().is_some_and(|help| help.contains(entry)), "{text}");
    }
}

#[test]
fn the_word_unknown_is_a_value_and_in_quotes_it_is_a_text() {
    let text = "battery b chemistry=unknown voltage=unknown note=unknown zone=unknown at=unknown cost=unknown {\n    capacity unknown\n}\nalarm a senses=unknown { at unknown; }\nbuild B { basis unknown; stage unknown; }\naxle front at=unknown\n";
    let spec = read(text);
    assert_eq!(slips(&spec), [("text/part-out-of-place", "axle")]);
    let battery = part(&spec, "battery");
    for property in ["chemistry", "voltage", "note", "zone", "at", "cost", "capacity"] {
        assert_eq!(value(battery, property), Some(&Value::Unknown), "{property}");
    }
    for (kind, property) in [("alarm", "senses"), ("alarm", "at"), ("build", "basis"), ("build", "stage")] {
        assert_eq!(value(part(&spec, kind), property), Some(&Value::Unknown), "{kind} {property}");
    }
    let quoted = read("battery b note=\"unknown\"");
    assert_eq!(value(part(&quoted, "battery"), "note"), Some(&Value::Text("unknown".into())));
    // A required entry that is said to be unknown is there.
    let cooker = read("cooker hob fuel=unknown");
    assert_eq!(slips(&cooker), []);
    assert_eq!(value(part(&cooker, "cooker"), "fuel"), Some(&Value::Unknown));
}

#[test]
fn a_property_reads_the_same_beside_the_name_and_on_a_line_of_its_own() {
    for (kind, property, written) in [
        ("battery", "capacity", "\"200 Ah\""),
        ("battery", "chemistry", "LFP"),
        ("battery", "from", "\"4320, -870, 20 mm\""),
        ("battery", "size", "\"520 x 270 x 230 mm\""),
        ("battery", "mass", "\"101 lb\""),
        ("battery", "zone", "locker"),
        ("alarm", "senses", "\"smoke, carbon-monoxide\""),
        ("berth", "sleeps", "2"),
        ("berth", "folds", "yes"),
        ("berth", "cost", "\"120 EUR\""),
        ("exit", "clear", "\"820 x 1600 mm\""),
        ("busbar", "bond", "\"2/0 AWG\""),
        ("circuit", "to", "\"main positive\""),
    ] {
        let beside = read(&format!("{kind} x {property}={written}"));
        let inside = read(&format!("{kind} x {{\n    {property} {written}\n}}"));
        let same_line = read(&format!("{kind} x {{ {property} {written}; }}"));
        assert_eq!(slips(&beside), [], "{kind} {property}");
        let one = value(part(&beside, kind), property);
        assert!(one.is_some(), "{kind} {property}");
        for other in [&inside, &same_line] {
            assert_eq!(slips(other), [], "{kind} {property}");
            assert_eq!(one, value(part(other, kind), property), "{kind} {property}");
        }
    }
    // Several words of a set stand in one text or one after the other on the line.
    let one = read("build B { basis \"eu, us\"; }");
    let other = read("build B { basis eu us; }");
    assert_eq!(value(part(&one, "build"), "basis"), Some(&Value::ChoiceSet(0b11)));
    assert_eq!(value(part(&other, "build"), "basis"), Some(&Value::ChoiceSet(0b11)));
}

#[test]
fn arguments_are_read_by_their_position() {
    let spec = read(
        "panel p {\n    way 7 \"water pump\" fuse=\"5 A\"\n    way \"roof fan\" 8 fuse=\"5 A\"\n}\nvehicle { axle front at=\"0 mm\"; }\nshell roof { layer steel \"1.0 mm\"; }\nbattery b { restraint \"two straps\" holds forward=\"20 g\"; }\nheater h { restraint holds \"a strap\" up=\"8 g\"; }\nshore { cord \"3 x 2.5 mm2\" one-way=\"25 m\"; to board wire=\"14 AWG\"; }\nbuild B { none gas toilet; revision C date=\"2026-03-14\"; }\nzone z { vent low free-area=\"40 cm2\" to=outside; }\n",
    );
    assert_eq!(slips(&spec), []);
    let panel = part(&spec, "panel");
    let ways: Vec<(&str, f64)> =
        panel.inside.iter().map(|way| (&*way.name.as_ref().expect("named").text, number(way, "number"))).collect();
    assert_eq!(ways, [("water pump", 7.0), ("roof fan", 8.0)]);
    assert_eq!(&*part(&spec, "axle").name.as_ref().expect("named").text, "front");
    let layer = part(&spec, "layer");
    assert_eq!(value(layer, "material"), Some(&Value::Text("steel".into())));
    assert!((number(layer, "thickness") - 0.001).abs() < 1e-12);
    for owner in ["battery", "heater"] {
        let restraint = part(&spec, owner).inside.first().expect("a restraint");
        assert!(matches!(value(restraint, "means"), Some(Value::Text(means)) if means.contains("strap")), "{owner}");
    }
    assert!((number(part(&spec, "restraint"), "forward") - 20.0 * 9.806_65).abs() < 1e-9);
    assert!(matches!(value(part(&spec, "cord"), "cores"), Some(Value::Cores(cores)) if cores.count == 3));
    assert_eq!(&*part(&spec, "to").name.as_ref().expect("named").text, "board");
    assert!(matches!(value(part(&spec, "none"), "systems"), Some(Value::Names(names)) if names.len() == 2));
    assert_eq!(value(part(&spec, "revision"), "revision"), Some(&Value::Text("C".into())));
    assert_eq!(word(part(&spec, "vent"), "height"), "low");
}

/// A text with one slip: the rule, what its span covers, what its message and help must say, and whether a mend is due.
struct Misread {
    text: &'static str,
    rule: &'static str,
    at: &'static str,
    says: &'static [&'static str],
    mend: Option<&'static str>,
}

const MISREADS: &[Misread] = &[
    Misread {
        text: "battery b capacity=\"200 A\"",
        rule: "text/value-not-understood",
        at: "A",
        says: &["capacity"],
        mend: None,
    },
    Misread {
        text: "battery b capacity=\"200 blah\"",
        rule: "text/value-not-understood",
        at: "blah",
        says: &["capacity", "200 Ah"],
        mend: None,
    },
    Misread {
        text: "battery b capacity=200",
        rule: "text/value-not-understood",
        at: "200",
        says: &["capacity", "unit"],
        mend: None,
    },
    Misread {
        text: "battery b voltage=\"25,6 V\"",
        rule: "text/value-not-understood",
        at: "25,6",
        says: &["voltage", "25.6"],
        mend: Some("25.6 V"),
    },
    Misread {
        text: "battery b voltage=\"-24 V\"",
        rule: "text/value-not-understood",
        at: "-",
        says: &["voltage", "negative"],
        mend: None,
    },
    Misread {
        text: "circuit c { wire size=\"4 mm\"; }",
        rule: "text/value-not-understood",
        at: "mm",
        says: &["size"],
        mend: None,
    },
    Misread {
        text: "tank t volume=\"5 gal\"",
        rule: "text/value-not-understood",
        at: "gal",
        says: &["volume", "galUS"],
        mend: None,
    },
    Misread {
        text: "berth b sleeps=\"two\"",
        rule: "text/value-not-understood",
        at: "\"two\"",
        says: &["sleeps", "whole number"],
        mend: None,
    },
    Misread { text: "berth b sleeps=-1", rule: "text/value-not-understood", at: "-1", says: &["sleeps"], mend: None },
    Misread {
        text: "build B { revision A date=\"14.3.2026\"; }",
        rule: "text/value-not-understood",
        at: "\"14.3.2026\"",
        says: &["date", "2026-03-14"],
        mend: None,
    },
    Misread {
        text: "battery b chemistry=lfp",
        rule: "text/not-a-choice",
        at: "lfp",
        says: &["chemistry", "LFP"],
        mend: Some("LFP"),
    },
    Misread {
        text: "battery b chemistry=\"agm\"",
        rule: "text/not-a-choice",
        at: "\"agm\"",
        says: &["AGM"],
        mend: Some("AGM"),
    },
    Misread {
        text: "build B { stage Review; }",
        rule: "text/not-a-choice",
        at: "Review",
        says: &["review"],
        mend: Some("review"),
    },
    Misread {
        text: "build B { stage reviw; }",
        rule: "text/not-a-choice",
        at: "reviw",
        says: &["draft", "issued"],
        mend: Some("review"),
    },
    Misread {
        text: "build B { basis eu usa; }",
        rule: "text/not-a-choice",
        at: "usa",
        says: &["au-nz"],
        mend: Some("us"),
    },
    Misread { text: "berth b folds=#true", rule: "text/not-a-choice", at: "#true", says: &["yes"], mend: Some("yes") },
    Misread { text: "berth b folds=Yes", rule: "text/not-a-choice", at: "Yes", says: &["yes"], mend: Some("yes") },
    Misread {
        text: "battery b capacity=#null",
        rule: "text/value-not-understood",
        at: "#null",
        says: &["capacity", "unknown"],
        mend: Some("unknown"),
    },
    Misread {
        text: "alarm a senses=\"smoke, heet\"",
        rule: "text/not-a-choice",
        at: "heet",
        says: &["heat"],
        mend: Some("smoke, heat"),
    },
];

#[test]
fn a_misread_value_is_named_at_its_narrowest_place_and_its_mend_reads_cleanly() {
    for case in MISREADS {
        let spec = read(case.text);
        assert_eq!(slips(&spec), [(case.rule, case.at)], "{}: {:?}", case.text, spec.slips);
        let slip = &spec.slips[0];
        let said = format!("{} {}", slip.message, slip.help.clone().unwrap_or_default());
        for essential in case.says {
            assert!(said.contains(essential), "{}: {said:?} does not say {essential:?}", case.text);
        }
        match case.mend {
            None => assert!(slip.mend.is_none(), "{}: {:?}", case.text, slip.mend),
            Some(expected) => {
                let text = mended(&spec, slip);
                assert!(text.contains(expected), "{text}");
                assert_eq!(slips(&read(&text)), [], "{text}");
            }
        }
        // What could not be read is unknown, and not absent.
        let unknown = parts_support::all(&spec.parts)
            .into_iter()
            .flat_map(|part| &part.given)
            .filter(|given| given.value == Value::Unknown)
            .count();
        assert_eq!(unknown, 1, "{}", case.text);
    }
}

#[test]
fn the_span_stays_right_behind_letters_of_several_bytes_and_falls_back_on_the_whole_of_an_escaped_text() {
    let spec = read("battery \"größe ☂\" note=\"日本\" capacity=\"200 blah\"");
    assert_eq!(slips(&spec), [("text/value-not-understood", "blah")]);
    let spec = read("battery b capacity=\"20\\u{30} blah\"");
    assert_eq!(slips(&spec), [("text/value-not-understood", "\"20\\u{30} blah\"")]);
    let spec = read("battery b capacity=#\"200 blah\"#");
    assert_eq!(slips(&spec), [("text/value-not-understood", "#\"200 blah\"#")]);
}

#[test]
fn of_a_property_said_twice_neither_counts_and_the_slip_says_where_it_was_first() {
    for text in [
        "battery b capacity=\"200 Ah\" capacity=\"100 Ah\"",
        "battery b capacity=\"200 Ah\" { capacity \"100 Ah\"; }",
        "battery b { capacity \"200 Ah\"; capacity \"100 Ah\"; }",
    ] {
        let spec = read(text);
        assert_eq!(slips(&spec), [("text/property-twice", "\"100 Ah\"")], "{text}");
        assert_eq!(text_at(&spec, &spec.slips[0].related[0].0), "\"200 Ah\"");
        assert_eq!(
            value(part(&spec, "battery"), "capacity"),
            Some(&Value::Unknown),
            "which of the two is meant cannot be told"
        );
    }
    let same = read("battery b capacity=\"200 Ah\" { capacity \"200 Ah\"; }");
    assert_eq!(slips(&same), [("text/property-twice", "\"200 Ah\"")]);
    assert!(
        (number(part(&same, "battery"), "capacity") - 720_000.0).abs() < 1e-6,
        "both say the same: 200 Ah × 3600 s"
    );
}

#[test]
fn more_than_a_part_takes_is_reported_and_changes_nothing() {
    for (text, at) in [
        ("battery house main", "main"),
        ("shell roof { layer steel \"1 mm\" shiny; }", "shiny"),
        ("battery b { capacity \"200 Ah\" \"100 Ah\"; }", "\"100 Ah\""),
        ("battery b { capacity \"200 Ah\" voltage=\"12 V\"; }", "voltage=\"12 V\""),
        ("vehicle van", "van"),
        ("battery b { capacity \"200 Ah\" { restraint strap; }; }", "restraint"),
        ("build B { basis eu { none gas; }; }", "none"),
    ] {
        let spec = read(text);
        assert_eq!(slips(&spec), [("text/too-much", at)], "{text}");
        assert!(spec.slips[0].help.is_some(), "{text}");
    }
}

#[test]
fn a_missing_or_empty_name_is_reported_once() {
    for (text, at) in [
        ("battery capacity=\"200 Ah\"", "battery"),
        ("panel p { way 1 fuse=\"5 A\"; }", "way"),
        ("battery \"\"", "\"\""),
        ("battery \"  \" capacity=\"200 Ah\"", "\"  \""),
        ("circuit { fuse rating=\"5 A\"; }", "circuit"),
        ("shore { to wire=\"2.5 mm2\"; }", "to"),
    ] {
        let spec = read(text);
        assert_eq!(slips(&spec), [("text/missing-name", at)], "{text}");
    }
}
