//! The modes of a build: which exist, what each switch and source does in them, and what is live.
#![allow(clippy::panic, reason = "a test that cannot find what it asks for has failed")]

mod support;

use design::{Build, Fact, Gap, Reader};
use support::{build, clean, fact, part, slips};

/// A van with everything that makes a mode: base vehicle, two ways to charge, mains by two sources, sun, one disconnect and
/// a battery with management.
const VAN: &str = r#"
build Van { stage review; basis eu; }
vehicle class=van
battery starter chemistry=AGM voltage="12 V" capacity="95 Ah" role=starter
alternator engine output="180 A" voltage="14.2 V" from=starter
battery house chemistry=LFP voltage="12.8 V" capacity="200 Ah" { management cuts=both; }
busbar main rating="200 A"
circuit "house main" from=house to=main { fuse rating="150 A" class=T; disconnect isolator rating="200 A"; wire size="50 mm2" one-way="1 m"; }
circuit "alarm feed" from=house to="co alarm" { fuse rating="3 A" class=T; wire size="1 mm2" one-way="2 m"; }
alarm "co alarm" senses=carbon-monoxide power=wired
charger "engine charger" kind=dc-to-dc input="40 A" output="30 A" voltage="14.4 V" input-voltage="12 V" enable=ignition
circuit "charge in" from=starter to="engine charger" { fuse rating="60 A" class=T; wire size="16 mm2" one-way="3 m"; }
circuit "charge out" from="engine charger" to=main { fuse rating="40 A" class=T; wire size="10 mm2" one-way="1 m"; }
charger "shore charger" kind=mains output="20 A" voltage="14.4 V" draw="300 W"
circuit "shore charge" from="shore charger" to=main { fuse rating="30 A" class=T; wire size="6 mm2" one-way="1 m"; }
solar roof modules=1 power="200 W" open-voltage="24 V" short-current="10 A"
solar-controller "roof controller" output="20 A" voltage="14.4 V"
circuit strings from=roof to="roof controller" { wire size="6 mm2" one-way="4 m"; }
circuit "roof charge" from="roof controller" to=main { fuse rating="30 A" class=T; wire size="6 mm2" one-way="1 m"; }
circuit spot from=main to=spot { fuse rating="3 A" class=T; wire size="1 mm2" one-way="3 m"; }
lamp spot current="1 A"
circuit horn from=starter to=horn { fuse rating="5 A" class=T; relay "horn relay" rating="20 A" worked-by=ignition; wire size="1 mm2" one-way="3 m"; }
appliance horn current="3 A"
shore { inlet rating="16 A" voltage="230 V"; to "source switch" wire="2.5 mm2" one-way="1 m" breaker="16 A"; }
generator set fuel=diesel power="2000 VA" voltage="230 V"
circuit "set output" from=set to="source switch" { breaker rating="10 A" class=mcb; wire size="2.5 mm2" one-way="2 m"; }
transfer-switch "source switch" rating="20 A" interlock=mechanical poles=2
circuit "board feed" from="source switch" to=board { breaker rating="16 A" class=mcb; wire size="2.5 mm2" one-way="1 m"; }
ac-board board rating="20 A" voltage="230 V" {
    way 1 "shore charger" breaker="6 A" wire="1.5 mm2" one-way="1 m"
    way 2 kettle breaker="10 A" wire="1.5 mm2" one-way="2 m"
}
appliance kettle power="800 W" voltage="230 V"
"#;

fn modes(build: &Build) -> Vec<&str> {
    build.modes().iter().map(|mode| &*mode.name).collect()
}

/// Whether a thing is fed in a mode: by the words `yes`, `no` and `unknown`.
fn fed(build: &Build, word: &str, name: &str, mode: &str) -> &'static str {
    let thing = part(build, word, name);
    let mut reader = Reader::new(build);
    let place = modes(build).iter().position(|own| *own == mode).unwrap_or_else(|| panic!("no mode {mode}"));
    let case = reader.cases().of_mode(place);
    match reader.fact(thing, fact(build, thing, "fed"), case) {
        Ok(Fact::Flag(true)) => "yes",
        Ok(Fact::Flag(false)) => "no",
        Ok(other) => panic!("{other:?}"),
        Err(_) => "unknown",
    }
}

