//! Worked facts on small builds, with the arithmetic beside them; and that the gap is named when an input is missing.

mod support;

use support::{any_shape, clean, flag, gaps, near, number, part, steps, working};

const SMALL: &str = "build Van { basis eu; }\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" internal-resistance=\"2 mohm\"\nbusbar bus\nlamp lamp power=\"44.8 W\"\ncircuit main from=house to=bus { wire size=\"16 mm2\" one-way=\"0.5 m\" insulation=\"105 degC\"; fuse rating=\"60 A\" class=T; }\ncircuit feed from=bus to=lamp { fuse rating=\"10 A\" class=blade; wire size=\"6 AWG\" one-way=\"4 m\" insulation=\"105 degC\" ambient=\"45 degC\" enclosed=yes; }\n";

/// A value: the part's kind and the end of its key, the fact, and what it must be.
type Expected = (&'static str, &'static str, &'static str, f64);

const VALUES: &[Expected] = &[
    // 12.8 V ÷ 3.2 V = 4 cells; 4 × 3.65 V full, 4 × 2.80 V empty.
    ("battery", "house", "highest-voltage", 14.6),
    ("battery", "house", "lowest-voltage", 11.2),
    ("battery", "house", "resistance", 0.002),
    ("battery", "house", "resistance-at-most", 0.002),
    // 14.6 V ÷ 0.002 Ω
    ("battery", "house", "short-circuit-current", 7_300.0),
    // 44.8 W ÷ 11.2 V
    ("lamp", "lamp", "load-current", 4.0),
    ("run", "main/run", "design-current", 4.0),
    ("run", "feed/run", "design-current", 4.0),
    ("run", "main/run", "highest-voltage", 14.6),
    // 33 CFR 183.425 Table 5, 6 AWG at 105 °C: 120 A; at 45 °C × √((105 − 45) ÷ (105 − 30)) = 0.8944.
    ("conductor", "feed/wire:1", "ampacity", 107.331_262_9),
    ("run", "feed/run", "ampacity", 107.331_262_9),
    ("device", "feed/fuse:1", "protected-ampacity", 107.331_262_9),
    // 45 °C and 105 °C in kelvin.
    ("conductor", "feed/wire:1", "ambient", 318.15),
    ("conductor", "feed/wire:1", "insulation", 378.15),
    // A pair.
    ("conductor", "feed/wire:1", "bundled", 2.0),
    ("conductor", "main/wire:1", "area", 16e-6),
    ("conductor", "main/wire:1", "one-way", 0.5),
    // IEC 60228 class 5: 1.21 mΩ/m × 0.5 m × 2.
    ("conductor", "main/wire:1", "resistance", 0.001_21),
    ("device", "main/fuse:1", "rating", 60.0),
    ("device", "feed/fuse:1", "rating", 10.0),
    ("device", "main/fuse:1", "circuit-voltage", 14.6),
    // 14.6 V ÷ (0.002 + 0.00121) Ω for both: the fuse of the feed stands at the bar.
    ("device", "main/fuse:1", "fault-current", 4_548.286_604),
    ("device", "feed/fuse:1", "fault-current", 4_548.286_604),
    ("device", "feed/fuse:1", "decisive-fault-current", 4_548.286_604),
    // By class: T 20 kA and 125 V, blade 1 kA and 32 V.
    ("device", "main/fuse:1", "interrupting", 20_000.0),
    ("device", "main/fuse:1", "voltage", 125.0),
    ("device", "feed/fuse:1", "interrupting", 1_000.0),
    ("device", "feed/fuse:1", "voltage", 32.0),
    ("run-end", "main/start", "distance-to-device", 0.5),
    ("run-end", "feed/finish", "distance-to-device", 4.0),
    ("run-end", "feed/start", "distance-to-device", 0.0),
    // What the fuse of the main circuit lets through.
    ("run-end", "feed/start", "upstream-rating", 60.0),
];

#[test]
fn worked_values_are_those_of_the_arithmetic_and_their_working_recomputes() {
    let build = clean(SMALL);
    for (word, key, fact, expected) in VALUES {
        let part = part(&build, word, key);
        let value = number(&build, part, fact);
        assert!(
            near(value, *expected, 1e-6) || (*expected == 0.0 && value == 0.0),
            "{fact} of {key}: {value}, not {expected}"
        );
    }
    for (word, key, fact, expected) in [
        ("run-end", "main/start", "fed", true),
        ("run-end", "main/finish", "fed", false),
        ("run-end", "main/start", "battery-adjacent", true),
        ("run-end", "feed/start", "battery-adjacent", false),
        ("run-end", "main/start", "has-device", true),
        ("run-end", "main/start", "limited-upstream", false),
        ("run-end", "feed/start", "limited-upstream", true),
        ("run-end", "main/start", "enclosed", false),
        ("run-end", "feed/finish", "enclosed", true),
        ("device", "feed/fuse:1", "protects", true),
    ] {
        assert_eq!(flag(&build, part(&build, word, key), fact), expected, "{fact} of {key}");
    }
}

#[test]
fn a_working_shows_its_terms_and_names_their_sources() {
    let build = clean(SMALL);
    for (word, key, fact, says, source) in [
        ("battery", "house", "highest-voltage", &["4 LFP cells", "14.6 V"][..], Some("common practice")),
        ("battery", "house", "short-circuit-current", &["14.6 V", "2 m", "7"][..], None),
        ("lamp", "lamp", "load-current", &["44.8 W", "11.2 V", "4 A"][..], None),
        ("conductor", "feed/wire:1", "ampacity", &["120 A", "× 0.89", "45 °C", "= 107"][..], Some("33 CFR 183.425")),
        ("conductor", "main/wire:1", "resistance", &["1.21 m", "500 mm", "× 2"][..], Some("IEC 60228")),
        ("device", "main/fuse:1", "interrupting", &["class T"][..], Some("UL 248-15")),
        ("device", "main/fuse:1", "fault-current", &["battery \"house\"", "14.6 V", "20 °C"][..], None),
        ("run-end", "feed/start", "upstream-rating", &["battery \"house\"", "60 A"][..], None),
    ] {
        let part = part(&build, word, key);
        let text = steps(&build, part, fact);
        for says in says {
            assert!(text.contains(says), "{fact}: {text:?} does not say {says:?}");
        }
        if let Some(source) = source {
            let sources: Vec<String> =
                working(&build, part, fact).steps.into_iter().filter_map(|step| step.source).collect();
            assert!(sources.iter().any(|named| named.contains(source)), "{fact}: {sources:?}");
        }
    }
}

/// An entry of the small build; the gap it leaves; and facts that need it.
struct Needed {
    entry: &'static str,
    gap: &'static str,
    by: &'static [(&'static str, &'static str, &'static str)],
}

