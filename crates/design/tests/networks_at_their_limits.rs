//! Networks at their limits: loads that cannot run, converters that feed each other, circuits that nothing feeds, meshes, the vehicle's metal, and
//! devices on their smallest fault.

mod support;

use support::{any_shape, ask, clean, flag, near, number, part, steps, titles};

#[track_caller]
fn same(value: f64, expected: f64, share: f64) {
    assert!(near(value, expected, share), "{value} is not {expected}");
}

const HOUSE: &str = "build Van { basis eu; }\nvehicle class=van\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" internal-resistance=\"5 mohm\"\n";

/// One load behind 0.2 Ω and the battery's 5 mΩ: of 12.8 V at most 12.8²/(4 × 0.205 Ω) = 199.8 W.
fn far(load: &str) -> design::Build {
    let ohms = 0.2 / (2.0 * 4.95e-3 * 1.1965);
    clean(&format!(
        "{HOUSE}appliance press {load}\ncircuit feed from=house to=press {{ wire size=\"4 mm2\" one-way=\"{ohms} m\" insulation=\"105 degC\"; }}\n"
    ))
}

#[test]
fn a_load_that_holds_its_power_has_at_most_a_quarter_of_e_squared_over_r() {
    for (power, runs) in [(199.0, true), (200.5, false), (5_000.0, false)] {
        let build = far(&format!("power=\"{power} W\""));
        let run = part(&build, "run", "feed/run");
        assert!(flag(&build, run, "asks-power"));
        same(number(&build, run, "power-asked"), power, 1e-9);
        let expected = if runs { power } else { 12.8 * 12.8 / (4.0 * 0.205) };
        same(number(&build, run, "power-brought"), expected, 1e-3);
    }
    // A heater only gets less.
    let build = far("power=\"5000 W\" behaves=resistance");
    let run = part(&build, "run", "feed/run");
    assert!(!flag(&build, run, "asks-power"));
    let ohms = 12.8 * 12.8 / 5_000.0;
    same(number(&build, run, "end-voltage"), 12.8 * ohms / (ohms + 0.205), 1e-3);
    same(number(&build, part(&build, "appliance", "press"), "terminal-voltage"), 12.8 * ohms / (ohms + 0.205), 1e-3);
}

#[test]
fn what_is_assumed_is_told() {
    let build = clean(&format!(
        "{HOUSE}lamp bench power=\"20 W\"\ncircuit feed from=house to=bench {{ fuse rating=\"5 A\" class=blade; wire size=\"1.5 mm2\" one-way=\"3 m\" insulation=\"105 degC\"; }}\n"
    ));
    let told = steps(&build, part(&build, "run", "feed/run"), "end-voltage");
    assert!(told.contains("20 mΩ assumed"), "{told}");
    assert!(told.contains("left at the end"), "{told}");
}

#[test]
fn a_mesh_carries_what_the_solution_says_and_not_all_of_it_twice() {
    // Two ways of one resistance from bar to bar: each carries half of 40 A.
    let build = any_shape(&format!(
        "{HOUSE}busbar one rating=\"200 A\"\nbusbar two rating=\"200 A\"\nappliance press current=\"40 A\"\ncircuit main from=house to=one {{ fuse rating=\"100 A\" class=T; wire size=\"25 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }}\ncircuit left from=one to=two {{ fuse rating=\"50 A\" class=T; wire size=\"10 mm2\" one-way=\"2 m\" insulation=\"105 degC\"; }}\ncircuit right from=one to=two {{ fuse rating=\"50 A\" class=T; wire size=\"10 mm2\" one-way=\"2 m\" insulation=\"105 degC\"; }}\ncircuit feed from=two to=press {{ fuse rating=\"50 A\" class=T; wire size=\"10 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }}\n"
    ));
    for (name, meshed, current) in
        [("main", false, 40.0), ("left", true, 20.0), ("right", true, 20.0), ("feed", false, 40.0)]
    {
        let run = part(&build, "run", &format!("{name}/run"));
        assert_eq!(flag(&build, run, "meshed"), meshed, "{name}");
        same(number(&build, run, "design-current"), current, 1e-3);
    }
    // A fault on the far bar: both ways are hot copper and fuses in parallel, and each carries half.
    let way = 2.0 * 2.0 * 1.91e-3 * 1.1965 + 2.0 * 0.08 / 50.0;
    let main = 2.0 * 0.78e-3 * 1.1965 + 2.0 * 0.08 / 100.0;
    let fault = 11.2 / (0.005 + main + way / 2.0) / 2.0;
    same(number(&build, part(&build, "device", "left/fuse:1"), "smallest-fault-current"), fault, 1e-3);
}

