//! Gas lines and the air of flames through the text of a build, against values worked independently.

mod support;

use support::{ask, build, flag, gaps, near, number, part, slips, steps, titles};

/// A van with a hob and a heater on one line: the heater hangs on a branch.
fn van(line: &str, more: &str) -> String {
    format!(
        "build Van {{ basis eu; revision A date=\"2026-05-04\"; }}\nvehicle class=van length=\"5.99 m\" width=\"2.05 m\"\nbrief berths=2 {{ winter \"20 degF\"; }}\nzone cabin kind=living from=\"0, -900, 0 mm\" size=\"3000 x 1800 x 1800 mm\" {{\n    vent low free-area=\"20 cm2\" to=outside closable=no\n    vent high free-area=\"60 cm2\" to=outside closable=no\n    vent roof free-area=\"95 cm2\" to=outside closable=no\n    vent roof free-area=\"500 cm2\" to=outside closable=yes\n}}\nzone washroom kind=living inside=cabin\ncylinder left gas=propane content=\"100 lb\"\ncooker hob fuel=gas output=\"2 kW\" pressure=\"30 mbar\" zone=washroom\nheater warm fuel=gas output=\"4 kW\" combustion=sealed pressure=\"30 mbar\" zone=cabin\ngas-line main from=left {{\n{line}}}\n{more}"
    )
}

const LINE: &str = "    regulator pressure=\"30 mbar\" capacity=\"1.5 kg/h\"\n    pipe size=\"8 mm\" wall=\"1 mm\" material=copper one-way=\"2 m\"\n    branch {\n        valve \"heater valve\" reach=\"1 m\"\n        pipe size=\"8 mm\" wall=\"1 mm\" material=copper one-way=\"3 m\"\n        feeds warm\n    }\n    pipe size=\"8 mm\" wall=\"1 mm\" material=copper one-way=\"1 m\"\n    feeds hob\n";

#[test]
fn a_line_adds_up_what_it_feeds_branches_included() {
    let build = build(&van(LINE, ""));
    let line = part(&build, "gas-line", "main");
    // The heater takes 4 kW ÷ 80 %, the hob its 2 kW.
    assert!(near(number(&build, line, "connected-load"), 7_000.0, 1e-9));
    // 7 kW ÷ 50.35 MJ/kg = 0.5005 kg/h.
    assert!(near(number(&build, line, "gas-flow") * 3_600.0, 0.5005, 1e-3));
    assert!(steps(&build, line, "connected-load").contains("warm"));
    assert!(near(number(&build, line, "longest"), 5.0, 1e-9));
    assert!(flag(&build, line, "regulated"));
    // The table's own cell: 94 thousand Btu/h at 20 °F and half full.
    assert!(near(number(&build, line, "cylinder-gives"), 94.0 * 293.07, 1e-3));
    let first = part(&build, "pipe", "gas-line:main/pipe:1");
    assert!(near(number(&build, first, "gas-load"), 7_000.0, 1e-9));
    let last = part(&build, "pipe", "gas-line:main/pipe:2");
    assert!(near(number(&build, last, "gas-load"), 2_000.0, 1e-9));
    // A branch's pipe carries the branch alone.
    let branch = part(&build, "pipe", "branch:1/pipe:1");
    assert!(near(number(&build, branch, "gas-load"), 5_000.0, 1e-9));
    // By hand from the formula: 6 mm inside, 2 m of 7 kW and 3 m of 5 kW.
    let lost = |watts: f64, metres: f64| {
        let cubic_feet = watts / 0.293_071_07 / 2_475.0;
        (cubic_feet.powf(0.381) / (19.17 * 6.0 / 25.4)).powf(1.0 / 0.206) * 1.2462 * metres / 0.3048 * 249.089
    };
    let heater = part(&build, "feeds", "feeds:warm:1");
    assert!(near(number(&build, heater, "pressure-lost"), lost(7_000.0, 2.0) + lost(5_000.0, 3.0), 1e-6));
    assert!(flag(&build, heater, "has-valve"));
    let hob = part(&build, "feeds", "feeds:hob:1");
    assert!(!flag(&build, hob, "has-valve"), "the valve of the branch is not the hob's");
    assert!(near(number(&build, hob, "pressure-ratio"), 1.0, 1e-9));
}

