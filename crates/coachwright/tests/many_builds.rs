//! `review` of many builds: what is found, in which order, in which files, and what goes wrong on the way.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

mod workshop;

use serde_json::Value;
use std::collections::BTreeSet;
use workshop::{QUIET, Ran, Workshop, ran};

/// A build with an unfused lamp.
const FAULTY: &str = "build Heron {\n    stage draft\n    basis eu\n}\nbattery house voltage=\"12.8 V\" chemistry=LFP\n\
    lamp bench power=\"18 W\"\ncircuit feed from=house to=bench {\n    wire size=\"1.5 mm2\" one-way=\"4 m\" insulation=\"105 degC\"\n}\n";

/// One with a slip that is no danger: a rule that a fused lamp still breaks.
fn named(name: &str) -> String {
    QUIET.replace("Wren", name)
}

/// The builds of a run of `--as json`, in its order.
fn builds(ran: &Ran) -> Vec<String> {
    let documents = ran.out.lines().map(|line| serde_json::from_str::<Value>(line).expect("JSON"));
    documents.map(|document| document["build"].as_str().unwrap_or("none").to_owned()).collect()
}

fn json(shop: &Workshop, arguments: &[&str]) -> Ran {
    shop.run(&[&["review", "--as", "json", "--hold-at", "danger"], arguments].concat())
}

/// A shop with a few folders.
fn shop() -> Workshop {
    let shop = Workshop::new();
    shop.write("vans/b.build.kdl", named("B"))
        .write("vans/a.build.kdl", named("A"))
        .write("vans/old/c.build.kdl", named("C"))
        .write("trailers/d.build.kdl", named("D"))
        .write("vans/parts/galley.build.kdl", "lamp galley power=\"5 W\"\n")
        .write("vans/notes.txt", "none")
        .write("vans/.hidden/e.build.kdl", named("E"))
        .write("out/f.build.kdl", named("F"))
        .write(".gitignore", "out/\n")
        .write("vans/.ignore", "old/\n");
    shop
}

#[test]
fn files_folders_and_patterns_are_found_each_once_in_a_fixed_order() {
    let shop = shop();
    for (arguments, found) in [
        (&["."][..], &["D", "A", "B"][..]),
        (&["vans"], &["A", "B"]),
        (&["vans", "trailers"], &["A", "B", "D"]),
        (&["trailers", "vans"], &["D", "A", "B"]),
        (&["vans/b.build.kdl", "vans"], &["B", "A"]),
        (&["vans/a.build.kdl", "vans/../vans/a.build.kdl", "./vans/a.build.kdl"], &["A"]),
        (&["vans/old/c.build.kdl"], &["C"]),
        (&["*/*.build.kdl"], &["D", "A", "B"]),
        (&["**/[ad].build.kdl"], &["D", "A"]),
        (&["vans/{a,b}.build.kdl"], &["A", "B"]),
        (&["./vans/?.build.kdl"], &["A", "B"]),
        // What is named is reviewed, whatever leaves it out.
        (&["out/f.build.kdl", "vans/.hidden/e.build.kdl"], &["F", "E"]),
    ] {
        let ran = json(&shop, arguments);
        assert_eq!(builds(&ran), found, "{arguments:?} {}", ran.err);
        assert_eq!(ran.status, 0, "{arguments:?} {}", ran.err);
    }
    let ran = json(&shop, &["vans"]);
    assert!(ran.err.contains("1 file describes no build"), "a piece is told of: {}", ran.err);
    // Named itself, it is reviewed as what it is: no build.
    assert_eq!(builds(&json(&shop, &["vans/parts/galley.build.kdl"])), ["none"]);
}

#[test]
fn an_empty_file_in_a_folder_is_no_piece() {
    let shop = Workshop::new();
    shop.write("a.build.kdl", "").write("b.build.kdl", "build {").write("c.build.kdl", named("C"));
    assert_eq!(builds(&json(&shop, &["."])).len(), 3, "what is broken is told of, not passed over");
}