const NEEDED: &[Needed] = &[
    Needed {
        entry: " chemistry=LFP",
        gap: "battery:house chemistry",
        by: &[
            ("battery", "house", "highest-voltage"),
            ("battery", "house", "lowest-voltage"),
            ("battery", "house", "short-circuit-current"),
            ("lamp", "lamp", "load-current"),
            ("run", "feed/run", "design-current"),
            ("run", "feed/run", "highest-voltage"),
            ("device", "feed/fuse:1", "circuit-voltage"),
            ("device", "feed/fuse:1", "fault-current"),
        ],
    },
    Needed {
        entry: " voltage=\"12.8 V\"",
        gap: "battery:house voltage",
        by: &[
            ("battery", "house", "highest-voltage"),
            ("battery", "house", "lowest-voltage"),
            ("lamp", "lamp", "load-current"),
            ("device", "feed/fuse:1", "fault-current"),
        ],
    },
    Needed {
        entry: " power=\"44.8 W\"",
        gap: "lamp:lamp power",
        by: &[
            ("lamp", "lamp", "load-current"),
            ("run", "feed/run", "design-current"),
            ("run", "main/run", "design-current"),
        ],
    },
    Needed {
        entry: " from=house",
        gap: "circuit:main from",
        by: &[
            ("run-end", "main/start", "fed"),
            ("run-end", "main/start", "battery-adjacent"),
            ("run-end", "main/start", "limited-upstream"),
            ("run", "main/run", "design-current"),
            ("device", "main/fuse:1", "protects"),
            ("device", "main/fuse:1", "protected-ampacity"),
            ("device", "main/fuse:1", "fault-current"),
        ],
    },
    Needed {
        entry: " size=\"16 mm2\"",
        gap: "circuit:main/wire:1 size",
        by: &[
            ("conductor", "main/wire:1", "area"),
            ("conductor", "main/wire:1", "ampacity"),
            ("conductor", "main/wire:1", "resistance"),
            ("run", "main/run", "ampacity"),
            ("device", "main/fuse:1", "protected-ampacity"),
            ("device", "feed/fuse:1", "fault-current"),
        ],
    },
    Needed {
        entry: " one-way=\"0.5 m\"",
        gap: "circuit:main/wire:1 one-way",
        by: &[
            ("conductor", "main/wire:1", "one-way"),
            ("conductor", "main/wire:1", "resistance"),
            ("run-end", "main/start", "distance-to-device"),
            ("device", "main/fuse:1", "fault-current"),
        ],
    },
    Needed {
        entry: " insulation=\"105 degC\"; fuse rating=\"60 A\"",
        gap: "circuit:main/wire:1 insulation",
        by: &[
            ("conductor", "main/wire:1", "insulation"),
            ("conductor", "main/wire:1", "ampacity"),
            ("device", "main/fuse:1", "protected-ampacity"),
        ],
    },
    Needed {
        entry: " rating=\"60 A\"",
        gap: "circuit:main/fuse:1 rating",
        by: &[
            ("device", "main/fuse:1", "rating"),
            ("run-end", "feed/start", "limited-upstream"),
            ("run-end", "feed/start", "upstream-rating"),
        ],
    },
    Needed {
        entry: " class=blade",
        gap: "circuit:feed/fuse:1 class",
        by: &[("device", "feed/fuse:1", "interrupting"), ("device", "feed/fuse:1", "voltage")],
    },
];