#[test]
fn a_build_has_the_modes_for_which_it_has_what_they_need() {
    let van = clean(VAN);
    let all = [
        "parked",
        "driving",
        "shore",
        "generator",
        "solar charge",
        "storage",
        "isolator open",
        "management of house tripped",
    ];
    assert_eq!(modes(&van), all);
    let without = |text: &str| modes(&build(&VAN.replace(text, ""))).len();
    assert_eq!(without(" { management cuts=both; }"), all.len() - 1);
    assert_eq!(without(" disconnect isolator rating=\"200 A\";"), all.len() - 1);
    assert_eq!(modes(&build("build Van { basis eu; }")), ["parked"]);
    // The management of a bank trips as one; that which never cuts off makes no mode.
    let second = "battery house2 chemistry=LFP voltage=\"12.8 V\" capacity=\"200 Ah\" { management cuts=both; }\n\
                  circuit lead from=house2 to=house { fuse rating=\"150 A\" class=T; wire size=\"50 mm2\" one-way=\"1 m\"; }\n";
    assert!(modes(&build(&format!("{VAN}{second}"))).contains(&"management of house and house2 tripped"));
    assert_eq!(without("cuts=both"), all.len());
    assert_eq!(modes(&build(&VAN.replace("cuts=both", "cuts=none"))).len(), all.len() - 1);
}

/// A thing by word and name, with whether it is fed in each mode.
type FedIn<'a> = (&'a str, &'a str, &'a [(&'a str, &'a str)]);

#[test]
fn each_thing_is_fed_in_the_modes_in_which_current_reaches_it() {
    let van = clean(VAN);
    // Thing, and of each mode whether a source feeds it all the time.
    let table: &[FedIn] = &[
        (
            "lamp",
            "spot",
            &[
                ("parked", "yes"),
                ("driving", "yes"),
                ("isolator open", "no"),
                ("management of house tripped", "no"),
                ("storage", "no"),
            ],
        ),
        (
            "alarm",
            "co alarm",
            &[("parked", "yes"), ("isolator open", "yes"), ("management of house tripped", "no"), ("storage", "yes")],
        ),
        (
            "appliance",
            "kettle",
            &[
                ("parked", "no"),
                ("driving", "no"),
                ("shore", "yes"),
                ("generator", "yes"),
                ("solar charge", "no"),
                ("isolator open", "no"),
            ],
        ),
        ("appliance", "horn", &[("parked", "no"), ("driving", "yes"), ("shore", "no"), ("isolator open", "no")]),
    ];
    for (word, name, rows) in table {
        for (mode, expected) in *rows {
            assert_eq!(fed(&van, word, name, mode), *expected, "{name} in {mode}");
        }
    }
}

#[test]
fn a_described_mode_says_what_differs_from_the_one_that_it_is_like() {
    // What the mode says, and whether lamp and kettle are fed in it.
    let table = [
        ("as=parked", "yes", "no"),
        ("as=parked { feeding shore; }", "yes", "yes"),
        ("as=shore", "yes", "yes"),
        ("as=shore { not-feeding shore; }", "yes", "no"),
        ("as=parked { open isolator; }", "no", "no"),
        ("as=parked { open isolator; feeding shore; }", "yes", "yes"),
        ("as=parked { open isolator; feeding shore; not-feeding \"shore charger\"; }", "no", "yes"),
        ("as=storage { closed isolator; }", "yes", "no"),
        ("as=parked { not-feeding house; }", "no", "no"),
        ("{ not-feeding house; feeding roof; }", "yes", "no"),
        ("as=parked { feeding unknown; }", "yes", "unknown"),
    ];
    for (said, lamp, kettle) in table {
        let van = clean(&format!("{VAN}\nmode crossing {said}"));
        assert_eq!(fed(&van, "lamp", "spot", "crossing"), lamp, "{said}");
        assert_eq!(fed(&van, "appliance", "kettle", "crossing"), kettle, "{said}");
    }
    // One that is there by itself is described anew.
    let van = clean(&format!("{VAN}\nmode shore {{ not-feeding shore; }}"));
    assert_eq!(modes(&van).len(), 8);
    assert_eq!(fed(&van, "appliance", "kettle", "shore"), "no");
}

#[test]
fn a_mode_that_names_nothing_or_says_two_things_is_told_of() {
    let table = [
        ("open isolater", "names/unknown-name", "isolater"),
        ("feeding shoar", "names/unknown-name", "shoar"),
        ("open kettle", "names/unknown-name", "kettle"),
        ("open isolator; closed isolator", "mode/said-both-ways", "mode crossing"),
        ("feeding set; not-feeding set", "mode/said-both-ways", "mode crossing"),
    ];
    for (said, rule, at) in table {
        let van = build(&format!("{VAN}\nmode crossing {{ {said}; }}"));
        let found = slips(&van);
        assert_eq!(found.len(), 1, "{said}: {found:?}");
        assert_eq!(found[0].0, rule, "{said}");
        assert!(found[0].1.starts_with(at), "{said}: {found:?}");
    }
    let twice = build(&format!("{VAN}\nmode crossing as=parked\nmode crossing as=shore"));
    assert_eq!(slips(&twice).iter().map(|slip| slip.0).collect::<Vec<_>>(), ["names/name-twice"]);
}