#[test]
fn several_forms_are_written_in_one_run() {
    let shop = Workshop::new();
    shop.write("a.build.kdl", named("A")).write("b.build.kdl", FAULTY);
    let ran = shop.run(&[
        "review",
        ".",
        "--as",
        "sarif",
        "--to",
        "all.sarif",
        "--as",
        "terminal",
        "--as",
        "junit",
        "--to",
        "all.xml",
    ]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(ran.out.contains("2 builds were reviewed, 1 held.") || ran.out.contains("2 builds were reviewed, 2 held."));
    assert!(ran.out.contains("has no fuse or breaker"), "{}", ran.out);
    let sarif: Value = serde_json::from_str(&shop.read("all.sarif")).expect("JSON");
    let results = sarif["runs"][0]["results"].as_array().expect("results");
    let unfused = results.iter().find(|one| one["ruleId"] == "protection/none-at-source").expect("the unfused lamp");
    let fix = &unfused["fixes"][0]["artifactChanges"][0]["replacements"][0];
    assert!(fix["insertedContent"]["text"].as_str().is_some_and(|text| text.contains("fuse rating=")), "{unfused}");
    let driver = &sarif["runs"][0]["tool"]["driver"];
    let rules = driver["rules"].as_array().expect("rules");
    let rule = rules.iter().find(|one| one["id"] == "protection/none-at-source").expect("the rule");
    assert!(rule["help"]["text"].as_str().is_some_and(|text| text.contains("Put a fuse")), "{rule}");
    assert!(shop.read("all.xml").contains("<testsuite"));
    assert_eq!(shop.names(), ["a.build.kdl", "all.sarif", "all.xml", "b.build.kdl"], "nothing else is left behind");
    // Written again, the new one stands in the place of the old.
    let again = shop.run(&["review", "a.build.kdl", "--as", "sarif", "--to", "all.sarif", "--hold-at", "danger"]);
    assert_eq!((again.status, again.out.as_str()), (0, ""), "{}", again.err);
    assert!(!shop.read("all.sarif").contains("b.build.kdl"));
}

#[test]
fn shares_together_are_the_whole() {
    let shop = Workshop::new();
    for number in 0..10 {
        shop.write(&format!("{number}.build.kdl"), named(&format!("N{number}")));
    }
    let whole = builds(&json(&shop, &["."]));
    let shares: Vec<Vec<String>> =
        (1..=4).map(|share| builds(&json(&shop, &[".", "--share", &format!("{share}/4")]))).collect();
    assert!(shares.iter().all(|share| (2..=3).contains(&share.len())), "{shares:?}");
    let all: BTreeSet<String> = shares.iter().flatten().cloned().collect();
    assert_eq!(all, whole.iter().cloned().collect());
    assert_eq!(shares.iter().map(Vec::len).sum::<usize>(), 10, "none twice");
    assert_eq!(shares[1], builds(&json(&shop, &[".", "--share", "2/4"])), "the same every time");
    // More shares than builds: an empty one is no fault.
    assert_eq!(json(&shop, &["0.build.kdl", "--share", "2/2"]).status, 0);
}

#[test]
fn order_does_not_depend_on_how_many_work() {
    let shop = Workshop::new();
    for number in 0..150 {
        let text =
            if number % 7 == 0 { FAULTY.replace("Heron", &format!("N{number}")) } else { named(&format!("N{number}")) };
        shop.write(&format!("{number:03}.build.kdl"), text);
    }
    let with = |threads: &str| {
        let arguments = ["review", ".", "--as", "json", "--as", "sarif", "--to", "all.sarif"];
        let ran = ran(shop.command(&arguments).env("RAYON_NUM_THREADS", threads).output().expect("the program runs"));
        (ran.out, shop.read("all.sarif"))
    };
    let alone = with("1");
    assert_eq!(alone.0.lines().count(), 150);
    assert_eq!(alone, with("4"));
}

fn git(shop: &Workshop, arguments: &[&str]) {
    let ran = std::process::Command::new("git")
        .args(["-c", "user.name=A. Fitter", "-c", "user.email=fitter@shop.invalid"])
        .args(arguments)
        .current_dir(shop.path("."))
        .output()
        .expect("git runs");
    assert!(ran.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&ran.stderr));
}