#[test]
fn a_missing_input_is_named_and_nothing_is_put_in_its_place() {
    for needed in NEEDED {
        let bare = needed.entry.split(';').next().expect("a first piece");
        let rest = &needed.entry[bare.len()..];
        let key = bare.split('=').next().expect("a property");
        for instead in [rest.to_owned(), format!("{key}=unknown{rest}")] {
            let text = SMALL.replacen(needed.entry, &instead, 1);
            assert_ne!(text, SMALL);
            let build = any_shape(&text);
            for (word, key, fact) in needed.by {
                let gaps = gaps(&build, part(&build, word, key), fact);
                assert!(gaps.contains(&needed.gap.to_owned()), "{instead:?}: {fact} of {key}: {gaps:?}");
            }
        }
    }
}

#[test]
fn what_is_assumed_is_marked_so_and_written_unknown_it_is_not_assumed() {
    let silent = SMALL.replace(" internal-resistance=\"2 mohm\"", "").replace(" ambient=\"45 degC\"", "");
    let build = clean(&silent);
    // 12.8 V ÷ (65 × 100 A) and 12.8 V ÷ (20 × 100 A).
    let house = part(&build, "battery", "house");
    assert!(near(number(&build, house, "resistance"), 12.8 / 6_500.0, 1e-9));
    assert!(near(number(&build, house, "resistance-at-most"), 12.8 / 2_000.0, 1e-9));
    let wire = part(&build, "conductor", "feed/wire:1");
    assert!(near(number(&build, wire, "ambient"), 303.15, 1e-12));
    for (part, fact) in
        [(house, "resistance"), (wire, "ambient"), (part(&build, "device", "feed/fuse:1"), "fault-current")]
    {
        let working = working(&build, part, fact);
        assert!(working.steps.iter().any(|step| step.assumed), "{fact}: {working:?}");
    }
    for (entry, word, key, fact, gap) in [
        ("internal-resistance=\"2 mohm\"", "battery", "house", "resistance", "battery:house internal-resistance"),
        ("ambient=\"45 degC\"", "conductor", "feed/wire:1", "ambient", "circuit:feed/wire:1 ambient"),
        ("enclosed=yes", "run-end", "feed/finish", "enclosed", "circuit:feed/wire:1 enclosed"),
    ] {
        let property = entry.split('=').next().expect("a property");
        let build = clean(&SMALL.replace(entry, &format!("{property}=unknown")));
        assert_eq!(gaps(&build, part(&build, word, key), fact), [gap]);
    }
    for property in ["strands", "return", "route", "passes", "edge"] {
        let build = clean(&SMALL.replace("enclosed=yes", &format!("{property}=unknown")));
        let wire = part(&build, "conductor", "feed/wire:1");
        let fact = match property {
            "strands" | "return" => "resistance",
            "route" => "bundled",
            other => other,
        };
        assert_eq!(gaps(&build, wire, fact), [format!("circuit:feed/wire:1 {property}")], "{property}");
    }
}

