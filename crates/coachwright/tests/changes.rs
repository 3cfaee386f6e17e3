//! `changes`: revisions by name, forms, and what is told when there is nothing to compare with.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use std::process::Command;
use workshop::{QUIET, Workshop};

const WREN: &str = "build Wren {\n    stage draft\n    basis eu\n}\nlamp bench power=\"18 W\"\n";

fn git(shop: &Workshop, arguments: &[&str]) {
    let identity = ["-c", "user.name=workshop", "-c", "user.email=workshop@example.org", "-c", "commit.gpgsign=false"];
    let status = Command::new("git").args(identity).args(arguments).current_dir(shop.path(".")).status();
    assert!(status.expect("git runs").success(), "{arguments:?}");
}

#[test]
fn two_files_are_compared_in_every_form() {
    let shop = Workshop::new();
    shop.write("old.build.kdl", WREN).write("new.build.kdl", WREN.replace("18 W", "24 W"));
    for (form, expected) in [
        ("terminal", "power         18 W → 24 W"),
        ("plain", "power: 18 W → 24 W."),
        ("html", "<td class=\"long\"><bdi>24 W</bdi></td>"),
        ("json", "\"entries\":[{\"name\":\"power\",\"new\":\"24 W\",\"old\":\"18 W\"}]"),
    ] {
        let ran = shop.run(&["changes", "old.build.kdl", "new.build.kdl", "--as", form]);
        assert_eq!(ran.status, 0, "{form}: {}", ran.err);
        assert!(ran.out.contains(expected), "{form}: {}", ran.out);
        let ran = shop.run(&["changes", "old.build.kdl", "new.build.kdl", "--as", form, "--to", "out"]);
        assert_eq!((ran.status, ran.out.as_str()), (0, ""), "{form}: {}", ran.err);
        assert!(shop.read("out").contains(expected), "{form}: {}", shop.read("out"));
    }
}

#[test]
fn git_revisions_are_named_from_here_or_from_the_top() {
    let shop = Workshop::new();
    shop.write("vans/wren.build.kdl", WREN);
    git(&shop, &["init", "--quiet"]);
    git(&shop, &["add", "."]);
    git(&shop, &["commit", "--quiet", "--message", "before"]);
    git(&shop, &["tag", "rev-a"]);
    shop.write("vans/wren.build.kdl", WREN.replace("18 W", "24 W"));
    for (folder, old, new) in [
        (".", "rev-a:vans/wren.build.kdl", "vans/wren.build.kdl"),
        ("vans", "rev-a:wren.build.kdl", "wren.build.kdl"),
        ("vans", "rev-a:vans/wren.build.kdl", "wren.build.kdl"),
        ("vans", "HEAD:wren.build.kdl", "wren.build.kdl"),
    ] {
        let ran = workshop::ran(
            shop.command(&["changes", old, new, "--as", "plain"])
                .current_dir(shop.path(folder))
                .output()
                .expect("it runs"),
        );
        assert_eq!(ran.status, 0, "{folder}, {old}: {}", ran.err);
        assert!(ran.out.contains("power: 18 W → 24 W."), "{folder}, {old}: {}", ran.out);
    }
    for (arguments, expected) in [
        (["rev-z:vans/wren.build.kdl", "vans/wren.build.kdl"], "no git revision rev-z"),
        (["rev-a:vans/robin.build.kdl", "vans/wren.build.kdl"], "has no file vans/robin.build.kdl"),
        (["rev-a:../wren.build.kdl", "vans/wren.build.kdl"], "has no file"),
        (["no.build.kdl", "vans/wren.build.kdl"], "no.build.kdl cannot be read: there is no such file"),
    ] {
        let ran = shop.run(&["changes", arguments[0], arguments[1]]);
        assert_eq!(ran.status, 2, "{arguments:?}: {}", ran.out);
        assert!(ran.err.contains(expected), "{arguments:?}: {}", ran.err);
    }
}

#[test]
fn with_one_revision_what_was_approved_is_the_older_one() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", WREN);
    git(&shop, &["init", "--quiet"]);
    git(&shop, &["add", "."]);
    git(&shop, &["commit", "--quiet", "--message", "before"]);
    git(&shop, &["tag", "rev-a"]);
    let alone = shop.run(&["changes", "wren.build.kdl"]);
    assert_eq!(alone.status, 2);
    assert!(alone.err.contains("names no approval to compare with"), "{}", alone.err);
    let ran = shop.run(&["packet", "wren.build.kdl", "--to", "out"]);
    assert!(ran.status < 2, "{}", ran.err);
    let data: serde_json::Value = serde_json::from_str(&shop.read("out/packet.json")).expect("JSON");
    let mark = data["head"]["hash"].as_str().expect("a mark")[..12].to_owned();
    let approved = |mark: &str, power: &str| {
        let approval = format!("    approved \"{mark}\" date=\"2026-03-20\" commit=rev-a\n    basis eu");
        WREN.replace("    basis eu", &approval).replace("18 W", power)
    };
    for (mark, power, said, warned) in [
        (mark.as_str(), "18 W", "", false),
        (mark.as_str(), "24 W", "power: 18 W → 24 W.", false),
        ("000000000000", "24 W", "power: 18 W → 24 W.", true),
    ] {
        shop.write("wren.build.kdl", approved(mark, power));
        let ran = shop.run(&["changes", "wren.build.kdl", "--as", "plain"]);
        assert_eq!(ran.status, 0, "{}", ran.err);
        assert!(ran.out.contains(said), "{mark}, {power}: {}", ran.out);
        assert_eq!(ran.err.contains("is not what was approved"), warned, "{mark}, {power}: {}", ran.err);
    }
}

#[test]
fn both_revisions_are_told_in_the_same_units() {
    let shop = Workshop::new();
    shop.write("old.build.kdl", WREN.replace("power=\"18 W\"", "mass=\"10 kg\""));
    shop.write(
        "new.build.kdl",
        WREN.replace("basis eu", "basis eu\n    units us").replace("power=\"18 W\"", "mass=\"12 kg\""),
    );
    for (units, expected) in
        [(None, "22 lb → 26.5 lb"), (Some("metric"), "10 kg → 12 kg"), (Some("us"), "22 lb → 26.5 lb")]
    {
        let mut arguments = vec!["changes", "old.build.kdl", "new.build.kdl", "--as", "plain"];
        arguments.extend(units.into_iter().flat_map(|units| ["--units", units]));
        let ran = shop.run(&arguments);
        assert!(ran.out.contains(expected), "{units:?}: {}", ran.out);
        assert!(ran.out.contains("metric → us"), "{units:?}: {}", ran.out);
    }
}

#[test]
fn a_packet_is_printed_in_the_units_that_are_asked_for() {
    let shop = Workshop::new();
    shop.write("wren.build.kdl", format!("{QUIET}lamp bench power=\"18 W\" mass=\"10 kg\" at=\"1000, 0, 0 mm\"\n"));
    for (units, mass, heading) in [("metric", "10 kg", "mass [kg]"), ("us", "22 lb", "mass [lb]")] {
        let ran = shop.run(&["packet", "wren.build.kdl", "--to", "out", "--units", units]);
        assert!(ran.status < 2, "{}", ran.err);
        assert!(shop.read("out/packet.html").contains(mass), "{units}");
        assert!(shop.read("out/tables/materials.csv").contains(heading), "{units}");
    }
}