#[test]
fn only_what_is_new_since_a_revision_holds() {
    let shop = Workshop::new();
    shop.write(
        "vans/b.build.kdl",
        FAULTY.replace("lamp bench power=\"18 W\"\n", "include \"../shop/lamps.build.kdl\"\n"),
    )
    .write("shop/lamps.build.kdl", "lamp bench power=\"18 W\"\n");
    git(&shop, &["init", "--quiet"]);
    git(&shop, &["add", "."]);
    git(&shop, &["commit", "--quiet", "--message", "before"]);
    let since = |arguments: &[&str]| {
        shop.run(&[&["review", "vans", "--as", "json", "--only-new-since", "HEAD"], arguments].concat())
    };
    let first = since(&[]);
    let known = |ran: &Ran| serde_json::from_str::<Value>(&ran.out).expect("JSON")["counts"]["known"].as_u64();
    assert_eq!(first.status, 0, "{}{}", first.out, first.err);
    assert!(known(&first) > Some(3), "{}", first.out);
    // The same defect elsewhere is new, and that of before is still taken aside.
    let more =
        "lamp shelf power=\"5 W\"\ncircuit late from=house to=shelf {\n    wire size=\"1.5 mm2\" one-way=\"2 m\"\n}\n";
    let before = shop.read("vans/b.build.kdl");
    shop.write("vans/b.build.kdl", format!("{before}{more}"));
    let ran = since(&[]);
    let document: Value = serde_json::from_str(&ran.out).expect("JSON");
    let unfused: Vec<&str> = document["findings"]
        .as_array()
        .expect("findings")
        .iter()
        .filter(|one| one["rule"] == "protection/none-at-source")
        .filter_map(|one| one["part"].as_str())
        .collect();
    assert_eq!((ran.status, unfused), (1, vec!["circuit \"late\""]), "{}", ran.out);
    let shown = shop.run(&["review", "vans", "--only-new-since", "HEAD"]);
    assert!(shown.out.contains("Known") && shown.out.contains("circuit \"late\""), "{}", shown.out);
    assert!(!shown.out.contains("circuit \"feed\"\n    Circuit"), "{}", shown.out);
    // A build that is new has only new findings.
    shop.write("vans/b.build.kdl", before).write("vans/new.build.kdl", FAULTY);
    assert_eq!(since(&[]).status, 1);
    // From another folder, by a tag, with a name that git would take for an option.
    git(&shop, &["tag", "v1"]);
    assert_eq!(shop.run(&["review", "vans/b.build.kdl", "--only-new-since", "v1"]).status, 0);
    let refused = shop.run(&["review", "vans/b.build.kdl", "--only-new-since", "--all"]);
    assert_eq!(refused.status, 2, "{}", refused.err);
    let refused = shop.run(&["review", "vans/b.build.kdl", "--only-new-since=--all"]);
    assert!(refused.status == 2 && refused.err.contains("cannot be compared with"), "{}", refused.err);
}

#[test]
fn what_could_not_be_told_and_now_fails_is_new() {
    let shop = Workshop::new();
    shop.write("b.build.kdl", FAULTY);
    shop.run(&["review", "b.build.kdl", "--write-known", "known.json"]);
    let text = shop.read("known.json");
    let mut known: Value = serde_json::from_str(&text).expect("JSON");
    let lines = known["builds"]["b.build.kdl"].as_array_mut().expect("lines");
    let unfused = lines.iter_mut().find(|line| line["rule"] == "protection/none-at-source").expect("the lamp");
    assert!(unfused.get("undecided").is_none());
    unfused["undecided"] = Value::Bool(true);
    shop.write("known.json", known.to_string());
    let ran = shop.run(&["review", "b.build.kdl", "--known", "known.json"]);
    assert!(ran.status == 1 && ran.out.contains("has no fuse or breaker"), "{}", ran.out);
}

