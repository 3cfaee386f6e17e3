//! The solved network: laws that every solution keeps, and what is told of parts that do not run.

#![allow(clippy::expect_used, clippy::panic)]

use calc::nodal::{
    ElementState, InputFault, Load, Network, NodeState, ParallelBattery, Part, Solution, SolveError, Standing,
    battery_sharing, largest_fault, smallest_fault,
};

fn conductor(ohms: f64) -> Part {
    Part::Conductor { ohms }
}

fn battery(volts: f64, ohms: f64) -> Part {
    Part::Source { volts, ohms, limit: None, gives_only: false }
}

fn charger(volts: f64, ohms: f64, limit: f64) -> Part {
    Part::Source { volts, ohms, limit: Some(limit), gives_only: true }
}

fn load(load: Load) -> Part {
    Part::Load { load, least_volts: 0.0 }
}

fn solved(network: &Network) -> Solution {
    network.solve().expect("it settles")
}

fn state(solution: &Solution, place: usize) -> ElementState {
    *solution.element(place).expect("it is there")
}

#[track_caller]
fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} against {expected}");
}

/// Numbers that look random and are the same every time (xorshift).
struct Dice(u64);

impl Dice {
    fn below(&mut self, bound: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) % bound
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * (self.below(1 << 40) as f64 / (1_u64 << 40) as f64)
    }
}

/// Kirchhoff's current law at each node, the balance of power, and no number that is none.
#[track_caller]
fn keeps_the_laws(network: &Network, solution: &Solution, name: &str) {
    for &(node, node_state) in solution.nodes() {
        let (mut sum, mut size) = (0.0, 0.0_f64);
        for (element, state) in network.elements.iter().zip(solution.elements()) {
            assert!(state.amperes.is_finite() && state.volts.is_finite(), "{name}: {element:?} {state:?}");
            if element.from != element.to {
                for (end, sign) in [(element.from, 1.0), (element.to, -1.0)] {
                    if end == node {
                        sum += sign * state.amperes;
                        size = size.max(state.amperes.abs());
                    }
                }
            }
        }
        if let NodeState::Live(volts) = node_state {
            assert!(volts.is_finite(), "{name}: node {node}");
        }
        assert!(sum.abs() <= 1e-7 * size + 3e-6, "{name}: node {node} has {sum} A of {size} A left");
    }
    let given = solution.source_watts(network);
    let taken = solution.load_watts(network) + solution.losses_watts(network);
    let size: f64 = solution.elements().iter().map(|one| one.watts().abs()).sum();
    assert!((given - taken).abs() <= 1e-7 * size + 1e-3, "{name}: {given} W given, {taken} W taken");
}

fn random_network(dice: &mut Dice) -> Network {
    let nodes = 1 + dice.below(25) as u32;
    let mut network = Network { reference: (dice.below(2) == 0).then_some(0), ..Network::default() };
    for _ in 0..1 + dice.below(60) {
        // A star or two among them.
        let from = if dice.below(4) == 0 { 0 } else { dice.below(u64::from(nodes)) as u32 };
        let to = dice.below(u64::from(nodes)) as u32;
        let least_volts = if dice.below(3) == 0 { dice.between(5.0, 12.0) } else { 0.0 };
        let part = match dice.below(14) {
            0 => Part::Open,
            1 => conductor(0.0),
            2 => battery(dice.between(0.0, 60.0), dice.between(0.0, 0.1)),
            3 => charger(dice.between(10.0, 30.0), dice.between(0.0, 0.05), dice.between(0.0, 40.0)),
            4 => Part::OneWay { forward_volts: dice.between(0.0, 0.7), ohms: dice.between(0.0, 0.01) },
            5 => Part::Load { load: Load::Resistance(dice.between(0.1, 50.0)), least_volts },
            6 => Part::Load { load: Load::Current(dice.between(0.0, 30.0)), least_volts },
            7 => Part::Load { load: Load::Power(dice.between(0.0, 2_000.0)), least_volts },
            8 => conductor(10_f64.powf(dice.between(-9.0, 8.0))),
            _ => conductor(dice.between(1e-4, 0.1)),
        };
        network.add(from, to, part);
    }
    network
}

