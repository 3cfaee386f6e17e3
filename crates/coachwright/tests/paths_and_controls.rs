//! Paths of current, controllers, trailers and charging places, reviewed as the command reviews them: each slip of a builder is
//! found by its rule, at its part, and draws no other finding after it.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

use rules::Review;
use rules::review::{ReviewOptions, Today, review};
use rules::signal::Signal;
use spec::SingleText;

/// A trailer with all of it in order.
const TRAILER: &str = r#"build Thicket {
    stage review
    basis eu
    none shore gas water cooking toilet sleeping travel-seats
}
vehicle class=trailer
defaults { wire insulation="105 degC" standard="ISO 6722-1"; }
battery house chemistry=AGM voltage="12 V" capacity="100 Ah" internal-resistance="5 mohm" role=house
trailer-plug "car plug" voltage="14.4 V" fuse="15 A" contact-rating="15 A" switched=yes
charger "tow charger" kind=dc-to-dc input="12 A" output="10 A" voltage="14.4 V"
busbar main rating="100 A"
busbar negative rating="100 A" bond="16 mm2" to=chassis
circuit "charge in" from="car plug" to="tow charger" { wire size="6 mm2" one-way="4 m"; }
circuit "charge out" from="tow charger" to=main { wire size="4 mm2" one-way="1 m"; fuse rating="15 A" class=T; }
circuit "house main" from=house to=main { fuse rating="80 A" class=T; disconnect isolator rating="100 A"; wire size="25 mm2" one-way="1 m"; }
circuit "breakaway feed" from=house to="breakaway switch" { fuse rating="20 A" class=T; wire size="4 mm2" one-way="3 m"; }
circuit heat from=main to="cabin heater" { fuse rating="15 A" class=T; relay "heater relay" rating="20 A" worked-by=controller; wire size="4 mm2" one-way="3 m"; }
circuit reading from=main to="reading lamp" { fuse rating="5 A" class=T; switch "reading switch" rating="5 A"; wire size="1.5 mm2" one-way="3 m"; }
circuit feed from=main to=panel { fuse rating="20 A" class=T; wire size="6 mm2" one-way="1 m"; }
panel panel negative=negative fuse-class=T {
    way 1 brain fuse="3 A" wire="1 mm2" one-way="1 m" insulation="105 degC"
    way 2 "tool shelf" fuse="15 A" wire="4 mm2" one-way="1 m" insulation="105 degC"
    way 3 lamps fuse="5 A" wire="1.5 mm2" one-way="2 m" insulation="105 degC"
}
circuit "alarm feed" from=house to="co alarm" { fuse rating="3 A" class=T; wire size="1 mm2" one-way="3 m"; }
controller brain current="0.5 A" {
    operates "cabin heater" on-failure=off override=yes
    operates lamps on-failure=stays override=yes rating="5 A"
}
heater "cabin heater" fuel=diesel current="1 A" surge="8 A" combustion=sealed output="2 kW"
lamp lamps current="2 A"
lamp "reading lamp" current="1 A"
charging-place "tool shelf" holds=tool-batteries surface=non-combustible watched=alarm while-asleep=no switched=yes power="100 W"
alarm "co alarm" senses=carbon-monoxide power=wired
alarm "smoke alarm" senses=smoke power=own-battery
breakaway "breakaway switch" current="15 A" supply=own-battery
"#;

fn reviewed(text: &str) -> Review {
    let packs = packs::shipped().expect("the shipped packs are sound");
    let options = ReviewOptions { today: Today::Is(jiff::civil::date(2026, 11, 25)), draft: false };
    review(&SingleText(text), "thicket.build.kdl", packs, options)
}

fn line(finding: &rules::Finding) -> String {
    format!("{} {}", finding.rule, finding.part)
}

/// What failed; what follows from another finding stands under it and not here.
fn failed(review: &Review) -> Vec<String> {
    review.failed.iter().map(line).collect()
}

