//! What is joined to what: sources behind ends, loads beyond, loops, chains, converters and parallel batteries.

mod support;

use support::{any_shape, build, clean, flag, gaps, near, number, part, slips, titles};

/// Ends with what the build is and a battery of 10 mΩ at 14.4 V, whose dead short is 14.4 V ÷ 0.010 Ω = 1,440 A.
fn with_battery(text: &str) -> String {
    format!(
        "build B {{ basis eu; }}\nbattery house chemistry=AGM voltage=\"12 V\" charge-voltage=\"14.4 V\" internal-resistance=\"10 mohm\"\n{text}"
    )
}

#[test]
fn a_run_carries_what_all_things_beyond_it_take() {
    // 2 A + 3 A at the end of one circuit; through the panel 1.5 A more.
    let build = clean(&with_battery(
        "busbar bus\nlamp a current=\"2 A\"\nlamp b current=\"3 A\"\nlamp c current=\"1.5 A\"\ncircuit main from=house to=bus { fuse rating=\"50 A\"; }\ncircuit lamps from=bus { fuse rating=\"10 A\"; serves a b; }\ncircuit feed from=bus to=panel { fuse rating=\"20 A\"; }\npanel panel { way 1 second fuse=\"15 A\"; }\npanel second { way 1 c fuse=\"5 A\"; }\n",
    ));
    for (key, amperes) in [
        ("circuit:lamps/run", 5.0),
        ("circuit:feed/run", 1.5),
        ("panel:panel/way:second:1/run", 1.5),
        ("panel:second/way:c:1/run", 1.5),
        ("circuit:main/run", 6.5),
    ] {
        assert!(near(number(&build, part(&build, "run", key), "design-current"), amperes, 1e-12), "{key}");
    }
    // The chain of panels holds the last way to the least device before it.
    let end = part(&build, "run-end", "panel:second/way:c:1/start");
    assert!(near(number(&build, end, "upstream-rating"), 15.0, 1e-12), "50 A, 20 A and 15 A in a row");
    assert_eq!(titles(&build, end, "sources"), ["battery \"house\""]);
}

#[test]
fn a_circuit_can_begin_at_what_a_way_feeds() {
    let build = clean(&with_battery(
        "busbar bench\nlamp a current=\"2 A\"\ncircuit feed from=house to=panel { fuse rating=\"20 A\"; }\npanel panel { way 1 bench fuse=\"5 A\"; }\ncircuit last from=bench to=a\n",
    ));
    let way = part(&build, "run", "way:bench:1/run");
    assert!(near(number(&build, way, "design-current"), 2.0, 1e-12));
    let end = part(&build, "run-end", "circuit:last/start");
    assert!(flag(&build, end, "fed") && !flag(&build, end, "has-device"));
    assert!(near(number(&build, end, "upstream-rating"), 5.0, 1e-12));
}

#[test]
fn loops_and_runs_from_a_thing_to_itself_end() {
    let build = any_shape(&with_battery(
        "busbar a\nbusbar b\nlamp l current=\"2 A\"\ncircuit one from=house to=a { fuse rating=\"100 A\"; }\ncircuit two from=a to=b\ncircuit three from=b to=house { fuse rating=\"100 A\"; }\ncircuit self from=a to=a { fuse rating=\"5 A\"; }\ncircuit lamp from=b to=l\n",
    ));
    for key in ["circuit:two/start", "circuit:two/finish", "circuit:self/start", "circuit:self/finish"] {
        let end = part(&build, "run-end", key);
        assert!(flag(&build, end, "fed"), "{key}");
        assert_eq!(titles(&build, end, "sources"), ["battery \"house\""], "{key}");
    }
    // Round both sides of the ring: 100 A + 100 A.
    let lamp = part(&build, "run-end", "circuit:lamp/start");
    assert!(near(number(&build, lamp, "upstream-rating"), 200.0, 1e-12));
}