#[test]
fn random_networks_keep_the_laws() {
    let mut dice = Dice(20_261_125);
    let mut unsettled = 0;
    for number in 0..1_000 {
        let network = random_network(&mut dice);
        match network.solve() {
            Ok(solution) => keeps_the_laws(&network, &solution, &format!("network {number}")),
            Err(SolveError::NotSettled) => unsettled += 1,
            Err(other) => panic!("network {number}: {other:?}"),
        }
    }
    assert_eq!(unsettled, 0);
}

/// A linear network of nine nodes in a mesh, with batteries where asked.
fn mesh(batteries: [Option<f64>; 2]) -> Network {
    let mut network = Network { reference: Some(0), ..Network::default() };
    for (from, to, ohms) in
        [(0, 1, 0.02), (1, 2, 0.01), (2, 3, 0.05), (3, 4, 0.03), (4, 0, 0.5), (1, 3, 0.04), (2, 5, 0.1)]
    {
        network.add(from, to, conductor(ohms));
    }
    network.add(5, 0, load(Load::Resistance(1.5)));
    for (volts, node) in batteries.into_iter().zip([2, 4]) {
        network.add(node, 0, battery(volts.unwrap_or(0.0), 0.01));
    }
    network
}

#[test]
fn voltages_of_two_sources_add_up() {
    let [one, other, both] =
        [[Some(12.8), None], [None, Some(24.3)], [Some(12.8), Some(24.3)]].map(|batteries| solved(&mesh(batteries)));
    for node in 1..=5 {
        let sum = one.volts(node).expect("live") + other.volts(node).expect("live");
        close(both.volts(node).expect("live"), sum, 1e-12);
    }
}

/// A current drawn at one node lowers another by as much as the same current there lowers the first.
#[test]
fn transfer_is_mutual() {
    let fall = |drawn_at: u32, seen_at: u32| {
        let without = solved(&mesh([Some(12.8), None])).volts(seen_at).expect("live");
        let mut network = mesh([Some(12.8), None]);
        network.add(drawn_at, 0, load(Load::Current(3.0)));
        without - solved(&network).volts(seen_at).expect("live")
    };
    for (one, other) in [(1, 4), (5, 3), (2, 4)] {
        close(fall(one, other), fall(other, one), 1e-9);
        assert!(fall(one, other) > 0.0);
    }
}

/// A power behind E and R has a solution up to E²/(4R), there at half the voltage.
#[test]
fn constant_power_up_to_the_most() {
    for (volts, ohms) in [(12.0, 0.01), (51.2, 0.35), (3.0, 1e-3)] {
        let most = volts * volts / (4.0 * ohms);
        for (share, runs) in
            [(0.5, true), (0.999, true), (1.0 - 1e-9, true), (1.0 + 1e-9, false), (1.001, false), (1e4, false)]
        {
            let mut network = Network::default();
            network.add(1, 0, battery(volts, ohms));
            let place = network.add(1, 0, load(Load::Power(share * most)));
            let solution = solved(&network);
            keeps_the_laws(&network, &solution, &format!("{share} of {most} W"));
            let one = state(&solution, place);
            match one.standing {
                Standing::Normal => {
                    assert!(runs, "{share}");
                    close(one.watts(), share * most, 1e-9);
                    close(one.volts, volts * 0.5 * (1.0 + (1.0 - share).sqrt()), 1e-6);
                }
                Standing::TooLarge { largest_watts } => {
                    assert!(!runs, "{share}");
                    close(largest_watts, most, 1e-8);
                    assert_eq!(one.amperes, 0.0);
                }
                other => panic!("{share}: {other:?}"),
            }
        }
    }
}

/// Behind a strong source that only helps lower down, a load runs though the first source alone could not carry it.
#[test]
fn a_second_source_helps_at_lower_voltage() {
    let mut network = Network::default();
    network.add(1, 0, battery(14.0, 1.0));
    network.add(2, 0, battery(12.0, 0.01));
    let diode = network.add(2, 1, Part::OneWay { forward_volts: 0.0, ohms: 0.001 });
    let place = network.add(1, 0, load(Load::Power(600.0)));
    let solution = solved(&network);
    keeps_the_laws(&network, &solution, "helping source");
    close(state(&solution, place).watts(), 600.0, 1e-9);
    assert!(state(&solution, diode).amperes > 40.0);
}

