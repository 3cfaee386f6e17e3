//! Paths of current that are loose, doubled or closed on themselves: what is said of them, where, and nothing besides.

mod support;

use support::{ask, build, clean, flag, gaps, near, number, part, slips, titles, working};

const BASE: &str = "build B { basis eu; }\nbattery house chemistry=AGM voltage=\"12 V\"\nbattery other chemistry=AGM voltage=\"12 V\"\nbusbar front\nbusbar rear\nlamp l power=\"5 W\"\nlamp m power=\"5 W\"\ncircuit main from=house to=front\ncircuit link from=front to=rear\ncircuit lit from=rear to=l\ncircuit spot from=front to=m\n";

#[test]
fn what_is_wrong_with_a_path_is_said_once_and_at_its_place() {
    for (more, expected) in [
        ("circuit c from=house\n", &[("names/loose-circuit", "circuit c")][..]),
        ("circuit c to=rear\n", &[("names/loose-circuit", "circuit c")]),
        ("circuit c\n", &[("names/loose-circuit", "circuit c")]),
        ("circuit c from=front to=front\n", &[("names/circuit-to-itself", "circuit c")]),
        ("circuit c from=front { serves front; }\n", &[("names/circuit-to-itself", "circuit c")]),
        (
            "panel p negative=rear { way 1 p fuse=\"5 A\"; }\ncircuit c from=rear to=p\n",
            &[("names/circuit-to-itself", "way 1 p")],
        ),
        (
            "charger ch kind=dc-to-dc\ncircuit c from=rear to=ch\ncircuit d from=ch to=ch\n",
            &[("names/circuit-to-itself", "circuit d")],
        ),
        // The last of the ring is the one that closes it.
        ("circuit c from=rear to=house\n", &[("names/ring-of-circuits", "circuit c")]),
        ("busbar x\ncircuit c from=rear to=x\ncircuit d from=x to=house\n", &[("names/ring-of-circuits", "circuit d")]),
        (
            "busbar x\ncircuit c from=rear to=house\ncircuit d from=rear to=x\ncircuit e from=x to=house\n",
            &[("names/ring-of-circuits", "circuit c"), ("names/ring-of-circuits", "circuit e")],
        ),
        // Each battery by its own cable, and one link more between them.
        ("circuit c from=other to=front\ncircuit d from=house to=other\n", &[("names/ring-of-circuits", "circuit d")]),
        ("circuit c from=rear to=front\n", &[("names/cables-side-by-side", "circuit c")]),
        ("circuit c from=front to=m\n", &[("names/fed-twice", "circuit c")]),
        // A load does not join what feeds it.
        ("circuit c from=front to=l\n", &[("names/fed-twice", "circuit c")]),
        (
            "panel p negative=rear { way 1 l fuse=\"5 A\"; way 2 m fuse=\"5 A\"; }\ncircuit c from=rear to=p\n",
            &[("names/fed-twice", "way 1 l"), ("names/fed-twice", "way 2 m")],
        ),
        (
            "lamp n power=\"5 W\"\nlamp o power=\"5 W\"\npanel p { way 1 n fuse=\"5 A\"; way 1 o fuse=\"5 A\"; }\ncircuit c from=rear to=p\n",
            &[("names/way-number-twice", "1")],
        ),
    ] {
        let text = format!("{BASE}{more}");
        assert_eq!(slips(&build(&text)), expected, "{more}");
    }
}

#[test]
fn what_only_looks_like_it_is_let_alone() {
    for more in [
        // Parallel batteries: by links of both poles, and by a cable each.
        "circuit c from=house to=other\ncircuit d from=house to=other\n",
        "circuit c from=house to=other\nbattery third\ncircuit d from=other to=third\ncircuit e from=house to=third\n",
        "circuit c from=other to=front\n",
        // Both sides of a charger.
        "charger ch kind=dc-to-dc\ncircuit c from=front to=ch\ncircuit d from=ch to=rear\n",
        // An end that is not known yet.
        "circuit c from=unknown to=rear\n",
        "circuit c from=rear to=unknown\n",
        // Outlets may be fed from several ways.
        "outlets o\npanel p { way 1 o fuse=\"5 A\"; way 2 o fuse=\"5 A\"; }\ncircuit c from=rear to=p\n",
        // A fridge on direct and on alternating current.
        "appliance fridge\nac-board b { way 1 fridge; }\nshore { inlet; to b; }\ncircuit c from=rear to=fridge\n",
    ] {
        clean(&format!("{BASE}{more}"));
    }
}