/// What of danger and warning is undecided.
fn undecided(review: &Review) -> Vec<String> {
    review.undecided.iter().filter(|finding| finding.signal >= Signal::Warning).map(line).collect()
}

#[test]
fn each_slip_is_one_finding_at_its_part() {
    let in_order = reviewed(TRAILER);
    let before = failed(&in_order);
    let own = |line: &&String| {
        ["control/", "trailer/", "charging-place/", "network/", "names/", "text/", "wiring/", "protection/"]
            .iter()
            .any(|domain| line.starts_with(domain))
    };
    assert_eq!(before.iter().filter(own).collect::<Vec<_>>(), [""; 0], "in order there is nothing to say");
    for (from, to, expected) in [
        // Paths.
        ("way 3 lamps", "way 2 lamps", "names/way-number-twice way \"lamps\" in panel \"panel\""),
        (" negative=negative", "", "network/panel-without-return panel \"panel\""),
        (r#" bond="16 mm2" to=chassis"#, "", ""),
        ("one-way=\"2 m\" insulation", "one-way=\"2 m\" return=chassis insulation", ""),
        (
            r#"output="10 A" voltage="14.4 V""#,
            r#"output="10 A" voltage="28.8 V""#,
            "wiring/two-voltages-on-one-bus what is joined to busbar \"main\"",
        ),
        // Controllers, relays and switches.
        (
            r#""cabin heater" on-failure=off override=yes"#,
            r#""cabin heater" on-failure=off override=no"#,
            "control/no-manual-override operates \"cabin heater\" in controller \"brain\"",
        ),
        (
            r#""cabin heater" on-failure=off"#,
            r#""cabin heater" on-failure=on"#,
            "control/no-safe-state operates \"cabin heater\" in controller \"brain\"",
        ),
        (
            r#"override=yes rating="5 A""#,
            r#"override=yes rating="1 A""#,
            "control/contact-below-load operates \"lamps\" in controller \"brain\"",
        ),
        (
            r#""heater relay" rating="20 A""#,
            r#""heater relay" rating="5 A" motor-rating="5 A""#,
            "control/relay-below-load relay \"heater relay\"",
        ),
        (
            r#""reading switch" rating="5 A""#,
            r#""reading switch" rating="0.5 A""#,
            "control/switch-below-load switch \"reading switch\"",
        ),
        (
            r#"from=house to="co alarm" { fuse rating="3 A" class=T;"#,
            r#"from=main to="co alarm" { fuse rating="3 A" class=T;"#,
            "control/alarm-behind-switch alarm \"co alarm\"",
        ),
        (
            "way 1 brain",
            "way 4 \"smoke alarm\" fuse=\"3 A\" wire=\"1 mm2\" one-way=\"1 m\" insulation=\"105 degC\"\n    way 1 brain",
            "",
        ),
        // Trailer.
        (
            r#"to="breakaway switch" { fuse"#,
            r#"to="breakaway switch" { disconnect rating="30 A"; fuse"#,
            "trailer/breakaway-behind-switch breakaway \"breakaway switch\"",
        ),
        (
            "supply=own-battery",
            "supply=house-battery",
            "trailer/breakaway-without-own-battery breakaway \"breakaway switch\"",
        ),
        (
            r#"fuse="15 A" contact"#,
            r#"fuse="20 A" contact"#,
            "trailer/plug-contact-below-fuse trailer-plug \"car plug\"",
        ),
        (
            r#"fuse="15 A" contact-rating="15 A""#,
            r#"fuse="10 A" contact-rating="9 A""#,
            "trailer/plug-contact-below-fuse trailer-plug \"car plug\"",
        ),
        ("switched=yes\ncharger", "switched=no\ncharger", "trailer/plug-always-live trailer-plug \"car plug\""),
        // Charging places.
        (
            "surface=non-combustible",
            "surface=combustible",
            "charging-place/combustible-surface charging-place \"tool shelf\"",
        ),
        ("watched=alarm", "watched=none", "charging-place/nobody-watches charging-place \"tool shelf\""),
        ("while-asleep=no", "while-asleep=yes", "charging-place/while-asleep charging-place \"tool shelf\""),
        ("switched=yes power", "switched=no power", "charging-place/no-switch charging-place \"tool shelf\""),
    ] {
        assert_eq!(TRAILER.matches(from).count(), 1, "{from} stands once");
        let review = reviewed(&TRAILER.replacen(from, to, 1));
        let now = failed(&review);
        let new: Vec<&String> = now.iter().filter(|line| !before.contains(line)).collect();
        assert_eq!(new, expected.split("; ").filter(|line| !line.is_empty()).collect::<Vec<_>>(), "{from} → {to}");
        assert_eq!(undecided(&review), undecided(&in_order), "{from} → {to}");
    }
}

#[test]
fn returns_by_the_vehicles_metal_lack_one_bond_together() {
    let text = TRAILER
        .replace(" bond=\"16 mm2\" to=chassis", "")
        .replace("one-way=\"2 m\" insulation", "one-way=\"2 m\" return=chassis insulation")
        .replace(
            "to=\"cabin heater\" { fuse rating=\"15 A\" class=T;",
            "to=\"cabin heater\" { wire size=\"4 mm2\" one-way=\"10 mm\" return=chassis; fuse rating=\"15 A\" class=T;",
        );
    let review = reviewed(&text);
    let bonds: Vec<_> =
        review.failed.iter().filter(|finding| &*finding.rule == "network/chassis-return-without-bond").collect();
    assert_eq!(bonds.len(), 1, "{:?}", failed(&review));
    assert_eq!(bonds[0].follow.len(), 1, "the other run folds under the first");
}

#[test]
fn the_charging_lead_of_a_trailer_is_protected_at_both_of_its_ends() {
    let lead = |pieces: &str| {
        let charge = r#"circuit "charge in" from="car plug" to="tow charger" { wire size="6 mm2" one-way="4 m"; }"#;
        let straight = format!("circuit \"charge in\" from=\"car plug\" to=house {{ {pieces}; }}");
        let charger = TRAILER.lines().filter(|line| line.contains("tow charger") && !line.contains("charge in"));
        let mut text = TRAILER.replace(charge, &straight);
        for line in charger {
            text = text.replace(line, "");
        }
        let all = failed(&reviewed(&text));
        all.into_iter()
            .filter(|line| line.contains("protection/none") || line.contains("protection/too"))
            .collect::<Vec<_>>()
    };
    let bare = ["protection/none-at-source circuit \"charge in\""];
    assert_eq!(
        lead("wire size=\"6 mm2\" one-way=\"4 m\""),
        bare,
        "the car's fuse opens nothing that the battery drives"
    );
    assert_eq!(
        lead("fuse rating=\"15 A\" class=T; wire size=\"6 mm2\" one-way=\"4 m\""),
        bare,
        "a fuse at the plug only"
    );
    let both = "wire size=\"6 mm2\" one-way=\"4 m\"; fuse rating=\"15 A\" class=T";
    assert_eq!(lead(both), [""; 0], "the car's fuse at one end, its own at the battery's");
}

#[test]
fn a_loose_circuit_is_one_finding_and_leaves_open_what_hangs_on_it() {
    let review = reviewed(&TRAILER.replacen("from=house to=\"co alarm\"", "to=\"co alarm\"", 1));
    let new: Vec<String> =
        failed(&review).into_iter().filter(|line| !failed(&reviewed(TRAILER)).contains(line)).collect();
    assert_eq!(new, ["names/loose-circuit circuit \"alarm feed\""]);
    let before = undecided(&reviewed(TRAILER));
    let open: Vec<String> = undecided(&review).into_iter().filter(|line| !before.contains(line)).collect();
    assert!(open.contains(&"control/alarm-behind-switch alarm \"co alarm\"".to_owned()), "{open:?}");
    assert!(open.iter().all(|line| line.contains("alarm")), "{open:?}");
}
