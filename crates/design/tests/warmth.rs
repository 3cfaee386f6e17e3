//! Ducts, compartments, warming up and the electricity of heating through the text of a build, against values that were worked out
//! elsewhere: with fluids 1.3.1 and scipy 1.17.1, or by hand.

mod support;

use design::Fact;
use support::{ask, assert_numbers, flag, linked, part, steps};

const HOUR: f64 = 3_600.0;
const WATT_HOUR: f64 = 3_600.0;
const ZERO: f64 = 273.15;

/// A van of 20 m² with 1 W/m²K at −10 °C, with a heater of these entries and these other parts: it loses 600 W.
fn van(heater: &str, parts: &str) -> String {
    format!(
        "build Van {{ basis eu; }}\nvehicle class=van\nbrief berths=1 {{ winter \"-10 degC\"; summer \"35 degC\"; }}\nzone cabin kind=living fresh-air=\"0 m3/h\" from=\"0, -1, 0 m\" size=\"3 x 2 x 2 m\"\nzone underfloor kind=outside\nshell roof area=\"6 m2\" u=\"1 W/m2K\"\nshell floor area=\"6 m2\" u=\"1 W/m2K\"\nshell \"side walls\" area=\"8 m2\" u=\"1 W/m2K\"\nheater warm fuel=diesel {heater}\n{parts}"
    )
}

const DUCT: &str = "output=\"2 kW\" air-flow=\"90 m3/h\" blow-pressure=\"200 Pa\" { warm-air duct=\"4 m\" bore=\"75 mm\" bends=2 insulation=\"20 mm\" through=underfloor at=\"1, -0.9, 0.1 m\" toward=right; }";

#[test]
fn a_duct_below_the_floor_moves_less_air_and_loses_heat_to_the_night() {
    // fluids and scipy: 0.018231 m³/s of 0.025; 20 °C and 2 kW in that air come to 110.6 °C, after 4 m to 99.3 °C: an eighth is lost.
    assert_numbers(
        &van(DUCT, ""),
        &[
            ("heater", "warm", "air-moved", 0.018_231, 1e-4),
            ("heater", "warm", "air-kept", 0.729_24, 1e-4),
            ("heater", "warm", "blown-at", ZERO + 110.56, 1e-4),
            ("warm-air", "warm-air:1", "arrives", ZERO + 99.26, 1e-4),
            ("warm-air", "warm-air:1", "lost", 249.7, 1e-3),
            ("heater", "warm", "delivered", 1_750.3, 1e-3),
            // What comes through the duct is all that warms the space.
            ("zone", "cabin", "heating", 1_750.3, 1e-3),
        ],
    );
}

#[test]
fn what_goes_into_a_garage_warms_nobody() {
    let ducts =
        DUCT.replace("toward=right;", "toward=right; warm-air duct=\"4 m\" bore=\"75 mm\" bends=2 warms=garage;");
    let text = van(&ducts.replace(" through=underfloor", ""), "zone garage kind=garage");
    // Two like ducts share alike, and half of the heat goes astray.
    assert_numbers(&text, &[("heater", "warm", "delivered", 1_000.0, 1e-9)]);
    let build = linked(&text);
    let outlet = part(&build, "warm-air", "warm-air:2");
    assert!(matches!(ask(&build, outlet, "warms-kind"), Ok(Fact::Choice(_))));
    // Where nothing is said of its length, nothing is known of the shares, and all of its output counts.
    let text = van(&ducts.replace("duct=\"4 m\" bore=\"75 mm\" bends=2 warms", "warms"), "zone garage kind=garage");
    assert_numbers(&text, &[("heater", "warm", "delivered", 2_000.0, 1e-9)]);
}

