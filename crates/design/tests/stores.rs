//! Batteries, what charges them, how they are held and what they last: against published or independently worked values,
//! through the text of a build.

mod support;

use design::{Build, Fact};
use support::{ask, assert_numbers, flag, gaps, linked, part, steps, titles};

const CM2: f64 = 1e-4;
const G: f64 = 9.806_65;
const WATT_HOUR: f64 = 3_600.0;
const HOUR: f64 = 3_600.0;
const DAY: f64 = 86_400.0;

/// A charged battery of 12 V and 200 Ah in a box with two openings, and where the openings lead.
fn boxed(chemistry: &str, more: &str) -> String {
    format!(
        "build Van {{ basis eu; }}\nzone cabin kind=living\nzone box kind=battery inside=cabin {{\n    vent low free-area=\"30 cm2\" to=outside\n    vent high free-area=\"10 cm2\" to=outside\n    vent roof free-area=\"5 cm2\" to=outside\n    vent high free-area=\"50 cm2\" to=cabin\n}}\nbattery house chemistry={chemistry} voltage=\"12 V\" capacity=\"200 Ah\" zone=box at=\"0, 0, 0 mm\"\ncharger charger kind=mains output=\"20 A\" voltage=\"14.4 V\"\ncircuit out from=charger to=house {{ wire size=\"6 mm2\" one-way=\"1 m\"; }}\n{more}"
    )
}

#[test]
fn hydrogen_of_a_battery_on_charge_needs_the_published_opening() {
    // IEC 62485-2, worked: boost, n 6, Igas 20 mA/Ah: 1.20 m³/h, 33.6 cm²; valve-regulated, Igas 8: 0.48 m³/h, 13.4 cm².
    for (chemistry, cm2) in [("flooded", 33.6), ("AGM", 13.44), ("gel", 13.44)] {
        assert_numbers(
            &boxed(chemistry, ""),
            &[
                ("battery", "house", "hydrogen-opening", cm2 * CM2, 1e-9),
                ("battery", "house", "low-opening", 30.0 * CM2, 1e-9),
                // High and roof count, the opening into the cabin does not.
                ("battery", "house", "high-opening", 15.0 * CM2, 1e-9),
            ],
        );
    }
    // A second battery in the same box adds its own; one beside the box does not. Nothing charges it: float, 5 mA/Ah.
    let second = "battery second chemistry=flooded voltage=\"12 V\" capacity=\"200 Ah\" zone=box\nbattery third chemistry=flooded voltage=\"12 V\" capacity=\"200 Ah\" zone=cabin\n";
    assert_numbers(&boxed("flooded", second), &[("battery", "house", "hydrogen-opening", 42.0 * CM2, 1e-9)]);
    let build = linked(&boxed("flooded", ""));
    let house = part(&build, "battery", "house");
    assert!(flag(&build, house, "opens-inside"));
    assert!(
        steps(&build, house, "hydrogen-opening").contains("= 20 l/min"),
        "{}",
        steps(&build, house, "hydrogen-opening")
    );
}

#[test]
fn sparks_are_found_within_the_published_distance() {
    // d = 28.8·∛Igas·∛C: 457 mm for the flooded battery, 337 mm for the sealed one.
    for (chemistry, near, far) in [("flooded", 456, 458), ("AGM", 336, 338)] {
        let fans = format!("fan near at=\"{near}, 0, 0 mm\"\nfan far at=\"{far}, 0, 0 mm\"\nfan somewhere\n");
        let build = linked(&boxed(chemistry, &fans));
        assert_eq!(titles(&build, part(&build, "battery", "house"), "sparks-near"), ["fan \"near\""]);
    }
}

#[test]
fn a_crash_asks_more_than_the_pull_of_boat_law() {
    // Worked for 30 kg: 20 g are 5,884 N, 8 g 2,354 N, 6.6 g 1,942 N; the law for boats asks 400 N.
    for (class, mass, along, across) in [
        ("van", "3500 kg", 5_884.0, 2_354.0),
        ("van", "3501 kg", 2_942.0, 1_471.0),
        ("van", "12001 kg", 1_942.0, 1_471.0),
        ("motor-caravan", "7500 kg", 5_884.0, 2_354.0),
        ("bus", "5000 kg", 2_942.0, 1_471.0),
        ("bus", "18000 kg", 1_942.0, 1_471.0),
    ] {
        let text = format!(
            "build Van {{ basis eu; }}\nvehicle class={class} gross-mass=\"{mass}\"\nbattery house mass=\"30 kg\" {{ restraint straps holds pull=\"400 N\"; }}\n"
        );
        assert_numbers(
            &text,
            &[
                ("battery", "house", "crash-forward", along / 30.0, 1e-3),
                ("battery", "house", "crash-sideways", across / 30.0, 1e-3),
                ("battery", "house", "holds-forward", 400.0 / 30.0, 1e-9),
                ("battery", "house", "holds-pull", 400.0, 1e-9),
            ],
        );
    }
    let said = "build Van { basis eu; }\nbattery house mass=\"30 kg\" { restraint straps holds forward=\"20 g\" sideways=\"8 g\" up=\"6.6 g\"; }\n";
    assert_numbers(
        said,
        &[("battery", "house", "holds-sideways", 8.0 * G, 1e-9), ("battery", "house", "holds-pull", 1_942.0, 1e-3)],
    );
    let build = linked("build Van { basis eu; }\nvehicle class=trailer\nbattery house\n");
    let house = part(&build, "battery", "house");
    assert_eq!(gaps(&build, house, "holds-forward"), ["no restraint in battery:house"]);
    assert!(ask(&build, house, "crash-forward").is_err(), "a trailer carries nobody");
}

