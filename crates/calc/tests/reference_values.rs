//! Values of well-known libraries: `reference/make_reference.py` makes them (versions in `reference/requirements.txt`) and writes
//! `reference/reference.csv`, which is read here.

// The helpers below stand outside a test function, where the lint does not see that they serve tests.
#![allow(clippy::expect_used)]

use calc::{
    Branch, ConductorSize, Network, Source, Stranding, bar_sharing, constant_power_current, ladder_sharing,
    loop_resistance, resistance_per_metre,
};

const REFERENCE: &str = include_str!("reference/reference.csv");

#[track_caller]
fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} against {expected}");
}

fn numbers(text: &str) -> Vec<f64> {
    text.split(' ').map(|number| number.parse().expect("the script writes numbers")).collect()
}

/// The rows of a kind: inputs and outputs.
fn rows(kind: &str, at_least: usize) -> Vec<(Vec<f64>, Vec<f64>)> {
    let found: Vec<_> = REFERENCE
        .lines()
        .filter_map(|line| {
            let (word, numbers_of_row) = line.split_once(',')?;
            let (inputs, outputs) = numbers_of_row.split_once(',')?;
            (word == kind).then(|| (numbers(inputs), numbers(outputs)))
        })
        .collect();
    assert!(found.len() >= at_least, "{} rows of {kind}", found.len());
    found
}

/// pandapower 3.5.6: the load's voltage, current and loss behind a cord of mm², Ω/km, m, with V and W. It reckons 0.08 Ω/km of reactance,
/// which moves the voltage by less than 0.01 %.
#[test]
fn load_behind_a_cord() {
    for (inputs, outputs) in rows("cord", 3) {
        let [mm2, ohm_per_km, metres, volts, watts] = inputs[..] else { panic!("five inputs") };
        let conductor = resistance_per_metre(ConductorSize::Area(mm2 * 1e-6), Stranding::Flexible);
        close(conductor.ohm_per_metre_20c * 1e3, ohm_per_km, 1e-12);
        let ohms = loop_resistance(conductor.ohm_per_metre_20c, 2.0 * metres, 293.15);
        let amperes = constant_power_current(watts, volts, ohms).expect("the cord carries the load");
        close(volts - amperes * ohms, outputs[0], 1e-4);
        close(amperes, outputs[1], 1e-4);
        close(amperes * amperes * ohms, outputs[2], 2e-4);
    }
}

/// scipy 1.17.1, brentq: the current of a constant power W behind V and Ω.
#[test]
fn constant_power_by_root_search() {
    for (inputs, outputs) in rows("constant_power", 5) {
        let [watts, volts, ohms] = inputs[..] else { panic!("three inputs") };
        close(constant_power_current(watts, volts, ohms).expect("it passes"), outputs[0], 1e-10);
    }
}

/// numpy 2.4.6, linear equations of Kirchhoff's laws for a ladder: batteries, Ω of one, Ω of a pair of links, A of the load.
#[test]
fn ladder_of_batteries() {
    for (inputs, outputs) in rows("ladder", 4) {
        let [batteries, internal, link, total] = inputs[..] else { panic!("four inputs") };
        let found = ladder_sharing(batteries as u32, internal, link, total).expect("usable numbers");
        assert_eq!(found.len(), outputs.len());
        for (share, expected) in found.iter().zip(outputs) {
            close(*share, expected, 1e-9);
        }
    }
}

/// The same with all batteries on one bar: Ω of one, A of the load, Ω of each battery's leads.
#[test]
fn batteries_on_a_bar() {
    for (inputs, outputs) in rows("bar", 2) {
        let [internal, total, leads @ ..] = &inputs[..] else { panic!("two inputs and the leads") };
        let found = bar_sharing(*internal, leads, *total).expect("usable numbers");
        assert_eq!(found.len(), outputs.len());
        for (share, expected) in found.iter().zip(outputs) {
            close(*share, expected, 1e-9);
        }
    }
}

/// A ladder with its load shorted is a fault network: the module of networks gives the same sharing.
#[test]
fn ladder_by_the_network_module() {
    let (internal, link, lead, volts) = (3e-3, 0.2e-3, 0.5e-3, 12.8);
    let branches = (1..4).map(|n| Branch { from: n, to: n + 1, ohms: link, tag: 0 });
    let lead = Branch { from: 0, to: 1, ohms: lead, tag: 0 };
    let sources = (1..=4).map(|node| Source { node, volts, ohms: internal, limit: None }).collect();
    let fault = Network { branches: branches.chain([lead]).collect(), sources }.largest_fault_current(0, None);
    let shared = ladder_sharing(4, internal, link, fault.amperes).expect("usable numbers");
    // The first battery stands at the voltage over the lead to the short.
    let at_first = fault.amperes * 0.5e-3;
    close(shared[0], (volts - at_first) / internal, 1e-9);
}

/// numpy 2.4.6, nodal equations of random meshes in which every battery gives current: branches and sources, A at the shorted node 0.
#[test]
fn meshes_by_nodal_equations() {
    for (inputs, outputs) in rows("mesh", 40) {
        let (branches, sources) = inputs[1..].split_at(3 * inputs[0] as usize);
        let branches = branches
            .chunks_exact(3)
            .map(|part| Branch { from: part[0] as u32, to: part[1] as u32, ohms: part[2], tag: 0 })
            .collect();
        let sources = sources
            .chunks_exact(3)
            .map(|part| Source { node: part[0] as u32, volts: part[1], ohms: part[2], limit: None })
            .collect();
        close(Network { branches, sources }.largest_fault_current(0, None).amperes, outputs[0], 1e-9);
    }
}