#[test]
fn devices_side_by_side_let_through_their_sum_and_devices_in_a_row_the_least() {
    for (circuits, amperes) in [
        // Two batteries with a fuse each on one bar: 100 A + 100 A.
        (
            "circuit a from=house to=bus { fuse rating=\"100 A\"; }\ncircuit b from=other to=bus { fuse rating=\"100 A\"; }\n",
            200.0,
        ),
        // One battery by two fused ways.
        (
            "circuit a from=house to=bus { fuse rating=\"100 A\"; }\ncircuit b from=house to=bus { fuse rating=\"60 A\"; }\n",
            160.0,
        ),
        // Two fuses in one run, and one more in the next.
        (
            "busbar mid\ncircuit a from=house to=mid { fuse rating=\"100 A\"; fuse rating=\"60 A\"; }\ncircuit b from=mid to=bus { fuse rating=\"80 A\"; }\n",
            60.0,
        ),
        // A charger gives no more than its output, 25 A, beside the battery's 100 A.
        (
            "circuit a from=house to=bus { fuse rating=\"100 A\"; }\ncircuit b from=charger to=bus { fuse rating=\"40 A\"; }\n",
            125.0,
        ),
        // All of it through one fuse.
        (
            "busbar mid\ncircuit a from=house to=mid { fuse rating=\"100 A\"; }\ncircuit b from=charger to=mid { fuse rating=\"40 A\"; }\ncircuit c from=mid to=bus { fuse rating=\"80 A\"; }\n",
            80.0,
        ),
    ] {
        let build = build(&with_battery(&format!(
            "battery other chemistry=AGM voltage=\"12 V\"\ncharger charger kind=mains output=\"25 A\" voltage=\"14.4 V\"\nbusbar bus\nlamp l current=\"2 A\"\ncircuit lamp from=bus to=l {{ wire size=\"4 mm2\"; }}\n{circuits}"
        )));
        let end = part(&build, "run-end", "circuit:lamp/start");
        assert!(flag(&build, end, "limited-upstream"), "{circuits}");
        let value = number(&build, end, "upstream-rating");
        assert!(near(value, amperes, 1e-9), "{circuits}: {value}");
    }
}

#[test]
fn a_source_without_a_device_is_limited_by_nothing() {
    let build = clean(&with_battery("lamp l current=\"2 A\"\ncircuit lamp from=house to=l\n"));
    let end = part(&build, "run-end", "circuit:lamp/start");
    assert!(!flag(&build, end, "limited-upstream"));
    assert!(flag(&build, end, "battery-adjacent"));
    assert_eq!(gaps(&build, end, "upstream-rating"), ["no solution for circuit:lamp/start upstream-rating"]);
}

#[test]
fn a_rating_that_is_not_known_is_no_missing_device() {
    let text = with_battery(
        "busbar bus\nlamp l current=\"2 A\"\ncircuit main from=house to=bus { fuse rating=unknown; }\ncircuit lamp from=bus to=l\n",
    );
    let build = clean(&text);
    let end = part(&build, "run-end", "circuit:lamp/start");
    for fact in ["limited-upstream", "upstream-rating"] {
        assert_eq!(gaps(&build, end, fact), ["circuit:main/fuse:1 rating"], "{fact}");
    }
    // A rating that makes no difference need not be known: that of another lamp, or one behind a smaller one.
    let text = with_battery(
        "busbar bus\nlamp l current=\"2 A\"\nlamp m current=\"2 A\"\ncircuit main from=house to=bus { fuse rating=\"20 A\"; }\ncircuit lamp from=bus to=l\ncircuit other from=bus to=m { fuse rating=unknown; }\n",
    );
    let build = clean(&text);
    let end = part(&build, "run-end", "circuit:lamp/start");
    assert!(near(number(&build, end, "upstream-rating"), 20.0, 1e-12));
}

