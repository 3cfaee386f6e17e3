//! The demo builds, reviewed as the command reviews them: the clean one stays clean, its faulty twin shows exactly its
//! defects, and every single fuse is missed at the right place when it is taken out.
#![allow(clippy::expect_used, reason = "a test that cannot go on stops")]

use rules::review::{ReviewOptions, Today, review};
use rules::{Finding, Review, Signal};
use spec::{LoadFault, Loaded, Loader};
use std::path::{Path, PathBuf};

/// The folder of the demo builds.
fn builds() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/builds")
}

/// Gives the text of one build as the test changed it, and every included file from the folder.
struct Folder<'a> {
    changed: Option<&'a str>,
}

impl Loader for Folder<'_> {
    fn load(&self, from: Option<&str>, name: &str) -> Result<Loaded, LoadFault> {
        let text = match (from, self.changed) {
            (None, Some(changed)) => changed.to_owned(),
            _ => std::fs::read_to_string(builds().join(name)).map_err(|fault| LoadFault::Refused(fault.to_string()))?,
        };
        Ok(Loaded { name: name.to_owned(), text })
    }
}

fn reviewed(name: &str, changed: Option<&str>) -> Review {
    let packs = packs::shipped().expect("the shipped packs are sound");
    let options = ReviewOptions { today: Today::Is(jiff::civil::date(2026, 11, 25)), draft: false };
    review(&Folder { changed }, name, packs, options)
}

/// A finding in one line, as the list of expected findings has it.
fn line(finding: &Finding) -> String {
    format!("{} {} {}", finding.signal.word(), finding.rule, finding.part)
}

fn lines<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> Vec<String> {
    let mut lines: Vec<String> =
        findings.into_iter().flat_map(|finding| std::iter::once(finding).chain(&finding.follow)).map(line).collect();
    lines.sort();
    lines
}

/// The demo builds, without the ending of the name: the faulty ones or the clean ones.
fn named(faulty: bool) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(builds())
        .expect("the folder is there")
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter_map(|name| name.strip_suffix(".build.kdl").map(str::to_owned))
        .filter(|name| name.ends_with("-faulty") == faulty)
        .collect();
    names.sort();
    names
}

fn faulty() -> Vec<String> {
    named(true)
}

#[test]
fn every_clean_build_has_a_faulty_twin() {
    let twins: Vec<String> = named(false).iter().map(|name| format!("{name}-faulty")).collect();
    assert_eq!(faulty(), twins);
    for name in ["bramble", "clover", "hazel", "juniper", "lupin", "sorrel", "tansy", "teasel", "yarrow"] {
        assert!(twins.contains(&format!("{name}-faulty")), "{name}");
    }
}

#[test]
fn the_clean_builds_are_clean_at_review_stage() {
    for name in named(false) {
        let review = reviewed(&format!("{name}.build.kdl"), None);
        assert_eq!(lines(&review.failed), [""; 0], "{name}");
        let undecided = review.undecided.iter().filter(|finding| finding.signal >= Signal::Warning);
        assert_eq!(lines(undecided), [""; 0], "{name}");
        assert!(!review.held_at(Signal::Notice), "{name}");
        assert!(review.counts.held > 80, "only {} checks held in {name}", review.counts.held);
    }
}

/// The lines of a list, without comments, each blank as one.
fn listed(name: &str) -> Vec<String> {
    let text = std::fs::read_to_string(builds().join(name)).expect("the list is there");
    let mut lines: Vec<String> = text
        .lines()
        .filter(|line| !line.starts_with('#') && !line.trim().is_empty())
        .map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "))
        .collect();
    lines.sort();
    lines
}

#[test]
fn each_faulty_twin_shows_its_defects_and_nothing_else() {
    for name in faulty() {
        let review = reviewed(&format!("{name}.build.kdl"), None);
        assert_eq!(lines(&review.failed), listed(&format!("{name}.expected.txt")), "{name}");
        assert_eq!(lines(review.undecided.iter()), [""; 0], "{name}");
        assert!(review.held_at(Signal::Warning), "{name}");
    }
}

