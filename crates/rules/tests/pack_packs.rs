//! Compiled packs: as bytes and back, and which rules a build is judged by.

use rules::pack::{BlobFault, Packs, compile};
use rules::signal::Region;

/// A small rule with these lines among its others.
fn rule(name: &str, lines: &str, must: &str) -> String {
    format!(
        r##"rule "wiring/{name}" notice about=device {{
    title "Title"
    {lines}
    must "{must}"
    tell "Told."
    why "Why."
    remedy "Remedy."
    source "our own" mark=chosen
    example "fails" fails {{ add "zone cabin" }}
    example "fails too" fails {{ add "zone cabin" }}
    example "holds" holds {{ add "zone cabin" }}
    example "open" open {{ add "zone cabin" }}
}}
"##
    )
}

fn packs() -> Packs {
    let plain = "rating <= protected_ampacity";
    let limited = "rating <= most";
    let any = [
        rule("plain", "", plain),
        rule("van-only", "classes van bus", plain),
        rule("by-region", "value most any=\"10 A\" us=\"15 A\" help=\"most\"", limited),
        rule("some-regions", "value most us=\"15 A\" uk=\"13 A\" help=\"most\"", limited),
        rule("alike", "value most us=\"15 A\" uk=\"15000 mA\" help=\"most\"", limited),
        rule("everywhere", "value most any=\"10 A\" help=\"most\"", limited),
    ]
    .concat();
    let us = rule("us-only", "value most any=\"10 A\" help=\"most\"", limited);
    let own = rule("shop", "", plain);
    let files =
        [("rules/any/wiring.rules.kdl", any), ("rules/us/wiring.rules.kdl", us), ("shop/wiring.rules.kdl", own)];
    let files: Vec<(&str, &str)> = files.iter().map(|(path, text)| (*path, text.as_str())).collect();
    match compile(&files) {
        Ok(packs) => packs,
        Err(faults) => {
            let shown: Vec<String> = faults.iter().map(|fault| format!("{} {}", fault.file, fault.message)).collect();
            assert_eq!(shown, [""; 0]);
            Packs::default()
        }
    }
}

#[test]
fn packs_survive_as_bytes() {
    let packs = packs();
    let bytes = packs.to_bytes().unwrap_or_default();
    assert!(!bytes.is_empty());
    let again = Packs::from_bytes(&bytes).unwrap_or_default();
    assert_eq!(format!("{packs:?}"), format!("{again:?}"));
    let names: Vec<&str> = again.rules.iter().map(|rule| rule.name.as_str()).collect();
    assert!(names.is_sorted() && names.len() == 8, "{names:?}");
}

#[test]
fn damaged_bytes_are_an_error_wherever_the_damage_is() {
    let bytes = packs().to_bytes().unwrap_or_default();
    for at in 0..bytes.len() {
        let mut damaged = bytes.clone();
        if let Some(byte) = damaged.get_mut(at) {
            *byte ^= 0x11;
        }
        assert!(Packs::from_bytes(&damaged).is_err(), "byte {at} changed");
    }
    for length in 0..bytes.len() {
        let short = bytes.get(..length).unwrap_or_default();
        assert!(matches!(Packs::from_bytes(short), Err(BlobFault::Damaged(_))), "cut at {length}");
    }
    assert!(Packs::from_bytes(&[0xFF; 64]).is_err());
}

#[test]
fn a_build_is_judged_by_the_rules_of_its_regions_once_for_each_set_of_figures() {
    use Region::{Any, AuNz, Eu, Uk, Us};
    let packs = packs();
    for (regions, rule, expected) in [
        // Without figures, once, whatever the regions.
        (&[Eu, Us][..], "wiring/plain", &[(Any, &[][..])][..]),
        (&[][..], "wiring/plain", &[(Any, &[])]),
        (&[Eu, Us], "wiring/shop", &[(Any, &[])]),
        // Figures for everywhere: once.
        (&[Eu, Us], "wiring/everywhere", &[(Any, &[10.0])]),
        // Figures that differ: once for each.
        (&[Eu], "wiring/by-region", &[(Eu, &[10.0])]),
        (&[Us], "wiring/by-region", &[(Us, &[15.0])]),
        (&[Eu, Uk, Us, AuNz], "wiring/by-region", &[(Eu, &[10.0]), (Us, &[15.0])]),
        (&[], "wiring/by-region", &[(Any, &[10.0])]),
        // No figure there: not there.
        (&[Eu], "wiring/some-regions", &[]),
        (&[], "wiring/some-regions", &[]),
        (&[Eu, Uk], "wiring/some-regions", &[(Uk, &[13.0])]),
        // Equal figures: no double findings.
        (&[Us, Uk], "wiring/alike", &[(Us, &[15.0])]),
        // The pack of a region.
        (&[Eu], "wiring/us-only", &[]),
        (&[], "wiring/us-only", &[]),
        (&[Eu, Us], "wiring/us-only", &[(Us, &[10.0])]),
    ] {
        let selected: Vec<(Region, Vec<f64>)> = packs
            .for_build(regions, &["van"])
            .into_iter()
            .filter(|(selected, ..)| selected.name == rule)
            .map(|(_, region, values)| (region, values))
            .collect();
        let expected: Vec<(Region, Vec<f64>)> =
            expected.iter().map(|(region, values)| (*region, values.to_vec())).collect();
        assert_eq!(selected, expected, "{rule} in {regions:?}");
    }
}

#[test]
fn a_rule_for_some_classes_applies_to_them_and_to_a_class_that_is_not_known() {
    let packs = packs();
    for (classes, applies) in [(&["van"][..], true), (&["trailer"], false), (&["trailer", "bus"], true), (&[], true)] {
        let found = packs.for_build(&[], classes).iter().any(|(rule, ..)| rule.name == "wiring/van-only");
        assert_eq!(found, applies, "{classes:?}");
    }
}

#[test]
fn a_rule_is_found_by_its_name() {
    let packs = packs();
    assert_eq!(packs.rule("wiring/plain").map(|rule| rule.title.as_str()), Some("Title"));
    assert!(packs.rule("wiring/plai").is_none());
}

#[test]
fn a_shops_own_pack_stands_beside_the_shipped_ones() {
    let shipped = packs();
    let twice = rule("plain", "", "rating <= protected_ampacity");
    let follows = rule("bench-fuse", "follows \"wiring/plain\"", "rating <= protected_ampacity");
    let path = "shop/wiring.rules.kdl";
    let faults = rules::pack::compile_beside(&[(path, &twice)], &shipped).err().unwrap_or_default();
    assert!(matches!(faults.as_slice(), [fault] if fault.message.contains("stands twice")), "{faults:?}");
    let own = rules::pack::compile_beside(&[(path, &follows)], &shipped).unwrap_or_default();
    assert_eq!(shipped.and(own).rule("wiring/bench-fuse").map(|rule| rule.pack.as_str()), Some("shop"));
}
