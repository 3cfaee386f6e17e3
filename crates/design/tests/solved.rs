//! The solved network through the whole way, from the text to the facts: against an outside library, against the sums of radial networks, and what it
//! tells of loads that cannot run.

mod support;

use design::{Build, PartId};
use support::{BRAMBLE, any_shape, clean, near, number, part};

const QUARRY: &str = include_str!("reference/quarry.build.kdl");
/// Made by reference/make_solved.py.
const REFERENCE: &str = include_str!("reference/solved.csv");
/// What the outside values may differ by.
const SHARE: f64 = 1e-3;

/// The run that leads to a thing or is called so, or the battery of that name.
fn named(build: &Build, name: &str, quantity: &str) -> PartId {
    if quantity == "share" {
        return part(build, "battery", name);
    }
    let found = build
        .parts()
        .find(|(_, part)| vocabulary::part(part.kind).word == "run" && (part.title.contains(&format!("\"{name}\""))));
    found.map(|(number, _)| number).unwrap_or_else(|| part(build, "run", name))
}

#[test]
fn two_builds_agree_with_an_outside_library() {
    let (bramble, quarry) = (clean(BRAMBLE), any_shape(QUARRY));
    let mut compared = 0;
    for line in REFERENCE.lines().skip(1) {
        let fields: Vec<&str> = line.split(',').collect();
        let [name, thing, quantity, value] = fields[..] else { panic!("{line}") };
        let build = if name == "bramble" { &bramble } else { &quarry };
        let expected: f64 = value.parse().unwrap_or(f64::NAN);
        let found = number(build, named(build, thing, quantity), quantity);
        assert!(near(found, expected, SHARE), "{line}: {found}");
        compared += 1;
    }
    assert_eq!(compared, REFERENCE.lines().count() - 1);
    assert!(compared > 40, "{compared}");
}