#[test]
fn a_route_counts_its_conductors_once_and_lends_what_they_do_not_say() {
    let build = clean(
        "build Van { basis eu; }\nbattery house chemistry=AGM voltage=\"12 V\"\nroute side ambient=\"50 degC\" passes=metal edge=grommet\nlamp a current=\"1 A\"\nlamp b current=\"1 A\"\nlamp c current=\"1 A\"\npanel p {\n    way 1 a fuse=\"5 A\" wire=\"6 AWG\" insulation=\"105 degC\" route=side\n    way 2 b fuse=\"5 A\" wire=\"6 AWG\" insulation=\"105 degC\" route=side return=chassis\n    way 3 c fuse=\"5 A\" wire=\"6 AWG\" insulation=\"105 degC\"\n}\ncircuit feed from=house to=p { fuse rating=\"30 A\"; wire size=\"6 AWG\" insulation=\"105 degC\" route=side ambient=\"30 degC\"; }\n",
    );
    // Way 1 and the feed a pair each, way 2 one conductor: 5.
    let route = part(&build, "route", "side");
    assert!(near(number(&build, route, "current-carrying"), 5.0, 1e-12));
    assert_eq!(support::titles(&build, route, "runs").len(), 3);
    // 120 A × √((105 − 50) ÷ 75) × 0.80 for 4 to 6 conductors (NEC 310.15(C)(1)); the feed says 30 °C itself.
    let first = part(&build, "conductor", "way:a:1/wire");
    assert!(near(number(&build, first, "ampacity"), 120.0 * (55.0_f64 / 75.0).sqrt() * 0.8, 1e-9));
    assert!(near(number(&build, part(&build, "conductor", "circuit:feed/wire:1"), "ampacity"), 96.0, 1e-9));
    assert!(near(number(&build, part(&build, "conductor", "way:c:3/wire"), "ampacity"), 120.0, 1e-9));
    // Without a word of its own the wire takes the route's grommet.
    let edge = support::ask(&build, first, "edge");
    let passes = support::ask(&build, first, "passes");
    assert_eq!((edge, passes), (Ok(design::Fact::Choice(1)), Ok(design::Fact::Choice(0))));
}

#[test]
fn the_region_decides_the_factor_for_bundles_and_the_least_of_several_regions_counts() {
    let text = |basis: &str| {
        format!(
            "build Van {{ basis {basis}; }}\nbattery house chemistry=AGM voltage=\"12 V\"\nroute side\nlamp a current=\"1 A\"\nlamp b current=\"1 A\"\ncircuit x from=house to=a {{ wire size=\"6 AWG\" insulation=\"105 degC\" route=side; }}\ncircuit y from=house to=b {{ wire size=\"6 AWG\" insulation=\"105 degC\" route=side; }}\n"
        )
    };
    // Two pairs: × 0.80 outside the United States; 33 CFR 183.425 has no factor below 50 V.
    for (basis, amperes) in [("eu", 96.0), ("us", 120.0), ("eu us", 96.0), ("\"us, uk\"", 96.0)] {
        let build = clean(&text(basis));
        assert!(
            near(number(&build, part(&build, "conductor", "circuit:x/wire:1"), "ampacity"), amperes, 1e-9),
            "{basis}"
        );
    }
}