#[test]
fn a_locker_gets_as_hot_as_its_openings_and_walls_let_it() {
    // 1,000 W at 90 % give off 111 W; 1.66 m² of walls with 2.5 W/m²K, two openings of 40 cm²: scipy finds 55.73 °C at 35 °C outside.
    let locker = "zone locker kind=battery inside=cabin size=\"700 x 500 x 400 mm\" ambient=\"60 degC\" { vent low free-area=\"40 cm2\" to=cabin; vent high free-area=\"40 cm2\" to=cabin; }\nbattery house chemistry=LFP voltage=\"25.6 V\" capacity=\"200 Ah\" zone=cabin\ncircuit feed from=house to=bench { fuse rating=\"125 A\" class=T; wire size=\"35 mm2\" one-way=\"1 m\"; }\ninverter bench power=\"2000 VA\" efficiency=\"90 %\" long-load=\"1000 W\" full-until=\"40 degC\" hot-share=\"50 %\" hot-at=\"65 degC\" voltage=\"230 V\" zone=locker";
    let text = van("output=\"2 kW\"", locker);
    assert_numbers(
        &text,
        &[
            ("zone", "locker", "device-heat", 111.1, 1e-3),
            ("zone", "locker", "air-inside", ZERO + 55.732, 1e-5),
            // At that temperature it could give 68.5 % of its power, and gives what it is asked for.
            ("inverter", "bench", "given-in-warmth", 1_000.0, 1e-9),
            ("inverter", "bench", "air-around", ZERO + 55.732, 1e-5),
        ],
    );
    // Asked for all it settles where its heat and its derating agree: 60.7 % at 59.7 °C.
    let text = text.replace(" long-load=\"1000 W\"", "");
    assert_numbers(
        &text,
        &[
            ("inverter", "bench", "given-in-warmth", 1_213.3, 1e-3),
            ("inverter", "bench", "air-around", ZERO + 59.67, 1e-4),
        ],
    );
}

#[test]
fn a_cold_van_warms_as_one_mass_behind_its_loss() {
    // 200 kg of plywood at 1,600 J/kgK behind 20 W/K, 1,200 W: 16,000 s × ln 2; from −15 °C with 1,400 W the same.
    let kitchen = "furnishing kitchen material=plywood mass=\"200 kg\" zone=cabin";
    assert_numbers(
        &van("output=\"1200 W\"", kitchen),
        &[("zone", "cabin", "warm-up-at-least", 16_000.0 * 2_f64.ln(), 1e-9)],
    );
    assert_numbers(
        &van("output=\"1400 W\"", kitchen),
        &[("zone", "cabin", "grade-warm-up", 16_000.0 * 2_f64.ln(), 1e-9)],
    );
    // A full tank beside it: 200 kg of things at 1,000 J/kgK, 50 l of water: 409.5 kJ/K.
    let tank = format!("{kitchen}\ntank fresh holds=fresh volume=\"50 l\" zone=cabin");
    assert_numbers(
        &van("output=\"1200 W\"", &tank),
        &[("zone", "cabin", "warm-up-likely", 409_500.0 / 20.0 * 2_f64.ln(), 1e-9)],
    );
}

#[test]
fn the_electricity_of_heating_is_that_of_what_runs_in_the_coldest_night() {
    // The heater runs half of the time with 30 W: 15 W; a pad of 60 W must give 26.7 W (1.5 m² of box with 25 mm of foam in the wind).
    let parts = "battery house chemistry=LFP voltage=\"12.8 V\" capacity=\"100 Ah\"\nlamp reading power=\"5 W\"\nbusbar bar rating=\"200 A\"\ncircuit main from=house to=bar { fuse rating=\"60 A\" class=T; wire size=\"16 mm2\" one-way=\"1 m\"; }\ncircuit air from=bar to=warm { fuse rating=\"10 A\" class=T; wire size=\"2.5 mm2\" one-way=\"2 m\"; }\ncircuit light from=bar to=reading { fuse rating=\"5 A\" class=T; wire size=\"1.5 mm2\" one-way=\"2 m\"; }\ncircuit pad from=bar to=pad { fuse rating=\"10 A\" class=T; wire size=\"2.5 mm2\" one-way=\"2 m\"; }\ntank fresh holds=fresh volume=\"70 l\" zone=underfloor size=\"1000 x 400 x 250 mm\" insulation=\"25 mm\"\nheater pad kind=tank-pad for=fresh power=\"60 W\" duty=\"6 h/d\"";
    let build = linked(&van("output=\"1200 W\" power=\"30 W\" duty=\"8 h/d\"", parts));
    let week = build.of_kind(vocabulary::kind::WEEK).members[0];
    let near = |name: &str, expected: f64| match ask(&build, week, name) {
        Ok(Fact::Number(value)) => assert!((value - expected).abs() < 1e-6 * expected, "{name}: {value}"),
        other => panic!("{name}: {other:?}"),
    };
    let watts = 15.0 + 26.666_666_666_666_666;
    near("heating-a-night", watts * 12.0 * WATT_HOUR);
    near("heating-a-week", watts * 7.0 * 24.0 * WATT_HOUR);
    // As the week is told: 8 h of 30 W and 6 h of 60 W.
    near("heating-counted", 600.0 * WATT_HOUR);
    assert!(steps(&build, week, "heating-a-night").contains("30 W × 50 % of the time"));
    assert_numbers(
        &van("output=\"1200 W\" power=\"30 W\" duty=\"8 h/d\"", parts),
        &[
            ("heater", "pad", "pad-duty", 26.666_666_666_666_666 / 60.0, 1e-9),
            ("heater", "warm", "needed-duty", 0.5, 1e-9),
        ],
    );
}

