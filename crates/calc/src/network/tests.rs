//! Reckoning by islands and without their twigs against reckoning with the whole network at once.

use super::graph::Graph;
use super::island::Question;
use super::{Branch, Network, Source};

/// A small generator of repeatable numbers (a linear congruence with the constants of Knuth's MMIX).
struct Numbers(u64);

impl Numbers {
    fn next(&mut self, below: u32) -> u32 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % u64::from(below)) as u32
    }

    /// A resistance of a wire, a joint, an open branch or no number.
    fn branch_ohms(&mut self) -> f64 {
        match self.next(12) {
            0 | 1 => 0.0,
            2 => f64::INFINITY,
            3 => f64::NAN,
            _ => 1e-3 * f64::from(1 + self.next(500)),
        }
    }

    fn source(&mut self, nodes: u32) -> Source {
        Source {
            node: self.next(nodes),
            volts: if self.next(20) == 0 { f64::NAN } else { 10.0 + f64::from(self.next(20)) },
            ohms: 1e-3 * f64::from(self.next(50)),
            limit: (self.next(3) == 0).then(|| f64::from(self.next(60))),
        }
    }
}

/// On random networks of a few islands every answer is, to the last bit, that of the whole network reckoned at once.
#[test]
fn islands_give_what_the_whole_network_gives() {
    let mut numbers = Numbers(42);
    let (mut several_islands, mut with_current) = (0, 0);
    for _ in 0..600 {
        let nodes = 2 + numbers.next(14);
        // From a few branches, which leave islands and twigs, to a dense mesh.
        let branches: Vec<Branch> = (0..numbers.next(2 * nodes))
            .map(|_| Branch {
                from: numbers.next(nodes),
                to: numbers.next(nodes),
                ohms: numbers.branch_ohms(),
                tag: numbers.next(6),
            })
            .collect();
        let sources: Vec<Source> = (0..numbers.next(6)).map(|_| numbers.source(nodes)).collect();
        let network = Network { branches, sources };
        let indices: Vec<usize> = (0..network.sources.len()).collect();
        let whole = Question { graph: Graph::new(&network), sources: &network.sources, indices: &indices };
        let by_islands = network.prepared();
        several_islands += usize::from(by_islands.islands.len() > 1);
        // One node more than there are.
        for node in 0..=nodes {
            for without in [None, Some(numbers.next(7))] {
                let (one, other) = (by_islands.largest_fault_current(node, without), whole.answer(node, without));
                // No number is equal to itself only when written out.
                assert_eq!(format!("{one:?}"), format!("{other:?}"), "node {node} without {without:?} of {network:?}");
                with_current += usize::from(one.amperes > 0.0);
            }
        }
    }
    assert!(several_islands > 200 && with_current > 1_000, "{several_islands}, {with_current}");
}

/// A chain of joints at a battery, with a second battery apart: the joints are one node, and the other island adds nothing.
#[test]
fn joints_and_islands_apart() {
    let mut branches: Vec<Branch> = (0..50).rev().map(|n| Branch { from: n, to: n + 1, ohms: 0.0, tag: n }).collect();
    branches.push(Branch { from: 100, to: 101, ohms: 1e-3, tag: 100 });
    let battery = |node| Source { node, volts: 12.0, ohms: 3e-3, limit: None };
    let network = Network { branches, sources: vec![battery(50), battery(100)] }.prepared();
    let near = network.largest_fault_current(0, None);
    assert_eq!(near.contributions.iter().map(|found| found.0).collect::<Vec<_>>(), [0]);
    assert!((near.amperes - 4_000.0).abs() < 1e-6);
    let apart = network.largest_fault_current(101, None);
    assert_eq!(apart.contributions.iter().map(|found| found.0).collect::<Vec<_>>(), [1]);
    assert!((apart.amperes - 3_000.0).abs() < 1e-6);
    assert_eq!(network.largest_fault_current(0, Some(20)).amperes, 0.0);
}