#[test]
fn a_ring_names_what_it_runs_through() {
    let build = build(&format!("{BASE}circuit c from=rear to=house\n"));
    let slip = &build.slips[0];
    assert!(slip.message.contains("rear, front, house, and back to rear"), "{}", slip.message);
    assert_eq!(slip.related.len(), 2, "the other two circuits of the ring");
}

#[test]
fn rings_without_number_are_counted_and_not_told_one_by_one() {
    let mut text = BASE.to_owned();
    for number in 0..60 {
        text.push_str(&format!("busbar b{number}\ncircuit f{number} from=front to=b{number}\n"));
        text.push_str(&format!("circuit r{number} from=rear to=b{number}\n"));
    }
    let build = build(&text);
    assert_eq!(build.slips.len(), 50);
    assert!(build.slips[49].message.contains("10 more circuits close rings"), "{}", build.slips[49].message);
}

#[test]
fn a_line_that_cannot_be_read_says_nothing_of_its_ends() {
    for circuit in ["circuit c from=house \"\n", "circuit c from=house {\n    serves \"l\n}\n"] {
        let build = build(&format!("{BASE}{circuit}"));
        let told: Vec<_> = slips(&build).into_iter().filter(|(rule, _)| !rule.starts_with("text/")).collect();
        assert_eq!(told, [], "{circuit}");
    }
}

#[test]
fn lengths_that_contradict_each_other_count_neither() {
    let wire = |lengths: &str| {
        format!(
            "build B {{ basis eu; }}\nbattery house\nlamp l\ncircuit c from=house to=l {{ wire size=\"1 mm2\" {lengths}; }}\n"
        )
    };
    let build = build(&wire("one-way=\"3 m\" loop=\"5 m\""));
    assert_eq!(slips(&build), [("names/lengths-differ", "\"5 m\"")]);
    assert_eq!(gaps(&build, part(&build, "conductor", ""), "one-way"), ["circuit:c/wire:1 one-way"]);
    let build = clean(&wire("one-way=\"3 m\" loop=\"6 m\""));
    assert!(near(number(&build, part(&build, "conductor", ""), "one-way"), 3.0, 1e-12));
    // What a wire says itself goes before what it takes over.
    let build = clean(&format!("{}defaults {{ wire one-way=\"9 m\"; }}\n", wire("loop=\"6 m\"")));
    assert!(near(number(&build, part(&build, "conductor", ""), "one-way"), 3.0, 1e-12));
}

#[test]
fn a_basis_that_is_not_known_is_said() {
    for (basis, at) in [("basis unknown", "basis unknown"), ("stage draft", "build B")] {
        assert_eq!(slips(&build(&format!("build B {{ {basis}; }}\nbattery a\n"))), [("names/no-basis", at)]);
    }
    let rules: Vec<_> =
        slips(&build("build B { basis europe; }\nbattery a\n")).into_iter().map(|(rule, _)| rule).collect();
    assert_eq!(rules, ["text/not-a-choice"], "what the reader has told is not told again");
}

#[test]
fn the_open_air_is_known_where_it_is_named() {
    let build = clean(
        "build B { basis eu; }\nzone cabin\ntank t zone=outside\nalarm a zone=cabin\nzone box { vent low to=outside; }\n",
    );
    let Ok(design::Fact::Part(zone)) = ask(&build, part(&build, "tank", ""), "standing-zone") else {
        panic!("the tank stands nowhere")
    };
    assert_eq!(&*build.part(zone).title, "the open air");
    let zones = build.of_kind(build.part(zone).kind);
    assert_eq!(zones.members.len(), 2, "nobody describes the open air, so no rule is judged on it");
    // A zone of that name that is described is the one that is meant.
    let build = clean("build B { basis eu; }\ntank t zone=outside\nzone outside kind=outside\n");
    assert_eq!(build.parts().filter(|(_, part)| &*part.title == "the open air").count(), 0);
}

#[test]
fn a_way_to_what_is_not_known_is_open_and_no_name() {
    let build = clean(&format!(
        "{BASE}panel p {{ way 1 unknown fuse=\"5 A\" wire=\"1 mm2\" one-way=\"1 m\"; }}\ncircuit c from=rear to=p\n"
    ));
    let run = part(&build, "run", "panel:p/way:1/run");
    assert!(!gaps(&build, run, "design-current").is_empty());
}