/// The first loads of the list run; one that no longer fits is told what is left for it.
#[test]
fn the_first_powers_run() {
    let mut network = Network::default();
    network.add(1, 0, battery(12.0, 0.01));
    let first = network.add(1, 0, load(Load::Power(2_000.0)));
    let second = network.add(1, 0, load(Load::Power(3_000.0)));
    let third = network.add(1, 0, load(Load::Power(500.0)));
    let solution = solved(&network);
    assert_eq!(state(&solution, first).standing, Standing::Normal);
    assert_eq!(state(&solution, third).standing, Standing::Normal);
    // 12²/(4·0.01) = 3,600 W in all.
    match state(&solution, second).standing {
        Standing::TooLarge { largest_watts } => close(largest_watts, 3_600.0 - 2_500.0, 1e-7),
        other => panic!("{other:?}"),
    }
}

#[test]
fn loads_below_their_least_voltage() {
    // 12 V behind 0.1 Ω; the load would stand at these volts.
    for (kind, least_volts, volts, largest) in [
        (Load::Current(20.0), 10.5, 10.0, None),
        (Load::Resistance(0.5), 10.5, 10.0, None),
        // 10 V at 20 A; at 10.5 V it could have 15 A.
        (Load::Power(200.0), 10.5, 10.0, Some(157.5)),
        (Load::Current(200.0), 0.0, 0.0, None),
    ] {
        let mut network = Network::default();
        network.add(1, 0, battery(12.0, 0.1));
        let place = network.add(1, 0, Part::Load { load: kind, least_volts });
        let small = network.add(1, 0, Part::Load { load: Load::Current(0.0), least_volts: 10.5 });
        let solution = solved(&network);
        match state(&solution, place).standing {
            Standing::BelowLeastVoltage { volts: found, largest_watts } => {
                assert!((found - volts).abs() < 0.01, "{kind:?}: {found} V");
                match (largest_watts, largest) {
                    (Some(found), Some(expected)) => close(found, expected, 1e-8),
                    (None, None) => {}
                    other => panic!("{kind:?}: {other:?}"),
                }
            }
            other => panic!("{kind:?}: {other:?}"),
        }
        assert_eq!(state(&solution, small).standing, Standing::Normal, "{kind:?}");
        close(solution.volts(1).expect("live"), 12.0, 1e-9);
    }
}

#[test]
fn limits_and_blocking() {
    // A charger of 14.4 V and 30 A beside a battery of 12.6 V: the load of 50 A takes the limit and 20 A of the battery.
    let mut network = Network { reference: Some(0), ..Network::default() };
    let battery_place = network.add(1, 0, battery(12.6, 0.01));
    let charger_place = network.add(1, 0, charger(14.4, 0.005, 30.0));
    network.add(1, 0, load(Load::Current(50.0)));
    // A weaker charger gives nothing and takes nothing.
    let idle = network.add(1, 0, charger(12.0, 0.005, 30.0));
    let solution = solved(&network);
    keeps_the_laws(&network, &solution, "charger");
    close(state(&solution, battery_place).amperes, -20.0, 1e-8);
    close(state(&solution, charger_place).amperes, -30.0, 1e-12);
    assert_eq!(state(&solution, charger_place).standing, Standing::AtLimit);
    assert_eq!(state(&solution, idle).standing, Standing::Blocking);

    // A charger alone at its limit: the load that is above it finds no voltage.
    let mut network = Network::default();
    network.add(1, 0, charger(14.4, 0.005, 30.0));
    let place = network.add(1, 0, load(Load::Current(31.0)));
    assert!(matches!(state(&solved(&network), place).standing, Standing::BelowLeastVoltage { .. }));
    let mut network = Network::default();
    network.add(1, 0, charger(14.4, 0.005, 30.0));
    let place = network.add(1, 0, load(Load::Resistance(0.2)));
    close(state(&solved(&network), place).volts, 6.0, 1e-6);

    // A one-way element carries in its direction alone.
    for (from, to, runs) in [(1, 2, true), (2, 1, false)] {
        let mut network = Network::default();
        network.add(1, 0, battery(12.0, 0.01));
        let diode = network.add(from, to, Part::OneWay { forward_volts: 0.5, ohms: 0.0 });
        let place = network.add(2, 0, load(Load::Resistance(2.0)));
        let solution = solved(&network);
        if runs {
            close(state(&solution, place).volts, (12.0 - 0.5) * 2.0 / 2.01, 1e-5);
        } else {
            assert_eq!(state(&solution, diode).standing, Standing::Blocking);
            assert!(state(&solution, place).volts.abs() < 1e-6);
        }
    }
}

