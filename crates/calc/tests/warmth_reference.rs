//! Ducts of warm air and warm compartments against well-known libraries: `reference/make_warmth_reference.py` writes
//! `reference/warmth_reference.json`, which holds the versions too.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::heat::{self, Blower, Compartment, Derating, DuctPath};

#[track_caller]
fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} against {expected}");
}

/// Inputs and outputs of each case of a kind.
fn cases(kind: &str, at_least: usize) -> Vec<(Vec<f64>, Vec<f64>)> {
    let all: serde_json::Value =
        serde_json::from_str(include_str!("reference/warmth_reference.json")).expect("the script writes JSON");
    let numbers = |list: &serde_json::Value| -> Vec<f64> {
        list.as_array().expect("a list").iter().map(|number| number.as_f64().expect("a number")).collect()
    };
    let found: Vec<_> = all["cases"][kind]
        .as_array()
        .expect("the kind is there")
        .iter()
        .map(|case| (numbers(&case["in"]), numbers(&case["out"])))
        .collect();
    assert!(found.len() >= at_least, "{} cases of {kind}", found.len());
    found
}

/// fluids 1.3.1 and scipy 1.17.1: the flow of a blower through its ducts, and how these share it.
#[test]
fn blowers_against_their_ducts() {
    for (inputs, outputs) in cases("blower", 4) {
        let [open_flow, shut_off, numbers @ ..] = &inputs[..] else { panic!("a blower") };
        let paths: Vec<_> = numbers
            .chunks_exact(4)
            .map(|duct| DuctPath { diameter: duct[0], length: duct[1], friction: duct[2], losses: duct[3] })
            .collect();
        let resistance = heat::parallel_resistance(&paths, 1.2).unwrap();
        let blower = Blower { open_flow: *open_flow, shut_off: *shut_off };
        close(heat::blower_flow(&blower, resistance).unwrap(), outputs[0], 1e-9);
        for (share, expected) in heat::duct_flow_shares(&paths).unwrap().iter().zip(&outputs[1..]) {
            close(*share, *expected, 1e-9);
        }
    }
}

/// scipy 1.17.1, solve_ivp: the heat that air loses along a duct.
#[test]
fn air_along_a_duct() {
    for (inputs, outputs) in cases("duct", 3) {
        let [diameter, insulation, conductivity, film, inlet, around, length, flow] = inputs[..] else {
            panic!("eight inputs")
        };
        let loss = heat::duct_loss_per_kelvin_metre(diameter, insulation, conductivity, film).unwrap();
        close(loss, outputs[0], 1e-12);
        close(heat::duct_outlet_temperature(inlet, around, loss, length, flow).unwrap(), outputs[1], 1e-8);
    }
}

/// scipy 1.17.1, brentq in brentq: what an inverter settles at in the warmth that it makes itself.
#[test]
fn inverters_in_their_own_warmth() {
    let mut less = 0;
    for (inputs, outputs) in cases("settled", 4) {
        let [full, beside, asked, wall_loss, opening, height, surroundings, full_until, low_share, low_at] = inputs[..]
        else {
            panic!("ten inputs")
        };
        let compartment = Compartment { wall_loss, opening, height, surroundings };
        let derating = Derating { full_until, low_share, low_at };
        let found = heat::settled_share(&compartment, full, beside, asked, &derating).unwrap().unwrap();
        close(found.share, outputs[0], 1e-7);
        close(found.temperature, outputs[1], 1e-7);
        less += usize::from(found.share < asked);
    }
    assert!(less >= 2, "{less} give less than is asked");
}

/// Above its last point a device gives nothing: it goes on and off at that temperature.
#[test]
fn a_device_that_switches_off_gives_what_holds_it_there() {
    let compartment = Compartment { wall_loss: 2.0, opening: 0.0, height: 0.3, surroundings: 313.15 };
    let derating = Derating { full_until: 318.15, low_share: 0.9, low_at: 323.15 };
    let found = heat::settled_share(&compartment, 200.0, 0.0, 1.0, &derating).unwrap().unwrap();
    // 10 K above its surroundings with 2 W/K: 20 W of 200 W.
    close(found.share, 0.1, 1e-9);
    close(found.temperature, 323.15, 1e-9);
}

#[test]
fn what_cannot_be_used_is_refused_and_heat_without_a_way_out_has_no_answer() {
    let derating = Derating { full_until: 313.15, low_share: 0.5, low_at: 333.15 };
    let tight = Compartment { wall_loss: 0.0, opening: 0.01, height: 0.0, surroundings: 300.0 };
    assert_eq!(heat::settled_share(&tight, 100.0, 0.0, 1.0, &derating), Ok(None));
    assert_eq!(heat::settled_share(&tight, 0.0, 5.0, 1.0, &derating), Ok(None));
    let walls = Compartment { wall_loss: 2.0, ..tight };
    assert!(heat::settled_share(&walls, 100.0, 0.0, 1.1, &derating).is_err());
    assert!(heat::settled_share(&walls, -1.0, 0.0, 1.0, &derating).is_err());
    assert!(heat::settled_share(&walls, 100.0, f64::NAN, 1.0, &derating).is_err());
    let backwards = Derating { low_at: 300.0, ..derating };
    assert!(heat::settled_share(&walls, 100.0, 0.0, 1.0, &backwards).is_err());
    let blower = Blower { open_flow: 0.02, shut_off: 150.0 };
    close(heat::blower_flow(&blower, 0.0).unwrap(), 0.02, 1e-12);
    assert!(heat::blower_flow(&Blower { open_flow: 0.0, ..blower }, 1.0).is_err());
    assert!(heat::blower_flow(&Blower { shut_off: 0.0, ..blower }, 1.0).is_err());
    assert!(heat::blower_flow(&blower, -1.0).is_err());
    assert!(heat::parallel_resistance(&[], 1.2).is_err());
}
