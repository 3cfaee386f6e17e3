//! Fault current: published and worked examples, hand-solved networks, and comparison with plain nodal equations.

use calc::{
    Branch, ConductorSize, Network, Source, Stranding, loop_resistance, resistance_per_metre, short_circuit_current,
    two_point_resistance, two_point_short_circuit,
};

#[track_caller]
fn close(value: f64, expected: f64, relative: f64) {
    assert!((value - expected).abs() <= relative * expected.abs(), "{value} against {expected}");
}

fn branch(from: u32, to: u32, ohms: f64) -> Branch {
    Branch { from, to, ohms, tag: from * 100 + to }
}

fn source(node: u32, volts: f64, ohms: f64) -> Source {
    Source { node, volts, ohms, limit: None }
}

/// Worked example: LFP, four cells of 0.25 mΩ and 1 mΩ of links, 13.6 V; 3 m loop of 50 mm² at 20 °C; three such packs in parallel.
#[test]
fn lithium_bank() {
    let cable = resistance_per_metre(ConductorSize::Area(50e-6), Stranding::Flexible).ohm_per_metre_20c;
    let ohms = loop_resistance(cable, 3.0, 293.15);
    let one = Network { branches: vec![branch(1, 2, ohms)], sources: vec![source(1, 13.6, 2e-3)] };
    close(one.largest_fault_current(1, None).amperes, 6_800.0, 0.01);
    close(one.largest_fault_current(2, None).amperes, 4_310.0, 0.01);
    let three = Network { branches: vec![branch(1, 2, ohms)], sources: vec![source(1, 13.6, 2e-3); 3] };
    let fault = three.largest_fault_current(1, None);
    close(fault.amperes, 20_400.0, 0.01);
    assert_eq!(fault.contributions.len(), 3);
}

/// Published: 60 Ah cell 3.5 V and 0.75 mΩ gives 4,667 A; four cells with three jumpers 14 V and 3.75 mΩ (3,733 A).
#[test]
fn published_cell_and_pack() {
    close(short_circuit_current(3.5, 0.75e-3), 4_667.0, 1e-3);
    close(short_circuit_current(14.0, 3.75e-3), 3_733.0, 1e-3);
}

/// IEC 60896-21 two-point method, worked: 12.0 V at 40 A, 10.8 V at 200 A gives 7.5 mΩ and 1,640 A.
#[test]
fn two_point_method() {
    close(two_point_resistance(12.0, 40.0, 10.8, 200.0).expect("a falling voltage"), 7.5e-3, 1e-9);
    close(two_point_short_circuit(12.0, 40.0, 10.8, 200.0).expect("a falling voltage"), 1_640.0, 1e-9);
    assert_eq!(two_point_resistance(10.8, 40.0, 12.0, 200.0), None);
    assert_eq!(two_point_short_circuit(12.0, 40.0, 12.0, 200.0), None);
}

/// Worked example: 12 V, 3 mΩ, 0.75 mm² 12 m one way at 70 °C gives 16.0 A; 2.5 mm² 10 m gives 61.9 A.
#[test]
fn long_thin_runs() {
    for (mm2, loop_metres, amperes) in [(0.75, 24.0, 16.0), (2.5, 20.0, 61.9)] {
        let wire = resistance_per_metre(ConductorSize::Area(mm2 * 1e-6), Stranding::Flexible).ohm_per_metre_20c;
        let ohms = loop_resistance(wire, loop_metres, 343.15);
        let network = Network { branches: vec![branch(7, 9, ohms)], sources: vec![source(7, 12.0, 3e-3)] };
        close(network.largest_fault_current(9, None).amperes, amperes, 0.005);
    }
}

/// A bridge of 1, 2, 2, 1 Ω with 1 Ω across, solved by hand: 7/5 Ω; with 1 Ω inside, 10 V drive 10/2.4 A. The best single path
/// (3 Ω) would give 2.5 A only.
#[test]
fn meshed_network_solved_by_hand() {
    let network = Network {
        branches: vec![branch(1, 2, 1.0), branch(1, 3, 2.0), branch(2, 3, 1.0), branch(2, 4, 2.0), branch(3, 4, 1.0)],
        sources: vec![source(1, 10.0, 1.0)],
    };
    let fault = network.largest_fault_current(4, None);
    close(fault.amperes, 10.0 / 2.4, 1e-12);
    assert_eq!(fault.contributions.len(), 1);
    close(fault.contributions[0].2, 2.4, 1e-12);
    // Without the branch across: 1 + 2 beside 2 + 1, 1.5 Ω.
    close(network.largest_fault_current(4, Some(203)).amperes, 10.0 / 2.5, 1e-12);
}

