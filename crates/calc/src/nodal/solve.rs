//! Solving a network: which loads run, and what is told of each part.

use super::input::{Load, Network, Part, SolveError};
use super::joints;
use super::laws::Law;
use super::newton::{Failure, settle};
use super::result::{ElementState, NodeState, Solution, Standing};
use super::system::{System, across};
use crate::disjoint::Sets;

/// So many loads are left off one by one, the worst first; then all that are too low at once. Chosen, to bound the work.
const ONE_BY_ONE: usize = 64;
/// Halvings when the largest power of a load is sought, and the share at which the search ends. Chosen.
const HALVINGS: usize = 80;
const POWER_FOUND: f64 = 1e-10;
/// A load at less than this share of the largest source voltage has none: rounding and leaks. Chosen.
const NO_VOLTAGE: f64 = 1e-6;
/// A voltage this much below the least one still counts as the least one: rounding. Chosen.
const SAME_VOLTAGE: f64 = 1e-9;

impl Network {
    /// Solves the network.
    ///
    /// # Errors
    /// A number that cannot be used, and a network whose numbers are so far apart that the iteration does not settle.
    pub fn solve(&self) -> Result<Solution, SolveError> {
        self.check()?;
        let mut attempt = Attempt::new(self);
        let volts = attempt.run().map_err(|_| SolveError::NotSettled)?;
        attempt.tell_largest(&volts);
        Ok(attempt.solution(&volts))
    }
}

/// A load of a live island.
struct LoadEdge {
    edge: usize,
    least_volts: f64,
    law: Law,
    standing: Standing,
}

struct Attempt<'n> {
    network: &'n Network,
    system: System,
    laws: Vec<Law>,
    loads: Vec<LoadEdge>,
    steps: usize,
}

impl<'n> Attempt<'n> {
    fn new(network: &'n Network) -> Self {
        let system = System::new(network);
        let (mut laws, mut loads) = (Vec::new(), Vec::new());
        for (edge, element) in system.edges.iter().filter_map(|&place| network.elements.get(place)).enumerate() {
            let law = Law::of(&element.part, system.scale);
            if let Part::Load { least_volts, .. } = element.part {
                loads.push(LoadEdge { edge, least_volts, law, standing: Standing::Normal });
            }
            laws.push(law);
        }
        let mut attempt = Self { network, system, laws, loads, steps: 0 };
        attempt.leave_off_without_way_back();
        attempt
    }

    /// A constant current or power between parts that nothing else joins has no way back, so it draws nothing.
    fn leave_off_without_way_back(&mut self) {
        let mut joined = Sets::new(self.system.ids.len());
        for (one, &[from, to]) in self.network.elements.iter().zip(&self.system.nodes_of) {
            let draws = matches!(one.part, Part::Load { load: Load::Current(_) | Load::Power(_), .. });
            if !draws && one.part != Part::Open {
                joined.join(from, to);
            }
        }
        for load in 0..self.loads.len() {
            let element = self.loads.get(load).and_then(|load| self.system.edges.get(load.edge));
            let nodes = element.and_then(|&element| self.system.nodes_of.get(element)).copied();
            if nodes.is_some_and(|[from, to]| joined.find(from) != joined.find(to)) {
                self.stands_off(load, Standing::BelowLeastVoltage { volts: 0.0, largest_watts: None });
            }
        }
    }

    fn set(&mut self, load: usize, law: Law) {
        if let Some(entry) = self.loads.get(load).and_then(|load| self.laws.get_mut(load.edge)) {
            *entry = law;
        }
    }

    fn settle(&mut self, start: Option<&[f64]>) -> Result<Vec<f64>, Failure> {
        settle(&mut self.system, &self.laws, start, &mut self.steps)
    }

    fn volts_of(&self, load: &LoadEdge, volts: &[f64]) -> f64 {
        self.system.ends.get(load.edge).map_or(0.0, |&ends| across(ends, volts))
    }

    fn stands_off(&mut self, load: usize, standing: Standing) {
        self.set(load, Law::Off);
        if let Some(entry) = self.loads.get_mut(load) {
            entry.standing = standing;
        }
    }

    fn run(&mut self) -> Result<Vec<f64>, Failure> {
        let powers: Vec<usize> = (0..self.loads.len())
            .filter(|&load| {
                let one = self.loads.get(load);
                one.is_some_and(|one| matches!(one.law, Law::Power(_)) && one.standing == Standing::Normal)
            })
            .collect();
        for &load in &powers {
            self.set(load, Law::Off);
        }
        // The voltages without constant powers: what every attempt with them starts from.
        let mut start = self.shed(None, None)?;
        let mut running = Vec::new();
        for load in powers {
            let Some(one) = self.loads.get(load) else { continue };
            let volts = self.volts_of(one, &start);
            if volts <= NO_VOLTAGE * self.system.scale || below(volts, one.least_volts) {
                self.stands_off(load, Standing::BelowLeastVoltage { volts, largest_watts: None });
            } else {
                running.push(load);
            }
        }
        if running.is_empty() {
            return Ok(start);
        }
        let mut fitted = self.fit(&running, &start)?;
        loop {
            let before = self.count_off();
            let volts = self.shed(Some(&start), fitted.take())?;
            if self.count_off() == before {
                return Ok(volts);
            }
            // A load that is left off changes where the others start from, so both are found again until none is.
            let with_powers = self.laws.clone();
            for load in 0..self.loads.len() {
                if self.loads.get(load).is_some_and(|load| matches!(load.law, Law::Power(_))) {
                    self.set(load, Law::Off);
                }
            }
            start = self.settle(Some(&start))?;
            self.laws = with_powers;
        }
    }