/// What a walk from an end of a run reaches without the run itself.
fn walked(circuitry: &design::Circuitry, run: usize, end: design::End) -> Vec<usize> {
    let mut seen: Vec<usize> = circuitry.runs[run].node(end).into_iter().collect();
    let mut next = 0;
    while let Some(&node) = seen.get(next) {
        next += 1;
        for (index, other) in circuitry.runs.iter().enumerate() {
            let nodes: Vec<usize> = other.nodes.into_iter().flatten().collect();
            if index != run && nodes.contains(&node) {
                seen.extend(nodes.into_iter().filter(|node| !seen.contains(node)).collect::<Vec<_>>());
            }
        }
    }
    seen.sort_unstable();
    seen.dedup();
    seen
}

#[test]
fn both_sides_of_every_run_are_what_a_walk_reaches() {
    // Networks with trees, rings, runs side by side, runs from a bar to itself and pieces apart, by a small generator of
    // numbers (a linear congruence), so that a failing one can be made again.
    for seed in 0_u64..60 {
        let mut state = seed;
        let mut below = |limit: u64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) % limit
        };
        let bars = 3 + below(8);
        let mut text = with_battery("battery other like=house\n");
        for bar in 0..bars {
            text.push_str(&format!("busbar b{bar}\n"));
        }
        for run in 0..2 + below(12) {
            let thing = |number: u64| {
                if number == bars {
                    "house".to_owned()
                } else if number > bars {
                    "other".to_owned()
                } else {
                    format!("b{number}")
                }
            };
            text.push_str(&format!("circuit c{run} from={} to={}\n", thing(below(bars + 2)), thing(below(bars + 2))));
        }
        let build = any_shape(&text);
        let circuitry = build.circuitry();
        for run in 0..circuitry.runs.len() {
            for end in design::End::BOTH {
                let mut behind = circuitry.behind(run, end);
                behind.sort_unstable();
                let walked = walked(circuitry, run, end);
                assert_eq!(behind, walked, "run {run} of\n{text}");
                let sources: Vec<usize> = circuitry.sources_behind(run, end).map(|(node, _)| node).collect();
                let expected: Vec<usize> =
                    circuitry.sources.iter().map(|(node, _)| *node).filter(|node| walked.contains(node)).collect();
                assert_eq!(sources, expected, "run {run} of\n{text}");
            }
        }
    }
}

#[test]
fn without_a_battery_nothing_is_fed_and_nothing_is_zero() {
    let build = clean(
        "build B { basis eu; }\nbusbar bus\nlamp l power=\"5 W\"\ncircuit c from=bus to=l { fuse rating=\"5 A\"; wire size=\"1 mm2\" one-way=\"1 m\"; }\n",
    );
    for key in ["/start", "/finish"] {
        let end = part(&build, "run-end", key);
        assert!(!flag(&build, end, "fed"));
        assert_eq!(titles(&build, end, "sources"), Vec::<String>::new());
    }
    let device = part(&build, "device", "");
    assert!(!flag(&build, device, "protects"));
    for (part, fact) in [
        (device, "fault-current"),
        (device, "circuit-voltage"),
        (part(&build, "run", ""), "highest-voltage"),
        (part(&build, "lamp", ""), "load-current"),
    ] {
        assert_eq!(gaps(&build, part, fact), ["no battery in build:B"], "{fact}");
    }
}

#[test]
fn a_battery_at_either_side_feeds_both_ends() {
    let build = clean(&with_battery(
        "battery other chemistry=AGM voltage=\"12 V\" charge-voltage=\"14.4 V\" internal-resistance=\"20 mohm\"\ncircuit link from=house to=other { wire size=\"25 mm2\" one-way=\"1 m\"; fuse rating=\"100 A\"; wire size=\"25 mm2\" one-way=\"2 m\"; }\n",
    ));
    for (key, source, metres) in [("/start", "battery \"house\"", 1.0), ("/finish", "battery \"other\"", 2.0)] {
        let end = part(&build, "run-end", key);
        assert_eq!(titles(&build, end, "sources"), [source]);
        assert!(near(number(&build, end, "distance-to-device"), metres, 1e-12), "{key}");
    }
    // 25 mm² class 5: 0.780 mΩ/m (IEC 60228), out and back. From house 1 m: 14.4 ÷ (0.010 + 2 × 0.00078) = 1245.7 A; from
    // other 2 m: 14.4 ÷ (0.020 + 4 × 0.00078) = 622.8 A. The larger decides.
    let fault = number(&build, part(&build, "device", ""), "fault-current");
    assert!(near(fault, 14.4 / 0.011_56, 1e-9), "{fault}");
}

