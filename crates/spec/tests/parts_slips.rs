//! Words that the vocabulary does not know, or knows elsewhere; and lines that could not be read.

mod parts_support;

use parts_support::{all, mended, number, part, read, slips, value};
use spec::Value;
use vocabulary::kind;

#[test]
fn an_unknown_part_is_named_with_the_word_that_is_meant() {
    for (text, at, meant) in [
        ("baterry house", "baterry", Some("battery")),
        ("bank house", "bank", Some("battery")),
        ("accumulator house", "accumulator", Some("battery")),
        ("hob gas", "hob", Some("cooker")),
        ("light l", "light", Some("lamp")),
        ("circuit c { cable size=\"4 mm2\"; }", "cable", Some("wire")),
        ("circuit c { MCB rating=\"4 A\"; }", "MCB", Some("breaker")),
        ("circuit c { fues rating=\"4 A\"; }", "fues", Some("fuse")),
        ("shell roof { layr steel \"1 mm\"; }", "layr", Some("layer")),
        ("xylophone x", "xylophone", None),
        ("battery b { xylophone; }", "xylophone", None),
        ("run r", "run", None),
    ] {
        let spec = read(text);
        assert_eq!(slips(&spec), [("text/unknown-part", at)], "{text}");
        let slip = &spec.slips[0];
        assert!(slip.help.is_some(), "{text}");
        match meant {
            None => assert!(slip.mend.is_none(), "{text}: {:?}", slip.mend),
            Some(meant) => {
                assert_eq!(slip.mend.as_ref().map(|mend| &*mend.text), Some(meant), "{text}");
                let text = mended(&spec, slip);
                let again = read(&text);
                assert!(again.slips.iter().all(|slip| slip.rule != "text/unknown-part"), "{text}: {:?}", again.slips);
            }
        }
    }
}

#[test]
fn an_unknown_property_is_named_with_the_one_that_is_meant() {
    for (text, at, meant) in [
        ("battery b capcity=\"200 Ah\"", "capcity", Some("capacity")),
        ("battery b { capcity \"200 Ah\"; }", "capcity", Some("capacity")),
        ("battery b weight=\"20 kg\"", "weight", Some("mass")),
        ("battery b { weight \"20 kg\"; }", "weight", Some("mass")),
        ("vehicle GVM=\"3500 kg\"", "GVM", Some("gross-mass")),
        ("circuit c { fuse rating=\"5 A\" AIC=\"2 kA\"; }", "AIC", Some("interrupting")),
        ("lamp l colour=red", "colour", None),
    ] {
        let spec = read(text);
        assert_eq!(slips(&spec), [("text/unknown-property", at)], "{text}");
        let slip = &spec.slips[0];
        assert!(slip.help.is_some(), "{text}");
        assert_eq!(slip.mend.as_ref().map(|mend| &*mend.text), meant, "{text}");
        if meant.is_some() {
            let text = mended(&spec, slip);
            assert_eq!(slips(&read(&text)), [], "{text}");
        }
    }
}

#[test]
fn what_is_nearly_a_property_is_unknown_and_not_absent() {
    // The builder said something of the edge; what, cannot be told. `none` must not be taken in its place.
    for (text, part_word, property) in [
        ("route r edgee=grommet", "route", "edge"),
        ("panel p { way 1 lamp fues=\"5 A\" wire=\"1.5 mm2\"; }", "way", "fuse"),
        ("build B { stge review; }", "build", "stage"),
        ("cooker c feul=gas", "cooker", "fuel"),
    ] {
        let spec = read(text);
        assert_eq!(spec.slips.len(), 1, "{text}: {:?}", spec.slips);
        assert_eq!(value(part(&spec, part_word), property), Some(&Value::Unknown), "{text}");
    }
    // What is said properly beside it counts.
    let spec = read("route r edgee=grommet edge=gland");
    assert_eq!(slips(&spec), [("text/unknown-property", "edgee")]);
    assert!(matches!(value(part(&spec, "route"), "edge"), Some(Value::Choice(_))));
}

#[test]
fn a_part_out_of_place_says_where_it_stands() {
    for (text, at, place) in [
        ("fuse rating=\"5 A\"", "fuse", "inside `circuit`"),
        ("battery b { wire size=\"4 mm2\"; }", "wire", "inside `circuit`"),
        ("circuit c { battery b; }", "battery", "at the top of a file"),
        ("panel p { circuit c { fuse rating=\"5 A\"; }; }", "circuit", "at the top of a file"),
        ("none gas", "none", "inside `build`"),
    ] {
        let spec = read(text);
        assert_eq!(slips(&spec), [("text/part-out-of-place", at)], "{text}");
        assert!(
            spec.slips[0].help.as_ref().is_some_and(|help| help.contains(place)),
            "{text}: {:?}",
            spec.slips[0].help
        );
    }
}