#[test]
fn a_pump_in_a_line_takes_over_a_pattern() {
    let text = "build B { basis eu; }\nbattery house voltage=\"12 V\"\ntank t\npump shop current=\"3.6 A\"\ncircuit c from=house { serves shop mine; }\nwater-line w from=t { pump mine like=shop; }\n";
    let build = clean(text);
    assert!(near(number(&build, part(&build, "pump", "pump:mine"), "load-current"), 3.6, 1e-12));
    let build = support::build(&text.replace("like=shop", "like=nothing"));
    assert_eq!(slips(&build), [("text/like-unknown", "nothing")]);
}

#[test]
fn a_charger_of_which_only_one_side_is_joined_is_not_fed() {
    let charger = format!("{BASE}charger ch kind=dc-to-dc\n");
    for (more, expected) in [
        ("circuit d from=ch to=rear\n", &[("names/thing-without-run", "charger ch")][..]),
        ("circuit c from=house to=ch\ncircuit d from=ch to=rear\n", &[]),
    ] {
        assert_eq!(slips(&build(&format!("{charger}{more}"))), expected, "{more}");
    }
}

#[test]
fn what_a_controller_works_must_be_there() {
    let build = build(&format!("{BASE}controller c {{ operates lamb; operates l; }}\ncircuit d from=front to=c\n"));
    assert_eq!(slips(&build), [("names/unknown-name", "operates lamb")]);
    assert_eq!(titles(&build, part(&build, "controller", ""), "alarms-on-its-device"), [""; 0]);
}

#[test]
fn a_network_ends_at_converters_and_at_loads() {
    let build = clean(
        "build B { basis eu; }\nbattery small voltage=\"12 V\"\nbattery large voltage=\"24 V\"\ncharger ch kind=dc-to-dc voltage=\"28 V\" output=\"10 A\"\nbusbar bus\nmonitor both power=\"1 W\"\ncircuit a from=small to=ch\ncircuit b from=ch to=bus\ncircuit c from=large to=bus\ncircuit d from=small to=both\n",
    );
    let network = part(&build, "network", "busbar:bus/network");
    assert_eq!(titles(&build, network, "sources"), ["charger \"ch\"", "battery \"large\""]);
    assert!(near(number(&build, network, "lowest-given"), 24.0, 1e-12));
    assert!(near(number(&build, network, "highest-given"), 28.0, 1e-12));
    assert_eq!(working(&build, network, "highest-given").steps.len(), 2);
    assert_eq!(titles(&build, part(&build, "network", "battery:small/network"), "sources"), ["battery \"small\""]);
}

#[test]
fn a_switch_counts_where_every_way_to_a_battery_has_one() {
    let alarm = |feed: &str| format!("{BASE}alarm a\n{feed}");
    for (feed, expected) in [
        ("circuit c from=rear to=a\n", &[][..]),
        ("circuit c from=rear to=a { switch s; }\n", &["switch \"s\""]),
        ("circuit c from=rear to=a { switch s; }\ncircuit d from=house to=a\n", &[]),
        (
            "circuit c from=rear to=a { switch s; }\ncircuit d from=house to=a { relay r; }\n",
            &["relay \"r\"", "switch \"s\""],
        ),
        // Downstream of the alarm's bar, and beside it.
        ("busbar x\ncircuit c from=rear to=a\ncircuit d from=rear to=x { switch s; }\n", &[]),
    ] {
        let build = build(&alarm(feed));
        let own = part(&build, "alarm", "");
        assert!(flag(&build, own, "reached"), "{feed}");
        let mut titles = titles(&build, own, "switched-by");
        titles.sort();
        assert_eq!(titles, expected, "{feed}");
    }
    // A piece that cannot be read may be a switch, and a circuit that leads to nobody knows where may lead here.
    let build = build(&alarm("circuit c from=rear to=a {\n    fuse rating=\"3 A\n}\n"));
    assert!(!gaps(&build, part(&build, "alarm", ""), "switched-by").is_empty());
    let build = support::build(&alarm("circuit c from=rear to=unknown\n"));
    assert_eq!(gaps(&build, part(&build, "alarm", ""), "reached"), ["circuit:c to"]);
}