#[test]
fn dead_parts_say_so() {
    let mut network = Network { reference: Some(0), ..Network::default() };
    network.add(1, 0, battery(12.0, 0.01));
    let open = network.add(1, 2, Part::Open);
    let behind = network.add(2, 3, load(Load::Power(100.0)));
    // An island of its own.
    network.add(10, 11, conductor(0.1));
    let island = network.add(11, 12, load(Load::Current(4.0)));
    // A load whose return is not connected.
    let no_return = network.add(1, 20, load(Load::Current(4.0)));
    let no_return_power = network.add(1, 21, load(Load::Power(40.0)));
    let solution = solved(&network);
    keeps_the_laws(&network, &solution, "dead parts");
    for node in [2, 3, 10, 11, 12] {
        assert_eq!(solution.volts(node), None, "node {node}");
    }
    for place in [open, behind, island] {
        assert_eq!(state(&solution, place).standing, Standing::Dead);
        assert_eq!(state(&solution, place).amperes, 0.0);
    }
    for place in [no_return, no_return_power] {
        assert!(matches!(state(&solution, place).standing, Standing::BelowLeastVoltage { .. }), "{place}");
    }
    assert_eq!(solved(&Network::default()).nodes(), []);
}

#[test]
fn joints_carry_what_passes() {
    let mut network = Network { reference: Some(0), ..Network::default() };
    network.add(1, 0, battery(12.0, 0.1));
    let switch = network.add(1, 2, conductor(0.0));
    network.add(2, 0, load(Load::Current(7.0)));
    // Two joints side by side share alike.
    let [one, other] = [0, 1].map(|_| network.add(2, 3, conductor(0.0)));
    network.add(3, 0, load(Load::Current(4.0)));
    // A loop of joints, and one from a node to itself.
    network.add(4, 4, conductor(0.0));
    network.add(3, 4, conductor(0.0));
    let solution = solved(&network);
    keeps_the_laws(&network, &solution, "joints");
    close(state(&solution, switch).amperes, 11.0, 1e-12);
    close(state(&solution, one).amperes, 2.0, 1e-12);
    close(state(&solution, other).amperes, 2.0, 1e-12);
    close(solution.volts(4).expect("live"), 10.9, 1e-12);
    // A dead short of a battery is solved, not refused.
    let mut network = Network::default();
    let source = network.add(1, 0, battery(12.0, 0.004));
    let short = network.add(1, 0, conductor(0.0));
    let solution = solved(&network);
    close(state(&solution, short).amperes, 3_000.0, 1e-12);
    close(state(&solution, source).amperes, -3_000.0, 1e-12);
}

#[test]
fn numbers_that_cannot_be_used() {
    let source = |volts, ohms, limit| Part::Source { volts, ohms, limit, gives_only: false };
    for (part, quantity, fault) in [
        (conductor(f64::NAN), "ohms", InputFault::NotFinite),
        (conductor(-1.0), "ohms", InputFault::Negative),
        (conductor(1e10), "ohms", InputFault::TooLarge),
        (source(f64::INFINITY, 0.1, None), "volts", InputFault::NotFinite),
        (source(-12.0, 0.1, None), "volts", InputFault::Negative),
        (source(12.0, -0.1, None), "ohms", InputFault::Negative),
        (source(12.0, 0.1, Some(f64::NAN)), "limit", InputFault::NotFinite),
        (Part::OneWay { forward_volts: -0.1, ohms: 0.0 }, "forward_volts", InputFault::Negative),
        (load(Load::Resistance(0.0)), "ohms", InputFault::Zero),
        (load(Load::Current(-1.0)), "amperes", InputFault::Negative),
        (load(Load::Power(f64::NAN)), "watts", InputFault::NotFinite),
        (Part::Load { load: Load::Power(1.0), least_volts: f64::NAN }, "least_volts", InputFault::NotFinite),
    ] {
        let mut network = Network::default();
        network.add(1, 0, battery(12.0, 0.01));
        network.add(1, 0, part);
        assert_eq!(network.solve(), Err(SolveError::Input { element: 1, quantity, fault }), "{part:?}");
        assert_eq!(largest_fault(&network, 1, 0), Err(SolveError::Input { element: 1, quantity, fault }));
    }
}