#[test]
fn a_charger_gives_on_its_output_side_only_and_joins_nothing() {
    let build = clean(&with_battery(
        "battery starter chemistry=AGM voltage=\"12 V\" charge-voltage=\"14.8 V\"\ncharger b2b kind=dc-to-dc input=\"60 A\" output=\"25 A\" voltage=\"14.2 V\"\ncircuit in from=starter to=b2b { fuse rating=\"80 A\"; }\ncircuit out from=b2b to=house { fuse rating=\"40 A\"; }\n",
    ));
    let sources = |key: &str| titles(&build, part(&build, "run-end", key), "sources");
    assert_eq!(sources("circuit:in/start"), ["battery \"starter\""]);
    assert_eq!(sources("circuit:in/finish"), Vec::<String>::new());
    assert_eq!(sources("circuit:out/start"), ["charger \"b2b\""]);
    assert_eq!(sources("circuit:out/finish"), ["battery \"house\""]);
    // The voltages stay on their sides: 14.8 V of the starter battery; 14.4 V of the house battery, above the charger's 14.2 V.
    for (key, volts) in [("circuit:in/run", 14.8), ("circuit:out/run", 14.4)] {
        assert!(near(number(&build, part(&build, "run", key), "highest-voltage"), volts, 1e-12), "{key}");
    }
    // In takes its input; out brings its output to the store.
    for (key, amperes) in [("circuit:in/run", 60.0), ("circuit:out/run", 25.0)] {
        assert!(near(number(&build, part(&build, "run", key), "design-current"), amperes, 1e-12), "{key}");
    }
    assert!(near(number(&build, part(&build, "run-end", "circuit:out/start"), "upstream-rating"), 25.0, 1e-12));
}

#[test]
fn batteries_in_parallel_add_their_fault_currents() {
    // Three of 14.4 V ÷ 0.010 Ω = 1,440 A on one bar: 4,320 A into the load's fuse. Through the fuse of one of them flows, for
    // a short at that battery, what the other two drive: 2,880 A.
    let build = clean(&with_battery(
        "battery second like=house\nbattery third like=house\nbusbar bus\nlamp l current=\"2 A\"\ncircuit a from=house to=bus { fuse rating=\"100 A\"; }\ncircuit b from=second to=bus { fuse rating=\"100 A\"; }\ncircuit c from=third to=bus { fuse rating=\"100 A\"; }\ncircuit lamp from=bus to=l { fuse rating=\"5 A\"; }\n",
    ));
    for (key, amperes) in [("circuit:lamp/fuse:1", 4_320.0), ("circuit:a/fuse:1", 2_880.0)] {
        let value = number(&build, part(&build, "device", key), "fault-current");
        assert!(near(value, amperes, 1e-6), "{key}: {value}");
    }
}

