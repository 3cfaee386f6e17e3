//! Heat, moisture, water and frost through the text of a build, against values that were worked out elsewhere: with psychrolib 2.5.0,
//! CoolProp 8.0.0, fluids 1.3.1 and scipy 1.17.1, or by hand.

mod support;

use design::Fact;
use support::{ask, assert_numbers, flag, gaps, linked, near, number, part, steps};

const HOUR: f64 = 3_600.0;
const LITRE: f64 = 1e-3;
const ZERO: f64 = 273.15;

/// A van with this night, this brief and these parts.
fn van(brief: &str, parts: &str) -> String {
    format!(
        "build Van {{ basis eu; }}\nvehicle class=van\nbrief {brief}\nzone cabin kind=living from=\"0, -900, 0 mm\" size=\"4200 x 1800 x 1900 mm\" fresh-air=\"14.364 m3/h\"\nzone underfloor kind=outside\nzone locker kind=garage\n{parts}"
    )
}

#[test]
fn walls_of_layers_let_through_what_the_fact_book_worked_out() {
    // Layers with declared conductivities; W/m²K.
    for (shell, u) in [
        (
            "shell wall { layer steel \"1 mm\"; layer foam \"50 mm\" conductivity=\"0.023 W/mK\"; layer board \"6 mm\" conductivity=\"0.13 W/mK\"; ribs \"0 %\"; }",
            0.418,
        ),
        (
            "shell wall { layer steel \"1 mm\"; layer wool \"50 mm\" conductivity=\"0.039 W/mK\"; layer board \"6 mm\" conductivity=\"0.13 W/mK\"; ribs \"0 %\"; }",
            0.667,
        ),
        (
            "shell roof { layer steel \"1 mm\"; layer foam \"50 mm\" conductivity=\"0.034 W/mK\"; layer board \"4 mm\" conductivity=\"0.13 W/mK\"; ribs \"0 %\"; }",
            0.609,
        ),
        (
            "shell floor { layer steel \"1 mm\"; layer foam \"25 mm\" conductivity=\"0.034 W/mK\"; layer board \"12 mm\" conductivity=\"0.13 W/mK\"; ribs \"0 %\"; }",
            0.964,
        ),
        // A tenth of rib that touches the lining: 0.1 × 4.619 + 0.9 × 0.4184.
        (
            "shell wall { layer steel \"1 mm\"; layer foam \"50 mm\" conductivity=\"0.023 W/mK\"; layer board \"6 mm\" conductivity=\"0.13 W/mK\"; ribs \"10 %\"; over-ribs \"0 mm\"; }",
            0.839,
        ),
        // A batt of half its thickness keeps 61 % of its resistance: 0.61 × 0.1/0.04 = 1.525, with films 1.695.
        ("shell wall { layer cotton \"50 mm\" nominal=\"100 mm\"; }", 1.0 / 1.695),
        ("shell wall u=\"0.7 W/m2K\"", 0.7),
    ] {
        let text = van("{ winter \"-10 degC\"; }", shell);
        let key = shell.split_whitespace().nth(1).unwrap_or_default();
        assert_numbers(&text, &[("shell", key, "u-likely", u, 2e-3)]);
    }
}

#[test]
fn drawn_ribs_lie_between_parallel_paths_and_isothermal_planes() {
    // 1.2 mm of web through 40 mm of foam every 500 mm, 6 mm of plywood inside: 0.521 and 2.016 W/m²K, a factor of four.
    let wall = "shell wall { layer foam \"40 mm\" conductivity=\"0.023 W/mK\"; layer board \"6 mm\" conductivity=\"0.13 W/mK\"; rib spacing=\"500 mm\" depth=\"40 mm\" web=\"1.2 mm\" flange=\"1.2 mm\"; }";
    let text = van("{ winter \"-10 degC\"; }", wall);
    assert_numbers(&text, &[("shell", "wall", "u-at-least", 0.521, 2e-3), ("shell", "wall", "u-at-most", 2.016, 2e-3)]);
    let build = linked(&text);
    let told = steps(&build, part(&build, "shell", "wall"), "u-likely");
    assert!(told.contains("the combined method is outside its scope"), "{told}");
}