#[test]
fn batteries_share_by_their_leads() {
    let one = |lead_ohms| ParallelBattery { volts: 12.8, internal_ohms: 0.003, lead_ohms };
    let leads = [0.2e-3, 0.6e-3, 1.0e-3, 1.4e-3];
    let shared = battery_sharing(&leads.map(one), Load::Current(400.0)).expect("usable").expect("it runs");
    let expected = calc::bar_sharing(0.003, &leads, 400.0).expect("usable");
    for (share, expected) in shared.iter().zip(&expected) {
        close(*share, *expected, 1e-9);
    }
    // A flat one is charged by the other: 0.6 V over 20 mΩ.
    let flat = ParallelBattery { volts: 12.2, ..one(0.007) };
    let shared = battery_sharing(&[one(0.007), flat], Load::Current(0.0)).expect("usable").expect("it runs");
    close(shared[0], 30.0, 1e-9);
    close(shared[1], -30.0, 1e-9);
    assert_eq!(battery_sharing(&[one(0.0)], Load::Power(20_000.0)), Ok(None));
    assert_eq!(battery_sharing(&[], Load::Current(1.0)), Ok(None));
}

/// The same faults by the star-mesh transform of `calc::network`, which shares no code with this one.
#[test]
fn largest_faults_agree_with_elimination() {
    let mut dice = Dice(7);
    for number in 0..200 {
        let nodes = 2 + dice.below(12) as u32;
        let mut solved = Network { reference: Some(0), ..Network::default() };
        let mut eliminated = calc::Network::default();
        for node in 2..=nodes {
            for _ in 0..1 + dice.below(2) {
                let (to, ohms) = (1 + dice.below(u64::from(node - 1)) as u32, dice.between(1e-3, 0.1));
                solved.add(node, to, conductor(ohms));
                eliminated.branches.push(calc::Branch { from: node, to, ohms, tag: 0 });
            }
        }
        for _ in 0..1 + dice.below(3) {
            let (node, volts, ohms) =
                (1 + dice.below(u64::from(nodes)) as u32, dice.between(12.0, 14.0), dice.between(2e-3, 0.02));
            solved.add(node, 0, battery(volts, ohms));
            eliminated.sources.push(calc::Source { node, volts, ohms, limit: None });
        }
        solved.add(1, 0, load(Load::Power(300.0)));
        let fault = largest_fault(&solved, nodes, 0).expect("it settles");
        let other = eliminated.largest_fault_current(nodes, None).amperes;
        assert!((fault.amperes - other).abs() <= 1e-6 * other, "network {number}: {} {other}", fault.amperes);
        close(fault.sources.iter().map(|source| source.1).sum(), fault.amperes, 1e-6);
    }
}

#[test]
fn smallest_fault_at_the_end_of_a_run() {
    let mut network = Network { reference: Some(0), ..Network::default() };
    let weak = network.add(1, 0, battery(11.8, 0.012));
    network.add(1, 0, charger(14.4, 0.01, 40.0));
    network.add(1, 2, conductor(0.09));
    network.add(2, 3, conductor(0.09));
    network.add(3, 0, conductor(0.0));
    network.add(1, 0, load(Load::Current(30.0)));
    // The return: node 3 stands for it.
    let fault = smallest_fault(&network, 2, 3, 0.01, &[weak]).expect("it settles");
    let expected = 11.8 / (0.012 + 0.09 + 1.0 / (1.0 / 0.09 + 1.0 / 0.01)) * (0.09 / 0.1);
    close(fault.amperes, expected, 1e-9);
    assert_eq!(smallest_fault(&network, 2, 3, 0.01, &[]).expect("it settles").amperes, 0.0);
    assert_eq!(largest_fault(&network, 77, 0).expect("it settles").amperes, 0.0);
    assert!(matches!(smallest_fault(&network, 2, 3, f64::NAN, &[weak]), Err(SolveError::Input { element: 6, .. })));
}