#[test]
fn an_inverter_and_the_shore_feed_the_ways_of_their_board() {
    let build = clean(&with_battery(
        "inverter inv power=\"2300 VA\" efficiency=\"92 %\" voltage=\"230 V\"\ncircuit feed from=house to=inv { fuse rating=\"250 A\"; }\nshore { inlet rating=\"16 A\" voltage=\"230 V\"; to board wire=\"2.5 mm2\" one-way=\"1 m\"; }\nac-board board main=\"16 A\" { way 1 sockets breaker=\"10 A\" wire=\"1.5 mm2\" one-way=\"3 m\" fed-by=\"shore, inv\"; }\noutlets sockets\n",
    ));
    let start = part(&build, "run-end", "way:sockets:1/start");
    assert_eq!(titles(&build, start, "sources"), ["inverter \"inv\"", "shore"]);
    // 2,300 VA ÷ 230 V = 10 A of the inverter or 16 A of the inlet: one at a time is switched on.
    assert!(near(number(&build, start, "upstream-rating"), 16.0, 1e-9));
    let way = part(&build, "run", "way:sockets:1/run");
    assert!(near(number(&build, way, "design-current"), 10.0, 1e-12), "what the way's breaker lets through");
    // Of direct current the inverter takes 2,300 W ÷ 0.92 ÷ (6 cells × 1.80 V) = 231.48 A.
    let feed = part(&build, "run", "circuit:feed/run");
    assert!(near(number(&build, feed, "design-current"), 2_300.0 / 0.92 / 10.8, 1e-9));
    assert_eq!(titles(&build, part(&build, "run-end", "circuit:feed/finish"), "sources"), Vec::<String>::new());
    // The network of direct current does not hold the breaker: its fault current is not zero, but not known.
    let breaker = part(&build, "device", "way:sockets:1/breaker");
    assert_eq!(
        gaps(&build, breaker, "fault-current"),
        ["no solution for ac-board:board/way:sockets:1/breaker fault-current"]
    );
}

#[test]
fn an_alternator_stands_alone_or_at_its_battery() {
    let alone = clean(
        "build B { basis eu; }\nalternator engine output=\"100 A\" voltage=\"14.2 V\"\nlamp l current=\"2 A\"\ncircuit c from=engine to=l { fuse rating=\"5 A\"; }\n",
    );
    assert_eq!(titles(&alone, part(&alone, "run-end", "/start"), "sources"), ["alternator \"engine\""]);
    assert!(
        near(number(&alone, part(&alone, "device", ""), "fault-current"), 100.0, 1e-9),
        "taken at its rated output"
    );
    let joined = clean(&with_battery(
        "alternator engine output=\"100 A\" voltage=\"14.2 V\" from=house\nlamp l current=\"2 A\"\ncircuit c from=house to=l { fuse rating=\"5 A\"; }\n",
    ));
    let mut sources = titles(&joined, part(&joined, "run-end", "/start"), "sources");
    sources.sort();
    assert_eq!(sources, ["alternator \"engine\"", "battery \"house\""]);
}

#[test]
fn what_may_lead_to_another_source_leaves_its_facts_open_and_no_others() {
    let two = with_battery(
        "battery starter chemistry=AGM voltage=\"12 V\" charge-voltage=\"14.8 V\" internal-resistance=\"5 mohm\"\nlamp l current=\"2 A\"\nlamp m current=\"2 A\"\ncircuit c from=house to=l { fuse rating=\"5 A\"; wire size=\"1 mm2\" one-way=\"1 m\"; }\ncircuit d from=starter to=m { fuse rating=\"5 A\"; wire size=\"1 mm2\" one-way=\"1 m\"; }\n",
    );
    let known = clean(&two);
    assert!(near(number(&known, part(&known, "device", "circuit:c/fuse:1"), "fault-current"), 1_440.0, 1e-6));
    let open = clean(&format!("{two}circuit e from=house to=unknown {{ fuse rating=\"5 A\"; }}\n"));
    for key in ["circuit:c/fuse:1", "circuit:d/fuse:1"] {
        let device = part(&open, "device", key);
        assert_eq!(
            gaps(&open, device, "fault-current"),
            ["circuit:e to"],
            "{key}: the two batteries may be joined there"
        );
        assert!(near(number(&open, device, "rating"), 5.0, 1e-12));
        assert!(flag(&open, device, "protects"), "a source is certainly there");
    }
    // A circuit that is not written to its end is joined to nothing yet; only its own facts are open.
    let unfinished = any_shape(&format!("{two}circuit e from=house {{ fuse rating=\"5 A\"; }}\n"));
    assert!(near(number(&unfinished, part(&unfinished, "device", "circuit:c/fuse:1"), "fault-current"), 1_440.0, 1e-6));
    assert_eq!(gaps(&unfinished, part(&unfinished, "device", "circuit:e/fuse:1"), "fault-current"), ["circuit:e to"]);
}