#[test]
fn sources_that_share_a_feeder() {
    let equal = Network { branches: vec![branch(1, 2, 5e-3)], sources: vec![source(1, 12.0, 10e-3); 2] };
    let fault = equal.largest_fault_current(2, None);
    close(fault.amperes, 1_200.0, 1e-12);
    for (_, amperes, ohms) in fault.contributions {
        close(amperes, 600.0, 1e-12);
        close(ohms, 20e-3, 1e-12);
    }
    // 14 V beside 12 V, 10 mΩ each, feeder 90 mΩ: the flat one would take current in (13/95 mΩ = 137 A); switched off, it is 140 A.
    let unequal =
        Network { branches: vec![branch(1, 2, 90e-3)], sources: vec![source(1, 14.0, 10e-3), source(1, 12.0, 10e-3)] };
    let fault = unequal.largest_fault_current(2, None);
    close(fault.amperes, 140.0, 1e-12);
    assert_eq!(fault.contributions.iter().map(|c| c.0).collect::<Vec<_>>(), [0]);
}

#[test]
fn self_limited_sources_give_at_most_their_limit() {
    let charger = Source { node: 1, volts: 28.4, ohms: 1e-3, limit: Some(30.0) };
    let alone = Network { branches: vec![branch(1, 2, 92e-3)], sources: vec![charger] };
    close(alone.largest_fault_current(2, None).amperes, 30.0, 1e-12);
    // The stiff charger alone would hold the battery back; at its limit it cannot.
    let both = Network { branches: vec![branch(1, 2, 92e-3)], sources: vec![charger, source(1, 25.6, 8e-3)] };
    let fault = both.largest_fault_current(2, None);
    close(fault.amperes, 256.0 + 30.0, 1e-12);
    assert_eq!(fault.contributions.iter().map(|c| c.0).collect::<Vec<_>>(), [0, 1]);
    // Behind a long wire it cannot reach its limit.
    let far = Network { branches: vec![branch(1, 2, 1.0)], sources: vec![Source { ohms: 0.42, ..charger }] };
    close(far.largest_fault_current(2, None).amperes, 20.0, 1e-12);
    let off = Network { sources: vec![Source { limit: Some(0.0), ..charger }], ..Network::default() };
    assert_eq!(off.largest_fault_current(1, None).amperes, 0.0);
}

#[test]
fn joints_dead_ends_and_islands() {
    let network = Network {
        branches: vec![
            branch(1, 2, 0.0),
            branch(2, 3, 10e-3),
            branch(3, 4, 5.0),
            branch(2, 8, 1.0),
            branch(20, 21, 1.0),
        ],
        sources: vec![source(1, 12.0, 2e-3)],
    };
    close(network.largest_fault_current(2, None).amperes, 6_000.0, 1e-12);
    close(network.largest_fault_current(3, None).amperes, 1_000.0, 1e-12);
    for unreached in [20, 21, 77] {
        let fault = network.largest_fault_current(unreached, None);
        assert_eq!((fault.amperes, fault.contributions.len()), (0.0, 0), "node {unreached}");
    }
    let cut = network.largest_fault_current(3, Some(203));
    assert_eq!((cut.amperes, cut.contributions.len()), (0.0, 0));
    let open = Network { branches: vec![branch(1, 2, f64::INFINITY)], sources: vec![source(1, 12.0, 2e-3)] };
    assert_eq!(open.largest_fault_current(2, None).amperes, 0.0);
}

/// A small generator of repeatable numbers (a linear congruence with the constants of Knuth's MMIX).
struct Numbers(u64);

impl Numbers {
    fn next(&mut self, below: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % below
    }

    fn ohms(&mut self) -> f64 {
        1e-3 * (1 + self.next(500)) as f64
    }
}