#[test]
fn known_findings_stand_in_a_file() {
    let shop = Workshop::new();
    shop.write("vans/b.build.kdl", FAULTY).write("vans/a.build.kdl", named("A"));
    let written = shop.run(&["review", "vans", "--write-known", "known.json"]);
    assert_eq!(written.status, 0, "{}", written.err);
    assert!(written.err.contains("a danger stays a danger"), "{}", written.err);
    let held = |spec: &str| shop.run(&["review", spec, "--known", "known.json"]);
    assert_eq!(held("vans").status, 0);
    let shown = held("vans/b.build.kdl");
    assert!(shown.out.contains("Known") && !shown.out.contains("has no fuse"), "{}", shown.out);
    // The file means the same from every folder.
    let elsewhere = ran(shop
        .command(&["review", "b.build.kdl", "--known", "../known.json"])
        .current_dir(shop.path("vans"))
        .output()
        .expect("runs"));
    assert_eq!(elsewhere.status, 0, "{}", elsewhere.out);
    // A new finding holds.
    shop.write("vans/b.build.kdl", FAULTY.replace("feed", "other"));
    let ran = held("vans");
    assert!(ran.status == 1 && ran.out.contains("circuit \"other\""), "{}", ran.out);
    assert!(ran.err.contains("known.json is older than the builds"), "stale: {}", ran.err);
    // A build that is gone is told of, and forgotten when the file is written again; the others' lines stay.
    std::fs::remove_file(shop.path("vans/b.build.kdl")).expect("removed");
    assert!(held("vans").err.contains("these builds are gone: vans/b.build.kdl"));
    shop.write("new.build.kdl", FAULTY);
    assert_eq!(shop.run(&["review", "new.build.kdl", "--write-known", "known.json"]).status, 0);
    let text = shop.read("known.json");
    assert!(
        text.contains("new.build.kdl") && text.contains("vans/a.build.kdl") && !text.contains("vans/b.build.kdl"),
        "{text}"
    );
}

#[test]
fn a_broken_file_of_known_findings_is_refused() {
    let shop = Workshop::new();
    shop.write("b.build.kdl", FAULTY);
    for text in [
        "",
        "{",
        "[]",
        "{\"version\": 1}",
        "{\"version\": 2, \"about\": \"\", \"builds\": {}}",
        "\u{0}",
        "{\"version\": 1, \"about\": \"\", \"builds\": {\"b.build.kdl\": [{\"rule\": 3}]}}",
    ] {
        shop.write("known.json", text);
        for arguments in [["--known", "known.json"], ["--write-known", "known.json"]] {
            let ran = shop.run(&[&["review", "b.build.kdl"], arguments.as_slice()].concat());
            assert_eq!(ran.status, 2, "{text:?} {arguments:?}: {}", ran.err);
            assert!(ran.err.contains("known.json cannot be used"), "{}", ran.err);
            assert_eq!(shop.read("known.json"), text, "it is left as it is");
        }
    }
}

#[test]
fn a_build_changed_while_it_is_read_is_one_text_or_the_other() {
    let shop = Workshop::new();
    let other = FAULTY.replace("Heron", "Egret");
    shop.write("b.build.kdl", FAULTY);
    let path = shop.path("b.build.kdl");
    let stop = std::sync::atomic::AtomicBool::new(false);
    std::thread::scope(|scope| {
        scope.spawn(|| {
            let mut turn = 0_u32;
            while !stop.load(std::sync::atomic::Ordering::Relaxed) {
                turn += 1;
                let beside = path.with_extension("new");
                std::fs::write(&beside, if turn.is_multiple_of(2) { FAULTY } else { &other }).expect("written");
                std::fs::rename(&beside, &path).expect("put in its place");
            }
        });
        for _ in 0..20 {
            let ran = shop.run(&["review", "b.build.kdl", "--as", "json"]);
            let document: Value = serde_json::from_str(&ran.out).expect("JSON");
            let found = document["findings"].as_array().map_or(0, Vec::len);
            assert!(found > 3 && ["Heron", "Egret"].contains(&document["build"].as_str().unwrap_or("")), "{}", ran.out);
        }
        stop.store(true, std::sync::atomic::Ordering::Relaxed);
    });
}

