//! `defaults`, `like=` and `include`: what a part takes from elsewhere, and that its origin is kept.

mod parts_support;

use parts_support::{all, mended, named, number, part, read, read_files, slips, text_at, value, word};
use spec::{Part, Spec, Value, Via};
use vocabulary::kind;

fn via<'a>(spec: &'a Spec, part: &'a Part, property: &str) -> Option<(&'static str, &'a str)> {
    let fact = vocabulary::part(part.kind).fact(property)?.id;
    part.given(fact)?.via.as_ref().map(|via| match via {
        Via::Include(at) => ("include", text_at(spec, at)),
        Via::Like(at) => ("like", text_at(spec, at)),
        Via::Defaults(at) => ("defaults", text_at(spec, at)),
    })
}

#[test]
fn defaults_fill_wires_ways_and_shore_wires_and_an_own_value_wins() {
    let spec = read(
        "defaults { wire insulation=\"105 degC\" strands=flexible return=pair size=\"4 mm2\" passes=metal; }\ncircuit c { wire one-way=\"2 m\" strands=solid; }\npanel p { way 1 lamp fuse=\"5 A\" return=chassis; }\nshore { to board one-way=\"0.6 m\" insulation=\"70 degC\"; }\n",
    );
    assert_eq!(slips(&spec), []);
    let wire = spec
        .parts
        .iter()
        .find(|part| part.kind == kind::CIRCUIT)
        .and_then(|circuit| circuit.inside.first())
        .expect("wire");
    assert!((number(wire, "insulation") - 378.15).abs() < 1e-9, "105 + 273.15 K");
    assert_eq!((word(wire, "strands"), word(wire, "passes")), ("solid", "metal"));
    assert!(matches!(value(wire, "size"), Some(Value::WireSize(_))));
    let (kind, at) = via(&spec, wire, "insulation").expect("an origin");
    assert_eq!(kind, "defaults");
    assert!(at.starts_with("wire insulation"), "{at}");
    assert!(value(wire, "strands").is_some());
    assert_eq!(via(&spec, wire, "strands"), None, "an own value has no other origin");
    let way = part(&spec, "way");
    assert_eq!((word(way, "return"), word(way, "strands"), word(way, "passes")), ("chassis", "flexible", "metal"));
    assert_eq!(via(&spec, way, "strands").map(|(kind, _)| kind), Some("defaults"));
    assert_eq!(value(way, "wire"), None, "a size is said for each way");
    let to = part(&spec, "to");
    assert!((number(to, "insulation") - 343.15).abs() < 1e-9);
    assert_eq!(word(to, "passes"), "metal");
}

#[test]
fn defaults_reach_no_other_file() {
    let spec = read_files(&[
        (
            "a.build.kdl",
            "include \"b.build.kdl\"\ndefaults { wire insulation=\"105 degC\"; }\ncircuit one { wire size=\"4 mm2\"; }",
        ),
        ("b.build.kdl", "circuit two { wire size=\"4 mm2\"; }"),
    ]);
    assert_eq!(slips(&spec), []);
    assert!(value(&named(&spec, "one").inside[0], "insulation").is_some());
    assert_eq!(value(&named(&spec, "two").inside[0], "insulation"), None);
}

const SHOP: &str = "// shop\nberth \"shop bunk\" {\n    sleeps 2\n    mass \"21 kg\"\n    material plywood\n}\nbattery block chemistry=LFP voltage=\"25.6 V\" {\n    limits charge=\"100 A\"\n    management cuts=both\n}\n";

#[test]
fn a_part_takes_what_it_does_not_say_from_a_pattern_of_a_parts_file() {
    let spec = read_files(&[
        (
            "a.build.kdl",
            "build B { include \"shop.parts.kdl\"; }\nberth bunk like=\"shop bunk\" sleeps=1\nbattery house like=block capacity=\"200 Ah\" { limits charge=\"50 A\"; }",
        ),
        ("shop.parts.kdl", SHOP),
    ]);
    assert_eq!(slips(&spec), []);
    assert_eq!(spec.parts.len(), 3, "what stands in a parts file is no part of the build");
    let bunk = named(&spec, "bunk");
    assert!((number(bunk, "sleeps") - 1.0).abs() < 1e-12, "an own value wins");
    assert!((number(bunk, "mass") - 21.0).abs() < 1e-12);
    assert_eq!(via(&spec, bunk, "mass"), Some(("like", "\"shop bunk\"")));
    let mass = bunk.given.iter().find(|given| given.via.is_some()).expect("taken over");
    assert_eq!(&*spec.files[mass.at.file as usize].name, "shop.parts.kdl", "the value's place is the pattern's");
    let house = named(&spec, "house");
    let limits: Vec<&Part> = house.inside_of(kind::LIMITS).collect();
    assert_eq!(limits.len(), 1, "an own detail takes the place of the pattern's");
    assert!((number(limits[0], "charge") - 50.0).abs() < 1e-12);
    let management = house.inside_of(kind::MANAGEMENT).next().expect("taken over");
    assert!(matches!(&management.via[..], [Via::Like(at)] if text_at(&spec, at) == "block"));
}

