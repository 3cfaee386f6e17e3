//! A shop's own rules, asked for by the specification itself.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use serde_json::Value;
use workshop::Workshop;

const BUILD: &str = r#"build Wren {
    stage draft
    basis eu
    house-rules "shop/wiring.rules.kdl"
}
battery house chemistry=LFP voltage="12.8 V" capacity="200 Ah"
lamp bench power="18 W"
circuit feed from=house to=bench {
    fuse rating="10 A" class=MIDI
    wire size="1.5 mm2" one-way="4 m"
}
"#;

const RULES: &str = r##"/- kdl-version 2
fixture "lamp" #"""
    build Test { stage review; basis eu; }
    battery house
    lamp bench
    circuit feed from=house to=bench { wire size="1.5 mm2"; }
    """#
rule "wiring/shop-thin" caution about=wire {
    title "Thinner than this shop wires"
    value least any="2.5 mm2" help="the thinnest conductor that this shop fits"
    must "size >= least"
    tell "The wire is {size}."
    why "One size on the shelf is never mixed up."
    remedy "Take {least}."
    source "House rule of the workshop" place="sheet 4" edition="2026" mark=chosen
    example "thinner" fails on="lamp"
    example "as thin as may be" holds on="lamp" { change "1.5 mm2" to="2.5 mm2" }
    example "a size thicker" holds on="lamp" { change "1.5 mm2" to="4 mm2" }
    example "nobody says how thin" open on="lamp" missing="size" { change #"size="1.5 mm2""# to="" }
}
"##;

fn found(shop: &Workshop, file: &str) -> Vec<(String, String)> {
    let ran = shop.run(&["review", file, "--as", "json"]);
    let review: Value = serde_json::from_str(&ran.out).expect("JSON");
    let findings = review["findings"].as_array().expect("findings");
    let text = |value: &Value| value.as_str().expect("text").to_owned();
    findings.iter().map(|one| (text(&one["rule"]), text(&one["message"]))).collect()
}

fn of_house(shop: &Workshop) -> Vec<(String, String)> {
    let mut all = found(shop, "wren.build.kdl");
    all.retain(|(rule, _)| rule == "wiring/shop-thin" || rule == "text/house-rules-unread");
    all
}

#[test]
fn a_house_rule_judges_the_builds_that_name_it() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", BUILD).write("shop/wiring.rules.kdl", RULES);
    let all = of_house(&shop);
    assert_eq!(all.len(), 1, "{all:?}");
    assert!(all[0].0 == "wiring/shop-thin" && all[0].1.contains("1.5 mm²"), "{all:?}");
    // At the boundary it holds; a build that does not name it is not judged by it.
    shop.write("wren.build.kdl", BUILD.replace("1.5 mm2", "2.5 mm2"));
    assert_eq!(of_house(&shop), []);
    shop.write("wren.build.kdl", BUILD.replace("    house-rules \"shop/wiring.rules.kdl\"\n", ""));
    assert_eq!(of_house(&shop), []);
    // The rule is one like any other: it can be waived.
    let waived = format!("{BUILD}waive \"wiring/shop-thin\" on=feed reason=\"lamp of the client\" by=\"A. Fitter\"\n");
    shop.write("wren.build.kdl", waived);
    assert_eq!(of_house(&shop), []);
}

#[test]
fn house_rules_may_be_named_by_an_included_file() {
    let shop = Workshop::new();
    shop.write("shop/wiring.rules.kdl", RULES)
        .write("shop/standard.build.kdl", "house-rules \"wiring.rules.kdl\"\n")
        .write(
            "wren.build.kdl",
            BUILD.replace("house-rules \"shop/wiring.rules.kdl\"", "include \"shop/standard.build.kdl\""),
        );
    assert_eq!(of_house(&shop).len(), 1);
}

#[test]
fn house_rules_that_cannot_judge_are_told_of() {
    let faulty = RULES.replace("size >= least", "siz >= least");
    let taken = RULES.replace("wiring/shop-thin", "wiring/too-thin");
    for (rules, said, points) in [
        (None, "there is no such file", 0),
        (Some(faulty.as_str()), "these house rules have a fault, and none of them judges this build", 1),
        (Some(taken.as_str()), "these house rules have a fault", 1),
        (Some("rule \"wiring/x"), "none of them judges this build", 1),
        (Some("\u{0}"), "none of them judges this build", 1),
    ] {
        let shop = Workshop::new();
        shop.write("wren.build.kdl", BUILD);
        if let Some(rules) = rules {
            shop.write("shop/wiring.rules.kdl", rules);
        }
        let all = of_house(&shop);
        assert_eq!(all.len(), 1, "{rules:?}: {all:?}");
        assert!(all[0].0 == "text/house-rules-unread" && all[0].1.contains(said), "{rules:?}: {all:?}");
        let ran = shop.run(&["review", "wren.build.kdl", "--as", "json"]);
        let review: Value = serde_json::from_str(&ran.out).expect("JSON");
        let findings = review["findings"].as_array().expect("findings");
        let told = findings.iter().find(|one| one["rule"] == "text/house-rules-unread").expect("the finding");
        let related = told["related"].as_array().expect("related");
        assert!(related.len() >= points, "{told}");
        for place in related {
            assert!(place["file"].as_str().is_some_and(|file| file.ends_with("wiring.rules.kdl")), "{place}");
        }
        // Everything else is judged as before.
        assert!(found(&shop, "wren.build.kdl").len() > 1);
        let shown = shop.run(&["review", "wren.build.kdl"]);
        assert!(shown.status == 1 && shown.out.contains("These house rules"), "{}", shown.out);
    }
}

#[test]
fn what_is_named_must_be_a_rule_file() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", BUILD.replace("wiring.rules.kdl", "wiring.txt")).write("shop/wiring.txt", "secret");
    let ran = shop.run(&["review", "wren.build.kdl"]);
    assert!(ran.out.contains("ends in .rules.kdl") && !ran.out.contains("secret"), "{}", ran.out);
}

#[test]
fn a_fault_is_told_once_however_often_the_file_is_named() {
    let shop = Workshop::new();
    shop.write("shop/wiring.rules.kdl", RULES).write(
        "wren.build.kdl",
        BUILD.replace("    basis eu", "    basis eu\n    house-rules \"./shop/wiring.rules.kdl\""),
    );
    let all = of_house(&shop);
    assert!(all.len() == 1 && all[0].0 == "wiring/shop-thin", "{all:?}");
}