/// A day of a small motor caravan as a published example reckons it: 2,128 Wh.
const DAY_OF_LOADS: &str = r#"build Van { basis eu; }
brief off-grid="2 d" used=winter driving="1.5 h/d" winter-sun="2.5 h/d" { winter "30 degC"; latitude "35 deg"; }
alternator engine1 output="200 A" spare="100 A" voltage="14.2 V" from=starter
battery starter role=starter chemistry=AGM voltage="12 V" capacity="95 Ah"
battery house chemistry=LFP voltage="12.8 V" capacity="200 Ah"
busbar bar
appliance fridge power="45 W" duty="8.4 h/d"
lamp light power="30 W" duty="4 h/d"
fan fan power="20 W" duty="8 h/d"
appliance laptop power="50 W" duty="4 h/d"
appliance pump power="36 W" duty="20 min/d"
appliance heater power="24 W" duty="10 h/d"
inverter inverter power="2000 VA" efficiency="88 %" idle="20 W" on="10 h/d" voltage="230 V"
ac-board board { way 1 hob breaker="10 A" wire="1.5 mm2" one-way="1 m"; }
appliance hob power="1800 W" duty="0.4 h/d"
circuit main from=house to=bar { wire size="35 mm2" one-way="1 m"; }
circuit loads from=bar { serves fridge light fan laptop pump heater; }
circuit feed from=bar to=inverter { wire size="35 mm2" one-way="1 m"; }
circuit out from=inverter to=board { wire size="2.5 mm2" one-way="1 m"; }
charger engine kind=dc-to-dc input="60 A" output="40 A" enable=ignition
circuit in from=starter to=engine { wire size="16 mm2" one-way="3 m"; }
circuit over from=engine to=bar { wire size="10 mm2" one-way="1 m"; }
solar roof modules=2 power="200 W"
solar-controller controller output="30 A"
circuit strings from=roof to=controller { wire size="6 mm2" one-way="3 m"; }
circuit sun from=controller to=bar { wire size="6 mm2" one-way="1 m"; }
"#;

#[test]
fn a_day_of_energy_is_that_of_the_published_example() {
    assert_numbers(
        DAY_OF_LOADS,
        &[
            // 378 + 120 + 160 + 200 + 12 + 240 + 720 ÷ 0.88 + 200 Wh
            ("week", "", "energy-a-day", 2_128.0 * WATT_HOUR, 1e-3),
            ("week", "", "idle-energy-a-day", 200.0 * WATT_HOUR, 1e-9),
            // 12.8 V × 200 Ah × 80 % × 0.95 = 1,946 Wh
            ("week", "", "usable-energy", 1_946.0 * WATT_HOUR, 1e-3),
            ("week", "", "autonomy", 1_945.6 / 2_128.2 * DAY, 1e-3),
            // 40 A × 12.8 V × 1.5 h; the engine leaves more than that.
            ("week", "", "driving-a-day", 768.0 * WATT_HOUR, 1e-6),
        ],
    );
    // 1,500 Wh a day last 1.30 days.
    let text = "build Van { basis eu; }\nbrief { winter \"30 degC\"; }\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"200 Ah\"\nlamp lamp power=\"62.5 W\" duty=\"24 h/d\"\ncircuit feed from=house to=lamp { wire size=\"6 mm2\" one-way=\"1 m\"; }\n";
    assert_numbers(text, &[("week", "", "autonomy", 1.297 * DAY, 1e-3)]);
    // At 0 °C the battery gives 80 % of that.
    assert_numbers(
        &text.replace("30 degC", "0 degC"),
        &[("week", "", "usable-energy", 1_945.6 * 0.8 * WATT_HOUR, 1e-6)],
    );
}