#[test]
fn a_part_can_be_like_another_of_the_build_and_like_one_that_is_like_a_third() {
    let spec = read(
        "lamp one like=two\nlamp two like=three power=\"5 W\"\nlamp three power=\"9 W\" duty=\"3 h/d\" voltage=\"24 V\"\nlamp like like=three\n",
    );
    assert_eq!(slips(&spec), []);
    let one = named(&spec, "one");
    assert!((number(one, "power") - 5.0).abs() < 1e-12, "the nearer pattern wins");
    assert!((number(one, "duty") - 0.125).abs() < 1e-12, "3 h of 24 h");
    assert!((number(named(&spec, "like"), "power") - 9.0).abs() < 1e-12);
}

#[test]
fn like_may_stand_on_a_line_of_its_own_and_only_once() {
    let spec = read("lamp one { like two; }\nlamp two power=\"5 W\"\n");
    assert_eq!(slips(&spec), []);
    assert!((number(named(&spec, "one"), "power") - 5.0).abs() < 1e-12);
    let spec = read("lamp one like=two like=three\nlamp two power=\"5 W\"\nlamp three power=\"9 W\"\n");
    assert_eq!(slips(&spec), [("text/property-twice", "three")]);
    assert!((number(named(&spec, "one"), "power") - 5.0).abs() < 1e-12, "the first one counts");
    // A pattern may be called by a number, as any part.
    let spec = read("lamp one like=2\nlamp 2 power=\"5 W\"\n");
    assert_eq!(slips(&spec), []);
    assert!((number(named(&spec, "one"), "power") - 5.0).abs() < 1e-12);
    let spec = read("lamp one { like; }\n");
    assert_eq!(slips(&spec), [("text/value-not-understood", "like")]);
}

#[test]
fn a_circle_of_likenesses_is_reported_for_each_part_in_it_and_ends() {
    for text in ["lamp a like=a", "lamp a like=b\nlamp b like=a", "lamp a like=b\nlamp b like=c\nlamp c like=a"] {
        let spec = read(text);
        let parts = spec.parts.len();
        assert_eq!(spec.slips.len(), parts, "{text}: {:?}", spec.slips);
        assert!(spec.slips.iter().all(|slip| slip.rule == "text/like-in-a-circle"), "{text}");
    }
    // One that leads into a circle of others.
    let spec = read("lamp a like=b\nlamp b like=c power=\"5 W\"\nlamp c like=b");
    assert!(!spec.slips.is_empty());
    assert!((number(named(&spec, "a"), "power") - 5.0).abs() < 1e-12);
}

#[test]
fn a_pattern_that_is_not_there_leaves_nothing_absent() {
    let spec = read("berth bunk like=\"shop bunc\" sleeps=1\nberth \"shop bunk\" sleeps=2\ncooker hob like=nowhere\n");
    assert_eq!(slips(&spec), [("text/like-unknown", "\"shop bunc\""), ("text/like-unknown", "nowhere")]);
    let bunk = named(&spec, "bunk");
    assert!(bunk.unread, "what the pattern would have said is not known");
    let store = read("battery house like=nowhere");
    let house = named(&store, "house");
    assert!(house.incomplete.concerns(vocabulary::kind::RESTRAINT), "the pattern may have held a restraint");
    assert!(!house.incomplete.concerns(vocabulary::kind::ALARM), "a battery holds no alarm, nor does its pattern");
    assert!((number(bunk, "sleeps") - 1.0).abs() < 1e-12, "what the part says itself is");
    let text = mended(&spec, &spec.slips[0]);
    assert_eq!(slips(&read(&text)), [("text/like-unknown", "nowhere")], "{text}");
    // A pattern of another kind is none.
    let spec = read("lamp l like=house\nbattery house");
    assert_eq!(slips(&spec), [("text/like-unknown", "house")]);
}