#[test]
fn a_hundred_thousand_findings_are_written() {
    let shop = Workshop::new();
    let mut text = named("A");
    for number in 0..100_000 {
        text.push_str(&format!("lamp l{number} powr=1\n"));
    }
    shop.write("a.build.kdl", text);
    let ran =
        shop.run(&["review", "a.build.kdl", "--as", "json", "--to", "all.jsonl", "--as", "sarif", "--to", "all.sarif"]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    let document: Value = serde_json::from_str(&shop.read("all.jsonl")).expect("JSON");
    assert!(document["findings"].as_array().is_some_and(|all| all.len() >= 100_000));
    let sarif: Value = serde_json::from_str(&shop.read("all.sarif")).expect("JSON");
    assert!(sarif["runs"][0]["results"].as_array().is_some_and(|all| all.len() >= 100_000));
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::{PermissionsExt, symlink};
    use std::process::Stdio;

    #[test]
    fn links_that_lead_nowhere_or_in_a_circle_stop_nothing() {
        let shop = Workshop::new();
        shop.write("vans/a.build.kdl", named("A"));
        symlink("..", shop.path("vans/again")).expect("a link");
        symlink("nothing", shop.path("vans/notes")).expect("a link");
        symlink("a.build.kdl", shop.path("vans/same.build.kdl")).expect("a link");
        let ran = json(&shop, &["."]);
        assert_eq!((builds(&ran), ran.status), (vec!["A".to_owned()], 0), "{}", ran.err);
        assert!(ran.err.contains("leads back to"), "{}", ran.err);
        // A link that is named like a build is missed, and said so.
        symlink("nothing", shop.path("vans/b.build.kdl")).expect("a link");
        let ran = json(&shop, &["."]);
        assert_eq!((builds(&ran), ran.status), (vec!["A".to_owned()], 2), "{}", ran.err);
        assert!(ran.err.contains("vans/b.build.kdl cannot be read"), "{}", ran.err);
        assert_eq!(json(&shop, &["vans/b.build.kdl"]).status, 2);
    }

    #[test]
    fn a_folder_that_may_not_be_read_is_told_of_and_the_rest_is_reviewed() {
        let shop = Workshop::new();
        shop.write("vans/a.build.kdl", named("A")).write("vans/closed/b.build.kdl", named("B"));
        let closed = shop.path("vans/closed");
        std::fs::set_permissions(&closed, std::fs::Permissions::from_mode(0o000)).expect("closed");
        let ran = json(&shop, &["vans"]);
        // Whoever may do everything may also read this.
        let may = std::fs::read_dir(&closed).is_ok();
        std::fs::set_permissions(&closed, std::fs::Permissions::from_mode(0o755)).expect("open");
        if may {
            assert_eq!((builds(&ran).len(), ran.status), (2, 0));
        } else {
            assert_eq!((builds(&ran), ran.status), (vec!["A".to_owned()], 2));
            assert!(ran.err.contains("vans/closed cannot be looked through"), "{}", ran.err);
        }
    }

    #[test]
    fn paths_need_not_be_utf8() {
        let shop = Workshop::new();
        let name = std::ffi::OsStr::from_bytes(b"w\xffren.build.kdl");
        std::fs::write(shop.path(".").join(name), FAULTY).expect("written");
        for (arguments, found) in [(&["."][..], 1), (&["*.build.kdl"], 1)] {
            let ran = json(&shop, arguments);
            assert_eq!(builds(&ran).len(), found, "{arguments:?}: {}", ran.err);
        }
        let ran = shop.run(&[
            "review", ".", "--as", "sarif", "--as", "junit", "--to", "all.xml", "--as", "github", "--to", "all.txt",
        ]);
        assert!(serde_json::from_str::<Value>(&ran.out).is_ok(), "{}", ran.out);
        assert_eq!(shop.run(&["review", ".", "--write-known", "known.json"]).status, 0);
        assert_eq!(shop.run(&["review", ".", "--known", "known.json"]).status, 0);
    }

    #[test]
    fn a_full_disk_is_told_of() {
        let shop = Workshop::new();
        shop.write("b.build.kdl", FAULTY);
        let ran = shop.run(&["review", "b.build.kdl", "--as", "sarif", "--to", "/dev/full"]);
        assert!(ran.status == 2 && ran.err.contains("/dev/full cannot be written"), "{}", ran.err);
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").expect("a full device");
        let ran = super::ran(shop.command(&["review", "b.build.kdl"]).stdout(full).output().expect("runs"));
        assert!(ran.status == 2 && ran.err.contains("could not be written"), "{}", ran.err);
    }

    #[test]
    fn a_file_that_may_not_be_written_stays_as_it_was() {
        let shop = Workshop::new();
        shop.write("b.build.kdl", FAULTY).write("all.sarif", "old");
        std::fs::set_permissions(shop.path("all.sarif"), std::fs::Permissions::from_mode(0o444)).expect("protected");
        let ran = shop.run(&["review", "b.build.kdl", "--as", "sarif", "--to", "all.sarif"]);
        assert!(ran.status == 2 && ran.err.contains("it is write-protected"), "{}", ran.err);
        assert_eq!((shop.read("all.sarif").as_str(), shop.names().len()), ("old", 2));
        // A link stays a link, and permissions stay.
        shop.write("real.sarif", "old");
        std::fs::set_permissions(shop.path("real.sarif"), std::fs::Permissions::from_mode(0o600))
            .expect("for its owner");
        symlink("real.sarif", shop.path("link.sarif")).expect("a link");
        assert_eq!(shop.run(&["review", "b.build.kdl", "--as", "sarif", "--to", "link.sarif"]).status, 1);
        assert!(shop.read("real.sarif").contains("runs"));
        let mode = std::fs::metadata(shop.path("real.sarif")).expect("there").permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
        assert!(std::fs::symlink_metadata(shop.path("link.sarif")).expect("there").is_symlink());
    }

    #[test]
    fn a_reader_that_stops_listening_is_no_fault() {
        let shop = Workshop::new();
        for number in 0..40 {
            shop.write(&format!("{number}.build.kdl"), FAULTY);
        }
        let mut child =
            shop.command(&["review", "."]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("runs");
        drop(child.stdout.take());
        let ended = child.wait_with_output().expect("it ends");
        assert_eq!((ended.status.code(), ended.stderr.as_slice()), (Some(1), &b""[..]), "the status still tells");
    }

    #[test]
    fn what_is_saved_is_reviewed_again() {
        use std::io::{BufRead, BufReader};
        let shop = Workshop::new();
        shop.write(
            "vans/b.build.kdl",
            FAULTY.replace("lamp bench power=\"18 W\"\n", "include \"../lamps.build.kdl\"\n"),
        )
        .write("lamps.build.kdl", "lamp bench power=\"18 W\"\n");
        let mut child = shop
            .command(&["review", "vans", "--as", "json", "--watching"])
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("runs");
        let (tell, told) = std::sync::mpsc::channel();
        let out = BufReader::new(child.stdout.take().expect("its output"));
        std::thread::spawn(move || {
            for line in out.lines().map_while(Result::ok).filter(|line| line.starts_with('{')) {
                let document: Value = serde_json::from_str(&line).expect("JSON");
                if tell.send(document).is_err() {
                    break;
                }
            }
        });
        let mut err = BufReader::new(child.stderr.take().expect("its messages"));
        let next = || told.recv_timeout(std::time::Duration::from_secs(60)).expect("a review");
        let has = |document: &Value, rule: &str| {
            document["findings"].as_array().is_some_and(|all| all.iter().any(|one| one["rule"] == rule))
        };
        assert!(has(&next(), "protection/none-at-source"));
        let mut line = String::new();
        err.read_line(&mut line).expect("a message");
        assert!(line.contains("Watching"), "{line}");
        // The build itself, a file that it includes, and a new build in the folder.
        let until = |wanted: &dyn Fn(&Value) -> bool| while !wanted(&next()) {};
        shop.write("lamps.build.kdl", "lamp bench powr=\"18 W\"\n");
        until(&|document| has(document, "text/unknown-property"));
        shop.write("vans/new.build.kdl", named("New"));
        until(&|document| document["build"] == "New");
        shop.write("vans/b.build.kdl", named("Mended"));
        until(&|document| document["build"] == "Mended");
        child.kill().expect("stopped");
        child.wait().expect("ended");
    }
}
