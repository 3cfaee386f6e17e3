//! Facts of alternating current on small builds, with the arithmetic or the published value beside them.

mod support;

use support::{ask, clean, flag, gaps, near, number, part, titles};

/// A 3 kVA inverter and a shore connection on one board behind a switch; what runs together is a kettle and a motor.
const SWITCHED: &str = r#"build Van { basis eu; }
battery house chemistry=LFP voltage="51.2 V" capacity="200 Ah" internal-resistance="8 mohm"
inverter bench power="3000 VA" surge="6000 VA" voltage="230 V" neutral-bond=automatic
circuit feed from=house to=bench { fuse rating="100 A" class=T; wire size="25 mm2" one-way="1 m" insulation="105 degC"; }
shore {
    inlet rating="16 A" voltage="230 V"
    cord "3 x 2.5 mm2" one-way="25 m" layers=2
    to changeover wire="2.5 mm2" one-way="0.6 m"
}
transfer-switch changeover rating="25 A" interlock=mechanical poles=2
circuit own from=bench to=changeover { wire size="2.5 mm2" one-way="1 m"; breaker rating="16 A" class=mcb; }
circuit on from=changeover to=board { wire size="2.5 mm2" one-way="1.5 m"; }
ac-board board main="16 A" poles=2 rcd="30 mA" neutral-bond=no protective-conductors=as-lines {
    way 1 sockets breaker="10 A" wire="1.5 mm2" one-way="3 m" curve=B
    way 2 kettle breaker="10 A" wire="1.5 mm2" one-way="3 m" curve=C
    way 3 saw breaker="10 A" wire="1.5 mm2" one-way="3 m" curve=C rcd="10 mA"
}
outlets sockets count=2 voltage="230 V" load="2 A"
appliance kettle power="1150 W" motor=no
appliance saw current="4 A" surge="20 A" motor=yes
together work kettle saw sockets
"#;

#[test]
fn each_source_is_judged_with_all_that_it_feeds() {
    let build = clean(SWITCHED);
    for (word, key, fact, expected) in [
        // W23: 3 kVA ÷ 230 V = 13.04 A; twice that is 26.1 A, and a B10 breaker surely trips at once from 50 A.
        ("supply", "inverter:bench/supply", "fault-current", 26.086_956_5),
        ("supply", "inverter:bench/supply", "opening-current", 50.0),
        ("supply", "inverter:bench/supply", "neutral-bonds", 1.0),
        ("supply", "shore:1/supply", "neutral-bonds", 0.0),
        // Two outlets, a kettle, a saw.
        ("supply", "shore:1/supply", "feeds", 4.0),
        ("outlets", "sockets", "residual-current", 0.03),
        ("ac-board", "board", "joined-sources", 1.0),
        ("ac-board", "board", "supply-legs", 1.0),
        // 0.6 m to the switch and 1.5 m from it to the board's main breaker.
        ("inlet", "", "length-before-device", 2.1),
        ("inlet", "", "first-device-rating", 16.0),
        ("inlet", "", "circuits", 3.0),
        ("cord", "", "cores-needed", 3.0),
        ("cord", "", "cores-count", 3.0),
        // IEC 60364-7-721 Table 721.1, 16 A.
        ("cord", "", "least-area", 2.5e-6),
        // 1150 W ÷ 230 V + 4 A + 2 A.
        ("together", "", "shore-current", 11.0),
        ("together", "", "shore-rating", 16.0),
        ("together", "", "inverter-power", 2_530.0),
        ("together", "", "inverter-rating", 3_000.0),
        // 2,530 VA and (20 − 4) A × 230 V.
        ("together", "", "starting-power", 6_210.0),
        ("together", "", "inverter-surge", 6_000.0),
    ] {
        let value = number(&build, part(&build, word, key), fact);
        assert!(near(value, expected, 1e-6) || value == expected, "{fact} of {word} {key}: {value}, not {expected}");
    }
    let board = part(&build, "ac-board", "board");
    assert_eq!(titles(&build, board, "supplies"), ["inverter \"bench\"", "shore"]);
    assert!(flag(&build, part(&build, "outlets", "sockets"), "residual-protected"));
    assert!(flag(&build, part(&build, "outlets", "sockets"), "has-earth"));
    assert!(flag(&build, part(&build, "supply", "inverter:bench/supply"), "outlets-protected"));
}

