//! Voltage lost, smallest faults, windows of devices and parts in line, against published examples and the arithmetic beside
//! them.

mod support;

use support::{ask, build, clean, flag, gaps, near, number, part};

/// Asserts a value within a share of what is expected.
fn same(value: f64, expected: f64, share: f64) {
    assert!(near(value, expected, share), "{value} is not {expected}");
}

/// One load on one wire.
fn feed(basis: &str, wire: &str, fuse: &str, load: &str) -> design::Build {
    clean(&format!(
        "build Van {{ basis {basis}; }}\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" internal-resistance=\"3 mohm\"\nappliance load {load}\ncircuit feed from=house to=load {{ fuse {fuse}; wire {wire} insulation=\"105 degC\"; }}\n"
    ))
}

#[test]
fn the_voltage_lost_is_that_of_published_tables() {
    // IEC 60228 class 5, 6 mm², 3.30 mΩ/m at 20 °C, 5 m out and 5 m back, 20 A: 0.660 V cold and 0.790 V at 70 °C, which is
    // what BS 7671 Table 4E1B gives with 7.9 mV/A/m.
    let build = feed("eu", "size=\"6 mm2\" one-way=\"5 m\"", "rating=\"25 A\" class=blade", "current=\"20 A\"");
    let run = part(&build, "run", "feed/run");
    same(number(&build, run, "drop"), 0.790, 0.005);
    same(number(&build, run, "supply-drop"), 0.790, 0.005);
    same(number(&build, run, "nominal-voltage"), 12.8, 1e-9);
    same(number(&build, part(&build, "conductor", "feed/wire:1"), "hot-resistance"), 0.0395, 0.005);
}

#[test]
fn a_long_thin_wire_may_never_open_its_fuse() {
    // 0.75 mm², 12 m one way at 70 °C: 0.747 Ω out and back; 1.5 mm², 10 m: 0.318 Ω. An empty LFP battery holds 11.2 V, and a blade fuse
    // adds up to 0.2 V at its rating. It opens within ten seconds from 1.89 times its rating on, by its band.
    for (wire, rating, loop_ohms, multiple, opens) in [
        ("size=\"0.75 mm2\" one-way=\"12 m\"", 10.0, 0.747, 1.455, false),
        ("size=\"1.5 mm2\" one-way=\"10 m\"", 20.0, 0.3184, 1.69, false),
        ("size=\"2.5 mm2\" one-way=\"10 m\"", 20.0, 0.191, 2.745, true),
        ("size=\"4 mm2\" one-way=\"10 m\"", 20.0, 0.1185, 4.26, true),
    ] {
        let build = feed("eu", wire, &format!("rating=\"{rating} A\" class=blade"), "current=\"5 A\"");
        same(number(&build, part(&build, "run", "feed/run"), "hot-resistance"), loop_ohms, 0.005);
        let device = part(&build, "device", "feed/fuse:1");
        let fault = number(&build, device, "smallest-fault-current");
        same(fault, 11.2 / (0.003 + loop_ohms + 0.2 / rating), 0.005);
        same(fault / rating, multiple, 0.01);
        assert_eq!(fault >= number(&build, device, "opening-current"), opens, "{wire}");
    }
}

#[test]
fn the_window_of_a_device_names_usual_ratings() {
    // 4 mm² at 105 °C carries 45 A (33 CFR 183.425 Table 5); 8.5 A for hours ask for 10.6 A.
    let load = "current=\"8.5 A\" continuous=yes";
    for (basis, allowed, smallest, largest) in [("eu", 45.0, 15.0, 40.0), ("us", 67.5, 15.0, 60.0)] {
        let build = feed(basis, "size=\"4 mm2\" one-way=\"2 m\"", "rating=\"15 A\" class=blade", load);
        let device = part(&build, "device", "feed/fuse:1");
        same(number(&build, device, "needed-rating"), 10.625, 1e-9);
        same(number(&build, device, "largest-allowed"), allowed, 1e-9);
        same(number(&build, device, "smallest-fitting"), smallest, 1e-9);
        same(number(&build, device, "largest-fitting"), largest, 1e-9);
    }
}

#[test]
fn what_lies_together_for_a_short_way_is_no_bundle() {
    let text = |length: &str| {
        format!(
            "build Van {{ basis eu; }}\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" internal-resistance=\"3 mohm\"\nroute duct\nbusbar bus\nappliance a current=\"1 A\"\nappliance b current=\"1 A\"\ncircuit main from=house to=bus {{ fuse rating=\"50 A\" class=T; wire size=\"16 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }}\ncircuit a from=bus to=a {{ fuse rating=\"10 A\" class=T; wire size=\"4 mm2\" one-way=\"3 m\" insulation=\"105 degC\" route=duct; }}\ncircuit b from=bus to=b {{ fuse rating=\"10 A\" class=T; wire size=\"4 mm2\" one-way=\"{length}\" insulation=\"105 degC\" route=duct; }}\n"
        )
    };
    // NEC 310.15(C)(1): four conductors × 0.8; up to 24 in they do not count.
    for (length, bundled, ampacity) in [("600 mm", 2.0, 45.0), ("700 mm", 4.0, 36.0)] {
        let build = clean(&text(length));
        let wire = part(&build, "conductor", "a/wire:1");
        same(number(&build, wire, "bundled"), bundled, 1e-9);
        same(number(&build, wire, "ampacity"), ampacity, 1e-9);
    }
}

#[test]
fn aluminium_has_no_ampacity_by_these_tables() {
    let build = feed(
        "eu",
        "size=\"6 mm2\" one-way=\"5 m\" material=aluminium",
        "rating=\"25 A\" class=blade",
        "current=\"20 A\"",
    );
    let wire = part(&build, "conductor", "feed/wire:1");
    assert_eq!(gaps(&build, wire, "ampacity"), ["circuit:feed/wire:1 material"]);
}

const BARS: &str = "build Van { basis eu; }\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"200 Ah\" internal-resistance=\"3 mohm\"\ncharger ch kind=dc-to-dc input=\"30 A\" output=\"20 A\" voltage=\"14.4 V\"\nbusbar bar rating=\"200 A\"\nappliance a current=\"50 A\"\nappliance b current=\"60 A\"\ncircuit main from=house to=bar { fuse rating=\"150 A\" class=T; disconnect off rating=\"150 A\"; wire size=\"50 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }\ncircuit charge from=ch to=bar { wire size=\"10 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; fuse rating=\"30 A\" class=T; }\ncircuit a from=bar to=a { fuse rating=\"80 A\" class=T; wire size=\"25 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }\ncircuit b from=bar to=b { fuse rating=\"100 A\" class=T; wire size=\"25 mm2\" one-way=\"1 m\" insulation=\"105 degC\"; }\n";

#[test]
fn a_bar_carries_what_flows_in_or_out_whichever_is_less() {
    // In: 150 A of the battery and 20 A of the charger; out: 80 A and 100 A.
    // What feeds the charger is left out.
    let build = build(BARS);
    same(number(&build, part(&build, "busbar", "bar"), "may-carry"), 170.0, 1e-9);
    let run = part(&build, "run", "main/run");
    same(number(&build, run, "in-line-limit"), 150.0, 1e-9);
    same(number(&build, run, "in-line-rating"), 150.0, 1e-9);
    assert!(!flag(&build, run, "in-line-alternating"));
    assert!(flag(&build, part(&build, "device", "charge/fuse:1"), "two-way"));
    assert!(!flag(&build, part(&build, "device", "a/fuse:1"), "two-way"));
    assert!(ask(&build, part(&build, "run", "a/run"), "in-line-rating").is_err());
}