    fn count_off(&self) -> usize {
        self.loads.iter().filter(|load| load.standing != Standing::Normal).count()
    }

    /// Puts on as many of the constant powers as have a solution together, the first ones first; the voltages, where the last
    /// attempt was the one that stays.
    fn fit(&mut self, powers: &[usize], start: &[f64]) -> Result<Option<Vec<f64>>, Failure> {
        let mut rest = powers;
        while !rest.is_empty() {
            if let Some(volts) = self.fits(rest, start)? {
                return Ok(Some(volts));
            }
            // The longest part that fits; the load after it is the one that does not.
            let (mut fitting, mut failing) = (0, rest.len());
            while failing - fitting > 1 {
                let middle = fitting + (failing - fitting) / 2;
                let (head, tail) = rest.split_at(middle);
                for &load in tail {
                    self.set(load, Law::Off);
                }
                if self.fits(head, start)?.is_some() {
                    fitting = middle;
                } else {
                    failing = middle;
                }
            }
            let (head, tail) = rest.split_at(fitting);
            for &load in tail {
                self.set(load, Law::Off);
            }
            for &load in head {
                self.put_on(load);
            }
            let Some((&culprit, tail)) = tail.split_first() else { return Ok(None) };
            self.stands_off(culprit, Standing::TooLarge { largest_watts: 0.0 });
            rest = tail;
        }
        Ok(None)
    }

    fn put_on(&mut self, load: usize) {
        if let Some(law) = self.loads.get(load).map(|load| load.law) {
            self.set(load, law);
        }
    }

    fn fits(&mut self, powers: &[usize], start: &[f64]) -> Result<Option<Vec<f64>>, Failure> {
        for &load in powers {
            self.put_on(load);
        }
        match self.settle(Some(start)) {
            Ok(volts) => Ok(Some(volts)),
            Err(Failure::NoSolution) => Ok(None),
            Err(Failure::NotSettled) => Err(Failure::NotSettled),
        }
    }

    /// Settles, and leaves off what stands below its least voltage, the worst first; `settled` are the voltages of the laws as
    /// they stand, where they are known already.
    fn shed(&mut self, start: Option<&[f64]>, settled: Option<Vec<f64>>) -> Result<Vec<f64>, Failure> {
        let mut settled = settled;
        for round in 0.. {
            let volts = match settled.take() {
                Some(volts) => volts,
                None => self.settle(start)?,
            };
            let mut low: Vec<(usize, f64, f64)> = Vec::new();
            for (place, load) in self.loads.iter().enumerate() {
                let running = !matches!(self.laws.get(load.edge), Some(Law::Off) | None);
                let across = self.volts_of(load, &volts);
                // Without a least voltage a constant current still needs some.
                let rank = match load.law {
                    // Starved: the largest of these goes first, and before all others.
                    Law::Current { amperes, full_at } if amperes > 0.0 && across < full_at => -amperes,
                    _ => across.max(0.0) / load.least_volts.max(f64::MIN_POSITIVE),
                };
                if running && (below(across, load.least_volts) || rank < 0.0) {
                    low.push((place, across, rank));
                }
            }
            if low.is_empty() {
                return Ok(volts);
            }
            low.sort_by(|one, other| one.2.total_cmp(&other.2));
            let count = if round < ONE_BY_ONE { 1 } else { low.len() };
            for (place, volts, _) in low.into_iter().take(count) {
                self.stands_off(place, Standing::BelowLeastVoltage { volts, largest_watts: None });
            }
        }
        Err(Failure::NotSettled)
    }

    /// For each constant power that is left off: the most that it could have beside those that run.
    fn tell_largest(&mut self, start: &[f64]) {
        for load in 0..self.loads.len() {
            let Some(one) = self.loads.get(load) else { continue };
            let (Law::Power(asked), false) = (one.law, one.standing == Standing::Normal) else { continue };
            let (mut had, mut refused) = (0.0, asked);
            for _ in 0..HALVINGS {
                if refused - had <= POWER_FOUND * refused {
                    break;
                }
                let middle = 0.5 * (had + refused);
                if self.can_have(load, middle, start) {
                    had = middle;
                } else {
                    refused = middle;
                }
            }
            self.set(load, Law::Off);
            if let Some(entry) = self.loads.get_mut(load) {
                entry.standing = match entry.standing {
                    Standing::BelowLeastVoltage { volts, .. } => {
                        Standing::BelowLeastVoltage { volts, largest_watts: Some(had) }
                    }
                    _ => Standing::TooLarge { largest_watts: had },
                };
            }
        }
    }