#[test]
fn a_path_is_taken_over_whole_or_not_at_all_since_its_order_counts() {
    let pattern = "circuit pattern { fuse rating=\"5 A\"; wire size=\"4 mm2\" one-way=\"2 m\"; }\n";
    let whole = read(&format!("{pattern}circuit c like=pattern from=a {{ serves lamp; }}"));
    let words = |part: &Part| part.inside.iter().map(|inner| vocabulary::part(inner.kind).word).collect::<Vec<_>>();
    let mut taken = words(named(&whole, "c"));
    taken.retain(|word| *word != "serves");
    assert_eq!(taken, ["fuse", "wire"], "in the pattern's order");
    // A wire of its own makes it another path: where the pattern's fuse would stand in it cannot be told.
    let own = read(&format!("{pattern}circuit c like=pattern from=a {{ wire size=\"6 mm2\"; serves lamp; }}"));
    assert_eq!(words(named(&own, "c")), ["wire", "serves"]);
}

#[test]
fn includes_share_parts_and_names_and_point_into_the_right_file() {
    let spec = read_files(&[
        ("van/a.build.kdl", "build B { include \"parts/power.build.kdl\"; }\nlamp one like=two"),
        ("van/parts/power.build.kdl", "include \"../more.build.kdl\"\nlamp two power=\"5 W\" colour=red"),
        ("van/more.build.kdl", "battery house"),
    ]);
    assert_eq!(slips(&spec), [("text/unknown-property", "colour")]);
    assert_eq!(&*spec.files[spec.slips[0].at.file as usize].name, "van/parts/power.build.kdl");
    assert!((number(named(&spec, "one"), "power") - 5.0).abs() < 1e-12);
    for (name, file, steps) in
        [("one", "van/a.build.kdl", 0), ("two", "van/parts/power.build.kdl", 1), ("house", "van/more.build.kdl", 1)]
    {
        let part = named(&spec, name);
        assert_eq!(&*spec.files[part.at.file as usize].name, file, "{name}");
        assert_eq!(part.via.len(), steps, "{name}");
    }
    let Via::Include(at) = &named(&spec, "house").via[0] else { panic!("by include") };
    assert_eq!(text_at(&spec, at), "\"../more.build.kdl\"");
}

#[test]
fn includes_that_cannot_be_followed_are_named_where_they_are_written() {
    let spec = read_files(&[("a.build.kdl", "build B { include \"nowhere.parts.kdl\"; }")]);
    assert_eq!(slips(&spec), [("text/include-missing", "\"nowhere.parts.kdl\"")]);
    assert!(spec.incomplete.every, "what the file holds is not known");
    for files in [
        &[("a.build.kdl", "include \"a.build.kdl\"\nlamp l")][..],
        &[("a.build.kdl", "include \"b.build.kdl\"\nlamp l"), ("b.build.kdl", "include \"a.build.kdl\"\nlamp m")],
        &[
            ("a.build.kdl", "include \"b.build.kdl\"\nlamp l"),
            ("b.build.kdl", "include \"c.parts.kdl\""),
            ("c.parts.kdl", "include \"b.build.kdl\""),
        ],
    ] {
        let spec = read_files(files);
        let rules: Vec<&str> = spec.slips.iter().map(|slip| slip.rule).collect();
        assert_eq!(rules, ["text/include-in-a-circle"], "{files:?}");
        assert!(spec.parts.iter().any(|part| part.kind == kind::LAMP));
    }
}

#[test]
fn a_file_included_twice_is_read_once() {
    let spec = read_files(&[
        ("a.build.kdl", "include \"b.build.kdl\"\ninclude \"c.build.kdl\"\ninclude \"b.build.kdl\""),
        ("b.build.kdl", "lamp l power=\"5 W\""),
        ("c.build.kdl", "include \"./b.build.kdl\"\nlamp m"),
    ]);
    assert_eq!(slips(&spec), []);
    assert_eq!(spec.parts.len(), 2);
    assert_eq!(spec.files.len(), 3);
}

#[test]
fn whatever_a_parts_file_includes_is_a_pattern_too() {
    let spec = read_files(&[
        ("a.build.kdl", "include \"b.parts.kdl\"\nlamp l like=deep"),
        ("b.parts.kdl", "include \"c.build.kdl\"\nlamp shallow"),
        ("c.build.kdl", "lamp deep power=\"5 W\""),
    ]);
    assert_eq!(slips(&spec), []);
    assert_eq!(all(&spec.parts).len(), 1);
    assert!((number(named(&spec, "l"), "power") - 5.0).abs() < 1e-12);
}

#[test]
fn an_unreadable_line_in_a_parts_file_leaves_the_pattern_unread() {
    let spec = read_files(&[
        ("a.build.kdl", "include \"shop.parts.kdl\"\nberth bunk like=\"shop bunk\""),
        ("shop.parts.kdl", "berth \"shop bunk\" sleeps=\n"),
    ]);
    assert!(!spec.slips.is_empty());
    assert!(named(&spec, "bunk").unread, "what its pattern says is not known");
    assert_eq!(&*spec.files[spec.slips[0].at.file as usize].name, "shop.parts.kdl");
}
