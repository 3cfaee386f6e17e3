//! Solved networks against well-known libraries: `reference/make_networks.py` makes `reference/networks.json`, which is read here.

#![allow(clippy::expect_used, clippy::panic)]

use calc::nodal::{Load, Network, NodeState, Part, Standing};
use serde_json::Value;

const REFERENCE: &str = include_str!("reference/networks.json");
/// Both sides solve the same equations, so only rounding may part them.
const TOLERANCE: f64 = 1e-9;

fn number(value: &Value) -> f64 {
    value.as_f64().expect("the script writes numbers")
}

fn network(elements: &[Value]) -> (Network, Vec<usize>) {
    let mut network = Network { reference: Some(0), ..Network::default() };
    let mut sources = Vec::new();
    for element in elements {
        let node = |place: usize| element[place].as_u64().expect("a node") as u32;
        let value = number(&element[3]);
        let load = |load| Part::Load { load, least_volts: 0.0 };
        let part = match element[0].as_str().expect("a word") {
            "conductor" => Part::Conductor { ohms: value },
            "source" => Part::Source { volts: value, ohms: number(&element[4]), limit: None, gives_only: false },
            "resistance" => load(Load::Resistance(value)),
            "current" => load(Load::Current(value)),
            "power" => load(Load::Power(value)),
            other => panic!("{other} is not known"),
        };
        let place = network.add(node(1), node(2), part);
        if matches!(part, Part::Source { .. }) {
            sources.push(place);
        }
    }
    (network, sources)
}

#[test]
fn solved_networks_agree() {
    let reference: Value = serde_json::from_str(REFERENCE).expect("the script writes JSON");
    let cases = reference["cases"].as_array().expect("cases");
    assert!(cases.len() >= 19, "{} cases", cases.len());
    for case in cases {
        let name = case["name"].as_str().expect("a name");
        let tolerance = case.get("tolerance").map_or(TOLERANCE, number);
        let (network, sources) = network(case["elements"].as_array().expect("elements"));
        let solution = network.solve().expect("it settles");
        for (node, expected) in case["volts"].as_array().expect("volts").iter().map(number).enumerate() {
            let Some((_, NodeState::Live(found))) = solution.nodes().iter().find(|(id, _)| *id == node as u32) else {
                panic!("{name}: node {node} is not live");
            };
            assert!(
                (found - expected).abs() <= tolerance * expected.abs().max(1.0),
                "{name}: node {node} {found} {expected}"
            );
        }
        let given = case["source_amperes"].as_array().expect("amperes").iter().map(number);
        for (place, expected) in sources.into_iter().zip(given) {
            let found = -solution.element(place).expect("it is there").amperes;
            assert!((found - expected).abs() <= 1e-8 * expected.abs().max(1.0), "{name}: source {found} {expected}");
        }
        assert!(solution.elements().iter().all(|one| one.standing == Standing::Normal), "{name}");
    }
}