#[test]
fn a_word_on_a_way_joins_an_inverter_to_that_way_alone() {
    let text = r#"build Van { basis eu; }
battery house chemistry=LFP voltage="25.6 V" capacity="200 Ah" internal-resistance="8 mohm"
busbar bus
circuit main from=house to=bus { fuse rating="200 A" class=T; wire size="50 mm2" one-way="1 m"; }
inverter bench power="2000 VA" voltage="230 V" neutral-bond=automatic
circuit feed from=bus to=bench { fuse rating="125 A" class=T; wire size="35 mm2" one-way="1 m"; }
charger "shore charger" kind=mains output="25 A" voltage="28.4 V" draw="800 W"
circuit charge from="shore charger" to=bus { fuse rating="40 A" class=T; wire size="10 mm2" one-way="1 m"; }
shore {
    inlet rating="16 A" voltage="230 V"
    to board wire="2.5 mm2" one-way="0.6 m"
}
ac-board board main="16 A" poles=2 neutral-bond=no interlock=mechanical {
    way 1 "shore charger" breaker="6 A" wire="1.5 mm2" one-way="1 m"
    way 2 sockets breaker="10 A" wire="1.5 mm2" one-way="3 m" fed-by="shore, bench"
}
outlets sockets count=3 voltage="230 V"
together evening sockets "shore charger"
"#;
    let build = clean(text);
    let charger = part(&build, "charger", "charger");
    assert!(!flag(&build, charger, "feeds-its-inverter"));
    assert_eq!(number(&build, part(&build, "supply", "bench/supply"), "feeds"), 3.0);
    assert_eq!(number(&build, part(&build, "ac-board", "board"), "joined-sources"), 2.0);
    assert!(flag(&build, part(&build, "ac-board", "board"), "kept-apart"));
    // The sockets' breaker lets 10 A through; the charger is not on the inverter.
    assert!(near(number(&build, part(&build, "together", ""), "inverter-power"), 2_300.0, 1e-9));
    assert!(!flag(&build, part(&build, "outlets", "sockets"), "residual-protected"));

    let looped =
        clean(&text.replace("one-way=\"1 m\"\n    way 2", "one-way=\"1 m\" fed-by=\"shore, bench\"\n    way 2"));
    assert!(flag(&looped, part(&looped, "charger", "charger"), "feeds-its-inverter"));
}

/// Shore and a generator by a transfer switch of so many poles; the generator's neutral is joined to its frame.
fn with_poles(poles: &str) -> String {
    format!(
        r#"build Bus {{ basis us; }}
shore {{
    inlet rating="50 A" voltage="120 V" legs=2
    to switch wire="6 AWG" one-way="8 ft"
}}
generator rear power="6000 VA" voltage="120 V" legs=2 neutral-bond=fixed
transfer-switch switch rating="50 A" interlock=mechanical {poles}
circuit own from=rear to=switch {{ breaker rating="25 A" class=mcb; wire size="8 AWG" one-way="9 ft"; }}
circuit on from=switch to=board {{ wire size="6 AWG" one-way="3 ft"; }}
ac-board board main="50 A" neutral-bond=no {{ way 1 heater breaker="20 A" wire="12 AWG" one-way="9 ft" leg=one; }}
appliance heater power="1500 W"
"#
    )
}

#[test]
fn a_switch_that_leaves_the_neutral_leaves_the_generators_joint_in_effect() {
    for (poles, on_shore) in [("poles=3", 0.0), ("poles=2", 1.0)] {
        let build = clean(&with_poles(poles));
        assert_eq!(number(&build, part(&build, "supply", "shore:1/supply"), "neutral-bonds"), on_shore, "{poles}");
        assert_eq!(number(&build, part(&build, "supply", "rear/supply"), "neutral-bonds"), 1.0);
    }
    let build = clean(&with_poles(""));
    let shore = part(&build, "supply", "shore:1/supply");
    assert_eq!(gaps(&build, shore, "neutral-bonds"), ["transfer-switch:switch poles"]);
}

#[test]
fn a_charger_takes_what_its_published_example_takes() {
    // W19: 100 A at 14.4 V and 88 % take 1,636 W, at a power factor of 0.98 1,670 VA: 7.26 A at 230 V.
    let build = clean(
        r#"build Van { basis eu; }
battery house chemistry=AGM voltage="12 V" capacity="400 Ah"
charger big kind=mains output="100 A" voltage="14.4 V" draw="1670 VA"
circuit charge from=big to=house { fuse rating="125 A" class=T; wire size="50 mm2" one-way="1 m"; }
shore { inlet rating="16 A" voltage="230 V"; to board wire="2.5 mm2" one-way="0.6 m"; }
ac-board board main="16 A" { way 1 big breaker="10 A" wire="1.5 mm2" one-way="1 m"; }
together charging big
"#,
    );
    assert!(near(number(&build, part(&build, "together", ""), "shore-current"), 7.26, 0.005));
}

#[test]
fn what_a_set_names_must_be_there() {
    let build = support::build("build Van { basis eu; }\nappliance kettle power=\"1 kW\"\ntogether tea kettel\n");
    assert!(support::slips(&build).contains(&("names/unknown-name", "kettel")), "{:?}", support::slips(&build));
    assert!(ask(&build, part(&build, "together", ""), "on-shore").is_err());
}
