//! `modes`, and the case in what a review tells, by the program itself.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use workshop::Workshop;

/// A van whose wired alarm hangs on a battery with management, and whose heater stands behind the isolator.
const BUILD: &str = r#"build Wren { stage review; basis eu; }
vehicle class=van
battery house chemistry=LFP voltage="12.8 V" capacity="100 Ah" { management cuts=both; }
busbar main rating="100 A"
circuit "house main" from=house to=main { fuse rating="80 A" class=T; disconnect isolator rating="100 A"; wire size="25 mm2" one-way="1 m"; }
circuit "alarm feed" from=house to="co alarm" { fuse rating="3 A" class=T; wire size="1 mm2" one-way="3 m"; }
circuit "heater feed" from=main to="cabin heater" { fuse rating="15 A" class=T; wire size="4 mm2" one-way="3 m"; }
alarm "co alarm" senses=carbon-monoxide power=wired
heater "cabin heater" fuel=diesel current="1 A"
mode "ferry crossing" as=parked { open isolator; }
"#;

#[test]
fn both_tables_tell_what_lives_and_what_dies() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", BUILD);
    let ran = shop.run(&["modes", "wren.build.kdl"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let after = |heading: &str| ran.out.split_once(heading).map_or("", |(_, after)| after);
    let open = after("What stays live when a disconnect opens");
    let open = open.split("What dies when management").next().unwrap_or_default();
    assert!(open.contains("isolator open") && open.contains("from house: co alarm"), "{}", ran.out);
    assert!(open.contains("Dies          main and cabin heater"), "{}", ran.out);
    let tripped = after("What dies when management cuts off");
    assert!(tripped.contains("management of house tripped"), "{}", ran.out);
    assert!(tripped.contains("main, co alarm and cabin heater"), "{}", ran.out);
    assert!(ran.out.contains("ferry crossing") && ran.out.contains("CAUTION"), "{}", ran.out);
    let plain = shop.run(&["modes", "wren.build.kdl", "--as", "plain"]);
    assert!(plain.out.contains("Mode ferry crossing:\nFeeding: house.\nOpen: isolator.\n"), "{}", plain.out);
    assert_eq!(shop.run(&["modes", "missing.build.kdl"]).status, 2);
}

#[test]
fn a_finding_of_one_mode_names_it_in_every_form() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", BUILD);
    let mode = "in mode \"management of house tripped\"";
    for (form, wanted) in [
        ("terminal", mode.to_owned()),
        ("plain", format!("Worst case: {mode}.")),
        ("json", format!("\"case\":\"{}\"", mode.replace('"', "\\\""))),
        ("sarif", format!("\"case\":\"{}\"", mode.replace('"', "\\\""))),
        ("github", format!("Worst case: {mode}.")),
        ("gitlab", format!("Worst case: {}.", mode.replace('"', "\\\""))),
        ("markdown", "management of house tripped".to_owned()),
        ("junit", "management of house tripped".to_owned()),
    ] {
        let ran = shop.run(&["review", "wren.build.kdl", "--as", form]);
        // However the JSON is laid out.
        let out = ran.out.replace("\"case\": ", "\"case\":");
        assert!(out.contains(&wanted), "{form}: {}", ran.out);
        // What does not differ by mode names none.
        let lines: Vec<&str> = ran.out.lines().filter(|line| line.contains("in mode \"parked\"")).collect();
        assert!(lines.is_empty(), "{form}: {lines:?}");
    }
}

#[test]
fn the_working_of_a_fact_that_differs_by_mode_has_a_row_for_each() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", BUILD);
    let ran = shop.run(&["working", "wren.build.kdl", "cabin heater", "fed", "--as", "plain"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    for wanted in [
        "fed, in mode \"parked\" of heater \"cabin heater\" = yes",
        "fed, in mode \"isolator open\" of heater \"cabin heater\" = no",
        "fed, in mode \"ferry crossing\" of heater \"cabin heater\" = no",
    ] {
        assert!(ran.out.contains(wanted), "{wanted}: {}", ran.out);
    }
}