/// Nodal equations by Gauss elimination with pivoting, as a textbook has them: the current into the shorted node 0 of nodes 0 to n − 1.
fn nodal(nodes: usize, branches: &[Branch], sources: &[&Source]) -> f64 {
    let mut table = vec![vec![0.0; nodes + 1]; nodes];
    for b in branches {
        let (from, to) = (b.from as usize, b.to as usize);
        table[from][from] += 1.0 / b.ohms;
        table[to][to] += 1.0 / b.ohms;
        table[from][to] -= 1.0 / b.ohms;
        table[to][from] -= 1.0 / b.ohms;
    }
    for s in sources {
        table[s.node as usize][s.node as usize] += 1.0 / s.ohms;
        table[s.node as usize][nodes] += s.volts / s.ohms;
    }
    table[0] = vec![0.0; nodes + 1];
    table[0][0] = 1.0;
    for step in 0..nodes {
        let mut best = step;
        for row in step..nodes {
            if table[row][step].abs() > table[best][step].abs() {
                best = row;
            }
        }
        table.swap(step, best);
        let pivot = table[step].clone();
        for row in (0..nodes).filter(|&row| row != step) {
            let share = table[row][step] / pivot[step];
            for (value, above) in table[row].iter_mut().zip(&pivot) {
                *value -= share * above;
            }
        }
    }
    let volts: Vec<f64> = (0..nodes).map(|row| table[row][nodes] / table[row][row]).collect();
    let through_branches: f64 = branches
        .iter()
        .filter(|b| (b.from == 0) != (b.to == 0))
        .map(|b| volts[b.from.max(b.to) as usize] / b.ohms)
        .sum();
    let at_the_fault: f64 = sources.iter().filter(|s| s.node == 0).map(|s| s.volts / s.ohms).sum();
    through_branches + at_the_fault
}

/// On random meshed networks the result is the largest that any set of connected sources gives by nodal equations.
#[test]
fn random_meshes_against_nodal_equations() {
    let mut numbers = Numbers(20_260_314);
    for _ in 0..300 {
        let nodes = 3 + numbers.next(6) as u32;
        let mut branches: Vec<Branch> =
            (1..nodes).map(|node| branch(numbers.next(u64::from(node)) as u32, node, numbers.ohms())).collect();
        for _ in 0..numbers.next(8) {
            let (from, to) = (numbers.next(u64::from(nodes)) as u32, numbers.next(u64::from(nodes)) as u32);
            if from != to {
                branches.push(branch(from, to, numbers.ohms()));
            }
        }
        let sources: Vec<Source> = (0..1 + numbers.next(4))
            .map(|_| source(numbers.next(u64::from(nodes)) as u32, 10.0 + numbers.next(20) as f64, numbers.ohms()))
            .collect();
        let largest = (1..1_u32 << sources.len())
            .map(|set| {
                let connected: Vec<&Source> =
                    sources.iter().enumerate().filter(|&(i, _)| set >> i & 1 == 1).map(|(_, s)| s).collect();
                nodal(nodes as usize, &branches, &connected)
            })
            .fold(0.0, f64::max);
        let network = Network { branches, sources };
        let fault = network.largest_fault_current(0, None);
        close(fault.amperes, largest, 1e-9);
        for (_, amperes, ohms) in fault.contributions {
            assert!(amperes >= 0.0 && ohms > 0.0);
        }
    }
}

/// A battery and a charger with a current limit at one end of a feeder, the true current by hand: the charger is a resistive source below
/// its limit and a current source at it. The result is never lower, and never above both alone.
#[test]
fn limited_sources_are_never_reckoned_too_low() {
    let mut numbers = Numbers(7);
    let (mut at_limit, mut within) = (0, 0);
    for _ in 0..500 {
        let (feeder, battery_ohms, charger_ohms) = (numbers.ohms(), numbers.ohms(), numbers.ohms());
        let volts = 20.0 + numbers.next(10) as f64;
        let limit = 1.0 + numbers.next(120) as f64;
        let charger = Source { node: 1, volts: 30.0, ohms: charger_ohms, limit: Some(limit) };
        let network =
            Network { branches: vec![branch(1, 0, feeder)], sources: vec![source(1, volts, battery_ohms), charger] };

        let siemens = 1.0 / feeder + 1.0 / battery_ohms;
        let node_volts = (volts / battery_ohms + 30.0 / charger_ohms) / (siemens + 1.0 / charger_ohms);
        let truth = if (30.0 - node_volts) / charger_ohms <= limit {
            within += 1;
            node_volts / feeder
        } else {
            at_limit += 1;
            (volts / battery_ohms + limit) / siemens / feeder
        };
        let bound = network.largest_fault_current(0, None).amperes;
        assert!(bound >= truth * (1.0 - 1e-12), "{bound} against {truth}");
        let both_alone = volts / (battery_ohms + feeder) + limit.min(30.0 / (charger_ohms + feeder));
        assert!(bound <= both_alone * (1.0 + 1e-12), "{bound} above {both_alone}");
    }
    assert!(at_limit > 50 && within > 50, "both cases occur: {at_limit}, {within}");
}