#[test]
fn a_van_loses_what_its_faces_and_air_lose() {
    // Worked example: 4.2 × 1.8 × 1.9 m, walls 0.84 less 1.5 m² of windows at 2.6, roof 0.80, floor 0.96, one change of air: 1,397 W at 35 K. The
    // air is reckoned there at 20 °C, here at its own temperature, which is 1.7 % of the whole.
    let parts = "shell walls area=\"21.3 m2\" u=\"0.84 W/m2K\"\nshell roof area=\"7.56 m2\" u=\"0.80 W/m2K\"\nshell floor area=\"7.56 m2\" u=\"0.96 W/m2K\"\nwindow side area=\"1.5 m2\" u=\"2.6 W/m2K\"\nheater air fuel=diesel output=\"2 kW\"";
    let text = van("{ winter \"-15 degC\"; }", parts);
    assert_numbers(
        &text,
        &[("zone", "cabin", "heat-loss", 1_397.0, 0.02), ("zone", "cabin", "inside-volume", 14.364, 1e-9)],
    );
    // Without a floor nothing is told of the whole.
    let build = linked(&text.replace("shell floor area=\"7.56 m2\" u=\"0.96 W/m2K\"\n", ""));
    let cabin = part(&build, "zone", "cabin");
    assert!(ask(&build, cabin, "heat-loss").is_err());
    assert_eq!(ask(&build, cabin, "untold-faces"), Ok(Fact::Text("floor".into())));
    // Diesel for a day at 80 %: 1.42 kW × 86,400 s ÷ (0.8 × 41.4 MJ/kg) = 3.70 kg.
    assert_numbers(&text, &[("zone", "cabin", "fuel-a-day", 3.70, 0.01)]);
}

#[test]
fn a_night_of_two_has_the_humidity_of_the_worked_example() {
    // 80 g/h in 12 m³/h, here 100 g/h in 15 m³/h, which is the same: 1,466 Pa, 86 %, dew point 12.7 °C (psychrolib 2.5.0).
    let text =
        van("berths=2 { winter \"0 degC\"; }", "shell wall area=\"20 m2\" u=\"1 W/m2K\"").replace("14.364", "15");
    assert_numbers(
        &text,
        &[
            ("zone", "cabin", "night-humidity", 0.86, 5e-3),
            ("zone", "cabin", "dew-point", ZERO + 12.7, 3e-4),
            ("shell", "wall", "dew-point", ZERO + 12.7, 3e-4),
        ],
    );
    // 44.8 m³/h hold carbon dioxide of two at 1,000 ppm.
    let text = text.replace("\"15 m3/h\"", "\"44.8 m3/h\"");
    assert_numbers(&text, &[("zone", "cabin", "carbon-dioxide-asleep", 1_000e-6, 2e-3)]);
    // A rib under 6 mm of plywood: surface factor 0.256, 4.6 °C at 18 °C inside and 0 °C outside.
    let rib = "shell wall { layer steel \"1 mm\"; layer foam \"40 mm\" conductivity=\"0.03 W/mK\"; layer board \"6 mm\" conductivity=\"0.13 W/mK\"; ribs \"10 %\"; over-ribs \"0 mm\"; }";
    let text = van("asleep=\"18 degC\" { winter \"0 degC\"; }", rib);
    assert_numbers(&text, &[("shell", "wall", "rib-temperature", ZERO + 4.6, 3e-4)]);
}

#[test]
fn tanks_and_pipes_freeze_when_the_fact_book_says() {
    // A box of 1.5 m² and 100 l at −10 °C: bare in still air 6.7 h and 144 W to hold 2 °C, in the wind 2.7 h and 360 W.
    for (zone, hours, watts) in [("locker", 6.7, 144.0), ("underfloor", 2.7, 360.0)] {
        let tank = format!(
            "heater air fuel=diesel output=\"2 kW\"\ntank fresh holds=fresh volume=\"100 l\" size=\"1000 x 400 x 250 mm\" zone={zone}"
        );
        let text = van("{ winter \"-10 degC\"; }", &tank);
        assert_numbers(
            &text,
            &[("tank", "fresh", "freezes-after", hours * HOUR, 0.01), ("tank", "fresh", "holding-power", watts, 1e-9)],
        );
    }
    // 15 × 2 mm of pipe at −10 °C: bare 0.35 h, with 13 mm of foam 0.83 h and 2.8 W/m, here with a quarter more over 4 m.
    for (foam, hours) in [("0 mm", 0.35), ("13 mm", 0.83)] {
        let line = format!(
            "heater air fuel=diesel output=\"2 kW\"\nwater-line cold {{ pipe size=\"15 mm\" wall=\"2 mm\" one-way=\"4 m\" insulation=\"{foam}\" zone=underfloor; tap sink; }}"
        );
        let text = van("{ winter \"-10 degC\"; }", &line);
        assert_numbers(&text, &[("pipe", "pipe:1", "freezes-after", hours * HOUR, 0.02)]);
        if foam == "13 mm" {
            assert_numbers(&text, &[("pipe", "pipe:1", "trace-needed", 2.8 * 4.0 * 1.25, 0.01)]);
        }
    }
}