#[test]
fn the_worked_examples_of_the_fact_book_come_out_through_the_text() {
    // W09: 5 m of 6 mm², class 5, at 20 A: 3.30 mΩ/m × 10 m × 20 A = 0.660 V.
    let w09 = clean(
        "build W { basis eu; }\nbattery b chemistry=AGM voltage=\"12 V\"\nlamp l current=\"20 A\"\ncircuit c from=b to=l { wire size=\"6 mm2\" one-way=\"5 m\"; }\n",
    );
    let drop =
        number(&w09, part(&w09, "conductor", ""), "resistance") * number(&w09, part(&w09, "run", ""), "design-current");
    assert!(near(drop, 0.660, 1e-9), "{drop}");
    // W11: 13.6 V and 2.0 mΩ: 6.80 kA at the terminals; behind a loop of 3 m of 50 mm² 4.31 kA; three in parallel 20.4 kA.
    let pack = "chemistry=LFP voltage=\"12.8 V\" charge-voltage=\"13.6 V\" internal-resistance=\"2 mohm\"";
    let w11 = clean(&format!(
        "build W {{ basis eu; }}\nbattery b {pack}\nbusbar bus\ncircuit c from=b to=bus {{ wire size=\"50 mm2\" one-way=\"1.5 m\"; fuse rating=\"200 A\"; }}\n"
    ));
    assert!(near(number(&w11, part(&w11, "battery", "b"), "short-circuit-current"), 6_800.0, 1e-9));
    assert!(near(number(&w11, part(&w11, "device", ""), "fault-current"), 4_310.0, 0.01));
    let three: String = ["a", "b", "c"]
        .iter()
        .map(|name| format!("battery {name} {pack}\ncircuit {name} from={name} to=bus\n"))
        .collect();
    let w11 = clean(&format!(
        "build W {{ basis eu; }}\nbusbar bus\nlamp l current=\"1 A\"\n{three}circuit d from=bus to=l {{ fuse rating=\"200 A\"; }}\n"
    ));
    assert!(near(number(&w11, part(&w11, "device", ""), "fault-current"), 20_400.0, 0.01));
    // W16: 3,000 W ÷ 0.90; the lowest voltage of a lead battery is 6 cells × 1.80 V for 12 V (the book reckons with 11 V).
    for (nominal, lowest) in [("12 V", 10.8), ("24 V", 21.6), ("48 V", 43.2)] {
        let w16 = clean(&format!(
            "build W {{ basis eu; }}\nbattery b chemistry=AGM voltage=\"{nominal}\"\ninverter i power=\"3000 W\" efficiency=\"90 %\"\ncircuit c from=b to=i {{ fuse rating=\"400 A\"; }}\n"
        ));
        let current = number(&w16, part(&w16, "run", ""), "design-current");
        assert!(near(current, 3_000.0 / 0.9 / lowest, 1e-9), "{nominal}: {current}");
    }
    // W35: 12 m of 0.75 mm² behind 3 mΩ at 12 V. Cold, as the largest fault current asks: 24 m × 26.0 mΩ/m = 0.624 Ω, 12 V ÷
    // 0.627 Ω = 19.14 A. (The book's 16.0 A is for a conductor at 70 °C, 0.747 Ω: whether a fuse opens, not whether it bursts.)
    let w35 = clean(
        "build W { basis eu; }\nbattery b chemistry=AGM voltage=\"12 V\" charge-voltage=\"12 V\" internal-resistance=\"3 mohm\"\nlamp l current=\"1 A\"\ncircuit c from=b to=l { wire size=\"0.75 mm2\" one-way=\"12 m\"; fuse rating=\"10 A\"; }\n",
    );
    assert!(near(number(&w35, part(&w35, "device", ""), "fault-current"), 12.0 / 0.627, 1e-9));
}

#[test]
fn a_build_knows_what_burns_who_sleeps_and_what_it_is_silent_about() {
    let build = clean(
        "build Van { basis eu; none gas; }\nheater warm fuel=diesel\nheater pad kind=tank-pad\ncooker hob fuel=none\nberth b sleeps=2\nalarm a senses=smoke\nbrief berths=3\n",
    );
    let root = design::Build::ROOT;
    assert_eq!(support::titles(&build, root, "burners"), ["heater \"warm\""]);
    assert!(flag(&build, root, "burns-fuel"));
    assert!(
        near(number(&build, root, "sleepers"), 3.0, 1e-12),
        "the brief asks for more than the berths that are described"
    );
    for (system, described, absent) in
        [("gas", false, true), ("heat", true, false), ("cooking", true, false), ("water", false, false)]
    {
        let part = part(&build, "system", &format!("system:{system}"));
        assert_eq!(
            (flag(&build, part, "described"), flag(&build, part, "declared-absent")),
            (described, absent),
            "{system}"
        );
    }
    // A fuel that is not known leaves the list open, and its gap names the entry.
    let build = clean("build Van { basis eu; }\nheater warm fuel=unknown\n");
    let fact = support::fact(&build, root, "burners");
    let mut reader = design::Reader::new(&build);
    let gaps: Vec<String> = reader
        .gaps(root, fact, support::CASE)
        .0
        .iter()
        .flat_map(|any| &any.0)
        .map(|gap| support::words(&build, gap))
        .collect();
    assert_eq!(gaps, ["heater:warm fuel"]);
    assert_eq!(support::gaps(&build, root, "burns-fuel"), ["heater:warm fuel"]);
    let build = clean("build Van { basis eu; none unknown; }\n");
    assert_eq!(support::gaps(&build, part(&build, "system", "system:gas"), "declared-absent"), ["none:1 systems"]);
}