#[test]
fn what_is_not_said_of_a_day_is_named() {
    let root = |text: &str| -> (Build, design::PartId) {
        let build = linked(text);
        let root = part(&build, "week", "");
        (build, root)
    };
    let (build, build_part) = root(&DAY_OF_LOADS.replace(" duty=\"8 h/d\"", ""));
    assert_eq!(gaps(&build, build_part, "energy-a-day"), ["fan:fan duty"]);
    let (build, build_part) = root(&DAY_OF_LOADS.replace(" on=\"10 h/d\"", ""));
    assert_eq!(gaps(&build, build_part, "energy-a-day"), ["inverter:inverter on"]);
    let (build, build_part) = root(&DAY_OF_LOADS.replace(" winter-sun=\"2.5 h/d\"", ""));
    assert_eq!(gaps(&build, build_part, "sun-a-day"), ["brief:1 winter-sun"]);
}

#[test]
fn a_heavy_load_shortens_the_time_by_the_rated_form_of_peukert() {
    // 20 h × (100 Ah ÷ (20 A × 20 h))^k, k 1.15 of an absorbed battery, 1.25 of a gelled one.
    for (chemistry, hours) in [("AGM", 20.0 * 0.25_f64.powf(1.15)), ("gel", 20.0 * 0.25_f64.powf(1.25))] {
        let text = format!(
            "build Van {{ basis eu; }}\nbattery house chemistry={chemistry} voltage=\"12 V\" capacity=\"100 Ah\"\nappliance load current=\"20 A\"\ncircuit feed from=house to=load {{ wire size=\"6 mm2\" one-way=\"1 m\"; }}\n"
        );
        assert_numbers(&text, &[("battery", "house", "runtime", hours * HOUR, 1e-9)]);
    }
}

/// Three equal batteries of 4 mΩ; where the second and the third are joined to.
fn bank(second: &str, third: &str) -> String {
    let battery = |name: &str, to: &str| {
        format!(
            "battery {name} chemistry=AGM voltage=\"12 V\" capacity=\"100 Ah\" internal-resistance=\"4 mohm\"\ncircuit \"{name} lead\" from={name} to={to} {{ wire size=\"35 mm2\" one-way=\"1 m\"; }}\n"
        )
    };
    format!(
        "build Van {{ basis eu; }}\nbusbar bar\nappliance load current=\"90 A\"\ncircuit feed from=bar to=load {{ wire size=\"35 mm2\" one-way=\"1 m\"; }}\ncharger charger kind=mains output=\"60 A\" voltage=\"14.4 V\"\ncircuit in from=charger to=bar {{ wire size=\"16 mm2\" one-way=\"1 m\"; }}\n{}{}{}",
        battery("first", "bar"),
        battery("second", second),
        battery("third", third)
    )
}

#[test]
fn a_bank_shares_by_resistance_and_takes_by_capacity() {
    // A lead of 35 mm² is 0.554 mΩ/m out and back.
    let lead = 2.0 * 0.554e-3;
    let build = linked(&bank("bar", "bar"));
    let first = part(&build, "battery", "first");
    assert_eq!(titles(&build, first, "bank"), ["battery \"first\"", "battery \"second\"", "battery \"third\""]);
    assert!(!flag(&build, first, "device-between"));
    assert_numbers(
        &bank("bar", "bar"),
        &[
            ("battery", "first", "share-spread", 1.0, 1e-6),
            ("battery", "first", "discharge-current", 30.0, 1e-9),
            ("battery", "second", "charge-current", 20.0, 1e-9),
        ],
    );
    // One behind the other: the ladder, solved on its own.
    let shares = calc::ladder_sharing(3, 4e-3, lead, 90.0).unwrap_or_default();
    let spread = shares[0] / shares[2];
    assert_numbers(&bank("first", "second"), &[("battery", "third", "share-spread", spread, 1e-6)]);
    // A relay parts a bank, and a fuse stands between.
    let parted =
        bank("bar", "bar").replacen("from=second to=bar {", "from=second to=bar { relay split worked-by=ignition;", 1);
    let build = linked(&parted);
    assert_eq!(titles(&build, part(&build, "battery", "second"), "bank"), ["battery \"second\""]);
    let fused = bank("bar", "bar")
        .replace("from=first to=bar {", "from=first to=bar { fuse rating=\"100 A\" class=T;")
        .replace("from=second to=bar {", "from=second to=bar { fuse rating=\"100 A\" class=T;");
    let build = linked(&fused);
    assert!(flag(&build, part(&build, "battery", "first"), "device-between"));
    assert!(flag(&build, part(&build, "battery", "third"), "device-between"));
}

