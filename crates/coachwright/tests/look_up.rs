//! `why`, `working` and `prove`, by the program itself.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use workshop::Workshop;

const BUILD: &str = "\
build Wren {
    stage draft
    basis eu
}
battery house chemistry=LFP voltage=\"25.6 V\" capacity=\"200 Ah\"
battery starter chemistry=AGM voltage=\"12 V\"
";

const PACK: &str = r##"/- kdl-version 2
fixture "sleeper" #"""
    build Test {
        stage review
        basis eu
    }
    alarm "smoke alarm" senses=smoke
    """#
rule "shop/no-alarm" notice about=alarm {
    title "An alarm senses nothing"
    must "smoke in senses"
    tell "This alarm does not sense smoke."
    why "The shop fits no other."
    remedy "Fit one that does."
    source "the shop's own list" place="all" edition="not stated" mark=chosen
    example "it senses smoke" holds on="sleeper"
    example "it senses heat" fails on="sleeper" { change "senses=smoke" to="senses=heat" }
    example "a second one senses heat" fails on="sleeper" { add #"alarm "other" senses=heat"# }
    example "nobody knows what it senses" open on="sleeper" missing="senses" { change "senses=smoke" to="senses=unknown" }
}
"##;

#[test]
fn a_rule_is_explained() {
    let shop = Workshop::new();
    let list = shop.run(&["why"]);
    assert_eq!(list.status, 0);
    let rules: Vec<&str> = list.out.lines().filter_map(|line| line.strip_prefix("  ")?.split(' ').next()).collect();
    assert!(rules.contains(&"alarm/no-smoke-alarm"), "{}", list.out);
    for rule in rules {
        let page = shop.run(&["why", rule]);
        assert_eq!(page.status, 0, "{rule}: {}", page.err);
        for words in [rule, "Signal word", "Why", "Do this", "Source", "not an approval"] {
            assert!(page.out.contains(words), "{rule} says {words}: {}", page.out);
        }
    }
}

#[test]
fn a_misspelt_rule_is_guessed() {
    let shop = Workshop::new();
    for name in ["alarm/no-smoke-alarms", "no-smoke-alarm", "smoke"] {
        let ran = shop.run(&["why", name]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{name}");
        assert!(ran.err.contains("Did you mean alarm/no-smoke-alarm"), "{name}: {}", ran.err);
    }
    let ran = shop.run(&["why", "\u{1b}[2J"]);
    assert!(ran.err.contains("There is no rule or domain \"\\u{1b}[2J\"."), "{}", ran.err);
}

#[test]
fn rules_are_listed_by_domain() {
    let shop = Workshop::new();
    let all = shop.run(&["why"]).out;
    // The names as written, so that a test sees a rule that the list leaves out.
    let rules = concat!(env!("CARGO_MANIFEST_DIR"), "/../../rules");
    let mut names = Vec::new();
    for pack in ["any", "us", "eu", "uk", "au-nz"] {
        for file in std::fs::read_dir(format!("{rules}/{pack}")).expect("a pack") {
            let text = std::fs::read_to_string(file.expect("a file").path()).expect("a text");
            names.extend(
                text.lines().filter_map(|line| Some(line.strip_prefix("rule \"")?.split('"').next()?.to_owned())),
            );
        }
    }
    assert!(names.len() > 100, "{names:?}");
    for name in &names {
        let line = all.lines().find(|line| line.split_whitespace().next() == Some(name)).unwrap_or_default();
        assert!(
            ["danger", "warning", "caution", "notice"].contains(&line.split_whitespace().nth(1).unwrap_or_default()),
            "{name} stands with its signal word: {line}"
        );
        assert!(line.split_whitespace().count() > 2, "{name} stands with its title: {line}");
    }
    for domain in ["shore", "shore/"] {
        let one = shop.run(&["why", domain]);
        assert_eq!(one.status, 0, "{}", one.err);
        let of_shore = names.iter().filter(|name| name.starts_with("shore/")).count();
        assert!(one.out.starts_with(&format!("shore: {of_shore} rules\n")), "{}", one.out);
        assert_eq!(one.out.lines().count(), of_shore + 1, "{}", one.out);
        let danger = one.out.find(" danger ").expect("a danger");
        assert!(danger < one.out.find(" notice ").expect("a notice"), "the worst stands first: {}", one.out);
    }
    let plain = shop.run(&["why", "shore", "--as", "plain"]);
    assert!(plain.out.contains("shore/cord-without-earth, danger: "), "{}", plain.out);
    let near = shop.run(&["why", "shoer"]);
    assert_eq!(near.status, 2);
    assert!(near.err.contains("Did you mean shore?"), "{}", near.err);
}

#[test]
fn the_facts_of_a_part_are_shown() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", BUILD);
    for part in ["house", "battery \"house\""] {
        let ran = shop.run(&["working", "wren.build.kdl", part]);
        assert_eq!(ran.status, 0, "{part}: {}", ran.err);
        assert!(ran.out.contains("wren.build.kdl:5:1"), "{}", ran.out);
        let line = ran.out.lines().find(|line| line.trim_start().starts_with("capacity ")).unwrap_or_default();
        assert!(line.contains("200 Ah") && line.ends_with("given"), "{}", ran.out);
    }
    let one = shop.run(&["working", "wren.build.kdl", "house", "capacity", "--as", "plain"]);
    assert!(one.out.contains("capacity of battery \"house\" = 200 Ah, given."), "{}", one.out);
    assert!(!one.out.contains("voltage of"), "{}", one.out);
}

#[test]
fn a_heavy_thing_is_meant_by_its_name() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", format!("{BUILD}tank fresh holds=fresh volume=\"70 l\" mass=\"4 kg\"\n"));
    for part in ["fresh", "tank \"fresh\""] {
        let ran = shop.run(&["working", "wren.build.kdl", part, "volume"]);
        assert_eq!(ran.status, 0, "{part}: {}", ran.err);
    }
    // What stands for it among the worked parts is asked for by its key.
    let ran = shop.run(&["working", "wren.build.kdl", "tank:fresh/on-floor", "standing-mass"]);
    assert!(ran.out.contains("74 kg"), "{}{}", ran.out, ran.err);
}

#[test]
fn what_cannot_be_found_is_guessed() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", BUILD);
    for (arguments, words) in [
        (&["hause"][..], "There is no part \"hause\". Did you mean house"),
        (&["battery"], "could be each of these: battery \"house\"; battery \"starter\""),
        (&["house", "capazity"], "There is no fact of a battery called \"capazity\". Did you mean capacity?"),
    ] {
        let ran = shop.run(&[&["working", "wren.build.kdl"], arguments].concat());
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.contains(words), "{arguments:?}: {}", ran.err);
    }
    assert_eq!(shop.run(&["working", "missing.build.kdl", "house"]).status, 2);
}

#[test]
fn packs_are_proved() {
    let shop = Workshop::new();
    shop.write("packs/own/shop.rules.kdl", PACK);
    for pack in ["packs", "packs/own/shop.rules.kdl"] {
        let ran = shop.run(&["prove", pack, "--hard"]);
        assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
        assert!(ran.out.contains("1 rule with 4 examples, masking MC/DC 100 %"), "{}", ran.out);
    }
    shop.write("packs/own/shop.rules.kdl", PACK.replace("\"it senses heat\" fails", "\"it senses heat\" holds"));
    let ran = shop.run(&["prove", "packs"]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("packs/own/shop.rules.kdl:17:13"), "{}", ran.out);
    assert!(ran.out.contains("Not proved"), "{}", ran.out);
}

#[test]
fn packs_that_are_not_there_are_told() {
    let shop = Workshop::new();
    shop.write("empty/readme", "");
    for (pack, words) in [("empty", "holds no rule file"), ("missing", "cannot be searched for rule files")] {
        let ran = shop.run(&["prove", pack]);
        assert_eq!(ran.status, 2);
        assert!(ran.err.contains(words), "{}", ran.err);
    }
    // A name that is taken by a rule of the tool.
    shop.write("packs/own/alarm.rules.kdl", PACK.replace("shop/no-alarm", "alarm/no-smoke-alarm"));
    let ran = shop.run(&["prove", "packs"]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("stands twice"), "{}", ran.out);
}