#[test]
fn each_defect_of_a_faulty_twin_is_marked_where_it_is_found() {
    for name in faulty() {
        let review = reviewed(&format!("{name}.build.kdl"), None);
        let markers: usize =
            review.files.iter().flat_map(|file| file.text.lines()).filter(|line| line.contains("// defect:")).count();
        assert_eq!(markers, review.failed.len(), "one comment for each finding of {name}");
        for finding in &review.failed {
            let text = &review.files[finding.place.file].text;
            let lines: Vec<&str> = text.lines().collect();
            let number = text[..finding.place.bytes.start].matches('\n').count();
            let above = lines[..number].iter().rev().take_while(|line| line.trim().starts_with("//"));
            assert!(above.clone().any(|line| line.contains("// defect:")), "no comment above {}", line(finding));
        }
    }
}

#[test]
fn every_engineering_rule_is_broken_in_a_faulty_twin() {
    let mut broken = std::collections::BTreeSet::new();
    for name in faulty() {
        let review = reviewed(&format!("{name}.build.kdl"), None);
        let all = review.failed.iter().flat_map(|finding| std::iter::once(finding).chain(&finding.follow));
        broken.extend(all.map(|finding| finding.rule.to_string()));
    }
    let packs = packs::shipped().expect("the shipped packs are sound");
    let engineering = packs.rules.iter().filter(|rule| !rule.found_while_reading);
    let unbroken: Vec<String> =
        engineering.map(|rule| rule.name.clone()).filter(|name| !broken.contains(name)).collect();
    assert_eq!(unbroken, [""; 0]);
}

/// The bytes of each fuse of a text, with the name of the circuit or way that it is in.
fn fuses(text: &str) -> Vec<(std::ops::Range<usize>, String)> {
    let mut fuses = Vec::new();
    let mut circuit = String::new();
    let mut offset = 0;
    for line in text.split_inclusive('\n') {
        let name = line.split('"').nth(1).unwrap_or_default().to_owned();
        if line.starts_with("circuit ") {
            circuit.clone_from(&name);
        }
        if line.trim_start().starts_with("fuse ") {
            fuses.push((offset..offset + line.len(), circuit.clone()));
        } else if let (true, Some(start)) = (line.trim_start().starts_with("way "), line.find("fuse=\"")) {
            let length = line[start + 6..].find('"').expect("the rating is closed") + 7;
            fuses.push((offset + start..offset + start + length, name));
        }
        offset += line.len();
    }
    fuses
}

#[test]
fn taking_out_any_single_fuse_of_bramble_is_one_danger_at_its_place() {
    let text = std::fs::read_to_string(builds().join("bramble.build.kdl")).expect("the demo build is there");
    let fuses = fuses(&text);
    assert!(fuses.len() >= 13, "the test finds the fuses: {fuses:?}");
    for (bytes, name) in fuses {
        let mut without = text.clone();
        without.replace_range(bytes, "");
        let review = reviewed("bramble.build.kdl", Some(&without));
        let found = lines(&review.failed);
        assert_eq!(found.len(), 1, "without the fuse of {name}: {found:?}");
        let finding = &review.failed[0];
        assert_eq!((finding.signal, &*finding.rule), (Signal::Danger, "protection/none-at-source"), "{name}");
        assert!(finding.part.contains(&format!("\"{name}\"")), "{} is not at {name}", finding.part);
        let excerpt = &without[finding.place.bytes.clone()];
        assert!(excerpt.contains(&name), "{excerpt:?} does not name {name}");
        assert_eq!(lines(&review.undecided), [""; 0], "without the fuse of {name}");
    }
}

#[test]
fn what_is_mended_once_on_a_panel_is_one_finding() {
    let text = std::fs::read_to_string(builds().join("bramble.build.kdl")).expect("the demo build is there");
    let blades = text.replace(
        "fuse-class=cylindrical device-voltage=\"60 V\" interrupting=\"10 kA\" evidence=\"data sheet of the holders\"",
        "fuse-class=blade",
    );
    assert_ne!(blades, text);
    let review = reviewed("bramble.build.kdl", Some(&blades));
    assert_eq!(review.failed.len(), 1, "{:?}", lines(&review.failed));
    assert_eq!(review.failed[0].follow.len(), 4, "the other four ways fold under the first");
}