#[test]
fn what_charges_at_different_times_is_not_added() {
    let text = |more: &str| {
        format!(
            "build Van {{ basis eu; }}\nbattery starter role=starter chemistry=AGM voltage=\"12 V\" capacity=\"95 Ah\"\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\"\ncharger engine kind=dc-to-dc input=\"60 A\" output=\"50 A\" voltage=\"14.4 V\" enable=ignition\ncharger mains kind=mains output=\"30 A\" voltage=\"14.2 V\"\nsolar-controller sun output=\"20 A\" voltage=\"14.6 V\"\nalternator alternator output=\"180 A\" voltage=\"14.3 V\" from=starter\ncircuit a from=starter to=engine {{ wire size=\"16 mm2\" one-way=\"3 m\"; }}\ncircuit b from=engine to=house {{ wire size=\"16 mm2\" one-way=\"3 m\"; }}\ncircuit c from=mains to=house {{ wire size=\"16 mm2\" one-way=\"3 m\"; }}\ncircuit d from=sun to=house {{ wire size=\"16 mm2\" one-way=\"3 m\"; }}\n{more}"
        )
    };
    assert_numbers(
        &text(""),
        &[
            ("battery", "house", "charge-current", 70.0, 1e-9),
            ("battery", "house", "highest-charge-voltage", 14.6, 1e-9),
            ("battery", "house", "usual-charge-current", 50.0, 1e-9),
            ("alternator", "alternator", "drawn", 60.0, 1e-9),
            ("alternator", "alternator", "leaves", 90.0, 1e-9),
        ],
    );
    // A generator that is carried along feeds the mains charger while driving.
    assert_numbers(
        &text("generator generator fuel=diesel power=\"2 kVA\" voltage=\"230 V\"\n"),
        &[("battery", "house", "charge-current", 100.0, 1e-9)],
    );
    let build = linked(&text(""));
    assert!(flag(&build, part(&build, "battery", "starter"), "base-vehicle"));
    assert!(!flag(&build, part(&build, "battery", "house"), "base-vehicle"));
    assert_eq!(titles(&build, part(&build, "alternator", "alternator"), "charges"), [""; 0]);
    assert!(matches!(ask(&build, part(&build, "build", ""), "mains-charged"), Ok(Fact::Flag(true))));
}

#[test]
fn cold_modules_by_coefficient_or_by_the_table() {
    let text = |coefficient: &str| {
        format!(
            "build Van {{ basis us; }}\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\"\nsolar roof modules=6 series=2 power=\"200 W\" open-voltage=\"24.3 V\" short-current=\"10.4 A\" coldest=\"-20 degC\"{coefficient}\nsolar-controller controller\ncircuit a from=roof to=controller {{ wire size=\"6 mm2\" one-way=\"3 m\"; }}\ncircuit b from=controller to=house {{ wire size=\"6 mm2\" one-way=\"3 m\"; }}\n"
        )
    };
    assert_numbers(
        &text(" voltage-per-kelvin=\"-0.28 %/K\""),
        &[
            // 45 K colder: 1.126
            ("solar", "roof", "highest-voltage", 2.0 * 24.3 * 1.126, 1e-9),
            ("solar", "roof", "short-circuit-current", 3.0 * 10.4 * 1.25, 1e-9),
            ("solar", "roof", "needed-string-fuse", 10.4 * 1.5625, 1e-9),
            ("solar", "roof", "parallel-strings", 3.0, 1e-9),
            ("solar-controller", "controller", "input-current", 31.2, 1e-9),
            ("solar-controller", "controller", "needed-output", 1_200.0 / 12.8, 1e-9),
        ],
    );
    // Without a coefficient the table of NEC 690.7(A): 1.18 at −20 °C.
    assert_numbers(&text(""), &[("solar-controller", "controller", "string-voltage", 2.0 * 24.3 * 1.18, 1e-9)]);
}

#[test]
fn cold_is_stopped_by_any_of_three() {
    let text = |battery: &str, charger: &str| {
        format!(
            "build Van {{ basis eu; }}\nbattery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\" {battery}\ncharger mains kind=mains output=\"30 A\" voltage=\"14.2 V\" {charger}\ncircuit c from=mains to=house {{ wire size=\"16 mm2\" one-way=\"3 m\"; }}\n"
        )
    };
    for (battery, charger, expected) in [
        ("{ management stops-charge-below=\"0 degC\"; }", "", true),
        ("{ management stops-charge-below=\"-5 degC\"; }", "stops-when-cold=yes", true),
        ("heating=pad", "", true),
        ("heating=none { management stops-charge-below=\"-5 degC\"; }", "stops-when-cold=no", false),
    ] {
        let build = linked(&text(battery, charger));
        assert_eq!(
            flag(&build, part(&build, "battery", "house"), "stops-charge-cold"),
            expected,
            "{battery} {charger}"
        );
    }
    let build = linked(&text("", ""));
    assert_eq!(
        gaps(&build, part(&build, "battery", "house"), "stops-charge-cold"),
        ["no management in battery:house", "battery:house heating", "charger:mains stops-when-cold"]
    );
}