#[test]
fn what_burns_gas_and_hangs_on_no_line_is_named() {
    let build = build(&van(LINE, "generator genset fuel=gas power=\"2 kW\"\n"));
    let root = part(&build, "build", "");
    assert_eq!(titles(&build, root, "unpiped"), ["generator \"genset\""]);
    let build = support::build(&van(LINE, "cooker camp fuel=unknown\n"));
    assert_eq!(titles(&build, part(&build, "build", ""), "unpiped"), ["…"], "nobody knows what it burns");
    // A line that could not be read may feed it.
    let build =
        support::build(&van(LINE, "generator genset fuel=gas power=\"2 kW\"\ngas-line other from=left { feeds }\n"));
    assert_eq!(titles(&build, part(&build, "build", ""), "unpiped"), ["…"]);
}

#[test]
fn a_name_that_nothing_has_is_told_with_what_was_meant() {
    let build = build(&van(&LINE.replace("feeds hob", "feeds hop"), ""));
    let found = slips(&build);
    assert!(found.iter().any(|(rule, _)| *rule == "names/unknown-name"), "{found:?}");
    assert!(build.slips.iter().any(|slip| slip.help.as_deref().is_some_and(|help| help.contains("hob"))));
}

#[test]
fn an_entry_that_is_missing_is_asked_for() {
    let build = build(&van(&LINE.replacen(" wall=\"1 mm\"", "", 1), ""));
    let hob = part(&build, "feeds", "feeds:hob:1");
    assert_eq!(gaps(&build, hob, "pressure-lost"), ["gas-line:main/pipe:1 wall"]);
    assert!(ask(&build, hob, "gas-load").is_ok());
}

#[test]
fn openings_that_can_be_closed_count_for_nothing_and_walls_by_half() {
    let build = build(&van(LINE, ""));
    let cabin = part(&build, "zone", "zone:cabin");
    assert!(flag(&build, cabin, "whole-living-space"));
    assert!(!flag(&build, part(&build, "zone", "zone:washroom"), "whole-living-space"));
    // The hob stands in the washroom, which is part of the cabin; the heater is sealed.
    assert_eq!(titles(&build, cabin, "open-flames"), ["cooker \"hob\""]);
    assert!(near(number(&build, cabin, "fixed-low"), 20e-4, 1e-9));
    assert!(near(number(&build, cabin, "fixed-high"), 125e-4, 1e-9));
    assert!(near(number(&build, cabin, "fixed-total"), 175e-4, 1e-9));
    // EN 721 for 12.28 m²: 12,500 and 2,000 mm².
    assert!(near(number(&build, cabin, "high-needed"), 12_500e-6, 1e-9));
    assert!(near(number(&build, cabin, "low-needed"), 2_000e-6, 1e-9));
    // 7.2 MJ/h and two sleepers: 610 × 7.2 + 1,300 = 5,692 mm².
    assert!(near(number(&build, cabin, "total-needed"), 5_692e-6, 1e-6));
    // 20 and 155 cm² let through as 19.84 cm²; at 1.8 m and 10 K about 15 °C: 0.6 × 19.84e-4 × 1.107 m/s = 4.74 m³/h.
    assert!(near(number(&build, cabin, "stack-air") * 3_600.0, 4.74, 5e-3));
    // 2 kW take 4.04 m³/h with 100 % excess.
    assert!(near(number(&build, cabin, "flame-air") * 3_600.0, 4.045, 2e-3));
    // 2.53 l/h of carbon monoxide into 9.72 m³ with 4.74 m³/h: 0.00253/4.74 × (1 − e^(−0.488)) = 206 ppm after an hour.
    assert!(near(number(&build, cabin, "carbon-monoxide-in-an-hour") * 1e6, 206.0, 0.02));
}

#[test]
fn a_mouth_is_inside_below_the_floor_or_outside() {
    for (at, expected) in
        [("1000, 0, 500 mm", "inside"), ("1000, 0, -300 mm", "under-floor"), ("1000, -950, -300 mm", "outside")]
    {
        let more = format!("heater other fuel=diesel combustion=sealed {{ exhaust at=\"{at}\"; }}\n");
        let build = build(&van(LINE, &more));
        let exhaust = part(&build, "exhaust", "exhaust:1");
        let spec = support::fact(&build, exhaust, "mouth");
        let Ok(design::Fact::Choice(word)) = ask(&build, exhaust, "mouth") else { unreachable!("{at} is known") };
        assert_eq!(vocabulary::fact_spec(spec).choices().get(usize::from(word)), Some(&expected), "{at}");
    }
    // A closed space without a place may hold it.
    let more =
        "zone garage kind=garage\nheater other fuel=diesel combustion=sealed { exhaust at=\"1000, -950, -300 mm\"; }\n";
    let build = build(&van(LINE, more));
    let asked = gaps(&build, part(&build, "exhaust", "exhaust:1"), "mouth");
    assert!(asked.iter().any(|gap| gap.ends_with("exhaust:1 ends")), "{asked:?}");
}