#[test]
fn what_stands_warm_meets_no_frost_and_the_thinnest_freezes_first() {
    let parts = "heater air fuel=diesel output=\"2 kW\"\ntank fresh holds=fresh volume=\"100 l\" size=\"1000 x 400 x 250 mm\" zone=underfloor\ntank grey holds=grey volume=\"60 l\" size=\"1000 x 400 x 150 mm\" zone=cabin\nwater-line cold from=fresh { pump \"water pump\" zone=locker; pipe size=\"15 mm\" wall=\"2 mm\" one-way=\"4 m\" zone=underfloor; tap sink; }";
    let text = van("{ winter \"-10 degC\"; }", parts);
    let build = linked(&text);
    for (word, key, meets) in [("tank", "fresh", true), ("tank", "grey", false), ("pump", "water pump", true)] {
        assert_eq!(flag(&build, part(&build, word, key), "meets-frost"), meets, "{key}");
    }
    let brief = part(&build, "brief", "brief:1");
    let pipe = part(&build, "pipe", "pipe:1");
    assert_eq!(ask(&build, brief, "freezes-first"), Ok(Fact::Part(pipe)));
    assert!(near(number(&build, brief, "first-frost"), 0.35 * HOUR, 0.02));
    // A heated locker, an emptied line, a summer: none of it meets frost.
    for (from, to) in [
        ("kind=garage", "kind=garage heated=yes"),
        ("kind=garage", "kind=garage inside=cabin"),
        ("cold from=fresh", "cold in-frost=emptied from=fresh"),
        ("brief {", "brief used=summer {"),
    ] {
        let build = linked(&text.replace(from, to));
        assert!(!flag(&build, part(&build, "pump", "water pump"), "meets-frost"), "{to}");
    }
    // Nobody says where the pump stands.
    let build = linked(&text.replace(" zone=locker", ""));
    let gaps = gaps(&build, part(&build, "pump", "water pump"), "meets-frost");
    assert!(gaps.iter().any(|gap| gap.contains("zone")), "{gaps:?}");
}

#[test]
fn water_flows_grows_and_is_stored_as_worked_out() {
    // 8 l/min through 12.7 mm and 5 m with four elbows: 9.1 kPa (fluids 1.3.1). The pump gives 280 kPa × (1 − 8/10) there.
    // 0.75 l charged to 1.4 bar give 0.192 l between 1.7 and 2.8 bar; 10 l grow by 1.68 % from 10 to 60 °C.
    let line = "water-line cold { pump \"water pump\" open-flow=\"10 l/min\" cut-in=\"1.7 bar\" cut-out=\"2.8 bar\"; pressure-vessel volume=\"0.75 l\" charge=\"1.4 bar\"; pipe size=\"16.7 mm\" wall=\"2 mm\" one-way=\"5 m\"; boiler hot volume=\"10 l\" temperature=\"60 degC\"; branch { tap sink flow=\"8 l/min\" rise=\"0 m\"; }; shower wash flow=\"6 l/min\" slope=\"2 %\"; }";
    let text = van("lean=\"1.1457628 deg\" { winter \"0 degC\"; }", line);
    assert_numbers(
        &text,
        &[
            ("tap", "sink", "pressure-left", 56_000.0 - 9_100.0, 3e-3),
            ("pipe", "pipe:1", "speed", 1.053, 1e-3),
            ("pressure-vessel", "pressure-vessel:1", "gives", 0.192 * LITRE, 3e-3),
            ("boiler", "hot", "hot-growth", 0.168 * LITRE, 3e-3),
            // 60 °C burns in three seconds.
            ("shower", "wash", "burns-in", 3.0, 1e-9),
        ],
    );
    // A tray of 2 % is level when the vehicle leans by 1.15°.
    let build = linked(&text);
    assert!(number(&build, part(&build, "shower", "wash"), "slope-leaning").abs() < 1e-6);
}

#[test]
fn radiators_give_no_more_than_what_heats_their_water() {
    for (heaters, watts) in [
        ("heater one kind=air output=\"2 kW\"", 2_000.0),
        (
            "heater one kind=water output=\"5 kW\"\nheater two kind=radiator output=\"2 kW\"\nheater three kind=floor output=\"1 kW\"",
            3_000.0,
        ),
        ("heater one kind=water output=\"2 kW\"\nheater two kind=radiator output=\"3 kW\"", 2_000.0),
        ("heater one kind=radiator output=\"3 kW\"", 3_000.0),
        ("heater one kind=water output=\"5 kW\"", 0.0),
        ("heater one kind=tank-pad output=\"60 W\"", 0.0),
    ] {
        assert_numbers(&van("{ winter \"0 degC\"; }", heaters), &[("zone", "cabin", "heating", watts, 1e-9)]);
    }
}