    fn can_have(&mut self, load: usize, watts: f64, start: &[f64]) -> bool {
        if self.loads.get(load).is_none_or(|one| self.volts_of(one, start) <= NO_VOLTAGE * self.system.scale) {
            return false;
        }
        self.set(load, Law::Power(watts));
        let Ok(volts) = self.settle(Some(start)) else { return false };
        self.loads.iter().enumerate().all(|(place, one)| {
            let counts = place == load || one.standing == Standing::Normal;
            !counts || !below(self.volts_of(one, &volts), one.least_volts)
        })
    }

    fn solution(&self, volts: &[f64]) -> Solution {
        let system = &self.system;
        let law_of = |place: usize| {
            let edge = system.edge_of.get(place).copied().flatten()?;
            Some((*self.laws.get(edge)?, across(*system.ends.get(edge)?, volts)))
        };
        let own_current = |place: usize, part: &Part| match law_of(place) {
            Some((law, across)) => law.current(across),
            // Both ends are one node: a source drives its own short circuit, nothing else carries anything.
            None if matches!(part, Part::Source { .. }) => Law::of(part, system.scale).current(0.0),
            None => 0.0,
        };
        let mut amperes: Vec<f64> =
            self.network.elements.iter().enumerate().map(|(place, one)| own_current(place, &one.part)).collect();
        let mut reached = Sets::new(system.ids.len());
        for ((one, &[from, to]), &current) in self.network.elements.iter().zip(&system.nodes_of).zip(&amperes) {
            let blocks = matches!(one.part, Part::OneWay { .. }) && current <= 0.0;
            if !blocks && one.part != Part::Open {
                reached.join(from, to);
            }
        }
        let mut fed = vec![false; system.ids.len()];
        for (one, &[from, _]) in self.network.elements.iter().zip(&system.nodes_of) {
            if matches!(one.part, Part::Source { .. })
                && let Some(entry) = fed.get_mut(reached.find(from))
            {
                *entry = true;
            }
        }
        let mut state = |node: usize| match (fed.get(reached.find(node)), system.unknown_of.get(node)) {
            (Some(true), Some(Some(end))) => NodeState::Live(super::system::at(*end, volts)),
            _ => NodeState::Dead,
        };
        let states: Vec<NodeState> = (0..system.ids.len()).map(&mut state).collect();
        for (place, current) in joints::currents(self.network, system, &amperes) {
            if let Some(entry) = amperes.get_mut(place) {
                *entry = current;
            }
        }
        let mut standings = vec![Standing::Normal; self.network.elements.len()];
        for load in &self.loads {
            if let Some(entry) = system.edges.get(load.edge).and_then(|&element| standings.get_mut(element)) {
                *entry = load.standing;
            }
        }
        let state_at = |node: usize| states.get(node).copied().unwrap_or(NodeState::Dead);
        let told = self.network.elements.iter().zip(&system.nodes_of).zip(amperes.iter().zip(standings));
        let elements = told
            .map(|((one, &[from, to]), (&amperes, standing))| match (state_at(from), state_at(to)) {
                (NodeState::Live(high), NodeState::Live(low)) => {
                    let volts = high - low;
                    ElementState { volts, amperes, standing: stands(&one.part, volts, amperes, standing) }
                }
                (_, NodeState::Dead) | (NodeState::Dead, _) => {
                    let blocking = matches!(one.part, Part::OneWay { .. }) && state_at(from) != state_at(to);
                    let standing = if blocking { Standing::Blocking } else { Standing::Dead };
                    ElementState { volts: 0.0, amperes: 0.0, standing }
                }
            })
            .collect();
        let nodes = system.ids.iter().copied().zip(states.iter().copied()).collect();
        Solution { nodes, elements, iterations: self.steps }
    }
}

fn below(volts: f64, least: f64) -> bool {
    volts < least * (1.0 - SAME_VOLTAGE)
}

fn stands(part: &Part, volts: f64, amperes: f64, load: Standing) -> Standing {
    match *part {
        Part::Open => Standing::Dead,
        Part::Conductor { .. } => Standing::Normal,
        Part::OneWay { .. } if amperes <= 0.0 => Standing::Blocking,
        Part::Source { limit: Some(limit), .. } if -amperes >= limit => Standing::AtLimit,
        Part::Source { gives_only: true, .. } if amperes >= 0.0 => Standing::Blocking,
        Part::OneWay { .. } | Part::Source { .. } => Standing::Normal,
        // Both ends are one node: no edge stands for it, so nothing was asked of it.
        Part::Load { load: kind, least_volts } if load == Standing::Normal => match kind {
            Load::Resistance(_) if !below(volts, least_volts) => Standing::Normal,
            Load::Power(0.0) | Load::Current(0.0) if !below(volts, least_volts) => Standing::Normal,
            _ if amperes != 0.0 => Standing::Normal,
            Load::Power(_) => Standing::BelowLeastVoltage { volts, largest_watts: Some(0.0) },
            _ => Standing::BelowLeastVoltage { volts, largest_watts: None },
        },
        Part::Load { .. } => load,
    }
}