#[test]
fn what_is_passed_over_leaves_the_lists_of_its_kinds_incomplete() {
    let spec = read("pannel p { way 1 lamp fuse=\"5 A\"; }\nlamp lamp");
    for kind in [kind::PANEL, kind::WAY] {
        assert!(spec.incomplete.concerns(kind), "{kind:?}: a misspelt panel hides its ways too");
    }
    assert!(!spec.incomplete.concerns(kind::BATTERY));
    let spec = read("water-lin cold { pump p; branch { tap t; }; }");
    for kind in [kind::WATER_LINE, kind::PUMP, kind::TAP] {
        assert!(spec.incomplete.concerns(kind), "{kind:?}");
    }
    let spec = read("circuit c { fues rating=\"5 A\"; wire size=\"4 mm2\"; }");
    assert!(part(&spec, "circuit").incomplete.concerns(kind::FUSE));
    assert!(!part(&spec, "circuit").incomplete.concerns(kind::WIRE));
    let spec = read("xylophone x\nlamp l");
    assert_eq!(spec.incomplete, spec::Incomplete::default(), "a word that is near none of ours hides none of ours");
}

#[test]
fn a_line_that_cannot_be_read_still_declares_its_kind_and_name() {
    let spec = read("battery house chemistry= capacity=\"200 Ah\"\nlamp l power=\"5 W\"\n");
    assert!(!spec.slips.is_empty());
    let house = part(&spec, "battery");
    assert!(house.unread);
    assert_eq!(&*house.name.as_ref().expect("still named").text, "house");
    assert!(spec.incomplete.concerns(kind::BATTERY));
    assert!(!spec.incomplete.every, "the lamp's list is complete");
    assert!(!spec.incomplete.concerns(kind::LAMP));
    assert!((number(part(&spec, "lamp"), "power") - 5.0).abs() < 1e-12);
}

#[test]
fn an_unread_line_inside_a_part_leaves_the_rest_of_it_read() {
    let spec = read("circuit c from=a to=b {\n    fuse rating=\n    wire size=\"4 mm2\" one-way=\"2 m\"\n}\n");
    let circuit = part(&spec, "circuit");
    assert!(!circuit.unread);
    assert!(circuit.incomplete.concerns(kind::FUSE), "{circuit:?}");
    assert!((number(part(&spec, "wire"), "one-way") - 2.0).abs() < 1e-12);
    // A property's line that cannot be read is unknown, and not absent.
    let spec = read("battery b {\n    capacity \"200 Ah\n    voltage \"12 V\"\n}\nlamp l\n");
    assert!(!spec.slips.is_empty());
    assert!(all(&spec.parts).iter().any(|part| part.kind == kind::BATTERY));
    let spec = read("battery b {\n    capacity =\n    voltage \"12 V\"\n}\n");
    let battery = part(&spec, "battery");
    assert!(value(battery, "capacity") == Some(&Value::Unknown) || battery.incomplete.every, "{battery:?}");
    assert!((number(battery, "voltage") - 12.0).abs() < 1e-12);
}

#[test]
fn a_zero_where_there_can_be_none_is_unknown() {
    for (text, at) in [
        ("circuit c { wire one-way=\"0 m\"; }", "\"0 m\""),
        ("circuit c { wire loop=\"0 ft\"; }", "\"0 ft\""),
        ("circuit c { fuse rating=\"0 A\"; }", "\"0 A\""),
        ("panel p { way 1 l fuse=\"0 A\"; }", "\"0 A\""),
        ("battery b voltage=\"0 V\"", "\"0 V\""),
        ("battery b { capacity \"0 Ah\"; }", "\"0 Ah\""),
    ] {
        let spec = read(text);
        assert_eq!(slips(&spec), [("text/zero-quantity", at)], "{text}");
        let slip = &spec.slips[0];
        assert!(slip.help.as_ref().is_some_and(|help| help.contains("unknown")), "{text}: {:?}", slip.help);
    }
    // What may well be nothing: a power, a duty, a distance to a wall.
    for text in ["lamp l power=\"0 W\"", "fan f duty=\"0 h/d\"", "heater h { hot-surface clearance=\"0 mm\"; }"] {
        assert_eq!(slips(&read(text)), [], "{text}");
    }
}

#[test]
fn what_a_line_refers_to_may_be_unknown() {
    for (text, told) in [
        ("panel p { way 1 unknown fuse=\"5 A\"; }", &[][..]),
        ("controller c { operates unknown on-failure=off; }", &[]),
        // In quotes it is a name as any other, and no name at all is a slip.
        ("panel p { way 1 \"unknown\" fuse=\"5 A\"; }", &[]),
        ("panel p { way 1 fuse=\"5 A\"; }", &["text/missing-name"]),
    ] {
        let rules: Vec<_> = read(text).slips.iter().map(|slip| slip.rule).collect();
        assert_eq!(rules, told, "{text}");
    }
}