#[test]
fn a_relay_closes_as_what_works_it_says() {
    let split = "circuit split from=starter to=main { fuse rating=\"80 A\" class=T; relay \"split relay\" rating=\"100 A\" HOW; wire size=\"16 mm2\" one-way=\"3 m\"; }";
    // How it is worked, and in which modes the alternator's battery is joined to the house lamp when the house battery is off.
    let table = [
        ("worked-by=ignition", "no", "yes"),
        ("worked-by=ignition rests=closed", "yes", "no"),
        ("worked-by=voltage", "no", "yes"),
        ("worked-by=hand", "no", "no"),
        ("", "unknown", "unknown"),
    ];
    for (how, parked, driving) in table {
        let text =
            VAN.replace("circuit \"charge in\"", &format!("{}\ncircuit \"charge in\"", split.replace("HOW", how)));
        // Without the charger between, so that only the relay can feed the lamp.
        let text = text.replace("enable=ignition", "enable=hand");
        let van = build(&format!(
            "{text}\nmode \"parked without house\" as=parked {{ not-feeding house; }}\n\
             mode \"driving without house\" as=driving {{ not-feeding house; }}"
        ));
        assert_eq!(fed(&van, "lamp", "spot", "parked without house"), parked, "parked, {how}");
        assert_eq!(fed(&van, "lamp", "spot", "driving without house"), driving, "driving, {how}");
    }
}

#[test]
fn an_unread_line_leaves_open_what_it_may_hold() {
    let van = build(&VAN.replace(
        "appliance kettle power=\"800 W\" voltage=\"230 V\"",
        "appliance kettle power=\"800 W\"\ncircuit \"x",
    ));
    assert_eq!(fed(&van, "lamp", "spot", "parked"), "yes");
    assert_eq!(fed(&van, "lamp", "spot", "isolator open"), "unknown");
}

#[test]
fn what_a_mode_leaves_open_says_what_would_settle_it() {
    let van = build(&VAN.replace("cuts=both", "pre-charge=yes"));
    let thing = part(&van, "alarm", "co alarm");
    let place = modes(&van).iter().position(|mode| mode.starts_with("management")).unwrap_or(0);
    let mut reader = Reader::new(&van);
    let case = reader.cases().of_mode(place);
    let gaps = reader
        .fact(thing, fact(&van, thing, "lost-to-management"), case)
        .expect_err("what the management cuts is not said");
    let cuts = |gap: &Gap| matches!(gap, Gap::Entry(_, fact) if vocabulary::fact_spec(*fact).name == "cuts");
    assert!(gaps.0.iter().flat_map(|any| &any.0).any(cuts), "{gaps:?}");
}

#[test]
fn the_overview_tells_what_lives_and_what_dies() {
    let van = clean(VAN);
    let overviews = Reader::new(&van).mode_overviews();
    let named = |parts: &[design::PartId]| {
        parts.iter().map(|part| van.part(*part).name.as_deref().unwrap_or("-").to_owned()).collect::<Vec<_>>()
    };
    let open = overviews.iter().find(|mode| &*mode.name == "isolator open").unwrap_or_else(|| panic!("it is there"));
    let from_house = open.fed.iter().find(|row| named(&row.always) == ["house"]);
    assert!(from_house.is_some_and(|row| named(&row.things).contains(&"co alarm".to_owned())), "{open:?}");
    // The sun, the engine and the mains keep the bar behind it alive at times.
    let bar = open.fed.iter().find(|row| named(&row.things).contains(&"spot".to_owned()));
    assert_eq!(
        bar.map(|row| (named(&row.always), named(&row.at_times))),
        Some((Vec::new(), ["starter", "engine", "roof", "-", "set"].map(str::to_owned).to_vec()))
    );
    let tripped = overviews.iter().find(|mode| mode.sort == "management").unwrap_or_else(|| panic!("it is there"));
    assert_eq!(named(&tripped.lost), ["main", "co alarm", "spot"]);
    let parked = &overviews[0];
    assert_eq!(
        (named(&parked.feeding), named(&parked.open)),
        (vec!["starter".to_owned(), "house".to_owned()], vec!["horn relay".to_owned()])
    );
}
