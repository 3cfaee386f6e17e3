//! Masses and what they load: published and independently worked values, through the text of a build.

#![allow(clippy::expect_used, clippy::panic, reason = "a test that cannot find what it asks for has failed")]

mod support;

use design::{Build, Fact, Reader};
use support::{fact, flag, near, number, part, slips};
use vocabulary::Axes;

/// A number in the fill of this name.
fn in_fill(build: &Build, word: &str, key: &str, name: &str, fill: &str) -> f64 {
    let mut reader = Reader::new(build);
    let part = part(build, word, key);
    let fact = fact(build, part, name);
    let cases = reader.cases_among(Axes::FILL);
    let case =
        cases.into_iter().find(|case| reader.cases().title(*case, Axes::FILL) == fill).expect("the fill is there");
    match reader.fact(part, fact, case) {
        Ok(Fact::Number(value)) => value,
        other => panic!("{name} of {key} is {other:?}"),
    }
}

/// A van that weighs next to nothing of itself, so that a load's own share is seen.
fn light(wheelbase: &str, load: &str) -> Build {
    support::clean(&format!(
        "build Van {{ basis eu; }}\nvehicle class=van {{\n    gross-mass \"3500 kg\"\n    track \"1.79 m\"\n    axle front at=\"0 mm\" limit=\"1800 kg\" measured=\"0 kg\"\n    axle rear at=\"{wheelbase}\" limit=\"2000 kg\" measured=\"0 kg\"\n    weighed date=\"2026-01-05\" driver=yes fuel=\"100 %\" tolerance=\"0 kg\"\n}}\nbrief seats=0\n{load}\n"
    ))
}

#[test]
fn axle_shares_follow_the_arithmetic_and_not_a_misprint() {
    // A body builders' manual prints 62.14 lb behind and, by a misprint, 38.86 lb in front of 100 lb; the rest of 100 is 37.85.
    let van = light("214 in", "allowance load mass=\"100 lb\" mass-tolerance=\"0 lb\" at=\"133, 0, 0 in\"");
    let pound = 0.453_592_37;
    for (axle, pounds) in [("front", 37.85), ("rear", 62.15)] {
        let load = in_fill(&van, "axle", axle, "load", "as built") / pound;
        assert!((load - pounds).abs() < 0.005, "{axle} carries {load} lb");
    }
    // 100 kg a metre behind the rear axle of a wheelbase of 3.665 m: +127.3 and −27.3 kg.
    let van = light("3665 mm", "allowance load mass=\"100 kg\" mass-tolerance=\"0 kg\" at=\"4665, 0, 0 mm\"");
    assert!(near(in_fill(&van, "axle", "rear", "load", "as built"), 127.3, 1e-3));
    assert!(near(in_fill(&van, "axle", "front", "load", "as built"), -27.3, 2e-3));
}

#[test]
fn sides_height_and_payload_by_region() {
    // 38.7 kg·m to the left of 3,004 kg at a track of 1.79 m: 1,523.6 against 1,480.4 kg.
    let van = light(
        "4 m",
        "allowance one mass=\"1504 kg\" mass-tolerance=\"0 kg\" at=\"1000, 0, 0 mm\"\nallowance two mass=\"1500 kg\" mass-tolerance=\"0 kg\" at=\"2000, -25.8, 0 mm\"",
    );
    assert!(near(in_fill(&van, "vehicle", "vehicle:1", "left-load", "as built"), 1_523.6, 1e-4));
    assert!(near(in_fill(&van, "vehicle", "vehicle:1", "right-load", "as built"), 1_480.4, 1e-4));
}

#[test]
fn axles_in_one_place_and_parts_above_the_whole_are_told() {
    let van = support::build(
        "build Van { basis eu; }\nvehicle class=van {\n    axle front at=\"0 mm\"\n    axle rear at=\"4.035 mm\"\n    weighed driver=no fuel=\"190 %\"\n}\n",
    );
    let found: Vec<&str> = slips(&van).into_iter().map(|(rule, _)| rule).collect();
    assert!(found.contains(&"names/axles-in-one-place") && found.contains(&"text/more-than-whole"), "{found:?}");
}

#[test]
fn a_mass_in_newtons_is_refused_with_the_likely_mistake() {
    let van =
        support::build("build Van { basis eu; }\nvehicle class=van\nallowance load mass=\"450 N\" at=\"0, 0, 0 mm\"\n");
    let slip = van.slips.iter().find(|slip| slip.rule.starts_with("text/")).expect("it is told");
    let told = format!("{} {:?}", slip.message, slip.help);
    assert!(told.contains("force"), "{told}");
}

#[test]
fn what_stands_on_a_floor_loads_it_by_its_area() {
    let build = support::clean(
        "build Unit { basis us; }\nvehicle class=work-vehicle\nzone shop kind=living\nzone top kind=roof\nappliance kiln mass=\"640 lb\" zone=shop size=\"30 x 30 x 40 in\"\ntank fresh holds=fresh volume=\"100 l\" mass=\"10 kg\" zone=shop size=\"500 x 400 x 500 mm\" floor-proof=\"calculation 6\"\nladder roof mass=\"9 kg\" zone=top\nallowance trim mass=\"300 kg\" zone=shop\n",
    );
    let kiln = part(&build, "floor-thing", "kiln/on-floor");
    // 640 lb ÷ (30 in)² = 102.4 lb/ft²; 1 lb/ft² is 4.882 43 kg/m².
    assert!(near(number(&build, kiln, "load-by-area"), 102.4 * 4.882_43, 1e-5));
    assert!(!flag(&build, kiln, "floor-proven"));
    let tank = part(&build, "floor-thing", "fresh/on-floor");
    // 10 kg and 100 l of water on 0.2 m².
    assert!(near(number(&build, tank, "load-by-area"), 550.0, 1e-9));
    assert!(flag(&build, tank, "floor-proven"));
    let ladder = part(&build, "floor-thing", "roof/on-floor");
    assert!(!flag(&build, ladder, "on-floor"));
    // What is spread over the vehicle stands nowhere.
    assert_eq!(build.of_kind(vocabulary::kind::FLOOR_THING).members.len(), 3);
}

#[test]
fn a_line_that_cannot_be_read_may_be_a_heavy_thing() {
    const UNIT: &str = "build Unit { basis us; }\nvehicle class=work-vehicle\nzone shop kind=living\n";
    let due = |more: &str| support::ask(&support::build(&format!("{UNIT}{more}")), design::Build::ROOT, "plans-due");
    assert_eq!(due("cargo safe mass=\"20 lb\" zone=shop\n"), Ok(Fact::Flag(false)));
    assert!(due("cargo safe mass=\"20 lb\" zone=shop =\n").is_err());
    // A wood stove decides alone.
    assert_eq!(due("cargo safe mass=\"20 lb\" zone=shop =\nheater stove fuel=wood\n"), Ok(Fact::Flag(true)));
}