#[test]
fn an_unread_part_leaves_unread_gaps() {
    let text = with_battery(
        "lamp l current=\"2 A\"\ncircuit c from=house to=l {\n    fuse rating=\"5 A\" class=\n    wire size=\"1 mm2\" one-way=\"1 m\"\n}\n",
    );
    let build = build(&text);
    assert!(slips(&build).iter().all(|(rule, _)| rule.starts_with("text/")));
    let device = part(&build, "device", "");
    for fact in ["rating", "interrupting", "voltage"] {
        assert_eq!(gaps(&build, device, fact), ["unread circuit:c/fuse:1"], "{fact}");
    }
    let end = part(&build, "run-end", "/start");
    assert!(flag(&build, end, "has-device"), "a fuse stands there, whatever its line says");
}

#[test]
fn a_transfer_switch_passes_one_supply_on_and_none_to_another() {
    let build = clean(
        "build B { basis us; }\nshore { inlet rating=\"50 A\" voltage=\"120 V\" legs=2; to source wire=\"6 AWG\" one-way=\"2 m\"; }\ngenerator rear fuel=gas power=\"7200 VA\" voltage=\"120 V\" legs=2\ntransfer-switch source rating=\"50 A\"\ncircuit output from=rear to=source { breaker rating=\"30 A\"; wire size=\"8 AWG\" one-way=\"2 m\"; }\ncircuit feed from=source to=board { wire size=\"6 AWG\" one-way=\"1 m\"; }\nac-board board main=\"50 A\" { way 1 a breaker=\"20 A\" wire=\"12 AWG\" one-way=\"2 m\" leg=one; way 2 b breaker=\"20 A\" wire=\"12 AWG\" one-way=\"2 m\" leg=two; }\nappliance a current=\"16 A\"\nappliance b current=\"10 A\"\n",
    );
    // Nothing of the shore's 50 A reaches the generator's circuit.
    let end = part(&build, "run-end", "circuit:output/finish");
    assert!(!flag(&build, end, "fed"));
    // The shore passes 50 A on each leg; the generator 7200 VA / 120 V / 2 legs = 30 A.
    let end = part(&build, "run-end", "circuit:feed/start");
    assert_eq!(titles(&build, end, "sources"), ["transfer-switch \"source\""]);
    assert!(near(number(&build, end, "upstream-rating"), 50.0, 1e-12));
    // Each supply may have to carry the leg that takes more.
    for key in ["circuit:output/run", "circuit:feed/run", "shore:1/run"] {
        assert!(near(number(&build, part(&build, "run", key), "design-current"), 16.0, 1e-12), "{key}");
    }
}

#[test]
fn the_batteries_of_a_bank_share_by_capacity() {
    // 300 A of load from 100 Ah and 200 Ah: 100 A and 200 A.
    let build = clean(
        "build B { basis eu; }\nbattery one chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\"\nbattery two chemistry=LFP voltage=\"12.8 V\" capacity=\"200 Ah\"\nbusbar bus\nappliance load current=\"300 A\"\ncircuit a from=one to=bus { fuse rating=\"200 A\"; }\ncircuit b from=two to=bus { fuse rating=\"300 A\"; }\ncircuit c from=bus to=load { fuse rating=\"300 A\"; }\n",
    );
    for (key, amperes) in [("circuit:a/run", 100.0), ("circuit:b/run", 200.0), ("circuit:c/run", 300.0)] {
        assert!(near(number(&build, part(&build, "run", key), "design-current"), amperes, 1e-9), "{key}");
    }
}
