//! Names: what shares a space, what is defined twice, and what nothing has.

mod support;

use support::{build, clean, gaps, part, slips};

#[test]
fn things_runs_zones_and_routes_have_names_of_their_own() {
    clean(
        "build lamp { basis eu; }\nbattery house\nlamp lamp power=\"5 W\" zone=lamp\nzone lamp kind=living\nroute lamp\nshell lamp\nexit lamp\ncircuit lamp from=house to=lamp { fuse rating=\"5 A\"; wire route=lamp; }\n",
    );
}

#[test]
fn a_name_that_is_taken_is_reported_with_the_first_that_has_it() {
    for (text, at) in [
        ("build B { basis eu; }\nbattery a\nbattery a\n", "battery a"),
        ("build B { basis eu; }\nbattery a\ntank a\n", "tank a"),
        ("build B { basis eu; }\nzone a\nzone a\n", "zone a"),
        ("build B { basis eu; }\nroute a\nroute a\n", "route a"),
        ("build B { basis eu; }\ntank a\nwater-line w { pump a; }\n", "pump a"),
    ] {
        let build = build(text);
        assert_eq!(slips(&build), [("names/name-twice", at)], "{text}");
        assert_eq!(build.slips[0].related.len(), 1, "{text}");
    }
}

#[test]
fn a_name_that_nothing_has_is_reported_with_the_nearest_and_a_mend_that_links() {
    for (text, at, mend) in [
        ("battery house\nlamp l\ncircuit c from=huose to=l\n", "huose", Some("house")),
        (
            "battery \"house bank\"\nlamp l\ncircuit c from=\"hause bank\" to=l\n",
            "\"hause bank\"",
            Some("\"house bank\""),
        ),
        ("battery house\nlamp bench\ncircuit c from=house { serves bensh; }\n", "bensh", Some("bench")),
        ("zone cabin\ntank t zone=kabin\n", "kabin", Some("cabin")),
        ("battery house\nlamp l\nroute roof\ncircuit c from=house to=l { wire route=rof; }\n", "rof", Some("roof")),
        ("battery house\nlamp l\ncircuit c from=generator to=l\n", "generator", None),
    ] {
        let text = format!("build B {{ basis eu; }}\n{text}");
        let linked = build(&text);
        let named: Vec<_> = slips(&linked).into_iter().filter(|(rule, _)| *rule == "names/unknown-name").collect();
        assert_eq!(named, [("names/unknown-name", at)], "{text}: {:?}", linked.slips);
        let slip = linked.slips.iter().find(|slip| slip.rule == "names/unknown-name").expect("just seen");
        assert!(slip.help.is_some());
        assert_eq!(slip.mend.as_ref().map(|mend| &*mend.text), mend, "{text}");
        if let Some(mend) = &slip.mend {
            let mut mended = text.clone();
            mended.replace_range(mend.at.bytes.start as usize..mend.at.bytes.end as usize, &mend.text);
            clean(&mended);
        }
    }
}

#[test]
fn a_name_of_another_kind_is_told_apart() {
    let build = build(
        "build B { basis eu; }\nbattery house\npanel p negative=house\nlamp l\ncircuit a from=house to=p\ncircuit b from=p to=l\n",
    );
    assert_eq!(slips(&build), [("names/unknown-name", "house")]);
    assert!(
        build.slips[0].help.as_ref().is_some_and(|help| help.contains("battery \"house\" is no busbar")),
        "{:?}",
        build.slips
    );
}

#[test]
fn the_open_air_is_a_zone_without_being_defined() {
    clean("build B { basis eu; }\ntank t zone=outside\nzone locker { vent low to=outside; }\n");
}

#[test]
fn a_name_stays_quiet_where_what_it_means_may_stand_in_what_could_not_be_read() {
    for text in [
        "build B { basis eu; }\nbattery house\nlamp l=\ncircuit c from=house to=lamp\n",
        "build B { basis eu; }\nbatery house\nlamp l\ncircuit c from=house to=l\n",
        "build B { basis eu; include \"nowhere.build.kdl\"; }\nlamp l\ncircuit c from=house to=l\n",
    ] {
        let build = build(text);
        assert!(build.slips.iter().all(|slip| slip.rule.starts_with("text/")), "{text}: {:?}", build.slips);
        assert!(!build.slips.is_empty());
    }
}

#[test]
fn a_thing_that_needs_a_run_and_has_none_is_reported_once() {
    let build = build(
        "build B { basis eu; }\nbattery house\nlamp lit\nlamp dark\nappliance silent\ncircuit c from=house to=lit\n",
    );
    assert_eq!(slips(&build), [("names/thing-without-run", "lamp dark")]);
}

#[test]
fn a_name_that_nothing_has_is_a_gap_and_not_an_empty_place() {
    let build = build(
        "build B { basis eu; }\nbattery house chemistry=LFP voltage=\"12.8 V\"\nlamp l power=\"5 W\"\ncircuit c from=elsewhere to=l { fuse rating=\"5 A\"; wire size=\"1 mm2\"; }\n",
    );
    let run = part(&build, "run", "");
    for (part_word, key, fact) in [
        ("run", "", "design-current"),
        ("run", "", "highest-voltage"),
        ("run-end", "/start", "fed"),
        ("run-end", "/start", "limited-upstream"),
        ("device", "", "fault-current"),
        ("device", "", "protects"),
        ("device", "", "circuit-voltage"),
    ] {
        let gaps = gaps(&build, part(&build, part_word, key), fact);
        assert!(gaps.contains(&"circuit:c from".to_owned()), "{fact}: {gaps:?}");
    }
    assert_eq!(build.part(run).title.as_ref(), "circuit \"c\"");
}