#[test]
fn along_one_way_the_sum_is_what_the_solution_gives() {
    // The current of a dead short in the solved network is that of the sum of the way: a second, very long way beside it makes a mesh of it.
    let text = |more: &str| {
        format!(
            "{HOUSE}busbar one rating=\"200 A\"\nbusbar two rating=\"200 A\"\nappliance press current=\"4 A\"\ncircuit main from=house to=one {{ fuse rating=\"100 A\" class=T; wire size=\"25 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }}\ncircuit left from=one to=two {{ fuse rating=\"50 A\" class=T; wire size=\"10 mm2\" one-way=\"2 m\" insulation=\"105 degC\"; }}\n{more}circuit feed from=two to=press {{ fuse rating=\"10 A\" class=blade; wire size=\"2.5 mm2\" one-way=\"3 m\" insulation=\"105 degC\"; }}\n"
        )
    };
    let beside = "circuit right from=one to=two { fuse rating=\"50 A\" class=T; wire size=\"0.75 mm2\" one-way=\"90 km\" insulation=\"105 degC\"; }\n";
    let (radial, mesh) = (any_shape(&text("")), any_shape(&text(beside)));
    for device in ["left/fuse:1", "feed/fuse:1"] {
        let of = |build| number(build, part(build, "device", device), "smallest-fault-current");
        same(of(&mesh), of(&radial), 1e-4);
    }
}

#[test]
fn leads_of_one_length_share_alike_and_others_do_not() {
    let build = |right: &str| {
        clean(&format!(
            "build Van {{ basis eu; }}\nbattery left chemistry=AGM voltage=\"12 V\" capacity=\"100 Ah\" internal-resistance=\"5 mohm\"\nbattery right chemistry=AGM voltage=\"12 V\" capacity=\"100 Ah\" internal-resistance=\"5 mohm\"\nbusbar bar rating=\"200 A\"\nappliance press current=\"100 A\" behaves=current\ncircuit l from=left to=bar {{ wire size=\"35 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }}\ncircuit r from=right to=bar {{ wire size=\"35 mm2\" one-way=\"{right}\" insulation=\"105 degC\"; }}\ncircuit feed from=bar to=press {{ wire size=\"35 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }}\n"
        ))
    };
    let share = |build: &design::Build| number(build, part(build, "battery", "left"), "share");
    same(share(&build("1 m")), 0.5, 1e-6);
    // Conductances of 5 mΩ and 1.326 mΩ a metre.
    let (left, right) = (1.0 / (5e-3 + 1.3257e-3), 1.0 / (5e-3 + 4.0 * 1.3257e-3));
    same(share(&build("4 m")), left / (left + right), 1e-3);
}

#[test]
fn a_return_by_the_metal_rises_with_the_bond() {
    let build = |bond: &str| {
        clean(&format!(
            "{HOUSE}busbar negative rating=\"100 A\" bond=\"{bond}\" to=chassis\nappliance horn current=\"20 A\" behaves=current\ncircuit feed from=house to=horn {{ wire size=\"4 mm2\" one-way=\"3 m\" insulation=\"105 degC\" return=chassis; }}\n"
        ))
    };
    let volts = |bond| number(&build(bond), part(&build(bond), "run", "feed/run"), "end-voltage");
    let expected = |per_metre: f64| 12.8 - 20.0 * (0.005 + 3.0 * 4.95e-3 * 1.1965 + 0.5 * per_metre + 0.2e-3);
    same(volts("16 mm2"), expected(1.21e-3), 1e-6);
    same(volts("2.5 mm2"), expected(7.98e-3), 1e-6);
}