#[test]
fn a_pump_sucks_height_hose_and_strainer() {
    // 10 l/min through 11 mm: 10,232 Pa in a metre with four elbows (Swamee and Jain); 2 kPa of strainer; 0.5 m of water 4,902 Pa.
    let line = "tank fresh holds=fresh volume=\"40 l\" zone=cabin\nwater-line cold from=fresh { strainer; pipe size=\"15 mm\" wall=\"2 mm\" one-way=\"1 m\" zone=cabin; pump \"water pump\" open-flow=\"10 l/min\" lift=\"0.5 m\" suction-limit=\"15 kPa\" zone=cabin; pipe size=\"10 mm\" wall=\"2 mm\" one-way=\"9 m\" zone=cabin; tap sink; }";
    assert_numbers(
        &van("output=\"2 kW\"", line),
        &[("pump", "water pump", "suction-loss", 10_232.1 + 2_000.0 + 4_901.9, 1e-4)],
    );
}

#[test]
fn a_pipe_in_an_outer_wall_is_as_cold_as_the_night() {
    let line = |wall: &str| {
        van(
            "output=\"2 kW\"",
            &format!(
                "water-line cold {{ pipe size=\"15 mm\" wall=\"2 mm\" one-way=\"1 m\" zone=cabin{wall}; tap sink; }}"
            ),
        )
    };
    for (wall, meets) in [("", false), (" in-outer-wall=no", false), (" in-outer-wall=yes", true)] {
        let build = linked(&line(wall));
        assert_eq!(flag(&build, part(&build, "pipe", "pipe:1"), "meets-frost"), meets, "{wall}");
    }
    // Bare it freezes as below the floor: 0.35 h.
    assert_numbers(&line(" in-outer-wall=yes"), &[("pipe", "pipe:1", "freezes-after", 0.35 * HOUR, 0.02)]);
}

#[test]
fn a_battery_beside_its_inverter_warms_the_locker_too() {
    // 1,000 W at 90 % from 25.6 V: 43.4 A through 10 mΩ give 18.84 W beside the 111.1 W of the inverter.
    let locker = "zone locker kind=battery inside=cabin size=\"700 x 500 x 400 mm\" ambient=\"60 degC\"\nbattery house chemistry=LFP voltage=\"25.6 V\" capacity=\"200 Ah\" internal-resistance=\"10 mohm\" zone=locker\ncircuit feed from=house to=bench { fuse rating=\"125 A\" class=T; wire size=\"35 mm2\" one-way=\"1 m\"; }\ninverter bench power=\"2000 VA\" efficiency=\"90 %\" long-load=\"1000 W\" voltage=\"230 V\" zone=locker";
    let heat = 1_000.0 * (1.0 / 0.9 - 1.0) + (1_000.0_f64 / 0.9 / 25.6).powi(2) * 0.01;
    assert_numbers(
        &van("output=\"2 kW\"", locker),
        // Walls alone: 1.66 m² with 2.5 W/m²K.
        &[
            ("zone", "locker", "device-heat", heat, 1e-9),
            ("zone", "locker", "air-inside", ZERO + 35.0 + heat / 4.15, 1e-6),
        ],
    );
}