#[test]
fn a_ring_of_converters_is_told_once_and_still_solved() {
    let build = clean(
        "build Van { basis eu; }\nbattery house chemistry=LFP voltage=\"25.6 V\" capacity=\"100 Ah\"\nbusbar main rating=\"100 A\"\nbusbar small rating=\"50 A\"\nconverter down voltage=\"13.2 V\" output=\"20 A\"\nconverter up voltage=\"26 V\" output=\"8 A\"\ncircuit feed from=house to=main { fuse rating=\"60 A\" class=T; wire size=\"16 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }\ncircuit one from=main to=down { fuse rating=\"20 A\" class=T; wire size=\"4 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }\ncircuit two from=down to=small { wire size=\"6 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }\ncircuit three from=small to=up { fuse rating=\"25 A\" class=T; wire size=\"6 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }\ncircuit four from=up to=main { wire size=\"4 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; fuse rating=\"15 A\" class=T; }\n",
    );
    assert!(flag(&build, part(&build, "converter", "down"), "feeds-itself"));
    assert!(!flag(&build, part(&build, "converter", "up"), "feeds-itself"));
    assert_eq!(titles(&build, part(&build, "converter", "down"), "ring").len(), 2);
    let current = number(&build, part(&build, "run", "one/run"), "solved-current");
    assert!((10.0..20.0).contains(&current), "{current}");
}

#[test]
fn circuits_without_a_source_are_unfed_and_unsolved() {
    let build = clean(&format!(
        "{HOUSE}busbar spare rating=\"50 A\"\nlamp bench power=\"20 W\"\ncircuit feed from=spare to=bench {{ fuse rating=\"5 A\" class=blade; wire size=\"1.5 mm2\" one-way=\"3 m\" insulation=\"105 degC\"; }}\n"
    ));
    let run = part(&build, "run", "feed/run");
    assert!(flag(&build, run, "island-takes") && !flag(&build, run, "island-fed"));
    assert!(!flag(&build, run, "solved") && !flag(&build, run, "asks-power"));
    assert!(ask(&build, run, "end-voltage").is_err());
}

#[test]
fn the_time_of_a_device_and_what_its_wire_stands() {
    // 11.2 V over 5 mΩ, 2 mΩ and 2 × 3.5 m of 2.5 mm² at 70 °C (66.8 mΩ): 151.7 A, 3.79 times 40 A: 3.95 s between (3.5, 5 s) and (6, 1 s).
    let build = |class: &str| {
        clean(&format!(
            "{HOUSE}appliance winch current=\"30 A\"\ncircuit feed from=house to=winch {{ fuse rating=\"40 A\" class={class} resistance=\"2 mohm\"; wire size=\"2.5 mm2\" one-way=\"3.5 m\" insulation=\"105 degC\"; }}\n"
        ))
    };
    let device = |build: &design::Build| part(build, "device", "feed/fuse:1");
    let strip = build("bolt-down");
    let fault = 11.2 / (0.007 + 7.0 * 7.98e-3 * 1.1965);
    same(number(&strip, device(&strip), "smallest-fault-current"), fault, 1e-6);
    let time = 5.0 * (0.2_f64).powf((fault / 140.0).ln() / (6.0_f64 / 3.5).ln());
    same(number(&strip, device(&strip), "opening-time"), time, 1e-6);
    // k of copper from 105 to 160 °C, IEC 60364-5-54.
    let k = (3.45e-3 * 254.5 / 17.241e-6 * (394.5_f64 / 339.5).ln()).sqrt();
    same(number(&strip, device(&strip), "area-for-fault") * 1e6, fault * time.sqrt() / k, 1e-6);
    assert!(!flag(&strip, device(&strip), "stands-fault"));
    let blade = build("blade");
    assert!(flag(&blade, device(&blade), "stands-fault"));
    // Of class T no short times are known.
    let t = build("T");
    assert!(!flag(&t, device(&t), "withstand-known") && ask(&t, device(&t), "area-for-fault").is_err());
}

#[test]
fn nothing_that_is_written_stops_the_solver() {
    for load in [
        "power=\"1e12 W\"",
        "power=\"0 W\"",
        "current=\"0 A\"",
        "power=\"1e-300 W\"",
        "current=\"1e30 A\" behaves=current",
        "power=\"-5 W\"",
        "power=unknown",
        "current=\"5 A\" behaves=unknown",
    ] {
        for ohms in ["4 m", "1e9 km", "1e-12 m"] {
            let build = support::build(&format!(
                "{HOUSE}appliance press {load}\ncircuit feed from=house to=press {{ wire size=\"4 mm2\" one-way=\"{ohms}\" insulation=\"105 degC\"; }}\n"
            ));
            let run = part(&build, "run", "feed/run");
            for fact in ["end-voltage", "solved-current", "power-brought", "power-asked"] {
                if let Ok(design::Fact::Number(value)) = ask(&build, run, fact) {
                    assert!(value.is_finite(), "{load} {ohms} {fact}");
                }
            }
        }
    }
}
